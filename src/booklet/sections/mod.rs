//! The sections of a booklet, a file each; a new section is one file here.

use super::book::Book;
use super::{Section, SectionName};

mod back;
mod changes;
pub(super) mod chart;
mod colourways;
pub(super) mod cover;
mod details;
mod finishing;
mod fits;
mod glance;
mod materials;
mod notes;
pub(super) mod own;
mod parts;
pub(super) mod rows;
pub(super) mod safety;
mod screens;
mod second;
mod shopping;
pub(super) mod steps;
pub(super) mod strands;
mod trouble;

/// The section of this name; `None` when this design does not call for it.
pub(super) fn section(name: SectionName, book: &Book) -> Option<Section> {
    match name {
        SectionName::Cover => Some(cover::section(book)),
        SectionName::Glance => Some(glance::section(book)),
        SectionName::Details => details::section(book),
        SectionName::Materials => Some(materials::section(book)),
        SectionName::Chart => Some(chart::section(book)),
        SectionName::Rows => Some(rows::section(book)),
        SectionName::Strands => Some(strands::section(book)),
        SectionName::Steps => Some(steps::section(book)),
        SectionName::Finishing => Some(finishing::section(book)),
        SectionName::Second => second::section(book),
        SectionName::Trouble => Some(trouble::section(book)),
        SectionName::Colourways => colourways::section(book),
        // Boxes to tick and lines to write on are for paper.
        SectionName::Shopping | SectionName::Notes if book.edition.tablet => None,
        SectionName::Shopping => Some(shopping::section(book)),
        SectionName::Notes => Some(notes::section(book)),
        SectionName::Safety => Some(safety::section(book)),
        SectionName::Changes => changes::section(book),
        SectionName::Back => back::section(book),
    }
}
