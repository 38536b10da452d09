//! A player on a hole, prepared: everything that choosing and playing shots looks up.
use super::{Escapes, Outlook, Reach};
use crate::figures::choice::{
    AHEAD, BLOCKED, CLEAR_OF_WATER, ENOUGH, EVERYBODY_PUTTS, LONGEST_FRINGE_PUTT, SEEN_OPEN,
};
use crate::geometry::{Point, Vector, unit_of, unit_or_up};
use crate::hole::{Hole, Surface};
use crate::noise::Noise;
use crate::player::{Bag, ClubId, Lie};
use crate::putting::Green;
use crate::setting::{Meant, Path, Prepared, Setting, SettingFault};
use crate::shot::{self, Addressed, Next, Outcome, Shot, Stroke};
use crate::situation::Situation;
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
    /// True on a hole with a penalty area.
    has_water: bool,
}

/// What a shot is worth by the quick reckoning, averaged over some luck.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Assessment {
    /// Strokes to come after it, penalties included.
    pub strokes: f64,
    /// Share of balls in a penalty area, out of bounds, lost, unplayable or in trees.
    pub trouble: f64,
}

/// Yards between places that are looked at for the far side of water.
const STEP_OVER: f64 = 2.0;

/// Within what share of the longest club's reach its ball is followed on slopes, to tell whether it gets there: 200 feet down
/// the rule errs by less.
const IN_DOUBT: f64 = 0.3;

/// A target as it is seen from a ball: yards to it, the unit vector along them, and yards by which it lies higher.
pub(super) struct Goal {
    pub(super) at: Point,
    pub(super) distance: f64,
    pub(super) forward: Vector,
    pub(super) rise: f64,
}

/// What is ordinarily played at a goal: a club that is still to be chosen, or this.
enum Ordinary {
    Swing,
    Shot(Shot),
}

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
        let has_water = hole.features().iter().any(|f| f.surface.is_penalty_area());
        Ok(Scene {
            setting,
            reach,
            outlook,
            escapes,
            has_water,
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

    /// Makes a shot ready, to be played by more than one luck.
    #[must_use]
    #[inline]
    pub fn address(&self, from: Situation, shot: &Shot) -> Addressed<'_> {
        Addressed::new(&self.setting, from, shot)
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
        let goal = self.goal(from.at, target);
        match self.ordinary(from, &goal, false) {
            Ordinary::Swing => self.swing_at(from, &goal),
            Ordinary::Shot(shot) => shot,
        }
    }

    /// The shot of a golfer whom nobody advises at a goal: the ordinary one but for the habits of the player.
    pub(super) fn shot_by_habit(&self, from: Situation, goal: &Goal) -> Shot {
        let habits = self.bag().habits();
        match self.ordinary(from, goal, habits.always_chips) {
            Ordinary::Shot(shot) => shot,
            Ordinary::Swing if habits.too_little_club == 0.0 => self.swing_at(from, goal),
            Ordinary::Swing => {
                let believed = from.at + (goal.at - from.at) * (1.0 - habits.too_little_club);
                self.swing_at(from, &self.goal(from.at, believed))
            }
        }
    }

    /// What is ordinarily played at a goal; by a golfer who always chips without the putter from off the green, but for the
    /// fringe near the hole.
    fn ordinary(&self, from: Situation, goal: &Goal, always_chips: bool) -> Ordinary {
        let longest_putt = if always_chips {
            EVERYBODY_PUTTS
        } else {
            LONGEST_FRINGE_PUTT
        };
        let at_pin = goal.at == self.hole().pin();
        Ordinary::Shot(match from.lie {
            Lie::Green => self.putt(),
            Lie::Trees => self.escapes.shot_from(self, from.at),
            Lie::Fringe if goal.distance <= longest_putt && at_pin => self.putt(),
            _ => match self.touch_for(from, goal, always_chips) {
                Some(touch) => {
                    let meant = self.meant_at(self.setting.touch(touch), from.at, goal);
                    Shot {
                        stroke: Stroke::Touch(touch),
                        target: meant.target,
                        carry: meant.carry,
                    }
                }
                None => return Ordinary::Swing,
            },
        })
    }

    /// The putt at the hole.
    #[inline]
    pub(super) fn putt(&self) -> Shot {
        Shot {
            stroke: Stroke::Putt,
            target: self.hole().pin(),
            carry: 0.0,
        }
    }

    /// A target as it is seen from a ball.
    #[inline]
    pub(super) fn goal(&self, from: Point, target: Point) -> Goal {
        let way = target - from;
        let distance = way.norm();
        Goal {
            at: target,
            distance,
            forward: unit_of(way, distance),
            rise: self.rise(from, target),
        }
    }

    /// What to mean with a stroke so that the middle of its pattern ends at a goal.
    #[inline]
    fn meant_at(&self, prepared: &Prepared, from: Point, goal: &Goal) -> Meant {
        // The pin is asked for most, and it is on a green.
        let on = if goal.at == self.hole().pin() {
            Surface::Green
        } else {
            self.hole().surface_at(goal.at)
        };
        self.setting.meant_on(prepared, from, goal.at, on)
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

    /// The club for a goal and what to mean with it: where the ball would come down in water on the way, or hardly beyond it,
    /// enough to carry it.
    fn swing_at(&self, from: Situation, goal: &Goal) -> Shot {
        let shot = self.swing_to(from, goal);
        if !self.has_water {
            return shot;
        }
        match self.lands(from, &shot) {
            Some((carry, _)) => self.over_water(from, goal, carry).unwrap_or(shot),
            None => shot,
        }
    }

    /// A swing down the way to a goal that carries the water in which a ball would land, or hardly beyond, that comes down
    /// `carry` yards on; None where there is none, or no club does.
    fn over_water(&self, from: Situation, goal: &Goal, carry: f64) -> Option<Shot> {
        let is_wet = |along: f64| self.is_water(from.at + goal.forward * along);
        let mut far = [carry, carry - CLEAR_OF_WATER]
            .into_iter()
            .find(|&c| is_wet(c))?;
        while is_wet(far) {
            far += STEP_OVER;
        }
        let carry = far + CLEAR_OF_WATER;
        let mut clubs = self.reach.clubs_for(carry, from.lie, goal.forward);
        clubs.find_map(|club| {
            let full = self.bag().swing(club, from.lie).full_carry;
            let flight = &self.setting.club(club).flight;
            // As much more in the air of the day as a full swing carries more in it.
            let meant = carry * full / flight.track(full, goal.forward).carry;
            (meant <= full).then(|| self.swing_over(from, club, goal.at, meant))
        })
    }

    fn is_water(&self, at: Point) -> bool {
        self.hole().surface_at(at).is_penalty_area()
    }

    /// The shortest club that gets to a goal, or very nearly, and what to mean with it.
    fn swing_to(&self, from: Situation, goal: &Goal) -> Shot {
        let mut shot = Shot {
            stroke: Stroke::Swing(ClubId(0)),
            target: goal.at,
            carry: goal.distance,
        };
        // A yard up plays about a yard longer; what it is exactly shows with the club.
        let about = (goal.distance + goal.rise) / ENOUGH;
        for club in self.reach.clubs_for(about, from.lie, goal.forward) {
            let meant = self.meant_at(self.setting.club(club), from.at, goal);
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
        self.covers(from.lie, &self.goal(from.at, target))
    }

    /// True if the longest club from a lie covers the way to a goal.
    #[inline]
    pub(super) fn covers(&self, lie: Lie, goal: &Goal) -> bool {
        goal.distance + goal.rise <= self.reach.farthest(lie, goal.forward)
    }

    /// True if the longest club along `forward` ends as far off as a goal. By the rule that a yard up plays a yard longer where
    /// that leaves no doubt; else as its ball flies and runs there: down a hill that is farther than the rule says.
    pub(super) fn gets_to(&self, from: Situation, forward: Vector, goal: &Goal) -> bool {
        let share = (goal.distance + goal.rise) / self.reach.farthest(from.lie, forward);
        if self.hole().terrain().is_flat() || (share - 1.0).abs() > IN_DOUBT {
            return share <= 1.0;
        }
        let longest = self.bag().longest(from.lie);
        let meant = self.meant_at(self.setting.club(longest), from.at, goal);
        meant.carry <= self.bag().swing(longest, from.lie).full_carry
    }

    /// Yards by which a target lies above the ball.
    #[inline]
    fn rise(&self, from: Point, target: Point) -> f64 {
        let terrain = self.hole().terrain();
        if terrain.is_flat() {
            return 0.0;
        }
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

    /// The carry to mean so that the middle of a stroke's pattern goes as far as a place, yards, on the day and with the heights
    /// there are; 0 for a putt. It may be more than the stroke gives.
    #[must_use]
    pub fn carry_to(&self, from: Point, stroke: Stroke, place: Point) -> f64 {
        let prepared = self.prepared(stroke);
        prepared.map_or(0.0, |p| self.setting.meant_for(p, from, place).carry)
    }

    /// The distance a shot plays like, yards: what on level ground in still air would call for the same swing.
    #[must_use]
    pub fn plays_like(&self, from: Situation, target: Point) -> f64 {
        match self.prepared(self.shot_at(from, target).stroke) {
            None => (target - from.at).norm(),
            Some(prepared) => self.setting.plays_like(prepared, from.at, target),
        }
    }

    /// Averages a shot over `luck` by the quick reckoning.
    #[must_use]
    pub fn assess(&self, from: Situation, shot: &Shot, luck: &[Noise]) -> Assessment {
        let (mut sum, addressed) = (Assessment::default(), self.address(from, shot));
        for noise in luck {
            let (strokes, trouble) = self.value(addressed.play(noise));
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

    /// True if trees stand in the way of the next ordinary stroke.
    pub(crate) fn is_blocked(&self, from: Situation) -> bool {
        self.chance_ahead(from) < SEEN_OPEN
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

    /// True if trees let a shot through, as far as is seen from the ball.
    #[inline]
    pub(crate) fn is_open(&self, from: Situation, shot: &Shot) -> bool {
        let stands = self.setting.stands();
        stands.are_off(from.at, shot.target) || self.chance(from, shot) >= SEEN_OPEN
    }

    /// The chance that the trees let a stroke through that goes as it is meant; of its flight, not of its run.
    #[must_use]
    pub fn chance(&self, from: Situation, shot: &Shot) -> f64 {
        let Some(prepared) = self.prepared(shot.stroke) else {
            return 1.0;
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

    /// Yards at which the ball of a shot comes down, and at which it stops on level fairway, struck as it is meant; None for a
    /// putt.
    pub(super) fn lands(&self, from: Situation, shot: &Shot) -> Option<(f64, f64)> {
        let prepared = self.prepared(shot.stroke)?;
        let forward = unit_or_up(shot.target - from.at);
        let day = &prepared.told.day;
        let total = day.total_for(shot.carry, day.along(forward));
        Some((prepared.flight.track(shot.carry, forward).carry, total))
    }

    /// The player's stroke prepared for the day; None for a putt.
    #[inline]
    fn prepared(&self, stroke: Stroke) -> Option<&Prepared> {
        match stroke {
            Stroke::Putt => None,
            Stroke::Swing(club) => Some(self.setting.club(club)),
            Stroke::Touch(touch) => Some(self.setting.touch(touch)),
        }
    }
}
