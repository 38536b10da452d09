//! A player on a hole, prepared: everything that choosing and playing shots looks up.
use super::known::Known;
use super::{Escapes, Outlook, Reach};
use crate::geometry::{Point, Vector, unit_or_up};
use crate::hole::{Hole, Surface};
use crate::noise::Noise;
use crate::player::{Bag, ClubId, Lie, Touch};
use crate::putting::Green;
use crate::setting::{Path, Setting, SettingFault, allowing};
use crate::shot::{self, Next, Outcome, Shot, Stroke};
use crate::situation::Situation;
use std::cell::Cell;
use std::sync::Arc;

/// A player on a hole.
#[derive(Clone, Debug)]
pub struct Scene {
    setting: Setting,
    /// Which club covers which distance.
    pub reach: Reach,
    /// The quick reckoning of strokes to come.
    pub outlook: Outlook,
    /// The way out of the trees, from everywhere under them.
    pub escapes: Escapes,
    known: Known,
    known_swings: Known,
}

/// What a shot is worth by the quick reckoning, averaged over some luck.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Assessment {
    /// Strokes to come after it, penalties included.
    pub strokes: f64,
    /// Share of balls in a penalty area, out of bounds, lost, unplayable or in trees.
    pub trouble: f64,
}

/// The longest putt from the fringe, yards; beyond it the ball is chipped (common practice, no
/// source).
pub(crate) const LONGEST_FRINGE_PUTT: f64 = 15.0;

/// A club is swung for at least this share of its full distance; for less, the stroke is a pitch (common practice, no
/// source).
pub(crate) const LEAST_SWING: f64 = 0.75;

/// The longest chip, yards: from farther off a pitch takes no more strokes, as `around` ranks them for handicaps of 0, 18
/// and 36 on a plain green (computed with these players, no outside source). From rough the two are close.
const LONGEST_CHIP: f64 = 20.0;

/// A club is enough for a carry of this many times its full one: nobody takes a longer one for the last yards (common
/// practice, no source).
const ENOUGH: f64 = 1.025;

/// Strokes lost where trees stop the next stroke for certain: most of one, to get around them (a professional loses 0.7 to
/// 0.9 by recoveries, Broadie, from memory).
const BLOCKED: f64 = 0.8;

/// Where the pin is out of reach the next stroke goes on by this share of the longest club's way (common practice, no
/// source).
const AHEAD: f64 = 0.8;

impl Scene {
    /// Prepares a player on a hole.
    ///
    /// # Errors
    /// A stroke whose carry no believable ball speed gives.
    pub fn new(hole: Arc<Hole>, bag: Arc<Bag>) -> Result<Self, SettingFault> {
        let setting = Setting::new(hole, bag)?;
        let reach = Reach::new(&setting);
        let hole = setting.hole();
        let scale = hole.conditions().hole_scale();
        let green = Green::ordinary(hole.green_speed()).with_hole(scale);
        let outlook = Outlook::new(&setting, &reach, &green);
        let escapes = Escapes::new(hole);
        Ok(Scene {
            setting,
            reach,
            outlook,
            escapes,
            known: Known::default(),
            known_swings: Known::default(),
        })
    }

    /// The player on the hole on its day, as strokes see them.
    #[must_use]
    #[inline]
    pub fn setting(&self) -> &Setting {
        &self.setting
    }

    /// The hole.
    #[must_use]
    #[inline]
    pub fn hole(&self) -> &Hole {
        self.setting.hole()
    }

    /// The player's strokes.
    #[must_use]
    #[inline]
    pub fn bag(&self) -> &Bag {
        self.setting.bag()
    }

    /// Plays one stroke.
    #[must_use]
    pub fn resolve(&self, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
        shot::resolve(&self.setting, from, shot, noise)
    }

    /// The ordinary shot at a target: putt, chip, pitch, bunker shot or the shortest club that
    /// covers the distance; from under trees the way out. Wind, height and slopes are allowed for.
    #[must_use]
    pub fn shot_at(&self, from: Situation, target: Point) -> Shot {
        self.shot_over(from, target, &Way::of(self, from.at, target))
    }

    /// [`Scene::shot_at`] where the way to the target is known.
    fn shot_over(&self, from: Situation, target: Point, way: &Way) -> Shot {
        let putt = Shot {
            stroke: Stroke::Putt,
            target: self.hole().pin(),
            carry: 0.0,
        };
        match from.lie {
            Lie::Green => return putt,
            Lie::Trees => return self.escapes.shot_from(self, from.at),
            _ => {}
        }
        if from.lie == Lie::Fringe
            && way.distance <= LONGEST_FRINGE_PUTT
            && target == self.hole().pin()
        {
            return putt;
        }
        self.shot_along(from, target, way)
    }

    /// The ordinary shot from where neither putt nor way out is played.
    fn shot_along(&self, from: Situation, target: Point, way: &Way) -> Shot {
        let looks_where_it_lands = |way: &Way| {
            let looks = Cell::new(false);
            self.touch_for(from.lie, way, |_| looks.replace(true));
            looks.get()
        };
        self.remembered(&self.known, from, target, way, |from, way| {
            (!looks_where_it_lands(way)).then(|| self.worked_out(from, target, way))
        })
        .unwrap_or_else(|| self.worked_out(from, target, way))
    }

    fn worked_out(&self, from: Situation, target: Point, way: &Way) -> Shot {
        let lands_on_mown = |touch| self.lands_on_mown(touch, from.at, way);
        let Some(touch) = self.touch_for(from.lie, way, lands_on_mown) else {
            return self.shortest_club(from, target, way);
        };
        let prepared = self.setting.touch(touch);
        let meant = self.setting.meant_for(prepared, from.at, target);
        Shot {
            stroke: Stroke::Touch(touch),
            target: meant.target,
            carry: meant.carry,
        }
    }

    /// The shortest club that gets to a target, or very nearly, and what to mean with it.
    fn swing_along(&self, from: Situation, target: Point, way: &Way) -> Shot {
        self.remembered(&self.known_swings, from, target, way, |from, way| {
            Some(self.shortest_club(from, target, way))
        })
        .unwrap_or_else(|| self.shortest_club(from, target, way))
    }

    /// A shot as it is remembered on a still day over level ground, when it does not matter which way it goes. `shot` is worked
    /// out from a place and over a way to the target; None where it depends on more than that.
    #[inline]
    fn remembered(
        &self,
        known: &Known,
        from: Situation,
        target: Point,
        way: &Way,
        shot: impl Fn(Situation, &Way) -> Option<Shot>,
    ) -> Option<Shot> {
        if !self.setting.is_still() {
            return None;
        }
        let over = |distance: f64| {
            let at = target - Vector::new(0.0, distance);
            let way = Way {
                distance,
                forward: Vector::y(),
                rise: 0.0,
            };
            shot(Situation { at, ..from }, &way)
        };
        let hole = self.hole();
        let at_green = target == hole.pin() || hole.surface_at(target) == Surface::Green;
        let (stroke, carry) = known.stroke(from.lie, at_green, way.distance, over)?;
        let prepared = match stroke {
            Stroke::Swing(club) => self.setting.club(club),
            Stroke::Touch(touch) => self.setting.touch(touch),
            Stroke::Putt => return None,
        };
        Some(Shot {
            stroke,
            target: allowing(prepared, from.at, target),
            carry,
        })
    }

    /// The shot of a golfer whom nobody advises at a target: the ordinary one but for the habits of the player.
    #[must_use]
    pub fn shot_by_habit(&self, from: Situation, target: Point) -> Shot {
        let way = Way::of(self, from.at, target);
        let shot = self.shot_over(from, target, &way);
        let short = self.bag().habits().too_little_club;
        if short == 0.0 || !matches!(shot.stroke, Stroke::Swing(_)) {
            return shot;
        }
        let believed = from.at + (target - from.at) * (1.0 - short);
        let way = Way {
            distance: way.distance * (1.0 - short),
            rise: self.rise(from.at, believed),
            ..way
        };
        self.swing_along(from, believed, &way)
    }

    /// The ordinary shot at a target with a club so many places longer in the bag (shorter if negative), and the same
    /// share of its swing. What is no swing of a club stays as it is.
    #[must_use]
    pub fn shot_with(&self, from: Situation, target: Point, clubs: i8) -> Shot {
        let shot = self.shot_at(from, target);
        let Stroke::Swing(exact) = shot.stroke else {
            return shot;
        };
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a bag holds at most 13 clubs"
        )]
        let shortest = self.bag().len() as u8 - 1;
        let club = ClubId(
            exact
                .0
                .saturating_add_signed(clubs.saturating_neg())
                .min(shortest),
        );
        let full = |club| self.bag().swing(club, from.lie).full_carry;
        let share = (shot.carry / full(exact)).min(1.0);
        self.swing_over(from, club, target, share * full(club))
    }

    /// The shortest club whose ball, in the middle of its pattern, lands `by` yards beyond a point, swung fully over it; the
    /// longest if none does.
    #[must_use]
    pub fn shot_to_carry(&self, from: Situation, over: Point, by: f64) -> Shot {
        let way = over - from.at;
        let rise = self.rise(from.at, over);
        let lands = |club: &ClubId| {
            let full = self.bag().swing(*club, from.lie).full_carry;
            let flight = &self.setting.club(*club).flight;
            let track = flight.track(full, unit_or_up(way));
            track.carry * flight.share_to(&track, rise)
        };
        let clears = |club: &ClubId| lands(club) >= way.norm() + by;
        let clubs = self.bag().clubs();
        let club = clubs
            .rev()
            .find(clears)
            .unwrap_or(self.bag().longest(from.lie));
        self.swing_over(from, club, over, f64::INFINITY)
    }

    fn shortest_club(&self, from: Situation, target: Point, way: &Way) -> Shot {
        let mut shot = Shot {
            stroke: Stroke::Swing(ClubId(0)),
            target,
            carry: way.distance,
        };
        // A yard up plays about a yard longer; what it is exactly shows with the club.
        for club in self
            .reach
            .clubs_for((way.distance + way.rise) / ENOUGH, from.lie, way.forward)
        {
            let prepared = self.setting.club(club);
            let meant = self.setting.meant_for(prepared, from.at, target);
            let full = self.bag().swing(club, from.lie).full_carry;
            shot = Shot {
                stroke: Stroke::Swing(club),
                target: meant.target,
                carry: meant.carry.min(full),
            };
            if meant.carry <= ENOUGH * full {
                break;
            }
        }
        shot
    }

    /// True if the longest club covers the way to a target.
    #[must_use]
    pub fn reaches(&self, from: Situation, target: Point) -> bool {
        let way = Way::of(self, from.at, target);
        way.distance + way.rise <= self.reach.farthest(from.lie, way.forward)
    }

    /// Yards by which a target lies above the ball.
    fn rise(&self, from: Point, target: Point) -> f64 {
        let terrain = self.hole().terrain();
        terrain.height(target) - terrain.height(from)
    }

    /// A full or partial swing over a point, with the aim held off for the wind and for a slope under the ball.
    #[must_use]
    pub fn swing_over(&self, from: Situation, club: ClubId, target: Point, carry: f64) -> Shot {
        let carry = carry.min(self.bag().swing(club, from.lie).full_carry);
        let prepared = self.setting.club(club);
        Shot {
            stroke: Stroke::Swing(club),
            target: self.setting.aim_for(prepared, from.at, target, carry),
            carry,
        }
    }

    /// The distance a shot plays like, yards: what on level ground in still air would call for the same swing.
    #[must_use]
    pub fn plays_like(&self, from: Situation, target: Point) -> f64 {
        let distance = (target - from.at).norm();
        match self.shot_at(from, target).stroke {
            Stroke::Putt => distance,
            Stroke::Swing(club) => {
                self.setting
                    .plays_like(self.setting.club(club), from.at, target)
            }
            Stroke::Touch(touch) => {
                self.setting
                    .plays_like(self.setting.touch(touch), from.at, target)
            }
        }
    }

    /// True where a club is swung over a way: less than three quarters of a swing is a pitch (from sand a bunker shot), where
    /// one gets there.
    #[must_use]
    pub fn is_swing(&self, from: Situation, club: ClubId, way: Vector) -> bool {
        let (distance, forward) = (way.norm(), unit_or_up(way));
        from.lie == Lie::Tee
            || distance >= LEAST_SWING * self.reach.distance(club, from.lie, forward)
            || distance > self.full_length(short_stroke(from.lie), from.lie, forward)
    }

    /// Carry and run of a full touch along `forward`, yards.
    #[must_use]
    pub fn full_length(&self, touch: Touch, lie: Lie, forward: Vector) -> f64 {
        let distances = &self.setting.touch(touch).told.day;
        let full = self.bag().touch(touch, lie).full_carry;
        distances.total_for(full, distances.along(forward))
    }

    /// The touch that suits a distance, if it is too short for three quarters of a swing of the shortest club: from short
    /// mown grass a chip when it is near and lands on mown ground, else a pitch, or a lob where only that lands on mown
    /// ground; from sand a bunker shot.
    fn touch_for(
        &self,
        lie: Lie,
        way: &Way,
        lands_on_mown: impl Fn(Touch) -> bool,
    ) -> Option<Touch> {
        let Way {
            distance,
            forward,
            rise,
        } = *way;
        let covers = |touch| distance + rise <= self.full_length(touch, lie, forward);
        if lie == Lie::Bunker {
            return covers(Touch::BunkerShot).then_some(Touch::BunkerShot);
        }
        let is_swing = distance + rise >= LEAST_SWING * self.reach.nearest(lie, forward);
        if lie == Lie::Tee || is_swing || !covers(Touch::Pitch) {
            return None;
        }
        let is_mown = matches!(lie, Lie::Fairway | Lie::FirstCut | Lie::Fringe);
        let (chip, lob) = (Touch::Chip, Touch::Lob);
        if is_mown && distance <= LONGEST_CHIP && covers(chip) && lands_on_mown(chip) {
            return Some(chip);
        }
        // Little green to work with: a pitch would come down in the rough before it.
        if lob.suits(lie) && covers(lob) && !lands_on_mown(Touch::Pitch) && lands_on_mown(lob) {
            return Some(lob);
        }
        Some(Touch::Pitch)
    }

    /// True where a touch comes down on mown ground when it is to end `way` on.
    fn lands_on_mown(&self, touch: Touch, from: Point, way: &Way) -> bool {
        let distances = &self.setting.touch(touch).told.day;
        let carry = distances.carry_for(way.distance, distances.along(way.forward));
        let surface = self.hole().surface_at(from + way.forward * carry);
        matches!(surface, Surface::Green | Surface::Fringe)
    }

    /// Averages a shot over `luck` by the quick reckoning.
    #[must_use]
    pub fn assess(&self, from: Situation, shot: &Shot, luck: &[Noise]) -> Assessment {
        let mut sum = Assessment::default();
        for noise in luck {
            let (strokes, trouble) = self.value(self.resolve(from, shot, noise));
            sum.strokes += strokes;
            sum.trouble += f64::from(u8::from(trouble));
        }
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let n = luck.len().max(1) as f64;
        Assessment {
            strokes: sum.strokes / n,
            trouble: sum.trouble / n,
        }
    }

    fn value(&self, outcome: Outcome) -> (f64, bool) {
        match outcome.next {
            Next::Holed => (0.0, false),
            Next::Play(situation) => (self.reckon(situation), situation.lie == Lie::Trees),
            Next::Relief(relief) => {
                let drop = relief.options(self.hole()).best(|s| self.reckon(*s));
                (f64::from(drop.penalty) + self.reckon(drop.situation), true)
            }
        }
    }

    /// The quick reckoning of strokes to come from a situation, and what the trees in the way of the next stroke cost.
    #[must_use]
    pub fn reckon(&self, from: Situation) -> f64 {
        self.outlook.strokes(self.hole(), from) + BLOCKED * (1.0 - self.chance_ahead(from))
    }

    /// The chance that the trees let the next ordinary stroke through: at the pin where it is in reach, else on down the
    /// line of play. From under trees and from the green it is not asked for.
    fn chance_ahead(&self, from: Situation) -> f64 {
        if matches!(from.lie, Lie::Green | Lie::Trees) || self.setting.stands().are_none() {
            return 1.0;
        }
        let hole = self.hole();
        let ahead = if self.reaches(from, hole.pin()) {
            hole.pin()
        } else {
            let line = hole.line();
            let on = AHEAD
                * self
                    .reach
                    .farthest(from.lie, unit_or_up(hole.pin() - from.at));
            line.at(line.station(from.at).along + on, 0.0)
        };
        self.chance(from, &self.shot_at(from, ahead))
    }

    /// The chance that the trees let a stroke through that goes as it is meant; of its flight, not of its run.
    #[must_use]
    pub fn chance(&self, from: Situation, shot: &Shot) -> f64 {
        let prepared = match shot.stroke {
            Stroke::Putt => return 1.0,
            Stroke::Swing(club) => self.setting.club(club),
            Stroke::Touch(touch) => self.setting.touch(touch),
        };
        let forward = unit_or_up(shot.target - from.at);
        let track = prepared.flight.track(shot.carry, forward);
        self.setting.stands().chance(&Path {
            hole: self.hole(),
            from: from.at,
            to: from.at + forward * track.carry,
            height: |share| prepared.flight.height(&track, share),
        })
    }
}

/// The way from a ball to a target.
struct Way {
    /// Yards in the plan.
    distance: f64,
    forward: Vector,
    /// Yards by which the target lies higher. A yard up plays about a yard longer.
    rise: f64,
}

impl Way {
    #[inline]
    fn of(scene: &Scene, from: Point, target: Point) -> Self {
        let way = target - from;
        let distance = way.norm();
        Way {
            distance,
            forward: unit_or_up(way),
            rise: scene.rise(from, target),
        }
    }
}

/// The stroke of a lie that takes the place of part of a swing.
fn short_stroke(lie: Lie) -> Touch {
    match lie {
        Lie::Bunker => Touch::BunkerShot,
        _ => Touch::Pitch,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hole::Sketch;
    use crate::noise::{PlayNoise, Seed};
    use crate::player::Player;

    /// What is remembered is what is worked out: from places strewn over a hole, at the pin and short of it.
    #[test]
    fn a_shot_that_is_remembered_is_the_one_that_is_worked_out() {
        let hole = Arc::new(Hole::sketch(&Sketch::new(4, 400.0)).expect("a hole"));
        let bag = Arc::new(Player::from_handicap(18.0).expect("a handicap").prepare());
        let scene = Scene::new(hole, bag).expect("a scene");
        let lies = Lie::ALL.into_iter();
        let lies = lies.filter(|lie| !matches!(lie, Lie::Green | Lie::Trees | Lie::Tee));
        let mut touches = 0;
        for (lie, play) in lies.cycle().zip(0..20_000) {
            let luck = PlayNoise::new(Seed(3), play).stroke(0);
            let at = scene
                .hole()
                .line()
                .at(440.0 * luck.strike, 20.0 * luck.side);
            let target = scene
                .hole()
                .line()
                .at(400.0 - 30.0 * (luck.trees - 0.5).max(0.0), 0.0);
            let (from, way) = (Situation { at, lie }, Way::of(&scene, at, target));
            let alike = |told: Shot, worked_out: Shot| {
                assert_eq!(told.stroke, worked_out.stroke, "{from:?} {target}");
                assert!((told.carry - worked_out.carry).abs() < 1e-6, "{from:?}");
                assert!((told.target - worked_out.target).norm() < 1e-9, "{from:?}");
            };
            let worked_out = scene.worked_out(from, target, &way);
            alike(scene.shot_along(from, target, &way), worked_out);
            alike(
                scene.swing_along(from, target, &way),
                scene.shortest_club(from, target, &way),
            );
            touches += usize::from(matches!(worked_out.stroke, Stroke::Touch(_)));
        }
        assert!((1_000..19_000).contains(&touches), "{touches}");
    }
}
