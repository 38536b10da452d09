//! JSON values read field by field, so that a fault can name its field and none hides another.
use super::{ReadFault, ReadFaults};
use crate::geometry::Point;
use serde_json::{Map, Value};

/// Values in messages are cut to this many characters.
const SHOWN: usize = 60;

/// Parses a text.
pub(super) fn parse(text: &str) -> Result<Value, ReadFaults> {
    // A byte order mark is no JSON, but some editors write one.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    serde_json::from_str(text).map_err(|error| {
        let (line, column) = (error.line(), error.column());
        let message = error.to_string();
        let message = message
            .rsplit_once(" at line")
            .map_or(message.clone(), |(m, _)| m.to_owned());
        let xml = text.trim_start().starts_with('<');
        let hint = if xml {
            " (it looks like XML; export the map as GeoJSON)"
        } else {
            ""
        };
        ReadFaults(vec![ReadFault::Json {
            line,
            column,
            message,
            hint,
        }])
    })
}

/// A value as it stands in a message.
pub(super) fn shown(value: &Value) -> String {
    let text = value.to_string();
    if text.chars().count() <= SHOWN {
        return text;
    }
    text.chars().take(SHOWN).chain("...".chars()).collect()
}

/// The members of an object, each of which must be asked for.
pub(super) struct Fields<'a> {
    /// The way to the object, such as `features[3]`, empty at the top.
    path: String,
    members: &'a Map<String, Value>,
    known: Vec<&'static str>,
}

impl<'a> Fields<'a> {
    /// The members of `value`, or None after reporting that it is no object.
    pub(super) fn of(value: &'a Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<Self> {
        match value.as_object() {
            Some(members) => Some(Fields {
                path: path.to_owned(),
                members,
                known: Vec::new(),
            }),
            None => {
                let field = if path.is_empty() {
                    "the document"
                } else {
                    path
                };
                faults.push(wrong(field, value, "an object"));
                None
            }
        }
    }

    /// The way to a member.
    pub(super) fn path(&self, name: &str) -> String {
        if self.path.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.path)
        }
    }

    /// A member that may be missing or null.
    pub(super) fn optional<T>(
        &mut self,
        name: &'static str,
        allowed: &str,
        read: impl FnOnce(&'a Value) -> Option<T>,
        faults: &mut Vec<ReadFault>,
    ) -> Option<T> {
        self.known.push(name);
        let value = self.members.get(name).filter(|v| !v.is_null())?;
        let read = read(value);
        if read.is_none() {
            faults.push(wrong(&self.path(name), value, allowed));
        }
        read
    }

    /// A member that must be there.
    pub(super) fn required<T>(
        &mut self,
        name: &'static str,
        allowed: &str,
        read: impl FnOnce(&'a Value) -> Option<T>,
        faults: &mut Vec<ReadFault>,
    ) -> Option<T> {
        if self.members.get(name).is_none_or(Value::is_null) {
            self.known.push(name);
            faults.push(ReadFault::Missing {
                field: self.path(name),
                allowed: allowed.to_owned(),
            });
            return None;
        }
        self.optional(name, allowed, read, faults)
    }

    /// The entries of a list with the way to each; a missing list is empty.
    pub(super) fn list(
        &mut self,
        name: &'static str,
        faults: &mut Vec<ReadFault>,
    ) -> Vec<(String, &'a Value)> {
        let list = self.optional(name, "a list", Value::as_array, faults);
        let path = self.path(name);
        list.into_iter()
            .flatten()
            .enumerate()
            .map(|(i, value)| (format!("{path}[{i}]"), value))
            .collect()
    }

    /// Reports the members nobody asked for.
    pub(super) fn finish(self, faults: &mut Vec<ReadFault>) {
        for name in self
            .members
            .keys()
            .filter(|name| !self.known.contains(&name.as_str()))
        {
            faults.push(ReadFault::Unknown {
                field: self.path(name),
                known: self.known.join(", "),
            });
        }
    }
}

/// A fault of a field.
pub(super) fn wrong(field: &str, value: &Value, allowed: &str) -> ReadFault {
    ReadFault::Field {
        field: field.to_owned(),
        value: shown(value),
        allowed: allowed.to_owned(),
    }
}

/// A text.
pub(super) fn text(value: &Value) -> Option<String> {
    value.as_str().map(str::to_owned)
}

/// A point `[x, y]`.
pub(super) fn point(value: &Value) -> Option<Point> {
    match value.as_array()?.as_slice() {
        [x, y] => Some(Point::new(x.as_f64()?, y.as_f64()?)),
        _ => None,
    }
}

/// A list of points.
pub(super) fn points(value: &Value) -> Option<Vec<Point>> {
    value.as_array()?.iter().map(point).collect()
}
