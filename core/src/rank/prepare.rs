//! Plans made ready for the questions asked of them.
use super::{CompareFault, Length, MOST_PLANS, Question};
use crate::plan::{Plan, PlanFault, Ready, Scene, Strategy, Then};
use crate::simulate::Recording;
use crate::situation::Situation;
use std::sync::Arc;

/// The names of plans that can be told apart by them.
pub(super) fn names(plans: &[Plan]) -> Result<Vec<String>, CompareFault> {
    let names: Vec<String> = plans.iter().map(|p| p.name().to_owned()).collect();
    apart("plans", &names)?;
    Ok(names)
}

/// Refuses no names, too many, and one that is there twice.
pub(super) fn apart(field: &'static str, names: &[String]) -> Result<(), CompareFault> {
    if names.is_empty() {
        return Err(CompareFault::NoPlans);
    }
    if names.len() > MOST_PLANS {
        let given = names.len();
        return Err(CompareFault::TooMany { field, given });
    }
    match (1..names.len()).find(|&i| names[..i].contains(&names[i])) {
        Some(i) => Err(CompareFault::SameName {
            field,
            name: names[i].clone(),
        }),
        None => Ok(()),
    }
}

/// Prepares plans to be played from `start` on, each strategy once.
pub(super) fn ready(
    scene: &Scene,
    plans: &[Plan],
    start: Situation,
) -> Result<Vec<Ready>, PlanFault> {
    let mut prepared: Vec<(&Then, Arc<dyn Strategy>)> = Vec::new();
    plans
        .iter()
        .map(|plan| {
            let then = match plan.then() {
                Then::Waves(waves) => &*waves.otherwise,
                then => then,
            };
            let known = prepared.iter().find(|(known, _)| *known == then);
            let strategy = if let Some((_, strategy)) = known {
                strategy.clone()
            } else {
                let strategy = then.strategy(scene)?;
                prepared.push((then, strategy.clone()));
                strategy
            };
            plan.ready(scene, strategy, start)
        })
        .collect()
}

/// Refuses a plan whose strategy is asked by waves, where balls are played one at a time.
pub(super) fn not_own(plan: &Plan, instead: &'static str) -> Result<(), CompareFault> {
    if matches!(plan.then(), Then::Waves(_)) {
        let plan = plan.name().to_owned();
        return Err(CompareFault::Own { plan, instead });
    }
    Ok(())
}

/// Prepares one plan for a question.
pub(super) fn ready_one(
    scene: &Scene,
    plan: &Plan,
    question: &Question,
) -> Result<Ready, PlanFault> {
    let then = plan.then().strategy(scene)?;
    plan.ready(scene, then, question.begins(scene.hole()))
}

/// Prepares a run of one plan that keeps every stroke, as long as the most that the question allows.
///
/// # Errors
/// As for [`Comparison::new`].
pub fn record(
    scene: impl Into<Arc<Scene>>,
    plan: &Plan,
    question: &Question,
) -> Result<Recording, CompareFault> {
    let scene = scene.into();
    question.check(scene.hole())?;
    let plan = ready_one(&scene, plan, question)?;
    let (Length::Plays(goal) | Length::Precision { most: goal, .. }) = question.length;
    Ok(Recording::new(
        question.begins(scene.hole()),
        scene,
        plan,
        question.seed,
        question.maximum_score.unwrap_or(u8::MAX),
        goal,
    ))
}
