//! Skills of a player changed, as Python gives them.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::player::{Change, ClubSkill, Player, PuttSkill, Skill, Touch};

use crate::errors::input_error;
use crate::player::PyPlayer;

/// How one skill changes: by a number, or a share of the way to another player.
enum Given {
    By(f64),
    Toward(Py<PyPlayer>, f64),
}

impl Given {
    fn read(field: &str, given: &Bound<'_, PyAny>) -> PyResult<Self> {
        if let Ok(other) = given.cast::<PyPlayer>() {
            return Ok(Given::Toward(other.clone().unbind(), 1.0));
        }
        if let Ok(number) = given.extract() {
            return Ok(Given::By(number));
        }
        let pair: Option<(Bound<'_, PyPlayer>, f64)> = given.extract().ok();
        pair.map(|(other, share)| Given::Toward(other.unbind(), share))
            .ok_or_else(|| {
                let kind = given.get_type().name();
                let kind = kind.map_or_else(|_| "another type".to_owned(), |kind| kind.to_string());
                PyTypeError::new_err(format!(
                    "{field} is of type {kind}; it must be a number, a player or (player, share of the way)"
                ))
            })
    }

    fn change(&self) -> Change<'_> {
        match self {
            Given::By(number) => Change::By(*number),
            Given::Toward(other, share) => Change::Toward(&other.get().player, *share),
        }
    }
}

/// What was given for a skill: one change for all there is of it, or one for each of some by name.
type Asked<'py> = Option<Bound<'py, PyAny>>;

/// The changes of a skill by name; one that is not by name goes for each of `all`.
fn each<'a>(
    field: &str,
    asked: &Bound<'_, PyAny>,
    all: impl Iterator<Item = &'a str>,
) -> PyResult<Vec<(String, Given)>> {
    match asked.cast::<PyDict>() {
        Ok(by_name) => by_name
            .iter()
            .map(|(name, given)| {
                let name: String = name.extract().map_err(|_| {
                    PyTypeError::new_err(format!("{field} has the name {name}; it must be text"))
                })?;
                let given = Given::read(&format!("{field}[{name:?}]"), &given)?;
                Ok((name, given))
            })
            .collect(),
        Err(_) => all
            .map(|name| Ok((name.to_owned(), Given::read(field, asked)?)))
            .collect(),
    }
}

/// The player with the skills changed that are asked for; `PyPlayer::with_changes` says what each is.
pub(crate) struct Asks<'py> {
    pub(crate) clubs: [(&'static str, ClubSkill, Asked<'py>); 4],
    pub(crate) bad_lies: Asked<'py>,
    pub(crate) short_game: Asked<'py>,
    pub(crate) putting: Asked<'py>,
}

impl Asks<'_> {
    pub(crate) fn of(&self, player: &Player) -> PyResult<Player> {
        let mut changes: Vec<(&str, Skill, Given)> = Vec::new();
        for (field, skill, asked) in &self.clubs {
            let Some(asked) = asked else { continue };
            if *skill == ClubSkill::Length && asked.extract::<f64>().is_ok() {
                return Err(input_error(format!(
                    "{field} is {asked}; it must be yards of carry by club, such as {{\"driver\": 15}}, or a player"
                )));
            }
            let clubs = player.clubs.iter().map(|club| club.name.as_str());
            let given = each(field, asked, clubs)?;
            changes.extend(
                given
                    .into_iter()
                    .map(|(club, how)| (*field, Skill::Club(*skill, club), how)),
            );
        }
        if let Some(asked) = &self.bad_lies {
            changes.push(("bad_lies", Skill::BadLies, Given::read("bad_lies", asked)?));
        }
        if let Some(asked) = &self.short_game {
            let touches = Touch::ALL.map(Touch::name);
            for (name, how) in each("short_game", asked, touches.into_iter())? {
                let touch = known("short_game", &name, Touch::ALL, Touch::name)?;
                changes.push(("short_game", Skill::Touch(touch), how));
            }
        }
        if let Some(asked) = &self.putting {
            let parts = PuttSkill::ALL.map(PuttSkill::name);
            for (name, how) in each("putting", asked, parts.into_iter())? {
                let part = known("putting", &name, PuttSkill::ALL, PuttSkill::name)?;
                changes.push(("putting", Skill::Putt(part), how));
            }
        }
        let mut changed = player.clone();
        for field in changes.chunk_by(|a, b| a.0 == b.0) {
            let each = field
                .iter()
                .map(|(_, skill, how)| (skill.clone(), how.change()));
            changed = changed
                .with_changes(each)
                .map_err(|fault| input_error(format!("{}: {fault}", field[0].0)))?;
        }
        Ok(changed)
    }
}

/// The one of a name, or an error that lists the names there are.
fn known<T: Copy, const N: usize>(
    field: &str,
    name: &str,
    all: [T; N],
    called: impl Fn(T) -> &'static str,
) -> PyResult<T> {
    all.into_iter()
        .find(|one| called(*one) == name)
        .ok_or_else(|| {
            let names = all.map(called).join(", ");
            input_error(format!("{field} has {name:?}; it must be one of {names}"))
        })
}
