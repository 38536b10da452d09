//! The same hole from another tee.
use super::{Hole, HoleFault, HoleFaults, HoleParts, Landform};
use crate::geometry::{Line, Point};

impl Hole {
    /// The same hole from the tee of a name; capitals do not matter.
    ///
    /// # Errors
    /// No tee or several tees of that name, or every fault of the hole from there.
    pub fn with_tee(&self, name: &str) -> Result<Self, HoleFaults> {
        let tees = &self.about().tees;
        let same = |other: &str| other.trim().eq_ignore_ascii_case(name.trim());
        let mut found = tees.iter().filter(|tee| same(&tee.name));
        match (found.next(), found.next()) {
            (Some(tee), None) => self.with_tee_at(tee.at),
            (first, _) => Err(HoleFaults(vec![HoleFault::field(
                "tee",
                format!("{name:?}"),
                match (first, tees.len()) {
                    (Some(_), _) => format!("the name of one tee; {} have it", 2 + found.count()),
                    (None, 0) => "left out: no tee of the hole has a name".to_owned(),
                    (None, _) => format!("the name of a tee: {}", self.names_of_tees()),
                },
            )])),
        }
    }

    fn names_of_tees(&self) -> String {
        let names: Vec<&str> = self.about().tees.iter().map(|t| t.name.as_str()).collect();
        names.join(", ")
    }

    /// The same hole with the tee shot played from another place. The line of play begins there and goes on by those of
    /// its turns that are still ahead.
    ///
    /// # Errors
    /// Every fault of the hole from there, such as a tee in a penalty area or a line of play that is too short.
    pub fn with_tee_at(&self, tee: Point) -> Result<Self, HoleFaults> {
        if !super::draft::is_sane(tee) {
            let (what, x, y) = ("tee".to_owned(), tee.x, tee.y);
            return Err(HoleFaults(vec![HoleFault::Coordinate { what, x, y }]));
        }
        let line = Line::new(from_tee(self.line().vertices(), tee))
            .map_err(|list| HoleFaults(list.into_iter().map(HoleFault::Line).collect()))?;
        let parts = HoleParts {
            tee,
            line,
            ..self.parts.clone()
        };
        let hole = Hole {
            conditions: self.conditions,
            about: self.about.clone(),
            ..Self::new(parts, self.warnings.clone())?
        };
        let Some(landform) = self.terrain.landform() else {
            return Ok(hole);
        };
        // A plane that rises from the old tee to the green is as steep from the new one.
        let straight = |tee: Point| (self.middle_of_green() - tee).norm();
        let rise_ft = landform.rise_ft * straight(tee) / straight(self.tee()).max(1.0);
        hole.with_terrain(Landform {
            rise_ft,
            ..landform.clone()
        })
    }
}

/// The line of play from a tee: from there by the turns that are still ahead.
pub(crate) fn from_tee(line: &[Point], tee: Point) -> Vec<Point> {
    /// A turn this close ahead, yards, is no turn any more.
    const BEHIND: f64 = 5.0;
    let (mut best, mut along_best, mut along) = (f64::INFINITY, 0.0, 0.0);
    let mut stations = vec![0.0];
    for leg in line.windows(2) {
        let (way, long) = (leg[1] - leg[0], (leg[1] - leg[0]).norm());
        let share = (tee - leg[0]).dot(&way) / (long * long).max(f64::MIN_POSITIVE);
        let share = share.clamp(0.0, 1.0);
        let off = (leg[0] + way * share - tee).norm();
        if off < best {
            (best, along_best) = (off, along + share * long);
        }
        along += long;
        stations.push(along);
    }
    let last = line.len().saturating_sub(1);
    let ahead = line.iter().zip(&stations).enumerate();
    let ahead = ahead.filter(|&(i, (_, &at))| i == last || (i > 0 && at > along_best + BEHIND));
    std::iter::once(tee)
        .chain(ahead.map(|(_, (&p, _))| p))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_behind_a_tee_are_left_out() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let line = [p(0.0, 0.0), p(0.0, 200.0), p(100.0, 300.0)];
        let from = |tee: Point| from_tee(&line, tee);
        assert_eq!(from(p(3.0, 40.0)), [p(3.0, 40.0), line[1], line[2]]);
        assert_eq!(from(p(0.0, -30.0)), [p(0.0, -30.0), line[1], line[2]]);
        assert_eq!(from(p(0.0, 198.0)), [p(0.0, 198.0), line[2]]);
        assert_eq!(from(p(45.0, 250.0)), [p(45.0, 250.0), line[2]]);
    }
}
