//! One hole of a map laid out: its plane, its line of play from the tee to the green, its pin.
use super::classify::Kind;
use super::map::{Map, Mapped};
use super::nearby::{encloses, to_line};
use super::plays::{self, Play};
use super::shape::{Position, Shape};
use super::tees::{self, has_reference};
use super::{Assumed, Notes, Options, Tee, join, on_plane};
use crate::figures::hole::LINE_END;
use crate::geometry::{LocalPlane, Point, Polygon};
use crate::hole::{NamedTee, Surface, from_tee};

/// A hole laid out on a plane.
pub(super) struct Layout {
    pub(super) plane: LocalPlane,
    /// From the tee that is played from to the green.
    pub(super) line: Vec<Point>,
    pub(super) tee: Point,
    pub(super) pin: Option<Point>,
    /// The feature that is the green of the hole, by its place in the map.
    pub(super) green: Option<usize>,
    pub(super) tees: Vec<NamedTee>,
    /// The number of the hole on the map, if it has one.
    pub(super) reference: Option<String>,
}

/// Lays a hole out; None after reporting what keeps it from that.
pub(super) fn lay_out(
    map: &Map,
    play: Option<&Play<'_>>,
    options: &Options,
    notes: &mut Notes,
) -> Option<Layout> {
    let (label, positions) = positions(play, options, notes)?;
    let origin = *positions.first()?;
    let Some(plane) = LocalPlane::new(origin.longitude, origin.latitude) else {
        let latitude = origin.latitude;
        let message = format!("latitude {latitude} is too near a pole; it must be -89 to 89");
        notes.fault(label, message);
        return None;
    };
    let line = on_plane(&plane, &positions);
    let reference = play.and_then(|play| play.reference.as_ref());
    let mut finder = Finder {
        map,
        plane,
        reference,
        line,
    };
    if play.is_some() && options.line.is_none() && finder.is_backwards() {
        finder.line.reverse();
        let text = "runs from the green to the tee: turned round";
        notes.warn(format!("{label} {text}"));
    }
    let tees = tees::named(map, reference, &plane, &finder.line);
    let green = finder.green();
    if let Some((index, outline)) = &green {
        finder.take_to_green(&map.features[*index], outline, notes);
    }
    let pin = finder.pin(green.as_ref().map(|(_, outline)| outline), options, notes);
    let start = finder.line.first().copied()?;
    let tee = match &options.tee {
        None => finder.told_tee(options.reach).unwrap_or(start),
        Some(Tee::Place(longitude, latitude)) => plane.to_plane(*longitude, *latitude),
        Some(Tee::Named(name)) => match tees::of_name(&tees, name) {
            Ok(at) => at,
            Err(fault) => {
                notes.faults.push(fault);
                return None;
            }
        },
    };
    let line = if options.tee.is_some() {
        from_tee(&finder.line, tee)
    } else {
        finder.line
    };
    Some(Layout {
        plane,
        line,
        tee,
        pin,
        green: green.map(|(index, _)| index),
        tees,
        reference: reference.cloned(),
    })
}

/// The positions of the line of play with its name for faults: those that are told, or those of the map.
fn positions(
    play: Option<&Play<'_>>,
    options: &Options,
    notes: &mut Notes,
) -> Option<(String, Vec<Position>)> {
    if let Some(line) = &options.line {
        let told: Vec<Position> = line
            .iter()
            .map(|&(longitude, latitude)| Position {
                longitude,
                latitude,
            })
            .collect();
        return Some(("line".to_owned(), told));
    }
    let play = play?;
    let label = play.feature.label();
    match &play.feature.shape {
        Ok(Shape::Lines(lines)) => {
            let mut joined = join::joined(lines.clone(), true);
            if joined.len() == 1 {
                return Some((label, joined.swap_remove(0)));
            }
        }
        Ok(_) => {}
        Err(broken) => {
            for message in &broken.messages {
                notes.fault(label.clone(), message);
            }
            return None;
        }
    }
    let message = "the line of play must be one LineString from tee to green";
    notes.fault(label, message);
    None
}

/// What is looked for around a line of play.
struct Finder<'m> {
    map: &'m Map,
    plane: LocalPlane,
    reference: Option<&'m String>,
    line: Vec<Point>,
}

impl Finder<'_> {
    /// The areas of a surface on the plane, with the place of each feature in the map.
    fn areas(&self, surface: Surface) -> impl Iterator<Item = (usize, Vec<Vec<Point>>)> + '_ {
        let features = self.map.features.iter().enumerate();
        features
            .filter(move |(_, m)| m.class.kind == Kind::Surface(surface))
            .flat_map(move |(i, m)| m.areas().iter().map(move |rings| (i, rings)))
            .map(|(i, rings)| {
                let ring = |ring: &Vec<Position>| on_plane(&self.plane, ring);
                (i, rings.iter().map(ring).collect())
            })
    }

    /// True where the line begins on a green and ends off every green, near a tee.
    fn is_backwards(&self) -> bool {
        let (Some(&start), Some(&end)) = (self.line.first(), self.line.last()) else {
            return false;
        };
        let nearest = |surface: Surface, p: Point| {
            let areas = self.areas(surface).map(|(_, rings)| far_from(&rings, p));
            areas.fold(f64::INFINITY, f64::min)
        };
        nearest(Surface::Green, start) == 0.0
            && nearest(Surface::Green, end) > LINE_END
            && nearest(Surface::Tee, end) < LINE_END
    }

    /// The green of the hole: the one with its number, or else the nearest to the end of the line within [`LINE_END`] yards.
    fn green(&self) -> Option<(usize, Vec<Vec<Point>>)> {
        let end = *self.line.last()?;
        let features = &self.map.features;
        let own = |i: usize| has_reference(&features[i], self.reference);
        let greens = self.areas(Surface::Green);
        let near = greens
            .map(|(i, rings)| (far_from(&rings, end), i, rings))
            .filter(|&(far, i, _)| far <= LINE_END || (own(i) && far <= 3.0 * LINE_END));
        near.min_by(|a, b| (!own(a.1)).cmp(&!own(b.1)).then(a.0.total_cmp(&b.0)))
            .map(|(_, i, rings)| (i, rings))
    }

    /// Takes the line on to the middle of its green, where it ends short of it or beside it.
    fn take_to_green(&mut self, green: &Mapped, rings: &[Vec<Point>], notes: &mut Notes) {
        let Some(&end) = self.line.last() else { return };
        let far = far_from(rings, end);
        let Ok(outline) = Polygon::from_points(rings.to_vec()) else {
            return;
        };
        if far == 0.0 {
            return;
        }
        let middle = outline.centroid();
        let to = if outline.contains(middle) {
            middle
        } else {
            outline.nearest_edge_point(end)
        };
        self.line.push(to);
        let label = green.label();
        notes.warn(format!(
            "the line of play ends {far:.1} yards from {label}: taken on to the middle of it"
        ));
    }

    /// The pin: the one that is told, or one of the map on the green: with the number of the hole, or without any.
    fn pin(
        &self,
        green: Option<&Vec<Vec<Point>>>,
        options: &Options,
        notes: &mut Notes,
    ) -> Option<Point> {
        if let Some((longitude, latitude)) = options.pin {
            return Some(self.plane.to_plane(longitude, latitude));
        }
        let end = *self.line.last()?;
        let pins = self
            .map
            .features
            .iter()
            .filter(|m| m.class.kind == Kind::Pin);
        let mut best: Option<(bool, f64, Point)> = None;
        for feature in pins {
            let own = has_reference(feature, self.reference);
            if !own && feature.tags.first(&["ref", "number"]).is_some() {
                continue;
            }
            let places: Vec<Position> = feature.positions().collect();
            if let Err(broken) = &feature.shape {
                // One that lies nowhere may be this one.
                let may_be = own || places.is_empty();
                if may_be || to_line(end, &on_plane(&self.plane, &places)) < LINE_END {
                    let why = broken.messages.join("; ");
                    notes.of(feature, format!(": {why}: left out"));
                }
                continue;
            }
            for at in on_plane(&self.plane, &places) {
                let far = (at - end).norm();
                let on = green.is_none_or(|rings| far_from(rings, at) == 0.0);
                if !on {
                    self.note_pin_off_green(feature, green, (own, at), options.reach, notes);
                } else if (green.is_some() || far < LINE_END)
                    && best.is_none_or(|b| (!own, far) < (!b.0, b.1))
                {
                    best = Some((own, far, at));
                }
            }
        }
        if let Some((_, _, at)) = best {
            return Some(at);
        }
        // Without a green the missing pin is the lesser fault.
        let on_green = |rings: &&Vec<Vec<Point>>| far_from(rings, end) == 0.0;
        let asked = options.assume.contains(&Assumed::Green);
        if green.is_some_and(|rings| on_green(&rings)) || (green.is_none() && asked) {
            notes.warn("no pin is mapped: the end of the line of play is taken for it".to_owned());
        }
        let middle = green.filter(|_| options.assume.contains(&Assumed::Pin));
        let middle = middle.and_then(|rings| Polygon::from_points(rings.clone()).ok());
        Some(middle.map_or(end, |green| {
            let middle = green.centroid();
            if green.contains(middle) { middle } else { end }
        }))
    }

    /// A pin that lies off the green: where it is on no other green either, it may have been meant for this hole.
    fn note_pin_off_green(
        &self,
        feature: &Mapped,
        green: Option<&Vec<Vec<Point>>>,
        (own, at): (bool, Point),
        reach: f64,
        notes: &mut Notes,
    ) {
        let far = green.map_or(0.0, |rings| far_from(rings, at));
        let elsewhere = self
            .areas(Surface::Green)
            .any(|(_, rings)| far_from(&rings, at) == 0.0);
        let label = feature.label();
        if !elsewhere && plays::is_single(self.map) {
            let message = format!("it lies {far:.1} yards off the green; it must lie on it");
            notes.fault(label, message);
        } else if own || (!elsewhere && to_line(at, &self.line) <= reach) {
            notes.warn(format!(
                "{label} lies {far:.1} yards off the green: left out"
            ));
        }
    }

    /// Where a point says that the tee shot is played from: the nearest to the start of the line.
    fn told_tee(&self, reach: f64) -> Option<Point> {
        let start = *self.line.first()?;
        let told = self.map.features.iter().filter(|m| m.class.tells_tee);
        let points = told.filter_map(|m| match &m.shape {
            Ok(Shape::Points(points)) => Some(on_plane(&self.plane, points)),
            _ => None,
        });
        points
            .flatten()
            .filter(|&p| to_line(p, &self.line) <= reach)
            .min_by(|a, b| (a - start).norm().total_cmp(&(b - start).norm()))
    }
}

/// Yards from a place to an area, 0 inside it.
fn far_from(rings: &[Vec<Point>], p: Point) -> f64 {
    let within = rings.iter().filter(|ring| encloses(ring, p)).count();
    if within % 2 == 1 {
        return 0.0;
    }
    let rings = rings.iter().map(|ring| to_line(p, ring));
    rings.fold(f64::INFINITY, f64::min)
}
