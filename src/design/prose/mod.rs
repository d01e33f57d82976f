//! Sections of the maker's own: a Markdown file (CommonMark 0.31 with tables) to checked prose.
//!
//! Whatever a booklet cannot show is told at its place: raw HTML, pictures without alternative text, links to anything
//! but pages and mail, levels of headings left out.

mod inline;
mod walk;

use super::bounds::{MOST_TOLD, text};
use super::model::Picture;
use super::style::Beside;
use super::yaml::text_of;
use crate::diagnostic::{Place, Problem, Source, has_errors, keep_first, sort};
use sha2::{Digest, Sha256};
use std::path::Path;
use std::sync::Arc;
use walk::Walk;

/// Largest Markdown file, in bytes: forty pages of text.
pub(super) const LARGEST_PROSE: u64 = 200_000;

/// A section of the maker's own.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnSection {
    /// Its title.
    pub title: String,
    /// What is in it.
    pub blocks: Vec<Prose>,
    /// Where it leads within the booklet: names of sections, and where each is written.
    pub leads: Vec<(String, Place)>,
    /// SHA-256 of its file, as hexadecimal.
    pub hash: String,
    /// Its file.
    pub source: Arc<Source>,
}

impl OwnSection {
    /// Its pictures, in reading order.
    #[must_use]
    pub fn pictures(&self) -> Vec<&Picture> {
        fn gather<'p>(blocks: &'p [Prose], found: &mut Vec<&'p Picture>) {
            for block in blocks {
                match block {
                    Prose::Picture { picture, .. } => found.push(picture),
                    Prose::List { items, .. } => items.iter().for_each(|item| gather(item, found)),
                    Prose::Quote(blocks) => gather(blocks, found),
                    Prose::Heading { .. } | Prose::Paragraph(_) | Prose::Table(_) | Prose::NewPage => {}
                }
            }
        }
        let mut found = Vec::new();
        gather(&self.blocks, &mut found);
        found
    }
}

/// A block of a section of the maker's own.
#[derive(Clone, Debug, PartialEq)]
pub enum Prose {
    /// A heading, from level 2.
    Heading { level: u8, words: Vec<Span> },
    /// A paragraph.
    Paragraph(Vec<Span>),
    /// A list; numbered from a number, or with bullets.
    List { from: Option<usize>, items: Vec<Vec<Prose>> },
    /// A table.
    Table(ProseTable),
    /// A picture in a paragraph of its own.
    Picture { picture: Picture, caption: String },
    /// Something set apart.
    Quote(Vec<Prose>),
    /// What follows begins a page.
    NewPage,
}

/// A table of a section of the maker's own.
#[derive(Clone, Debug, PartialEq)]
pub struct ProseTable {
    /// How its columns are aligned.
    pub columns: Vec<ColumnSide>,
    /// The heads of its columns.
    pub head: Vec<Vec<Span>>,
    /// Its rows.
    pub rows: Vec<Vec<Vec<Span>>>,
}

/// How a column is aligned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnSide {
    /// At the left.
    Left,
    /// In the middle.
    Middle,
    /// At the right.
    Right,
}

/// Words in one style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// The words; a line that must end is a line feed.
    pub words: String,
    /// Their style.
    pub style: SpanStyle,
}

/// Style of words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SpanStyle {
    /// As their paragraph.
    Plain,
    /// Strong.
    Strong,
    /// Emphasised.
    Emphasis,
    /// A link to a page or to mail.
    Web(String),
    /// A link to a section of the booklet, by its name.
    Section(String),
}

/// Reads the section in a file that is named at a place.
///
/// # Errors
/// Everything that is wrong in it.
pub(super) fn read(path: &Path, place: &Place, beside: &Beside<'_>) -> Result<OwnSection, Vec<Problem>> {
    let name = path.display().to_string();
    let bytes = beside
        .shelf
        .read(path, LARGEST_PROSE)
        .map_err(|why| why.problem("Markdown file", &name, LARGEST_PROSE, "make two sections of it"))
        .map_err(|problem| vec![problem.at(place.clone())])?;
    let hash: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
    let source = text_of(&name, bytes, "Markdown").map_err(|problem| vec![problem])?;
    // Pictures stand beside the file that shows them.
    let folder = path.parent().unwrap_or(Path::new(""));
    let mut walk = Walk::new(&source, folder, beside.gallery);
    let section = walk.section(hash);
    let mut problems = walk.problems;
    sort(&mut problems);
    if !has_errors(&problems)
        && let Some(section) = section
    {
        return Ok(section);
    }
    keep_first(&mut problems, MOST_TOLD);
    Err(problems)
}

/// Longest title of a section, in characters.
const LONGEST_TITLE: usize = text::TITLE;
