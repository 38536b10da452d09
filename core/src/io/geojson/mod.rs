//! Maps of holes and courses: GeoJSON (RFC 7946) or the answer of an Overpass query, with OpenStreetMap's golf tags or with
//! plain surface names.
//!
//! What a feature is, is told by the first of these that fits:
//!
//! - `golf`: `hole` (a LineString from tee to green with `par` and, if known, `ref`, `handicap`, `name`), `pin`, `tee`,
//!   `fairway`, `green`, `bunker`, `rough`, `water_hazard` (yellow), `lateral_water_hazard` (red), `penalty_area` (red),
//!   `out_of_bounds` (a line or an area). Other values are left out with a note.
//! - `role` or `surface`: one of our surface names (`first_cut`, `fringe`, `penalty_red`, ...), `pin`, or `line_of_play`
//!   (as `golf=hole`, with `number` and `stroke_index` as other names of `ref` and `handicap`). A point with `role=tee`
//!   is where the tee shot is played from. Other values of `role` are left out with a note, and those of `surface` where no
//!   other tag says what the thing is: ordinary maps have `surface=asphalt` on roads.
//! - `leisure=golf_course`: the outline of a course. It tells which course a hole belongs to, and may be taken for the
//!   boundary ([`Options::out_of_bounds`]).
//! - `natural=water`, `wetland` or `bay`, `landuse=basin` or `reservoir`, `waterway=*`: nobody marked it, so it becomes a red
//!   penalty area with a note; a line is as wide as its `width` (metres), or 4 yards with a note. So does the sea, which lies
//!   to the right of `natural=coastline`.
//! - `natural=wood` or `tree_row` or `tree`, `landuse=forest`: trees, as high as their `height` (metres).
//! - `natural=scrub` or `heath`: deep rough (common practice, no source).
//! - walls, fences, hedges and buildings: noted where they stand near, or made into boundaries or into what stops a ball
//!   where that is asked for ([`Options::out_of_bounds`], [`Options::obstructions`]).
//! - roads, paths, railways, houses, playgrounds and the like: cautions of the holes they lie near.
//!
//! Anything else is no part of the game and is passed over. Ground outside the course is out of bounds only where a boundary
//! is drawn or asked for.
//!
//! Only what comes within [`Options::reach`] of the line of play belongs to a hole, and only that can be at fault: a shape or
//! a tag far away is passed over, whatever is wrong with it. Near the hole a number that is not understood is taken for the
//! usual one, an outline that crosses itself for the areas it encloses, and a faulty shape is left out, each with a note. A
//! faulty green of the hole, penalty area or boundary is a fault: nothing could be said of the hole without it. What has no
//! place at all (a geometry of null, an empty list) may belong to any hole whose number it does not exclude; water that nobody
//! marked is then only noted. Shapes are cut to a box around the hole.
//!
//! The tee shot is played from the first position of the line of play. Where outlines overlap, the more special one wins,
//! from the bottom: rough, deep rough, trees, first cut, fairway, penalty area, tee, bunker, fringe, green, and out of bounds
//! over everything, for nothing beyond the boundary is on the course (Rules of Golf, Definitions: out of bounds). Trees stand
//! over whatever ground is drawn on them, which is the ground that a ball under them lies on; but a wood that covers the tee
//! or the pin is taken for one that the hole is cut out of ([`Hole::standing_trees`]).
//! No fringe is invented where none is mapped.
mod card;
mod cautions;
mod classify;
mod clip;
mod course;
mod extras;
mod join;
mod map;
mod measure;
mod nearby;
mod once;
mod overpass;
mod play;
mod plays;
mod shape;
mod surfaces;
mod tags;
mod tees;
mod write;

pub use course::{CourseOptions, MappedCourse, MappedHole, Told, read_course};
pub use plays::Choice;
pub use write::write;

use super::json::{self};
use super::{ReadFault, ReadFaults};
use crate::geometry::{LocalPlane, Point};
use crate::hole::{About, Draft, Hole, HoleFault, Warning};
use crate::text::{LONGEST_CREDIT, allowed, is_fit};
use map::{Map, Mapped};
use plays::Play;
use serde_json::Value;
use shape::Position;

/// The most positions of a line of play that is told.
const LONGEST_LINE: usize = 200;

/// How a map is read: which hole, and what is told beside the map.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// The hole to read; needed when the map has several.
    pub hole: Option<Choice>,
    /// The name of the course it belongs to; needed when holes of several courses fit.
    pub course: Option<String>,
    /// Par, in place of what the map says.
    pub par: Option<i64>,
    /// Number on the card, in place of what the map says.
    pub number: Option<i64>,
    /// Stroke index on the card, in place of what the map says.
    pub stroke_index: Option<i64>,
    /// Name of the hole, in place of what the map says.
    pub name: Option<String>,
    /// The tee to play from, in place of the start of the line of play.
    pub tee: Option<Tee>,
    /// The line of play from the tee to the green, longitudes and latitudes, in place of that of the map. Where no green is
    /// mapped at its end, an ordinary one is assumed.
    pub line: Option<Vec<(f64, f64)>>,
    /// The hole in the green, longitude and latitude, in place of that of the map.
    pub pin: Option<(f64, f64)>,
    /// What is taken for the usual where the map has none, each with a note.
    pub assume: Vec<Assumed>,
    /// What beside `golf=out_of_bounds` is taken for the boundary.
    pub out_of_bounds: Vec<Bound>,
    /// What is taken for something that stops a ball as trees do.
    pub obstructions: Vec<Obstruction>,
    /// The credit that the data asks for, in place of what the map says.
    pub attribution: Option<String>,
    /// Features within this many yards of the line of play belong to the hole; default 150.
    pub reach: f64,
    /// Stimpmeter reading of the green, feet (maps do not tell it); default 9.
    pub green_speed_ft: f64,
}

impl Default for Options {
    fn default() -> Self {
        Options {
            hole: None,
            course: None,
            par: None,
            number: None,
            stroke_index: None,
            name: None,
            tee: None,
            line: None,
            pin: None,
            assume: Vec::new(),
            out_of_bounds: Vec::new(),
            obstructions: Vec::new(),
            attribution: None,
            reach: 150.0,
            green_speed_ft: crate::figures::hole::GREEN_SPEED_FT,
        }
    }
}

/// A tee of a map.
#[derive(Clone, Debug, PartialEq)]
pub enum Tee {
    /// By the colour of its markers or its name.
    Named(String),
    /// A longitude and latitude, degrees.
    Place(f64, f64),
}

/// What may be assumed where a map has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// A green of ordinary size at the end of the line of play.
    Green,
    /// A fairway of ordinary width along the line of play.
    Fairway,
    /// A pin in the middle of the green.
    Pin,
}

/// What may be taken for a boundary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// The outline of the course: all ground outside it is out of bounds.
    CourseOutline,
    /// Walls that run past the hole.
    Wall,
    /// Fences that run past the hole.
    Fence,
    /// Hedges that run past the hole.
    Hedge,
    /// Roads that run past the hole.
    Road,
}

/// What may be taken for something that stops a ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstruction {
    /// Buildings.
    Building,
    /// Walls.
    Wall,
    /// Hedges.
    Hedge,
}

/// Reads a hole from a map.
///
/// # Errors
/// Text that is no JSON, or every fault of the map and of the hole in it.
pub fn read(text: &str, options: &Options) -> Result<Hole, ReadFaults> {
    from_value(&json::parse(text)?, options)
}

/// Reads a parsed map.
pub(super) fn from_value(value: &Value, options: &Options) -> Result<Hole, ReadFaults> {
    let mut notes = Notes::default();
    options.check(&mut notes.faults);
    let map = match map::read(value) {
        Ok(map) => map,
        Err(faults) => {
            notes.faults.extend(faults);
            return Err(ReadFaults(notes.faults));
        }
    };
    let mut play = None;
    // Whoever tells the line of play need not choose one.
    if options.line.is_none() || options.hole.is_some() {
        let plays = plays::of_course_of(plays::all(&map), options);
        match plays.and_then(|plays| plays::choose(plays, options.hole.as_ref())) {
            Ok((chosen, note)) => {
                play = Some(chosen);
                note.into_iter().for_each(|text| notes.warn(text));
            }
            Err(fault) => notes.faults.push(fault),
        }
        if play.is_none() {
            return Err(ReadFaults(notes.faults));
        }
    }
    hole(&map, play.as_ref(), options, notes)
}

/// Reads one hole of a map.
fn hole(
    map: &Map,
    play: Option<&Play<'_>>,
    options: &Options,
    mut notes: Notes,
) -> Result<Hole, ReadFaults> {
    if !notes.faults.is_empty() {
        return Err(ReadFaults(notes.faults));
    }
    let card = card::card(play, options, &mut notes);
    let Some(layout) = play::lay_out(map, play, options, &mut notes) else {
        return Err(ReadFaults(notes.faults));
    };
    if options.line.is_none() {
        card::check_distance(play, &layout.line, options, &mut notes);
    }
    let mut drawing = surfaces::Drawing::new(&layout, options, card.par);
    drawing.draw(map, &mut notes);
    let cautions = cautions::of(map, &layout, options);
    let about = About {
        north_up: true,
        place: Some(layout.plane),
        attribution: options.attribution.clone().or(map.attribution.clone()),
        tees: layout.tees.clone(),
        cautions,
    };
    let draft = Draft {
        name: Some(card.name),
        number: card.number,
        par: card.par,
        stroke_index: card.stroke_index,
        tee: Some(layout.tee),
        pin: layout.pin,
        line: Some(layout.line.clone()),
        green_speed: Some(options.green_speed_ft),
        ..drawing.finish()
    };
    finish(draft, about, notes)
}

/// The hole, or all the faults.
fn finish(draft: Draft, about: About, mut notes: Notes) -> Result<Hole, ReadFaults> {
    let faults = if notes.faults.is_empty() {
        match draft.build(notes.warnings()) {
            Ok(hole) => return Ok(hole.with_about(about)),
            Err(faults) => faults.0,
        }
    } else {
        draft.faults()
    };
    // Without a green at the end of the line of play nothing else of it matters.
    let no_green =
        |fault: &HoleFault| matches!(fault, HoleFault::NoGreen | HoleFault::LineEnd { .. });
    if faults.iter().any(no_green) {
        let text = "none is mapped at the end of the line of play; an ordinary one can be assumed there (assume=\"green\")";
        notes.fault("green".to_owned(), text);
    }
    let follows = |fault: &HoleFault| matches!(fault, HoleFault::PinOffGreen { .. });
    let told = faults.iter().any(no_green);
    let left = faults.into_iter().filter(|fault| !(told && follows(fault)));
    notes.faults.extend(left.map(ReadFault::Hole));
    Err(ReadFaults(notes.faults))
}

impl Options {
    /// Refuses what no map could make sense of.
    fn check(&self, faults: &mut Vec<ReadFault>) {
        let mut refuse = |field: &str, value: String, allowed: &str| {
            faults.push(super::fault::wrong(field, &value, allowed));
        };
        if !(self.reach >= 0.0 && self.reach <= 2000.0) {
            refuse("reach", self.reach.to_string(), "0 to 2000 yards");
        }
        let sound = |&(x, y): &(f64, f64)| x.abs() <= 180.0 && y.abs() <= 90.0;
        let degrees = "a longitude, -180 to 180, and a latitude, -90 to 90";
        let mut place = |field: &str, at: Option<(f64, f64)>| {
            if let Some((x, y)) = at.filter(|at| !sound(at)) {
                refuse(field, format!("({x}, {y})"), degrees);
            }
        };
        place("pin", self.pin);
        if let Some(Tee::Place(x, y)) = self.tee {
            place("tee", Some((x, y)));
        }
        if let Some(Choice::Place(x, y)) = self.hole {
            place("hole", Some((x, y)));
        }
        if let Some(line) = &self.line {
            if !(2..=LONGEST_LINE).contains(&line.len()) {
                let allowed = format!("2 to {LONGEST_LINE} longitudes and latitudes");
                refuse("line", format!("{} positions", line.len()), &allowed);
            }
            for (i, at) in line.iter().enumerate().filter(|(_, at)| !sound(at)).take(8) {
                refuse(
                    &format!("line[{i}]"),
                    format!("({}, {})", at.0, at.1),
                    degrees,
                );
            }
        }
        if let Some(credit) = self
            .attribution
            .as_deref()
            .filter(|credit| !is_fit(credit, LONGEST_CREDIT))
        {
            refuse(
                "attribution",
                format!("{credit:?}"),
                &allowed(LONGEST_CREDIT),
            );
        }
    }
}

/// What was found wrong or assumed so far.
#[derive(Default)]
struct Notes {
    faults: Vec<ReadFault>,
    noted: Vec<Noted>,
}

/// A note of one thing, or of several alike.
struct Noted {
    /// What it is called without its place in the map: `trees`, `bunker "the pit"`.
    what: String,
    /// The places in the map of the features it is about; none where it is about no feature.
    features: Vec<usize>,
    text: String,
}

impl Noted {
    fn sentence(&self) -> String {
        /// More are counted only.
        const LISTED: usize = 4;
        let (what, text) = (&self.what, &self.text);
        let listed = self.features.iter().take(LISTED).map(usize::to_string);
        let list = listed.collect::<Vec<_>>().join(", ");
        match self.features.len() {
            0 => text.clone(),
            1 => format!("{what} (feature {list}){text}"),
            2..=LISTED => format!("{what} (features {list}){text}"),
            many => format!("{what} ({many} features: {list}, ...){text}"),
        }
    }
}

impl Notes {
    fn warn(&mut self, text: String) {
        self.noted.push(Noted {
            what: String::new(),
            features: Vec::new(),
            text,
        });
    }

    /// A note of a feature, with what is said of it; what is said of several alike is said once.
    fn of(&mut self, feature: &Mapped, text: impl Into<String>) {
        let (what, text) = (feature.called(), text.into());
        let same = |noted: &&mut Noted| noted.what == what && noted.text == text;
        match self.noted.iter_mut().find(same) {
            Some(noted) if noted.features.last() != Some(&feature.index) => {
                noted.features.push(feature.index);
            }
            Some(_) => {}
            None => self.noted.push(Noted {
                what,
                features: vec![feature.index],
                text,
            }),
        }
    }

    fn warnings(&self) -> Vec<Warning> {
        let sentences = self.noted.iter().map(Noted::sentence);
        sentences.map(Warning).collect()
    }

    fn fault(&mut self, feature: String, message: impl Into<String>) {
        self.faults.push(ReadFault::Geometry {
            feature,
            message: message.into(),
        });
    }
}

/// Positions on the plane, repeated ones once.
fn on_plane(plane: &LocalPlane, positions: &[Position]) -> Vec<Point> {
    let mut positions = positions.to_vec();
    positions.dedup();
    positions
        .iter()
        .map(|p| plane.to_plane(p.longitude, p.latitude))
        .collect()
}
