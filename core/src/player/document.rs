//! The player document: JSON with every figure of a player.
use super::fault::PlayerFault;
use super::{Club, ClubParts, Habits, Lie, LieEffect, Player, PlayerParts, Putting, ShortGame};
use serde::{Deserialize, Serialize};

/// The `format` of the document.
const FORMAT: &str = "wideberth-player";
/// The one `version` there is.
const VERSION: u64 = 1;

/// What is read first, whatever else the document holds: is it a player at all?
#[derive(Deserialize)]
struct Header {
    format: Option<String>,
    version: Option<u64>,
}

/// The document as it stands, unchecked.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    format: String,
    version: u64,
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    handicap: Option<f64>,
    clubs: Vec<ClubParts>,
    lies: Lies,
    habits: Habits,
    short_game: ShortGame,
    putting: Putting,
}

/// The effects of the lies under their names.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Lies {
    tee: LieEffect,
    fairway: LieEffect,
    first_cut: LieEffect,
    rough: LieEffect,
    deep_rough: LieEffect,
    fringe: LieEffect,
    green: LieEffect,
    bunker: LieEffect,
    trees: LieEffect,
}

impl From<&[LieEffect; 9]> for Lies {
    fn from(all: &[LieEffect; 9]) -> Self {
        let of = |lie: Lie| all[lie as usize];
        Lies {
            tee: of(Lie::Tee),
            fairway: of(Lie::Fairway),
            first_cut: of(Lie::FirstCut),
            rough: of(Lie::Rough),
            deep_rough: of(Lie::DeepRough),
            fringe: of(Lie::Fringe),
            green: of(Lie::Green),
            bunker: of(Lie::Bunker),
            trees: of(Lie::Trees),
        }
    }
}

impl From<Lies> for [LieEffect; 9] {
    fn from(lies: Lies) -> Self {
        Lie::ALL.map(|lie| match lie {
            Lie::Tee => lies.tee,
            Lie::Fairway => lies.fairway,
            Lie::FirstCut => lies.first_cut,
            Lie::Rough => lies.rough,
            Lie::DeepRough => lies.deep_rough,
            Lie::Fringe => lies.fringe,
            Lie::Green => lies.green,
            Lie::Bunker => lies.bunker,
            Lie::Trees => lies.trees,
        })
    }
}

impl TryFrom<Document> for Player {
    type Error = PlayerFault;

    fn try_from(document: Document) -> Result<Self, PlayerFault> {
        let clubs: Result<Vec<Club>, PlayerFault> =
            document.clubs.into_iter().map(Club::new).collect();
        Player::new(PlayerParts {
            name: document.name,
            handicap: document.handicap,
            clubs: clubs?,
            lies: document.lies.into(),
            habits: document.habits,
            short_game: document.short_game,
            putting: document.putting,
        })
    }
}

impl Player {
    /// Reads a player document.
    ///
    /// Every figure must be there but `handicap`; unknown fields are errors.
    ///
    /// # Errors
    /// What is not JSON or not a player document (with line and column), or the first field that cannot be true.
    pub fn from_json(text: &str) -> Result<Self, PlayerFault> {
        let header: Header = serde_json::from_str(text).map_err(|e| unreadable(&e))?;
        if header.format.as_deref() != Some(FORMAT) {
            return Err(wrong("format", header.format, FORMAT));
        }
        if header.version != Some(VERSION) {
            return Err(wrong("version", header.version, VERSION));
        }
        let document: Document = serde_json::from_str(text).map_err(|e| unreadable(&e))?;
        document.try_into()
    }

    /// The player document of this player, indented; [`Player::from_json`] gives the same player back.
    ///
    /// # Errors
    /// None in practice: every figure of a valid player is finite.
    pub fn to_json(&self) -> Result<String, PlayerFault> {
        serde_json::to_string_pretty(&Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: self.name.clone(),
            handicap: self.handicap,
            clubs: self.clubs.iter().map(|c| (**c).clone()).collect(),
            lies: Lies::from(&self.lies),
            habits: self.habits,
            short_game: self.short_game,
            putting: self.putting,
        })
        .map_err(|e| unreadable(&e))
    }
}

fn unreadable(error: &serde_json::Error) -> PlayerFault {
    use serde_json::error::Category;
    let message = match error.classify() {
        Category::Syntax | Category::Eof | Category::Io => format!("not JSON: {error}"),
        Category::Data => error.to_string(),
    };
    PlayerFault::Document { message }
}

fn wrong<T: std::fmt::Display>(
    field: &str,
    found: Option<T>,
    allowed: impl std::fmt::Display,
) -> PlayerFault {
    let found = found.map_or_else(|| "missing".to_owned(), |f| f.to_string());
    PlayerFault::Document {
        message: format!("{field} is {found}; it must be {allowed}"),
    }
}
