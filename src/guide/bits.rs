// SPDX-License-Identifier: MIT
//! What a guide consists of: sections, tables, steps, figures.

use super::line::{Line, Number};
use super::told::Told;
use crate::paper::Paper;
use crate::picture::Picture;

/// The guide of a kit.
#[derive(Clone, Debug)]
pub struct Guide {
    /// The album's name.
    pub title: String,
    /// Who made it, where the file says so.
    pub maker: Option<String>,
    /// Which edition, where the file says so.
    pub edition: Option<String>,
    /// The maker's own notes.
    pub notes: Vec<String>,
    /// The language's tag.
    pub language: &'static str,
    /// What it is printed on: letter or A4.
    pub paper: Paper,
    /// Words of the page itself, by name.
    pub page: Vec<(&'static str, String)>,
    /// What is in it, in order.
    pub sections: Vec<Section>,
}

/// A part of the guide with a heading that says what is done.
#[derive(Clone, Debug, Default)]
pub struct Section {
    /// Its name for links.
    pub id: &'static str,
    /// What is done.
    pub heading: Line,
    /// What is in it.
    pub blocks: Vec<Block>,
}

/// A block of a section.
#[derive(Clone, Debug)]
pub enum Block {
    /// A paragraph.
    Words(Line),
    /// A smaller heading.
    Heading(Line),
    /// Things one after the other.
    List(Vec<Line>),
    /// A table.
    Table(Table),
    /// Steps, numbered through the guide.
    Steps(Vec<Step>),
    /// A picture by itself.
    Figure(Figure),
    /// What to mind.
    Caution(Vec<Line>),
}

/// One thing to do, and to tick off.
#[derive(Clone, Debug, Default)]
pub struct Step {
    /// What is done, in one sentence.
    pub head: Line,
    /// How.
    pub lines: Vec<Line>,
    /// What to mind here.
    pub warn: Vec<Line>,
    /// What differs from piece to piece where several are worked alike: distances, places; a row for each.
    pub table: Option<Table>,
    /// How it looks.
    pub figure: Option<Figure>,
    /// What of the kit it speaks of.
    pub of: Vec<Told>,
    /// What programs may want to know of it: names and values.
    pub data: Vec<(&'static str, String)>,
}

/// A picture and what it shows, for those who can't see it.
#[derive(Clone, Debug)]
pub struct Figure {
    /// The picture.
    pub picture: Picture,
    /// In words.
    pub shows: Line,
}

/// A table.
#[derive(Clone, Debug, Default)]
pub struct Table {
    /// What it holds.
    pub caption: Line,
    /// The columns' heads.
    pub head: Vec<Line>,
    /// The rows; the first cell of each names it.
    pub rows: Vec<Vec<Line>>,
}

impl Step {
    /// A step of one sentence.
    #[must_use]
    pub fn new(head: Line) -> Self {
        Self { head, ..Self::default() }
    }
}

impl Table {
    /// Every line in it.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        std::iter::once(&self.caption).chain(&self.head).chain(self.rows.iter().flatten())
    }

    /// The same without columns in which nothing stands.
    #[must_use]
    pub fn without_empty_columns(self) -> Self {
        let holds = |column: usize| self.rows.iter().any(|row| row.get(column).is_some_and(|cell| !cell.is_empty()));
        let kept: Vec<bool> = (0..self.head.len()).map(holds).collect();
        let keep = |cells: Vec<Line>| cells.into_iter().zip(&kept).filter(|(_, kept)| **kept).map(|(cell, _)| cell);
        let head = keep(self.head).collect();
        let rows = self.rows.into_iter().map(|row| keep(row).collect()).collect();
        Self { caption: self.caption, head, rows }
    }
}

impl Section {
    /// The steps in it.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.blocks.iter().flat_map(|block| match block {
            Block::Steps(steps) => steps.as_slice(),
            _ => &[],
        })
    }

    /// Every line in it.
    #[must_use]
    pub fn lines(&self) -> Vec<&Line> {
        let mut lines = vec![&self.heading];
        for block in &self.blocks {
            match block {
                Block::Words(line) | Block::Heading(line) => lines.push(line),
                Block::List(list) | Block::Caution(list) => lines.extend(list),
                Block::Table(table) => lines.extend(table.lines()),
                Block::Steps(steps) => {
                    for step in steps {
                        lines.push(&step.head);
                        lines.extend(&step.lines);
                        lines.extend(&step.warn);
                        lines.extend(step.table.iter().flat_map(Table::lines));
                        lines.extend(step.figure.iter().map(|figure| &figure.shows));
                    }
                }
                Block::Figure(figure) => lines.push(&figure.shows),
            }
        }
        lines
    }
}

impl Guide {
    /// Every number in it.
    pub fn numbers(&self) -> impl Iterator<Item = &Number> {
        self.sections.iter().flat_map(Section::lines).flat_map(Line::numbers)
    }

    /// A word of the page itself.
    #[must_use]
    pub fn word(&self, name: &str) -> &str {
        self.page.iter().find(|(known, _)| *known == name).map_or("", |(_, word)| word)
    }
}
