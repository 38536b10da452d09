//! What a landform must hold to.
use super::super::draft::{FARTHEST, check_point};
use super::super::{FeatureRef, HoleFault, HoleParts, Surface};
use super::patch::Laid;
use super::planes::to_green;
use super::sum::{Base, outline};
use super::{Contours, Landform, Over, Patch, Step, TwoTier};
use crate::geometry::{HeightGrid, Point, Vector};
use crate::units::feet_from_yards;

/// No tilt is steeper than a bank, percent: mown banks are built to about 1 in 3, and no ball rests on much steeper ones
/// (common practice, no source).
const BANK: f64 = 60.0;
/// No green is tilted by more than this, percent: 1 to 3 % are usual near a hole (common practice, no source).
const GREEN: f64 = 15.0;
/// The widest rim, yards.
pub(super) const WIDEST: f64 = 100.0;
/// Heights above the sea, feet: the Dead Sea's shore lies at -1,400, the highest courses below 15,000 (from memory).
const LOWEST_FT: f64 = -2_000.0;
const HIGHEST_FT: f64 = 20_000.0;
/// The most a survey may rise and fall, feet: more is a grid in the wrong unit or with a mark for gaps in it.
const RELIEF_FT: f64 = 3_000.0;
/// The most patches and steps: enough for every green, tee and mound.
const MOST_PATCHES: usize = 1_000;
const MOST_STEPS: usize = 100;

/// Every fault of a landform on a map.
pub(super) fn faults(landform: &Landform, parts: &HoleParts) -> Vec<HoleFault> {
    let mut list = Faults(Vec::new());
    list.planes(landform.rise_ft, landform.fall_right_percent, parts);
    if landform.patches.len() > MOST_PATCHES {
        let allowed = format!("at most {MOST_PATCHES}");
        list.field("number of patches", landform.patches.len(), allowed);
    } else {
        let base = Base::new(landform, parts);
        for (i, patch) in landform.patches.iter().enumerate() {
            list.patch(i, patch, parts, &base);
        }
    }
    list.heights(landform.survey_ft.as_ref(), parts);
    list.0
}

/// Every fault of a coach's numbers: by the names they were told with, not by those of the patch that is made of them.
pub(super) fn faults_of_contours(contours: &Contours, parts: &HoleParts) -> Vec<HoleFault> {
    let mut list = Faults(Vec::new());
    list.planes(contours.uphill_ft, contours.fairway_tilt_percent, parts);
    if let Some(tilt) = contours.green_tilt_percent {
        list.tilt("green_tilt_percent", tilt, true);
    }
    if let Some(TwoTier {
        step_ft,
        ramp,
        back,
    }) = contours.two_tier_green
    {
        list.range("two_tier_green.back", back, FARTHEST, "yards");
        let fields = ["two_tier_green.ramp", "two_tier_green.step_ft"];
        list.ramp(fields.map(str::to_owned), ramp, step_ft);
    }
    list.heights(contours.survey_ft.as_ref(), parts);
    list.0
}

struct Faults(Vec<HoleFault>);

impl Faults {
    fn field(&mut self, field: impl Into<String>, value: impl std::fmt::Display, allowed: String) {
        self.0.push(HoleFault::field(field, value, allowed));
    }

    /// Refuses a value that is farther than `most` from 0, or no number.
    fn range(&mut self, field: impl Into<String>, value: f64, most: f64, unit: &str) -> bool {
        let good = value.abs() <= most;
        if !good {
            self.field(field, value, format!("{} to {most} {unit}", -most));
        }
        good
    }

    /// The planes of the ground, by their names in a landform and in a sketch.
    fn planes(&mut self, rise_ft: f64, fall_right_percent: f64, parts: &HoleParts) {
        let steepest = feet_from_yards(to_green(parts).norm()) * BANK / 100.0;
        let unit = format!("feet ({BANK} % from tee to green)");
        self.range("rise_ft (uphill_ft)", rise_ft, steepest.floor(), &unit);
        self.range(
            "fall_right_percent (fairway_tilt_percent)",
            fall_right_percent,
            BANK,
            "percent",
        );
    }

    /// A tilt told in two directions must be no steeper than a green or a bank is.
    fn tilt(&mut self, field: &str, (x, y): (f64, f64), on_green: bool) {
        let (most, what) = if on_green {
            (GREEN, "a green")
        } else {
            (BANK, "a bank")
        };
        if !(Vector::new(x, y).norm() <= most) {
            let allowed = format!("at most {most} percent steep, for {what}");
            self.field(field, format!("({x}, {y})"), allowed);
        }
    }

    fn patch(&mut self, i: usize, patch: &Patch, parts: &HoleParts, base: &Base<'_>) {
        let before = self.0.len();
        let name = format!("patches[{i}]");
        let Some(outline) = outline(patch, parts) else {
            if let Over::Feature(feature) = patch.over {
                let allowed = match parts.features.len() {
                    0 => "left out: there are no features".to_owned(),
                    n => format!("the place of a feature in the list, 0 to {}", n - 1),
                };
                self.field(format!("{name}.feature"), feature, allowed);
            }
            return;
        };
        let on_green =
            matches!(patch.over, Over::Feature(f) if parts.features[f].surface == Surface::Green);
        let tilt = (patch.rise_percent.x, patch.rise_percent.y);
        self.tilt(&format!("{name}.rise_percent"), tilt, on_green);
        self.range(format!("{name}.raise_ft"), patch.raise_ft, 100.0, "feet");
        let rim_is_good = (1.0..=WIDEST).contains(&patch.blend);
        if !rim_is_good {
            let allowed = format!("1 to {WIDEST} yards");
            self.field(format!("{name}.blend"), patch.blend, allowed);
        }
        if patch.steps.len() > MOST_STEPS {
            let allowed = format!("at most {MOST_STEPS}");
            self.field(
                format!("{name}, number of steps"),
                patch.steps.len(),
                allowed,
            );
            return;
        }
        for (k, step) in patch.steps.iter().enumerate() {
            self.step(&format!("{name}.steps[{k}]"), step);
        }
        if self.0.len() == before {
            let rim = Laid::new(patch, outline, base).rim(base);
            self.rim(&name, rim, patch.blend);
        }
    }

    fn step(&mut self, name: &str, step: &Step) {
        for (end, p) in [("foot", step.foot), ("top", step.top)] {
            check_point(&format!("{name}.{end}"), p, &mut self.0);
        }
        let fields = [format!("ramp of {name}"), format!("{name}.height_ft")];
        self.ramp(fields, (step.top - step.foot).norm(), step.height_ft);
    }

    /// A ramp so long that rises so far; `fields` are what the length and the height are called.
    fn ramp(&mut self, [length, height]: [String; 2], ramp: f64, height_ft: f64) {
        if !(0.5..=200.0).contains(&ramp) {
            let allowed = "0.5 to 200 yards from foot to top".to_owned();
            self.field(length, ramp, allowed);
            return;
        }
        // A smooth ramp is half as steep again in its middle as on average.
        let most = feet_from_yards(ramp) * BANK / 150.0;
        let unit = format!("feet over a ramp of {ramp:.1} yards ({BANK} % in its middle)");
        self.range(height, height_ft, (most * 100.0).floor() / 100.0, &unit);
    }

    /// The rim of a patch must be no steeper than a bank.
    fn rim(&mut self, name: &str, rim: f64, blend: f64) {
        let steep = 150.0 * rim / blend;
        if steep > BANK {
            let height = feet_from_yards(rim);
            let value =
                format!("{blend} yards: its rim of {height:.1} ft would be {steep:.0} % steep");
            let allowed = format!(
                "at least {:.0} yards there, so that it is no steeper than {BANK} %",
                (150.0 * rim / BANK).ceil()
            );
            self.field(format!("{name}.blend"), value, allowed);
        }
    }

    /// Surveyed heights, if there are any.
    fn heights(&mut self, survey: Option<&HeightGrid>, parts: &HoleParts) {
        if let Some(survey) = survey {
            self.survey(survey);
            self.coverage(survey, parts);
        }
    }

    /// Heights that no ground has, and the unit taken wrong.
    fn survey(&mut self, survey: &HeightGrid) {
        let (low, high) = survey
            .heights()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| {
                (low.min(h), high.max(h))
            });
        for (limit_is_broken, value) in [(low < LOWEST_FT, low), (high > HIGHEST_FT, high)] {
            if limit_is_broken {
                let columns = survey.columns();
                let place = survey.heights().position(|h| h == value).unwrap_or(0);
                let field = format!(
                    "height at row {}, column {}",
                    place / columns,
                    place % columns
                );
                let allowed = format!("{LOWEST_FT} to {HIGHEST_FT} feet (is it a mark for a gap?)");
                self.field(field, value, allowed);
            }
        }
        if high - low > RELIEF_FT {
            let value = format!("{:.0} feet", high - low);
            let allowed = format!("at most {RELIEF_FT} feet (are the units wrong?)");
            self.field(
                "difference of the highest and lowest height",
                value,
                allowed,
            );
        }
    }

    /// The survey must reach over the tee, the pin, the line of play and everything that is mown or raked; woods, water,
    /// rough and the ground out of bounds are drawn far beyond the hole.
    fn coverage(&mut self, survey: &HeightGrid, parts: &HoleParts) {
        let mut needed = |what: &str, points: &[Point]| {
            let short = points
                .iter()
                .map(|&p| survey.short_of(p))
                .fold(0.0, f64::max);
            if short > 0.0 {
                self.0.push(HoleFault::Uncovered {
                    what: what.to_owned(),
                    short,
                });
            }
        };
        needed("tee", &[parts.tee]);
        needed("pin", &[parts.pin]);
        needed("line of play", parts.line.vertices());
        for (index, feature) in parts.features.iter().enumerate() {
            if feature.surface.is_tended() {
                let name = FeatureRef {
                    index,
                    surface: feature.surface,
                    name: feature.name.clone(),
                };
                let (low, high) = feature.outline.bounds();
                needed(&name.to_string(), &[low, high]);
            }
        }
    }
}

/// The slope at the pin must let a ball rest.
pub(in super::super) fn pin(terrain: &super::Terrain, pin: Point) -> Option<HoleFault> {
    let percent = 100.0 * terrain.slope(pin).norm();
    (!(percent <= GREEN)).then_some(HoleFault::SteepAtPin {
        pin,
        percent,
        most: GREEN,
    })
}

const _: () = assert!(GREEN < BANK && RELIEF_FT < HIGHEST_FT - LOWEST_FT);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::yards_from_feet;

    /// A step at the limit of its ramp is as steep as a bank in its middle.
    #[test]
    fn the_steepest_step_is_a_bank() {
        let (ramp, feet) = (4.0, feet_from_yards(4.0) * BANK / 150.0);
        assert!((1.5 * yards_from_feet(feet) / ramp - BANK / 100.0).abs() < 1e-12);
    }
}
