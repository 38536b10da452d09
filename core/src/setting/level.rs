//! Runs on level ground of one kind in still air, read from a table.
use super::LandingFactors;
use crate::flight::FlightTable;
use crate::geometry::Vector;
use crate::ground::{Ball, Pace, Slope, Turf, run_out};
use crate::hole::Surface;
use std::sync::OnceLock;

/// A run: yards are told from where the ball lands, along the way it came.
pub(crate) struct LevelRun<'a> {
    known: &'a Smooth,
    /// The place in the cell.
    at: f64,
}

impl LevelRun<'_> {
    /// Where it comes to rest on turf that is nowhere another.
    #[inline]
    pub(crate) fn rest(&self, turf: &Turf) -> f64 {
        self.known.rest(self.at, turf)
    }

    /// The ground between these is all that it may touch on the way.
    #[inline]
    pub(crate) fn span(&self) -> (f64, f64) {
        let (first, last) = self.known.span;
        (f64::from(first), f64::from(last))
    }

    /// Where it touches down again after each hop.
    #[inline]
    pub(crate) fn touches(&self) -> impl Iterator<Item = f64> {
        self.known.touches.iter().map(|touch| touch.at(self.at))
    }

    /// How it rolls, or skips, on from the last of these: the way it came (1) or back (-1), and its pace.
    #[inline]
    pub(crate) fn rolls(&self) -> (f64, Pace) {
        self.known.rolls(self.at)
    }
}

/// One stroke's runs by the carry of the strike, on every kind of turf.
///
/// In still air on level ground a run depends on the carry and the turf alone. It is smooth in the carry but for the places
/// where a hop more or less is made. Of a cell of carries over which every look finds the same hops, cubics are kept of where the
/// ball touches down and of the speed at which it rolls on; in any other the ball is followed hop by hop. A cell is worked out
/// when a ball first needs it, and depends on nothing but the cell, so it does not matter who asks first.
#[derive(Clone, Debug, Default)]
pub(crate) struct LevelRuns {
    by_surface: [OnceLock<Box<[OnceLock<Cell>]>>; 12],
}

/// Cells to a full carry, and in all: a strike goes somewhat farther.
const FULL: f64 = 96.0;
const CELLS: usize = 128;

/// Looks at a cell: at its ends, at two places between them, and at others where the cubics through these are held against.
const LOOKS: [f64; 4] = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0];
const CHECKS: [f64; 4] = [1.0 / 12.0, 0.5 / 3.0, 0.5, 2.5 / 3.0];
/// Yards, and m/s, by which they may be off there, and yards that are added to the ground a ball may touch.
const CLOSE: f64 = 0.003;
const CLOSE_SPEED: f64 = 0.002;
const MARGIN: f64 = 0.1;

/// What is known of a cell of carries over which runs are smooth.
#[derive(Clone, Debug)]
struct Smooth {
    span: (f32, f32),
    touches: Box<[Cubic]>,
    /// m/s along the way the ball came.
    speed: Cubic,
    skips: bool,
}

impl Smooth {
    #[inline]
    fn rolls(&self, at: f64) -> (f64, Pace) {
        let speed = self.speed.at(at);
        let pace = Pace {
            speed: speed.abs(),
            skips: self.skips,
        };
        (1.0_f64.copysign(speed), pace)
    }

    #[inline]
    fn rest(&self, at: f64, turf: &Turf) -> f64 {
        let (way, pace) = self.rolls(at);
        self.touches.last().map_or(0.0, |touch| touch.at(at)) + way * pace.yards_to_rest(turf)
    }
}

/// What is known of a cell of carries; nothing where they are not smooth.
type Cell = Option<Smooth>;

/// A cubic in the place in a cell, lowest power first.
#[derive(Clone, Copy, Debug)]
struct Cubic([f32; 4]);

impl Cubic {
    /// Through values at [`LOOKS`], if it is no more than `close` off others at [`CHECKS`].
    fn through([a, b, c, d]: [f64; 4], checks: [f64; 4], close: f64) -> Option<Self> {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "single precision is enough"
        )]
        let cubic = Cubic(
            [
                a,
                0.5 * (-11.0 * a + 18.0 * b - 9.0 * c + 2.0 * d),
                4.5 * (2.0 * a - 5.0 * b + 4.0 * c - d),
                4.5 * (-a + 3.0 * b - 3.0 * c + d),
            ]
            .map(|c| c as f32),
        );
        let holds = |(u, value): (f64, f64)| (cubic.at(u) - value).abs() < close;
        CHECKS.into_iter().zip(checks).all(holds).then_some(cubic)
    }

    #[inline]
    fn at(&self, u: f64) -> f64 {
        let [a, b, c, d] = self.0.map(f64::from);
        a + u * (b + u * (c + u * d))
    }
}

impl LevelRuns {
    /// The run after a flight of the stroke that carries `carry` yards, of a ball whose turf is that of `surface`; None where
    /// no table tells it. Hot path.
    #[inline]
    pub(crate) fn run(
        &self,
        flight: &FlightTable,
        lands: LandingFactors,
        carry: f64,
        (surface, turf): (Surface, &Turf),
    ) -> Option<LevelRun<'_>> {
        let at = carry * (FULL / flight.full_carry());
        if !(at >= 0.0 && at < CELLS as f64) {
            return None;
        }
        // By way of 32 bits: the processor has no instruction for the whole range of 64.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "checked against the cells"
        )]
        let place = at as u32;
        let cells = self.by_surface[surface as usize]
            .get_or_init(|| std::iter::repeat_with(OnceLock::new).take(CELLS).collect());
        let cell = cells[place as usize].get_or_init(|| {
            let look = |share: f64| {
                let carry = (f64::from(place) + share) * flight.full_carry() / FULL;
                Look::at(flight, lands, carry, turf)
            };
            smooth(look, turf)
        });
        let at = at - f64::from(place);
        cell.as_ref().map(|known| LevelRun { known, at })
    }
}

/// A run that was followed hop by hop.
struct Look {
    rest: f64,
    touches: Vec<f64>,
    /// How it rolls on.
    speed: f64,
    skips: bool,
}

impl Look {
    fn at(flight: &FlightTable, lands: LandingFactors, carry: f64, turf: &Turf) -> Self {
        let track = flight.track(carry, Vector::y());
        let landing = lands.on(flight.landing(&track, 0.0));
        let run = run_out(&Ball::landing(&landing, Vector::y()), &Slope::LEVEL, turf);
        Look {
            rest: run.rest.y,
            touches: run.touches.iter().map(|at| at.y).collect(),
            speed: run.rolling.velocity.y,
            skips: run.rolling.skips,
        }
    }
}

/// What is known of a cell from looks at places in it.
fn smooth(look: impl Fn(f64) -> Look, turf: &Turf) -> Cell {
    let (looks, checks) = (LOOKS.map(&look), CHECKS.map(&look));
    let first = &looks[0];
    let all = || looks.iter().chain(&checks);
    let alike =
        |look: &Look| look.touches.len() == first.touches.len() && look.skips == first.skips;
    if !all().all(alike) {
        return None;
    }
    let cubic = |value: &dyn Fn(&Look) -> f64, close: f64| {
        let at = |looks: &[Look; 4]| looks.each_ref().map(value);
        Cubic::through(at(&looks), at(&checks), close)
    };
    let touches = (0..first.touches.len()).map(|hop| cubic(&|look| look.touches[hop], CLOSE));
    let touched = || all().flat_map(|look| look.touches.iter().chain([&look.rest]));
    let least = touched().fold(0.0_f64, |least, at| least.min(*at));
    let least = if least < 0.0 { least - MARGIN } else { 0.0 };
    let most = touched().fold(0.0_f64, |most, at| most.max(*at)) + MARGIN;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "single precision is enough"
    )]
    let span = (least as f32, most as f32);
    let known = Smooth {
        span,
        touches: touches.collect::<Option<_>>()?,
        speed: cubic(&|look| look.speed, CLOSE_SPEED)?,
        skips: first.skips,
    };
    let holds = |(u, look): (f64, &Look)| (known.rest(u, turf) - look.rest).abs() < CLOSE;
    let told = LOOKS.into_iter().chain(CHECKS).zip(all()).all(holds);
    told.then_some(known)
}
