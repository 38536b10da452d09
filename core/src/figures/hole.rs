//! Holes: usual sizes of what a sketch or a map does not tell, and greens as they are built.

/// Green speed where none is told: most readings were 7 to 12 in 2003 (United States Golf Association Green Section).
///
/// Feet on the Stimpmeter. Common practice, no source.
pub const GREEN_SPEED_FT: f64 = 9.0;

/// Width of a fairway: it "keeps about two thirds of weaker players in play".
///
/// Yards. Published: a golf architect's figure.
pub const FAIRWAY_WIDTH: f64 = 35.0;

/// From how far off the tee a fairway begins, and of a short hole from which part of its length.
///
/// Yards, share. Common practice, no source.
pub(crate) const FAIRWAY_FROM: (f64, f64) = (90.0, 0.35);

/// How far short of the green of a par 3 its apron begins.
///
/// Yards. Common practice, no source.
pub(crate) const APRON_LENGTH: f64 = 25.0;

/// Over how much before the green a fairway narrows, par 3s excepted, and how wide it is there as a part of the green's width.
/// With it a golfer who scores 90 plays 7.4 strokes a round from rough within 60 yards and 3.5 from fairway, where 7.2 and 3.5 were
/// counted; from a fairway that stays wide, as many from each (6,400 yards of holes without a hazard).
///
/// Yards, share. Fitted: strokes near the green by lie (Broadie, a column, published).
pub(crate) const NARROWS: (f64, f64) = (40.0, 0.4);

/// Depth and width of a green: 5150 square feet, 5000 to 6000 being typical.
///
/// Yards. Common practice, no source.
pub(crate) const GREEN: (f64, f64) = (28.0, 26.0);

/// Width of the round green on which a player is explained: 490 square yards, where 5000 square feet and more are usual.
///
/// Yards. Common practice, no source.
pub const GREEN_ACROSS: f64 = 25.0;

/// Width of the first cut round a fairway.
///
/// Yards. Common practice, no source.
pub(crate) const FIRST_CUT: f64 = 4.0;

/// Width of the fringe round a green.
///
/// Yards. Common practice, no source.
pub(crate) const FRINGE: f64 = 1.5;

/// From the line of play to out of bounds.
///
/// Yards. Common practice, no source.
pub(crate) const OUT_OF_BOUNDS: f64 = 35.0;

/// Length and width of a bunker.
///
/// Yards. Common practice, no source.
pub(crate) const BUNKER: (f64, f64) = (12.0, 7.0);

/// Length and width of a pond.
///
/// Yards. Common practice, no source.
pub(crate) const WATER: (f64, f64) = (40.0, 25.0);

/// Length and width of a stand of trees.
///
/// Yards. Common practice, no source.
pub(crate) const STAND: (f64, f64) = (60.0, 20.0);

/// Width of a watercourse on a map.
///
/// Yards. Common practice, no source.
pub(crate) const STREAM: f64 = 4.0;

/// Width of the crown of a tree, or of a row of trees, on a map.
///
/// Yards. Common practice, no source.
pub(crate) const CROWN: f64 = 7.0;

/// Height of a building on a map that tells neither it nor its levels.
///
/// Feet. Common practice, no source.
pub(crate) const BUILDING_FT: f64 = 20.0;

/// Height of one of its levels.
///
/// Feet. Common practice, no source.
pub(crate) const LEVEL_FT: f64 = 10.0;

/// Height and width of a wall, fence or hedge on a map.
///
/// Feet, yards. Common practice, no source.
pub(crate) const BARRIER: (f64, f64) = (5.0, 1.5);

/// Walls, fences, hedges and roads that run past a hole for less than this are no boundary of it.
///
/// Yards. Common practice, no source.
pub(crate) const LEAST_BOUND: f64 = 100.0;

/// What lies farther from the line of play than this is no caution of a hole: about one tee shot in a hundred of the wildest
/// golfers ends that far off line.
///
/// Yards. Computed: normal errors of direction of 11 degrees over 200 yards, the spread of the wildest who score 100 (Broadie,
/// Every Shot Counts, chapter 6).
pub(crate) const CAUTION_REACH: f64 = 100.0;

/// How close to the tee the line of play begins, and to the green it ends.
///
/// Yards. Chosen, no source.
pub(crate) const LINE_END: f64 = 30.0;

/// Holes are seldom cut where a green is steeper than 3 to 5 %: a steeper one is warned of.
///
/// Share. Common practice, no source.
pub(crate) const STEEP_GREEN: f64 = 0.05;

/// The heights of a survey that tells greens are no farther apart than this: a metre, and a little for rounding.
///
/// Yards. Common practice, no source.
pub(crate) const SURVEY_SPACING: f64 = 1.1;

/// And they are told in steps no larger than this: rounding to centimetres (0.033 ft) puts slopes over a yard off by 0.1 %.
///
/// Feet. Common practice, no source.
pub(crate) const SURVEY_STEP_FT: f64 = 0.05;

/// The least width of the rim over which a green that is laid into the ground meets it.
///
/// Yards. Common practice, no source.
pub(crate) const RIM: f64 = 8.0;

/// The rim is so wide that it is no steeper than this.
///
/// Share. Common practice, no source.
pub(crate) const RIM_SLOPE: f64 = 0.25;
