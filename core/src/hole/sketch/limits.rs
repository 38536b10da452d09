//! The limits of a sketch's numbers.
use super::super::{HoleFault, check};
use super::{Along, Dogleg, Hazard, ROUND, Sketch};

/// Collects the faults of plain values.
struct Values(Vec<HoleFault>);

impl Values {
    /// Refuses a value outside `low..=high` (or no number).
    fn range(&mut self, field: impl Into<String>, value: f64, low: f64, high: f64) -> bool {
        let good = value >= low && value <= high;
        if !good {
            self.0
                .push(HoleFault::field(field, value, format!("{low} to {high}")));
        }
        good
    }

    fn hazards(&mut self, kind: &str, list: &[Hazard], sketch: &Sketch) {
        let (nearest, farthest) = (-100.0, sketch.length + 150.0);
        for (i, hazard) in list.iter().enumerate() {
            let (field, value, low, high) = match hazard.along {
                Along::FromTee(yards) => ("along", yards, nearest, farthest),
                Along::ShortOfGreen(yards) => {
                    let front = sketch.front();
                    ("short_of_green", yards, front - farthest, front - nearest)
                }
            };
            self.range(format!("{kind}[{i}].{field}"), value, low, high);
            self.range(format!("{kind}[{i}].right"), hazard.right, -300.0, 300.0);
            for (field, value) in [("length", hazard.length), ("width", hazard.width)] {
                if let Some(value) = value {
                    self.range(format!("{kind}[{i}].{field}"), value, 0.5, 1000.0);
                }
            }
            if kind != "trees" && hazard.canopy.is_some() {
                self.0.push(HoleFault::field(
                    format!("{kind}[{i}].canopy"),
                    "given",
                    "left out: only trees have one",
                ));
            }
        }
    }
}

impl Sketch {
    /// The shortest and longest hole of a par that a sketch accepts: far wider than what is built (common practice,
    /// no source).
    fn length_range(&self) -> Option<(f64, f64)> {
        match self.par {
            3 => Some((40.0, 400.0)),
            4 => Some((150.0, 700.0)),
            5 => Some((300.0, 1000.0)),
            6 => Some((450.0, 1500.0)),
            _ => None,
        }
    }

    /// Every fault of the numbers.
    pub(super) fn faults(&self) -> Vec<HoleFault> {
        let mut values = Values(Vec::new());
        check::card(
            Some(&self.name),
            self.number.map(i64::from),
            Some(i64::from(self.par)),
            self.stroke_index.map(i64::from),
            &mut values.0,
        );
        check::green_speed(self.green_speed, &mut values.0);
        let (low, high) = self.length_range().unwrap_or((30.0, 2640.0));
        let field = self.length_range().map_or("length".to_owned(), |_| {
            format!("length of a par {}", self.par)
        });
        let length_is_good = values.range(field, self.length, low, high);
        let green_is_good = [
            ("green_depth", self.green_depth),
            ("green_width", self.green_width),
        ]
        .map(|(field, value)| values.range(field, value, 5.0, 80.0));
        values.range("first_cut_width", self.first_cut_width, 0.0, 30.0);
        values.range("fringe_width", self.fringe_width, 0.0, 10.0);
        if let Some(width) = self.fairway_width {
            values.range("fairway_width", width, 5.0, 150.0);
        }
        if let Some(offset) = self.out_of_bounds_offset {
            values.range("out_of_bounds_offset", offset, 8.0, 300.0);
            if self.out_of_bounds.is_none() {
                let allowed = "left out: no side is out of bounds without out_of_bounds";
                let fault = HoleFault::field("out_of_bounds_offset", offset, allowed);
                values.0.push(fault);
            }
        }
        if length_is_good && green_is_good == [true, true] {
            self.check_along(&mut values);
        }
        values.0
    }

    /// Checks what is measured along the hole; its length is known to be good.
    fn check_along(&self, values: &mut Values) {
        values.range(
            "pin_back",
            self.pin_back,
            -self.green_depth / 2.0,
            self.green_depth / 2.0,
        );
        values.range(
            "pin_right",
            self.pin_right,
            -self.green_width / 2.0,
            self.green_width / 2.0,
        );
        values.hazards("bunkers", &self.bunkers, self);
        values.hazards("water", &self.water, self);
        values.hazards("trees", &self.trees, self);
        for (i, crossing) in self.crossings.iter().enumerate() {
            values.range(format!("crossings[{i}].at"), crossing.at, 0.0, self.length);
            values.range(format!("crossings[{i}].width"), crossing.width, 0.5, 300.0);
        }
        let (from, to) = self.fairway();
        let fairway_is_good = values.range("fairway_from", from, 0.0, self.length - 10.0)
            && values.range(
                "fairway_to",
                to,
                from + 10.0,
                self.length + self.green_depth,
            );
        if let Some(dogleg) = self.dogleg {
            let good = values.range("dogleg.turn_deg", dogleg.turn_deg, -100.0, 100.0)
                && values.range("dogleg.at", dogleg.at, 20.0, self.length - 20.0);
            if good && fairway_is_good {
                self.check_bend(dogleg, from, to, values);
            }
        }
    }

    /// The bend must leave room for the fairway's inner edge, or lie clear of the fairway.
    fn check_bend(&self, dogleg: Dogleg, from: f64, to: f64, values: &mut Values) {
        let half = self.fairway_width() / 2.0 + self.first_cut_width;
        let room = ROUND
            + half * libm::tan(dogleg.turn_deg.to_radians().abs() / 2.0)
            + self.first_cut_width;
        let clear =
            dogleg.at < from - self.first_cut_width || dogleg.at > to + self.first_cut_width;
        let inside = dogleg.at > from + room && dogleg.at < to - room;
        if !(clear || inside) {
            let allowed = format!(
                "{:.0} to {:.0}, or clear of the fairway ({from:.0} to {to:.0})",
                from + room,
                to - room
            );
            values
                .0
                .push(HoleFault::field("dogleg.at", dogleg.at, allowed));
        }
    }
}
