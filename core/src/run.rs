//! Long work, done in waves.

/// Work that advances in waves of any size: it tells how far it is, and can be left between waves.
///
/// What comes out depends neither on how the work is parted nor on the number of threads.
///
/// ```
/// use wideberth::Run;
///
/// /// Adds up the numbers below `goal`.
/// struct Adding { next: u64, goal: u64, sum: u64 }
///
/// impl Run for Adding {
///     fn advance(&mut self, count: u64) {
///         let end = self.goal.min(self.next.saturating_add(count));
///         self.sum += (self.next..end).sum::<u64>();
///         self.next = end;
///     }
///     fn done(&self) -> u64 { self.next }
///     fn goal(&self) -> u64 { self.goal }
/// }
///
/// let mut adding = Adding { next: 0, goal: 100, sum: 0 };
/// adding.advance(10);
/// assert_eq!((adding.done(), adding.is_finished()), (10, false));
/// adding.finish();
/// assert_eq!((adding.sum, adding.is_finished()), (4_950, true));
/// ```
pub trait Run {
    /// Does up to `count` more on the current thread pool.
    fn advance(&mut self, count: u64);

    /// How much is done.
    #[must_use]
    fn done(&self) -> u64;

    /// How much it is in all, as far as is known: it may grow, and once all is done it is what was done.
    #[must_use]
    fn goal(&self) -> u64;

    /// True when there is no more to do; told in a way of its own by work whose goal may still grow.
    #[must_use]
    fn is_finished(&self) -> bool {
        self.done() == self.goal()
    }

    /// Does all that is left.
    fn finish(&mut self) {
        while !self.is_finished() {
            self.advance(u64::MAX);
        }
    }
}
