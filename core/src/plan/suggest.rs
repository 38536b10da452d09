//! Proposals: every sensible club off the tee, going for it and laying up.
use super::{Aim, Instruction, Plan, Scene, Then};
use crate::figures::choice::{CAUTION_OF_PROPOSALS, CLUBS_APART, LAY_UPS, ONE_PLACE};
use crate::noise::{self, Noise};
use crate::player::{ClubId, Lie};
use crate::setting::allowing;
use crate::shot::Stroke;
use crate::situation::Situation;

/// Luck over which an aim is judged.
const LUCK: u32 = 48;

/// Proposes plans for a hole and a player.
///
/// On a par 3 the clubs that reach, at the pin and, where that is elsewhere, at the middle of the green. On longer holes each
/// tee club, aimed where its pattern does best, and then the ways to go on: at the pin, the steady way, or a lay-up to a
/// full wedge; after the longest also at the pin with a club more, for whoever comes up short as a rule. Whatever is left is
/// played the steady way. The player's usual miss is allowed for.
#[must_use]
pub fn suggest_plans(scene: &Scene) -> Vec<Plan> {
    let luck = noise::spread(LUCK);
    let tee = Situation::on_the_tee(scene.hole());
    let reaches = scene.reaches(tee, scene.hole().pin());
    let proposals = if reaches {
        at_the_green(scene, tee)
    } else {
        off_the_tee(scene, tee, &luck)
    };
    proposals.into_iter().flatten().collect()
}

type Proposals = Vec<Option<Plan>>;

/// A plan; None only if its numbers were absurd, which proposals are not.
fn plan(name: &str, instructions: Vec<Instruction>, then: Then) -> Option<Plan> {
    Plan::new(name, instructions, then).ok()
}

/// The green is in reach: three clubs about the distance, at the pin and at the middle; and a
/// lay-up with each strategy to follow.
fn at_the_green(scene: &Scene, tee: Situation) -> Proposals {
    let hole = scene.hole();
    let exact = match scene.shot_at(tee, hole.pin()).stroke {
        Stroke::Swing(club) => club,
        Stroke::Touch(_) | Stroke::Putt => ClubId(0),
    };
    let near = |club: &ClubId| club.0.abs_diff(exact.0) <= 1;
    let clubs: Vec<ClubId> = scene.bag().clubs().filter(near).collect();
    let mut proposals: Proposals = Vec::new();
    let places = [
        ("the pin", hole.pin()),
        ("the middle of the green", hole.middle_of_green()),
    ];
    let is_one = (places[0].1 - places[1].1).norm() < ONE_PLACE;
    for (place, target) in places.into_iter().take(if is_one { 1 } else { 2 }) {
        for &club in &clubs {
            let name = scene.bag().name(club);
            let prepared = scene.setting().club(club);
            let over = allowing(prepared, tee.at, target);
            let aim = Aim::At {
                x: over.x,
                y: over.y,
            };
            let shot = Instruction::Shot {
                club: name.to_owned(),
                aim,
                carry: None,
            };
            proposals.push(plan(
                &format!("{name} at {place}"),
                vec![shot],
                Then::Steady,
            ));
        }
    }
    let short = (tee.to_pin(hole) * 0.5).max(30.0);
    if tee.to_pin(hole) - short > 30.0 {
        proposals.push(plan(
            &format!("lay up {short:.0} short, then the steady way"),
            vec![Instruction::Leave { yards: short }],
            Then::Steady,
        ));
    }
    proposals
}

fn off_the_tee(scene: &Scene, tee: Situation, luck: &[Noise]) -> Proposals {
    let mut proposals = Vec::new();
    for club in tee_clubs(scene) {
        let name = scene.bag().name(club);
        let aim = best_aim(scene, tee, club, luck);
        let off_the_tee = Instruction::Shot {
            club: name.to_owned(),
            aim,
            carry: None,
        };
        let left = left_after(scene, aim);
        let is_longest = proposals.is_empty();
        let mut propose = |how: &str, second: Option<Instruction>| {
            let instructions = std::iter::once(off_the_tee.clone()).chain(second).collect();
            proposals.push(plan(
                &format!("{name}, then {how}"),
                instructions,
                Then::Steady,
            ));
        };
        propose("at the pin", Some(Instruction::AtPin { clubs: 0 }));
        if is_longest
            && left
                < scene
                    .reach
                    .farthest(Lie::Fairway, scene.hole().line().direction(0.0))
        {
            propose(
                "at the pin with a club more",
                Some(Instruction::AtPin { clubs: 1 }),
            );
        }
        propose("the steady way", None);
        for yards in LAY_UPS.into_iter().filter(|yards| left > yards + 60.0) {
            propose(
                &format!("leave {yards:.0}"),
                Some(Instruction::Leave { yards }),
            );
        }
    }
    proposals
}

/// Clubs worth considering off the tee: from the longest down to two thirds of its distance, no two
/// nearly alike, five at most.
fn tee_clubs(scene: &Scene) -> Vec<ClubId> {
    let forward = scene.hole().line().direction(0.0);
    let distance = |club: ClubId| scene.reach.distance(club, Lie::Tee, forward);
    let longest = scene.reach.farthest(Lie::Tee, forward);
    let mut chosen: Vec<ClubId> = Vec::new();
    for club in scene.bag().clubs() {
        let far_enough = distance(club) > 0.66 * longest;
        let apart = chosen
            .last()
            .is_none_or(|&c| distance(c) - distance(club) >= CLUBS_APART);
        if far_enough && apart && chosen.len() < 5 {
            chosen.push(club);
        }
    }
    chosen
}

/// Where the whole pattern of a full tee shot does best by the cautious reckoning: straight down the
/// line at the club's distance, or up to 25 yards to either side.
fn best_aim(scene: &Scene, tee: Situation, club: ClubId, luck: &[Noise]) -> Aim {
    let forward = scene.hole().line().direction(0.0);
    let full = scene.reach.distance(club, Lie::Tee, forward);
    let along = full.min(scene.hole().length()).round();
    let cost = |right: f64| {
        let target = scene.hole().line().at(along, right);
        let shot = scene.swing_over(tee, club, target, f64::INFINITY);
        let assessed = scene.assess(tee, &shot, luck);
        assessed.strokes + CAUTION_OF_PROPOSALS * assessed.trouble
    };
    let mut best = (cost(0.0), 0.0);
    for right in [
        -5.0, 5.0, -10.0, 10.0, -15.0, 15.0, -20.0, 20.0, -25.0, 25.0,
    ] {
        let this = cost(right);
        if this < best.0 - 0.005 {
            best = (this, right);
        }
    }
    Aim::Along {
        along,
        right: best.1,
    }
}

fn left_after(scene: &Scene, aim: Aim) -> f64 {
    (scene.hole().pin() - aim.on(scene.hole())).norm()
}
