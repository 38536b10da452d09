//! The weather a ball flies through.
use super::{Aerodynamics, Air, FlightFault, WindProfile};
use crate::hole::{Conditions, Wind};

/// The weather a ball flies through, and the law by which air holds and lifts it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Weather {
    /// The air in which the player's carries were measured; a single flight does not ask.
    pub home: Air,
    /// The air there is.
    pub air: Air,
    /// The wind there is.
    pub wind: Wind,
    /// How the wind changes with height.
    pub profile: WindProfile,
    /// The law of drag and lift.
    pub aerodynamics: Aerodynamics,
}

impl Weather {
    /// The weather of a day: its wind, and air of its temperature and altitude. A player's carries are taken to
    /// have been measured in the standard air of sea level.
    ///
    /// # Errors
    /// A temperature or an altitude out of range. Those of a hole's own conditions never are.
    pub fn of(day: &Conditions) -> Result<Self, FlightFault> {
        Ok(Weather {
            air: Air::at_fahrenheit(day.temperature_f, day.altitude_ft)?,
            wind: day.wind,
            ..Weather::default()
        })
    }

    /// The same without its wind, in the air in which the player's carries were measured.
    #[must_use]
    pub fn at_home(self) -> Self {
        Weather {
            air: self.home,
            wind: Wind::CALM,
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The usual day is the standard air, 59 F at sea level, to the bit: a player then carries what was measured.
    #[test]
    fn usual_day_is_the_standard_air() {
        assert_eq!(Weather::of(&Conditions::default()), Ok(Weather::default()));
    }

    #[test]
    fn a_day_brings_its_wind_and_its_air() {
        let wind = Wind::new(12.0, 250.0).unwrap();
        let day = Conditions {
            wind,
            temperature_f: 95.0,
            altitude_ft: 5280.0,
            ..Conditions::default()
        };
        let weather = Weather::of(&day).unwrap();
        assert_eq!(weather.wind, wind);
        assert_eq!(weather.air, Air::at_fahrenheit(95.0, 5280.0).unwrap());
        assert_eq!(weather.home, Air::default());
        let absurd = Conditions {
            temperature_f: f64::NAN,
            ..day
        };
        let fault = Weather::of(&absurd).unwrap_err().to_string();
        assert!(fault.starts_with("temperature_f is NaN"), "{fault}");
    }
}
