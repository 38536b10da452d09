//! Why a table of shots is refused, and what looks odd in one that is not, in words a golfer can act on.
use crate::player::PlayerFault;
use crate::text::table_row;

/// A number in a table that cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct RowFault {
    /// `shots` or `outcomes`.
    pub table: &'static str,
    /// The row below the header, counted from 0.
    pub row: usize,
    /// The club of the row.
    pub club: String,
    /// The column.
    pub field: &'static str,
    /// The value received.
    pub value: f64,
    /// What is allowed, in words.
    pub allowed: &'static str,
    /// How many later rows have the same fault.
    pub more: usize,
}

/// A reason to refuse shots, outcomes or known figures.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FitFault {
    /// There is nothing to fit.
    #[error("shots: the table is empty; without shots use the player of the level")]
    Nothing,
    /// A table too long to fit in a few seconds.
    #[error(
        "{table}: there are {count} rows; there must be at most {most} (the latest say most about the player)"
    )]
    TooMany {
        /// `shots` or `outcomes`.
        table: &'static str,
        /// How many rows it has.
        count: usize,
        /// The most there may be.
        most: usize,
    },
    /// A club that is not in the bag of the prior.
    #[error(
        "{what}{}: club is {name:?}; {}the clubs of the prior are {}",
        row_text(*.row), meant_text(.meant.as_deref()), .known.join(", ")
    )]
    UnknownClub {
        /// Where it was named: `shots`, `outcomes`, `carries`, ...
        what: &'static str,
        /// The row below the header, counted from 0, if it was in a table.
        row: Option<usize>,
        /// The name received.
        name: String,
        /// A club of the bag with the same letters and digits.
        meant: Option<String>,
        /// The names in the bag.
        known: Vec<String>,
    },
    /// A number in a table that cannot be used.
    #[error(
        "{}, {}, {}: {} is {}; it must be {}{}",
        .0.table, spreadsheet_row(.0.row), .0.club, .0.field, .0.value, .0.allowed, more_text(.0.more)
    )]
    Row(RowFault),
    /// Totals that are shorter than the carries.
    #[error(
        "shots: total is shorter than carry in {shorter} of {all} rows (first: carry {carry:.0}, total {total:.0}); \
         are the two columns swapped?"
    )]
    Swapped {
        /// Carry of the first such row, yards.
        carry: f64,
        /// Total of the first such row, yards.
        total: f64,
        /// How many rows are so.
        shorter: usize,
        /// How many rows have a total.
        all: usize,
    },
    /// A club whose carries have nothing to do with the level's.
    #[error(
        "shots: half of the {count} carries with {club:?} are {median:.0} yards or more, {times:.2} times the {level:.0} \
         of the prior; {}", size_text(*.times)
    )]
    Size {
        /// The club.
        club: String,
        /// How many shots it has.
        count: usize,
        /// Their median carry, yards.
        median: f64,
        /// The carry of the prior, yards.
        level: f64,
        /// One as a multiple of the other.
        times: f64,
    },
    /// A club whose shots all have the same carry or lateral.
    #[error(
        "shots: {field} is {value} in all {count} rows with {club:?}, so nothing is told of its spread; was it measured? Give \
         measured values, not rounded to more than a yard, or leave the club out"
    )]
    Same {
        /// The club.
        club: String,
        /// `carry` or `lateral`.
        field: &'static str,
        /// How many shots it has.
        count: usize,
        /// The one value, yards.
        value: f64,
    },
    /// Short of or beyond a ground that has no depth.
    #[error(
        "outcomes, {}: finish is {finish:?}, which needs the depth of a green", spreadsheet_row(*.row)
    )]
    NoDepth {
        /// The row below the header, counted from 0.
        row: usize,
        /// The finish.
        finish: &'static str,
    },
    /// A known figure that cannot be true.
    #[error("{field}: {club} is {value}; it must be {allowed}")]
    Known {
        /// `carries` or `lateral_biases`.
        field: &'static str,
        /// The club.
        club: String,
        /// The value received.
        value: f64,
        /// What is allowed, in words.
        allowed: String,
    },
    /// A known figure told twice.
    #[error("{field}: {club} appears twice")]
    KnownTwice {
        /// `carries` or `lateral_biases`.
        field: &'static str,
        /// The club.
        club: String,
    },
    /// Too many or too few players asked for.
    #[error("n is {value}; it must be 1 to {most}")]
    Draws {
        /// The number received.
        value: usize,
        /// The most there are.
        most: usize,
    },
    /// A share that is no share.
    #[error("level is {value}; it must be above 0 and below 1")]
    Level {
        /// The value received.
        value: f64,
    },
    /// A table with the shots that the prior was fitted to.
    #[error(
        "shots: the table holds the {count} shots that the prior was fitted to, which would count twice; give the new ones \
         alone, or a prior that was not fitted to them"
    )]
    Again {
        /// How many there are.
        count: usize,
    },
    /// A club of a bag that the level does not have, without a carry.
    #[error(
        "bag: {name:?} is none of the level's clubs ({}), so its carry must be told among the carries",
        .known.join(", ")
    )]
    NoCarry {
        /// The name received.
        name: String,
        /// The clubs of the level.
        known: Vec<String>,
    },
    /// A document that is no fit.
    #[error("fit document: {message}")]
    Document {
        /// What the reader found.
        message: String,
    },
    /// A fault in a player or club.
    #[error(transparent)]
    Player(#[from] PlayerFault),
}

impl FitFault {
    /// The same fault where the rows of the tables do not follow each other: with the place below the header that each row of
    /// shots and of outcomes has.
    #[must_use]
    pub fn in_places(mut self, shots: &[usize], outcomes: &[usize]) -> Self {
        let told = match &mut self {
            FitFault::UnknownClub {
                what,
                row: Some(row),
                ..
            } => Some((*what, row)),
            FitFault::Row(fault) => Some((fault.table, &mut fault.row)),
            FitFault::NoDepth { row, .. } => Some(("outcomes", row)),
            _ => None,
        };
        if let Some((table, row)) = told {
            let places = if table == "shots" { shots } else { outcomes };
            *row = places.get(*row).copied().unwrap_or(*row);
        }
        self
    }
}

/// How a row below the header, counted from 0, is told.
#[must_use]
pub fn spreadsheet_row(row: usize) -> String {
    table_row(row + 2)
}

fn row_text(row: Option<usize>) -> String {
    row.map_or_else(String::new, |row| format!(", {}", spreadsheet_row(row)))
}

fn meant_text(meant: Option<&str>) -> String {
    meant.map_or_else(String::new, |name| format!("did you mean {name:?}? "))
}

fn more_text(more: usize) -> String {
    match more {
        0 => String::new(),
        1 => " (1 more row has this fault)".to_owned(),
        more => format!(" ({more} more rows have this fault)"),
    }
}

fn size_text(times: f64) -> &'static str {
    if (2.5..3.5).contains(&times) {
        "are these feet? Give the unit"
    } else if times > 1.0 {
        "are they another club's, or in another unit? If not, tell the prior the carries you know"
    } else {
        "are they part swings or another club's? If not, tell the prior the carries you know"
    }
}

/// Something in a table that was used but looks odd.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Doubt {
    /// Very few shots with a club.
    #[error(
        "{club}: only {count} {}; its figures rest mostly on the level and on the other clubs",
        if *.count == 1 { "shot" } else { "shots" }
    )]
    FewShots {
        /// The club.
        club: String,
        /// How many shots it has.
        count: usize,
    },
    /// All clubs are about as much shorter than the level's as metres are shorter than yards.
    #[error(
        "the carries are {:.0} % shorter than the prior's with every club, as they would be in metres; \
         tell the unit of the table (metres or yards) to settle it",
        100.0 * (1.0 - .times)
    )]
    LikeMetres {
        /// The carries as a multiple of the level's.
        times: f64,
    },
    /// The long clubs are longer than the short ones suggest, by what they run.
    #[error(
        "next to the short clubs the long ones go {:.0} % further than the prior's, about what they run: \
         are the carries totals (carry plus run)?",
        100.0 * .excess
    )]
    LikeTotals {
        /// How much further, as a share.
        excess: f64,
    },
    /// The shots of one club fall into two patterns.
    #[error(
        "{club}: the shots fall into two patterns, {} of {} about {low:.0} and {high:.0} yards; \
         are two clubs or two kinds of shot mixed?",
        percent(*.share), .axis
    )]
    TwoPatterns {
        /// The club.
        club: String,
        /// `carry` or `lateral`.
        axis: &'static str,
        /// Share of the shots in the pattern with fewer.
        share: f64,
        /// Centre of the lower pattern, yards.
        low: f64,
        /// Centre of the higher one.
        high: f64,
    },
    /// Some shots carry more than they ended at.
    #[error("{count} {} a carry more than 5 yards longer than the total", if *.count == 1 { "shot has" } else { "shots have" })]
    CarryBeyondTotal {
        /// How many.
        count: usize,
    },
    /// A club whose carry is far from what the level and the other clubs suggest.
    #[error(
        "{club}: the carry of {carry:.0} yards is far from the {level:.0} of the prior; is it the right club and prior?"
    )]
    FarFromLevel {
        /// The club.
        club: String,
        /// Its fitted carry, yards.
        carry: f64,
        /// The carry of the prior, yards.
        level: f64,
    },
    /// Many shots that nothing explains.
    #[error(
        "{club}: {count} of {all} shots fit no pattern and were left out of account; look at them"
    )]
    ManyOutliers {
        /// The club.
        club: String,
        /// How many.
        count: usize,
        /// How many shots it has.
        all: usize,
    },
    /// The sampling of the posterior did not settle.
    #[error(
        "the sampling did not settle (its chains differ by {disagreement:.2}); take the uncertainties as rough"
    )]
    Unsettled {
        /// The worst ratio of spreads between and within chains.
        disagreement: f64,
    },
}

fn percent(share: f64) -> String {
    format!(
        "{:.0} % against {:.0} %",
        100.0 * share,
        100.0 * (1.0 - share)
    )
}
