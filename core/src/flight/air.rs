//! The air a ball flies through: its density from the weather and the height above the sea.
use super::fault::{FlightFault, check};
use crate::figures::flight::{
    AIR_DENSITY, AIR_TEMPERATURE, DENSITY_POWER, FREEZING, LAPSE, PRESSURE_POWER,
};
use crate::units::METRES_PER_YARD;

/// The air. Humidity is left out: moist air is lighter by less than 1 % (published: "almost nil").
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    density: f64,
}

impl Default for Air {
    /// 15 degrees C at sea level: 1.225 kg/m^3 (standard atmosphere).
    fn default() -> Self {
        Air {
            density: AIR_DENSITY,
        }
    }
}

impl Air {
    /// Air of a density, kg/m^3.
    ///
    /// # Errors
    /// A density outside 0 (no air) to 2 kg/m^3.
    pub fn of_density(density: f64) -> Result<Self, FlightFault> {
        check("density", density, 0.0..=2.0, "0 to 2 kg/m^3")?;
        Ok(Air { density })
    }

    /// Air as it is on average at an altitude, feet: the standard atmosphere, whose temperature falls with
    /// height.
    ///
    /// rho = 1.225 (1 - 2.25577e-5 h)^4.2559, h in metres (standard atmosphere, from memory).
    ///
    /// # Errors
    /// An altitude outside -1,500 to 20,000 ft.
    pub fn at_altitude(altitude_ft: f64) -> Result<Self, FlightFault> {
        let lapse = lapse(altitude_ft)?;
        Ok(Air {
            density: AIR_DENSITY * libm::pow(lapse, DENSITY_POWER),
        })
    }

    /// Air at a temperature, degrees Fahrenheit, and an altitude, feet.
    ///
    /// The pressure is the standard atmosphere's at the altitude, and the density follows by the gas law, p / T.
    ///
    /// # Errors
    /// A temperature outside -40 to 130 F or an altitude outside -1,500 to 20,000 ft.
    pub fn at_fahrenheit(temperature_f: f64, altitude_ft: f64) -> Result<Self, FlightFault> {
        check(
            "temperature_f",
            temperature_f,
            -40.0..=130.0,
            "-40 to 130 degrees F",
        )?;
        Self::of_weather((temperature_f - 32.0) / 1.8, altitude_ft)
    }

    /// Air at a temperature, degrees Celsius, and an altitude, feet; see [`Air::at_fahrenheit`].
    ///
    /// # Errors
    /// A temperature outside -40 to 55 C or an altitude outside -1,500 to 20,000 ft.
    pub fn at_celsius(temperature_c: f64, altitude_ft: f64) -> Result<Self, FlightFault> {
        check(
            "temperature_c",
            temperature_c,
            -40.0..=55.0,
            "-40 to 55 degrees C",
        )?;
        Self::of_weather(temperature_c, altitude_ft)
    }

    fn of_weather(temperature_c: f64, altitude_ft: f64) -> Result<Self, FlightFault> {
        let pressure = libm::pow(lapse(altitude_ft)?, PRESSURE_POWER);
        Ok(Air {
            density: AIR_DENSITY * pressure * (AIR_TEMPERATURE / (temperature_c + FREEZING)),
        })
    }

    /// Density, kg/m^3.
    #[must_use]
    pub fn density(self) -> f64 {
        self.density
    }
}

/// The standard atmosphere's temperature at an altitude as a share of that at sea level.
fn lapse(altitude_ft: f64) -> Result<f64, FlightFault> {
    check(
        "altitude_ft",
        altitude_ft,
        -1500.0..=20_000.0,
        "-1500 to 20000 ft",
    )?;
    let metres = altitude_ft / 3.0 * METRES_PER_YARD;
    Ok(1.0 - LAPSE * metres)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: table of the standard atmosphere (from memory): 1.225 kg/m^3 at sea level, 1.112 at 1 km,
    /// 0.909 at 3 km; the two formulas meet at the standard temperature.
    #[test]
    fn density_follows_the_standard_atmosphere() {
        let feet = |metres: f64| metres / METRES_PER_YARD * 3.0;
        for (metres, density) in [(0.0, 1.225), (1000.0, 1.112), (3000.0, 0.909)] {
            let air = Air::at_altitude(feet(metres)).unwrap();
            assert!((air.density() - density).abs() < 6e-4, "{air:?}");
            let same = Air::at_celsius(15.0 - 6.5e-3 * metres, feet(metres)).unwrap();
            assert!((air.density() - same.density()).abs() < 2e-4, "{same:?}");
        }
        // Source: p / (287.05 T) (gas law, from memory), 101,325 Pa at sea level.
        let cold = Air::at_celsius(0.0, 0.0).unwrap().density();
        assert!((cold - 101_325.0 / (287.05 * 273.15)).abs() < 2e-5);
        let warm = Air::at_fahrenheit(95.0, 0.0).unwrap();
        assert_eq!(warm, Air::at_celsius(35.0, 0.0).unwrap());
        assert!((warm.density() - 1.1455).abs() < 2e-4, "{warm:?}");
    }

    #[test]
    fn absurd_weather_is_refused_by_name() {
        for (fault, field) in [
            (Air::at_altitude(f64::NAN).unwrap_err(), "altitude_ft"),
            (Air::at_fahrenheit(500.0, 0.0).unwrap_err(), "temperature_f"),
            (Air::at_celsius(90.0, 0.0).unwrap_err(), "temperature_c"),
            (Air::of_density(-1.0).unwrap_err(), "density"),
        ] {
            assert!(fault.to_string().contains(field), "{fault}");
        }
    }
}
