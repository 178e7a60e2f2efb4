// SPDX-License-Identifier: MIT
//! What an object's fields held, with their places.

use super::field::Field;
use super::held::{CountOrWord, Held};
use super::key::Key;
use super::value::Value;
use crate::finding::Place;
use crate::length::Length;
use std::collections::BTreeMap;

/// The values of one object. A field that could not be read holds nothing (the file is refused anyway, so
/// what stands for it does not matter), nor does one that was left out and has no fallback.
#[derive(Clone, Debug, Default)]
pub struct Values {
    held: BTreeMap<&'static str, Option<Value>>,
    places: BTreeMap<&'static str, Place>,
    whole: Option<Place>,
}

impl Values {
    /// Those of an object that may have these fields, none of them read yet.
    pub(super) fn new<'f>(whole: Place, fields: impl Iterator<Item = &'f Field>) -> Self {
        let held = fields.map(|field| (field.name, None)).collect();
        Self { held, places: BTreeMap::new(), whole: Some(whole) }
    }

    pub(super) fn put(&mut self, name: &'static str, value: Value, place: Option<Place>) {
        self.held.insert(name, Some(value));
        if let Some(place) = place {
            self.places.insert(name, place);
        }
    }

    /// Sets a length, as a program that varies an album does.
    pub(crate) fn set_length(&mut self, name: &'static str, length: Length) {
        self.held.insert(name, Some(Value::Length(length)));
    }

    /// Takes out what a field holds, as a program that varies an album does.
    pub(crate) fn unset(&mut self, name: &'static str) {
        self.held.insert(name, None);
        self.places.remove(name);
    }

    /// Sets a whole number, as a program that varies an album does.
    pub(crate) fn set_count(&mut self, key: Key<CountOrWord>, count: u32) {
        self.held.insert(key.name(), Some(Value::Count(count)));
    }

    /// What a field of this object holds.
    #[must_use]
    pub fn get<T: Held>(&self, key: Key<T>) -> T::Read<'_> {
        debug_assert!(self.held.contains_key(key.name()), "no table of this object has \"{}\"", key.name());
        self.find(key).unwrap_or_else(T::unread)
    }

    /// What a field holds, of an object that may be of a kind without it.
    #[must_use]
    pub fn find<T: Held>(&self, key: Key<T>) -> Option<T::Read<'_>> {
        let value = self.value(key.name())?;
        let read = T::read(value);
        debug_assert!(read.is_some(), "\"{}\" holds something else here: {value:?}", key.name());
        read
    }

    /// What a field holds whose name is known at run time only.
    #[must_use]
    pub fn value(&self, name: &str) -> Option<&Value> {
        self.held.get(name)?.as_ref()
    }

    /// Forgets where the object stands, where it stands nowhere.
    #[must_use]
    pub(crate) fn without_place(mut self) -> Self {
        self.whole = None;
        self
    }

    /// Whether the file names this field.
    #[must_use]
    pub fn says(&self, field: impl Into<Field>) -> bool {
        self.places.contains_key(field.into().name)
    }

    /// Where the field stands; where it was left out, the object.
    #[must_use]
    pub fn place(&self, field: impl Into<Field>) -> Option<&Place> {
        self.place_of(field.into().name)
    }

    /// The same of a field whose name is known at run time only.
    #[must_use]
    pub(crate) fn place_of(&self, name: &str) -> Option<&Place> {
        self.places.get(name).or(self.whole.as_ref())
    }

    /// Where the object stands.
    #[must_use]
    pub const fn whole(&self) -> Option<&Place> {
        self.whole.as_ref()
    }

    /// A length whose field's name is known at run time only.
    #[must_use]
    pub(crate) fn length_of(&self, name: &str) -> Option<Length> {
        match self.value(name) {
            Some(Value::Length(length)) => Some(*length),
            _ => None,
        }
    }
}
