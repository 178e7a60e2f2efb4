// SPDX-License-Identifier: MIT
//! JSON as it may be written wrongly: fields twice, values that are none.

use serde_json::Value;
use std::fmt::Write;

/// A value of a file that is being spoilt.
#[derive(Clone, Debug)]
pub(crate) enum Json {
    Object(Vec<(String, Json)>),
    List(Vec<Json>),
    /// As it stands in the text.
    Bare(String),
}

impl Json {
    pub(crate) fn of(value: &Value) -> Self {
        match value {
            Value::Object(fields) => {
                Self::Object(fields.iter().map(|(name, value)| (name.clone(), Self::of(value))).collect())
            }
            Value::Array(items) => Self::List(items.iter().map(Self::of).collect()),
            other => Self::Bare(other.to_string()),
        }
    }

    pub(crate) fn read(text: &str) -> Option<Self> {
        serde_json::from_str::<Value>(text).ok().as_ref().map(Self::of)
    }

    pub(crate) fn text(text: &str) -> Self {
        Self::Bare(Value::from(text).to_string())
    }

    /// How many values there are, this one among them.
    pub(crate) fn count(&self) -> usize {
        1 + match self {
            Self::Object(fields) => fields.iter().map(|(_, value)| value.count()).sum(),
            Self::List(items) => items.iter().map(Self::count).sum(),
            Self::Bare(_) => 0,
        }
    }

    /// The value with this number, and the name of the field that it stands under.
    pub(crate) fn nth(&mut self, number: usize) -> (&mut Self, String) {
        fn walk<'j>(json: &'j mut Json, number: &mut usize, name: &str) -> Result<(&'j mut Json, String), ()> {
            if *number == 0 {
                return Ok((json, name.to_owned()));
            }
            *number -= 1;
            match json {
                Json::Object(fields) => {
                    for (name, value) in fields {
                        let count = value.count();
                        if *number < count {
                            let name = name.clone();
                            return walk(value, number, &name);
                        }
                        *number -= count;
                    }
                    Err(())
                }
                Json::List(items) => {
                    for value in items {
                        let count = value.count();
                        if *number < count {
                            return walk(value, number, name);
                        }
                        *number -= count;
                    }
                    Err(())
                }
                Json::Bare(_) => Err(()),
            }
        }
        let mut number = number % self.count();
        walk(self, &mut number, "").expect("the number is below the count")
    }

    /// What stands under a name of an object.
    pub(crate) fn get(&self, name: &str) -> Option<&Self> {
        match self {
            Self::Object(fields) => fields.iter().find(|(key, _)| key == name).map(|(_, value)| value),
            _ => None,
        }
    }

    /// Puts a value under a name.
    pub(crate) fn set(&mut self, name: &str, value: Self) {
        if let Self::Object(fields) = self {
            match fields.iter_mut().find(|(key, _)| key == name) {
                Some((_, there)) => *there = value,
                None => fields.push((name.to_owned(), value)),
            }
        }
    }

    pub(crate) fn write(&self) -> String {
        let mut text = String::new();
        self.put(&mut text, 0);
        text
    }

    fn put(&self, text: &mut String, depth: usize) {
        match self {
            Self::Object(fields) => {
                text.push('{');
                for (number, (name, value)) in fields.iter().enumerate() {
                    let apart = if number > 0 { "," } else { "" };
                    let line = if depth == 0 { "\n  " } else { " " };
                    let _ = write!(text, "{apart}{line}{}: ", Value::from(name.as_str()));
                    value.put(text, depth + 1);
                }
                text.push_str(" }");
            }
            Self::List(items) => {
                text.push('[');
                for (number, value) in items.iter().enumerate() {
                    if number > 0 {
                        text.push_str(", ");
                    }
                    value.put(text, depth + 1);
                }
                text.push(']');
            }
            Self::Bare(value) => text.push_str(value),
        }
    }
}
