//! Where a ball lay that was told by its way to the pin and to the line of play.
use super::fault::ReviewFault;
use super::read::{WrittenPlace, WrittenStroke};
use crate::geometry::Point;
use crate::hole::Hole;
use crate::player::Lie;
use crate::situation::Situation;

/// A tee shot is taken to be from the tee if its way to the pin is told within so many yards.
const TEE: f64 = 40.0;
/// How far behind the tee a ball may lie, yards.
const BEHIND: f64 = 60.0;

/// The situation of a stroke that was written down.
pub(super) fn situation(stroke: &WrittenStroke, hole: &Hole) -> Result<Situation, ReviewFault> {
    let lie = stroke.lie;
    let refused = |message: String| ReviewFault::Place {
        row: stroke.row,
        message,
    };
    let at = match stroke.at {
        WrittenPlace::At(at) => {
            let far = (at - hole.pin()).norm();
            if far > 1_000.0 {
                return Err(refused(format!(
                    "the place is {far:.0} yards from the pin; it must be on the hole, at most 1000"
                )));
            }
            at
        }
        WrittenPlace::From { to_pin, .. } if lie == Lie::Tee => {
            let own = (hole.tee() - hole.pin()).norm();
            if (own - to_pin).abs() > TEE {
                return Err(refused(format!(
                    "to_pin is {to_pin:.0} from the tee, which lies {own:.0} yards from the pin; it must be within {TEE} of that"
                )));
            }
            hole.tee()
        }
        WrittenPlace::From {
            to_pin,
            right,
            long,
        } => {
            let flag = hole.line().station(hole.pin()).right;
            let aside = right.map_or(0.0, |right| (right - flag).abs());
            if aside > to_pin {
                let to = if lie == Lie::Green {
                    format!("{:.0} feet", 3.0 * to_pin)
                } else {
                    format!("{to_pin:.0} yards")
                };
                return Err(refused(format!(
                    "side puts the ball {aside:.0} yards aside of the flag; it must be no more than the way to the pin, {to}"
                )));
            }
            let place = |right: f64| found(hole, to_pin, right, long);
            let at = match right {
                Some(right) => place(right),
                None if lie == Lie::Green => place(flag),
                // The flag may be farther from the line than the ball is from the flag.
                None => place(0.0).or_else(|| place(flag)),
            };
            at.ok_or_else(|| {
                refused(format!(
                    "to_pin is {to_pin:.0}; no place {:.0} yards from the line of play is that far from the pin",
                    right.unwrap_or(0.0).abs()
                ))
            })?
        }
    };
    Ok(Situation { at, lie })
}

/// The place so far from the pin and from the line of play: the one nearest the green along the line, before the flag or beyond.
fn found(hole: &Hole, to_pin: f64, right: f64, long: bool) -> Option<Point> {
    /// Yards; a line of play does not turn back on itself within so few.
    const STEP: f64 = 1.0;
    let line = hole.line();
    let at = |along: f64| line.at(along, right);
    let far = |along: f64| (at(along) - hole.pin()).norm() - to_pin;
    let flag = line.station(hole.pin()).along;
    let (step, end) = if long {
        (STEP, line.length() + to_pin + STEP)
    } else {
        (-STEP, -BEHIND)
    };
    // Beside the flag the ball is nearest; where even that is too far it lies beside the flag.
    let mut near = flag;
    if far(near) >= 0.0 {
        return (far(near) < STEP).then(|| at(near));
    }
    while far(near + step) < 0.0 {
        near += step;
        if (near - end) * step > 0.0 {
            return None;
        }
    }
    let mut beyond = near + step;
    for _ in 0..40 {
        let middle = 0.5 * (near + beyond);
        if far(middle) < 0.0 {
            near = middle;
        } else {
            beyond = middle;
        }
    }
    Some(at(near))
}
