//! Runs on level ground of one kind in still air, read from a table.
use super::LandingFactors;
use crate::flight::FlightTable;
use crate::geometry::Vector;
use crate::ground::{Ball, Slope, Turf, run_out};
use crate::hole::Surface;
use std::sync::OnceLock;

/// A run: yards from where the ball lands, along the way it came.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct LevelRun {
    /// Where it comes to rest.
    pub(crate) rest: f64,
    /// The ground between these is all that it may touch on the way.
    pub(crate) touched: (f64, f64),
}

/// One stroke's runs by the carry of the strike, on every kind of turf.
///
/// In still air on level ground a run depends on the carry and the turf alone. It is smooth in the carry but for the places
/// where a hop more or less is made. A cell of carries over which every look finds the same hops is a cubic through four
/// of them; in any other the ball is followed hop by hop. A cell is worked out when a ball first needs it, and depends on
/// nothing but the cell, so it does not matter who asks first.
#[derive(Clone, Debug, Default)]
pub(crate) struct LevelRuns {
    by_surface: [OnceLock<Box<[OnceLock<Cell>]>>; 12],
}

/// Cells to a full carry, and in all: a strike goes somewhat farther.
const FULL: f64 = 96.0;
const CELLS: usize = 128;

/// Looks at a cell: at its ends, at two places between them, and at others where the cubic through these is held against.
const LOOKS: [f64; 4] = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0];
const CHECKS: [f64; 4] = [1.0 / 12.0, 0.5 / 3.0, 0.5, 2.5 / 3.0];
/// Yards by which it may be off there, and that are added to the ground a ball may touch.
const CLOSE: f64 = 0.003;
const MARGIN: f64 = 0.1;

/// What is known of a cell of carries.
#[derive(Clone, Copy, Debug)]
enum Cell {
    /// The run is `cubic`, lowest power first, in the place in the cell.
    Smooth {
        cubic: [f32; 4],
        touched: (f32, f32),
    },
    /// It is not smooth.
    Broken,
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
    ) -> Option<LevelRun> {
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
            Cell::of(look)
        });
        let Cell::Smooth { cubic, touched } = cell else {
            return None;
        };
        let u = at - f64::from(place);
        let [a, b, c, d] = cubic.map(f64::from);
        Some(LevelRun {
            rest: a + u * (b + u * (c + u * d)),
            touched: (f64::from(touched.0), f64::from(touched.1)),
        })
    }
}

/// A run that was followed hop by hop.
struct Look {
    rest: f64,
    touched: (f64, f64),
    /// Runs of as many hops are alike.
    hops: usize,
}

impl Look {
    fn at(flight: &FlightTable, lands: LandingFactors, carry: f64, turf: &Turf) -> Self {
        let track = flight.track(carry, Vector::y());
        let landing = lands.on(flight.landing(&track, 0.0));
        let run = run_out(&Ball::landing(&landing, Vector::y()), &Slope::LEVEL, turf);
        let along = run.touches.iter().map(|at| at.y).chain([0.0, run.rest.y]);
        Look {
            rest: run.rest.y,
            touched: along.fold((0.0, 0.0), |(low, high): (f64, f64), y| {
                (low.min(y), high.max(y))
            }),
            hops: run.touches.len(),
        }
    }
}

impl Cell {
    fn of(look: impl Fn(f64) -> Look) -> Self {
        let looks = LOOKS.map(&look);
        let cubic = cubic(looks.each_ref().map(|look| look.rest));
        let told = |u: f64| cubic.iter().rev().fold(0.0, |sum, c| sum * u + c);
        let checks = CHECKS.map(|u| (u, look(u)));
        let hops = looks[0].hops;
        let alike = looks.iter().all(|look| look.hops == hops)
            && checks
                .iter()
                .all(|(u, look)| look.hops == hops && (told(*u) - look.rest).abs() < CLOSE);
        if !alike {
            return Cell::Broken;
        }
        let all = || looks.iter().chain(checks.iter().map(|(_, look)| look));
        let least = all().fold(0.0, |least: f64, look| least.min(look.touched.0));
        let least = if least < 0.0 { least - MARGIN } else { 0.0 };
        let most = all().fold(0.0, |most: f64, look| most.max(look.touched.1)) + MARGIN;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "single precision is enough"
        )]
        let single = |value: f64| value as f32;
        Cell::Smooth {
            cubic: cubic.map(single),
            touched: (single(least), single(most)),
        }
    }
}

/// The cubic, lowest power first, through values at [`LOOKS`].
fn cubic([a, b, c, d]: [f64; 4]) -> [f64; 4] {
    [
        a,
        0.5 * (-11.0 * a + 18.0 * b - 9.0 * c + 2.0 * d),
        4.5 * (2.0 * a - 5.0 * b + 4.0 * c - d),
        4.5 * (-a + 3.0 * b - 3.0 * c + d),
    ]
}
