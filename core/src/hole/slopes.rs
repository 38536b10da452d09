//! The shape of the ground in words, measured on the ground there is, however it was told.
use super::{Hole, Surface};
use crate::geometry::{Point, Vector, right_of};
use crate::units;

/// Yards between two looks along the line of play, and over the green.
const ALONG: f64 = 5.0;
const OVER_THE_GREEN: f64 = 1.0;
/// Yards before a green over which it may be built into the ground.
const RIM: f64 = 20.0;
/// Feet and percent below which ground is level.
const LEVEL_FT: f64 = 0.5;
const LEVEL_PERCENT: f64 = 0.25;

impl Hole {
    /// How the ground rises and falls, in a sentence: the pin above the tee, the fall across the line of play and the fall of
    /// the green, each on average. `Level ground` where there is none.
    #[must_use]
    pub fn slopes_in_words(&self) -> String {
        let terrain = self.terrain();
        let rise = terrain.height(self.pin()) - terrain.height(self.tee());
        let words: Vec<String> = [
            rise_in_words(units::feet_from_yards(rise)),
            fall_in_words("the ground falls", self.fall_across(), "left to right"),
            self.green_in_words(),
        ]
        .into_iter()
        .flatten()
        .collect();
        if words.is_empty() {
            return "Level ground".to_owned();
        }
        let sentence = words.join(", ");
        sentence[..1].to_uppercase() + &sentence[1..]
    }

    /// Percent by which the ground falls from left to right of the line of play between tee and green, on average.
    fn fall_across(&self) -> f64 {
        let line = self.line();
        let end = self.front_of_green() - RIM;
        let looks = std::iter::successors(Some(0.0), |along| Some(along + ALONG));
        let falls = looks
            .take_while(|&along| along == 0.0 || along < end)
            .map(|along| self.falls(line.at(along, 0.0), right_of(line.direction(along))));
        mean(falls)
    }

    /// Percent by which the ground falls at a place towards a unit vector.
    fn falls(&self, at: Point, towards: Vector) -> f64 {
        -100.0 * self.terrain().slope(at).dot(&towards)
    }

    fn green_in_words(&self) -> Option<String> {
        if self.terrain().is_flat() {
            return None;
        }
        if !self.terrain().tells_greens() {
            return Some("the slopes of the green are not told".to_owned());
        }
        let ahead = self.line().direction(self.length());
        let (right, front) = (right_of(ahead), -ahead);
        let on = |towards| mean(self.places_of_green().map(|p| self.falls(p, towards)));
        let sideways = fall_in_words("the green falls", on(right), "left to right");
        let along = fall_in_words("the green falls", on(front), "back to front");
        match (sideways, along) {
            (Some(sideways), Some(along)) => {
                let along = along.trim_start_matches("the green falls ");
                Some(format!("{sideways} and {along}"))
            }
            (one, other) => one.or(other),
        }
    }

    /// Places all over the green that holds the pin.
    fn places_of_green(&self) -> impl Iterator<Item = Point> {
        let (low, high) = self.green().outline.bounds();
        let steps = |from: f64, to: f64| {
            let looks = std::iter::successors(Some(from), |x| Some(x + OVER_THE_GREEN));
            looks.take_while(move |&x| x <= to)
        };
        let places = steps(low.x, high.x)
            .flat_map(move |x| steps(low.y, high.y).map(move |y| Point::new(x, y)));
        places.filter(|&p| self.surface_at(p) == Surface::Green)
    }
}

fn rise_in_words(feet: f64) -> Option<String> {
    let way = if feet > 0.0 { "above" } else { "below" };
    (feet.abs() >= LEVEL_FT).then(|| format!("the pin is {:.0} ft {way} the tee", feet.abs()))
}

/// A fall of so many percent, `way` where it is above 0 and the other way round below.
fn fall_in_words(what: &str, percent: f64, way: &str) -> Option<String> {
    let way = if percent > 0.0 {
        way.to_owned()
    } else {
        let (from, to) = way.split_once(" to ")?;
        format!("{to} to {from}")
    };
    (percent.abs() >= LEVEL_PERCENT).then(|| format!("{what} {:.1} % from {way}", percent.abs()))
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (count, sum) = values.fold((0.0, 0.0), |(count, sum), value| (count + 1.0, sum + value));
    if count > 0.0 { sum / count } else { 0.0 }
}
