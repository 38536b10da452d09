//! A hole in words: its card, and what is on it.
use super::{Hole, Surface};
use std::fmt;

impl fmt::Display for Hole {
    /// Name, par and length, then each surface with how many there are and their area.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = self
            .number()
            .map_or(String::new(), |n| format!("No. {n}, "));
        write!(
            f,
            "{number}{}, par {}, {:.0} yd",
            self.name(),
            self.par(),
            self.length()
        )?;
        if let Some(index) = self.stroke_index() {
            write!(f, ", stroke index {index}")?;
        }
        write!(f, ", green speed {:.1} ft", self.green_speed())?;
        for surface in Surface::ALL {
            let of_it = || self.features().iter().filter(|x| x.surface == surface);
            let count = of_it().count();
            if count == 0 {
                continue;
            }
            write!(f, "\n  {:<15}{count:>3}", surface.name().replace('_', " "))?;
            // The outside of a boundary is drawn as far as the map needs; its area says nothing.
            if surface != Surface::OutOfBounds {
                write!(
                    f,
                    "{:>9.0} sq yd",
                    of_it().map(|x| x.outline.area()).sum::<f64>()
                )?;
            }
            let names: Vec<&str> = of_it().filter_map(|x| x.name.as_deref()).collect();
            if !names.is_empty() {
                write!(f, "  ({})", names.join(", "))?;
            }
        }
        for warning in self.warnings() {
            write!(f, "\n  note: {}", warning.0)?;
        }
        Ok(())
    }
}
