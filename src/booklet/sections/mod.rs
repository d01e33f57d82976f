//! The sections of a booklet, a file each; a new section is one file here.

use super::Section;
use super::book::Book;

pub(super) mod chart;
mod colourways;
mod cover;
mod finishing;
mod fits;
mod glance;
mod materials;
mod parts;
pub(super) mod rows;
mod safety;
mod steps;
pub(super) mod strands;

/// The section of this name; `None` when there is none, or this design does not call for it.
pub(super) fn section(name: &str, book: &Book) -> Option<Section> {
    match name {
        "cover" => Some(cover::section(book)),
        "glance" => Some(glance::section(book)),
        "materials" => Some(materials::section(book)),
        "chart" => Some(chart::section(book)),
        "rows" => Some(rows::section(book)),
        "strands" => Some(strands::section(book)),
        "steps" => Some(steps::section(book)),
        "finishing" => Some(finishing::section(book)),
        "colourways" => colourways::section(book),
        "safety" => Some(safety::section(book)),
        _ => None,
    }
}
