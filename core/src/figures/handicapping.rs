//! The Rules of Handicapping, and what is read off them.

/// The Slope Rating of a course of standard difficulty.
///
/// Slope Rating. Published: Rules of Handicapping.
pub const STANDARD_SLOPE: f64 = 113.0;

/// The bounds of a Slope Rating for 18 holes.
///
/// Slope Ratings. Published: Rules of Handicapping.
pub(crate) const SLOPES: (f64, f64) = (55.0, 155.0);

/// The highest Handicap Index.
///
/// Strokes. From memory: Rules of Handicapping.
pub const MOST_INDEX: f64 = 54.0;

/// The differentials that make an index: the last so many.
///
/// Rounds. Published: Rules of Handicapping 5.2a.
pub(crate) const OF_AN_INDEX: usize = 20;

/// Of those the lowest that count.
///
/// Rounds. Published: Rules of Handicapping 5.2a.
pub(crate) const LOWEST: usize = 8;

/// Where there are fewer than [`OF_AN_INDEX`]: up to so many rounds, the lowest that count, and what is added to their mean.
/// Up to two make no index.
///
/// Rounds, rounds, strokes. From memory: Rules of Handicapping 5.2a.
pub(crate) const OF_FEWER: [(usize, usize, f64); 10] = [
    (3, 1, -2.0),
    (4, 1, -1.0),
    (5, 1, 0.0),
    (6, 2, -1.0),
    (8, 2, 0.0),
    (11, 3, 0.0),
    (14, 4, 0.0),
    (16, 5, 0.0),
    (18, 6, 0.0),
    (19, 7, 0.0),
];

/// The most that a hole counts over par before the strokes received are added: net double bogey.
///
/// Strokes. Published: Rules of Handicapping 3.1b.
pub(crate) const NET_DOUBLE_BOGEY: i32 = 2;

/// The most that a hole counts over par before there is an index.
///
/// Strokes. Published: Rules of Handicapping 3.1.
pub(crate) const MOST_WITHOUT_INDEX: i32 = 5;

/// Stroke indexes up to this one do not stand on holes that follow each other.
///
/// Stroke index. Published: Rules of Handicapping, Appendix E.
pub(crate) const LOW_INDEX: u8 = 6;

/// The back nine is clearly harder, and gets the odd stroke indexes, where it lies so many strokes more over par, scratch and
/// bogey golfer added up.
///
/// Strokes. Common practice, no source.
pub(crate) const CLEARLY_HARDER: f64 = 1.0;

/// Course Rating of a men's course of 6,400 yards without obstacles, L / 220 + 40.9: where an average score is taken to be
/// made.
///
/// Strokes. Published: Course Rating System.
pub(crate) const USUAL_RATING: f64 = 70.0;

/// By how many standard deviations the mean of the lowest 8 of 20 normals lies below the mean of all: the mean of the first
/// eight order statistics.
///
/// Number. Computed: by integration.
pub(crate) const LOWEST_EIGHT: f64 = 0.928_244;

/// Standard deviation of a golfer's score differentials in the middle of bands of the Handicap Index: below 6, 6 to 13, 13 to
/// 22, 22 to 31, above 31.
///
/// Strokes of index, strokes. Computed: from the USGA Handicap System Manual, Appendix E (published).
pub(crate) const SPREAD: [(f64, f64); 5] = [
    (3.0, 2.7),
    (9.5, 2.9),
    (17.5, 3.1),
    (26.5, 3.8),
    (36.0, 4.7),
];
