//! All the holes of a course on a map, each with its notes or its faults.
use super::map::{self, Map};
use super::plays::{self, Choice, Play, normal};
use super::{Notes, Options, json};
use crate::course::{Course, MOST_HOLES};
use crate::hole::{Hole, Warning};
use crate::io::fault::wrong;
use crate::io::{ReadFault, ReadFaults};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// How a course is read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CourseOptions {
    /// What is told of every hole; its `hole`, `line`, `pin`, `par`, `number`, `stroke_index` and `name` are not looked at.
    pub each: Options,
    /// The numbers of the holes to read, in the order of play; None for all of them by number.
    pub holes: Option<Vec<String>>,
    /// Pars, in place of what the map says.
    pub pars: Told,
    /// Stroke indexes, in place of what the map says.
    pub stroke_indexes: Told,
}

/// A number told for holes of a course.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Told {
    /// What the map says.
    #[default]
    Nothing,
    /// By the number of the hole.
    ByRef(Vec<(String, i64)>),
    /// For every hole of the course in order.
    InOrder(Vec<i64>),
}

/// A course on a map.
#[derive(Clone, Debug)]
pub struct MappedCourse {
    /// Its name, where the map tells one.
    pub name: Option<String>,
    /// The credit that the data asks for.
    pub attribution: Option<String>,
    /// The holes by number; those without one come last, in the order of the map.
    pub holes: Vec<MappedHole>,
}

/// A hole of a course on a map.
#[derive(Clone, Debug)]
pub struct MappedHole {
    /// How it is called, such as `hole 7`.
    pub label: String,
    /// The hole with its notes, or everything that is wrong with it.
    pub hole: Result<Hole, ReadFaults>,
}

/// Reads every hole of a course.
///
/// # Errors
/// Text that is no JSON; a map without holes, or with holes of several courses where none is named; pars of holes there are
/// none of. Faults of single holes are told with the holes.
pub fn read_course(text: &str, options: &CourseOptions) -> Result<MappedCourse, ReadFaults> {
    let mut faults = Vec::new();
    options.each.check(&mut faults);
    if !faults.is_empty() {
        return Err(ReadFaults(faults));
    }
    let map = map::read(&json::parse(text)?).map_err(ReadFaults)?;
    let course = options.each.course.as_deref();
    let one = |fault| ReadFaults(vec![fault]);
    let plays = plays::of_course(plays::all(&map), course).map_err(one)?;
    if plays.is_empty() {
        return Err(one(ReadFault::NoHole));
    }
    let plays = match &options.holes {
        None => in_order(plays),
        Some(wanted) => chosen(&plays, wanted).map_err(one)?,
    };
    let pars = options.pars.of(&plays, "par", &mut faults);
    let indexes = options
        .stroke_indexes
        .of(&plays, "stroke_index", &mut faults);
    if !faults.is_empty() {
        return Err(ReadFaults(faults));
    }
    let holes = plays.iter().zip(pars).zip(indexes);
    let holes = holes.map(|((play, par), stroke_index)| MappedHole {
        label: play.label(),
        hole: one_of(&map, &plays, play, (par, stroke_index), &options.each),
    });
    Ok(MappedCourse {
        holes: holes.collect(),
        name: name(&map, &plays),
        attribution: options.each.attribution.clone().or(map.attribution.clone()),
    })
}

/// The holes by number; those without one come last, in the order of the map.
fn in_order(mut plays: Vec<Play<'_>>) -> Vec<Play<'_>> {
    let order = |play: &Play<'_>| -> (f64, usize) {
        let number = play.reference.as_ref().and_then(|r| r.parse().ok());
        (number.unwrap_or(f64::INFINITY), play.feature.index)
    };
    plays.sort_by(|a, b| {
        let (a, b) = (order(a), order(b));
        a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))
    });
    plays
}

/// The holes that are wanted, in that order.
fn chosen<'m>(plays: &[Play<'m>], wanted: &[String]) -> Result<Vec<Play<'m>>, ReadFault> {
    let one = |text: &String| {
        let choice = Choice::Ref(text.clone());
        plays::choose(plays.to_vec(), Some(&choice)).map(|(play, _)| play)
    };
    if wanted.len() > MOST_HOLES {
        let (value, allowed) = (wanted.len().to_string(), format!("1 to {MOST_HOLES}"));
        return Err(wrong("number of holes", &value, &allowed));
    }
    wanted.iter().map(one).collect()
}

/// One hole of the course.
fn one_of(
    map: &Map,
    plays: &[Play<'_>],
    play: &Play<'_>,
    (par, stroke_index): (Option<i64>, Option<i64>),
    each: &Options,
) -> Result<Hole, ReadFaults> {
    let options = Options {
        hole: None,
        line: None,
        pin: None,
        par,
        stroke_index,
        number: None,
        name: None,
        ..each.clone()
    };
    let same = plays.iter().filter(|p| p.reference == play.reference);
    if play.reference.is_some() && same.count() > 1 {
        // The fault that names them all.
        let choice = play.reference.clone().map(Choice::Ref);
        plays::choose(plays.to_vec(), choice.as_ref()).map_err(|fault| ReadFaults(vec![fault]))?;
    }
    super::hole(map, Some(play), &options, Notes::default())
}

impl MappedCourse {
    /// The course of the holes, under another name if one is told. Stroke indexes that are not on every hole, or twice on
    /// one course, are left out with a note.
    ///
    /// # Errors
    /// Every fault of every hole, with the hole it belongs to, or those of the course.
    pub fn into_course(self, name: Option<String>) -> Result<Course, ReadFaults> {
        let (mut holes, mut faults) = (Vec::new(), Vec::new());
        if self.holes.len() > MOST_HOLES {
            let count = self.holes.len().to_string();
            let allowed =
                format!("1 to {MOST_HOLES}: choose them (holes=), or name the course (course=)");
            return Err(ReadFaults(vec![wrong("number of holes", &count, &allowed)]));
        }
        for hole in self.holes {
            match hole.hole {
                Ok(read) => holes.push(read),
                Err(of_hole) => faults.extend(of_hole.0.into_iter().map(|fault| ReadFault::Part {
                    part: hole.label.clone(),
                    fault: Box::new(fault),
                })),
            }
        }
        if !faults.is_empty() {
            return Err(ReadFaults(faults));
        }
        let indexes: BTreeSet<u8> = holes.iter().filter_map(Hole::stroke_index).collect();
        if !indexes.is_empty() && indexes.len() < holes.len() {
            let note =
                "not every hole of the course has a stroke index of its own: they are left out";
            let without = |hole: Hole| {
                hole.with_stroke_index(None)
                    .noting(Warning(note.to_owned()))
            };
            holes = holes.into_iter().map(without).collect();
        }
        let name = name.or(self.name).unwrap_or_else(|| "Course".to_owned());
        let holes = holes.into_iter().map(Arc::new).collect();
        Ok(Course::new(name, holes, self.attribution)?)
    }
}

/// The name of the course: that of its holes, or of the only outline of the map.
fn name(map: &Map, plays: &[Play<'_>]) -> Option<String> {
    let told = plays.iter().find_map(|play| play.course.clone());
    let outlines = plays::outlines(map);
    told.or_else(|| match outlines.as_slice() {
        [(name, _)] => Some(name.clone()),
        _ => None,
    })
}

impl Told {
    /// What is told of each hole; numbers of holes there are none of are reported.
    fn of(&self, plays: &[Play<'_>], field: &str, faults: &mut Vec<ReadFault>) -> Vec<Option<i64>> {
        match self {
            Told::Nothing => vec![None; plays.len()],
            Told::InOrder(list) if list.len() == plays.len() => {
                list.iter().copied().map(Some).collect()
            }
            Told::InOrder(list) => {
                let allowed = format!("one for each of the {} holes", plays.len());
                faults.push(wrong(field, &format!("{} numbers", list.len()), &allowed));
                Vec::new()
            }
            Told::ByRef(list) => {
                let mut left: BTreeMap<String, i64> =
                    list.iter().map(|(k, v)| (normal(k), *v)).collect();
                let told = plays
                    .iter()
                    .map(|play| left.get(play.reference.as_ref()?).copied())
                    .collect();
                for play in plays {
                    play.reference.as_ref().map(|r| left.remove(r));
                }
                if !left.is_empty() {
                    let keys: Vec<&str> = left.keys().map(String::as_str).collect();
                    let known: Vec<&str> = plays
                        .iter()
                        .filter_map(|p| p.reference.as_deref())
                        .collect();
                    let allowed = format!("told for holes of the course: {}", known.join(", "));
                    faults.push(wrong(
                        field,
                        &format!("told for hole {}", keys.join(", ")),
                        &allowed,
                    ));
                }
                told
            }
        }
    }
}
