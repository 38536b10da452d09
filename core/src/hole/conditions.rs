//! The day: wind, weather, how firm the ground and how fast the greens are.
//!
//! Plain data. What the wind and the air do to a ball is the business of the flight, what firm ground does that of the
//! bounce.
use super::{HoleFault, HoleFaults, check};
use crate::figures::ball::HOLE_DIAMETER_IN;
use crate::figures::flight::AIR_FAHRENHEIT;
use crate::figures::ground;
use std::ops::RangeInclusive;

/// A steady wind. Gusts are not modelled.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wind {
    mph: f64,
    from_deg: f64,
}

impl Wind {
    /// No wind.
    pub const CALM: Self = Wind {
        mph: 0.0,
        from_deg: 0.0,
    };

    /// A wind of `mph` miles an hour 10 m above the ground, 0 to 60, that blows *from* the bearing `from_deg`, degrees
    /// clockwise from +y of the plan, -360 to 720.
    ///
    /// A sketched hole starts along +y, so 0 is in the face of its tee shot, 90 from the right, 180 behind it. On a map +y
    /// is north.
    ///
    /// # Errors
    /// Both numbers, if both are out of range.
    pub fn new(mph: f64, from_deg: f64) -> Result<Self, HoleFaults> {
        let mut faults = Vec::new();
        range("wind.mph", mph, 0.0..=60.0, "mph", &mut faults);
        let bearings = -360.0..=720.0;
        range("wind.from_deg", from_deg, bearings, "degrees", &mut faults);
        if faults.is_empty() {
            Ok(Wind { mph, from_deg })
        } else {
            Err(HoleFaults(faults))
        }
    }

    /// Speed 10 m above the ground, mph.
    #[must_use]
    pub fn mph(self) -> f64 {
        self.mph
    }

    /// The bearing the wind blows from, degrees clockwise from +y, as given.
    #[must_use]
    pub fn from_deg(self) -> f64 {
        self.from_deg
    }
}

/// Notes a value outside the range allowed; NaN is outside.
fn range(
    field: &str,
    value: f64,
    allowed: RangeInclusive<f64>,
    unit: &str,
    faults: &mut Vec<HoleFault>,
) {
    if !allowed.contains(&value) {
        let allowed = format!("{} to {} {unit}", allowed.start(), allowed.end());
        faults.push(HoleFault::field(field, value, allowed));
    }
}

/// How firm the ground is: the factor on the give of turf under a landing ball, 0.5 (hardest) to 2 (softest).
///
/// Penner (2002, Can. J. Phys. 80) has one turf, medium here. The factors of the other names are engineering, not published:
/// they give runs of a drive from 6 to 60 yards.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Firmness(f64);

impl Default for Firmness {
    fn default() -> Self {
        Self::MEDIUM
    }
}

impl Firmness {
    /// After rain: 1.25.
    pub const SOFT: Self = Firmness(ground::SOFT);
    /// An ordinary day, the turf of Penner 2002: 1.
    pub const MEDIUM: Self = Firmness(ground::MEDIUM);
    /// Dry: 0.75.
    pub const FIRM: Self = Firmness(ground::FIRM);
    /// Baked seaside turf: 0.6.
    pub const LINKS_FIRM: Self = Firmness(ground::LINKS_FIRM);
    /// The names there are.
    const NAMED: [(&'static str, Self); 4] = [
        ("soft", Self::SOFT),
        ("medium", Self::MEDIUM),
        ("firm", Self::FIRM),
        ("links-firm", Self::LINKS_FIRM),
    ];
    /// What is allowed, in words.
    pub(crate) const ALLOWED: &'static str = "\"soft\", \"medium\", \"firm\", \"links-firm\" or a factor of 0.5 \
                                              (hardest) to 2 (softest)";

    /// A firmness by its factor.
    ///
    /// # Errors
    /// A factor outside 0.5 to 2.
    pub fn new(factor: f64) -> Result<Self, HoleFault> {
        if (0.5..=2.0).contains(&factor) {
            Ok(Firmness(factor))
        } else {
            Err(HoleFault::field("firmness", factor, Self::ALLOWED))
        }
    }

    /// The firmness of a name: `soft`, `medium`, `firm` or `links-firm`.
    ///
    /// # Errors
    /// Any other name.
    pub fn from_name(name: &str) -> Result<Self, HoleFault> {
        let known = Self::NAMED.into_iter().find(|(known, _)| *known == name);
        known
            .map(|(_, firmness)| firmness)
            .ok_or_else(|| HoleFault::field("firmness", format!("{name:?}"), Self::ALLOWED))
    }

    /// The factor.
    #[must_use]
    pub fn factor(self) -> f64 {
        self.0
    }

    /// Its name, if it has one.
    #[must_use]
    pub fn name(self) -> Option<&'static str> {
        Self::NAMED
            .into_iter()
            .find(|&(_, f)| f == self)
            .map(|(name, _)| name)
    }
}

/// The conditions of a day. The default is a still day of 59 F at sea level with ordinary ground, the green as fast as the
/// map tells and the hole as large as the Rules tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The wind.
    pub wind: Wind,
    /// How firm the ground is.
    pub firmness: Firmness,
    /// Stimpmeter reading of the green, feet, 4 to 16; None leaves it to the hole.
    pub green_speed: Option<f64>,
    /// Temperature, degrees Fahrenheit, -40 to 130.
    pub temperature_f: f64,
    /// Height above the sea, feet, -1,500 to 20,000.
    pub altitude_ft: f64,
    /// Diameter of the hole, inches: 4.25 by the Rules of Golf (Definitions: hole); 2 to 36 for those who study putting.
    pub hole_diameter_in: f64,
}

impl Default for Conditions {
    fn default() -> Self {
        Conditions {
            wind: Wind::CALM,
            firmness: Firmness::MEDIUM,
            green_speed: None,
            temperature_f: AIR_FAHRENHEIT,
            altitude_ft: 0.0,
            hole_diameter_in: HOLE_DIAMETER_IN,
        }
    }
}

impl Conditions {
    /// The same conditions, known to be good.
    ///
    /// # Errors
    /// Every value out of range at once.
    pub fn checked(self) -> Result<Self, HoleFaults> {
        let faults = &mut Vec::new();
        let temperatures = -40.0..=130.0;
        range(
            "temperature_f",
            self.temperature_f,
            temperatures,
            "degrees F",
            faults,
        );
        range(
            "altitude_ft",
            self.altitude_ft,
            -1500.0..=20_000.0,
            "feet",
            faults,
        );
        range(
            "hole_diameter_in",
            self.hole_diameter_in,
            2.0..=36.0,
            "inches",
            faults,
        );
        if let Some(speed) = self.green_speed {
            check::green_speed(speed, faults);
        }
        if faults.is_empty() {
            Ok(self)
        } else {
            Err(HoleFaults(std::mem::take(faults)))
        }
    }

    /// Width of the hole over that of the Rules of Golf.
    #[must_use]
    #[inline]
    pub fn hole_scale(&self) -> f64 {
        self.hole_diameter_in / HOLE_DIAMETER_IN
    }

    /// True for the usual day, which a document need not tell.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_out_of_range_is_named_at_once() {
        let absurd = Conditions {
            green_speed: Some(40.0),
            temperature_f: 459.0,
            altitude_ft: 1e9,
            hole_diameter_in: 0.0,
            ..Conditions::default()
        };
        let text = absurd.checked().unwrap_err().to_string();
        for words in [
            "green_speed_ft is 40; it must be 4 to 16",
            "temperature_f is 459",
            "altitude_ft is 1000000000",
            "hole_diameter_in is 0",
        ] {
            assert!(text.contains(words), "{text}");
        }
        assert_eq!(Conditions::default().checked(), Ok(Conditions::default()));
    }

    #[test]
    fn absurd_wind_is_refused_with_both_its_numbers() {
        let text = Wind::new(300.0, f64::NAN).unwrap_err().to_string();
        assert_eq!(
            text,
            "wind.mph is 300; it must be 0 to 60 mph\nwind.from_deg is NaN; it must be -360 to 720 degrees"
        );
        assert!(Wind::new(61.0, 0.0).is_err() && Wind::new(5.0, f64::INFINITY).is_err());
        assert_eq!(Wind::new(0.0, 0.0), Ok(Wind::CALM));
    }

    #[test]
    fn firmness_is_a_name_or_a_factor() {
        for name in ["soft", "medium", "firm", "links-firm"] {
            assert_eq!(Firmness::from_name(name).unwrap().name(), Some(name));
        }
        assert_eq!(Firmness::new(1.1).unwrap().name(), None);
        for fault in [Firmness::new(f64::NAN), Firmness::new(3.0)] {
            assert!(fault.unwrap_err().to_string().contains("0.5"));
        }
        let fault = Firmness::from_name("rock").unwrap_err().to_string();
        assert!(fault.contains("rock") && fault.contains("links-firm"));
    }
}
