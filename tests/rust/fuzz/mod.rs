//! Documents of every kind mutated, and every reader of the core asked to read them.
//!
//! A reader may read what it is given or refuse it; it must not panic, must not take long, and what it refuses it must name.
#![expect(clippy::print_stderr, reason = "the seed of what it found is told")]

use serde_json::{Map, Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};
use wideberth::hole::Hole;
use wideberth::io::geojson::{Assumed, Bound, CourseOptions, Obstruction, Options, read_course};
use wideberth::io::survey::{Place, Unit};
use wideberth::io::{self, asc, native};

/// A generator of whole numbers (SplitMix64: Steele, Lea and Flood, 2014), so that a seed tells a document anywhere.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Dice(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }

    fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }
}

/// Words that mean something to some reader.
const WORDS: [&str; 44] = [
    "type",
    "FeatureCollection",
    "features",
    "Feature",
    "properties",
    "geometry",
    "coordinates",
    "Polygon",
    "MultiPolygon",
    "LineString",
    "Point",
    "golf",
    "hole",
    "green",
    "pin",
    "tee",
    "bunker",
    "out_of_bounds",
    "water_hazard",
    "natural",
    "water",
    "wood",
    "coastline",
    "waterway",
    "stream",
    "width",
    "height",
    "par",
    "ref",
    "9;18",
    "elements",
    "relation",
    "way",
    "node",
    "members",
    "nodes",
    "lat",
    "lon",
    "role",
    "leisure",
    "golf_course",
    "format",
    "tags",
    "other_tags",
];

const NUMBERS: [f64; 18] = [
    0.0,
    -0.0,
    1.0,
    -1.0,
    3.0,
    0.5,
    1e-12,
    1e-300,
    1e300,
    -1e300,
    90.0,
    180.0,
    -180.000_000_1,
    89.5,
    1e5,
    2e9,
    1.8e19,
    -31.2,
];

/// What the readers begin from.
pub(crate) struct Bases {
    json: Vec<Value>,
    grids: Vec<String>,
    hole: Hole,
}

impl Bases {
    pub(crate) fn new() -> Self {
        let data = |file: &str| {
            let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../python/wideberth/data/");
            std::fs::read_to_string(format!("{root}{file}")).unwrap()
        };
        let parsed = |file: &str| -> Value { serde_json::from_str(&data(file)).unwrap() };
        let bend = data("alder-bend.geojson");
        let hole = io::geojson::read(&bend, &Options::default()).unwrap();
        let document = serde_json::from_str(&native::write(&hole)).unwrap();
        let mut json = vec![
            parsed("alder-bend.geojson"),
            parsed("plover-neck.geojson"),
            document,
            io::geojson::write(&hole).unwrap(),
        ];
        // The whole course is large: two thirds of the time would go to it.
        let mut course = parsed("sandpiper-links.json");
        let elements = course["elements"].as_array_mut().unwrap();
        elements.retain(|e| e["tags"]["ref"] != json!("10") && e["id"].as_i64().unwrap() % 3 != 0);
        json.push(course);
        let grids = vec![
            "ncols 3\nnrows 3\nxllcorner -24.36\nyllcorner -31.21\ncellsize 0.01\nNODATA_value -9999\n1 2 3 4 -9999 6 7 8 9\n"
                .to_owned(),
            "NCOLS 2 NROWS 2 xllcenter 0 yllcenter 0 cellsize 500 1 2 3 4".to_owned(),
        ];
        Bases { json, grids, hole }
    }
}

/// What was counted.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Counts {
    pub(crate) documents: u64,
    pub(crate) read: u64,
    pub(crate) refused: u64,
    pub(crate) panics: u64,
    pub(crate) nameless: u64,
    pub(crate) slowest: Duration,
    /// The seed of the slowest document.
    pub(crate) slowest_seed: u64,
}

impl Counts {
    /// The counts of both.
    pub(crate) fn with(self, other: &Counts) -> Counts {
        let (slowest, slowest_seed) =
            (self.slowest, self.slowest_seed).max((other.slowest, other.slowest_seed));
        Counts {
            documents: self.documents + other.documents,
            read: self.read + other.read,
            refused: self.refused + other.refused,
            panics: self.panics + other.panics,
            nameless: self.nameless + other.nameless,
            slowest,
            slowest_seed,
        }
    }
}

/// Reads the documents of some seeds.
pub(crate) fn run(bases: &Bases, seeds: std::ops::Range<u64>) -> Counts {
    let mut counts = Counts::default();
    for seed in seeds {
        counts.documents += 1;
        let began = Instant::now();
        match catch_unwind(AssertUnwindSafe(|| outcome(bases, seed))) {
            Err(_) => {
                counts.panics += 1;
                eprintln!("panic: seed {seed}");
            }
            Ok(Ok(())) => counts.read += 1,
            Ok(Err(words)) => {
                counts.refused += 1;
                if let Some(line) = words.lines().find(|line| !names_something(line)) {
                    counts.nameless += 1;
                    eprintln!("names nothing: seed {seed}: {line:?}");
                }
                if words.is_empty() {
                    counts.nameless += 1;
                    eprintln!("says nothing: seed {seed}");
                }
            }
        }
        let took = began.elapsed();
        if took > counts.slowest {
            (counts.slowest, counts.slowest_seed) = (took, seed);
        }
    }
    counts
}

/// A line that tells which part of the document it is about.
fn names_something(line: &str) -> bool {
    /// Words by which faults call what they are about.
    const NAMES: [&str; 40] = [
        "feature",
        "hole",
        "line",
        "JSON",
        "type",
        "format",
        "pin",
        "tee",
        "green",
        "par",
        "elements",
        "course",
        "grid",
        "row",
        "ncols",
        "nrows",
        "xll",
        "yll",
        "cellsize",
        "nodata",
        "version",
        "name",
        "outline",
        "survey",
        "extent",
        "heights",
        "crs",
        "document",
        "number",
        "stroke_index",
        "boundar",
        "terrain",
        "conditions",
        "warnings",
        "north_up",
        "origin",
        "attribution",
        "caution",
        "told",
        "known field",
    ];
    NAMES.iter().any(|name| line.contains(name))
}

/// What the reader of the document of a seed says.
fn outcome(bases: &Bases, seed: u64) -> Result<(), String> {
    let mut dice = Dice::new(seed);
    if dice.below(8) == 0 {
        return grid(bases, &mut dice);
    }
    let base = dice.below(bases.json.len());
    let mut document = bases.json[base].clone();
    for _ in 0..1 + dice.below(3) {
        // Most changes go into the features: what is wrong further up ends the reading at once.
        let shallow = if dice.below(10) == 0 { 0 } else { 3 };
        mutate(&mut document, &mut dice, shallow);
    }
    let mut text = document.to_string();
    if dice.below(6) == 0 {
        text = garbled(&text, &mut dice);
    }
    let is_document = document.get("format").is_some();
    let options = if is_document {
        Options::default()
    } else {
        options(&mut dice)
    };
    if base + 1 == bases.json.len() || dice.below(10) == 0 {
        let each = Options {
            course: (base + 1 == bases.json.len()).then(|| "Sandpiper Links".to_owned()),
            ..options
        };
        let whole = CourseOptions {
            each,
            ..CourseOptions::default()
        };
        let found = read_course(&text, &whole).map_err(|faults| faults.to_string())?;
        let faults = found
            .holes
            .iter()
            .filter_map(|hole| hole.hole.as_ref().err());
        let words: Vec<String> = faults.map(ToString::to_string).collect();
        let nameless = words
            .iter()
            .flat_map(|text| text.lines())
            .any(|line| !names_something(line));
        // A course of which some holes can be read counts as read.
        if words.len() < found.holes.len() && !nameless {
            return Ok(());
        }
        return Err(words.join("\n"));
    }
    let hole = io::hole_from_text(&text, &options).map_err(|faults| faults.to_string())?;
    // What was read can be written, and is read again.
    native::read(&native::write(&hole)).map_err(|faults| format!("NOT READ AGAIN: {faults}"))?;
    Ok(())
}

fn options(dice: &mut Dice) -> Options {
    let mut options = Options::default();
    if dice.below(2) == 0 {
        options.par = Some(4);
        options.assume = vec![Assumed::Green, Assumed::Fairway];
    }
    if dice.below(4) == 0 {
        options.out_of_bounds = vec![Bound::CourseOutline, Bound::Fence, Bound::Road];
        options.obstructions = vec![Obstruction::Building];
    }
    options
}

fn grid(bases: &Bases, dice: &mut Dice) -> Result<(), String> {
    let text = dice.pick(&bases.grids).clone();
    let text = garbled(&text, dice);
    let place = match bases.hole.about().place.filter(|_| dice.below(2) == 0) {
        Some(plane) => Place::Degrees { plane },
        None => Place::Projected {
            unit: Unit::Metres,
            origin: (0.0, 0.0),
        },
    };
    let around = asc::read_around(&text, Unit::Metres, &place, &bases.hole);
    around.map(|_| ()).map_err(|faults| faults.to_string())
}

/// Changes a document somewhere, but not above so many levels.
fn mutate(value: &mut Value, dice: &mut Dice, shallow: u8) {
    let below = shallow.saturating_sub(1);
    let deeper = match value {
        Value::Array(list) => !list.is_empty() && (shallow > 0 || dice.below(8) > 0),
        Value::Object(members) => !members.is_empty() && (shallow > 0 || dice.below(8) > 0),
        _ => false,
    };
    if deeper {
        match value {
            Value::Array(list) => {
                let i = dice.below(list.len());
                match dice.below(12) + 3 * usize::from(shallow > 0) {
                    0 => drop(list.remove(i)),
                    1 => {
                        let again = list[i].clone();
                        list.insert(dice.below(list.len()), again);
                    }
                    2 => {
                        let j = dice.below(list.len());
                        list.swap(i, j);
                    }
                    _ => mutate(&mut list[i], dice, below),
                }
            }
            Value::Object(members) => {
                let keys: Vec<String> = members.keys().cloned().collect();
                // The list of features, or of elements, is where most of a map is.
                let lists = keys.iter().find(|k| *k == "features" || *k == "elements");
                let key = match lists.filter(|_| shallow > 0) {
                    Some(list) => list.clone(),
                    None => dice.pick(&keys).clone(),
                };
                match dice.below(12) + 3 * usize::from(shallow > 0) {
                    0 => drop(members.remove(&key)),
                    1 => {
                        let moved = members.remove(&key).unwrap_or_default();
                        members.insert((*dice.pick(&WORDS)).to_owned(), moved);
                    }
                    _ => {
                        if let Some(inner) = members.get_mut(&key) {
                            mutate(inner, dice, below);
                        }
                    }
                }
            }
            _ => {}
        }
        return;
    }
    *value = match (value.as_f64(), dice.below(3)) {
        (Some(number), 0) => json!(number + (dice.below(2001) as f64 - 1000.0) * 1e-6),
        (Some(number), 1) => json!(number * *dice.pick(&NUMBERS)),
        _ => any(dice, 2),
    };
}

fn any(dice: &mut Dice, depth: u8) -> Value {
    match dice.below(if depth == 0 { 5 } else { 8 }) {
        0 => Value::Null,
        1 => Value::Bool(dice.below(2) == 0),
        2 => json!(*dice.pick(&NUMBERS)),
        3 => json!(*dice.pick(&WORDS)),
        4 => json!("\u{1b}[31m\u{202e}é\u{0}"),
        5 | 6 => (0..dice.below(4)).map(|_| any(dice, depth - 1)).collect(),
        _ => {
            let pairs =
                (0..dice.below(4)).map(|_| ((*dice.pick(&WORDS)).to_owned(), any(dice, depth - 1)));
            Value::Object(pairs.collect::<Map<_, _>>())
        }
    }
}

/// A text with some of its characters changed, cut out or repeated.
fn garbled(text: &str, dice: &mut Dice) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    for _ in 0..1 + dice.below(6) {
        if letters.is_empty() {
            break;
        }
        let (i, far) = (dice.below(letters.len()), 1 + dice.below(12));
        let end = (i + far).min(letters.len());
        match dice.below(4) {
            0 => drop(letters.drain(i..end)),
            1 => letters[i] = *dice.pick(&['9', '-', '.', 'e', '{', ']', '"', ' ', '\u{0}', 'n']),
            2 => {
                let again = letters[i..end].to_vec();
                letters.splice(i..i, again);
            }
            _ => {
                let word: Vec<char> = format!("{:?}", dice.pick(&NUMBERS)).chars().collect();
                letters.splice(i..i, word);
            }
        }
    }
    letters.into_iter().collect()
}
