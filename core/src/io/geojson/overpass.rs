//! The answer of an Overpass query (`[out:json]`) as features: its nodes, ways and relations with their tags.
//!
//! A way is drawn by its own `geometry` or by the nodes of the answer; a closed way is an area unless its tags say that it
//! is a line. The ways of a multipolygon are joined end to end, and an outer way that has the tags of its multipolygon once
//! more is part of that alone. The ways of a relation `route=golf` belong to the course that it names.
use super::classify::{self, Kind};
use super::join::joined;
use super::shape::{Broken, Position, Shape};
use super::tags::Tags;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// One element with tags.
pub(super) struct Element {
    /// Its place in the answer, counted from 0.
    pub(super) index: usize,
    pub(super) tags: Tags,
    pub(super) shape: Result<Shape, Broken>,
}

/// The elements that have tags, with their shapes.
pub(super) fn elements(list: &[Value]) -> Vec<Element> {
    let answer = Answer::of(list);
    let mut found = Vec::new();
    for (index, element) in list.iter().enumerate() {
        let kind = element.get("type").and_then(Value::as_str).unwrap_or("");
        let Some(mut tags) = tags_of(element) else {
            continue;
        };
        let shape = match kind {
            "node" => place(element)
                .map(|p| Shape::Points(vec![p]))
                .ok_or_else(|| broken("it has no lat and lon", Vec::new())),
            "way" => {
                let id = id_of(element);
                if id.is_some_and(|id| answer.is_doubled(id, &tags)) {
                    continue;
                }
                if let Some(course) = id.and_then(|id| answer.courses.get(&id)) {
                    tags.add("golf:course:name", &Value::String(course.clone()));
                }
                answer.way(element, &tags)
            }
            "relation"
                if tags
                    .first(&["type"])
                    .is_some_and(|t| t == "multipolygon" || t == "boundary") =>
            {
                answer.multipolygon(element)
            }
            _ => continue,
        };
        found.push(Element { index, tags, shape });
    }
    found
}

/// What the elements of an answer refer to.
struct Answer<'a> {
    nodes: BTreeMap<i64, Position>,
    ways: BTreeMap<i64, &'a Value>,
    /// The classes of the multipolygons that a way is an outer way of.
    outers: BTreeMap<i64, BTreeSet<Kind>>,
    /// The course of a way.
    courses: BTreeMap<i64, String>,
}

impl<'a> Answer<'a> {
    fn of(list: &'a [Value]) -> Self {
        let mut answer = Answer {
            nodes: BTreeMap::new(),
            ways: BTreeMap::new(),
            outers: BTreeMap::new(),
            courses: BTreeMap::new(),
        };
        for element in list {
            let Some(id) = id_of(element) else { continue };
            match element.get("type").and_then(Value::as_str) {
                Some("node") => answer.nodes.extend(place(element).map(|p| (id, p))),
                Some("way") => drop(answer.ways.insert(id, element)),
                Some("relation") => answer.note_members(element),
                _ => {}
            }
        }
        answer
    }

    fn note_members(&mut self, relation: &Value) {
        let Some(tags) = tags_of(relation) else {
            return;
        };
        let name = tags.first(&["name", "ref"]).map(str::to_owned);
        let golf = tags.get("route") == Some("golf");
        for member in members(relation) {
            let Some(id) = member.get("ref").and_then(Value::as_i64) else {
                continue;
            };
            if golf {
                self.courses.extend(name.clone().map(|name| (id, name)));
            } else if role(member) != "inner"
                && let Some(class) = classify::class(&tags)
            {
                self.outers.entry(id).or_default().insert(class.kind);
            }
        }
    }

    /// True for a way whose tags say what a multipolygon around it says.
    fn is_doubled(&self, id: i64, tags: &Tags) -> bool {
        let kinds = self.outers.get(&id);
        kinds.is_some_and(|kinds| classify::class(tags).is_some_and(|c| kinds.contains(&c.kind)))
    }

    /// The positions of a way, or of a member that brings its own; None where one is missing.
    fn positions(&self, way: &Value) -> (Vec<Position>, bool) {
        let list = |key: &str| way.get(key).and_then(Value::as_array);
        let found: Vec<Option<Position>> = match (list("geometry"), list("nodes")) {
            (Some(own), _) => own.iter().map(place).collect(),
            (None, Some(nodes)) => nodes
                .iter()
                .map(|id| self.nodes.get(&id.as_i64()?).copied())
                .collect(),
            (None, None) => Vec::new(),
        };
        let whole = found.len() > 1 && found.iter().all(Option::is_some);
        (found.into_iter().flatten().collect(), whole)
    }

    fn way(&self, way: &Value, tags: &Tags) -> Result<Shape, Broken> {
        let (positions, whole) = self.positions(way);
        if !whole {
            let why = "the answer does not have all its nodes (ask with \"out geom\")";
            return Err(broken(why, positions));
        }
        let closed = positions.len() > 3 && positions.first() == positions.last();
        Ok(if closed && !is_line(tags) {
            Shape::Areas(vec![vec![positions]])
        } else {
            Shape::Lines(vec![positions])
        })
    }

    fn multipolygon(&self, relation: &Value) -> Result<Shape, Broken> {
        let (mut outer, mut inner, mut whole) = (Vec::new(), Vec::new(), true);
        for member in members(relation) {
            if member.get("type").and_then(Value::as_str) != Some("way") {
                continue;
            }
            let own = member.get("geometry").is_some().then_some(member);
            let id = member.get("ref").and_then(Value::as_i64);
            let way = own.or_else(|| self.ways.get(&id?).copied());
            let (positions, all) = way.map_or((Vec::new(), false), |way| self.positions(way));
            whole &= all;
            if role(member) == "inner" {
                inner.push(positions);
            } else {
                outer.push(positions);
            }
        }
        let known: Vec<Position> = outer.concat();
        let (outer, inner) = (joined(outer, false), joined(inner, false));
        let closed = |ring: &Vec<Position>| ring.len() > 3 && ring.first() == ring.last();
        if !whole || outer.is_empty() || !outer.iter().chain(&inner).all(closed) {
            let why = "the answer does not have all the ways of its rings (ask with \"out geom\")";
            return Err(broken(why, known));
        }
        let mut areas: Vec<Vec<Vec<Position>>> = outer.into_iter().map(|ring| vec![ring]).collect();
        for ring in inner {
            let around = |area: &&mut Vec<Vec<Position>>| encloses(&area[0], ring[0]);
            if let Some(area) = areas.iter_mut().find(around) {
                area.push(ring);
            }
        }
        Ok(Shape::Areas(areas))
    }
}

fn broken(message: &str, positions: Vec<Position>) -> Broken {
    Broken {
        messages: vec![message.to_owned()],
        positions,
    }
}

fn id_of(element: &Value) -> Option<i64> {
    element.get("id").and_then(Value::as_i64)
}

fn tags_of(element: &Value) -> Option<Tags> {
    Some(Tags::of(element.get("tags")?.as_object()?))
}

fn members(relation: &Value) -> impl Iterator<Item = &Value> {
    let list = relation.get("members").and_then(Value::as_array);
    list.into_iter().flatten()
}

fn role(member: &Value) -> &str {
    member.get("role").and_then(Value::as_str).unwrap_or("")
}

/// The place that `lat` and `lon` tell.
fn place(value: &Value) -> Option<Position> {
    let degrees = |key: &str, most: f64| {
        let value = value.get(key)?.as_f64()?;
        (value.abs() <= most).then_some(value)
    };
    Some(Position {
        longitude: degrees("lon", 180.0)?,
        latitude: degrees("lat", 90.0)?,
    })
}

/// True for what is a line even where it is closed.
fn is_line(tags: &Tags) -> bool {
    let any = |key: &str| tags.get(key).is_some();
    !tags.says_yes("area")
        && (any("barrier")
            || any("highway")
            || any("railway")
            || (any("waterway") && tags.get("waterway") != Some("riverbank"))
            || matches!(
                tags.get("golf"),
                Some("hole" | "cartpath" | "path" | "out_of_bounds")
            )
            || matches!(tags.get("natural"), Some("coastline" | "tree_row")))
}

/// True where `p` is inside the ring, by the even-odd rule.
pub(super) fn encloses(ring: &[Position], p: Position) -> bool {
    let (x, y) = (p.longitude, p.latitude);
    let crosses = |a: &Position, b: &Position| {
        (a.latitude > y) != (b.latitude > y)
            && x < a.longitude
                + (b.longitude - a.longitude) * (y - a.latitude) / (b.latitude - a.latitude)
    };
    ring.windows(2).filter(|e| crosses(&e[0], &e[1])).count() % 2 == 1
}
