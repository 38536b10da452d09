//! The wind: how hard, from where, and how it grows with height.
use super::MPS_PER_MPH;
use super::fault::{FlightFault, check};

/// Height at which wind is measured, m (the meteorological convention).
const REFERENCE_HEIGHT: f64 = 10.0;
/// Roughness length of open mown grass, m (wind-engineering handbooks, from memory: 0.01 to 0.05).
const ROUGHNESS: f64 = 0.03;

/// How the wind changes with height above the ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum WindProfile {
    /// Logarithmic over open grass: ln(1 + z/z0) / ln(1 + 10/z0) times the wind at 10 m, z0 = 0.03 m (the
    /// logarithmic law of wind-engineering handbooks, from memory, shifted to be 0 at the ground). At 3, 30
    /// and 40 m it is 0.79, 1.19 and 1.24, as a power law of exponent 0.16 to 0.19.
    #[default]
    Logarithmic,
    /// The same at every height.
    Flat,
}

/// A steady wind. Gusts are not modelled.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wind {
    mph: f64,
    from_deg: f64,
    profile: WindProfile,
}

impl Wind {
    /// No wind.
    pub const CALM: Wind = Wind {
        mph: 0.0,
        from_deg: 0.0,
        profile: WindProfile::Logarithmic,
    };

    /// Wind of `mph` miles an hour at 10 m above the ground, blowing *from* the bearing `from_deg`
    /// (degrees clockwise from +y): 0 is in the face of a shot with bearing 0, 270 comes from its left.
    ///
    /// # Errors
    /// A speed outside 0 to 60 mph; a bearing outside -360 to 720.
    pub fn new(mph: f64, from_deg: f64) -> Result<Self, FlightFault> {
        check("wind_mph", mph, 0.0..=60.0, "0 to 60 mph")?;
        check(
            "wind_from_deg",
            from_deg,
            -360.0..=720.0,
            "-360 to 720 degrees",
        )?;
        Ok(Wind {
            mph,
            from_deg,
            profile: WindProfile::Logarithmic,
        })
    }

    /// The same wind with another profile.
    #[must_use]
    pub fn with_profile(self, profile: WindProfile) -> Self {
        Wind { profile, ..self }
    }

    /// Speed at 10 m above the ground, mph.
    #[must_use]
    pub fn mph(self) -> f64 {
        self.mph
    }

    /// The bearing the wind blows from, degrees, as given.
    #[must_use]
    pub fn from_deg(self) -> f64 {
        self.from_deg
    }

    /// How it changes with height.
    #[must_use]
    pub fn profile(self) -> WindProfile {
        self.profile
    }

    /// Where the wind blows *to* in the frame of a shot of a bearing: the unit components to the right of
    /// the aim and along it. A mirror image of the wind gives a mirror image to the bit.
    pub(super) fn blows_to(self, bearing_deg: f64) -> (f64, f64) {
        // The remainder is exact, and brought to -180..180 the sine is odd to the bit.
        let turn = libm::remainder(self.from_deg - bearing_deg, 360.0);
        let (sin, cos) = libm::sincos(turn.to_radians());
        (-sin, -cos)
    }

    /// The wind in the frame of a shot of a bearing.
    pub(super) fn over(self, bearing_deg: f64) -> Stream {
        let (right, along) = self.blows_to(bearing_deg);
        Stream::towards(self, right, along)
    }
}

/// The wind in the frame of one shot, m/s.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stream {
    right: f64,
    along: f64,
    /// One over the logarithm at the reference height, for a logarithmic profile.
    log_scale: Option<f64>,
}

impl Stream {
    /// A wind of the strength and profile of `wind` that blows along a unit vector in the frame of the shot.
    pub(super) fn towards(wind: Wind, right: f64, along: f64) -> Self {
        let speed = wind.mph * MPS_PER_MPH;
        let scale = 1.0 / libm::log1p(REFERENCE_HEIGHT / ROUGHNESS);
        Stream {
            right: right * speed,
            along: along * speed,
            log_scale: match wind.profile {
                WindProfile::Logarithmic => Some(scale),
                WindProfile::Flat => None,
            },
        }
    }

    /// Velocity `height` metres above where the ball was struck, right and along, m/s. Below it the air
    /// of a logarithmic profile stands still.
    #[inline]
    pub(super) fn at(&self, height: f64) -> (f64, f64) {
        if self.right == 0.0 && self.along == 0.0 {
            return (0.0, 0.0);
        }
        let share = self.log_scale.map_or(1.0, |scale| {
            scale * libm::log1p(height.max(0.0) * (1.0 / ROUGHNESS))
        });
        (self.right * share, self.along * share)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wind_blows_where_it_does_not_come_from() {
        for (from, right, along) in [
            (0.0, 0.0, -1.0),
            (90.0, -1.0, 0.0),
            (180.0, 0.0, 1.0),
            (270.0, 1.0, 0.0),
        ] {
            let (x, y) = Wind::new(10.0, from).unwrap().blows_to(0.0);
            assert!((x - right).abs() < 1e-15 && (y - along).abs() < 1e-15);
        }
        // In the face of a shot to the east.
        let (x, y) = Wind::new(10.0, 90.0).unwrap().blows_to(90.0);
        assert_eq!((x.abs(), y), (0.0, -1.0));
    }

    /// Source: power law over open grass, exponent 0.14 to 0.20 (wind-engineering handbooks, from memory).
    #[test]
    fn profile_lies_between_the_power_laws() {
        let stream = Wind::new(10.0, 180.0).unwrap().over(0.0);
        let at = |z| stream.at(z).1 / MPS_PER_MPH / 10.0;
        assert!((at(10.0) - 1.0).abs() < 1e-12 && at(0.0) == 0.0);
        for z in [3.0, 20.0, 30.0, 40.0] {
            let (a, b) = (libm::pow(z / 10.0, 0.14), libm::pow(z / 10.0, 0.20));
            assert!(a.min(b) < at(z) && at(z) < a.max(b), "{z}: {}", at(z));
        }
        let flat = Wind::new(10.0, 180.0)
            .unwrap()
            .with_profile(WindProfile::Flat)
            .over(0.0);
        assert_eq!(flat.at(0.0), flat.at(50.0));
    }

    #[test]
    fn absurd_wind_is_refused() {
        let fault = Wind::new(f64::NAN, 0.0).unwrap_err().to_string();
        assert_eq!(fault, "wind_mph is NaN; it must be 0 to 60 mph");
        assert!(Wind::new(61.0, 0.0).is_err() && Wind::new(5.0, f64::INFINITY).is_err());
    }
}
