//! A fit as text: what it was made from, from which it is made again.
use super::evidence::{Evidence, Known};
use super::fault::FitFault;
use super::fitted::{Basis, Fit};
use super::fitting::Fitting;
use crate::player::Player;
use serde::{Deserialize, Serialize};

/// The `format` of the document.
const FORMAT: &str = "wideberth-fit";
/// The one `version` there is.
const VERSION: u64 = 1;

/// The document as it stands, unchecked.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    format: String,
    version: u64,
    /// The player document of the prior.
    prior: serde_json::Value,
    basis: Stated,
    /// Beside evidence: the known figures of the prior, if it had any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    known: Option<Known>,
}

/// What the fit rests on besides the prior.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Stated {
    Level,
    Known(Known),
    Evidence(Evidence),
}

impl Fit {
    /// The prior and the evidence as JSON text; [`Fit::from_json`] makes the same fit of it again.
    ///
    /// # Errors
    /// None in practice: all that a fit holds can be written.
    pub fn to_json(&self) -> Result<String, FitFault> {
        let prior = serde_json::from_str(&self.prior.to_json()?).map_err(unreadable)?;
        let basis = match &self.basis {
            Basis::Level => Stated::Level,
            Basis::Known(known) => Stated::Known(known.clone()),
            Basis::Evidence(evidence, _) => Stated::Evidence(evidence.clone()),
        };
        let known = match &self.basis {
            Basis::Evidence(..) => self.known().cloned(),
            _ => None,
        };
        let (format, version) = (FORMAT.to_owned(), VERSION);
        let document = Document {
            format,
            version,
            prior,
            basis,
            known,
        };
        serde_json::to_string(&document).map_err(unreadable)
    }

    /// Fits anew what a document says.
    ///
    /// # Errors
    /// Text that is no such document, and whatever a fit refuses.
    pub fn from_json(text: &str) -> Result<Fit, FitFault> {
        match Reading::from_json(text)? {
            Reading::Done(fit) => Ok(*fit),
            Reading::UnderWay(fitting) => fitting.fit(),
        }
    }
}

/// What a document of a fit gives.
pub enum Reading {
    /// A fit that takes no time.
    Done(Box<Fit>),
    /// A fit to shots, yet to be made again: it may take some seconds.
    UnderWay(Box<Fitting>),
}

impl Reading {
    /// Reads a document that [`Fit::to_json`] wrote, without fitting anything to shots yet.
    ///
    /// # Errors
    /// Text that is no such document, and whatever a fit refuses.
    pub fn from_json(text: &str) -> Result<Reading, FitFault> {
        let document: Document = serde_json::from_str(text).map_err(unreadable)?;
        if document.format != FORMAT || document.version != VERSION {
            let (format, version) = (document.format, document.version);
            let message = format!(
                "format is {format:?} version {version}; it must be {FORMAT:?} version {VERSION}"
            );
            return Err(FitFault::Document { message });
        }
        let prior = Player::from_json(&document.prior.to_string())?;
        let known = document.known.unwrap_or_default();
        let done = match document.basis {
            Stated::Level => Fit::by_level(&prior)?,
            Stated::Known(known) => Fit::with_known(&prior, &known)?,
            Stated::Evidence(evidence) => {
                let fitting = Fitting::knowing(prior, known, evidence)?;
                return Ok(Reading::UnderWay(Box::new(fitting)));
            }
        };
        Ok(Reading::Done(Box::new(done)))
    }
}

#[expect(clippy::needless_pass_by_value, reason = "as map_err hands it over")]
fn unreadable(error: serde_json::Error) -> FitFault {
    FitFault::Document {
        message: error.to_string(),
    }
}
