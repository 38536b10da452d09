//! The conversions between units, each written once.
//!
//! Plan distances are yards inside the library; heights, putts and proximities are feet at the door.

/// Metres in one yard (exact, international yard of 1959).
pub const METRES_PER_YARD: f64 = 0.9144;
/// Feet in one yard (exact).
pub const FEET_PER_YARD: f64 = 3.0;
/// Inches in one yard (exact).
pub const INCHES_PER_YARD: f64 = 36.0;

/// Metres to yards.
#[must_use]
pub fn yards_from_metres(metres: f64) -> f64 {
    metres / METRES_PER_YARD
}

/// Yards to metres.
#[must_use]
pub fn metres_from_yards(yards: f64) -> f64 {
    yards * METRES_PER_YARD
}

/// Feet to yards.
#[must_use]
pub fn yards_from_feet(feet: f64) -> f64 {
    feet / FEET_PER_YARD
}

/// Yards to feet.
#[must_use]
pub fn feet_from_yards(yards: f64) -> f64 {
    yards * FEET_PER_YARD
}

/// Inches to yards.
#[must_use]
pub fn yards_from_inches(inches: f64) -> f64 {
    inches / INCHES_PER_YARD
}
