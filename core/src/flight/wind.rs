//! What a wind is in the frame of a shot, and how it grows with height.
use super::MPS_PER_MPH;
use super::fault::{FlightFault, find};
use crate::figures::flight::{ROUGHNESS, WIND_HEIGHT};
use crate::hole::Wind;

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

impl WindProfile {
    /// Every profile.
    pub const ALL: [Self; 2] = [Self::Logarithmic, Self::Flat];

    /// Its name: `logarithmic` or `flat`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            WindProfile::Logarithmic => "logarithmic",
            WindProfile::Flat => "flat",
        }
    }

    /// The profile of a name.
    ///
    /// # Errors
    /// [`FlightFault::UnknownName`] with the names there are.
    pub fn from_name(name: &str) -> Result<Self, FlightFault> {
        find("wind_profile", name, &Self::ALL, Self::name)
    }
}

/// Where the wind blows *to* in the frame of a shot of a bearing: the unit components to the right of the aim and along
/// it. A mirror image of the wind gives a mirror image to the bit.
pub(super) fn blows_to(wind: Wind, bearing_deg: f64) -> (f64, f64) {
    // The remainder is exact, and brought to -180..180 the sine is odd to the bit.
    let turn = libm::remainder(wind.from_deg() - bearing_deg, 360.0);
    let (sin, cos) = libm::sincos(turn.to_radians());
    (-sin, -cos)
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
    /// Air that stands still.
    pub(super) const STILL: Self = Stream {
        right: 0.0,
        along: 0.0,
        log_scale: None,
    };

    /// The wind in the frame of a shot of a bearing.
    pub(super) fn over(wind: Wind, profile: WindProfile, bearing_deg: f64) -> Self {
        let (right, along) = blows_to(wind, bearing_deg);
        Self::towards(wind.mph(), profile, right, along)
    }

    /// A wind of `mph` miles an hour that blows along a unit vector in the frame of the shot.
    pub(super) fn towards(mph: f64, profile: WindProfile, right: f64, along: f64) -> Self {
        let speed = mph * MPS_PER_MPH;
        let scale = 1.0 / libm::log1p(WIND_HEIGHT / ROUGHNESS);
        Stream {
            right: right * speed,
            along: along * speed,
            log_scale: match profile {
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
    fn profiles_have_names() {
        for profile in WindProfile::ALL {
            assert_eq!(WindProfile::from_name(profile.name()), Ok(profile));
        }
        let fault = WindProfile::from_name("gusty").unwrap_err().to_string();
        assert_eq!(
            fault,
            "wind_profile is \"gusty\"; it must be one of logarithmic, flat"
        );
    }

    #[test]
    fn wind_blows_where_it_does_not_come_from() {
        for (from, right, along) in [
            (0.0, 0.0, -1.0),
            (90.0, -1.0, 0.0),
            (180.0, 0.0, 1.0),
            (270.0, 1.0, 0.0),
        ] {
            let (x, y) = blows_to(Wind::new(10.0, from).unwrap(), 0.0);
            assert!((x - right).abs() < 1e-15 && (y - along).abs() < 1e-15);
        }
        // In the face of a shot to the east.
        let (x, y) = blows_to(Wind::new(10.0, 90.0).unwrap(), 90.0);
        assert_eq!((x.abs(), y), (0.0, -1.0));
    }

    /// Source: power law over open grass, exponent 0.14 to 0.20 (wind-engineering handbooks, from memory).
    #[test]
    fn profile_lies_between_the_power_laws() {
        let wind = Wind::new(10.0, 180.0).unwrap();
        let stream = Stream::over(wind, WindProfile::Logarithmic, 0.0);
        let at = |z| stream.at(z).1 / MPS_PER_MPH / 10.0;
        assert!((at(10.0) - 1.0).abs() < 1e-12 && at(0.0) == 0.0);
        for z in [3.0, 20.0, 30.0, 40.0] {
            let (a, b) = (libm::pow(z / 10.0, 0.14), libm::pow(z / 10.0, 0.20));
            assert!(a.min(b) < at(z) && at(z) < a.max(b), "{z}: {}", at(z));
        }
        let flat = Stream::over(wind, WindProfile::Flat, 0.0);
        assert_eq!(flat.at(0.0), flat.at(50.0));
    }
}
