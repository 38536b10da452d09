//! A plan as a JSON document.
use super::{Instruction, Plan, PlanFault, Then};
use serde::{Deserialize, Serialize};

const FORMAT: &str = "wideberth-plan";
const VERSION: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    format: String,
    version: u32,
    name: String,
    instructions: Vec<Instruction>,
    then: String,
}

impl Plan {
    /// The plan as a JSON document.
    ///
    /// # Errors
    /// [`PlanFault::NoDocument`] if the plan goes on with a strategy of the caller's own, which a
    /// document cannot hold.
    pub fn to_json(&self) -> Result<String, PlanFault> {
        let no_document = |reason: &str| PlanFault::NoDocument {
            reason: reason.to_owned(),
        };
        let then = self
            .then()
            .name()
            .ok_or_else(|| no_document("then is a strategy with no name"))?;
        let document = Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: self.name().to_owned(),
            instructions: self.instructions().to_vec(),
            then: then.to_owned(),
        };
        serde_json::to_string_pretty(&document).map_err(|e| no_document(&e.to_string()))
    }

    /// Reads a plan from a JSON document.
    ///
    /// # Errors
    /// Text that is not JSON, another format or version, unknown fields, and everything that
    /// [`Plan::new`] refuses.
    pub fn from_json(text: &str) -> Result<Self, PlanFault> {
        let document: Document =
            serde_json::from_str(text).map_err(|e| PlanFault::BadDocument {
                reason: e.to_string(),
            })?;
        if document.format != FORMAT || document.version != VERSION {
            let (format, version) = (document.format, document.version);
            let reason = format!(
                "format is {format:?} version {version}; it must be {FORMAT:?} version {VERSION}"
            );
            return Err(PlanFault::BadDocument { reason });
        }
        Plan::new(
            &document.name,
            document.instructions,
            Then::from_name(&document.then)?,
        )
    }
}
