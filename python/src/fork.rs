//! Forks of the process, which wait until no thread of ours is at work.
//!
//! A forked child has one thread, the one that forked. Whatever another thread was in the middle of (a table that is made
//! once, a lock) stays so in the child for ever, and whoever waits for it there hangs. So all work of the core goes in a
//! [`Piece`], and Python is told to wait before a fork until nothing is at work, and to let nothing begin until it is done.
//! Work in waves keeps it waiting for a wave at most. What holds the GIL needs no such care: the thread that forks has it.

use pyo3::prelude::*;
use std::cell::RefCell;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// What there is of work and of forks.
struct State {
    at_work: usize,
    forks_waiting: usize,
}

static STATE: Mutex<State> = Mutex::new(State {
    at_work: 0,
    forks_waiting: 0,
});
static CHANGED: Condvar = Condvar::new();

thread_local! {
    /// Held by the thread that forks, from before the fork until after it: in the child, too, which is that thread.
    static HELD: RefCell<Option<MutexGuard<'static, State>>> = const { RefCell::new(None) };
}

fn state() -> MutexGuard<'static, State> {
    STATE.lock().unwrap_or_else(PoisonError::into_inner)
}

fn changed(state: MutexGuard<'static, State>) -> MutexGuard<'static, State> {
    CHANGED.wait(state).unwrap_or_else(PoisonError::into_inner)
}

/// A piece of work that a fork waits for: from its beginning until it is dropped.
pub(crate) struct Piece;

impl Piece {
    /// Begins a piece, after a fork that waits. Never on a thread that works on another piece, nor with the GIL: the fork
    /// would wait for that, and it for the fork.
    pub(crate) fn begin() -> Self {
        let mut state = state();
        while state.forks_waiting > 0 {
            state = changed(state);
        }
        state.at_work += 1;
        Piece
    }
}

impl Drop for Piece {
    fn drop(&mut self) {
        let mut state = state();
        state.at_work -= 1;
        if state.at_work == 0 {
            CHANGED.notify_all();
        }
    }
}

/// Does short work with the GIL released that no fork comes into.
pub(crate) fn at_work<T: Send>(py: Python<'_>, work: impl FnOnce() -> T + Send) -> T {
    py.detach(|| {
        let _piece = Piece::begin();
        work()
    })
}

/// Waits until nothing is at work, and lets nothing begin.
#[pyfunction]
fn before_fork(py: Python<'_>) {
    py.detach(|| {
        let mut state = state();
        state.forks_waiting += 1;
        while state.at_work > 0 {
            state = changed(state);
        }
        HELD.set(Some(state));
    });
}

/// Lets work begin again in the process that forked.
#[pyfunction]
fn after_fork_in_parent() {
    if let Some(mut state) = HELD.take() {
        state.forks_waiting -= 1;
        CHANGED.notify_all();
    }
}

/// Lets work begin in the child, where nobody else is at work or waits.
#[pyfunction]
fn after_fork_in_child() {
    if let Some(mut state) = HELD.take() {
        state.forks_waiting = 0;
    }
}

/// Tells Python of all this, where it can fork.
pub(crate) fn watch_forks(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let py = module.py();
    let os = py.import("os")?;
    let Some(register) = os.getattr_opt("register_at_fork")? else {
        return Ok(());
    };
    let hooks = pyo3::types::PyDict::new(py);
    hooks.set_item("before", wrap_pyfunction!(before_fork, module)?)?;
    hooks.set_item(
        "after_in_parent",
        wrap_pyfunction!(after_fork_in_parent, module)?,
    )?;
    hooks.set_item(
        "after_in_child",
        wrap_pyfunction!(after_fork_in_child, module)?,
    )?;
    register.call((), Some(&hooks))?;
    Ok(())
}
