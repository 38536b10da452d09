//! What a ball meets on every surface of a course.
use super::Turf;
use crate::hole::{Firmness, Surface};

/// The turf of every surface; water has none, a ball stops there.
#[derive(Clone, Debug, PartialEq)]
pub struct Turfs {
    by_surface: [Option<Turf>; 12],
    /// The least that any of them slows a rolling ball, and a skipping one.
    least_rolling: f64,
    least_skip_loss: f64,
}

impl Turfs {
    /// The surfaces of a course of a firmness whose greens read `green_speed` feet on the Stimpmeter.
    #[must_use]
    pub fn of(firmness: Firmness, green_speed: f64) -> Self {
        let by_surface = Surface::ALL.map(|surface| Turf::on(surface, firmness, green_speed));
        let least = |value: fn(&Turf) -> f64| {
            by_surface
                .iter()
                .flatten()
                .map(value)
                .fold(f64::INFINITY, f64::min)
        };
        Turfs {
            least_rolling: least(|t| t.rolling),
            least_skip_loss: least(|t| t.skip_loss),
            by_surface,
        }
    }

    /// The turf of a surface.
    #[must_use]
    #[inline]
    pub fn on(&self, surface: Surface) -> Option<&Turf> {
        self.by_surface[surface as usize].as_ref()
    }

    pub(super) fn least_rolling(&self) -> f64 {
        self.least_rolling
    }

    pub(super) fn least_skip_loss(&self) -> f64 {
        self.least_skip_loss
    }
}
