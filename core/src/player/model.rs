//! A golfer of some level, as the source of clubs.
use super::beyond::Beyond;
use super::club::{Club, ClubParts, MOST_MISHITS, MishitShape};
use super::fault::{PlayerFault, check};
use super::lie_effect::Effect;
use super::reference::Reference;
use crate::figures::level::{
    Anchors, LEAST_RUN, LENGTH_LEVELLING, LESS_DEEP, LevelFigures, MIDDLING, PROFESSIONAL_TEE,
    TEE_RUN,
};
use crate::figures::strike::MISHIT;

/// A golfer of some level.
#[derive(Clone, Copy, Debug)]
pub(super) struct Model {
    reference: Reference,
    /// Where the golfer lies between the scratch (0) and the bogey golfer (1), and beyond, in length: it levels off soonest.
    length: f64,
    /// The same in how well the ball is struck, and around and on the green: by handicap alone, read along the men's.
    touch: f64,
    /// Lengths are this many times those of the level.
    stretch: f64,
    /// Standard deviations of flush strikes: of the direction with a short club, degrees, and of the carry with a middling
    /// club as a share of it.
    direction_deg: f64,
    depth: f64,
    direction_long: f64,
    duffs: f64,
    wilds: f64,
    wild_long: f64,
    shape: MishitShape,
    /// Carry of a flush tee shot, yards.
    driver: f64,
    /// The habit of too little club.
    pub(super) too_little_club: f64,
    /// How many times as much as a scratch golfer the player feels a bad lie.
    pub(super) bad_lie: f64,
}

/// The mean of all strikes, in shares of a flush one's: of its carry, of its run, and the run that misses have, as a share of
/// its carry.
struct MeanStrike {
    carry: f64,
    of_run: f64,
    run: f64,
}

impl Model {
    /// The golfer of a handicap under some figures.
    pub(super) fn at(
        figures: &LevelFigures,
        reference: Reference,
        handicap: f64,
    ) -> Result<Self, PlayerFault> {
        check("", "handicap", handicap, 0.0..=54.0, "0 to 54")?;
        let length = reference.level(handicap, LENGTH_LEVELLING);
        let touch = Reference::Men.level(handicap, figures.levelling);
        // Spreads move in equal proportions, read along the golfer's own reference.
        let area = reference.level(handicap, figures.levelling);
        let spread = |a: &Anchors| a.scratch * libm::pow(a.bogey / a.scratch, area);
        let figure = |a: &Anchors| between((a.scratch, a.bogey), touch);
        Ok(Self::new(
            figures,
            reference,
            (length, touch, 1.0),
            spread,
            figure,
        ))
    }

    /// The professional under some figures.
    pub(super) fn professional(figures: &LevelFigures) -> Self {
        let stretch = PROFESSIONAL_TEE / Reference::Men.tables().tee.0;
        let own = |anchors: &Anchors| anchors.professional;
        Self::new(figures, Reference::Men, (0.0, 0.0, stretch), own, own)
    }

    fn new(
        figures: &LevelFigures,
        reference: Reference,
        (length, touch, stretch): (f64, f64, f64),
        spread: impl Fn(&Anchors) -> f64,
        figure: impl Fn(&Anchors) -> f64,
    ) -> Self {
        let tables = reference.tables();
        let mut model = Model {
            reference,
            length,
            touch,
            stretch,
            direction_deg: tables.wide * spread(&figures.direction_deg),
            depth: tables.wide * spread(&figures.depth),
            direction_long: figures.direction_long,
            duffs: figure(&figures.duffs),
            wilds: figure(&figures.wilds),
            wild_long: figures.wild_long,
            shape: MishitShape {
                wild_side: figures.wild_side,
                ..MishitShape::default()
            },
            driver: 1.0,
            too_little_club: figure(&figures.too_little_club),
            bad_lie: figure(&figures.bad_lie),
        };
        let tee = stretch * between(tables.tee, length);
        // Run of a flush tee shot is known in yards, all else goes with the carry.
        let mean = model.mean_strike(model.mishits(1.0), (model.depth_of(1.0), 1.0));
        model.driver = (tee - mean.of_run * TEE_RUN) / (mean.carry + mean.run);
        model
    }

    /// Where the golfer lies between the scratch (0) and the bogey golfer (1) around and on the green.
    pub(super) fn touch(&self) -> f64 {
        self.touch
    }

    /// Carry of a flush tee shot, yards.
    pub(super) fn driver_carry(&self) -> f64 {
        self.driver
    }

    /// Mean length of the longest shot off the fairway over all strikes, yards.
    pub(super) fn second_length(&self) -> f64 {
        self.stretch * between(self.reference.tables().second, self.length)
    }

    /// Shares of duffs and of wild strikes with a club that carries that share of the driver's carry.
    fn mishits(&self, length: f64) -> (f64, f64) {
        let long = length * length * length * length;
        let (duff, wild) = (self.duffs, self.wilds * (1.0 + self.wild_long * long));
        let most = (MOST_MISHITS / (duff + wild)).min(1.0);
        (most * duff, most * wild)
    }

    /// The mean strike when such shares are duffed and wild. Of the worst of each kind it has as much as its strikes lie on
    /// average from flush to the worst, and in their run from the first mishit to the worst. What falls short of the middle
    /// falls farther than the rest goes beyond: so the club's own spread in depth and what a lie multiplies it by count, too.
    fn mean_strike(&self, (duffs, wilds): (f64, f64), (depth, spread): (f64, f64)) -> MeanStrike {
        let shape = &self.shape;
        let sunk = depth * spread * Beyond::of(depth, spread).moments().0;
        let worst = 1.0 / (1.0 + shape.mildness);
        let lost = duffs * (1.0 - shape.duff_carry) + wilds * (1.0 - shape.wild_carry);
        MeanStrike {
            carry: 1.0 - worst * lost / MISHIT + sunk * (1.0 - worst * (duffs + wilds) / MISHIT),
            of_run: 1.0 - worst * (duffs + wilds),
            run: worst * (duffs * shape.duff_run + wilds * shape.wild_run),
        }
    }

    /// Mean length over all strikes of a club that carries `carry` yards, under what a lie does to its mishits.
    pub(super) fn mean_length(&self, carry: f64, effect: Effect) -> f64 {
        let length = self.relative(carry);
        let (duff, wild) = self.mishits(length);
        let scale = effect.mishit_share(duff + wild) / (duff + wild);
        let depth = (self.depth_of(length), effect.spread);
        let mean = self.mean_strike((scale * duff, scale * wild), depth);
        carry * (mean.carry + mean.of_run * self.run(carry) + mean.run)
    }

    /// Standard deviation of the carry of flush strikes, as a share of it, of a club that carries that share of the driver's carry.
    fn depth_of(&self, length: f64) -> f64 {
        self.depth * libm::pow(MIDDLING / length.max(0.1), LESS_DEEP)
    }

    fn relative(&self, carry: f64) -> f64 {
        (carry / self.driver).min(1.0)
    }

    /// Run per yard of carry: the driver's runs [`TEE_RUN`] yards, and it falls with the cube of the
    /// carry, as clubs grow loftier. Common practice, no source.
    fn run(&self, carry: f64) -> f64 {
        let length = self.relative(carry);
        LEAST_RUN + (TEE_RUN / self.driver - LEAST_RUN) * length * length * length
    }

    /// The club that carries `carry` yards.
    pub(super) fn club(&self, name: &str, carry: f64) -> Result<Club, PlayerFault> {
        let length = self.relative(carry);
        let (duff, wild) = self.mishits(length);
        let long = length * length * length * length;
        let direction = self.direction_deg * (1.0 + self.direction_long * long);
        let depth = self.depth_of(length);
        Club::new(ClubParts {
            carry_sd: (depth * carry).min(0.5 * carry),
            lateral_sd: (libm::tan(direction.to_radians()) * carry).min(0.5 * carry),
            mishit_share: duff + wild,
            mishit_shape: MishitShape {
                duff_part: duff / (duff + wild),
                ..self.shape
            },
            run: self.run(carry),
            ..ClubParts::exact(name, carry)
        })
    }
}

/// A figure that moves in equal steps from the scratch (0) to the bogey golfer (1).
fn between((scratch, bogey): (f64, f64), level: f64) -> f64 {
    scratch + (bogey - scratch) * level
}
