//! Players on holes, prepared once: whoever asks about the same hole and player again and again, as a hand that drags an aim
//! does, need not wait for it each time.

use pyo3::prelude::*;
use std::sync::{Arc, Mutex, PoisonError};
use wideberth::hole::Hole;
use wideberth::plan::Scene;
use wideberth::player::Bag;

use crate::errors::refused;

/// A player on a hole, with the very objects that it was prepared of.
struct Kept {
    hole: Arc<Hole>,
    bag: Arc<Bag>,
    scene: Arc<Scene>,
}

/// Those asked for last, first.
static KEPT: Mutex<Vec<Kept>> = Mutex::new(Vec::new());

/// How many are kept.
const MOST: usize = 4;

/// The player on the hole, prepared. What it holds depends on both alone, so nobody notices whether it is new.
///
/// To be asked on a thread of a pool: the preparation takes some milliseconds.
pub(crate) fn prepared(hole: &Arc<Hole>, bag: &Arc<Bag>) -> PyResult<Arc<Scene>> {
    if let Some(scene) = found(hole, bag) {
        return Ok(scene);
    }
    // Nothing is locked meanwhile: the thread may take up other work while it waits for parts of this.
    let scene = Arc::new(Scene::new(hole.clone(), bag.clone()).map_err(refused)?);
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    kept.insert(
        0,
        Kept {
            hole: hole.clone(),
            bag: bag.clone(),
            scene: scene.clone(),
        },
    );
    let end = MOST.min(kept.len());
    let dropped = kept.split_off(end);
    drop(kept);
    drop(dropped);
    Ok(scene)
}

fn found(hole: &Arc<Hole>, bag: &Arc<Bag>) -> Option<Arc<Scene>> {
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let at = kept
        .iter()
        .position(|k| Arc::ptr_eq(&k.hole, hole) && Arc::ptr_eq(&k.bag, bag))?;
    kept[..=at].rotate_right(1);
    Some(kept[0].scene.clone())
}
