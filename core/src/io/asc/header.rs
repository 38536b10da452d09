//! What stands above the heights of an ESRI ASCII grid: how many there are and where they lie.
use super::shortened;
use crate::io::ReadFault;
use crate::io::fault::wrong;

/// The keys there are, in the order they are usually written.
const KEYS: [&str; 8] = [
    "ncols",
    "nrows",
    "xllcorner",
    "yllcorner",
    "xllcenter",
    "yllcenter",
    "cellsize",
    "nodata_value",
];
/// The mark for a gap where the header tells none.
const NO_DATA: f64 = -9999.0;

/// What stands above the heights.
pub(super) struct Header {
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// The centre of the lower left cell, in the grid's own coordinates.
    pub(super) first: (f64, f64),
    pub(super) cell: f64,
    pub(super) no_data: f64,
}

/// The header, unless it is faulty or tells more heights than `most`, and the text behind it.
pub(super) fn header<'a>(
    text: &'a str,
    most: usize,
    faults: &mut Vec<ReadFault>,
) -> (Option<Header>, &'a str) {
    let mut rest = text.strip_prefix('\u{feff}').unwrap_or(text).trim_start();
    let mut found: [Option<&str>; KEYS.len()] = [None; KEYS.len()];
    let before = faults.len();
    // A word that is no number is a key; "nan" is a number, and a fault of its place.
    while let Some((key, after)) = word(rest).filter(|(key, _)| key.parse::<f64>().is_err()) {
        let Some(i) = KEYS
            .iter()
            .position(|known| key.eq_ignore_ascii_case(known))
        else {
            faults.push(ReadFault::Unknown {
                field: shortened(key),
                known: KEYS.join(", "),
            });
            return (None, after);
        };
        let Some((value, after)) = word(after) else {
            break;
        };
        if found[i].replace(value).is_some() {
            faults.push(wrong(KEYS[i], "told twice", "told once"));
        }
        rest = after;
    }
    let mut keys = Keys {
        found,
        most,
        faults,
    };
    let header = keys.header();
    (header.filter(|_| faults.len() == before), rest)
}

/// The values of the keys being read.
struct Keys<'a, 'f> {
    found: [Option<&'a str>; KEYS.len()],
    most: usize,
    faults: &'f mut Vec<ReadFault>,
}

impl<'a> Keys<'a, '_> {
    fn header(&mut self) -> Option<Header> {
        let (columns, rows) = (self.count(0), self.count(1));
        let (x, y) = (self.corner(2), self.corner(3));
        let cell = self.cell();
        let no_data = match self.found[7] {
            Some(_) => self.number(7, false),
            None => Some(NO_DATA),
        };
        let (columns, rows, cell) = (columns?, rows?, cell?);
        if columns.checked_mul(rows).is_none_or(|n| n > self.most) {
            let size = format!("{columns} by {rows}");
            let allowed = format!("at most {} heights", self.most);
            self.faults.push(wrong("ncols by nrows", &size, &allowed));
            return None;
        }
        let centre = |(low, corner): (f64, bool)| if corner { low + 0.5 * cell } else { low };
        Some(Header {
            columns,
            rows,
            first: (centre(x?), centre(y?)),
            cell,
            no_data: no_data?,
        })
    }

    fn cell(&mut self) -> Option<f64> {
        let cell = self.number(6, true)?;
        if !(cell > 0.0) {
            let allowed = "a number above 0";
            self.faults.push(wrong(KEYS[6], &cell.to_string(), allowed));
            return None;
        }
        Some(cell)
    }

    fn count(&mut self, key: usize) -> Option<usize> {
        let allowed = "a whole number, 2 or more";
        let value = self.value(key, allowed)?;
        let count = value.parse().ok().filter(|&n: &usize| n >= 2);
        if count.is_none() {
            self.faults.push(wrong(KEYS[key], value, allowed));
        }
        count
    }

    fn number(&mut self, key: usize, finite: bool) -> Option<f64> {
        let allowed = "a finite number";
        let value = self.value(key, allowed)?;
        // A mark for gaps may be NaN: then every NaN is a gap.
        let number = value
            .parse()
            .ok()
            .filter(|n: &f64| !finite || n.is_finite());
        if number.is_none() {
            self.faults.push(wrong(KEYS[key], value, allowed));
        }
        number
    }

    /// The corner (key `corner`) or centre (two keys on) of an axis, and whether it is the corner.
    fn corner(&mut self, corner: usize) -> Option<(f64, bool)> {
        let centre = corner + 2;
        match (self.found[corner], self.found[centre]) {
            (Some(_), Some(_)) => {
                let allowed = format!("left out, {} being told", KEYS[corner]);
                self.faults.push(wrong(KEYS[centre], "told", &allowed));
                None
            }
            (None, Some(_)) => self.number(centre, true).map(|x| (x, false)),
            _ => self.number(corner, true).map(|x| (x, true)),
        }
    }

    fn value(&mut self, key: usize, allowed: &str) -> Option<&'a str> {
        if self.found[key].is_none() {
            self.faults.push(ReadFault::Missing {
                field: KEYS[key].to_owned(),
                allowed: allowed.to_owned(),
            });
        }
        self.found[key]
    }
}

/// The first word of a text and what follows it.
fn word(text: &str) -> Option<(&str, &str)> {
    let text = text.trim_ascii_start();
    if text.is_empty() {
        return None;
    }
    let end = text
        .find(|c: char| c.is_ascii_whitespace())
        .unwrap_or(text.len());
    Some(text.split_at(end))
}
