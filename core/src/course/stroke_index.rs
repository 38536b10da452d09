//! Stroke indexes by the procedure of the Rules of Handicapping.
use crate::figures::handicapping::{CLEARLY_HARDER, LOW_INDEX};

/// Holes of a triad, and of a nine.
const TRIAD: usize = 3;
const NINE: usize = 9;

/// Stroke indexes for the holes of a course, told by how hard they are: for each, in the order of play, the strokes over par that a
/// scratch and a bogey golfer need, added up.
///
/// Rules of Handicapping, Appendix E (published): holes are ranked by their difficulty to par. Of eighteen, one nine has the
/// odd indexes, the front unless the back is clearly harder. The lowest of each nine lies in its middle three holes, the
/// second in its first or last three, and holes of low indexes (6 or less) do not follow each other as long as there is a
/// choice. The others go by difficulty. Nine holes are treated as one nine with the indexes 1 to 9; any other number is
/// ranked by difficulty alone. Of equals the earlier hole is the harder.
#[must_use]
pub fn stroke_indexes(over_par: &[f64]) -> Vec<u8> {
    let mut indexes = vec![0; over_par.len()];
    match over_par.len() {
        18 => {
            let sum = |nine: &[f64]| nine.iter().sum::<f64>();
            let back_first = sum(&over_par[NINE..]) - sum(&over_par[..NINE]) > CLEARLY_HARDER;
            let of = |odd: bool| -> Vec<u8> {
                (0..9)
                    .map(|i| if odd { 2 * i + 1 } else { 2 * i + 2 })
                    .collect()
            };
            allocate(over_par, 0, &of(!back_first), &mut indexes);
            allocate(over_par, NINE, &of(back_first), &mut indexes);
        }
        9 => allocate(over_par, 0, &(1..=9).collect::<Vec<u8>>(), &mut indexes),
        _ => {
            for (hole, index) in hardest_first(over_par, 0..over_par.len())
                .into_iter()
                .zip(1..)
            {
                indexes[hole] = index;
            }
        }
    }
    indexes
}

/// Gives the nine holes from `first` on the indexes `low_to_high`.
fn allocate(over_par: &[f64], first: usize, low_to_high: &[u8], indexes: &mut [u8]) {
    let mut left = hardest_first(over_par, first..first + NINE);
    let is_middle = |hole: usize| (hole - first) / TRIAD == 1;
    for (rank, &index) in low_to_high.iter().enumerate() {
        let suits = |hole: usize| match rank {
            0 => is_middle(hole),
            1 => !is_middle(hole),
            _ => true,
        };
        let apart = |hole: usize| index > LOW_INDEX || !beside_a_low(hole, indexes);
        let pick = left
            .iter()
            .position(|&hole| suits(hole) && apart(hole))
            .or_else(|| left.iter().position(|&hole| suits(hole)))
            .unwrap_or(0);
        indexes[left.remove(pick)] = index;
    }
}

/// True next to a hole that has a low index already.
fn beside_a_low(hole: usize, indexes: &[u8]) -> bool {
    let low = |place: Option<&u8>| place.is_some_and(|&index| index > 0 && index <= LOW_INDEX);
    low(hole.checked_sub(1).and_then(|before| indexes.get(before))) || low(indexes.get(hole + 1))
}

/// Some holes, the hardest first.
fn hardest_first(over_par: &[f64], holes: std::ops::Range<usize>) -> Vec<usize> {
    let mut order: Vec<usize> = holes.collect();
    order.sort_by(|&a, &b| over_par[b].total_cmp(&over_par[a]).then(a.cmp(&b)));
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_card_worked_by_hand() {
        // Front: the hardest of holes 4 to 6 is the fifth (2.0): 1. Of the outer threes the hardest is the ninth (2.2): 3.
        // Then the first (1.9): 5, for it lies beside neither. The rest by difficulty: 6th 1.6, 7th 1.5, 2nd 1.4, 4th 1.2,
        // 3rd 1.0, 8th 0.8.
        let front = [1.9, 1.4, 1.0, 1.2, 2.0, 1.6, 1.5, 0.8, 2.2];
        // Back: the hardest of 13 to 15 is the thirteenth (1.8): 2. Of the outer threes the tenth (2.1) follows the ninth,
        // which has 3, and the twelfth (2.0) lies beside the thirteenth; next is the seventeenth (1.7): 4. Of those that are
        // left and beside no low index the hardest is the eleventh (1.1), beaten by the fifteenth (1.3): 6.
        let back = [2.1, 1.1, 2.0, 1.8, 1.0, 1.3, 0.9, 1.7, 0.7];
        let all: Vec<f64> = front.into_iter().chain(back).collect();
        assert_eq!(
            stroke_indexes(&all),
            [
                5, 11, 15, 13, 1, 7, 9, 17, 3, 8, 12, 10, 2, 14, 6, 16, 4, 18
            ]
        );
    }

    #[test]
    fn a_clearly_harder_back_nine_has_the_odd_ones() {
        let all: Vec<f64> = (0..18).map(|i| f64::from(i) / 10.0).collect();
        let indexes = stroke_indexes(&all);
        assert!(indexes[9..].iter().all(|i| i % 2 == 1));
        assert!(indexes[..9].iter().all(|i| i % 2 == 0));
    }

    #[test]
    fn every_index_is_given_once_and_low_ones_lie_apart() {
        for seed in 0..200_u32 {
            // Any difficulties: a fraction of multiples of the golden ratio.
            let hard = |i: u32| (f64::from(seed * 37 + i * i + i) * 0.618_033_988_75).fract();
            for holes in [1, 5, 9, 12, 18] {
                let indexes = stroke_indexes(&(0..holes).map(hard).collect::<Vec<_>>());
                let mut sorted = indexes.clone();
                sorted.sort_unstable();
                assert_eq!(sorted, (1..=holes as u8).collect::<Vec<_>>());
                if holes == 18 {
                    let low = |i: usize| indexes[i] <= LOW_INDEX;
                    assert!((1..18).all(|i| !(low(i - 1) && low(i))), "{indexes:?}");
                }
            }
        }
    }
}
