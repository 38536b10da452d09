//! How likely a club's figures make what was measured, and how that changes with each figure.
//!
//! The law is the one the simulation plays by (`player::Swing::strike`): flush strikes, and duffs and wild strikes of every
//! severity, all of bivariate normal luck that is bent in depth. Severities are an integral, taken as a sum over a few. A last part, a thin even
//! background, takes up what no strike explains: slips of the pen, another club. It bounds the pull of any one shot (Banfield
//! and Raftery 1993, Biometrics 49, 803-821: noise as a uniform component).
use super::chance::{Crossing, ONE};
use super::density::{Law, Moments};
use super::prior::{
    BIAS, CARRY, CARRY_SD, CORRELATION, FIGURES, LATERAL_SD, MISHITS, Scaled, share,
};
use super::{Finish, Ground};
use crate::figures::differences::BACKGROUND;
use crate::figures::strike::MISHIT;
use crate::player::{Beyond, MishitShape};

/// What a lie does: multiples of carry, of spread and of the odds of a mishit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LieFactors {
    pub(super) carry: f64,
    pub(super) spread: f64,
    pub(super) mishits: f64,
}

/// Like on-course outcomes and how often they happened.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tally {
    pub(super) ground: Ground,
    pub(super) finish: Finish,
    pub(super) count: f64,
}

/// Everything seen of one club from one lie.
#[derive(Clone, Debug)]
pub(super) struct Group {
    pub(super) factors: LieFactors,
    /// Carry and lateral, yards, with the row they came from.
    pub(super) shots: Vec<([f64; 2], usize)>,
    pub(super) tallies: Vec<Tally>,
}

/// What is known of a club beside the figures to be fitted.
#[derive(Clone, Debug)]
pub(super) struct Fixed {
    pub(super) shape: MishitShape,
    pub(super) run: f64,
    /// Carry by the level, which sets the density of the background.
    pub(super) level_carry: f64,
    /// Where outcomes were meant to finish per yard of a flush strike's carry and run: the middle of the pattern, and
    /// beyond it for a golfer who takes too little club.
    pub(super) meant: f64,
}

/// Everything seen of one club.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    pub(super) fixed: Fixed,
    pub(super) groups: Vec<Group>,
}

/// One kind of strike from one lie.
#[derive(Clone, Copy)]
pub(super) struct Part {
    pub(super) log_weight: f64,
    /// Change of the log weight with the log odds of a mishit.
    pub(super) weight_slope: f64,
    /// Carry and lateral of even luck, and the spreads about it.
    pub(super) mean: [f64; 2],
    pub(super) sd: [f64; 2],
    /// How much of the spread in depth moves with the figure of its own; what does not is a share of the carry.
    pub(super) own_depth: f64,
    /// How much of it there is beyond the middle, and by how much that changes with the log of that figure.
    pub(super) beyond: Beyond,
    pub(super) beyond_slope: f64,
    /// Mean and spread of where the ball ends in depth.
    pub(super) rest: [f64; 2],
}

/// How many severities a miss is looked at: in the middles of equal parts. Fewer leave bumps between the means of one severity
/// and the next, which lie farther apart than the strikes of either spread: with eight the density is within 11 % over the bulk
/// of a pattern and within half a per cent on average, with four of Gauss's rule it was within 50 % and 10 % (a unit test).
const SEVERITIES: usize = 8;

/// One of them.
#[expect(clippy::cast_precision_loss, reason = "a small count")]
fn severity(number: usize) -> f64 {
    (number as f64 + 0.5) / SEVERITIES as f64
}

/// Flush strikes, and misses of both kinds at every severity that is looked at.
pub(super) const STRIKES: usize = 1 + 2 * SEVERITIES;

/// The kinds of strike and what they have in common: flush first, then duffs and wild strikes by severity.
pub(super) struct Parts {
    pub(super) parts: [Part; STRIKES],
    pub(super) correlation: f64,
    /// Change of the mean lateral with the bias per yard.
    pub(super) bias_slope: f64,
}

/// The worst of one kind of miss: its share of the misses, and what it does, in shares of a flush strike.
struct Worst {
    part: f64,
    carry: f64,
    carry_sd: f64,
    side: f64,
    run: f64,
}

/// How far flush strikes go beyond their middle, and by how much that changes with the log of the club's own spread.
struct Bounded {
    of: Beyond,
    slope: f64,
}

impl Bounded {
    fn new(own: f64, lie_spread: f64) -> Self {
        const STEP: f64 = 1e-5;
        let at = |step: f64| Beyond::of(own * libm::exp(step), lie_spread);
        Bounded {
            of: at(0.0),
            slope: (at(STEP).0 - at(-STEP).0) / (2.0 * STEP),
        }
    }
}

impl Parts {
    fn new(s: &Scaled, fixed: &Fixed, lie: LieFactors) -> Self {
        let club_carry = libm::exp(s[CARRY]);
        let carry = lie.carry * club_carry;
        let side = lie.spread * carry * libm::exp(s[LATERAL_SD]);
        let own = libm::exp(s[CARRY_SD]);
        let depth = lie.spread * carry * own;
        let flush_beyond = Bounded::new(own, lie.spread);
        let lateral = carry * s[BIAS];
        let missed = share(s[MISHITS] + libm::log(lie.mishits.max(1e-300)));
        let shape = &fixed.shape;
        let flush = Part {
            log_weight: libm::log((1.0 - missed).max(1e-300)),
            weight_slope: -missed,
            mean: [carry, lateral],
            sd: [depth, side],
            own_depth: 1.0,
            beyond: flush_beyond.of,
            beyond_slope: flush_beyond.slope,
            rest: [carry * (1.0 + fixed.run), depth * (1.0 + fixed.run)],
        };
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let weight = 1.0 / SEVERITIES as f64;
        let miss = |worst: &Worst, severity: f64| {
            let far = libm::pow(severity, shape.mildness);
            let between = |flush: f64, worst: f64| flush + far * (worst - flush);
            // Only mishits run otherwise than flush strikes do.
            let rolled = if severity >= MISHIT {
                libm::pow((severity - MISHIT) / (1.0 - MISHIT), shape.mildness)
            } else {
                0.0
            };
            let run = fixed.run + rolled * (worst.run - fixed.run);
            // Of the worst the luck is even. A shape without width would have no density.
            let sd = between(depth, worst.carry_sd.max(0.01) * carry);
            let own_depth = (1.0 - far) * depth / sd;
            let less = 1.0 - flush_beyond.of.0;
            Part {
                log_weight: libm::log((missed * worst.part * weight).max(1e-300)),
                weight_slope: 1.0 - missed,
                mean: [carry * between(1.0, worst.carry), lateral],
                sd: [sd, side * between(1.0, worst.side.max(0.05))],
                own_depth,
                beyond: Beyond(1.0 - own_depth * less),
                beyond_slope: own_depth * (flush_beyond.slope - (1.0 - own_depth) * less),
                rest: [
                    carry * (between(1.0, worst.carry) + run),
                    sd * between(1.0 + fixed.run, 1.0),
                ],
            }
        };
        let duff = Worst {
            part: shape.duff_part,
            carry: shape.duff_carry,
            carry_sd: shape.duff_carry_sd,
            side: shape.duff_side,
            run: shape.duff_run,
        };
        let wild = Worst {
            part: 1.0 - shape.duff_part,
            carry: shape.wild_carry,
            carry_sd: shape.wild_carry_sd,
            side: shape.wild_side,
            run: shape.wild_run,
        };
        let parts = std::array::from_fn(|k| match k.checked_sub(1) {
            None => flush,
            Some(k) => miss([&duff, &wild][k / SEVERITIES], severity(k % SEVERITIES)),
        });
        Parts {
            parts,
            correlation: libm::tanh(s[CORRELATION]),
            bias_slope: carry,
        }
    }
}

/// Log density of the background.
pub(super) fn background(fixed: &Fixed) -> f64 {
    libm::log(BACKGROUND / (4.0 * fixed.level_carry * fixed.level_carry))
}

impl Seen {
    /// Log likelihood of everything seen of the club; adds its slope along each figure to `slope`.
    pub(super) fn log_likelihood(&self, s: &Scaled, slope: &mut [f64]) -> f64 {
        let mut sum = 0.0;
        for group in &self.groups {
            let parts = Parts::new(s, &self.fixed, group.factors);
            sum += self.of_shots(&parts, group, slope);
            for tally in &group.tallies {
                sum += tally.count * self.of_tally(&parts, tally, slope);
            }
        }
        sum
    }

    /// Curvature (minus the second derivatives) of the log likelihood, by differences of its slope.
    pub(super) fn curvature(&self, s: &Scaled) -> [[f64; FIGURES]; FIGURES] {
        const STEP: f64 = 1e-4;
        let mut curvature = [[0.0; FIGURES]; FIGURES];
        for (i, row) in curvature.iter_mut().enumerate() {
            let slope_at = |step: f64| {
                let (mut moved, mut slope) = (*s, [0.0; FIGURES]);
                moved[i] += step;
                self.log_likelihood(&moved, &mut slope);
                slope
            };
            let (up, down) = (slope_at(STEP), slope_at(-STEP));
            for (cell, (u, d)) in row.iter_mut().zip(up.iter().zip(&down)) {
                *cell = (d - u) / (2.0 * STEP);
            }
        }
        curvature
    }

    /// The slopes are sums over shots of moments of the standardised distances, so those are all that is gathered.
    fn of_shots(&self, parts: &Parts, group: &Group, slope: &mut [f64]) -> f64 {
        if group.shots.is_empty() {
            return 0.0;
        }
        let law = Law::new(parts, &self.fixed);
        let mut sum = 0.0;
        let mut moments = [Moments::default(); STRIKES];
        for (at, _) in &group.shots {
            let (chances, away, log_density) = law.at(*at);
            sum += log_density;
            for ((moments, weight), away) in moments.iter_mut().zip(chances).zip(&away) {
                moments.add(weight, away, parts.correlation);
            }
        }
        for (m, p) in moments.iter().zip(&parts.parts) {
            m.add_slopes(p, parts, slope);
        }
        sum
    }

    /// Log probability of one outcome. The axes are taken as independent within each kind of strike.
    fn of_tally(&self, parts: &Parts, tally: &Tally, slope: &mut [f64]) -> f64 {
        let meant = parts.parts[0].rest[0] * self.fixed.meant;
        let mut chance = BACKGROUND / 5.0;
        let mut change = [0.0; FIGURES];
        for p in &parts.parts {
            let side = Crossing::new(
                -0.5 * tally.ground.width,
                0.5 * tally.ground.width,
                p.mean[1],
                p.sd[1],
                Beyond(1.0),
            );
            let half = tally.ground.depth.map_or(f64::INFINITY, |d| 0.5 * d);
            let deep = Crossing::new(meant - half, meant + half, p.rest[0], p.rest[1], p.beyond);
            let (across, along) = match tally.finish {
                Finish::Hit => (side.between(), deep.between()),
                Finish::Left => (side.below(), ONE),
                Finish::Right => (side.above(), ONE),
                Finish::Short => (side.between(), deep.below()),
                Finish::Long => (side.between(), deep.above()),
            };
            let weight = (1.0 - BACKGROUND) * libm::exp(p.log_weight);
            let both = weight * across.chance * along.chance;
            chance += both;
            let (w_side, w_deep) = (weight * along.chance, weight * across.chance);
            change[MISHITS] += both * p.weight_slope;
            change[BIAS] += w_side * across.mean * parts.bias_slope;
            change[LATERAL_SD] += w_side * across.log_sd;
            change[CARRY_SD] +=
                w_deep * (p.own_depth * along.log_sd + p.beyond_slope * along.beyond);
            // The meant distance, the mean and the spread all grow with the carry: only the green does not.
            change[CARRY] += w_side * (across.mean * p.mean[1] + across.log_sd)
                + w_deep * (along.mean * (p.rest[0] - meant) + along.log_sd);
        }
        for (slope, change) in slope.iter_mut().zip(change) {
            *slope += tally.count * change / chance;
        }
        libm::log(chance)
    }

    /// Chances that a shot was solid, a mishit and an outlier: a miss counts from half of the way to the worst, in rank.
    pub(super) fn judge(&self, s: &Scaled, group: &Group, at: [f64; 2]) -> [f64; 3] {
        let law = Law::new(&Parts::new(s, &self.fixed, group.factors), &self.fixed);
        let (chances, _, _) = law.at(at);
        let is_mishit = |k: usize| k > 0 && severity((k - 1) % SEVERITIES) >= MISHIT;
        let of = |mishit: bool| {
            let those = chances
                .iter()
                .enumerate()
                .filter(|(k, _)| is_mishit(*k) == mishit);
            those.map(|(_, chance)| chance).sum::<f64>()
        };
        let (solid, missed) = (of(false), of(true));
        [solid, missed, (1.0 - solid - missed).max(0.0)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::prior::scaled;
    use crate::player::Reference;

    fn seen(lie: LieFactors) -> (Scaled, Seen) {
        let club = Reference::Men.club(18.0, "7-iron", 128.0).expect("a club");
        let ground = |depth| Ground { width: 25.0, depth };
        let green = |finish, count| Tally {
            ground: ground(Some(22.0)),
            finish,
            count,
        };
        let fairway = |finish, count| Tally {
            ground: ground(None),
            finish,
            count,
        };
        let fixed = Fixed {
            shape: club.mishit_shape,
            run: club.run,
            level_carry: 128.0,
            meant: 1.05,
        };
        let places = [
            (130.0, 5.0),
            (118.0, -14.0),
            (66.0, 20.0),
            (105.0, -40.0),
            (260.0, 90.0),
        ];
        let group = Group {
            factors: lie,
            shots: places
                .iter()
                .enumerate()
                .map(|(i, p)| ([p.0, p.1], i))
                .collect(),
            tallies: [Finish::Hit, Finish::Left, Finish::Right]
                .into_iter()
                .map(|finish| fairway(finish, 2.0))
                .chain(Finish::ALL.map(|finish| green(finish, 3.0)))
                .collect(),
        };
        let mut figures = scaled(&club);
        figures[BIAS] = 0.03;
        figures[CORRELATION] = 0.4;
        (
            figures,
            Seen {
                fixed,
                groups: vec![group],
            },
        )
    }

    #[test]
    fn slopes_agree_with_differences() {
        let lies = [(1.0, 1.0, 1.0), (0.9, 1.3, 1.8), (0.8, 1.6, 20.0)];
        // As deep as this golfer's, and so shallow that nothing bounds what is beyond the middle.
        for (lie, shallow) in lies.into_iter().flat_map(|l| [(l, 0.0), (l, 1.2)]) {
            let (carry, spread, mishits) = lie;
            let (mut at, seen) = seen(LieFactors {
                carry,
                spread,
                mishits,
            });
            at[CARRY_SD] -= shallow;
            let mut slope = [0.0; FIGURES];
            seen.log_likelihood(&at, &mut slope);
            for p in 0..FIGURES {
                let value = |step: f64| {
                    let mut moved = at;
                    moved[p] += step;
                    seen.log_likelihood(&moved, &mut [0.0; FIGURES])
                };
                let difference = (value(1e-5) - value(-1e-5)) / 2e-5;
                assert!(
                    (difference - slope[p]).abs() < 1e-5 * (1.0 + slope[p].abs()),
                    "figure {p}: {} is not {difference}",
                    slope[p]
                );
            }
        }
    }

    #[test]
    fn chances_of_all_outcomes_add_up() {
        let (at, seen) = seen(LieFactors {
            carry: 1.0,
            spread: 1.0,
            mishits: 1.0,
        });
        let parts = Parts::new(&at, &seen.fixed, seen.groups[0].factors);
        let ground = Ground {
            width: 25.0,
            depth: Some(22.0),
        };
        let all = Finish::ALL.map(|finish| {
            let tally = Tally {
                ground,
                finish,
                count: 1.0,
            };
            libm::exp(seen.of_tally(&parts, &tally, &mut [0.0; FIGURES]))
        });
        assert!((all.iter().sum::<f64>() - 1.0).abs() < 1e-9, "{all:?}");
    }

    #[test]
    fn the_density_of_a_shot_adds_up() {
        // Trapezoid sums over a grid far wider than the pattern; the background, which has no end, is taken off.
        let (mut at, mut seen) = seen(LieFactors {
            carry: 0.95,
            spread: 1.2,
            mishits: 1.5,
        });
        at[CARRY] += 0.05;
        seen.groups[0].tallies.clear();
        let (step, mut sum) = (1.5, 0.0);
        for i in -100..250 {
            for j in -300..300 {
                seen.groups[0].shots = vec![([f64::from(i) * step, f64::from(j) * step], 0)];
                let density = libm::exp(seen.log_likelihood(&at, &mut [0.0; FIGURES]));
                sum += (density - libm::exp(background(&seen.fixed))) * step * step;
            }
        }
        assert!((sum - (1.0 - BACKGROUND)).abs() < 1e-4, "{sum}");
    }

    #[test]
    fn a_few_severities_stand_for_all() {
        // The density by eight severities next to that by 64 (computed independently), over the bulk of a pattern: every place
        // whose density is more than a hundredth of the highest.
        let club = Reference::Men.club(18.0, "7-iron", 128.0).expect("a club");
        let (_, seen) = seen(LieFactors {
            carry: 1.0,
            spread: 1.0,
            mishits: 1.0,
        });
        let parts = Parts::new(&scaled(&club), &seen.fixed, seen.groups[0].factors);
        let law = Law::new(&parts, &seen.fixed);
        let shape = club.mishit_shape;
        let kinds = [
            (
                shape.duff_part,
                [shape.duff_carry, shape.duff_carry_sd, shape.duff_side],
            ),
            (
                1.0 - shape.duff_part,
                [shape.wild_carry, shape.wild_carry_sd, shape.wild_side],
            ),
        ];
        let all = 2.0 * club.mishit_share;
        let flush = Beyond::of(club.carry_sd / club.carry, 1.0);
        let normal = |x: f64, mean: f64, sd: f64| {
            let away = (x - mean) / sd;
            libm::exp(-0.5 * away * away) / (sd * (2.0 * std::f64::consts::PI).sqrt())
        };
        let exact = |x: f64, y: f64| {
            let strike = |g: f64, [far, far_sd, wide]: [f64; 3]| {
                let carry = club.carry * (1.0 + g * (far - 1.0));
                let (bent, even) = ((1.0 - g) * club.carry_sd, g * far_sd * club.carry);
                let beyond = Beyond(1.0 - bent / (bent + even) * (1.0 - flush.0));
                let luck = beyond.luck((x - carry) / (bent + even));
                let side = club.lateral_sd * (1.0 + g * (wide - 1.0));
                normal(luck, 0.0, 1.0) / ((bent + even) * beyond.bend(luck).slope)
                    * normal(y, 0.0, side)
            };
            let missed = |(part, worst): (f64, [f64; 3])| {
                let at = |k: i32| libm::pow((f64::from(k) + 0.5) / 64.0, shape.mildness);
                all * part * (0..64).map(|k| strike(at(k), worst)).sum::<f64>() / 64.0
            };
            let solid = (1.0 - all) * strike(0.0, [1.0; 3]);
            (1.0 - BACKGROUND) * (solid + kinds.map(missed).iter().sum::<f64>())
                + libm::exp(background(&seen.fixed))
        };
        let highest = exact(club.carry, 0.0);
        let (mut most, mut sum, mut count) = (0.0_f64, 0.0, 0.0);
        for x in (20..170).map(f64::from) {
            for y in (-60..=60).map(f64::from) {
                let want = exact(x, y);
                if want > 0.01 * highest {
                    let off = (libm::exp(law.at([x, y]).2) / want - 1.0).abs();
                    most = most.max(off);
                    sum += off;
                    count += 1.0;
                }
            }
        }
        eprintln!(
            "off by at most {most} in {count} places, on average by {}",
            sum / count
        );
        // Measured: 0.11 at most, 0.005 on average.
        assert!(most < 0.15 && sum < 0.01 * count, "{most} {sum}");
    }
}
