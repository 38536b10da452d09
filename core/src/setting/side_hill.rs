//! A ball that lies on a slope.
use super::Prepared;
use crate::figures::lie::{NOTICED_SLOPE, SLOPE_MISHITS, SLOPE_SPREAD};
use crate::geometry::{Vector, right_of};

/// How the ground lies under a ball, seen along the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SideHill {
    /// Rise over run to the right of the aim.
    pub right: f64,
    /// How steep it is in all, rise over run.
    pub steep: f64,
}

impl SideHill {
    /// Level ground.
    pub const LEVEL: SideHill = SideHill {
        right: 0.0,
        steep: 0.0,
    };

    /// Ground that rises by `gradient`, under a ball that is played along the unit vector `forward`.
    #[must_use]
    #[inline]
    pub fn of(gradient: Vector, forward: Vector) -> Self {
        SideHill {
            right: gradient.dot(&right_of(forward)),
            steep: gradient.norm(),
        }
    }

    /// Yards to the right of the aim, per yard of carry, that the slope turns a stroke: a club face laid on a side
    /// slope looks downhill, the more the more loft it has (plane geometry).
    #[must_use]
    #[inline]
    pub fn pull(&self, stroke: &Prepared) -> f64 {
        let share = (self.steep / NOTICED_SLOPE - 1.0).clamp(0.0, 1.0);
        -self.right * stroke.lift * share
    }

    /// Factor on the spread of solid strikes.
    #[must_use]
    #[inline]
    pub fn spread(&self) -> f64 {
        1.0 + SLOPE_SPREAD * (self.steep - NOTICED_SLOPE).max(0.0)
    }

    /// Factor on the share of mishits.
    #[must_use]
    #[inline]
    pub fn mishits(&self) -> f64 {
        1.0 + SLOPE_MISHITS * (self.steep - NOTICED_SLOPE).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Up to a slope of 3 % nothing is felt; at 10 % spreads are wider by 3 x 0.07 and mishits more by 7 x 0.07.
    #[test]
    fn a_gentle_slope_is_not_felt() {
        for percent in [0.0, 1.0, 2.9] {
            let hill = SideHill::of(Vector::new(0.01 * percent, 0.0), Vector::y());
            assert_eq!((hill.spread(), hill.mishits()), (1.0, 1.0), "{percent}");
        }
        let hill = SideHill::of(Vector::new(0.06, 0.08), Vector::y());
        assert!((hill.spread() - 1.21).abs() < 1e-12 && (hill.mishits() - 1.49).abs() < 1e-12);
        assert!((hill.right - 0.06).abs() < 1e-12);
    }
}
