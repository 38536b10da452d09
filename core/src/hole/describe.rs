//! A hole in words: its card, and what is on it.
use super::{Conditions, Hole, Surface, Terrain};
use std::fmt;

impl fmt::Display for Hole {
    /// Name, par and length, then each surface with how many there are and their area.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = self
            .number()
            .map_or(String::new(), |n| format!("No. {n}, "));
        write!(
            f,
            "{number}{}, par {}, {:.0} yd",
            self.name(),
            self.par(),
            self.length()
        )?;
        if let Some(index) = self.stroke_index() {
            write!(f, ", stroke index {index}")?;
        }
        write!(f, ", green speed {:.1} ft", self.green_speed())?;
        for surface in Surface::ALL {
            let of_it = || self.features().iter().filter(|x| x.surface == surface);
            let count = of_it().count();
            if count == 0 {
                continue;
            }
            write!(f, "\n  {:<15}{count:>3}", surface.name().replace('_', " "))?;
            // The outside of a boundary is drawn as far as the map needs; its area says nothing.
            if surface != Surface::OutOfBounds {
                write!(
                    f,
                    "{:>9.0} sq yd",
                    of_it().map(|x| x.outline.area()).sum::<f64>()
                )?;
            }
            let names: Vec<&str> = of_it().filter_map(|x| x.name.as_deref()).collect();
            if !names.is_empty() {
                write!(f, "  ({})", names.join(", "))?;
            }
        }
        write!(f, "{}{}", self.terrain(), self.conditions())?;
        for warning in self.notes() {
            write!(f, "\n  note: {}", warning.0)?;
        }
        Ok(())
    }
}

impl fmt::Display for Terrain {
    /// A line on what shapes the ground, each line after a line break; nothing for level ground.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(landform) = self.landform() else {
            return Ok(());
        };
        let mut words = Vec::new();
        if let Some(survey) = &landform.survey_ft {
            words.push(format!(
                "surveyed, {} by {} heights",
                survey.rows(),
                survey.columns()
            ));
        }
        if landform.rise_ft != 0.0 {
            let way = if landform.rise_ft > 0.0 {
                "uphill"
            } else {
                "downhill"
            };
            words.push(format!("{:.0} ft {way}", landform.rise_ft.abs()));
        }
        if landform.fall_right_percent != 0.0 {
            let side = if landform.fall_right_percent > 0.0 {
                "right"
            } else {
                "left"
            };
            let percent = landform.fall_right_percent.abs();
            words.push(format!("falls {percent:.1} % to the {side}"));
        }
        match landform.patches.len() {
            0 => {}
            1 => words.push("1 patch".to_owned()),
            n => words.push(format!("{n} patches")),
        }
        if landform.ordinary_greens {
            words.push("slopes of greens not told".to_owned());
        }
        write!(f, "\n  ground: {}", words.join(", "))
    }
}

impl fmt::Display for Conditions {
    /// What is not as usual, after a line break; nothing on the usual day.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let usual = Conditions::default();
        let mut words = Vec::new();
        if self.wind.mph() > 0.0 {
            let bearing = self.wind.from_deg().rem_euclid(360.0);
            let mph = self.wind.mph();
            words.push(format!("wind {mph} mph from {bearing} degrees"));
        }
        if self.firmness != usual.firmness {
            let factor = format!("firmness factor {}", self.firmness.factor());
            words.push(
                self.firmness
                    .name()
                    .map_or(factor, |name| format!("{name} ground")),
            );
        }
        if self.temperature_f != usual.temperature_f {
            words.push(format!("{} F", self.temperature_f));
        }
        if self.altitude_ft != usual.altitude_ft {
            words.push(format!("{} ft above the sea", self.altitude_ft));
        }
        if self.hole_diameter_in != usual.hole_diameter_in {
            words.push(format!("hole {} in across", self.hole_diameter_in));
        }
        if words.is_empty() {
            return Ok(());
        }
        write!(f, "\n  day: {}", words.join(", "))
    }
}
