//! Patterns whose strikes fall farther short of their middle than they go beyond it.
use crate::figures::strike::MOST_BEYOND;

/// How much less strikes go beyond the middle of a pattern than they fall short of it: no ball flies much farther than a club
/// gives. A share, 0 to 1; with 1 the pattern is even.
///
/// Luck is bent, so that far out one side is this much of the other and the density has no step in the middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beyond(pub f64);

impl Beyond {
    /// Standard deviations of luck about the middle over which one side goes over into the other.
    const TURN: f64 = 0.25;
    /// Mean and mean square of `hypot(z, TURN) - TURN` over normal luck `z` (computed by integration).
    const HOLLOW: (f64, f64) = (0.614_114_234_0, 0.692_942_883_0);

    /// Of a club whose flush strikes spread by the share `own` of their carry, from a lie that multiplies it. A bad lie takes
    /// carry away and never adds any: it widens what falls short alone.
    pub(crate) fn of(own: f64, lie_spread: f64) -> Self {
        // The less of the two, without a corner where they are equal: fits look for where slopes vanish.
        let least = libm::pow(own.powi(-16) + MOST_BEYOND.powi(-16), -0.0625);
        let beyond = least / (lie_spread * own).max(f64::MIN_POSITIVE);
        Beyond(beyond.min(1.0))
    }

    /// Where luck of so many standard deviations is bent to.
    #[inline]
    pub(crate) fn bent(self, luck: f64) -> f64 {
        let hollow = (luck * luck + Self::TURN * Self::TURN).sqrt() - Self::TURN;
        0.5 * ((1.0 + self.0) * luck - (1.0 - self.0) * hollow)
    }

    /// The luck that is bent there.
    pub(crate) fn luck(self, bent: f64) -> f64 {
        let (less, more) = (1.0 - self.0, 1.0 + self.0);
        let at = 2.0 * bent - less * Self::TURN;
        let turn = (at * at + 4.0 * self.0 * Self::TURN * Self::TURN).sqrt();
        // The root of `(more luck - at)^2 = less^2 (luck^2 + TURN^2)` for which `more luck` is no less than `at`.
        (more * at + less * turn) / (4.0 * self.0)
    }

    /// How bent luck changes at some luck.
    pub(crate) fn bend(self, luck: f64) -> Bend {
        let (less, more) = (1.0 - self.0, 1.0 + self.0);
        let far = (luck * luck + Self::TURN * Self::TURN).sqrt();
        let slope = 0.5 * (more - less * luck / far);
        Bend {
            slope,
            curve: -0.5 * less * Self::TURN * Self::TURN / (far * far * far),
            by_share: 0.5 * (luck + far - Self::TURN),
            slope_by_share: 0.5 * (1.0 + luck / far),
        }
    }

    /// Mean and standard deviation of bent luck.
    pub(crate) fn moments(self) -> (f64, f64) {
        let (less, more) = (1.0 - self.0, 1.0 + self.0);
        let mean = -0.5 * less * Self::HOLLOW.0;
        let square = 0.25 * (more * more + less * less * Self::HOLLOW.1);
        (mean, (square - mean * mean).sqrt())
    }
}

/// Derivatives of bent luck: the first two along the luck, that along the share, and that of the first along the share.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bend {
    pub(crate) slope: f64,
    pub(crate) curve: f64,
    pub(crate) by_share: f64,
    pub(crate) slope_by_share: f64,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bent_luck_is_told_back_and_has_its_moments() {
        let (step, mut sums) = (1e-3, [0.0; 3]);
        for share in [0.05, 0.4, 0.7, 1.0] {
            let beyond = Beyond(share);
            sums = [0.0; 3];
            for i in -8_000..=8_000 {
                let luck = f64::from(i) * step;
                let bent = beyond.bent(luck);
                assert!((beyond.luck(bent) - luck).abs() < 1e-9, "{share} {luck}");
                let weight = step * libm::exp(-0.5 * luck * luck) / std::f64::consts::TAU.sqrt();
                for (sum, power) in sums.iter_mut().zip(0..) {
                    *sum += weight * bent.powi(power);
                }
            }
            // By trapezoids over the normal law, exact to their last digits.
            let (mean, sd) = beyond.moments();
            assert!((sums[1] - mean).abs() < 1e-9, "{share}: {mean}");
            assert!(
                (sums[2] - mean * mean - sd * sd).abs() < 1e-9,
                "{share}: {sd}"
            );
        }
        assert!((sums[0] - 1.0).abs() < 1e-9);
        // Far out one side is so much of the other: no step in the middle.
        assert!((Beyond(0.4).bent(50.0) / Beyond(0.4).bent(-50.0) + 0.4).abs() < 0.01);
        assert_eq!(Beyond(0.4).bent(0.0), 0.0);
    }
}
