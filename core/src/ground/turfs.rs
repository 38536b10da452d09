//! What a ball meets on every surface of a course.
use super::Turf;
use crate::hole::{Firmness, Surface};

/// The turf of every surface; water has none, a ball stops there.
#[derive(Clone, Debug, PartialEq)]
pub struct Turfs {
    by_surface: [Option<Turf>; 12],
    alike: [Surface; 12],
}

impl Turfs {
    /// The surfaces of a course of a firmness whose greens read `green_speed` feet on the Stimpmeter.
    #[must_use]
    pub fn of(firmness: Firmness, green_speed: f64) -> Self {
        let turf = |surface| Turf::on(surface, firmness, green_speed);
        let alike = |surface| {
            let same = |other: &Surface| turf(*other) == turf(surface);
            Surface::ALL.into_iter().find(same).unwrap_or(surface)
        };
        Turfs {
            by_surface: Surface::ALL.map(turf),
            alike: Surface::ALL.map(alike),
        }
    }

    /// The first of the surfaces whose turf is that of a surface.
    #[must_use]
    #[inline]
    pub(crate) fn alike(&self, surface: Surface) -> Surface {
        self.alike[surface as usize]
    }

    /// The turf of a surface.
    #[must_use]
    #[inline]
    pub fn on(&self, surface: Surface) -> Option<&Turf> {
        self.by_surface[surface as usize].as_ref()
    }
}
