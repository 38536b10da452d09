//! The turf under a ball: how it gives at a blow and how it slows a rolling ball.
use super::fault::{GroundFault, check};
use crate::figures::ground::{self as figures, FAIRWAY_ROLLING, FRICTION, GREEN_ROLLING, MOWN};
use crate::flight::GRAVITY;
use crate::hole::{Firmness, Surface};

/// What a ball meets on a surface.
///
/// *Skipping.* When a ball has found its roll, each blow tilts it up a little, and it goes on in ever smaller hops
/// until one no longer clears the grass. Worked out hop by hop, its speed falls by the same amount with
/// every yard (the tilt grows with the speed, so the resistance does), and the height of a hop goes with the
/// fourth power of the speed. Two numbers, fitted to chains of hops, tell it all: the speed lost per metre over gravity, and
/// the rebound over the square of the speed; both go with the factor on give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turf {
    /// Factor on the angle by which the turf gives at a blow.
    pub(super) give: f64,
    /// Friction while the ball slides in a blow.
    pub(super) friction: f64,
    /// Rolling resistance: a level roll slows by 5/7 of this times gravity.
    pub(super) rolling: f64,
    /// A rebound that rises less than this, m, does not clear the grass.
    pub(super) clearance: f64,
    /// Speed a skipping ball loses per metre, 1/s.
    pub(super) skip_loss: f64,
    /// Speed at which skipping turns to rolling, m/s.
    pub(super) skip_end: f64,
}

impl Turf {
    /// Turf by its numbers: give 0.3 to 3 (1 is Penner's), friction 0.05 to 1, rolling 0.03 to 5, clearance 5 to 500 mm.
    ///
    /// # Errors
    /// The field outside its range.
    pub fn new(
        give: f64,
        friction: f64,
        rolling: f64,
        clearance_mm: f64,
    ) -> Result<Self, GroundFault> {
        check("give", give, 0.3..=3.0, "0.3 to 3")?;
        check("friction", friction, 0.05..=1.0, "0.05 to 1")?;
        check("rolling", rolling, 0.03..=5.0, "0.03 to 5")?;
        check("clearance_mm", clearance_mm, 5.0..=500.0, "5 to 500 mm")?;
        Ok(Self::of(give, friction, rolling, 0.001 * clearance_mm))
    }

    fn of(give: f64, friction: f64, rolling: f64, clearance: f64) -> Self {
        let rebound = (2.0 * GRAVITY * clearance).sqrt();
        Turf {
            give,
            friction,
            rolling,
            clearance,
            skip_loss: figures::SKIP_LOSS * give * GRAVITY,
            skip_end: (rebound / (figures::SKIP_REBOUND * give)).sqrt(),
        }
    }

    /// Fairway of a firmness.
    #[must_use]
    pub fn fairway(firmness: Firmness) -> Self {
        Self::of(firmness.factor(), FRICTION, FAIRWAY_ROLLING, MOWN.clearance)
    }

    /// A surface on a course of that firmness whose greens read `green_speed` feet on the Stimpmeter. None
    /// for water, where a ball stops.
    ///
    /// To be worked out once for each surface, not for each ball.
    #[must_use]
    pub fn on(surface: Surface, firmness: Firmness, green_speed: f64) -> Option<Self> {
        let green = GREEN_ROLLING / (FAIRWAY_ROLLING * green_speed.max(1.0));
        let next_to_fairway = match surface {
            Surface::Tee | Surface::Fairway | Surface::Fringe => MOWN,
            Surface::Green => figures::Surface {
                rolling: green,
                ..MOWN
            },
            Surface::FirstCut => figures::FIRST_CUT,
            Surface::Rough | Surface::OutOfBounds => figures::ROUGH,
            Surface::Trees => figures::TREES,
            Surface::DeepRough => figures::DEEP_ROUGH,
            Surface::Bunker => figures::BUNKER,
            Surface::PenaltyRed | Surface::PenaltyYellow => return None,
        };
        let figures::Surface {
            give,
            rolling,
            clearance,
        } = next_to_fairway;
        let give = firmness.factor() * give;
        Some(Self::of(
            give,
            FRICTION,
            FAIRWAY_ROLLING * rolling,
            clearance,
        ))
    }

    /// The turf of a surface by its name, as a question from outside gives it: checked [`Turf::on`].
    ///
    /// # Errors
    /// A name of no surface, or of one that is water; a green speed outside 3 to 20 feet.
    pub fn of_name(
        surface: &str,
        firmness: Firmness,
        green_speed: f64,
    ) -> Result<Self, GroundFault> {
        let allowed = "a Stimpmeter reading of 3 to 20 feet";
        check("green_speed", green_speed, 3.0..=20.0, allowed)?;
        let on = |surface| Self::on(surface, firmness, green_speed);
        Surface::from_name(surface)
            .and_then(on)
            .ok_or_else(|| GroundFault::NoTurf {
                name: surface.to_owned(),
                known: Surface::ALL
                    .into_iter()
                    .filter(|&surface| on(surface).is_some())
                    .map(Surface::name)
                    .collect::<Vec<_>>()
                    .join(", "),
            })
    }

    /// Rolling resistance: a level roll slows by 5/7 of this times gravity.
    #[must_use]
    pub fn rolling(self) -> f64 {
        self.rolling
    }

    /// The steepest slope (rise over run) on which a rolling ball still comes to rest.
    #[must_use]
    pub fn steepest_rest(self) -> f64 {
        self.rolling
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn absurd_turf_is_refused() {
        assert!(Turf::new(1.0, 2.0, 0.2, 20.0).is_err());
    }

    #[test]
    fn turf_is_found_by_name_or_refused() {
        let named = |name, speed| Turf::of_name(name, Firmness::FIRM, speed);
        assert_eq!(named("fairway", 9.0), Ok(Turf::fairway(Firmness::FIRM)));
        for name in ["moss", "penalty_red"] {
            let text = named(name, 9.0).unwrap_err().to_string();
            assert!(text.starts_with(&format!("surface is {name:?}; it must be one of tee, ")));
            assert!(text.ends_with("out_of_bounds, trees") && !text.contains("yellow"));
        }
        for speed in [f64::NAN, 2.0, 21.0] {
            let text = named("green", speed).unwrap_err().to_string();
            assert!(text.starts_with("green_speed is"), "{text}");
        }
    }

    /// Source: rho = 0.783 / S (Penner's quoted range 0.065 to 0.196 is S = 12 to 4; from memory).
    #[test]
    fn greens_roll_by_their_stimpmeter_reading() {
        let green = |speed| Turf::on(Surface::Green, Firmness::MEDIUM, speed).unwrap();
        assert!((green(12.0).rolling - 0.065).abs() < 5e-4);
        assert!((green(4.0).rolling - 0.196).abs() < 5e-4);
        assert!(Turf::on(Surface::PenaltyRed, Firmness::MEDIUM, 10.0).is_none());
    }
}
