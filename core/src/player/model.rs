//! A golfer of some level, as the source of clubs.
use super::club::{Club, ClubParts};
use super::fault::{PlayerFault, check};
use super::figures::{Anchors, LevelFigures};
use super::lie_effect::Effect;
use super::misses::{Mishits, Misses};
use super::reference::{Reference, TEE_RUN};

/// Run per yard of carry of a club that carries next to nothing. Common practice, no source.
const LEAST_RUN: f64 = 0.02;

/// What is left of a yard more carry where the ball ends: a solid strike that carries farther than usual comes down steeper
/// and runs less. The ground decides how much; with this the published areas hold two thirds of the shots that are
/// played (`docs/calibration.md`).
const CARRIED_THROUGH: f64 = 0.94;

/// How fast length levels off with handicap, strokes. With the two reference golfers it gives mean
/// drives of 240, 223, 208 and 190 yards at handicaps of 3, 9, 16 and 26; measured were 240, 220, 204 and 187
/// for "5 or less", 6-12, 13-20 and 21+ (UK men, R&A/USGA distance report 2018, published).
const LEVELLING: f64 = 30.0;

/// Mean tee shot of the professional, yards: a little longer than the 280 published for the tour of 2003 to 2010
/// (Broadie 2008).
const PROFESSIONAL_TEE: f64 = 285.0;

/// Where a golfer's level lies between the scratch (0) and the bogey golfer (1), and beyond.
#[derive(Clone, Copy, Debug)]
struct Place {
    /// In length: it levels off soonest.
    length: f64,
    /// In how closely shots of a length lie, next to the reference golfers of the same table.
    area: f64,
    /// In how well the ball is struck, and around and on the green: by handicap alone, read along the men's.
    touch: f64,
}

/// A golfer of some level.
#[derive(Clone, Copy, Debug)]
pub(super) struct Model {
    reference: Reference,
    place: Place,
    /// Lengths and areas are this many times those of the level.
    stretch: f64,
    /// How far solid strikes fall short of what was meant, as a share of it.
    pub(super) shortfall: f64,
    /// How many times as much as a scratch golfer the player feels a bad lie.
    pub(super) bad_lie: f64,
    /// The golfer's own misses.
    misses: Misses,
    /// Those of the scratch and the bogey golfer, by which their areas are read.
    pair: [Misses; 2],
}

impl Model {
    /// The golfer of a handicap under some figures.
    pub(super) fn at(
        figures: &LevelFigures,
        reference: Reference,
        handicap: f64,
    ) -> Result<Self, PlayerFault> {
        check("", "handicap", handicap, 0.0..=54.0, "0 to 54")?;
        let place = Place {
            length: reference.level(handicap, LEVELLING),
            area: reference.level(handicap, figures.levelling),
            touch: Reference::Men.level(handicap, figures.levelling),
        };
        Ok(Self::new(figures, reference, place, 1.0, Anchors::at))
    }

    /// The professional under some figures.
    pub(super) fn professional(figures: &LevelFigures) -> Self {
        let place = Place {
            length: 0.0,
            area: figures.professional_area,
            touch: 0.0,
        };
        let stretch = PROFESSIONAL_TEE / Reference::Men.tables().tee.0;
        let own = |anchors: &Anchors, _| anchors.professional;
        Self::new(figures, Reference::Men, place, stretch, own)
    }

    fn new(
        figures: &LevelFigures,
        reference: Reference,
        place: Place,
        stretch: f64,
        at: impl Fn(&Anchors, f64) -> f64,
    ) -> Self {
        let shares = (
            at(&figures.duffs, place.touch),
            at(&figures.wilds, place.touch),
        );
        let side = at(&figures.wild_side, place.length);
        let tee = stretch * between(reference.tables().tee, place.length);
        Model {
            reference,
            place,
            stretch,
            shortfall: at(&figures.shortfall, place.length),
            bad_lie: at(&figures.bad_lie, place.length),
            misses: Misses::new(shares, figures.wild_long, side, tee),
            pair: [0.0, 1.0].map(|level| Misses::of_reference(figures, reference, level)),
        }
    }

    /// Where the golfer lies between the scratch (0) and the bogey golfer (1) around and on the green.
    pub(super) fn touch(&self) -> f64 {
        self.place.touch
    }

    /// Carry of a solid tee shot, yards.
    pub(super) fn driver_carry(&self) -> f64 {
        self.misses.driver
    }

    /// Mean length of the longest shot off the fairway over all strikes, yards.
    pub(super) fn second_length(&self) -> f64 {
        self.stretch * between(self.reference.tables().second, self.place.length)
    }

    /// Mean length over all strikes of a club that carries `carry` yards, under what a lie does to its mishits.
    pub(super) fn mean_length(&self, carry: f64, effect: Effect) -> f64 {
        let Mishits { duff, wild, .. } = self.misses.of(carry);
        let missed = effect.mishit_share(duff + wild);
        let scale = missed / (duff + wild);
        let solid = (1.0 - missed) * (1.0 + self.run(carry));
        carry * (solid + self.misses.length_missed(scale * duff, scale * wild))
    }

    /// Run per yard of carry: the driver's runs [`TEE_RUN`] yards, and it falls with the cube of the
    /// carry, as clubs grow loftier. Common practice, no source.
    fn run(&self, carry: f64) -> f64 {
        let length = (carry / self.misses.driver).min(1.0);
        LEAST_RUN + (TEE_RUN / self.misses.driver - LEAST_RUN) * length * length * length
    }

    /// The club that carries `carry` yards.
    pub(super) fn club(&self, name: &str, carry: f64) -> Result<Club, PlayerFault> {
        let run = self.run(carry);
        let (side, depth) = self.solid_spread(carry, carry * (1.0 + run));
        let mishits = self.misses.of(carry);
        Club::new(ClubParts {
            carry_sd: (depth / CARRIED_THROUGH).min(0.5 * carry),
            lateral_sd: side.min(0.5 * carry),
            mishit_share: mishits.duff + mishits.wild,
            mishit_shape: mishits.shape,
            run,
            ..ClubParts::exact(name, carry)
        })
    }

    /// Standard deviations to the side and in depth of solid shots of a length, yards: in equal proportions through
    /// those of the scratch and the bogey golfer, two thirds of all of whose shots end in the published areas.
    fn solid_spread(&self, carry: f64, total: f64) -> (f64, f64) {
        let (carry, total) = (carry / self.stretch, total / self.stretch);
        let (scratch, bogey) = self.reference.tables().areas(total);
        let a = self.pair[0].solid_spread(scratch, carry, total);
        let b = self.pair[1].solid_spread(bogey, carry, total);
        let along = |a: f64, b: f64| self.stretch * a * libm::pow(b / a, self.place.area);
        (along(a.0, b.0), along(a.1, b.1))
    }
}

/// A figure that moves in equal steps from the scratch (0) to the bogey golfer (1).
fn between((scratch, bogey): (f64, f64), level: f64) -> f64 {
    scratch + (bogey - scratch) * level
}
