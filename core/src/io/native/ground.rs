//! The terrain and the conditions of a hole in its document.
use super::super::ReadFault;
use super::super::json::{self, Fields, wrong};
use super::{pair, pairs};
use crate::geometry::{HeightGrid, Point, Polygon, Ring};
use crate::hole::{Conditions, Firmness, HoleFaults, Landform, Over, Patch, Step, Wind};
use serde_json::{Value, json};

/// What a member that is said or not may be.
const YES_OR_NO: &str = "true or false";

/// The member `terrain`.
pub(super) fn terrain_value(landform: &Landform) -> Value {
    let mut value = json!({});
    if landform.rise_ft != 0.0 {
        value["rise_ft"] = json!(landform.rise_ft);
    }
    if landform.fall_right_percent != 0.0 {
        value["fall_right_percent"] = json!(landform.fall_right_percent);
    }
    if !landform.patches.is_empty() {
        value["patches"] = landform.patches.iter().map(patch_value).collect();
    }
    if landform.ordinary_greens {
        value["ordinary_greens"] = json!(true);
    }
    if let Some(survey) = &landform.survey_ft {
        let heights: Vec<f64> = survey.heights().collect();
        let rows: Vec<&[f64]> = heights.chunks(survey.columns()).collect();
        value["survey"] = json!({
            "corner": pair(survey.corner()),
            "cell": [survey.cell().x, survey.cell().y],
            "heights_ft": rows,
        });
    }
    value
}

fn patch_value(patch: &Patch) -> Value {
    let mut value = json!({
        "raise_ft": patch.raise_ft,
        "rise_percent": [patch.rise_percent.x, patch.rise_percent.y],
        "blend": patch.blend,
    });
    match &patch.over {
        Over::Feature(i) => value["feature"] = json!(i),
        Over::Area(outline) => {
            value["outline"] = pairs(outline.exterior().vertices());
            let holes = outline.holes().iter().map(Ring::vertices).map(pairs);
            let holes: Vec<Value> = holes.collect();
            if !holes.is_empty() {
                value["holes"] = json!(holes);
            }
        }
    }
    if patch.level {
        value["level"] = json!(true);
    }
    if !patch.steps.is_empty() {
        let step =
            |s: &Step| json!({"foot": pair(s.foot), "top": pair(s.top), "height_ft": s.height_ft});
        value["steps"] = patch.steps.iter().map(step).collect();
    }
    value
}

/// The member `conditions`; what is as usual is left out.
pub(super) fn conditions_value(conditions: &Conditions) -> Value {
    let usual = Conditions::default();
    let mut value = json!({});
    if conditions.wind != usual.wind {
        let wind = conditions.wind;
        value["wind"] = json!({"mph": wind.mph(), "from_deg": wind.from_deg()});
    }
    if conditions.firmness != usual.firmness {
        value["firmness"] = firmness_value(conditions.firmness);
    }
    if let Some(speed) = conditions.green_speed {
        value["green_speed_ft"] = json!(speed);
    }
    for (name, own, usual) in [
        (
            "temperature_f",
            conditions.temperature_f,
            usual.temperature_f,
        ),
        ("altitude_ft", conditions.altitude_ft, usual.altitude_ft),
        (
            "hole_diameter_in",
            conditions.hole_diameter_in,
            usual.hole_diameter_in,
        ),
    ] {
        if own != usual {
            value[name] = json!(own);
        }
    }
    value
}

fn firmness_value(firmness: Firmness) -> Value {
    firmness
        .name()
        .map_or_else(|| json!(firmness.factor()), |name| json!(name))
}

/// Reads the member `conditions`: the day, or the values of it that are out of range. None where a value is of the wrong
/// kind.
pub(super) fn conditions(
    value: &Value,
    path: &str,
    faults: &mut Vec<ReadFault>,
) -> Option<Result<Conditions, HoleFaults>> {
    let mut fields = Fields::of(value, path, faults)?;
    let before = faults.len();
    let usual = Conditions::default();
    let wind_path = fields.path("wind");
    let wind = fields.optional("wind", "an object", Some, faults);
    let wind = wind.and_then(|value| wind_of(value, &wind_path, faults));
    let firmness = fields.optional("firmness", Firmness::ALLOWED, firmness_of, faults);
    let mut number =
        |name: &'static str, allowed: &str| fields.optional(name, allowed, Value::as_f64, faults);
    let green_speed = number("green_speed_ft", "a number, 4 to 16");
    let temperature_f = number("temperature_f", "a number, -40 to 130");
    let altitude_ft = number("altitude_ft", "a number, -1500 to 20000");
    let hole_diameter_in = number("hole_diameter_in", "a number, 2 to 36");
    fields.finish(faults);
    if faults.len() > before {
        return None;
    }
    let (wind, mut out_of_range) = match wind {
        Some(Err(faults)) => (usual.wind, faults.0),
        Some(Ok(wind)) => (wind, Vec::new()),
        None => (usual.wind, Vec::new()),
    };
    let day = Conditions {
        wind,
        firmness: firmness.unwrap_or(usual.firmness),
        green_speed,
        temperature_f: temperature_f.unwrap_or(usual.temperature_f),
        altitude_ft: altitude_ft.unwrap_or(usual.altitude_ft),
        hole_diameter_in: hole_diameter_in.unwrap_or(usual.hole_diameter_in),
    };
    if let Err(more) = day.checked() {
        out_of_range.extend(more.0);
    }
    Some(if out_of_range.is_empty() {
        Ok(day)
    } else {
        Err(HoleFaults(out_of_range))
    })
}

fn wind_of(
    value: &Value,
    path: &str,
    faults: &mut Vec<ReadFault>,
) -> Option<Result<Wind, HoleFaults>> {
    let mut fields = Fields::of(value, path, faults)?;
    let mph = fields.required("mph", "a number, 0 to 60", Value::as_f64, faults);
    let from_deg = fields.required("from_deg", "a bearing in degrees", Value::as_f64, faults);
    fields.finish(faults);
    Some(Wind::new(mph?, from_deg?))
}

fn firmness_of(value: &Value) -> Option<Firmness> {
    match (value.as_str(), value.as_f64()) {
        (Some(name), _) => Firmness::from_name(name).ok(),
        (_, Some(factor)) => Firmness::new(factor).ok(),
        _ => None,
    }
}

/// Reads the member `terrain`; it is checked when it is put on the hole.
pub(super) fn terrain(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<Landform> {
    let mut fields = Fields::of(value, path, faults)?;
    let before = faults.len();
    let rise_ft = fields.optional("rise_ft", "a number of feet", Value::as_f64, faults);
    let fall = fields.optional("fall_right_percent", "a number", Value::as_f64, faults);
    let survey_path = fields.path("survey");
    let survey_ft = fields.optional("survey", "an object", Some, faults);
    let survey_ft = survey_ft.and_then(|value| survey(value, &survey_path, faults));
    let patches: Vec<Patch> = fields
        .list("patches", faults)
        .into_iter()
        .filter_map(|(path, value)| patch(value, &path, faults))
        .collect();
    let ordinary = fields.optional("ordinary_greens", YES_OR_NO, Value::as_bool, faults);
    fields.finish(faults);
    (faults.len() == before).then(|| Landform {
        survey_ft,
        rise_ft: rise_ft.unwrap_or(0.0),
        fall_right_percent: fall.unwrap_or(0.0),
        patches,
        ordinary_greens: ordinary.unwrap_or(false),
    })
}

fn survey(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<HeightGrid> {
    let mut fields = Fields::of(value, path, faults)?;
    let before = faults.len();
    let corner = fields.required("corner", "a point [x, y], yards", json::point, faults);
    let cell = fields.required("cell", "a pair [x, y], yards", json::point, faults);
    let rows = fields.list("heights_ft", faults);
    fields.finish(faults);
    let mut heights = Vec::new();
    let mut columns = None;
    for (path, row) in &rows {
        let allowed = "a list of numbers (feet), as many in every row";
        let numbers: Option<Vec<f64>> = row
            .as_array()
            .and_then(|row| row.iter().map(Value::as_f64).collect());
        match numbers {
            Some(numbers) if columns.is_none_or(|n| n == numbers.len()) => {
                columns = Some(numbers.len());
                heights.extend(numbers);
            }
            _ => faults.push(wrong(path, row, allowed)),
        }
    }
    if faults.len() > before {
        return None;
    }
    let grid = HeightGrid::new(corner?, cell?.coords, columns.unwrap_or(0), &heights);
    grid.map_err(|list| {
        faults.extend(list.into_iter().map(|fault| ReadFault::Geometry {
            feature: path.to_owned(),
            message: fault.to_string(),
        }));
    })
    .ok()
}

fn patch(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<Patch> {
    let mut fields = Fields::of(value, path, faults)?;
    let before = faults.len();
    let feature = fields.optional("feature", "a whole number", Value::as_u64, faults);
    let allowed = "a list of points [x, y], yards";
    let outline = fields.optional("outline", allowed, json::points, faults);
    let mut rings: Vec<Vec<Point>> = outline.into_iter().collect();
    for (path, value) in fields.list("holes", faults) {
        match json::points(value) {
            Some(ring) => rings.push(ring),
            None => faults.push(wrong(&path, value, allowed)),
        }
    }
    let level = fields.optional("level", YES_OR_NO, Value::as_bool, faults);
    let raise_ft = fields.optional("raise_ft", "a number of feet", Value::as_f64, faults);
    let rise = fields.optional("rise_percent", "a pair [x, y]", json::point, faults);
    let blend = fields.optional("blend", "a number, 1 to 100", Value::as_f64, faults);
    let steps: Vec<Step> = fields
        .list("steps", faults)
        .into_iter()
        .filter_map(|(path, value)| step(value, &path, faults))
        .collect();
    fields.finish(faults);
    let over = over(value, path, feature, rings, faults);
    let usual = Patch::over(over.filter(|_| faults.len() == before)?);
    Some(Patch {
        level: level.unwrap_or(usual.level),
        raise_ft: raise_ft.unwrap_or(usual.raise_ft),
        rise_percent: rise.map_or(usual.rise_percent, |p: Point| p.coords),
        blend: blend.unwrap_or(usual.blend),
        steps,
        ..usual
    })
}

/// What a patch lies over: a feature or an outline, not both.
fn over(
    value: &Value,
    path: &str,
    feature: Option<u64>,
    rings: Vec<Vec<Point>>,
    faults: &mut Vec<ReadFault>,
) -> Option<Over> {
    match feature {
        Some(i) if rings.is_empty() => usize::try_from(i).ok().map(Over::Feature),
        None if !rings.is_empty() => match Polygon::from_points(rings) {
            Ok(outline) => Some(Over::Area(outline)),
            Err(list) => {
                faults.extend(list.into_iter().map(|fault| ReadFault::Geometry {
                    feature: path.to_owned(),
                    message: fault.to_string(),
                }));
                None
            }
        },
        _ => {
            let allowed = "an object with either \"feature\" or \"outline\"";
            faults.push(wrong(path, value, allowed));
            None
        }
    }
}

fn step(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<Step> {
    let mut fields = Fields::of(value, path, faults)?;
    let foot = fields.required("foot", "a point [x, y], yards", json::point, faults);
    let top = fields.required("top", "a point [x, y], yards", json::point, faults);
    let height = fields.required("height_ft", "a number of feet", Value::as_f64, faults);
    fields.finish(faults);
    Some(Step {
        foot: foot?,
        top: top?,
        height_ft: height?,
    })
}
