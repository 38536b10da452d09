//! The ball speed that carries a given distance.
use super::equations::Forces;
use super::fault::check;
use super::path::{fly, start};
use super::wind::Stream;
use super::{Aerodynamics, Air, Flight, FlightFault, Launch, LaunchConditions, Weather};
use crate::figures::flight::MOST_SPEED_MPH;
use crate::player::Club;
use crate::units::yards_from_metres;

/// Step for the last digits, s. A test holds the carries of a bag in steps of 5 ms to 2e-5 yards.
const FINE_STEP: f64 = 0.03;

/// A step that finds the speed to within a few thousandths of a yard, before the last digits.
const COARSE_STEP: f64 = 0.1;

/// Ball speed, mph, that carries exactly `carry` yards to level ground in still air.
///
/// By the secant method on the logarithms, as carry is nearly a power of the speed, first in coarse steps; the
/// carry that [`fly`] gives at the speed is within 2e-5 yards of the one asked for; by a law of drag with a kink, which a
/// step may straddle, within 1e-3.
///
/// # Errors
/// A field outside its range; [`FlightFault::TooFar`] when no speed up to [`MOST_SPEED_MPH`] carries so far.
pub fn solve_speed(
    carry: f64,
    conditions: LaunchConditions,
    air: Air,
    aerodynamics: Aerodynamics,
) -> Result<f64, FlightFault> {
    let longest = longest_for(carry, conditions, air, aerodynamics)?;
    let forces = Forces::new(aerodynamics, air, Stream::STILL, 0.0);
    let carried = |mph: f64, step: f64| carried(&forces, conditions, mph, step);
    let usual = usual_power(carry / longest);
    let coarse = |mph: f64| carried(mph, COARSE_STEP);
    let first = MOST_SPEED_MPH * usual;
    let near = secant(carry, first, 1.5, 1e-4 * carry, coarse)?;
    let fine = |mph: f64| carried(mph, FINE_STEP);
    if let Some((near, power)) = near
        && let Some((speed, _)) = secant(carry, near, power, 1e-5, fine)?
    {
        return Ok(speed);
    }
    let longest = fine(MOST_SPEED_MPH)?;
    find(carry, (0.0, 0.0), (MOST_SPEED_MPH, longest), 1e-5, fine)
}

/// The carry of the fastest ball that is believed, yards, if it is no less than `carry`: then some speed carries so far.
fn longest_for(
    carry: f64,
    conditions: LaunchConditions,
    air: Air,
    aerodynamics: Aerodynamics,
) -> Result<f64, FlightFault> {
    check("carry", carry, 1.0..=450.0, "1 to 450 yards")?;
    conditions.check()?;
    let forces = Forces::new(aerodynamics, air, Stream::STILL, 0.0);
    let longest = carried(&forces, conditions, MOST_SPEED_MPH, COARSE_STEP)?;
    if longest >= carry {
        return Ok(longest);
    }
    Err(FlightFault::TooFar {
        carry,
        launch_deg: conditions.launch_deg,
        spin_rpm: conditions.spin_rpm,
        most_mph: MOST_SPEED_MPH,
        longest,
    })
}

/// The carry of a ball of that speed, yards.
fn carried(
    forces: &Forces,
    conditions: LaunchConditions,
    mph: f64,
    step: f64,
) -> Result<f64, FlightFault> {
    let landed = forces.land(start(&conditions.at_speed(mph)), step, 0.0, |_| {})?;
    Ok(yards_from_metres(landed.end.at[1]))
}

/// Checks that some believable speed carries a ball so far in still standard air, without looking for it.
///
/// # Errors
/// As [`solve_speed`].
pub fn check_carry(carry: f64, conditions: LaunchConditions) -> Result<(), FlightFault> {
    longest_for(carry, conditions, Air::default(), Aerodynamics::default()).map(|_| ())
}

/// The full strike of a club that carries exactly what the club carries, in still standard air.
///
/// # Errors
/// [`FlightFault::TooFar`] when a ball launched like that does not carry so far at any believable speed.
pub fn full_strike(club: &Club) -> Result<Launch, FlightFault> {
    let conditions = LaunchConditions::of_club(club, club.carry)?;
    let air = Air::default();
    let speed = solve_speed(club.carry, conditions, air, Aerodynamics::default())?;
    Ok(conditions.at_speed(speed))
}

/// The flight that carries exactly `carry` yards to level ground in still air.
///
/// # Errors
/// As [`solve_speed`].
pub fn fly_carry(
    carry: f64,
    conditions: LaunchConditions,
    air: Air,
    aerodynamics: Aerodynamics,
) -> Result<Flight, FlightFault> {
    let speed = solve_speed(carry, conditions, air, aerodynamics)?;
    let still = Weather {
        air,
        aerodynamics,
        ..Weather::default()
    };
    fly(&conditions.at_speed(speed), &still, 0.0)
}

/// The speed between two at which the carry is the one asked for, within `close` yards. Carry grows with
/// speed, so a bracket always holds it; false position with Illinois' halving.
fn find(
    carry: f64,
    low: (f64, f64),
    high: (f64, f64),
    close: f64,
    carried: impl Fn(f64) -> Result<f64, FlightFault>,
) -> Result<f64, FlightFault> {
    let (mut a, mut below) = (low.0, low.1 - carry);
    let (mut b, mut above) = (high.0, high.1 - carry);
    let mut side = 0;
    let mut at = b;
    for _ in 0..100 {
        at = a + (b - a) * below / (below - above);
        let off = carried(at)? - carry;
        if off.abs() < close || b - a < 1e-9 {
            break;
        }
        if off < 0.0 {
            (a, below) = (at, off);
            if side == -1 {
                above *= 0.5;
            }
            side = -1;
        } else {
            (b, above) = (at, off);
            if side == 1 {
                below *= 0.5;
            }
            side = 1;
        }
    }
    Ok(at)
}

/// About the share of the greatest speed that gives a share of the greatest carry.
fn usual_power(share: f64) -> f64 {
    libm::pow(share, 0.65)
}

/// The speed from near a first one at which the carry is the one asked for, within `close` yards, and the power
/// of the speed that the carry grows with there; None if it is not found soon. Starts with a power to go by.
fn secant(
    carry: f64,
    first: f64,
    mut power: f64,
    close: f64,
    carried: impl Fn(f64) -> Result<f64, FlightFault>,
) -> Result<Option<(f64, f64)>, FlightFault> {
    let mut at = first;
    let mut got = carried(at)?;
    for _ in 0..10 {
        if (got - carry).abs() < close {
            return Ok(Some((at, power)));
        }
        // A ball blown back, or one that has not moved, says nothing.
        if !(got > 0.0) {
            return Ok(None);
        }
        let next = (at * libm::pow(carry / got, 1.0 / power)).min(MOST_SPEED_MPH);
        let there = carried(next)?;
        let found = libm::log(there / got) / libm::log(next / at);
        if found.is_finite() {
            power = found.clamp(0.3, 3.0);
        }
        (at, got) = (next, there);
    }
    Ok(None)
}
