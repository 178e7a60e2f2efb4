// SPDX-License-Identifier: MIT
//! The sizes that an album is cut and scored to: each by its way in the file, and all of them rounded.

use super::file_fields::{HEIGHT, PAGE_FIELDS, PANEL_FIELDS, REVEAL, SEAM, WIDTH};
use super::kind::{Kind, Role};
use super::{Album, Entry};
use crate::fields::{self, Field, Takes};
use crate::finding::{Arg, Finding, Mend, Said};
use crate::length::tolerance::{SAME, WHOLE};
use crate::length::{Length, Units};

/// Objects that the file may leave out although the album has them, each with the kind that holds then.
#[must_use]
pub fn left_out(kinds: &[&'static Kind]) -> Vec<(&'static str, &'static str)> {
    kinds.iter().find(|kind| kind.role == Role::Spine).map(|kind| ("spine", kind.name)).into_iter().collect()
}

impl Album {
    /// Every size that is cut or scored, given or by default, with its way in the file: `pages[1].overflap`. What is
    /// worked out from other sizes is none of them.
    #[must_use]
    pub fn sizes(&self) -> Vec<(String, Length)> {
        let measured = self.lengths().into_iter().filter(|(_, field, _)| field.measured);
        measured.map(|(path, _, length)| (path, length)).collect()
    }

    /// The length at a way in the file, given or by default; none where it is worked out, or where there is no such
    /// length.
    #[must_use]
    pub fn length_at(&self, path: &str) -> Option<Length> {
        let (way, name) = path.rsplit_once('.')?;
        match way {
            "page" => self.page_length(name),
            "panels" => self.panels.as_ref().filter(|_| name == REVEAL.name()).map(|panels| panels.reveal),
            "spine" => self.spine.values.length_of(name),
            "cover" => self.cover.as_ref()?.values.length_of(name),
            _ => {
                let (entry, drawn) = way.strip_suffix(".outline").map_or((way, false), |entry| (entry, true));
                let (list, number) = entry.strip_suffix(']')?.split_once('[')?;
                let entries = match list {
                    "pages" => &self.pages,
                    "inserts" => &self.inserts,
                    _ => return None,
                };
                let entry = entries.get(number.parse::<usize>().ok()?)?;
                match &entry.outline {
                    Some(outline) if drawn => outline.asked.side(name),
                    _ => entry.values.length_of(name).filter(|_| !drawn),
                }
            }
        }
    }

    /// The same album with every size that is cut or scored rounded to the nearest multiple of `step`, half a step up, so
    /// that parts worked out from it still fit each other. No size becomes 0 that was more, and none leaves what its
    /// field allows. A step that is not more than 0 rounds nothing.
    ///
    /// ```
    /// use hingeleaf::{album, fields::Source, length::Length, parts};
    /// let text = r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190 }, "pages": [{ "kind": "pocket" }] }"#;
    /// let source = Source::new("a.json", text.into()).unwrap();
    /// let album = album::read(&source, &parts::kinds()).value.ok_or("the file has problems")?;
    /// let rounded = album.rounded(Length::from_inches(1.0 / 16.0));
    /// assert_eq!(rounded.page.width, Length::from_inches(93.0 / 16.0));
    /// # Ok::<(), &str>(())
    /// ```
    #[must_use]
    pub fn rounded(&self, step: Length) -> Self {
        let mut album = self.clone();
        if step.mm().is_finite() && step.eighths() > 0 {
            album.alter(&|field, length| rounded(field, length, step));
            album.step = Some(step);
        }
        album
    }

    /// What rounding did to `before`, as a note.
    #[must_use]
    pub fn rounding_note(&self, before: &Self, step: Length) -> Finding {
        let changes: Vec<f64> = before
            .sizes()
            .iter()
            .zip(self.sizes())
            .map(|((_, before), (_, after))| (after - *before).abs().mm())
            .filter(|change| *change > SAME)
            .collect();
        let most = Length::from_mm((changes.iter().copied().fold(0.0, f64::max) * 100.0 - WHOLE).ceil() / 100.0);
        let inches = (step.inches() * 64.0 - (step.inches() * 64.0).round()).abs() < WHOLE;
        let text = Said::new("rounded")
            .with("step", Arg::Length(step, if inches { Units::In } else { Units::Mm }))
            .with("sizes", changes.len())
            .with("most", Arg::Length(most, Units::Mm));
        Finding::note("rounded", Said::NOTHING, text)
    }

    /// A size that is at least so many mm and that a ruler has: the next whole 0.5 mm, in inch files 1/32 in, and what
    /// sizes were rounded to where they were.
    #[must_use]
    pub fn at_least(&self, mm: f64) -> Length {
        self.on_ruler(mm, |count| (count - WHOLE).ceil())
    }

    /// A size that is at most so many mm and that a ruler has, as [`Album::at_least`].
    #[must_use]
    pub fn at_most(&self, mm: f64) -> Length {
        self.on_ruler(mm, |count| (count + WHOLE).floor())
    }

    fn on_ruler(&self, mm: f64, whole: impl Fn(f64) -> f64) -> Length {
        let step = self.step.unwrap_or_else(|| self.units.half_step());
        Length::from_eighths((step * whole(mm / step.mm())).eighths())
    }

    /// Says of each mend how it is put into this album's file.
    pub fn word_mends(&self, findings: &mut [Finding]) {
        for mend in findings.iter_mut().filter_map(|finding| finding.mend.as_mut()) {
            mend.text = self.worded(mend);
        }
    }

    fn worded(&self, mend: &Mend) -> String {
        let (way, name) = mend.path.rsplit_once('.').unwrap_or(("", &mend.path));
        let field = fields::paste(name, mend.value, self.units);
        if way == "spine" && self.spine.place().is_none() {
            return format!("\"spine\": {{ \"kind\": \"{}\", {field} }}", self.spine.kind.name);
        }
        field
    }

    /// Every length with its way and its field.
    fn lengths(&self) -> Vec<(String, &'static Field, Length)> {
        let mut lengths = Vec::new();
        let mut take = |way: &str, fields: &'static [Field], held: &dyn Fn(&str) -> Option<Length>| {
            let of =
                |field: &'static Field| held(field.name).map(|length| (format!("{way}.{}", field.name), field, length));
            lengths.extend(fields.iter().filter_map(of));
        };
        take("page", PAGE_FIELDS, &|name| self.page_length(name));
        for (way, entry) in self.entries() {
            take(&way, entry.kind.fields, &|name| entry.values.length_of(name));
        }
        if let Some(panels) = &self.panels {
            take("panels", PANEL_FIELDS, &|name| (name == REVEAL.name()).then_some(panels.reveal));
        }
        lengths
    }

    fn page_length(&self, name: &str) -> Option<Length> {
        match name {
            "width" => Some(self.page.width),
            "height" => Some(self.page.height),
            "seam" => Some(self.page.seam),
            _ => None,
        }
    }

    /// Every page, spine, cover and insert with its way.
    fn entries(&self) -> Vec<(String, &Entry)> {
        let pages = self.pages.iter().enumerate().map(|(index, page)| (format!("pages[{index}]"), page));
        let cover = self.cover.iter().map(|cover| ("cover".to_owned(), cover));
        let inserts = self.inserts.iter().enumerate().map(|(index, insert)| (format!("inserts[{index}]"), insert));
        pages.chain([("spine".to_owned(), &self.spine)]).chain(cover).chain(inserts).collect()
    }

    /// Alters every size that is cut or scored.
    fn alter(&mut self, alter: &dyn Fn(&Field, Length) -> Length) {
        let of = |fields: &[Field], name: &str, length: &mut Length| {
            if let Some(field) = fields.iter().find(|field| field.name == name && field.measured) {
                *length = alter(field, *length);
            }
        };
        let page = &mut self.page;
        for (name, length) in
            [(WIDTH.name(), &mut page.width), (HEIGHT.name(), &mut page.height), (SEAM.name(), &mut page.seam)]
        {
            of(PAGE_FIELDS, name, length);
            page.values.set_length(name, *length);
        }
        if let Some(panels) = &mut self.panels {
            of(PANEL_FIELDS, REVEAL.name(), &mut panels.reveal);
            panels.values.set_length(REVEAL.name(), panels.reveal);
        }
        for entry in self.pages.iter_mut().chain([&mut self.spine]).chain(&mut self.cover).chain(&mut self.inserts) {
            for field in entry.kind.fields {
                if let Some(mut length) = entry.values.length_of(field.name) {
                    of(entry.kind.fields, field.name, &mut length);
                    entry.values.set_length(field.name, length);
                }
            }
        }
    }
}

/// The nearest multiple of a step, half a step up; never 0 where there was more, never beyond what the field takes.
fn rounded(field: &Field, length: Length, step: Length) -> Length {
    if length <= Length::ZERO {
        return length;
    }
    // In whole eighths of a micrometre every 1/64 in is exact.
    let times = |count: f64| Length::from_eighths((step * count).eighths());
    let steps = |mm: f64| mm / step.mm();
    let nearest = times((steps(length.mm()) + 0.5 + WHOLE).floor().max(1.0));
    let Takes::Length { least, most } = field.takes else { return nearest };
    let size = if nearest.mm() < least {
        times((steps(least) - WHOLE).ceil())
    } else if nearest.mm() > most {
        times((steps(most) + WHOLE).floor())
    } else {
        nearest
    };
    // A step so coarse that the field takes no multiple of it.
    if size > Length::ZERO && (least..=most).contains(&size.mm()) { size } else { length }
}
