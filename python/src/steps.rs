//! Work that advances in steps, as many as fit a wave.

use std::time::{Duration, Instant};

use crate::pool::Waves;

/// Work that is done in steps, as many as fit a wave.
pub(crate) struct Steps<T>(pub(crate) T);

/// How long a wave of steps should take.
const WAVE: Duration = Duration::from_millis(50);

/// Something that advances in steps.
pub(crate) trait Stepped: Send + 'static {
    fn step(&mut self);
    fn done(&self) -> u64;
    fn goal(&self) -> u64;
    fn is_finished(&self) -> bool;
}

/// Says that a type of the core advances in steps.
macro_rules! stepped {
    ($kind:ty) => {
        impl $crate::steps::Stepped for $kind {
            fn step(&mut self) {
                self.advance(1);
            }
            fn done(&self) -> u64 {
                <$kind>::done(self)
            }
            fn goal(&self) -> u64 {
                <$kind>::goal(self)
            }
            fn is_finished(&self) -> bool {
                <$kind>::is_finished(self)
            }
        }
    };
}
pub(crate) use stepped;

impl<T: Stepped> Waves for Steps<T> {
    fn advance(&mut self, count: u64) {
        let start = Instant::now();
        for _ in 0..count {
            if self.0.is_finished() || start.elapsed() > WAVE {
                break;
            }
            self.0.step();
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
