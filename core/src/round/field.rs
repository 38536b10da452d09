//! A player on every hole of a course, prepared; and the luck of each hole.
use super::RoundFault;
use crate::course::Course;
use crate::noise::Seed;
use crate::plan::{Plan, Ready, Scene, Then};
use crate::player::Bag;
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// How every hole of a round is played by those who have no plan of their own for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// Unadvised, with the habits of the player: how golfers play.
    #[default]
    Direct,
    /// Sensibly, without knowing the hole by heart.
    Steady,
}

impl Way {
    /// Both.
    pub const ALL: [Way; 2] = [Way::Direct, Way::Steady];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Way::Direct => "direct",
            Way::Steady => "steady",
        }
    }

    fn then(self) -> Then {
        match self {
            Way::Direct => Then::Direct,
            Way::Steady => Then::Steady,
        }
    }
}

/// A player on every hole of a course, prepared.
#[derive(Clone)]
pub struct Field {
    course: Arc<Course>,
    scenes: Vec<Arc<Scene>>,
}

impl Field {
    /// Prepares a player on every hole of a course, on the current thread pool.
    ///
    /// # Errors
    /// A stroke whose carry no believable ball speed gives on some hole.
    pub fn new(course: Arc<Course>, bag: &Arc<Bag>) -> Result<Self, RoundFault> {
        let prepare = |(place, hole): (usize, &Arc<crate::hole::Hole>)| {
            let hole_number = course.numbers()[place];
            Scene::new(hole.clone(), bag.clone())
                .map(Arc::new)
                .map_err(|fault| RoundFault::Setting {
                    hole: hole_number,
                    fault,
                })
        };
        let scenes = course.holes().par_iter().enumerate().map(prepare);
        Ok(Field {
            scenes: scenes.collect::<Result<_, _>>()?,
            course,
        })
    }

    /// The course.
    #[must_use]
    pub fn course(&self) -> &Arc<Course> {
        &self.course
    }

    /// The player on each hole, in the order of play.
    #[must_use]
    pub fn scenes(&self) -> &[Arc<Scene>] {
        &self.scenes
    }

    /// One way to play all holes.
    pub(super) fn plans(&self, way: Way) -> Result<Vec<Plan>, RoundFault> {
        let plan = |&hole: &u8| {
            Plan::new(way.name(), Vec::new(), way.then())
                .map_err(|fault| RoundFault::Plan { hole, fault })
        };
        self.course.numbers().iter().map(plan).collect()
    }

    /// Plans prepared for play, one a hole.
    pub(super) fn ready(&self, plans: &[Plan]) -> Result<Vec<Ready>, RoundFault> {
        let (given, holes) = (plans.len(), self.scenes.len());
        if given != holes {
            return Err(RoundFault::Plans { given, holes });
        }
        let ready = |(place, scene): (usize, &Arc<Scene>)| {
            let (plan, hole) = (&plans[place], self.course.numbers()[place]);
            let then = plan.then().strategy(scene);
            then.and_then(|then| plan.ready(scene, then, Situation::on_the_tee(scene.hole())))
                .map_err(|fault| RoundFault::Plan { hole, fault })
        };
        self.scenes.par_iter().enumerate().map(ready).collect()
    }
}

/// The seed of the luck on a hole of a round: that of the place at which it is played.
///
/// Every hole has luck of its own; a play of the hole in round `i` is play `i` of the hole under this seed.
pub(super) fn seed_of(seed: Seed, place: usize) -> Seed {
    seed.part(place as u64)
}
