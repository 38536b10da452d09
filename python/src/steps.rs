//! Work that advances in steps of some length, as many as fit a wave.

use std::time::{Duration, Instant};
use wideberth::Run;

/// Work whose steps take long, and not all as long: a wave is as many as fit.
pub(crate) struct Steps<T>(pub(crate) T);

/// How long a wave of steps should take.
const WAVE: Duration = Duration::from_millis(50);

impl<T: Run> Run for Steps<T> {
    fn advance(&mut self, count: u64) {
        let start = Instant::now();
        for _ in 0..count {
            if self.0.is_finished() || start.elapsed() > WAVE {
                break;
            }
            self.0.advance(1);
        }
    }

    fn done(&self) -> u64 {
        self.0.done()
    }

    fn goal(&self) -> u64 {
        self.0.goal()
    }

    fn is_finished(&self) -> bool {
        self.0.is_finished()
    }
}
