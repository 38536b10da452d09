//! What a player may try: every stroke at every sensible target.
use crate::geometry::{Point, Vector, right_of, unit_or_up};
use crate::plan::{Scene, around_the_green, may_putt};
use crate::player::{Lie, Swing, Touch};
use crate::setting::{Prepared, allowing};
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;

/// A stroke that is meant to end at a target, or goes as far towards it as it goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Action {
    pub(in crate::solve) stroke: Stroke,
    pub(in crate::solve) target: Point,
}

impl Action {
    /// A putt at the hole.
    pub(in crate::solve) fn putt(scene: &Scene) -> Self {
        Action {
            stroke: Stroke::Putt,
            target: scene.hole().pin(),
        }
    }

    /// The ordinary stroke at the pin.
    pub(in crate::solve) fn at_the_pin(scene: &Scene, from: Situation) -> Self {
        let pin = scene.hole().pin();
        let shot = scene.shot_at(from, pin);
        // Out of the trees the way is another.
        let target = if from.lie == Lie::Trees {
            shot.target
        } else {
            pin
        };
        Action {
            stroke: shot.stroke,
            target,
        }
    }

    /// The shot it is from a situation: wind, height and slopes allowed for. Hot path.
    #[inline]
    pub(in crate::solve) fn shot(&self, scene: &Scene, from: Situation) -> Shot {
        let (stroke, target) = (self.stroke, self.target);
        let Some((prepared, swing)) = swing(scene, stroke, from.lie) else {
            return Shot {
                stroke,
                target,
                carry: 0.0,
            };
        };
        let setting = scene.setting();
        let meant = setting.meant_for(prepared, from.at, target);
        if meant.carry <= swing.full_carry {
            return Shot {
                stroke,
                target: meant.target,
                carry: meant.carry,
            };
        }
        let carry = swing.full_carry;
        let aim = setting.aim_for(prepared, from.at, target, carry);
        Shot {
            stroke,
            target: allowing(prepared, from.at, aim),
            carry,
        }
    }

    /// True unless it is a swing of a club where a pitch is played.
    pub(in crate::solve) fn is_stroke(&self, scene: &Scene, from: Situation) -> bool {
        let Stroke::Swing(club) = self.stroke else {
            return true;
        };
        scene.is_swing(from, club, self.target - from.at)
    }

    /// The action of one place as it is played from another: close to the pin as the player sees it, the same share of
    /// the way and as far aside; farther off at the same target.
    #[must_use]
    #[inline]
    pub(in crate::solve) fn moved(&self, place: Point, from: Point, pin: Point) -> Action {
        let (was, is) = (pin - place, pin - from);
        let square = was.norm_squared();
        if is.norm_squared() > AS_SEEN * AS_SEEN || square < 1.0 {
            return *self;
        }
        // Turned and stretched as the way to the pin is.
        let (along, across) = (was.dot(&is) / square, right_of(was).dot(&is) / square);
        let way = self.target - place;
        Action {
            stroke: self.stroke,
            target: from + way * along + right_of(way) * across,
        }
    }

    /// True of two actions that are much the same from a place: what lies between them is worth as much.
    pub(in crate::solve) fn is_like(&self, other: &Action, from: Point) -> bool {
        let apart = (self.target - other.target).norm();
        self.stroke == other.stroke && apart < 2.0 + 0.04 * (self.target - from).norm()
    }
}

/// Nearer the pin than this, yards, a stroke is thought of along the way to the pin: a chip that lands three yards on
/// is a poor one from a yard aside if its target stays where it was.
const AS_SEEN: f64 = 30.0;

/// A stroke prepared for the day and the swing it is from a lie; None for a putt.
pub(in crate::solve) fn swing(
    scene: &Scene,
    stroke: Stroke,
    lie: Lie,
) -> Option<(&Prepared, &Swing)> {
    let setting = scene.setting();
    match stroke {
        Stroke::Putt => None,
        Stroke::Swing(club) => Some((setting.club(club), scene.bag().swing(club, lie))),
        Stroke::Touch(touch) => Some((setting.touch(touch), scene.bag().touch(touch, lie))),
    }
}

/// Clubs that go farther past the pin than this, yards, are not swung fully.
const TOO_LONG: f64 = 25.0;
/// Clubs that go less than this share of the way that the longest can go are swung fully only out of trouble.
const TOO_SHORT: f64 = 0.35;
/// Degrees to either side of the ways to the pin and down the line, and where trees stand in the way.
const ASIDE: f64 = 15.0;
const PAST_TREES: f64 = 45.0;

/// How closely actions are laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Mesh {
    /// Degrees between aims.
    between: f64,
    /// The most steps between aims: where the two ways lie far apart the steps are longer.
    steps: f64,
    /// Degrees to either side of the ways to the pin and down the line.
    aside: f64,
    /// Every how many clubs one is tried.
    every: usize,
}

impl Mesh {
    /// To find what is worth a closer look.
    pub(in crate::solve) const WIDE: Mesh = Mesh {
        between: 5.0,
        steps: 8.0,
        aside: ASIDE,
        every: 1,
    };
    /// To choose from at once.
    pub(in crate::solve) const CLOSE: Mesh = Mesh {
        between: 3.0,
        steps: 14.0,
        aside: ASIDE,
        every: 1,
    };

    /// Far enough to the sides to go past trees, with every second club: there the way matters more than how far it goes.
    fn past_trees(self) -> Self {
        Mesh {
            steps: 2.0 * self.steps,
            aside: PAST_TREES,
            every: 2,
            ..self
        }
    }
}

/// Where a partial stroke is aimed around the pin: in spreads of the stroke, short or long and to the side.
const LONG: [f64; 5] = [-2.0, -1.2, -0.6, 0.0, 0.5];
const SIDE: [f64; 7] = [-1.5, -0.9, -0.45, 0.0, 0.45, 0.9, 1.5];
const NEAR_SIDE: [f64; 3] = [-0.8, 0.0, 0.8];

/// What trees let through less often than this is not tried where they stand in the way.
const HOPELESS: f64 = 0.3;

/// Lists what may be tried from a situation.
pub(in crate::solve) fn offer(
    scene: &Scene,
    from: Situation,
    mesh: Mesh,
    offers: &mut Vec<Action>,
) {
    offers.clear();
    let hole = scene.hole();
    if from.lie == Lie::Green {
        offers.push(Action::putt(scene));
        return;
    }
    let distance = from.to_pin(hole);
    if may_putt(from.lie, distance) {
        offers.push(Action::putt(scene));
    }
    let is_blocked = from.lie == Lie::Trees || scene.is_blocked(from);
    let full = if is_blocked { mesh.past_trees() } else { mesh };
    full_swings(scene, from, distance, full, offers);
    clubs_at_the_pin(scene, from, distance, offers);
    lay_ups(scene, from, distance, offers);
    touches(scene, from, distance, offers);
    if is_blocked {
        ways_out(scene, from, offers);
        let hope = |action: &Action| scene.chance(from, &action.shot(scene, from)) > HOPELESS;
        // Deep in a dense wood there is none: then all are tried.
        if offers.iter().any(hope) {
            offers.retain(hope);
        }
    }
}

/// Each club swung fully, and where there are trees the punch, in a fan that holds the way to the pin and the way down the line
/// of play.
fn full_swings(
    scene: &Scene,
    from: Situation,
    distance: f64,
    mesh: Mesh,
    offers: &mut Vec<Action>,
) {
    let to_pin = unit_or_up(scene.hole().pin() - from.at);
    let trouble = matches!(from.lie, Lie::Trees | Lie::Bunker | Lie::DeepRough);
    let least = if trouble {
        0.0
    } else {
        TOO_SHORT * scene.reach.farthest(from.lie, to_pin).min(distance)
    };
    let clubs = scene.reach.clubs_for(0.0, from.lie, to_pin);
    for club in clubs.step_by(mesh.every) {
        let reach = scene.reach.distance(club, from.lie, to_pin);
        if reach <= distance + TOO_LONG && reach >= least {
            fan(scene, from, Stroke::Swing(club), reach, mesh, offers);
        }
    }
    let trees = |f: &crate::hole::Feature| f.surface == crate::hole::Surface::Trees;
    let has_trees = scene.hole().features().iter().any(trees);
    if from.lie == Lie::Trees || has_trees {
        let punch = Touch::Punch;
        let reach = scene.full_length(punch, from.lie, to_pin);
        if reach <= distance + TOO_LONG && from.lie != Lie::Tee {
            fan(scene, from, Stroke::Touch(punch), reach, mesh, offers);
        }
    }
}

/// A full stroke that goes `reach` yards, in a fan of directions.
fn fan(
    scene: &Scene,
    from: Situation,
    stroke: Stroke,
    reach: f64,
    mesh: Mesh,
    offers: &mut Vec<Action>,
) {
    let to_pin = unit_or_up(scene.hole().pin() - from.at);
    let ahead = unit_or_up(down_the_line(scene, from.at, reach) - from.at);
    let turn = libm::atan2(right_of(to_pin).dot(&ahead), to_pin.dot(&ahead)).to_degrees();
    let (left, right) = (turn.min(0.0) - mesh.aside, turn.max(0.0) + mesh.aside);
    let steps = ((right - left) / mesh.between).round().min(mesh.steps);
    let mut step = 0.0;
    while step <= steps {
        let degrees = left + (right - left) * step / steps;
        offers.push(Action {
            stroke,
            target: from.at + turned(to_pin, degrees) * reach,
        });
        step += 1.0;
    }
}

/// A vector turned clockwise.
pub(in crate::solve) fn turned(way: Vector, degrees: f64) -> Vector {
    let (sin, cos) = libm::sincos(degrees.to_radians());
    way * cos + right_of(way) * sin
}

/// The farthest point of the line of play ahead that is within reach; from a place far off the line, where none is, the point so
/// far on.
pub(in crate::solve) fn down_the_line(scene: &Scene, from: Point, reach: f64) -> Point {
    let line = scene.hole().line();
    let start = line.station(from).along.clamp(0.0, line.length());
    let mut best = line.at((start + reach).min(line.length()), 0.0);
    let mut along = start;
    while along < line.length() {
        let p = line.at(along, 0.0);
        if (p - from).norm() <= reach {
            best = p;
        }
        along += 4.0;
    }
    best
}

/// Shares of the longest club's way at which a lay-up is tried: between those that full swings go.
const LAY_UPS: [f64; 6] = [0.35, 0.45, 0.55, 0.65, 0.75, 0.85];

/// Part of a swing down the line of play, to places short of the pin.
fn lay_ups(scene: &Scene, from: Situation, distance: f64, offers: &mut Vec<Action>) {
    let to_pin = unit_or_up(scene.hole().pin() - from.at);
    let farthest = scene.reach.farthest(from.lie, to_pin);
    for length in LAY_UPS.map(|share| share * farthest) {
        if length < 0.9 * distance
            && let Some(club) = scene.reach.clubs_for(length, from.lie, to_pin).next()
        {
            offers.push(Action {
                stroke: Stroke::Swing(club),
                target: down_the_line(scene, from.at, length),
            });
        }
    }
}

/// The two shortest clubs that get to the pin, at and around it, and longer ones that would pitch it there.
fn clubs_at_the_pin(scene: &Scene, from: Situation, distance: f64, offers: &mut Vec<Action>) {
    let forward = unit_or_up(scene.hole().pin() - from.at);
    if distance > scene.reach.farthest(from.lie, forward) + TOO_LONG {
        return;
    }
    let way = scene.hole().pin() - from.at;
    let clubs = scene.reach.clubs_for(distance, from.lie, forward);
    let swings = clubs.filter(|club| scene.is_swing(from, *club, way));
    for club in swings.take(2) {
        around_the_pin(scene, from, Stroke::Swing(club), &SIDE, offers);
    }
    short_swings(scene, from, offers);
}

/// Where a swing at the pin would be a pitch: those meant to end a little past it, which may be better than a pitch.
pub(in crate::solve) fn short_swings(scene: &Scene, from: Situation, offers: &mut Vec<Action>) {
    let way = scene.hole().pin() - from.at;
    let (distance, forward) = (way.norm(), unit_or_up(way));
    for club in scene.reach.clubs_for(distance, from.lie, forward) {
        let least = scene.reach.least_of(club, from.lie, forward);
        if distance < least && least < distance + PAST_THE_PIN {
            let (stroke, target) = (Stroke::Swing(club), from.at + forward * (least + 0.1));
            offers.push(Action { stroke, target });
        }
    }
}

/// Yards past the pin that a swing in place of a pitch may be meant to end.
const PAST_THE_PIN: f64 = 10.0;

/// A stroke at targets around the pin, as far apart as its spread.
fn around_the_pin(
    scene: &Scene,
    from: Situation,
    stroke: Stroke,
    sides: &[f64],
    offers: &mut Vec<Action>,
) {
    let Some((_, swing)) = swing(scene, stroke, from.lie) else {
        return;
    };
    let way = scene.hole().pin() - from.at;
    let (distance, forward) = (way.norm(), unit_or_up(way));
    let (depth, side) = (
        swing.depth_sd(distance).max(0.5),
        swing.side_sd(distance).max(0.5),
    );
    for long in LONG {
        let length = distance + long * depth;
        if length < 0.3 * distance {
            continue;
        }
        for aside in sides {
            offers.push(Action {
                stroke,
                target: from.at + forward * length + right_of(forward) * (aside * side),
            });
        }
    }
}

/// The strokes around the green that suit the lie, at and around the pin.
fn touches(scene: &Scene, from: Situation, distance: f64, offers: &mut Vec<Action>) {
    let forward = unit_or_up(scene.hole().pin() - from.at);
    for touch in around_the_green(from.lie) {
        if distance <= 1.1 * scene.full_length(touch, from.lie, forward) {
            around_the_pin(scene, from, Stroke::Touch(touch), &NEAR_SIDE, offers);
        }
    }
}

/// The strokes around the green that suit the lie, at the pin.
pub(in crate::solve) fn at_the_pin(scene: &Scene, from: Situation, offers: &mut Vec<Action>) {
    let target = scene.hole().pin();
    if from.lie == Lie::Fringe {
        offers.push(Action::putt(scene));
    }
    offers.extend(around_the_green(from.lie).map(|touch| Action {
        stroke: Stroke::Touch(touch),
        target,
    }));
}

/// Directions and lengths of the ways out of the trees, or around them.
const WAYS: u32 = 24;
const LENGTHS: [f64; 3] = [0.3, 0.6, 1.0];

/// Low strokes in all directions, out of the trees or past those that stand in the way.
fn ways_out(scene: &Scene, from: Situation, offers: &mut Vec<Action>) {
    let to_pin = unit_or_up(scene.hole().pin() - from.at);
    let full = scene.full_length(Touch::Punch, from.lie, to_pin);
    for way in 0..WAYS {
        let forward = turned(to_pin, f64::from(way) * 360.0 / f64::from(WAYS));
        for length in LENGTHS {
            offers.push(Action {
                stroke: Stroke::Touch(Touch::Punch),
                target: from.at + forward * (full * length),
            });
        }
    }
}

/// The actions next to one: a little to either side, a little shorter and longer; `size` 1 is half of what lies
/// between the aims of a fan.
pub(in crate::solve) fn beside(
    scene: &Scene,
    action: &Action,
    from: Situation,
    size: f64,
) -> impl Iterator<Item = Action> + use<> {
    let way = action.target - from.at;
    let length = way.norm();
    let (depth, degrees) = match swing(scene, action.stroke, from.lie) {
        Some((_, swing)) => (
            (0.3 * swing.depth_sd(length)).max(0.4),
            (0.25 * swing.side_sd(length) / length.max(1.0))
                .atan()
                .to_degrees(),
        ),
        None => (0.0, 0.0),
    };
    let (depth, degrees) = (size * depth, size * degrees);
    let forward = unit_or_up(way);
    let stroke = action.stroke;
    let moves = [(0.0, -degrees), (0.0, degrees), (-depth, 0.0), (depth, 0.0)];
    let swings = stroke != Stroke::Putt;
    moves
        .into_iter()
        .filter(move |_| swings)
        .map(move |(longer, turn)| Action {
            stroke,
            target: from.at + turned(forward, turn) * (length + longer).max(0.5),
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::player::Touch;

    /// Worked out by hand: from twice as far, a quarter turn round the pin, a chip lands twice as far on the way and as
    /// far aside; from far off a target stays.
    #[test]
    fn near_the_pin_an_action_is_played_as_it_is_seen() {
        let chip = Action {
            stroke: Stroke::Touch(Touch::Chip),
            target: Point::new(1.0, -7.0),
        };
        let (pin, place) = (Point::origin(), Point::new(0.0, -10.0));
        let seen = chip.moved(place, Point::new(-20.0, 0.0), pin);
        assert_eq!(seen.stroke, chip.stroke);
        // Six of twenty yards on, two to the right of the way.
        assert!((seen.target - Point::new(-14.0, -2.0)).norm() < 1e-12);
        let same = chip.moved(place, place, pin).target;
        assert!((same - chip.target).norm() < 1e-12);
        assert_eq!(chip.moved(place, Point::new(-31.0, 0.0), pin), chip);
        // From the pin itself there is no way to it.
        assert_eq!(chip.moved(pin, place, pin), chip);
    }
}
