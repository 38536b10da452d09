//! Mutated documents through every reader of maps, documents and grids: a short run always, and as long a one as is asked
//! for.
//!
//! `WIDEBERTH_FUZZ=1000000 cargo test --release --test all map_fuzz -- --nocapture` reads a million documents on all cores and
//! tells what became of them; `WIDEBERTH_FUZZ=1 WIDEBERTH_FUZZ_FROM=77` the one of the seed 77.

use crate::fuzz;

use rayon::prelude::*;

/// A number from the environment.
fn told(name: &str, usual: u64) -> u64 {
    std::env::var(name).map_or(usual, |text| text.parse().unwrap())
}

#[test]
fn mutated_documents_are_read_or_refused_in_words() {
    /// Documents of one task.
    const TASK: u64 = 250;
    let (count, first) = (
        told("WIDEBERTH_FUZZ", 3_000),
        told("WIDEBERTH_FUZZ_FROM", 0),
    );
    let bases = fuzz::Bases::new();
    let tasks: Vec<u64> = (0..count.div_ceil(TASK)).collect();
    let runs: Vec<fuzz::Counts> = tasks
        .into_par_iter()
        .map(|task| {
            let from = first + task * TASK;
            fuzz::run(&bases, from..(from + TASK).min(first + count))
        })
        .collect();
    let total = runs
        .iter()
        .fold(fuzz::Counts::default(), |sum, run| sum.with(run));
    eprintln!("{total:#?}");
    assert_eq!((total.panics, total.nameless), (0, 0), "{total:?}");
    // Both happen, or the mutations are too wild or too tame.
    if count >= 1_000 {
        let least = count / 10;
        assert!(total.read > least && total.refused > least, "{total:?}");
    }
}
