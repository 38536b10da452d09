//! Capture by the hole: how fast a ball may arrive for how far off centre it is.
use super::fault::check;
use super::{HOLE_RADIUS, PuttFault};
use crate::figures::putting::CAPTURE as CAPTURE_M_S;
use crate::flight::BALL_RADIUS;
use crate::units::{METRES_PER_YARD, yards_from_feet, yards_from_inches};

/// True when the hole takes a ball that reaches its rim at `speed` yards a second on a path that passes
/// the centre `offset` yards to the side.
#[must_use]
pub fn captured(speed: f64, offset: f64) -> bool {
    captured_by(speed, offset, 1.0)
}

/// [`captured`] by a hole `hole_scale` times as wide as that of the Rules of Golf.
#[must_use]
#[inline]
pub(crate) fn captured_by(speed: f64, offset: f64, hole_scale: f64) -> bool {
    offset.abs() < HOLE_RADIUS * hole_scale && speed <= capture_speed(offset.abs(), hole_scale)
}

/// [`captured`] in the units of the door, with its numbers checked.
///
/// # Errors
/// A speed outside 0 to 100 feet a second, or an offset outside -100 to 100 inches.
pub fn captured_at(speed_ft_s: f64, offset_in: f64) -> Result<bool, PuttFault> {
    check(
        "speed_ft_s",
        speed_ft_s,
        0.0..=100.0,
        "0 to 100 feet a second",
    )?;
    check("offset_in", offset_in, -100.0..=100.0, "-100 to 100 inches")?;
    Ok(captured(
        yards_from_feet(speed_ft_s),
        yards_from_inches(offset_in),
    ))
}

/// Steps of the capture table: every half millimetre of offset from 0 to the rim.
const STEPS: usize = 108;
const STEP: f64 = 0.0005 / METRES_PER_YARD;

/// The fastest speed at which a hole `hole_scale` times as wide as that of the Rules takes the ball, in yards a second, for an
/// offset of 0 yards to the radius of the hole.
///
/// A ball falls while it crosses the hole, by its own height whatever the hole: the way it has for that, the width of the hole
/// less its radius, goes with the speed that is taken (Holmes 1991).
#[inline]
pub(super) fn capture_speed(offset: f64, hole_scale: f64) -> f64 {
    const BALL: f64 = BALL_RADIUS / METRES_PER_YARD;
    let way = (2.0 * HOLE_RADIUS * hole_scale - BALL) * (1.0 / (2.0 * HOLE_RADIUS - BALL));
    way * usual_capture_speed(offset / hole_scale)
}

/// The same for the hole of the Rules.
#[inline]
fn usual_capture_speed(offset: f64) -> f64 {
    let at = offset * (1.0 / STEP);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 <= at <= STEPS"
    )]
    let cell = (at as usize).min(STEPS - 1);
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let part = at - cell as f64;
    CAPTURE[cell] + part * (CAPTURE[cell + 1] - CAPTURE[cell])
}

/// The speeds, computed once from [`CAPTURE_M_S`]; its offsets all fall on the half millimetre, so this
/// is the same broken line.
static CAPTURE: [f64; STEPS + 1] = fine_table();

/// [`CAPTURE_M_S`] at every half millimetre, in yards a second.
const fn fine_table() -> [f64; STEPS + 1] {
    let mut table = [0.0; STEPS + 1];
    let mut piece = 0;
    let mut i = 0;
    while i <= STEPS {
        #[expect(clippy::cast_precision_loss, reason = "a small integer")]
        let offset = i as f64 * 0.5;
        while offset > CAPTURE_M_S[piece + 1].0 {
            piece += 1;
        }
        let (from, to) = (CAPTURE_M_S[piece], CAPTURE_M_S[piece + 1]);
        let part = (offset - from.0) / (to.0 - from.0);
        table[i] = (from.1 + part * (to.1 - from.1)) / METRES_PER_YARD;
        i += 1;
    }
    table
}
