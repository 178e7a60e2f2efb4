// SPDX-License-Identifier: MIT
//! DXF as it is written: groups of a code and a value, two lines each, and the entities that they make up.

use crate::contour::Point;
use std::collections::BTreeMap;

/// One group: its code, its value, the line of the file on which its code stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct DxfGroup<'t> {
    pub code: i32,
    pub value: &'t str,
    pub line: usize,
}

/// A file's groups up to its end, or up to the line that is none.
pub(super) fn groups(text: &str) -> Result<Vec<DxfGroup<'_>>, usize> {
    let mut groups = Vec::new();
    let mut lines = text.lines().enumerate();
    while let Some((index, code)) = lines.next() {
        let Ok(code) = code.trim().parse() else {
            // Some programs end a file with an empty line.
            if code.trim().is_empty() && lines.all(|(_, line)| line.trim().is_empty()) {
                break;
            }
            return Err(index + 1);
        };
        let (_, value) = lines.next().ok_or(index + 1)?;
        let group = DxfGroup { code, value: value.trim(), line: index + 1 };
        if (group.code, group.value) == (0, "EOF") {
            break;
        }
        // Comments.
        if group.code != 999 {
            groups.push(group);
        }
    }
    Ok(groups)
}

/// An entity with its groups, or what else begins with a group 0.
#[derive(Clone, Copy, Debug)]
pub(super) struct DxfEntity<'g, 't> {
    pub name: &'t str,
    pub line: usize,
    pub groups: &'g [DxfGroup<'t>],
}

/// The numbers that could not be read: their lines.
pub(super) type Faults = Vec<usize>;

/// What follows one another, each begun by a group 0.
pub(super) fn entities<'g, 't>(groups: &'g [DxfGroup<'t>]) -> Vec<DxfEntity<'g, 't>> {
    let starts: Vec<usize> = (0..groups.len()).filter(|&index| groups[index].code == 0).collect();
    let ends = starts.iter().skip(1).copied().chain([groups.len()]);
    let entity = |(&start, end): (&usize, usize)| DxfEntity {
        name: groups[start].value,
        line: groups[start].line,
        groups: &groups[start + 1..end],
    };
    starts.iter().zip(ends).map(entity).collect()
}

/// The groups of a section.
pub(super) fn section<'g, 't>(groups: &'g [DxfGroup<'t>], name: &str) -> &'g [DxfGroup<'t>] {
    let start = groups
        .windows(2)
        .position(|pair| (pair[0].code, pair[0].value) == (0, "SECTION") && (pair[1].code, pair[1].value) == (2, name));
    let Some(start) = start.map(|start| start + 2) else { return &[] };
    let end = groups[start..].iter().position(|group| (group.code, group.value) == (0, "ENDSEC"));
    &groups[start..end.map_or(groups.len(), |end| start + end)]
}

/// The value of a variable of the header, by the code in which it stands.
pub(super) fn variable<'t>(groups: &[DxfGroup<'t>], name: &str, code: i32) -> Option<&'t str> {
    let header = section(groups, "HEADER");
    let at = header.iter().position(|group| (group.code, group.value) == (9, name))?;
    header[at + 1..]
        .iter()
        .take_while(|group| group.code != 9)
        .find(|group| group.code == code)
        .map(|group| group.value)
}

impl<'t> DxfEntity<'_, 't> {
    /// The text of a group, the first of its code.
    pub(super) fn text(&self, code: i32) -> Option<&'t str> {
        self.groups.iter().find(|group| group.code == code).map(|group| group.value)
    }

    /// The number in a group, the first of its code; one that is none is a fault.
    pub(super) fn number(&self, code: i32, faults: &mut Faults) -> Option<f64> {
        self.groups.iter().find(|group| group.code == code).and_then(|group| read(group, faults))
    }

    /// A point by the code of its x; its y stands ten codes on.
    pub(super) fn point(&self, code: i32, faults: &mut Faults) -> Option<Point> {
        Some(Point::new(self.number(code, faults)?, self.number(code + 10, faults)?))
    }

    /// Whole flags, 0 where there are none.
    pub(super) fn flags(&self, code: i32) -> u32 {
        self.text(code).and_then(|text| text.parse().ok()).unwrap_or(0)
    }

    /// All numbers of a code, in order.
    pub(super) fn numbers(&self, code: i32, faults: &mut Faults) -> Vec<f64> {
        self.groups.iter().filter(|group| group.code == code).filter_map(|group| read(group, faults)).collect()
    }

    /// What is said again and again: each time a group of the first code comes, a row begins with the last number of each code.
    pub(super) fn rows(&self, first: i32, faults: &mut Faults) -> Vec<BTreeMap<i32, f64>> {
        let mut rows: Vec<BTreeMap<i32, f64>> = Vec::new();
        for group in self.groups {
            if group.code == first {
                rows.push(BTreeMap::new());
            }
            let of_point = group.code == first || group.code == first + 10 || group.code == 42;
            if let Some(row) = rows.last_mut().filter(|_| of_point)
                && let Some(number) = read(group, faults)
            {
                row.insert(group.code, number);
            }
        }
        rows
    }
}

fn read(group: &DxfGroup<'_>, faults: &mut Faults) -> Option<f64> {
    let number = group.value.parse().ok().filter(|number: &f64| number.is_finite());
    if number.is_none() {
        faults.push(group.line + 1);
    }
    number
}
