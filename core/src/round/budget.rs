//! A target cut into holes: what to make on each so that the round adds up.
use super::scored::Mark;

/// Room above which nobody plans, strokes a hole.
const MOST: usize = 30;
/// By how much the logarithm of the chance falls with the first stroke below the lowest score that was seen; as much more with
/// every stroke after it, so that what nobody makes is asked of all holes alike.
const UNSEEN: f64 = 7.0;

/// The chance to come to no more than 0, 1, 2, ... strokes on a hole, by its plays.
pub(super) fn within(plays: &[Mark]) -> Vec<f64> {
    let mut counts = vec![0_u32; MOST + 1];
    for mark in plays {
        counts[usize::from(mark.score).min(MOST)] += 1;
    }
    #[expect(clippy::cast_precision_loss, reason = "at most 100,000")]
    let plays = plays.len() as f64;
    let mut seen = 0;
    counts
        .into_iter()
        .map(|count| {
            seen += count;
            f64::from(seen) / plays
        })
        .collect()
}

/// The scores to make, one a hole, that add up to `total` and are kept on every hole with the best chance there is.
///
/// The chance to keep all of them is the product of the chances of each, so a stroke goes to the hole on which it raises the
/// logarithm of its chance most, one after the other; of equals to the hole played last. Scores below the lowest that was seen
/// cost most.
pub(super) fn scores_to_make(holes: &[Vec<f64>], total: usize) -> Vec<usize> {
    let mut budget = vec![1; holes.len()];
    let log = |hole: usize, score: usize| {
        let chance = |score: usize| holes[hole].get(score).copied().unwrap_or(1.0);
        let mut lowest = score;
        while chance(lowest) == 0.0 {
            lowest += 1;
        }
        #[expect(clippy::cast_precision_loss, reason = "a small score")]
        let unseen = (lowest - score) as f64;
        libm::log(chance(lowest)) - UNSEEN * 0.5 * unseen * (unseen + 1.0)
    };
    // The next stroke may be worth more than this one where the distribution has a step: looked for a few strokes ahead.
    let slope = |hole: usize, score: usize| {
        #[expect(clippy::cast_precision_loss, reason = "a small score")]
        let ahead = |more: usize| (log(hole, score + more) - log(hole, score)) / more as f64;
        (1..=6).map(ahead).fold(f64::NEG_INFINITY, f64::max)
    };
    for _ in holes.len()..total {
        let best = (0..holes.len())
            .max_by(|&a, &b| slope(a, budget[a]).total_cmp(&slope(b, budget[b])))
            .unwrap_or(0);
        budget[best] += 1;
    }
    budget
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The best by trying every way to cut a total into three.
    fn tried(holes: &[Vec<f64>], total: usize) -> f64 {
        let mut best = 0.0_f64;
        for a in 1..total {
            for b in 1..total - a {
                let c = total - a - b;
                let of = |hole: usize, score: usize| holes[hole].get(score).copied().unwrap_or(1.0);
                best = best.max(of(0, a) * of(1, b) * of(2, c));
            }
        }
        best
    }

    #[test]
    fn the_budget_is_the_one_kept_most_often() {
        let hole = |shares: &[(u8, u32)]| {
            let marks = |&(score, count): &(u8, u32)| {
                std::iter::repeat_n(
                    Mark {
                        score,
                        ..Mark::default()
                    },
                    count as usize,
                )
            };
            within(&shares.iter().flat_map(marks).collect::<Vec<_>>())
        };
        let holes = [
            hole(&[(3, 5), (4, 30), (5, 45), (6, 15), (7, 5)]),
            hole(&[(2, 10), (3, 50), (4, 30), (5, 10)]),
            hole(&[(4, 10), (5, 30), (6, 40), (7, 15), (8, 5)]),
        ];
        for total in 10..=20 {
            let budget = scores_to_make(&holes, total);
            assert_eq!(budget.iter().sum::<usize>(), total);
            let kept: f64 = budget
                .iter()
                .zip(&holes)
                .map(|(&s, h)| h[s.min(MOST)])
                .product();
            assert!(kept > 0.999 * tried(&holes, total), "{total}: {budget:?}");
        }
        // Nobody makes 5 on these three: what is below their lowest scores 3, 2 and 4 is asked of all alike.
        assert_eq!(scores_to_make(&holes, 6), [2, 1, 3]);
    }
}
