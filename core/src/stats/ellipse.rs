//! The ellipse within which a share of some points lie closest together.

/// An ellipse in a plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse {
    /// Its middle.
    pub centre: [f64; 2],
    /// Half of its longer and half of its shorter axis.
    pub half_axes: [f64; 2],
    /// The way the longer axis points: radians from the first coordinate towards the second, above -pi/2, at most pi/2.
    pub angle: f64,
}

/// Rounds of closing in after which no more is gained in practice; each can only make the ellipse smaller.
const ROUNDS: usize = 100;

impl Ellipse {
    /// The ellipse of a share (above 0, at most 1) of the points: a tight one, that the outlying points do not stretch.
    ///
    /// Closes in on the points that lie together by concentration steps (Rousseeuw and Van Driessen 1999, "A fast
    /// algorithm for the minimum covariance determinant estimator", Technometrics 41:212; from memory): from the mean
    /// and the covariance of some points to the share of points nearest by them, until that share stays the same. It is
    /// done twice, from all points and from those nearest to the median, and the smaller ellipse is taken. The ellipse
    /// runs through the outermost point of the share.
    ///
    /// None where it has no area (fewer than three points, points on a line) or a number is not finite.
    #[must_use]
    pub fn tightest(points: &[[f64; 2]], share: f64) -> Option<Self> {
        let finite = points.iter().flatten().all(|x| x.is_finite());
        if !(share > 0.0 && share <= 1.0 && finite) {
            return None;
        }
        let count = held(points.len(), share);
        let starts = [Some(Spread::of(points)), Spread::about_median(points)];
        let found = starts
            .into_iter()
            .flatten()
            .filter_map(|start| closed_in(points, count, start));
        found.min_by(|a, b| a.area().total_cmp(&b.area()))
    }

    /// Its area.
    #[must_use]
    pub fn area(&self) -> f64 {
        std::f64::consts::PI * self.half_axes[0] * self.half_axes[1]
    }
}

/// The whole number of points that is at least the share of `all`.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a share of a count, far below 2^53"
)]
fn held(all: usize, share: f64) -> usize {
    // A share that was a whole number of the points may have been rounded up.
    (share * all as f64 - 1e-9).ceil() as usize
}

/// The mean and the covariance of points.
#[derive(Clone, Copy)]
struct Spread {
    mean: [f64; 2],
    xx: f64,
    xy: f64,
    yy: f64,
}

impl Spread {
    fn of(points: &[[f64; 2]]) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "counts are far below 2^53")]
        let n = points.len().max(1) as f64;
        let mean = [0, 1].map(|k| points.iter().map(|p| p[k]).sum::<f64>() / n);
        let about = |a: usize, b: usize| {
            let parts = points.iter().map(|p| (p[a] - mean[a]) * (p[b] - mean[b]));
            parts.sum::<f64>() / n
        };
        let (xx, xy, yy) = (about(0, 0), about(0, 1), about(1, 1));
        Spread { mean, xx, xy, yy }
    }

    /// The spread of the half of the points that lie nearest to the median of each coordinate.
    fn about_median(points: &[[f64; 2]]) -> Option<Self> {
        let middle = |k: usize| {
            let mut sorted: Vec<f64> = points.iter().map(|p| p[k]).collect();
            sorted.sort_by(f64::total_cmp);
            sorted.get(sorted.len() / 2).copied()
        };
        let mean = [middle(0)?, middle(1)?];
        let round = Spread {
            mean,
            xx: 1.0,
            xy: 0.0,
            yy: 1.0,
        };
        let (near, _) = round.nearest(points, points.len().div_ceil(2))?;
        Some(Spread::of(&near))
    }

    fn determinant(&self) -> f64 {
        self.xx * self.yy - self.xy * self.xy
    }

    /// False where the points lie on a line or on a point, as nearly as numbers tell.
    fn has_area(&self) -> bool {
        self.determinant() > 1e-12 * (self.xx + self.yy).powi(2)
    }

    /// The square of how far a point is from the mean in terms of the covariance.
    fn distance(&self, p: [f64; 2]) -> f64 {
        let (dx, dy) = (p[0] - self.mean[0], p[1] - self.mean[1]);
        (self.yy * dx * dx - 2.0 * self.xy * dx * dy + self.xx * dy * dy) / self.determinant()
    }

    /// The `count` points nearest in these terms, nearest first, and the distance of the last; those that are level come
    /// in their order.
    fn nearest(&self, points: &[[f64; 2]], count: usize) -> Option<(Vec<[f64; 2]>, f64)> {
        let mut ranked: Vec<_> = points.iter().map(|&p| (self.distance(p), p)).collect();
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        ranked.truncate(count);
        let last = ranked.last()?.0;
        Some((ranked.into_iter().map(|(_, p)| p).collect(), last))
    }

    /// The ellipse of the points up to a (squared) distance.
    fn ellipse(&self, distance: f64) -> Ellipse {
        let (middle, half) = (0.5 * (self.xx + self.yy), 0.5 * (self.xx - self.yy));
        let reach = half.hypot(self.xy);
        let long = middle + reach;
        // The product of the variances is the determinant; their difference would lose a thin ellipse.
        let short = self.determinant() / long;
        Ellipse {
            centre: self.mean,
            half_axes: [long, short].map(|variance| (variance * distance).sqrt()),
            angle: 0.5 * self.xy.atan2(half),
        }
    }
}

/// Concentration steps from a start to their end.
fn closed_in(points: &[[f64; 2]], count: usize, mut spread: Spread) -> Option<Ellipse> {
    for _ in 0..ROUNDS {
        if !spread.has_area() {
            return None;
        }
        let (near, _) = spread.nearest(points, count)?;
        let next = Spread::of(&near);
        // It shrinks until the points stay the same.
        if !(next.determinant() < spread.determinant() * (1.0 - 1e-12)) && count < points.len() {
            break;
        }
        spread = next;
        if count == points.len() {
            break;
        }
    }
    if !spread.has_area() {
        return None;
    }
    let (_, outermost) = spread.nearest(points, count)?;
    Some(spread.ellipse(outermost))
}
