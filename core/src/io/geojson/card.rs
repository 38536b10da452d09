//! What stands on the card of a hole: its name, number, par and stroke index.
use super::plays::{Play, parts};
use super::{Notes, Options, Tee};
use crate::geometry::Point;
use crate::io::ReadFault;
use crate::units::yards_from_metres;

/// What stands on the card; None is what is missing or was reported.
pub(super) struct Card {
    pub(super) name: String,
    pub(super) number: Option<i64>,
    pub(super) par: Option<i64>,
    pub(super) stroke_index: Option<i64>,
}

/// Reads the card: what is told comes before what the map says.
pub(super) fn card(play: Option<&Play<'_>>, options: &Options, notes: &mut Notes) -> Card {
    let reference = play.and_then(|play| play.reference.clone());
    let number = options
        .number
        .or_else(|| whole("ref", reference.as_deref(), 99, notes));
    let mapped = play.and_then(|play| play.feature.name());
    let name = options
        .name
        .clone()
        .or(mapped)
        .unwrap_or_else(|| match (&reference, number) {
            (_, Some(number)) => format!("Hole {number}"),
            (Some(reference), None) => format!("Hole {reference}"),
            (None, None) => "Hole".to_owned(),
        });
    let index = play.and_then(|play| told(play, &["handicap", "stroke_index"], options));
    let stroke_index = options
        .stroke_index
        .or_else(|| whole("handicap", index, 18, notes));
    Card {
        name,
        number,
        par: options.par.or_else(|| par(play, options, notes)),
        stroke_index,
    }
}

/// A tag of the card: for the tee that is played from, where the map tells that, and for the number of the hole.
fn told<'p>(play: &'p Play<'_>, keys: &[&str], options: &Options) -> Option<&'p str> {
    let tags = &play.feature.tags;
    let for_tee = match &options.tee {
        Some(Tee::Named(tee)) => keys
            .iter()
            .find_map(|key| tags.get(&format!("{key}:{}", tee.trim().to_lowercase()))),
        _ => None,
    };
    let text = for_tee.or_else(|| tags.first(keys))?;
    let several = parts(text);
    if several.len() == play.parts {
        return several.get(play.part).copied();
    }
    Some(text)
}

/// Par, which no hole can do without.
fn par(play: Option<&Play<'_>>, options: &Options, notes: &mut Notes) -> Option<i64> {
    let label = play.map_or_else(|| "line".to_owned(), |play| play.feature.label());
    let field = format!("{label}: par");
    let allowed = "a whole number, 3 to 6; what the map does not tell can be told with par=";
    let Some(text) = play.and_then(|play| told(play, &["par", "golf:par"], options)) else {
        notes.faults.push(ReadFault::Missing {
            field,
            allowed: allowed.to_owned(),
        });
        return None;
    };
    let par = number(text);
    if par.is_none() {
        notes.faults.push(ReadFault::Field {
            field,
            value: format!("{text:?}"),
            allowed: allowed.to_owned(),
        });
    }
    par
}

/// A number of the card that nothing depends on: a wrong one is left out with a note.
fn whole(field: &str, text: Option<&str>, highest: i64, notes: &mut Notes) -> Option<i64> {
    let text = text?;
    let found = number(text).filter(|n| (1..=highest).contains(n));
    if found.is_none() {
        notes.warn(format!(
            "{field} is {text:?}, no whole number from 1 to {highest}: left out"
        ));
    }
    found
}

/// A whole number, as `4` or `4.0`.
fn number(text: &str) -> Option<i64> {
    let value: f64 = text.trim().parse().ok()?;
    (value.fract() == 0.0 && value.abs() < 1e6).then_some(value as i64)
}

/// Notes where the line of play is not as long as the map says (`dist`, metres or yards): a sign of swapped
/// longitude and latitude or of another tee.
pub(super) fn check_distance(
    play: Option<&Play<'_>>,
    line: &[Point],
    options: &Options,
    notes: &mut Notes,
) {
    let said = play.and_then(|play| told(play, &["dist"], options));
    let said = said.and_then(|text| text.parse::<f64>().ok());
    let Some(said) = said.filter(|d| *d > 0.0 && d.is_finite()) else {
        return;
    };
    let length: f64 = line.windows(2).map(|s| (s[1] - s[0]).norm()).sum();
    let fits = |yards: f64| (length / yards - 1.0).abs() < 0.1;
    if !fits(said) && !fits(yards_from_metres(said)) {
        notes.warn(format!(
            "dist is {said}, but the line of play is {length:.0} yards long"
        ));
    }
}
