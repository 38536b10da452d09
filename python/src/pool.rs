//! The thread pools of the binding, and work on them that Ctrl-C ends.

use pyo3::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};
use std::num::NonZero;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::mpsc::{RecvTimeoutError, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use wideberth::Run;

use crate::errors::input_error;
use crate::fork::Piece;

/// The pools of one process, used last first. A pool does not survive `fork`: its threads are gone in the child, and work
/// given to it would wait for ever. So pools are kept with the process they belong to, and a child makes its own.
struct Pools {
    process: u32,
    recent: Vec<(usize, Arc<ThreadPool>)>,
}

static POOLS: Mutex<Option<Pools>> = Mutex::new(None);

/// The most threads that may be asked for.
const MOST_THREADS: usize = 1024;

/// The most pools that are kept for later: the usual one and another. The threads of others end when their work does.
const MOST_KEPT: usize = 2;

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
    let recent = &mut pools
        .get_or_insert_with(|| Pools {
            process,
            recent: Vec::new(),
        })
        .recent;
    if let Some(at) = recent.iter().position(|(n, _)| *n == threads) {
        recent[..=at].rotate_right(1);
        return Ok(recent[0].1.clone());
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
    recent.insert(0, (threads, pool.clone()));
    recent.truncate(MOST_KEPT);
    Ok(pool)
}

/// Gives no more work to a pool that is still busy with what nobody waits for.
fn abandon(pool: &Arc<ThreadPool>) {
    let mut pools = POOLS.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(pools) = pools.as_mut() {
        pools.recent.retain(|(_, kept)| !Arc::ptr_eq(kept, pool));
    }
}

/// How often Ctrl-C is looked for.
const LOOK: Duration = Duration::from_millis(50);

/// Does `work` on the pool with the GIL released, however long it takes: Ctrl-C is heard meanwhile, and then the work is
/// left to end by itself, with nobody waiting for it.
pub(crate) fn ask<T: Send + 'static>(
    py: Python<'_>,
    pool: &Arc<ThreadPool>,
    work: impl FnOnce() -> T + Send + 'static,
) -> PyResult<T> {
    let (tell, mut hear) = sync_channel(1);
    // Begun here: a thread of the pool may take up this work while it waits for parts of another.
    let piece = py.detach(Piece::begin);
    pool.spawn(move || {
        let done = catch_unwind(AssertUnwindSafe(work));
        drop(piece);
        // Nobody hears it after Ctrl-C.
        let _ = tell.send(done);
    });
    loop {
        let heard = &mut hear;
        match py.detach(move || heard.recv_timeout(LOOK)) {
            Ok(Ok(found)) => return Ok(found),
            Ok(Err(panic)) => resume_unwind(panic),
            Err(RecvTimeoutError::Timeout) => py.check_signals().inspect_err(|_| abandon(pool))?,
            Err(RecvTimeoutError::Disconnected) => {
                let lost = "the threads ended before the work";
                return Err(pyo3::exceptions::PyRuntimeError::new_err(lost));
            }
        }
    }
}

/// How long a wave should take: short enough that progress flows and a fork need not wait.
const WAVE: Duration = Duration::from_millis(60);

/// Runs `work` to its end with the GIL released, looking for Ctrl-C and reporting progress between waves, and gives it back.
pub(crate) fn run<W: Run + Send + 'static>(
    py: Python<'_>,
    pool: &Arc<ThreadPool>,
    mut work: W,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<W> {
    let mut size: u64 = 64;
    let mut process = std::process::id();
    let mut pool = pool.clone();
    while !work.is_finished() {
        // What the callback takes is not the wave's.
        let took;
        (work, took) = ask(py, &pool, move || {
            let start = Instant::now();
            work.advance(size);
            (work, start.elapsed())
        })?;
        py.check_signals()?;
        if let Some(report) = progress {
            report.call1((work.done(), work.goal()))?;
            if std::process::id() != process {
                process = std::process::id();
                // The callback forked, and this is the child: it needs threads of its own, and cannot end the parent's.
                let own = self::pool(Some(pool.current_num_threads()))?;
                std::mem::forget(std::mem::replace(&mut pool, own));
            }
        }
        if took < WAVE / 2 {
            size = size.saturating_mul(2);
        } else if took > WAVE {
            size = (size / 2).max(1);
        }
    }
    Ok(work)
}
