// SPDX-License-Identifier: MIT
//! What several files say of buying and selling, as one order has it.
//!
//! In: the terms of a batch and of its albums. Out: those of the order, and what the albums say differently.

use super::{Selling, Terms};
use crate::exact::Exact;
use crate::finding::Place;

/// A word that one album has otherwise than another: what it is called, and where it stands.
pub(crate) struct Differs {
    /// `hour`, `tape 6 mm`
    pub field: String,
    /// Where the later one stands.
    pub place: Place,
}

impl Terms {
    /// Takes over what an album says and the batch does not. Gives what albums before it say otherwise.
    #[must_use]
    pub(crate) fn fill(&mut self, batch: &Self, album: &Self) -> Vec<Differs> {
        let mut differs = Vec::new();
        for (supply, place) in &album.supplies {
            if batch.supplies.iter().any(|(own, _)| own.what == supply.what) {
                continue;
            }
            match self.supplies.iter().find(|(known, _)| known.what == supply.what) {
                Some((known, _)) if (&known.of, &known.price) == (&supply.of, &supply.price) => {}
                Some(_) => differs.push(Differs { field: supply.name.clone(), place: place.clone() }),
                None => self.supplies.push((supply.clone(), place.clone())),
            }
        }
        for (field, value, place) in &album.selling.said {
            let said =
                |selling: &Selling| selling.said.iter().find(|(name, ..)| name == field).map(|(_, is, _)| is.clone());
            match said(&self.selling) {
                _ if said(&batch.selling).is_some() => {}
                Some(known) if known == *value => {}
                Some(_) => differs.push(Differs { field: (*field).to_owned(), place: place.clone() }),
                None => self.selling.take(field, &album.selling, (value, place)),
            }
        }
        differs
    }
}

impl Selling {
    /// Takes over one field.
    fn take(&mut self, field: &'static str, other: &Self, (value, place): (&str, &Place)) {
        if field == "currency" {
            self.currency.clone_from(&other.currency);
        }
        let fields: [(&str, &mut Option<Exact>, &Option<Exact>); 8] = [
            ("hour", &mut self.hour, &other.hour),
            ("machine_hour", &mut self.machine_hour, &other.machine_hour),
            ("minutes_a_kit", &mut self.minutes_a_kit, &other.minutes_a_kit),
            ("packaging", &mut self.packaging, &other.packaging),
            ("overhead", &mut self.overhead, &other.overhead),
            ("profit", &mut self.profit, &other.profit),
            ("fees", &mut self.fees, &other.fees),
            ("tax", &mut self.tax, &other.tax),
        ];
        for (_, own, others) in fields.into_iter().filter(|(name, ..)| *name == field) {
            own.clone_from(others);
        }
        self.said.push((field, value.to_owned(), place.clone()));
    }

    /// Fees and tax together, as a part of the price.
    #[must_use]
    pub fn taken(&self) -> Exact {
        [&self.fees, &self.tax].into_iter().flatten().cloned().sum()
    }
}
