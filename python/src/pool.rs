//! The thread pools of the binding, and long work in waves.

use pyo3::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};
use std::collections::BTreeMap;
use std::num::NonZero;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use crate::errors::input_error;

/// The pools of one process, by number of threads. A pool does not survive `fork`: its threads are
/// gone in the child, and work given to it would wait for ever. So pools are kept with the process
/// they belong to, and a child makes its own.
struct Pools {
    process: u32,
    by_threads: BTreeMap<usize, Arc<ThreadPool>>,
}

static POOLS: Mutex<Option<Pools>> = Mutex::new(None);

/// The most threads that may be asked for.
const MOST_THREADS: usize = 1024;

/// A pool of `threads` threads, or of one for every core.
pub(crate) fn pool(threads: Option<usize>) -> PyResult<Arc<ThreadPool>> {
    let threads = match threads {
        None => std::thread::available_parallelism().map_or(1, NonZero::get),
        Some(n) if (1..=MOST_THREADS).contains(&n) => n,
        Some(n) => {
            return Err(input_error(format!(
                "threads is {n}; it must be 1 to {MOST_THREADS}, or None for every core"
            )));
        }
    };
    let mut pools = POOLS.lock().unwrap_or_else(PoisonError::into_inner);
    let process = std::process::id();
    if pools.as_ref().is_some_and(|p| p.process != process) {
        // Dropping the parent's pools would wait for threads that are not there.
        std::mem::forget(pools.take());
    }
    let pools = pools.get_or_insert_with(|| Pools {
        process,
        by_threads: BTreeMap::new(),
    });
    if let Some(pool) = pools.by_threads.get(&threads) {
        return Ok(pool.clone());
    }
    let pool = ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .map_err(|e| {
            pyo3::exceptions::PyRuntimeError::new_err(format!(
                "cannot start {threads} threads: {e}"
            ))
        })?;
    let pool = Arc::new(pool);
    pools.by_threads.insert(threads, pool.clone());
    Ok(pool)
}

/// Work that advances in waves of any size.
pub(crate) trait Waves: Send {
    /// Does up to `count` more.
    fn advance(&mut self, count: u64);
    /// Done so far.
    fn done(&self) -> u64;
    /// Where it will end, as far as is known.
    fn goal(&self) -> u64;
    /// True when there is no more to do.
    fn is_finished(&self) -> bool;
}

/// How long a wave should take: short enough that Ctrl-C is heard at once.
const WAVE: Duration = Duration::from_millis(60);

/// Runs `work` to its end with the GIL released, looking for Ctrl-C and reporting progress between
/// waves.
pub(crate) fn run(
    py: Python<'_>,
    pool: &ThreadPool,
    work: &mut impl Waves,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<()> {
    let mut size: u64 = 64;
    while !work.is_finished() {
        let start = Instant::now();
        py.detach(|| pool.install(|| work.advance(size)));
        py.check_signals()?;
        if let Some(report) = progress {
            report.call1((work.done(), work.goal()))?;
        }
        let took = start.elapsed();
        if took < WAVE / 2 {
            size = size.saturating_mul(2);
        } else if took > WAVE {
            size = (size / 2).max(1);
        }
    }
    Ok(())
}
