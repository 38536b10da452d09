//! A round as golfers write it down: a table with a row a stroke.
//!
//! ```csv
//! hole,stroke,club,lie,to_pin,side
//! 1,1,driver,tee,372,
//! 1,2,7-iron,rough,171,left 12
//! 1,3,chip,fairway,24,
//! 1,4,putter,green,9,
//! ```
//!
//! `to_pin` is yards, on the green feet. `side` is where the ball lies from the line of play, such as `left 12`, and `long` for a
//! ball beyond the flag; without it the ball lies on the line, on the green straight before the flag. `x` and `y` may tell the
//! place on the map instead, `penalty` the penalty strokes that a stroke cost. The last stroke of a hole is holed. Cells may stand
//! in double quotes (RFC 4180); commas, semicolons and tabs part them. Blank lines are passed over.
use super::fault::{ReviewFault, ReviewFaults};
use crate::course::Course;
use crate::geometry::Point;
use crate::player::{Bag, Lie, Touch};
use crate::shot::Stroke;

/// Columns that every table needs, and those it may have.
const NEEDED: [&str; 4] = ["hole", "stroke", "club", "lie"];
const MORE: [&str; 5] = ["to_pin", "side", "x", "y", "penalty"];
/// The most rows of a round.
const MOST_ROWS: usize = 1_000;
/// The longest way to the pin, yards.
const LONGEST: f64 = 2_640.0;

/// A stroke as it was written down.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenStroke {
    /// The line that its row stands on; the header is line 1.
    pub row: usize,
    /// Place of the hole on the course, from 0.
    pub place: usize,
    /// Number of the stroke on the hole, penalties counted.
    pub number: u32,
    /// What was played.
    pub stroke: Stroke,
    /// How the ball lay.
    pub lie: Lie,
    /// Where it lay.
    pub at: WrittenPlace,
    /// Penalty strokes that it cost.
    pub penalty: u8,
}

/// Where a ball lay, as it was written down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WrittenPlace {
    /// A point of the hole's plan.
    At(Point),
    /// So far from the pin and from the line of play, yards; beyond the flag or before it.
    From {
        /// Yards to the pin.
        to_pin: f64,
        /// Yards to the right of the line of play; None where it was not told.
        right: Option<f64>,
        /// True beyond the flag.
        long: bool,
    },
}

/// A round as it was written down: strokes in their order, hole by hole.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenRound(pub Vec<WrittenStroke>);

impl WrittenRound {
    /// Reads a table for a course and a player.
    ///
    /// # Errors
    /// Every fault at once, each with the line of its row.
    pub fn read(text: &str, course: &Course, bag: &Bag) -> Result<Self, ReviewFaults> {
        let mut lines = text.trim_start_matches('\u{feff}').lines();
        let header = lines.next().unwrap_or_default();
        let between = [';', '\t']
            .into_iter()
            .find(|&c| header.contains(c))
            .unwrap_or(',');
        let header = cells(header, between);
        if is_blank(&header) && !text.trim().is_empty() {
            let needed = NEEDED.join(", ");
            return Err(ReviewFaults(vec![ReviewFault::NoHeader { needed }]));
        }
        let rows: Vec<(usize, Vec<String>)> = (2..)
            .zip(lines)
            .map(|(line, row)| (line, cells(row, between)))
            .filter(|(_, row)| !is_blank(row))
            .take(MOST_ROWS + 1)
            .collect();
        let mut faults = header_faults(&header);
        if rows.is_empty() || rows.len() > MOST_ROWS {
            let (count, most) = (rows.len(), MOST_ROWS);
            faults.push(ReviewFault::Rows { count, most });
        }
        if !faults.is_empty() {
            return Err(ReviewFaults(faults));
        }
        let mut strokes = Vec::new();
        for (line, row) in &rows {
            if row.len() == header.len() {
                let row = Row {
                    line: *line,
                    header: &header,
                    cells: row,
                };
                strokes.extend(row.stroke(course, bag, &mut faults));
            } else {
                let (cells, header) = (row.len(), header.len());
                faults.push(ReviewFault::Cells {
                    row: *line,
                    cells,
                    header,
                });
            }
        }
        // Rows that could not be read leave gaps that say nothing of the order.
        if faults.is_empty() {
            faults.extend(order_faults(&strokes, course));
        }
        if faults.is_empty() {
            Ok(WrittenRound(strokes))
        } else {
            Err(ReviewFaults(faults))
        }
    }

    /// The strokes hole by hole, in the order in which they were written.
    pub fn holes(&self) -> impl Iterator<Item = &[WrittenStroke]> {
        self.0.chunk_by(|a, b| a.place == b.place)
    }
}

/// The cells of a line; in double quotes a cell may hold what parts them, and two of them stand for one.
fn cells(line: &str, between: char) -> Vec<String> {
    let (mut cells, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    let mut letters = line.chars().peekable();
    while let Some(c) = letters.next() {
        match c {
            '"' if quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' => quoted = !quoted,
            c if c == between && !quoted => cells.push(std::mem::take(&mut cell)),
            c => cell.push(c),
        }
    }
    cells.push(cell);
    cells.iter().map(|cell| cell.trim().to_owned()).collect()
}

/// True where nothing stands in a row, as in a blank line or one of separators alone.
fn is_blank(cells: &[String]) -> bool {
    cells.iter().all(String::is_empty)
}

fn known() -> String {
    NEEDED
        .iter()
        .chain(&MORE)
        .copied()
        .collect::<Vec<_>>()
        .join(", ")
}

fn header_faults(header: &[String]) -> Vec<ReviewFault> {
    let mut faults = Vec::new();
    for column in NEEDED {
        if !header.iter().any(|name| name == column) {
            let (needed, more) = (NEEDED.join(", "), MORE.join(", "));
            faults.push(ReviewFault::Missing {
                column,
                needed,
                more,
            });
        }
    }
    for (place, name) in header.iter().enumerate() {
        let what = if header[..place].contains(name) {
            "there twice"
        } else if NEEDED.iter().chain(&MORE).any(|column| column == name) {
            continue;
        } else {
            "not known"
        };
        let (column, known) = (name.clone(), known());
        faults.push(ReviewFault::Column {
            column,
            what,
            known,
        });
    }
    faults
}

/// Strokes of a hole that are not 1, 2, 3, ... with the penalties between them, and holes that are parted.
fn order_faults(strokes: &[WrittenStroke], course: &Course) -> Vec<ReviewFault> {
    let mut faults = Vec::new();
    let mut seen: Vec<usize> = Vec::new();
    let mut before: Option<&WrittenStroke> = None;
    for stroke in strokes {
        let hole = course.numbers()[stroke.place];
        let same = before.filter(|before| before.place == stroke.place);
        if same.is_none() {
            if seen.contains(&stroke.place) {
                faults.push(ReviewFault::Parted {
                    row: stroke.row,
                    hole,
                });
            }
            seen.push(stroke.place);
        }
        let wanted = same.map_or(1, |b| b.number + 1 + u32::from(b.penalty));
        if stroke.number != wanted {
            let hint = match stroke.number.checked_sub(wanted) {
                Some(1 | 2) if same.is_some() => {
                    " (was there a penalty? write it in the column penalty of the stroke before)"
                }
                Some(_) => " (is a row missing?)",
                None => "",
            };
            let (row, given) = (stroke.row, stroke.number);
            faults.push(ReviewFault::Order {
                row,
                hole,
                given,
                wanted,
                hint,
            });
        }
        before = Some(stroke);
    }
    faults
}

/// A row under its header.
struct Row<'a> {
    line: usize,
    header: &'a [String],
    cells: &'a [String],
}

impl Row<'_> {
    /// What stands in a column; nothing where there is no such column.
    fn cell(&self, column: &str) -> &str {
        let place = self.header.iter().position(|name| name == column);
        place.map_or("", |place| &self.cells[place])
    }

    /// What a cell says, or a fault.
    fn read<T>(
        &self,
        column: &'static str,
        allowed: impl Into<String>,
        faults: &mut Vec<ReviewFault>,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Option<T> {
        let value = self.cell(column);
        let found = read(value);
        if found.is_none() {
            faults.push(ReviewFault::Cell {
                row: self.line,
                column,
                value: value.to_owned(),
                allowed: allowed.into(),
            });
        }
        found
    }

    fn stroke(
        &self,
        course: &Course,
        bag: &Bag,
        faults: &mut Vec<ReviewFault>,
    ) -> Option<WrittenStroke> {
        let holes: Vec<String> = course.numbers().iter().map(u8::to_string).collect();
        let place = self.read(
            "hole",
            format!("one of {}", holes.join(", ")),
            faults,
            |cell| course.place_of(cell.parse().ok()?),
        );
        let number = self.read("stroke", "a whole number, 1 to 200", faults, |cell| {
            cell.parse().ok().filter(|n| (1..=200).contains(n))
        });
        let strokes = named_strokes(bag);
        let names: Vec<&str> = strokes.iter().map(|(name, _)| name.as_str()).collect();
        let stroke = self.read(
            "club",
            format!("one of {}", names.join(", ")),
            faults,
            |cell| {
                let is_it = |name: &str| name.eq_ignore_ascii_case(cell);
                strokes.iter().find(|(name, _)| is_it(name)).map(|s| s.1)
            },
        );
        let lies: Vec<String> = Lie::ALL.map(|lie| lie.name().replace('_', " ")).to_vec();
        let lie = self.read(
            "lie",
            format!("one of {}", lies.join(", ")),
            faults,
            named_lie,
        );
        let penalty = self.read(
            "penalty",
            "empty or 0 to 2 strokes",
            faults,
            |cell| match cell {
                "" => Some(0),
                _ => cell.parse().ok().filter(|p| *p <= 2),
            },
        );
        let at = self.place(lie, faults);
        Some(WrittenStroke {
            row: self.line,
            place: place?,
            number: number?,
            stroke: stroke?,
            lie: lie?,
            at: at?,
            penalty: penalty?,
        })
    }

    fn place(&self, lie: Option<Lie>, faults: &mut Vec<ReviewFault>) -> Option<WrittenPlace> {
        let finite = |cell: &str| cell.parse::<f64>().ok().filter(|v| v.is_finite());
        if !(self.cell("x").is_empty() && self.cell("y").is_empty()) {
            let x = self.read("x", "yards on the plan, with y", faults, finite);
            let y = self.read("y", "yards on the plan, with x", faults, finite);
            return Some(WrittenPlace::At(Point::new(x?, y?)));
        }
        let (feet, unit) = match lie {
            Some(Lie::Green) => (3.0, "feet above 0 and at most 300, on the green"),
            _ => (
                1.0,
                "yards above 0 and at most 2640 (on the green feet), or x and y",
            ),
        };
        let most = if feet > 1.0 { 100.0 } else { LONGEST };
        let to_pin = self.read("to_pin", unit, faults, |cell| {
            finite(cell)
                .map(|v| v / feet)
                .filter(|&v| v > 0.0 && v <= most)
        });
        let allowed = "empty, or yards from the line of play such as left 12 or right 9, and long for a ball beyond the flag";
        let side = self.read("side", allowed, faults, named_side);
        let (right, long) = side?;
        let to_pin = to_pin?;
        Some(WrittenPlace::From {
            to_pin,
            right,
            long,
        })
    }
}

/// Every stroke that may be written down, by name.
fn named_strokes(bag: &Bag) -> Vec<(String, Stroke)> {
    let clubs = bag
        .clubs()
        .map(|club| (bag.name(club).to_owned(), Stroke::Swing(club)));
    let touches = Touch::ALL
        .into_iter()
        .filter(|&touch| touch != Touch::Putter)
        .map(|touch| (touch.spoken(), Stroke::Touch(touch)));
    let putts = ["putter", "putt"].map(|name| (name.to_owned(), Stroke::Putt));
    clubs.chain(touches).chain(putts).collect()
}

fn named_lie(cell: &str) -> Option<Lie> {
    let name = cell.to_ascii_lowercase().replace([' ', '-'], "_");
    match name.as_str() {
        "sand" => Some(Lie::Bunker),
        _ => Lie::from_name(&name),
    }
}

/// Yards to the right of the line of play, if they are told, and whether the ball lies beyond the flag.
fn named_side(cell: &str) -> Option<(Option<f64>, bool)> {
    let (mut right, mut long, mut sign) = (None, false, None);
    for word in cell.to_ascii_lowercase().split_whitespace() {
        match (word, sign) {
            ("long", None) => long = true,
            ("left", None) => sign = Some(-1.0),
            ("right", None) => sign = Some(1.0),
            (yards, Some(to)) => {
                let yards: f64 = yards.parse().ok()?;
                right = Some(to * Some(yards).filter(|y| (0.0..=300.0).contains(y))?);
                sign = None;
            }
            _ => return None,
        }
    }
    sign.is_none().then_some((right, long))
}
