//! The ball in the air: drag, lift, spin, air and wind.
//!
//! Drag and lift are functions of the spin ratio S, the speed of the ball's skin over its speed through the air.

/// Drag by `penner-2001`: C_D = a + b S. Meant for drives.
///
/// Numbers, a and b. From memory: Penner 2001, Am. J. Phys. 69:563, after Bearman & Harvey 1976.
pub(crate) const PENNER_DRAG: (f64, f64) = (0.171, 0.62);

/// Lift by `penner-2001`: C_L = a + b S.
///
/// Numbers, a and b. From memory: Penner 2001, Am. J. Phys. 69:563, after Bearman & Harvey 1976.
pub(crate) const PENNER_LIFT: (f64, f64) = (0.083, 0.885);

/// Spin ratio below which the lift of `penner-2001` is brought linearly to nothing, far outside what was measured: without
/// it a law that is linear in S would lift a ball without spin.
///
/// Number. Chosen, no source.
pub(crate) const LEAST_SPIN_RATIO: f64 = 0.02;

/// Drag by `smits-smith-1994`: C_D = a + b S + c sin(pi (Re - d) / e), with the Reynolds number Re.
///
/// Numbers, a to e. From memory: Smits & Smith 1994, Science and Golf II.
pub(crate) const SMITS_SMITH_DRAG: [f64; 5] = [0.24, 0.18, 0.06, 90_000.0, 200_000.0];

/// Lift by `smits-smith-1994`: C_L = a S^b.
///
/// Numbers, a and b. From memory: Smits & Smith 1994, Science and Golf II.
pub(crate) const SMITS_SMITH_LIFT: (f64, f64) = (0.54, 0.4);

/// Drag by `smooth`, this project's own law: C_D = a + b S / (1 + c S).
///
/// Numbers, a to c. Fitted: commonly quoted averages of tour professionals' launches, carries and heights (from memory).
pub(crate) const SMOOTH_DRAG: [f64; 3] = [0.167, 0.816, 1.739];

/// Lift by `smooth`: C_L = a (1 - exp(-S / b)).
///
/// Numbers, a and b. Fitted: commonly quoted averages of tour professionals' launches, carries and heights (from memory).
pub(crate) const SMOOTH_LIFT: (f64, f64) = (0.414, 0.2016);

/// How fast spin dies away: d(omega)/dt = -rate * speed * omega / radius. The form quoted from the source in golf's units, a
/// loss of 0.0004 * mph * rpm a second (published extract), agrees within 5 %.
///
/// Number. From memory: Smits & Smith 1994, Science and Golf II.
pub(crate) const SPIN_DECAY: f64 = 2.0e-5;

/// The fastest ball that is believed. The Overall Distance Standard tests at 183 mph (published); the hardest hitters reach
/// some 10 % more (from memory), the rest is margin.
///
/// Miles an hour. Chosen, no source.
pub const MOST_SPEED_MPH: f64 = 230.0;

/// Density of air at sea level.
///
/// Kilograms a cubic metre. From memory: standard atmosphere.
pub(crate) const AIR_DENSITY: f64 = 1.225;

/// Temperature at which water freezes.
///
/// Kelvin. Exact: by convention.
pub(crate) const FREEZING: f64 = 273.15;

/// Temperature at sea level: 15 degrees C.
///
/// Kelvin. From memory: standard atmosphere.
pub(crate) const AIR_TEMPERATURE: f64 = 15.0 + FREEZING;

/// The same as a golfer tells it: the temperature of a day that is not told.
///
/// Degrees Fahrenheit. From memory: standard atmosphere.
pub(crate) const AIR_FAHRENHEIT: f64 = 59.0;

/// By what share the temperature falls with every metre of height.
///
/// Share a metre. From memory: standard atmosphere.
pub(crate) const LAPSE: f64 = 2.255_77e-5;

/// The power of the share of temperature that is left with which the density of air falls.
///
/// Number. From memory: standard atmosphere.
pub(crate) const DENSITY_POWER: f64 = 4.2559;

/// The same of the pressure.
///
/// Number. From memory: standard atmosphere.
pub(crate) const PRESSURE_POWER: f64 = 5.2559;

/// Viscosity of air at 15 to 20 degrees C. It enters through the Reynolds number alone, and only one of the laws reads that.
///
/// Pascal seconds. From memory: textbooks.
pub(crate) const VISCOSITY: f64 = 1.81e-5;

/// Height at which wind is measured.
///
/// Metres. Exact: by convention of meteorology.
pub(crate) const WIND_HEIGHT: f64 = 10.0;

/// Roughness length of open mown grass, 0.01 to 0.05.
///
/// Metres. From memory: wind-engineering handbooks.
pub(crate) const ROUGHNESS: f64 = 0.03;
