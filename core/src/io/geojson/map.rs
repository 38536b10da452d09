//! A map taken apart into the features that have to do with golf.
use super::classify::{self, Class, Kind};
use super::once::once;
use super::overpass;
use super::shape::{self, Broken, Position, Shape};
use super::tags::Tags;
use crate::hole::FeatureRef;
use crate::io::ReadFault;
use crate::io::json::{shown, wrong};
use crate::text::{LONGEST_CREDIT, tidied};
use serde_json::{Map as Members, Value};

/// A map: what has to do with golf, and the credit that its data asks for.
pub(super) struct Map {
    pub(super) features: Vec<Mapped>,
    pub(super) attribution: Option<String>,
}

/// A feature of the map that has to do with golf.
pub(super) struct Mapped {
    /// Its place in the map, counted from 0.
    pub(super) index: usize,
    pub(super) class: Class,
    pub(super) tags: Tags,
    /// Its geometry, or what is wrong with it.
    pub(super) shape: Result<Shape, Broken>,
}

impl Mapped {
    /// How faults and notes call it.
    pub(super) fn label(&self) -> String {
        match self.class.kind {
            Kind::Surface(surface) => FeatureRef {
                index: self.index,
                surface,
                name: self.name(),
            }
            .to_string(),
            Kind::Pin => format!("pin (feature {})", self.index),
            _ => format!("{} (feature {})", self.class.tag, self.index),
        }
    }

    /// What it is called without its place in the map.
    pub(super) fn called(&self) -> String {
        let name = self.name().map(|name| format!(" {name:?}"));
        match self.class.kind {
            Kind::Surface(surface) => format!("{}{}", surface.name(), name.unwrap_or_default()),
            Kind::Pin => "pin".to_owned(),
            _ => self.class.tag.clone(),
        }
    }

    pub(super) fn name(&self) -> Option<String> {
        self.tags.get("name").map(str::to_owned)
    }

    /// Every position of it that could be read.
    pub(super) fn positions(&self) -> Box<dyn Iterator<Item = Position> + '_> {
        match &self.shape {
            Ok(shape) => Box::new(shape.positions()),
            Err(broken) => Box::new(broken.positions.iter().copied()),
        }
    }

    /// Its areas: none where it is something else.
    pub(super) fn areas(&self) -> &[Vec<Vec<Position>>] {
        match &self.shape {
            Ok(Shape::Areas(areas)) => areas,
            _ => &[],
        }
    }
}

/// Takes a map apart: a GeoJSON `FeatureCollection` or the answer of an Overpass query.
///
/// # Errors
/// What keeps the whole map from being read. A feature whose geometry is faulty is kept with its faults: they matter only
/// where it is near a hole.
pub(super) fn read(value: &Value) -> Result<Map, Vec<ReadFault>> {
    let attribution = attribution(value);
    let features = if let Some(elements) = value.get("elements").and_then(Value::as_array) {
        let elements = overpass::elements(elements).into_iter();
        elements
            .filter_map(|e| mapped(e.index, e.tags, e.shape))
            .collect()
    } else {
        features(value)?
    };
    Ok(Map {
        features: once(features),
        attribution,
    })
}

fn features(value: &Value) -> Result<Vec<Mapped>, Vec<ReadFault>> {
    if value.get("type").and_then(Value::as_str) != Some("FeatureCollection") {
        let kind = value.get("type").unwrap_or(&Value::Null);
        return Err(vec![wrong("type", kind, "\"FeatureCollection\"")]);
    }
    let mut faults = Vec::new();
    let is_foreign = |crs: &&Value| {
        let text = crs.to_string();
        !crs.is_null() && !text.contains("CRS84") && !text.contains("EPSG::4326")
    };
    if let Some(crs) = value.get("crs").filter(is_foreign) {
        faults.push(ReadFault::Crs { crs: shown(crs) });
    }
    let Some(list) = value.get("features").and_then(Value::as_array) else {
        let is = value.get("features").unwrap_or(&Value::Null);
        faults.push(wrong("features", is, "a list of features"));
        return Err(faults);
    };
    let mut found = Vec::new();
    for (index, feature) in list.iter().enumerate() {
        if feature.get("type").and_then(Value::as_str) != Some("Feature") {
            let allowed = "an object with \"type\": \"Feature\"";
            faults.push(wrong(&format!("features[{index}]"), feature, allowed));
            continue;
        }
        let properties = feature.get("properties").and_then(Value::as_object);
        let geometry = feature.get("geometry").unwrap_or(&Value::Null);
        found.extend(properties.and_then(|tags| of_geojson(index, tags, geometry)));
    }
    if faults.is_empty() {
        Ok(found)
    } else {
        Err(faults)
    }
}

fn of_geojson(
    index: usize,
    properties: &Members<String, Value>,
    geometry: &Value,
) -> Option<Mapped> {
    let tags = Tags::of(properties);
    // Most features of a map have nothing to do with golf: their geometry is not read.
    classify::class(&tags)?;
    mapped(index, tags, shape::read(geometry))
}

fn mapped(index: usize, tags: Tags, shape: Result<Shape, Broken>) -> Option<Mapped> {
    let class = classify::class(&tags)?;
    Some(Mapped {
        index,
        class,
        tags,
        shape,
    })
}

/// The credit the data asks for, where the document tells it.
fn attribution(value: &Value) -> Option<String> {
    let of = |value: &Value| {
        let credit = tidied(value.as_str()?, LONGEST_CREDIT);
        Some(credit).filter(|text| !text.is_empty())
    };
    let told = value.get("attribution").and_then(of);
    let told = told.or_else(|| of(value.get("properties")?.get("attribution")?));
    told.or_else(|| of(value.get("osm3s")?.get("copyright")?))
}
