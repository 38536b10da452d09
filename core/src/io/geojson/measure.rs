//! Lengths as mappers write them.
use crate::units::{METRES_PER_YARD, yards_from_feet, yards_from_metres};

/// The longest length a tag can tell, metres.
const LONGEST: f64 = 1000.0;

/// A length told in a tag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Length {
    pub(super) yards: f64,
    /// False where the tag does not tell one plain number: `~15`, `2-3`.
    pub(super) exact: bool,
}

/// A length in metres, or in feet with `ft` or `'`: above 0 and at most 1000 metres. Of `2-3` the middle is taken.
pub(super) fn length(text: &str) -> Option<Length> {
    /// Words that say that the number is none that was measured.
    const ROUGHLY: [&str; 8] = ["~", "≈", "ca.", "ca", "c.", "about", "approx.", "approx"];
    let text = text.trim().to_lowercase();
    let bare = ROUGHLY.iter().find_map(|word| text.strip_prefix(word));
    let (number, unit) = parted(bare.unwrap_or(&text));
    let parts: Vec<&str> = number.split(['-', '–', ';']).map(str::trim).collect();
    let value = match parts.as_slice() {
        [one] => decimal(one)?,
        [low, high] => 0.5 * (decimal(low)? + decimal(high)?),
        _ => return None,
    };
    let yards = unit.yards(value);
    let good = yards > 0.0 && yards <= LONGEST / METRES_PER_YARD;
    good.then_some(Length {
        yards,
        exact: bare.is_none() && parts.len() == 1,
    })
}

#[derive(Clone, Copy)]
enum Unit {
    Metres,
    Feet,
}

impl Unit {
    fn yards(self, value: f64) -> f64 {
        match self {
            Unit::Metres => yards_from_metres(value),
            Unit::Feet => yards_from_feet(value),
        }
    }
}

/// The number and the unit behind it.
fn parted(text: &str) -> (&str, Unit) {
    const UNITS: [(&str, Unit); 8] = [
        ("feet", Unit::Feet),
        ("foot", Unit::Feet),
        ("ft", Unit::Feet),
        ("'", Unit::Feet),
        ("metres", Unit::Metres),
        ("meters", Unit::Metres),
        ("metre", Unit::Metres),
        ("m", Unit::Metres),
    ];
    let found = UNITS
        .iter()
        .find_map(|(word, unit)| Some((text.strip_suffix(word)?.trim(), *unit)));
    found.unwrap_or((text.trim(), Unit::Metres))
}

/// A number that may have a decimal comma.
fn decimal(text: &str) -> Option<f64> {
    text.replace(',', ".").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_as_mappers_write_them() {
        for (text, metres, exact) in [
            ("12", 12.0, true),
            ("12.5 m", 12.5, true),
            ("1,5", 1.5, true),
            ("40 ft", 12.192, true),
            ("6'", 1.8288, true),
            ("~15", 15.0, false),
            ("2-3", 2.5, false),
            ("ca. 8 metres", 8.0, false),
        ] {
            let found = length(text).unwrap();
            assert!(
                (found.yards * METRES_PER_YARD - metres).abs() < 1e-9,
                "{text}"
            );
            assert_eq!(found.exact, exact, "{text}");
        }
        for text in ["", "tall", "-3", "0", "2000", "nan", "inf", "1-2-3", "-"] {
            assert_eq!(length(text), None, "{text}");
        }
    }
}
