//! The tags of a feature, whatever way a converter wrote them.
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The longest value that is kept, characters: nothing that is read here is longer.
const LONGEST: usize = 200;
/// Properties under which converters put the tags that have no column of their own.
const NESTED: [&str; 5] = ["tags", "other_tags", "all_tags", "osm_tags", "hstore"];

/// The tags of a feature: keys and texts that are not empty, without control characters.
///
/// Numbers are taken as they are written. Tags may stand among the properties, or in an object, in a text of JSON or in an
/// hstore (`"golf"=>"green","ref"=>"4"`) under `tags`, `other_tags`, `all_tags`, `osm_tags` or `hstore`; of a key that is
/// told twice the one among the properties counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Tags(BTreeMap<String, String>);

impl Tags {
    /// The tags among the properties of a feature.
    pub(super) fn of(properties: &Map<String, Value>) -> Self {
        let mut tags = Tags::default();
        for (key, value) in properties {
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
        self.0.get(key).map(String::as_str)
    }

    /// The text of the first of these tags that there is.
    pub(super) fn first(&self, keys: &[&str]) -> Option<&str> {
        keys.iter().find_map(|key| self.get(key))
    }

    /// True for a tag that is there and does not say no.
    pub(super) fn says_yes(&self, key: &str) -> bool {
        self.get(key).is_some_and(|value| value != "no")
    }

    fn add_all(&mut self, inner: &Map<String, Value>) {
        for (key, value) in inner {
            self.add(key, value);
        }
    }

    /// Adds a tag unless it is there.
    pub(super) fn add(&mut self, key: &str, value: &Value) {
        let text = match value {
            Value::String(text) => plain(text),
            Value::Number(number) => number.to_string(),
            Value::Bool(true) => "yes".to_owned(),
            Value::Bool(false) => "no".to_owned(),
            _ => return,
        };
        if !text.is_empty() {
            self.0.entry(key.to_owned()).or_insert(text);
        }
    }
}

/// A text as it can be shown: control characters are spaces, and what is very long is cut.
pub(super) fn plain(text: &str) -> String {
    let shown = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    let cut: String = shown.take(LONGEST).collect();
    cut.trim().to_owned()
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
        let odd = json!({"name": "a\u{1b}[2Jb", "other_tags": "\"name\"=>\"no\",\"q\"=>\"a \\\"b\\\"\", \"cut"});
        let tags = Tags::of(odd.as_object().unwrap());
        assert_eq!(
            (tags.get("name"), tags.get("q")),
            (Some("a [2Jb"), Some("a \"b\""))
        );
    }
}
