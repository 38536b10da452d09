//! Why a player cannot be prepared.
use crate::flight::FlightFault;

/// Why a player cannot be prepared for a hole.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SettingFault {
    /// A stroke has no believable flight.
    #[error("{stroke}: {fault}")]
    Stroke {
        /// The club or the stroke around the green.
        stroke: String,
        /// What is wrong with it.
        fault: FlightFault,
    },
    /// The weather is none there can be.
    #[error(transparent)]
    Weather(#[from] FlightFault),
}

impl SettingFault {
    pub(super) fn of(stroke: &str, fault: FlightFault) -> Self {
        SettingFault::Stroke {
            stroke: stroke.to_owned(),
            fault,
        }
    }
}
