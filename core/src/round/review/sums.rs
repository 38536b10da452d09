//! What the strokes of a round that was judged come to, in all and by kind.
use super::judged::{JudgedStroke, Part, Review};

/// What some strokes of a round come to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Summed {
    /// How many they are.
    pub strokes: u32,
    /// What they gained.
    pub gained: f64,
    /// What their choice gained.
    pub choice: f64,
    /// What their execution did.
    pub execution: f64,
    /// How far luck alone takes their execution: a standard deviation, the luck of strokes being independent.
    pub luck: f64,
    /// The execution in such deviations; 0 where there is no luck.
    pub beyond_luck: f64,
}

impl Summed {
    /// Sums in the order of the strokes.
    fn of<'a>(strokes: impl Iterator<Item = &'a JudgedStroke>) -> Self {
        let mut sums = Summed::default();
        let mut variance = 0.0;
        for stroke in strokes {
            sums.strokes += 1;
            sums.gained += stroke.gained.gained;
            sums.choice += stroke.choice;
            sums.execution += stroke.execution;
            variance += stroke.luck * stroke.luck;
        }
        sums.luck = variance.sqrt();
        if sums.luck > 0.0 {
            sums.beyond_luck = sums.execution / sums.luck;
        }
        sums
    }
}

impl Review {
    /// Strokes and penalties of the holes that were written down.
    #[must_use]
    pub fn score(&self) -> u32 {
        self.strokes.iter().map(|s| u32::from(s.gained.used)).sum()
    }

    /// Strokes to be expected from the tees of those holes.
    #[must_use]
    pub fn expected(&self) -> f64 {
        let first = self.strokes.iter().filter(|s| s.number == 1);
        first.map(|s| s.gained.before).sum()
    }

    /// How many strokes more than that the round took.
    #[must_use]
    pub fn over_expected(&self) -> f64 {
        f64::from(self.score()) - self.expected()
    }

    /// What all strokes come to.
    #[must_use]
    pub fn in_all(&self) -> Summed {
        Summed::of(self.strokes.iter())
    }

    /// What the strokes of each part of the game come to, those of no stroke among them.
    #[must_use]
    pub fn by_part(&self) -> Vec<(Part, Summed)> {
        self.by(Part::ALL, |stroke| stroke.part)
    }

    /// What the strokes of each hole come to: places on the course, in the order in which they were written.
    #[must_use]
    pub fn by_hole(&self) -> Vec<(usize, Summed)> {
        self.by(self.kinds(|stroke| stroke.place), |stroke| stroke.place)
    }

    /// What the strokes of each club come to, in the order in which they were first played.
    #[must_use]
    pub fn by_club(&self) -> Vec<(&str, Summed)> {
        self.by(self.kinds(|stroke| &*stroke.club), |stroke| &stroke.club)
    }

    /// The kinds that occur, in the order of their first strokes.
    fn kinds<'a, K: PartialEq>(&'a self, of: impl Fn(&'a JudgedStroke) -> K) -> Vec<K> {
        let mut kinds = Vec::new();
        for kind in self.strokes.iter().map(of) {
            if !kinds.contains(&kind) {
                kinds.push(kind);
            }
        }
        kinds
    }

    fn by<'a, K: PartialEq>(
        &'a self,
        kinds: impl IntoIterator<Item = K>,
        of: impl Fn(&'a JudgedStroke) -> K,
    ) -> Vec<(K, Summed)> {
        let sums = kinds.into_iter().map(|kind| {
            let sum = Summed::of(self.strokes.iter().filter(|&stroke| of(stroke) == kind));
            (kind, sum)
        });
        sums.collect()
    }
}
