// SPDX-License-Identifier: MIT
//! The texts that people read: how each is made, called and written.
//!
//! In: what a guide is made from. Out: a page, a PDF. Never: decides which texts there are to be.

use crate::guide;
#[cfg(feature = "pdf")]
use crate::write::pages::GuideForm;
use crate::write::{self, Sink, WriteProblem};

/// A text that people read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ReaderText {
    Guide,
    Job,
    Card,
    Teaching,
}

impl ReaderText {
    pub(super) const ALL: [Self; 4] = [Self::Guide, Self::Job, Self::Card, Self::Teaching];

    pub(super) fn made(self, job: &guide::GuideJob<'_>) -> guide::Guide {
        match self {
            Self::Guide => guide::guide(job),
            Self::Job => guide::shop(job),
            Self::Card => guide::card(job),
            Self::Teaching => guide::teaching(job),
        }
    }

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Guide => "guide",
            Self::Job => "job",
            Self::Card => "kit-card",
            Self::Teaching => "teaching-sheet",
        }
    }

    /// Writes it as a page, and to be printed.
    pub(super) fn put(
        self,
        name: &str,
        text: &guide::Guide,
        (as_page, printed): (bool, bool),
        sink: &mut dyn Sink,
    ) -> Result<(), WriteProblem> {
        let page: fn(&guide::Guide) -> String = match self {
            Self::Guide | Self::Job => write::guide,
            Self::Card => write::kit_card,
            Self::Teaching => write::teaching_sheet,
        };
        if as_page {
            sink.put(&format!("{name}.html"), page(text).as_bytes())?;
        }
        #[cfg(feature = "pdf")]
        if printed {
            let form = if matches!(self, Self::Guide | Self::Job) { GuideForm::Guide } else { GuideForm::Card };
            sink.put(&format!("{name}.pdf"), &write::guide_pdf(text, form)?)?;
        }
        #[cfg(not(feature = "pdf"))]
        let _ = printed;
        Ok(())
    }
}
