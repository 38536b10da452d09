//! How golfers choose: what they try, what they are wary of, and how they reckon.

/// A club is swung for at least this much of its full distance; for less, the stroke is a pitch.
///
/// Share. Common practice, no source.
pub(crate) const LEAST_SWING: f64 = 0.75;

/// A club is enough for a carry of this many times its full one: nobody takes a longer one for the last yards.
///
/// Factor. Common practice, no source.
pub(crate) const ENOUGH: f64 = 1.025;

/// A pin that is no farther than this many times the longest stroke is played at, though it is not reached.
///
/// Factor. Common practice, no source.
pub(crate) const NEARLY: f64 = 1.1;

/// The longest putt at the hole from the fringe; from farther off the ball is pitched.
///
/// Yards. Common practice, no source.
pub(crate) const LONGEST_FRINGE_PUTT: f64 = 30.0;

/// Within this distance of the hole even those putt from the fringe who would rather chip.
///
/// Yards. Common practice, no source.
pub(crate) const EVERYBODY_PUTTS: f64 = 15.0;

/// The longest chip, and the longest putt from off the fringe: from farther off a pitch takes no more strokes, for handicaps of
/// 0 to 36 on a plain green. From rough chip and pitch are close.
///
/// Yards. Computed: with these players, as `around` ranks the strokes; no outside source.
pub(crate) const LONGEST_CHIP: f64 = 20.0;

/// Within this distance of the pin it is played at.
///
/// Yards. Common practice, no source.
pub(crate) const AT_THE_PIN: f64 = 60.0;

/// From farther off than a chip it is played at a place on the way from the pin inward to the middle of the green: about what
/// solving chooses for pins near an edge.
///
/// Share of that way. Common practice, no source.
pub(crate) const INWARD: f64 = 0.35;

/// A target closer to the middle of the green than this is one on the green.
///
/// Yards. Chosen, no source.
pub(crate) const AT_THE_GREEN: f64 = 25.0;

/// A landing place closer to the ball than this is not worth a stroke of its own: the ball is as good as there.
///
/// Yards. Chosen, no source.
pub(crate) const OVERTAKEN: f64 = 20.0;

/// Distances worth leaving: a full wedge or short iron.
///
/// Yards. Common practice, no source.
pub(crate) const LAY_UPS: [f64; 2] = [100.0, 70.0];

/// Clubs closer together than this off the tee are not worth telling apart.
///
/// Yards. Chosen, no source.
pub(crate) const CLUBS_APART: f64 = 10.0;

/// Places on the green closer together than this are one to a golfer.
///
/// Yards. Chosen, no source.
pub(crate) const ONE_PLACE: f64 = 2.0;

/// Charged for a ball in trouble on top of what it costs: what makes the strategy `steady` cautious.
///
/// Strokes. Common practice, no source.
pub(crate) const CAUTION: f64 = 0.1;

/// The same where an aim for a plan is proposed.
///
/// Strokes. Chosen, no source.
pub(crate) const CAUTION_OF_PROPOSALS: f64 = 0.5;

/// The same on the way out of the trees, of a ball that trees stop or that ends in other trouble.
///
/// Strokes. Common practice, no source.
pub(crate) const CAUTION_UNDER_TREES: f64 = 1.0;

/// The same of a finish in a penalty area or out of bounds, to keep well away from.
///
/// Strokes. Common practice, no source.
pub(crate) const CAUTION_OF_WATER: f64 = 2.0;

/// How far aside, and how far short or long, a stroke out of the trees may finish.
///
/// Shares of its length. Common practice, no source.
pub(crate) const ASTRAY_UNDER_TREES: (f64, f64) = (0.12, 0.15);

/// Lost where trees stop the next stroke for certain: most of a stroke, to get around them. A professional loses 0.7 to 0.9 by
/// recoveries.
///
/// Strokes. From memory: Broadie.
pub(crate) const BLOCKED: f64 = 0.8;

/// Where the pin is out of reach the next stroke is reckoned to go on this far.
///
/// Share of the longest club's way. Common practice, no source.
pub(crate) const AHEAD: f64 = 0.8;

/// Under trees a stroke goes into getting out, so far on.
///
/// Yards. Common practice, no source.
pub(crate) const WAY_OUT: f64 = 50.0;

/// The same of a short way: no less than this of it is left.
///
/// Share. Common practice, no source.
pub(crate) const LEFT_AFTER_WAY_OUT: f64 = 0.5;

/// How often it gets to mown ground, else to rough.
///
/// Chance. Common practice, no source.
pub(crate) const OUT_ON_FAIRWAY: f64 = 0.6;

/// First cut is reckoned as so much fairway and so much rough.
///
/// Shares. Chosen, no source.
pub(crate) const FIRST_CUT: (f64, f64) = (0.7, 0.3);

/// Of the open ground on which strokes from a distance are reckoned: half the width of the fairway.
///
/// Yards. Common practice, no source.
pub(crate) const HALF_FAIRWAY: f64 = 17.0;

/// Of the same ground: how far the green reaches from its middle.
///
/// Yards. Common practice, no source.
pub(crate) const HALF_GREEN: f64 = 13.0;

/// Of the same ground: how far the mown ground around the green reaches from its middle.
///
/// Yards. Common practice, no source.
pub(crate) const HALF_APRON: f64 = 16.0;

/// A stroke is not tried that trees let through less often than this: they are seen from the ball.
///
/// Chance. Common practice, no source.
pub(crate) const SEEN_OPEN: f64 = 2.0 / 3.0;

/// Short of water and out of bounds that lie across the way a stroke is meant to stop so far.
///
/// Yards. Common practice, no source.
pub(crate) const SHORT_OF_WATER: f64 = 12.0;

/// Where an ordinary stroke would come down in water on its way, one is played that carries it by so much.
///
/// Yards. Common practice, no source.
pub(crate) const CLEAR_OF_WATER: f64 = 8.0;
