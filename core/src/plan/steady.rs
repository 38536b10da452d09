//! `steady`: what a sensible golfer does without knowing the hole by heart.
use super::ahead::farthest_on_line;
use super::stations::Stations;
use super::{Scene, Strategy};
use crate::figures::choice::{AT_THE_GREEN, AT_THE_PIN, CAUTION, INWARD, LONGEST_CHIP};
use crate::geometry::{Point, right_of, unit_or_up};
use crate::noise::{self, Noise};
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;

/// What a sensible golfer does without knowing the hole by heart: the club by the middle of the player's own pattern, at
/// the pin, the middle of the green or between them, or as far down the line of play as is good; aimed off the trouble where that
/// gains clearly. Out of the trees by the safest gap.
#[derive(Clone, Debug)]
pub struct Steady {
    stations: Stations,
}

/// Strokes that another way must gain over the plain one to be taken: less is not seen from where the ball lies, and is
/// within the luck over which ways are judged.
const CLEARLY: f64 = 0.004;

/// Luck over which a way is judged, and over which it is looked at first: one that is then behind the best so far by more
/// than so many strokes is out.
const LUCK: u32 = 256;
const FIRST_LUCK: u32 = 48;
const BEHIND: f64 = 0.08;

/// Yards between landing places down the line of play, and the share of the longest stroke that the shortest of them is.
const SHORTER: f64 = 15.0;
const SHORTEST: f64 = 0.55;

/// Yards short of the pin that are tried where it is in reach.
const SHORT_OF_PIN: [f64; 3] = [6.0, 12.0, 20.0];

/// Aims to either side, yards: of a target on the green and of a landing place.
const ASIDE: [f64; 3] = [3.0, 6.0, 10.0];
const WIDE_ASIDE: [f64; 3] = [8.0, 16.0, 24.0];

impl Steady {
    /// Prepares the strategy for a scene.
    #[must_use]
    pub fn new(scene: &Scene) -> Self {
        let luck = [FIRST_LUCK, LUCK].map(noise::spread);
        Steady {
            stations: Stations::new(scene, |from| sensible(scene, from, &luck)),
        }
    }
}

impl Strategy for Steady {
    fn choose(&self, scene: &Scene, from: Situation, _: u8) -> Shot {
        let (hole, pin) = (scene.hole(), scene.hole().pin());
        if from.to_pin(hole) > AT_THE_PIN {
            return self.stations.shot(scene, from);
        }
        let inward = pin + (hole.middle_of_green() - pin) * INWARD;
        // A putt is at the hole.
        let pitches = from.lie != Lie::Fringe && (inward - from.at).norm() > LONGEST_CHIP;
        scene.shot_at(from, if pitches { inward } else { pin })
    }
}

/// The best target by the cautious reckoning; the plain one, at the pin or as far as can be, where none is clearly better.
fn sensible(scene: &Scene, from: Situation, [few, luck]: &[Vec<Noise>; 2]) -> Point {
    let (hole, line) = (scene.hole(), scene.hole().line());
    let judge = |shot: &Shot, luck: &[Noise]| {
        let assessed = scene.assess(from, shot, luck);
        assessed.strokes + CAUTION * assessed.trouble
    };
    let (pin, middle) = (hole.pin(), hole.middle_of_green());
    let plain = farthest_on_line(scene, from);
    let shot = scene.shot_at(from, plain);
    let mut best = (judge(&shot, luck) - CLEARLY, plain);
    let mut at_first = judge(&shot, few);
    let mut try_at = |target: Point| {
        let shot = scene.shot_at(from, target);
        let first = judge(&shot, few);
        if first < at_first + BEHIND {
            let cost = judge(&shot, luck);
            if cost < best.0 {
                (best, at_first) = ((cost, target), first);
            }
        }
        best.1
    };
    let reaches = scene.reaches(from, pin);
    let mut target = plain;
    if reaches {
        let way = unit_or_up(pin - from.at);
        for place in [nalgebra::center(&pin, &middle), middle] {
            target = try_at(place);
        }
        for short in SHORT_OF_PIN {
            target = try_at(pin - way * short);
        }
    }
    let start = line.station(from.at).along;
    let reach = scene.reach.farthest(from.lie, line.direction(start));
    let mut length = reach - SHORTER;
    while length > SHORTEST * reach {
        if length < (pin - from.at).norm() - SHORTER {
            target = try_at(line.at(start + length, 0.0));
        }
        length -= SHORTER;
    }
    let right = right_of(unit_or_up(target - from.at));
    let at_green = reaches && (target - middle).norm() < AT_THE_GREEN;
    let aside = if at_green {
        &ASIDE[..]
    } else {
        &WIDE_ASIDE[..]
    };
    for yards in aside.iter().flat_map(|yards| [-yards, *yards]) {
        try_at(target + right * yards);
    }
    best.1
}
