//! What a ball meets on every surface of a course.
use super::Turf;
use crate::hole::{Firmness, Surface};

/// The turf of every surface; water has none, a ball stops there.
#[derive(Clone, Debug, PartialEq)]
pub struct Turfs {
    by_surface: [Option<Turf>; 12],
}

impl Turfs {
    /// The surfaces of a course of a firmness whose greens read `green_speed` feet on the Stimpmeter.
    #[must_use]
    pub fn of(firmness: Firmness, green_speed: f64) -> Self {
        Turfs {
            by_surface: Surface::ALL.map(|surface| Turf::on(surface, firmness, green_speed)),
        }
    }

    /// The turf of a surface.
    #[must_use]
    #[inline]
    pub fn on(&self, surface: Surface) -> Option<&Turf> {
        self.by_surface[surface as usize].as_ref()
    }
}
