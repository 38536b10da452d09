//! The tags of a feature, whatever way a converter wrote them.
use crate::text::{LONGEST_NAME, tidied};
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};

/// What a thing is stands under one of these in OpenStreetMap (its primary features, from memory): `surface` then only says
/// what its ground is made of.
const PRIMARY: [&str; 36] = [
    "aerialway",
    "aeroway",
    "amenity",
    "barrier",
    "boundary",
    "bridge",
    "building",
    "club",
    "craft",
    "crossing",
    "cycleway",
    "emergency",
    "footway",
    "geological",
    "healthcare",
    "highway",
    "historic",
    "landcover",
    "landuse",
    "leisure",
    "man_made",
    "military",
    "natural",
    "office",
    "place",
    "playground",
    "power",
    "public_transport",
    "railway",
    "route",
    "shop",
    "sport",
    "tourism",
    "traffic_calming",
    "water",
    "waterway",
];
/// Properties under which converters put the tags that have no column of their own.
const NESTED: [&str; 5] = ["tags", "other_tags", "all_tags", "osm_tags", "hstore"];

/// The tags of a feature: keys and texts that are not empty, without control characters.
///
/// Numbers are taken as they are written, and so are lists and objects. Tags may stand among the properties, or in an object, in a text of JSON or in an
/// hstore (`"golf"=>"green","ref"=>"4"`) under `tags`, `other_tags`, `all_tags`, `osm_tags` or `hstore`; of a key that is
/// told twice the one among the properties counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Tags {
    texts: BTreeMap<String, String>,
    /// The keys of those that could not be taken as they are written.
    tidied: BTreeSet<String>,
}

impl Tags {
    /// The tags among the properties of a feature.
    pub(super) fn of(properties: &Map<String, Value>) -> Self {
        let mut tags = Tags::default();
        let own = |key: &&String| !NESTED.contains(&key.as_str());
        for (key, value) in properties.iter().filter(|(key, _)| own(key)) {
            tags.add(key, value);
        }
        for nested in NESTED.iter().filter_map(|key| properties.get(*key)) {
            match nested {
                Value::Object(inner) => tags.add_all(inner),
                Value::String(text) if text.trim_start().starts_with('{') => {
                    if let Ok(Value::Object(inner)) = serde_json::from_str(text) {
                        tags.add_all(&inner);
                    }
                }
                Value::String(text) => {
                    for (key, value) in hstore(text) {
                        tags.add(&key, &Value::String(value));
                    }
                }
                _ => {}
            }
        }
        tags
    }

    /// The text of a tag.
    pub(super) fn get(&self, key: &str) -> Option<&str> {
        self.texts.get(key).map(String::as_str)
    }

    /// The text of the first of these tags that there is.
    pub(super) fn first(&self, keys: &[&str]) -> Option<&str> {
        keys.iter().find_map(|key| self.get(key))
    }

    /// True where one of these tags is not shown as it is written.
    pub(super) fn were_tidied(&self, keys: &[&str]) -> bool {
        keys.iter().any(|key| self.tidied.contains(*key))
    }

    /// True for a tag that is there and does not say no.
    pub(super) fn says_yes(&self, key: &str) -> bool {
        self.get(key).is_some_and(|value| value != "no")
    }

    /// True where a tag says that it is a road, a pitch or something else of an ordinary map; also one that it was or is to be,
    /// as `disused:railway` does.
    pub(super) fn tell_what_it_is(&self) -> bool {
        let says = |key: &String| key.rsplit(':').next().is_some_and(|k| PRIMARY.contains(&k));
        self.texts.keys().any(says)
    }

    fn add_all(&mut self, inner: &Map<String, Value>) {
        for (key, value) in inner {
            self.add(key, value);
        }
    }

    /// Adds a tag unless it is there.
    pub(super) fn add(&mut self, key: &str, value: &Value) {
        let written = match value {
            Value::String(text) => text.clone(),
            Value::Number(number) => number.to_string(),
            Value::Bool(true) => "yes".to_owned(),
            Value::Bool(false) => "no".to_owned(),
            Value::Null => return,
            Value::Array(list) if list.is_empty() => return,
            Value::Object(members) if members.is_empty() => return,
            // Nothing that is read here is a list: as text it is told to be none of what it must be.
            Value::Array(_) | Value::Object(_) => value.to_string(),
        };
        let text = tidied(&written, LONGEST_NAME);
        if text.is_empty() || self.texts.contains_key(key) {
            return;
        }
        if text != written.trim() {
            self.tidied.insert(key.to_owned());
        }
        self.texts.insert(key.to_owned(), text);
    }
}

/// The pairs of a text such as `"golf"=>"green","name"=>"the \"bowl\""`; what does not look like that ends it.
fn hstore(text: &str) -> Vec<(String, String)> {
    let mut rest = text.chars().peekable();
    let mut quoted = || -> Option<String> {
        rest.by_ref().find(|c| *c == '"')?;
        let mut word = String::new();
        loop {
            match rest.next()? {
                '"' => return Some(word),
                '\\' => word.push(rest.next()?),
                c => word.push(c),
            }
        }
    };
    let mut pairs = Vec::new();
    while let (Some(key), Some(value)) = (quoted(), quoted()) {
        pairs.push((key, value));
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn tags_are_found_wherever_converters_put_them() {
        for properties in [
            json!({"golf": "green", "ref": 4}),
            json!({"tags": {"golf": "green", "ref": "4"}}),
            json!({"golf": null, "other_tags": "\"golf\"=>\"green\",\"ref\"=>\"4\""}),
            json!({"all_tags": "{\"golf\": \"green\", \"ref\": \"4\"}", "ref": " 4 "}),
        ] {
            let tags = Tags::of(properties.as_object().unwrap());
            let found = (tags.get("golf"), tags.get("ref"));
            assert_eq!(found, (Some("green"), Some("4")), "{properties}");
        }
        let odd = json!({"name": "a\u{1b}[2Jb\u{202e}", "other_tags": "\"name\"=>\"no\",\"q\"=>\"a \\\"b\\\"\", \"cut"});
        let tags = Tags::of(odd.as_object().unwrap());
        assert_eq!(
            (tags.get("name"), tags.get("q")),
            (Some("a [2Jb"), Some("a \"b\""))
        );
        assert!(tags.were_tidied(&["q", "name"]) && !tags.were_tidied(&["q"]));
    }
}
