//! The sums of the Rules of Handicapping: differentials, the index, strokes received and the most that a hole counts.
use crate::figures::handicapping::{LOWEST, NET_DOUBLE_BOGEY, OF_AN_INDEX, OF_FEWER};
pub use crate::figures::handicapping::{MOST_INDEX, STANDARD_SLOPE};

/// The Score Differential of a round of 18 holes, to a tenth, halves up: 113 over the Slope Rating, times the adjusted gross score
/// less the Course Rating (Rules of Handicapping, Rule 5.1, published; played in ordinary conditions).
#[must_use]
pub fn differential(adjusted: f64, course_rating: f64, slope: f64) -> f64 {
    tenths(STANDARD_SLOPE / slope * (adjusted - course_rating))
}

/// The Handicap Index of the last twenty differentials or fewer, to a tenth; None of fewer than three, which make none.
///
/// The mean of the lowest eight of twenty (Rules of Handicapping, Rule 5.2a, published), of fewer the mean of the fewer
/// lowest with an adjustment (from memory). Earlier differentials than the last twenty do not count.
#[must_use]
pub fn handicap_index(differentials: &[f64]) -> Option<f64> {
    let last = &differentials[differentials.len().saturating_sub(OF_AN_INDEX)..];
    if last.len() < OF_FEWER[0].0 {
        return None;
    }
    let few = OF_FEWER.iter().find(|(most, ..)| last.len() <= *most);
    let (lowest, adjustment) = few.map_or((LOWEST, 0.0), |&(_, lowest, add)| (lowest, add));
    let mut sorted = last.to_vec();
    sorted.sort_by(f64::total_cmp);
    let counted = &sorted[..lowest];
    #[expect(clippy::cast_precision_loss, reason = "at most eight")]
    let mean = counted.iter().sum::<f64>() / lowest as f64;
    Some(tenths(mean + adjustment).min(MOST_INDEX))
}

/// The Course Handicap before it is rounded: the index times the Slope Rating over 113, and the Course Rating less par (Rules
/// of Handicapping, Rule 6.1, published).
#[must_use]
pub fn course_handicap(index: f64, slope: f64, course_rating: f64, par: f64) -> f64 {
    index * slope / STANDARD_SLOPE + (course_rating - par)
}

/// The strokes that a player receives on each hole, by the stroke indexes of the holes in their order; less than 0 where a
/// player of plus handicap gives one back.
///
/// Everybody's strokes go to the lowest indexes first and start again from there; those given back begin at the highest
/// (Rules of Handicapping, Appendix E, from memory). Where a course uses other numbers than 1, 2, 3 ..., their order counts.
#[must_use]
pub fn strokes_received(course_handicap: i32, stroke_indexes: &[u8]) -> Vec<i32> {
    let holes = i32::try_from(stroke_indexes.len()).unwrap_or(1).max(1);
    let (round, more) = (
        course_handicap.div_euclid(holes),
        course_handicap.rem_euclid(holes),
    );
    let lower = |index: &u8| stroke_indexes.iter().filter(|other| *other < index).count();
    stroke_indexes
        .iter()
        .map(|index| round + i32::from(lower(index) < usize::try_from(more).unwrap_or(0)))
        .collect()
}

/// The most that a hole counts towards an adjusted score: two over par and the strokes received (Rules of Handicapping, Rule
/// 3.1b, published).
#[must_use]
pub fn net_double_bogey(par: u8, received: i32) -> i32 {
    i32::from(par) + NET_DOUBLE_BOGEY + received
}

/// Rounded to a tenth, halves up.
fn tenths(value: f64) -> f64 {
    // A sum of tenths such as 0.05 may lie a last bit below the half it stands for.
    libm::floor(10.0 * value + 0.5 + 1e-9) / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differentials_by_hand() {
        // (113 / 125) (90 - 71.5) = 16.724; (113 / 113) (72 - 72.3) = -0.3.
        assert!((differential(90.0, 71.5, 125.0) - 16.7).abs() < 1e-12);
        assert!((differential(72.0, 72.3, 113.0) + 0.3).abs() < 1e-12);
        assert!(
            (course_handicap(10.0, 125.0, 71.5, 72.0) - (10.0 * 125.0 / 113.0 - 0.5)).abs() < 1e-12
        );
    }

    #[test]
    fn the_index_by_the_table() {
        // The differentials 1, 2, ..., n: what the table of Rule 5.2a makes of their lowest.
        let of = |n: u8| {
            let all: Vec<f64> = (1..=n).rev().map(f64::from).collect();
            handicap_index(&all)
        };
        assert_eq!(
            (of(2), of(3), of(4), of(5)),
            (None, Some(-1.0), Some(0.0), Some(1.0))
        );
        assert_eq!((of(6), of(7), of(8)), (Some(0.5), Some(1.5), Some(1.5)));
        assert_eq!(
            (of(9), of(11), of(12), of(14)),
            (Some(2.0), Some(2.0), Some(2.5), Some(2.5))
        );
        assert_eq!(
            (of(15), of(17), of(19), of(20)),
            (Some(3.0), Some(3.5), Some(4.0), Some(4.5))
        );
        // Thirty rounds from 30 down to 1: the last twenty are 20 to 1.
        assert_eq!(of(30), Some(4.5));
        assert_eq!(handicap_index(&[80.0; 5]), Some(MOST_INDEX));
    }

    #[test]
    fn strokes_go_to_the_low_indexes() {
        let indexes: Vec<u8> = (1..=18).map(|i| 1 + (7 * i) % 18).collect();
        let of = |handicap| strokes_received(handicap, &indexes);
        for handicap in [-5, -1, 0, 1, 9, 17, 18, 19, 36, 40, 54] {
            assert_eq!(of(handicap).iter().sum::<i32>(), handicap);
        }
        let on = |handicap: i32, index: u8| {
            of(handicap)[indexes.iter().position(|&i| i == index).unwrap_or(0)]
        };
        assert_eq!((on(20, 1), on(20, 2), on(20, 3)), (2, 2, 1));
        // A plus handicap gives back from the highest index down.
        assert_eq!(
            (on(-2, 18), on(-2, 17), on(-2, 16), on(-2, 1)),
            (-1, -1, 0, 0)
        );
        // The odd indexes of a front nine rank like 1 to 9.
        let nine: Vec<u8> = (0..9).map(|i| 2 * i + 1).collect();
        assert_eq!(strokes_received(4, &nine), [1, 1, 1, 1, 0, 0, 0, 0, 0]);
        assert_eq!((net_double_bogey(4, 1), net_double_bogey(5, -1)), (7, 6));
    }
}
