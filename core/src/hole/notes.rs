//! What whoever plays a hole should know of it: what was assumed, what is not told, what is out of the ordinary.
use super::{FeatureRef, Hole, Warning, woods};
use crate::figures::hole::{STEEP_GREEN, SURVEY_SPACING, SURVEY_STEP_FT};

impl Hole {
    /// Everything that should be known of the hole, one sentence each: what the reader of the map assumed
    /// ([`Hole::warnings`]), woods that the hole is cut out of ([`Hole::standing_trees`]), a survey that does not tell the
    /// green, and a green that is steep at the pin ([`Hole::steep_pin`]).
    #[must_use]
    pub fn notes(&self) -> Vec<Warning> {
        let read = self.warnings().iter().cloned();
        read.chain(self.cut_woods())
            .chain(self.coarse_survey())
            .chain(self.steep_pin())
            .collect()
    }

    /// A green that is known to be steeper at the pin than 5 %: holes are seldom cut where it is steeper than 3 to 5 %
    /// (common practice, no source).
    #[must_use]
    pub fn steep_pin(&self) -> Option<Warning> {
        let slope = self.terrain().slope(self.pin()).norm();
        (self.terrain().tells_greens() && slope > STEEP_GREEN).then(|| {
            let (is, most) = (100.0 * slope, 100.0 * STEEP_GREEN);
            Warning(format!(
                "the green falls {is:.1} % at the pin; holes are seldom cut where it is more than 3 to {most} %"
            ))
        })
    }

    fn coarse_survey(&self) -> Option<Warning> {
        let landform = self.terrain().landform().filter(|l| l.ordinary_greens)?;
        let survey = landform.survey_ft.as_ref()?;
        let apart = survey.cell().amax();
        let coarse = if apart > SURVEY_SPACING {
            format!("are {apart:.1} yards apart, more than {SURVEY_SPACING}")
        } else {
            let step = survey.least_step().filter(|step| *step > SURVEY_STEP_FT)?;
            format!("are told in steps of {step:.2} feet, more than {SURVEY_STEP_FT}")
        };
        Some(Warning(format!(
            "the heights of the survey {coarse}: they do not tell the slopes of greens, which are taken for ordinary \
             ones; the tilt or the tiers of the green can be told with the survey"
        )))
    }

    fn cut_woods(&self) -> impl Iterator<Item = Warning> {
        let parts = self.parts();
        let woods = parts.features.iter().enumerate();
        let woods = woods.filter(|(_, feature)| woods::is_cut(feature, parts));
        woods.map(|(index, feature)| {
            let wood = FeatureRef {
                index,
                surface: feature.surface,
                name: feature.name.clone(),
            };
            let place = if feature.outline.contains(parts.tee) {
                "tee"
            } else {
                "pin"
            };
            Warning(format!(
                "{wood} cover the {place}: the hole is taken to be cut out of them, and they stand only where nothing \
                 else is drawn over them"
            ))
        })
    }
}
