//! One club's flight in one weather, prepared so that a stroke costs a handful of multiplications.
//!
//! A table is the full integration at a grid of strengths of strike and directions of the wind, with polynomials
//! between. The direction enters through the cosine c of the angle between aim and wind: carry,
//! height and landing are even in that angle and so smooth functions of c, drift is odd and so the sine
//! times one. Neither needs trigonometry, only the products of two unit vectors.
use super::equations::{Forces, Landed};
use super::fit::{chebyshev_roots, through};
use super::path::start;
use super::profile::{Bends, Profile, Trace};
use super::wind::{Stream, blows_to};
use super::{FlightFault, Launch, LaunchConditions, Weather, solve_speed};
use crate::geometry::Vector;
use crate::units::yards_from_metres;

/// How a ball comes down, in the frame of its aim; SI.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Landing {
    /// Speed along the aim, m/s.
    pub forward_mps: f64,
    /// Speed to the right of it, m/s.
    pub side_mps: f64,
    /// Speed downwards, m/s.
    pub down_mps: f64,
    /// Backspin, rad/s.
    pub backspin_rad_s: f64,
}

/// One stroke's flight, read from a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Track {
    /// Yards along the aim to where the ball comes down on ground as high as it was struck from.
    pub carry: f64,
    /// Yards the wind has pushed it to the right by then.
    pub drift: f64,
    /// How many times as far off its line a strike that is not straight ends as in still air at home.
    pub swerve: f64,
    /// Greatest height, yards.
    pub apex: f64,
    /// Share of the carry covered at the greatest height.
    pub apex_share: f64,
    /// How far from a parabola its parts are.
    bends: Bends,
    /// How it comes down there.
    pub landing: Landing,
}

/// Values a table holds at every place of its grid.
const LANES: usize = 13;
/// Where among them stands what is gained in carry, and in swerve.
const GAIN: usize = 0;
const SWERVE: usize = 1;
/// Number of directions of the wind in the grid.
const ACROSS: usize = 6;
/// Number of strengths of strike in the grid.
const STRENGTHS: usize = 5;

/// Ball speeds of the grid as shares of a full strike's: the weakest carries about a quarter of the full
/// carry, the strongest a quarter more.
const SPEEDS: [f64; STRENGTHS] = [0.40, 0.60, 0.82, 1.0, 1.20];

/// The apex lies between these shares of the carry: a ball blown back in its fall is told as one that falls
/// straight down.
const APEX_SHARES: (f64, f64) = (0.3, 0.98);

/// Step of the integrations a table is made of, s. Both still and windy carry are taken with it, so its error
/// all but cancels: in steps half as long a table is no closer to what its tests hold it against.
const TABLE_STEP: f64 = 0.08;

/// How far to the side of its aim, radians, the ball starts whose swerve is measured: next to nothing, as all of it is in
/// proportion.
const SWERVE_START: f64 = 0.005;

/// One club's flight in one weather.
///
/// Against full integrations, for strikes of 0.9 to 1.07 of the full speed and ground 30 feet below to 30 above: in
/// 20 mph carry holds to 0.1 yards, drift to 0.06, carry to other heights to 1, landing velocity to 1.8 m/s, height
/// on the way to 5 feet; in 10 mph to half of that; in still air height to 0.4 feet (tests hold these). In a gale
/// that stops a ball in its fall only carry and drift hold.
#[derive(Clone, Debug, PartialEq)]
pub struct FlightTable {
    /// Carry of a full strike in still air at home, yards.
    full_carry: f64,
    /// Unit vector the wind blows to; zero in still air.
    wind_to: Vector,
    /// Shares of the full carry between which the polynomials hold.
    shares: (f64, f64),
    /// `grid[strength power][wind power][lane]`; in single precision, which is worth a ten-thousandth of a
    /// yard.
    grid: [[[f32; LANES]; ACROSS]; STRENGTHS],
    /// Polynomial of the landing spin in the strength; the wind hardly changes it.
    spin: [f64; STRENGTHS],
    profile: Profile,
}

impl FlightTable {
    /// Prepares the table of a club that carries `carry` yards in still air at home.
    ///
    /// # Errors
    /// A field outside its range, or a carry no believable speed gives.
    pub fn new(
        conditions: LaunchConditions,
        carry: f64,
        weather: &Weather,
    ) -> Result<Self, FlightFault> {
        let full = solve_speed(carry, conditions, weather.home, weather.aerodynamics)?;
        let strikes = SPEEDS.map(|share| strike(conditions, full, share));
        let at_home = weather.at_home();
        let still = |air| Forces::new(weather.aerodynamics, air, Stream::STILL, 0.0);
        let (mut home, mut spins) = ([Home::default(); STRENGTHS], [0.0; STRENGTHS]);
        for (i, launch) in strikes.iter().enumerate() {
            let landed = still(weather.home).land(start(launch), TABLE_STEP, 0.0, |_| {})?;
            spins[i] = landed.end.spin;
            home[i] = Home {
                carry: carried(&landed),
                strays: if *weather == at_home {
                    None
                } else {
                    Some(strays(&at_home, launch, 1.0, &landed)?)
                },
            };
        }
        let shares = home.map(|struck| struck.carry / carry);
        let wind = weather.wind;
        let launch = conditions.at_speed(full);
        let base = Trace::of(&still(weather.air), &launch, TABLE_STEP, Profile::DEPTH)?;
        let mut table = FlightTable {
            full_carry: carry,
            wind_to: if wind.mph() > 0.0 {
                let (right, along) = blows_to(wind, 0.0);
                Vector::new(right, along)
            } else {
                Vector::zeros()
            },
            shares: (shares[0], shares[STRENGTHS - 1]),
            grid: [[[0.0; LANES]; ACROSS]; STRENGTHS],
            spin: through(shares.map(centred), spins),
            profile: Profile::of(&base),
        };
        table.fill(weather, &strikes, &base, home, shares)?;
        Ok(table)
    }

    /// Integrates the flights of the grid and lays the polynomials through them.
    fn fill(
        &mut self,
        weather: &Weather,
        strikes: &[Launch; STRENGTHS],
        base: &Trace,
        home: [Home; STRENGTHS],
        shares: [f64; STRENGTHS],
    ) -> Result<(), FlightFault> {
        let cosines = chebyshev_roots::<ACROSS>();
        let mut rows = [[[0.0; LANES]; ACROSS]; STRENGTHS];
        for (i, launch) in strikes.iter().enumerate() {
            for (j, &along) in cosines.iter().enumerate() {
                // In still air every direction is the same.
                rows[i][j] = if j > 0 && weather.wind.mph() == 0.0 {
                    rows[i][0]
                } else {
                    flown(weather, launch, along, base, home[i])?
                };
            }
        }
        let powers = shares.map(centred);
        for lane in 0..LANES {
            let by_wind = rows.map(|row| through(cosines, row.map(|values| values[lane])));
            for power in 0..ACROSS {
                let column = through(powers, by_wind.map(|c| c[power]));
                for (row, value) in self.grid.iter_mut().zip(column) {
                    row[power][lane] = single(value);
                }
            }
        }
        Ok(())
    }

    /// Unit vector in the plan that the wind blows to; zero in still air.
    #[must_use]
    pub fn wind_to(&self) -> Vector {
        self.wind_to
    }

    /// Carry of a full strike in still air at home, yards.
    #[must_use]
    pub fn full_carry(&self) -> f64 {
        self.full_carry
    }

    /// The flight of a ball struck so that it would carry `carry` yards over level ground in still air at
    /// home, aimed along the unit vector `forward`.
    ///
    /// Hot path: no trigonometry, no allocation; for more than one strike in a direction see
    /// [`FlightTable::bearing`]. A strike weaker than the grid's weakest scales down as a
    /// ball that drag hardly touches; one stronger than its strongest is read as the strongest, in
    /// proportion.
    #[must_use]
    #[inline]
    pub fn track(&self, carry: f64, forward: Vector) -> Track {
        let along = self.along(forward);
        self.read(carry, self.across(forward), |strength| {
            self.lanes(strength, along)
        })
    }

    /// Carry and swerve of [`FlightTable::track`] in still air, where every direction is the same.
    #[must_use]
    #[inline]
    pub fn flown(&self, carry: f64) -> (f64, f64) {
        let share = carry / self.full_carry;
        let (least, most) = self.shares;
        let strength = single(centred(share.clamp(least, most)));
        let fade = if share < least { share / least } else { 1.0 };
        let changed = |lane: usize| {
            let rows = self.grid.iter().rev();
            let gain = rows.fold(0.0, |sum, row| sum * strength + row[0][lane]);
            1.0 + fade * f64::from(gain)
        };
        (carry * changed(GAIN), changed(SWERVE))
    }

    /// The table in one direction, for more than one strike.
    #[must_use]
    #[inline]
    pub fn bearing(&self, forward: Vector) -> Bearing<'_> {
        let along = single(self.along(forward));
        Bearing {
            table: self,
            across: self.across(forward),
            rows: if self.is_still() {
                self.grid.map(|row| row[0])
            } else {
                self.grid.map(|row| blown(&row, along))
            },
        }
    }

    /// How much of the wind is along an aim.
    #[inline]
    fn along(&self, forward: Vector) -> f64 {
        forward.dot(&self.wind_to)
    }

    /// How much of the wind is across an aim, towards its right.
    #[inline]
    fn across(&self, forward: Vector) -> f64 {
        forward.y * self.wind_to.x - forward.x * self.wind_to.y
    }

    #[inline]
    fn is_still(&self) -> bool {
        self.wind_to.x == 0.0 && self.wind_to.y == 0.0
    }

    /// The flight of a strike from the lanes of its strength.
    #[inline]
    fn read(&self, carry: f64, across: f64, lanes: impl Fn(f64) -> [f64; LANES]) -> Track {
        let share = carry / self.full_carry;
        let (least, most) = self.shares;
        let strength = centred(share.clamp(least, most));
        let [
            gain,
            swerve,
            drift,
            apex,
            apex_share,
            forward,
            down,
            side,
            bends @ ..,
        ] = lanes(strength);
        // Below the grid what air does fades with the carry, speeds with its root.
        let (fade, speed) = if share < least {
            (share / least, (share / least).sqrt())
        } else {
            (1.0, 1.0)
        };
        let flown = carry * (1.0 + fade * gain);
        Track {
            carry: flown,
            drift: carry * fade * drift * across,
            swerve: 1.0 + fade * swerve,
            apex: carry * apex,
            apex_share: apex_share.clamp(APEX_SHARES.0, APEX_SHARES.1),
            bends: Bends {
                rise: bends[0],
                fall: bends[1],
                reach: bends[2],
                forward: bends[3],
                down: bends[4],
            },
            landing: Landing {
                forward_mps: speed * forward,
                side_mps: speed * fade * side * across,
                down_mps: speed * down,
                backspin_rad_s: speed
                    * self
                        .spin
                        .iter()
                        .rev()
                        .fold(0.0, |sum, c| sum * strength + c),
            },
        }
    }

    /// The polynomials of all lanes at once.
    #[inline]
    fn lanes(&self, strength: f64, along: f64) -> [f64; LANES] {
        let along = single(along);
        if self.is_still() {
            // In still air every direction is the same.
            struck(strength, |power| self.grid[power][0])
        } else {
            struck(strength, |power| blown(&self.grid[power], along))
        }
    }

    /// Height above where the ball was struck at a share of the carry (which may exceed 1), yards.
    #[must_use]
    #[inline]
    pub fn height(&self, track: &Track, share: f64) -> f64 {
        track.apex * self.profile.height(track.apex_share, &track.bends, share)
    }

    /// Yards the wind has pushed the ball to the right at a share of the carry: the drift grows as the square of
    /// the share, as under a steady push.
    #[must_use]
    #[inline]
    pub fn drift(&self, track: &Track, share: f64) -> f64 {
        track.drift * share * share
    }

    /// Share of the level carry at which the ball comes down to `height` yards above where it was struck
    /// (negative: below). A ball that does not rise so high comes down where it is highest.
    #[must_use]
    #[inline]
    pub fn share_to(&self, track: &Track, height: f64) -> f64 {
        self.profile
            .share(track.apex_share, &track.bends, fall(track.apex, height))
    }

    /// How the ball comes down to `height` yards above where it was struck.
    #[must_use]
    #[inline]
    pub fn landing(&self, track: &Track, height: f64) -> Landing {
        let fall = fall(track.apex, height);
        let (forward, down) = self.profile.speeds(&track.bends, fall);
        Landing {
            forward_mps: track.landing.forward_mps * forward,
            down_mps: track.landing.down_mps * down,
            ..track.landing
        }
    }
}

/// One club's flight in one direction: what the wind makes of it is worked out.
#[derive(Clone, Debug)]
pub struct Bearing<'a> {
    table: &'a FlightTable,
    across: f64,
    /// `rows[strength power][lane]`.
    rows: [[f32; LANES]; STRENGTHS],
}

impl Bearing<'_> {
    /// [`FlightTable::track`] in this direction, to the bit.
    #[must_use]
    #[inline]
    pub fn track(&self, carry: f64) -> Track {
        self.table.read(carry, self.across, |strength| {
            struck(strength, |power| self.rows[power])
        })
    }
}

/// The polynomials in the wind along, of one power of the strength.
#[inline]
fn blown(row: &[[f32; LANES]; ACROSS], along: f32) -> [f32; LANES] {
    let mut total = row[ACROSS - 1];
    for values in row[..ACROSS - 1].iter().rev() {
        for lane in 0..LANES {
            total[lane] = total[lane] * along + values[lane];
        }
    }
    total
}

/// The polynomials in the strength.
#[inline]
fn struck(strength: f64, row: impl Fn(usize) -> [f32; LANES]) -> [f64; LANES] {
    let strength = single(strength);
    let mut total = [0.0; LANES];
    for power in (0..STRENGTHS).rev() {
        let row = row(power);
        for lane in 0..LANES {
            total[lane] = total[lane] * strength + row[lane];
        }
    }
    total.map(f64::from)
}

#[inline]
#[expect(
    clippy::cast_possible_truncation,
    reason = "single precision is enough"
)]
fn single(value: f64) -> f32 {
    value as f32
}

/// How far a ball has fallen from its apex at a height, as the root of the share of the apex: 0 at the
/// apex, 1 level with where it was struck.
#[inline]
fn fall(apex: f64, height: f64) -> f64 {
    (1.0 - height / apex.max(1e-9)).max(0.0).sqrt()
}

/// The variable of the polynomials in the strength of the strike, about -1 to 1.
#[inline]
fn centred(share: f64) -> f64 {
    (share - 0.75) * 2.0
}

/// A strike at a share of the full speed: the same launch, spin in proportion to speed.
fn strike(conditions: LaunchConditions, full: f64, share: f64) -> Launch {
    Launch {
        spin_rpm: conditions.spin_rpm * share,
        ..conditions.at_speed(full * share)
    }
}

fn carried(landed: &Landed) -> f64 {
    yards_from_metres(landed.end.at[1])
}

/// A strike in still air at home.
#[derive(Clone, Copy, Default)]
struct Home {
    /// Yards.
    carry: f64,
    /// How far it [`strays`]; None where the table is that of home.
    strays: Option<f64>,
}

/// The values of all lanes for one flight, per yard of still carry where they are lengths.
fn flown(
    weather: &Weather,
    launch: &Launch,
    along: f64,
    base: &Trace,
    home: Home,
) -> Result<[f64; LANES], FlightFault> {
    let across = (1.0 - along * along).sqrt();
    let stream = Stream::towards(weather.wind.mph(), weather.profile, across, along);
    let forces = Forces::new(weather.aerodynamics, weather.air, stream, 0.0);
    let trace = Trace::of(&forces, launch, TABLE_STEP, Profile::BEND_DEPTH)?;
    let bends = trace.bends(base);
    let landed = &trace.level;
    let (carry, still) = (carried(landed), home.carry);
    let swerve = match home.strays {
        None => 1.0,
        Some(home) => strays(weather, launch, along, landed)? / home,
    };
    let [x, y, z] = landed.end.velocity;
    Ok([
        carry / still - 1.0,
        swerve - 1.0,
        yards_from_metres(landed.end.at[0]) / (still * across),
        yards_from_metres(landed.apex.at[2]) / still,
        (landed.apex.at[1] / landed.end.at[1]).clamp(APEX_SHARES.0, APEX_SHARES.1),
        y,
        -z,
        x / across,
        bends.rise,
        bends.fall,
        bends.reach,
        bends.forward,
        bends.down,
    ])
}

/// How far beyond a straight one a ball ends to the right that was struck a little to the right of its aim, m.
///
/// The face that a ball is struck with points aside of the way the club goes: it starts towards where the face points and its
/// spin axis tilts so that the lift stays in the plane of both (the D-plane: Jorgensen 1994, The Physics of Golf; from memory).
fn strays(
    weather: &Weather,
    launch: &Launch,
    along: f64,
    straight: &Landed,
) -> Result<f64, FlightFault> {
    let (sin, cos) = libm::sincos(SWERVE_START);
    let tilt = libm::atan(sin / libm::tan(launch.launch_deg.to_radians()));
    // In the frame of its start the ball flies straight but for the tilt, and it is the wind that is turned.
    let across = (1.0 - along * along).sqrt();
    let (right, along) = (across * cos - along * sin, across * sin + along * cos);
    let stream = Stream::towards(weather.wind.mph(), weather.profile, right, along);
    let forces = Forces::new(weather.aerodynamics, weather.air, stream, tilt.to_degrees());
    let [right, ahead, _] = forces.land(start(launch), TABLE_STEP, 0.0, |_| {})?.end.at;
    Ok(right * cos + ahead * sin - straight.end.at[0])
}
