//! The turf under a ball: how it gives at a blow and how it slows a rolling ball.
use super::fault::{GroundFault, check};
use crate::flight::GRAVITY;
use crate::hole::{Firmness, Surface};

/// What a ball meets on a surface.
///
/// *Skipping.* When a ball has found its roll, each blow tilts it up a little, and it goes on in ever smaller hops
/// until one no longer clears the grass. Worked out hop by hop, its speed falls by the same amount with
/// every yard (the tilt grows with the speed, so the resistance does), and the height of a hop goes with the
/// fourth power of the speed. Two numbers, fitted here to chains of hops on turf of factors 0.6 to 1.25, tell it all:
/// the speed lost per metre is 0.0196 g times the factor, and the rebound, m/s, is 0.0785 times the
/// factor times the square of the speed.
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

/// Fitted: see [`Turf`].
const SKIP_LOSS: f64 = 0.0196;
const SKIP_REBOUND: f64 = 0.0785;

/// Height below which a rebound from fairway is a roll, m.
const FAIRWAY_CLEARANCE: f64 = 0.020;

/// Friction of a sliding ball in Penner 2002 (from memory).
const FRICTION: f64 = 0.40;

/// Rolling resistance of a fairway (published runs of drives are met with it; common practice).
const FAIRWAY_ROLLING: f64 = 0.20;

/// Rolling resistance of a green times its Stimpmeter reading in feet: the bar releases the ball at
/// 1.8288 m/s, v^2 / 2d = 5/7 rolling g (published for the bar, computed for the rest).
const GREEN_ROLLING: f64 = 0.783;

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
            skip_loss: SKIP_LOSS * give * GRAVITY,
            skip_end: (rebound / (SKIP_REBOUND * give)).sqrt(),
        }
    }

    /// Fairway of a firmness.
    #[must_use]
    pub fn fairway(firmness: Firmness) -> Self {
        Self::of(
            firmness.factor(),
            FRICTION,
            FAIRWAY_ROLLING,
            FAIRWAY_CLEARANCE,
        )
    }

    /// A surface on a course of that firmness whose greens read `green_speed` feet on the Stimpmeter. None
    /// for water, where a ball stops.
    ///
    /// A surface's factors on give and on rolling resistance and what a ball has to clear there are common practice,
    /// no source: rolling as the toll a yard of it takes, give by how much of the blow long grass, litter or
    /// sand takes up. To be worked out once for each surface, not for each ball.
    #[must_use]
    pub fn on(surface: Surface, firmness: Firmness, green_speed: f64) -> Option<Self> {
        let green = GREEN_ROLLING / (FAIRWAY_ROLLING * green_speed.max(1.0));
        let (give, rolling, clearance) = match surface {
            Surface::Tee | Surface::Fairway | Surface::Fringe => (1.0, 1.0, 0.020),
            Surface::Green => (1.0, green, 0.020),
            Surface::FirstCut => (1.05, 1.6, 0.035),
            Surface::Rough | Surface::OutOfBounds => (1.15, 2.5, 0.060),
            Surface::Trees => (1.2, 4.0, 0.080),
            Surface::DeepRough => (1.3, 6.0, 0.150),
            Surface::Bunker => (1.8, 12.0, 0.250),
            Surface::PenaltyRed | Surface::PenaltyYellow => return None,
        };
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
