//! What converters write twice, taken once: an area that is there as a line and as a polygon, or the same shape again.
use super::map::Mapped;
use super::shape::{Position, Shape};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// What is the same for the same thing: the tag that says what it is, its number on the course, and its places to a
/// centimetre.
type Key = (String, Option<String>, Vec<(i64, i64)>);

/// The features without those that say again what another says; of a line and an area the area stays.
pub(super) fn once(features: Vec<Mapped>) -> Vec<Mapped> {
    let mut seen: BTreeMap<Key, usize> = BTreeMap::new();
    let mut kept: Vec<Option<Mapped>> = Vec::new();
    for feature in features {
        let Some(key) = key(&feature) else {
            kept.push(Some(feature));
            continue;
        };
        match seen.entry(key) {
            Entry::Vacant(place) => {
                place.insert(kept.len());
                kept.push(Some(feature));
            }
            Entry::Occupied(place) => {
                let before = &mut kept[*place.get()];
                if is_area(&feature) && !before.as_ref().is_some_and(is_area) {
                    *before = Some(feature);
                }
            }
        }
    }
    kept.into_iter().flatten().collect()
}

fn is_area(feature: &Mapped) -> bool {
    matches!(feature.shape, Ok(Shape::Areas(_)))
}

fn key(feature: &Mapped) -> Option<Key> {
    let shape = feature.shape.as_ref().ok()?;
    let closed = |line: &Vec<Position>| line.len() > 3 && line.first() == line.last();
    let mut places: Vec<(i64, i64)> = shape.positions().map(rounded).collect();
    let ring = match shape {
        Shape::Areas(_) => true,
        Shape::Lines(lines) => lines.iter().all(closed),
        Shape::Points(_) => false,
    };
    if ring {
        // A ring may begin anywhere and run either way.
        places.sort_unstable();
        places.dedup();
    }
    let number = feature.tags.first(&["ref", "number"]).map(str::to_owned);
    Some((feature.class.tag.clone(), number, places))
}

fn rounded(p: Position) -> (i64, i64) {
    let whole = |degrees: f64| (degrees * 1e7).round() as i64;
    (whole(p.longitude), whole(p.latitude))
}
