//! The reference golfers of course rating: how far they hit it and how closely their shots lie.
use super::club::{Club, ClubParts, MishitShape};
use super::fault::{PlayerFault, check};
use super::figures::{Anchors, LevelFigures};
use std::f64::consts::FRAC_1_SQRT_2;

/// Whose reference golfers a handicap is read against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Reference {
    /// Men: bogey golfer at a handicap of 20.
    #[default]
    Men,
    /// Women: bogey golfer at a handicap of 24.
    Women,
}

/// Published lengths of a pair of reference golfers, and the areas that hold two thirds of their shots.
///
/// Source: Course Rating System Manual (2020), sections 4-4, 8 and 9; Rules of Handicapping.
pub(super) struct Tables {
    /// Handicap of the bogey golfer.
    pub(super) bogey: f64,
    /// Length of the tee shot, scratch and bogey, yards.
    pub(super) tee: (f64, f64),
    /// Length of the shot after it: what is reached in two less the tee shot.
    pub(super) second: (f64, f64),
    /// Width and depth of the areas for shots of 90, 110, 130, ... yards.
    scratch_areas: &'static [(f64, f64)],
    bogey_areas: &'static [(f64, f64)],
}

const MEN: Tables = Tables {
    bogey: 20.0,
    tee: (250.0, 200.0),
    second: (220.0, 170.0),
    scratch_areas: &[
        (11.0, 14.0),
        (12.0, 15.0),
        (13.0, 15.0),
        (15.0, 16.0),
        (18.0, 17.0),
        (23.0, 18.0),
        (29.0, 19.0),
        (35.0, 20.0),
        (41.0, 21.0),
    ],
    bogey_areas: &[
        (16.0, 19.0),
        (17.0, 21.0),
        (18.0, 23.0),
        (20.0, 25.0),
        (24.0, 28.0),
        (29.0, 34.0),
    ],
};

const WOMEN: Tables = Tables {
    bogey: 24.0,
    tee: (210.0, 150.0),
    second: (190.0, 130.0),
    scratch_areas: &[
        (12.0, 15.0),
        (14.0, 16.0),
        (17.0, 17.0),
        (20.0, 18.0),
        (26.0, 20.0),
        (30.0, 24.0),
        (34.0, 28.0),
    ],
    bogey_areas: &[(17.0, 22.0), (19.0, 24.0), (21.0, 27.0), (24.0, 30.0)],
};

/// Length of the first row of the areas and the step between rows, yards.
const FIRST: f64 = 90.0;
const STEP: f64 = 20.0;

/// Run of the tee shot on a level fairway, yards (Course Rating System, published; scratch and bogey alike).
pub(super) const TEE_RUN: f64 = 20.0;

/// Run per yard of carry of a club that carries next to nothing. Common practice, no source.
const LEAST_RUN: f64 = 0.02;

/// How fast length and skill level off with handicap, strokes. With the two reference golfers it gives mean
/// drives of 240, 223, 208 and 190 yards at handicaps of 3, 9, 16 and 26; measured were 240, 220, 204 and 187
/// for "5 or less", 6-12, 13-20 and 21+ (UK men, R&A/USGA distance report 2018, published).
const LEVELLING: f64 = 30.0;

/// A golfer of some level, as the source of clubs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Model {
    pub(super) reference: Reference,
    /// 0 for the scratch golfer, 1 for the bogey golfer: how far the ball goes.
    pub(super) length: f64,
    /// 0 for the scratch golfer, 1 for the bogey golfer: everything else.
    pub(super) skill: f64,
    /// How far solid strikes fall short of what was meant, as a share of it.
    pub(super) shortfall: f64,
    /// How many times as much as a scratch golfer the player feels a bad lie.
    pub(super) lie: f64,
    /// Skill by handicap alone: short game, putting, mishits.
    pub(super) touch: f64,
    /// Lengths and areas are this many times those of the level.
    stretch: f64,
    /// Share of duffs from a good lie, all clubs alike.
    duffs: f64,
    /// Share of wild or thin strikes from a good lie with the shortest clubs.
    wilds: f64,
    /// Of the longest club there are so many times more.
    wild_long: f64,
    /// What mishits do.
    shape: MishitShape,
    /// Carry of a solid tee shot, yards.
    driver: f64,
    /// The mishits of the scratch and the bogey golfer.
    pair: [Missed; 2],
}

/// How the strikes of one club that are not solid share out.
struct Mishits {
    duff: f64,
    wild: f64,
    shape: MishitShape,
}

impl Reference {
    pub(super) fn tables(self) -> &'static Tables {
        match self {
            Reference::Men => &MEN,
            Reference::Women => &WOMEN,
        }
    }

    /// Where a handicap of 0 to 54 lies between the scratch (0) and the bogey golfer (1), and beyond: the
    /// steps from one handicap to the next grow smaller, in all things alike.
    pub(super) fn level(self, handicap: f64, levelling: f64) -> f64 {
        let gone = |h: f64| 1.0 - libm::exp(-h / levelling);
        gone(handicap) / gone(self.tables().bogey)
    }

    /// The club with which a golfer of that handicap carries a ball `carry` yards when it is struck
    /// solidly: spread, mishits and run are those of the level.
    ///
    /// # Errors
    /// A handicap outside 0 to 54, or a name or carry [`Club::new`] refuses.
    pub fn club(self, handicap: f64, name: &str, carry: f64) -> Result<Club, PlayerFault> {
        LevelFigures::FITTED.club(self, handicap, name, carry)
    }
}

impl LevelFigures {
    /// The same under these figures; see [`Reference::club`].
    ///
    /// # Errors
    /// A handicap outside 0 to 54, or a name or carry [`Club::new`] refuses.
    pub fn club(
        &self,
        reference: Reference,
        handicap: f64,
        name: &str,
        carry: f64,
    ) -> Result<Club, PlayerFault> {
        check(name, "carry", carry, 1.0..=450.0, "1 to 450 yards")?;
        Model::with(self, reference, handicap)?.club(name, carry)
    }
}

impl Model {
    /// The golfer of a handicap under some figures.
    pub(super) fn with(
        figures: &LevelFigures,
        reference: Reference,
        handicap: f64,
    ) -> Result<Self, PlayerFault> {
        check("", "handicap", handicap, 0.0..=54.0, "0 to 54")?;
        let length = reference.level(handicap, LEVELLING);
        let skill = reference.level(handicap, figures.levelling);
        let touch = Reference::Men.level(handicap, figures.levelling);
        Ok(Self::new(
            figures,
            reference,
            (length, skill, touch, 1.0),
            |f, by| f.at(if by { length } else { touch }),
        ))
    }

    /// The professional under some figures.
    pub(super) fn professional(figures: &LevelFigures) -> Self {
        Self::new(
            figures,
            Reference::Men,
            (0.0, figures.professional_area, -0.5, 285.0 / 250.0),
            |f, _| f.professional,
        )
    }

    fn new(
        figures: &LevelFigures,
        reference: Reference,
        (length, skill, touch, stretch): (f64, f64, f64, f64),
        of: impl Fn(&Anchors, bool) -> f64,
    ) -> Self {
        let mut model = Model {
            reference,
            length,
            skill,
            stretch,
            shortfall: of(&figures.shortfall, true).clamp(0.0, 0.3),
            lie: of(&figures.bad_lie, true),
            touch,
            duffs: of(&figures.duffs, false).clamp(0.0, 0.45),
            wilds: of(&figures.wilds, false).clamp(0.0, 0.3),
            wild_long: figures.wild_long,
            shape: MishitShape {
                wild_side: of(&figures.wild_side, true),
                ..MishitShape::default()
            },
            driver: 1.0,
            pair: [0.0, 1.0].map(|level| Missed::of(figures, reference, level)),
        };
        model.driver = model.solid_tee_shot();
        model
    }

    /// Carry of a solid tee shot, yards.
    pub(super) fn driver_carry(&self) -> f64 {
        self.driver
    }

    /// Carry of a solid tee shot that runs [`TEE_RUN`] yards, so that the mean over all strikes is the
    /// length of the tee shot.
    fn solid_tee_shot(&self) -> f64 {
        let Mishits { duff, wild, shape } = self.mishits(1.0);
        let missed =
            duff * (shape.duff_carry + shape.duff_run) + wild * (shape.wild_carry + shape.wild_run);
        let solid = 1.0 - duff - wild;
        (self.tee_length() - solid * TEE_RUN) / (solid + missed)
    }

    /// Mean length of the tee shot over all strikes, yards.
    fn tee_length(&self) -> f64 {
        let (scratch, bogey) = self.reference.tables().tee;
        self.stretch * (scratch + (bogey - scratch) * self.length)
    }

    /// Mean length of the longest shot off the fairway over all strikes, yards.
    pub(super) fn second_length(&self) -> f64 {
        let (scratch, bogey) = self.reference.tables().second;
        self.stretch * (scratch + (bogey - scratch) * self.length)
    }

    /// Mean length over all strikes of a club that carries `carry` yards, when a lie multiplies its mishits.
    pub(super) fn mean_length(&self, carry: f64, times: f64) -> f64 {
        let Mishits { duff, wild, shape } = self.mishits(self.of_longest(carry));
        let (duff, wild) = (times * duff, times * wild);
        let missed =
            duff * (shape.duff_carry + shape.duff_run) + wild * (shape.wild_carry + shape.wild_run);
        carry * ((1.0 - duff - wild) * (1.0 + self.run(carry)) + missed)
    }

    /// Run per yard of carry: the driver's runs [`TEE_RUN`] yards, and it falls with the cube of the
    /// carry, as clubs grow loftier. Common practice, no source.
    fn run(&self, carry: f64) -> f64 {
        let length = self.of_longest(carry);
        LEAST_RUN + (TEE_RUN / self.driver - LEAST_RUN) * length * length * length
    }

    /// The club that carries `carry` yards.
    pub(super) fn club(&self, name: &str, carry: f64) -> Result<Club, PlayerFault> {
        let run = self.run(carry);
        let (side, depth) = self.solid_spread(carry * (1.0 + run));
        let mishits = self.mishits(self.of_longest(carry));
        Club::new(ClubParts {
            carry_sd: (depth / (1.0 + run)).min(0.5 * carry),
            lateral_sd: side.min(0.5 * carry),
            mishit_share: mishits.duff + mishits.wild,
            mishit_shape: mishits.shape,
            run,
            ..ClubParts::exact(name, carry)
        })
    }

    /// Standard deviations to the side and in depth of solid shots of a length, yards: in equal proportions through
    /// those of the scratch and the bogey golfer.
    fn solid_spread(&self, total: f64) -> (f64, f64) {
        let at = total / self.stretch;
        let tables = self.reference.tables();
        let [scratch, bogey] = &self.pair;
        let (a, b) = (
            scratch.spread(area_at(tables.scratch_areas, at), at),
            bogey.spread(area_at(tables.bogey_areas, at), at),
        );
        let between = |a: f64, b: f64| self.stretch * a * libm::pow(b / a, self.skill);
        (between(a.0, b.0), between(a.1, b.1))
    }

    /// Carry as a share of the driver's, at most 1.
    fn of_longest(&self, carry: f64) -> f64 {
        (carry / self.driver).min(1.0)
    }

    /// The mishits of a club of that carry as a share of the driver's.
    fn mishits(&self, length: f64) -> Mishits {
        let wild = self.wilds * (1.0 + self.wild_long * length * length * length * length);
        let shape = MishitShape {
            duff_part: self.duffs / (self.duffs + wild),
            ..self.shape
        };
        Mishits {
            duff: self.duffs,
            wild,
            shape,
        }
    }
}

/// How the strikes of a reference golfer that are not solid share out, for the areas.
#[derive(Clone, Copy, Debug)]
struct Missed {
    duffs: f64,
    wilds: f64,
    wild_long: f64,
    shape: MishitShape,
    /// Length of the tee shot.
    tee: f64,
}

impl Missed {
    fn of(figures: &LevelFigures, reference: Reference, level: f64) -> Self {
        let tee = reference.tables().tee;
        let touch = level * Reference::Men.level(reference.tables().bogey, figures.levelling);
        Missed {
            duffs: figures.duffs.at(touch),
            wilds: figures.wilds.at(touch),
            wild_long: figures.wild_long,
            shape: MishitShape {
                wild_side: figures.wild_side.at(level),
                ..MishitShape::default()
            },
            tee: tee.0 + (tee.1 - tee.0) * level,
        }
    }

    fn mishits(&self, length: f64) -> Mishits {
        let wild = self.wilds * (1.0 + self.wild_long * length * length * length * length);
        let shape = MishitShape {
            duff_part: self.duffs / (self.duffs + wild),
            ..self.shape
        };
        Mishits {
            duff: self.duffs,
            wild,
            shape,
        }
    }

    /// Standard deviations of solid strikes, to the side and in depth, such that two thirds of all strikes end in an
    /// area; by bisection.
    fn spread(&self, (width, depth): (f64, f64), total: f64) -> (f64, f64) {
        let (mut low, mut high) = (0.01, 3.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.share_inside(middle, total, depth) > 2.0 / 3.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let scale = 0.5 * (low + high);
        (scale * width, scale * depth)
    }

    /// Share of all strikes that end in the area when solid strikes have that scale. The axes are
    /// independent; an area of sides (w, d) and deviations (k w, k d) makes both factors of the solid
    /// part the same.
    fn share_inside(&self, scale: f64, total: f64, depth: f64) -> f64 {
        let Mishits { duff, wild, shape } = self.mishits((total / self.tee).min(1.0));
        let across = |times: f64| within(0.5 / (scale * times.max(1e-9)));
        let missed = |mean: f64, sd: f64| {
            let (from, to) = (
                total - 0.5 * depth - mean * total,
                total + 0.5 * depth - mean * total,
            );
            let sd = (sd * total).max(1e-9);
            below(to / sd) - below(from / sd)
        };
        let solid = within(0.5 / scale);
        (1.0 - duff - wild) * solid * solid
            + duff
                * across(shape.duff_side)
                * missed(shape.duff_carry + shape.duff_run, shape.duff_carry_sd)
            + wild
                * across(shape.wild_side)
                * missed(shape.wild_carry + shape.wild_run, shape.wild_carry_sd)
    }
}

/// Probability that a standard normal lies within `z` of 0.
fn within(z: f64) -> f64 {
    libm::erf(z * FRAC_1_SQRT_2)
}

/// Probability that a standard normal lies below `z`.
fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// The area for a shot of any length: smooth and monotone through the rows (Fritsch and Carlson 1980), straight
/// on beyond the last, and below the first half of it in proportion to the length.
fn area_at(rows: &[(f64, f64)], length: f64) -> (f64, f64) {
    (
        side_at(rows, length, |r| r.0),
        side_at(rows, length, |r| r.1),
    )
}

fn side_at(rows: &[(f64, f64)], length: f64, side: impl Fn(&(f64, f64)) -> f64) -> f64 {
    let last = rows.len() - 1;
    let row = |i: usize| side(&rows[i]);
    let rise = |i: usize| row(i + 1) - row(i);
    let at = (length - FIRST) / STEP;
    if at <= 0.0 {
        return row(0) * (0.5 + 0.5 * length / FIRST);
    }
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    if at >= last as f64 {
        return row(last) + rise(last - 1) * (at - last as f64);
    }
    let slope = |i: usize| match i {
        0 => rise(0),
        i if i == last => rise(last - 1),
        i if rise(i - 1) * rise(i) > 0.0 => 2.0 * rise(i - 1) * rise(i) / (rise(i - 1) + rise(i)),
        _ => 0.0,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 < at < last"
    )]
    let i = at as usize;
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let t = at - i as f64;
    let (s, u) = (t * t * (3.0 - 2.0 * t), 1.0 - t);
    row(i) + s * rise(i) + t * u * (u * slope(i) - t * slope(i + 1))
}
