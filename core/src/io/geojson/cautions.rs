//! Who and what near a hole must not be hit.
use super::classify::Kind;
use super::map::{Map, Mapped};
use super::nearby::{Nearest, bounds, encloses, nearest};
use super::play::Layout;
use super::shape::Shape;
use super::{Options, on_plane};
use crate::figures::hole::CAUTION_REACH;
use crate::geometry::Point;

/// The most cautions of a hole.
const MOST: usize = 12;

/// The cautions of a hole, those nearest to the line of play first, one for each kind and name.
pub(super) fn of(map: &Map, layout: &Layout, options: &Options) -> Vec<String> {
    let mut found: Vec<(Nearest, &'static str, Option<String>)> = Vec::new();
    for feature in &map.features {
        let word = match feature.class.kind {
            Kind::People(word) => word,
            Kind::Building => "building",
            _ => continue,
        };
        let Some(near) = nearest_of(feature, layout, CAUTION_REACH.min(options.reach)) else {
            continue;
        };
        let name = feature.name();
        match found.iter_mut().find(|(_, w, n)| *w == word && *n == name) {
            Some(known) if near.far < known.0.far => known.0 = near,
            Some(_) => {}
            None => found.push((near, word, name)),
        }
    }
    found.sort_by(|a, b| {
        a.0.far
            .total_cmp(&b.0.far)
            .then(a.1.cmp(b.1))
            .then(a.2.cmp(&b.2))
    });
    let told = found.into_iter().take(MOST);
    told.map(|(near, word, name)| sentence(near, word, name))
        .collect()
}

fn sentence(near: Nearest, word: &str, name: Option<String>) -> String {
    let name = name.map_or(String::new(), |name| format!(" ({name})"));
    let along = near.along;
    if near.far < 1.0 {
        return format!("a {word}{name} crosses the line of play {along:.0} yards from the tee");
    }
    let side = if near.right { "right" } else { "left" };
    let far = near.far;
    format!(
        "a {word}{name} comes within {far:.0} yards of the line of play, on its {side}, {along:.0} yards from the tee"
    )
}

/// Where a feature comes nearest to the line of play, if that is within reach.
fn nearest_of(feature: &Mapped, layout: &Layout, reach: f64) -> Option<Nearest> {
    let line = &layout.line;
    let lines: Vec<Vec<Point>> = match feature.shape.as_ref().ok()? {
        Shape::Points(points) => on_plane(&layout.plane, points)
            .into_iter()
            .map(|p| vec![p])
            .collect(),
        Shape::Lines(lines) => lines.iter().map(|l| on_plane(&layout.plane, l)).collect(),
        Shape::Areas(areas) => areas
            .iter()
            .filter_map(|rings| rings.first())
            .map(|ring| on_plane(&layout.plane, ring))
            .collect(),
    };
    let (low, high) = bounds(line.iter().copied());
    let close = lines.iter().filter(|drawn| {
        let (l, h) = bounds(drawn.iter().copied());
        h.x >= low.x - reach
            && l.x <= high.x + reach
            && h.y >= low.y - reach
            && l.y <= high.y + reach
    });
    let is_area = matches!(feature.shape, Ok(Shape::Areas(_)));
    let best = close
        .filter_map(|drawn| {
            // A park around the whole hole says nothing.
            let around = is_area && line.first().is_some_and(|&p| encloses(drawn, p));
            nearest(line, drawn).filter(|_| !around)
        })
        .min_by(|a, b| a.far.total_cmp(&b.far))?;
    (best.far <= reach).then_some(best)
}
