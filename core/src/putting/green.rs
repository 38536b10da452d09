//! The ground of a putt: how fast it is and what is known of its slope.
use crate::geometry::{Point, Vector};

/// The ground of a putt.
///
/// A green whose slope is not told is an *ordinary* one, not a level one: makes were counted, and players fitted to them,
/// on real greens, so on it the player's whole direction and pace errors stand for its slopes too and the ball rolls
/// straight. Once the slope is told, what those errors hold of misreading is taken out, and the ball breaks, and is
/// misread, by the slope there is ([`super::stroke`]).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Green {
    /// Stimpmeter reading, feet.
    pub speed: f64,
    /// The slope, where it is told. A level green is not the same as one whose slope is not told.
    pub slope: Option<Slope>,
    /// Width of the hole over that of the Rules of Golf. A wider one takes faster balls, too: they have longer to fall.
    pub hole_scale: f64,
}

/// What a putt meets of slopes; gradients are rise over run towards +x and +y of the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// Mean gradient of the way: the plane on which the ball rolls to the hole.
    pub mean: Vector,
    /// Gradient at the hole, on which a miss runs out.
    pub at_hole: Vector,
    /// Root mean square of the grade on the way: what there is to misread, even where slopes cancel.
    pub grade: f64,
}

/// Places along a putt where its slope is looked up, besides the hole.
const PLACES: u32 = 4;

impl Slope {
    /// The same gradient everywhere.
    #[must_use]
    pub fn plane(gradient: Vector) -> Self {
        Slope {
            mean: gradient,
            at_hole: gradient,
            grade: gradient.norm(),
        }
    }

    /// What the putt from `ball` to `hole` meets of a curved green: `gradient_at` in the middles of four equal stretches of
    /// the way, and at the hole. Hot path.
    ///
    /// The mean along the way is the height between ball and hole over the distance, which settles the pace; and what a
    /// side slope moves a ball that dies at the hole is the same wherever on the way it lies, so the mean settles the
    /// break. Curves that are short beside a quarter of the putt are not seen for what they are, and
    /// [`super::stroke`] says how well the whole holds.
    #[must_use]
    #[inline]
    pub fn over(ball: Point, hole: Point, gradient_at: impl Fn(Point) -> Vector) -> Self {
        let way = hole - ball;
        let (mut sum, mut squares) = (Vector::zeros(), 0.0);
        for i in 0..PLACES {
            let gradient = gradient_at(ball + way * ((f64::from(i) + 0.5) / f64::from(PLACES)));
            sum += gradient;
            squares += gradient.norm_squared();
        }
        Slope {
            mean: sum / f64::from(PLACES),
            at_hole: gradient_at(hole),
            grade: (squares / f64::from(PLACES)).sqrt(),
        }
    }
}

impl Green {
    /// An ordinary green of a Stimpmeter reading, feet: its slope is not told.
    #[must_use]
    pub fn ordinary(speed: f64) -> Self {
        Green {
            speed,
            slope: None,
            hole_scale: 1.0,
        }
    }

    /// A plane of a known `gradient`, rise over run; nought is a green known to be level.
    #[must_use]
    pub fn plane(speed: f64, gradient: Vector) -> Self {
        Green {
            slope: Some(Slope::plane(gradient)),
            ..Green::ordinary(speed)
        }
    }

    /// A curved green of known gradients, for the putt from `ball` to `hole`; see [`Slope::over`]. Hot path.
    #[must_use]
    #[inline]
    pub fn over(
        speed: f64,
        ball: Point,
        hole: Point,
        gradient_at: impl Fn(Point) -> Vector,
    ) -> Self {
        Green {
            slope: Some(Slope::over(ball, hole, gradient_at)),
            ..Green::ordinary(speed)
        }
    }

    /// The same green with a hole `scale` times as wide as that of the Rules of Golf.
    #[must_use]
    pub fn with_hole(self, scale: f64) -> Self {
        Green {
            hole_scale: scale,
            ..self
        }
    }
}
