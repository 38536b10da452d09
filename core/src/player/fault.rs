//! What can be wrong with a player, in words that name the field, the value and what is allowed.

/// A fault in the description of a player.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlayerFault {
    /// A number is not one that can be true.
    #[error("{}{field} is {value}; it must be {allowed}", prefix(.of))]
    OutOfRange {
        /// What the number belongs to, such as the name of a club (may be empty).
        of: String,
        /// The field.
        field: &'static str,
        /// The value received.
        value: f64,
        /// What is allowed, in words.
        allowed: &'static str,
    },
    /// A club or player without a name, or with a name that does not fit a table.
    #[error("{what} name is {name:?}; it must have 1 to 60 characters and no control characters")]
    BadName {
        /// "club" or "player".
        what: &'static str,
        /// The name received.
        name: String,
    },
    /// Two clubs of one name.
    #[error("clubs: {name:?} appears twice; each club must have a name of its own")]
    DuplicateClub {
        /// The name.
        name: String,
    },
    /// Too few or too many clubs.
    #[error(
        "clubs: there are {count}; there must be 1 to 13 (Rule 4.1b allows 14 with the putter)"
    )]
    ClubCount {
        /// Number of clubs received, without the putter.
        count: usize,
    },
    /// The putter is not a club with a carry.
    #[error("clubs: {name:?} is not a club with a carry; describe the putter under putting")]
    PutterAsClub {
        /// The name received.
        name: String,
    },
    /// A club that is not in the bag.
    #[error("club is {name:?}; it must be one of {}", .known.join(", "))]
    UnknownClub {
        /// The name asked for.
        name: String,
        /// The names in the bag.
        known: Vec<String>,
    },
    /// Reference golfers of no such name.
    #[error("reference is {given:?}; it must be \"men\" or \"women\"")]
    UnknownReference {
        /// The name received.
        given: String,
    },
    /// An average that golfers with a Handicap Index do not have.
    #[error(
        "average_score is {}; it must be {least:.1} to {most:.1}, what golfers of handicap 0 to 54 average on a course \
         of rating {} and slope {}",
        .given.score, .given.rating, .given.slope
    )]
    AverageScore {
        /// What was received.
        given: super::AverageScore,
        /// What a golfer of handicap 0 averages there.
        least: f64,
        /// What a golfer of handicap 54 averages there.
        most: f64,
    },
    /// A document that is not a player.
    #[error("player document: {message}")]
    Document {
        /// What the reader found.
        message: String,
    },
}

/// The start of a message: the owner of the field and a colon, or nothing.
fn prefix(of: &str) -> String {
    if of.is_empty() {
        String::new()
    } else {
        format!("{of}: ")
    }
}

/// Passes a value that lies in `range`; refuses any other (NaN too) with the words of `allowed`.
pub(super) fn check(
    of: &str,
    field: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    allowed: &'static str,
) -> Result<(), PlayerFault> {
    // `contains` is false for NaN.
    if range.contains(&value) {
        Ok(())
    } else {
        Err(PlayerFault::OutOfRange {
            of: of.to_owned(),
            field,
            value,
            allowed,
        })
    }
}

/// Passes a name that fits a table.
pub(super) fn check_name(what: &'static str, name: &str) -> Result<(), PlayerFault> {
    let fits = !name.trim().is_empty() && crate::text::is_fit(name, 60);
    if fits {
        Ok(())
    } else {
        Err(PlayerFault::BadName {
            what,
            name: name.to_owned(),
        })
    }
}
