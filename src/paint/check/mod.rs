//! What a display list must say for its file to be what it claims to be, looked at before anything is
//! painted: a file that claims PDF/UA or PDF/A and is neither must not come into being.
//!
//! * `document`: what the file says of itself, its pages and bookmarks;
//! * `survey`: one walk over all items: what stands where, and what its glyphs stand for;
//! * `structure`: which element may stand in which, headings, lists, figures;
//! * `tables`: regular rows, a header for each cell;
//! * `annotations`: links and boxes to tick.
//!
//! All of it is read off the display list alone; [`claims`](super::claims) says which requirement is met by what.

mod annotations;
mod document;
mod structure;
mod survey;
mod tables;

use super::error::PaintError;
use crate::layout::DisplayList;

/// Checks a display list against what its file will claim.
///
/// # Errors
/// The first thing found that would make a claim untrue.
pub(super) fn check(list: &DisplayList) -> Result<(), PaintError> {
    document::check(list)?;
    let order = structure::order(&list.nodes)?;
    let mut survey = survey::survey(list, &order)?;
    annotations::check(list, &mut survey)?;
    structure::check(list, &survey)?;
    tables::check(list, &survey)
}

/// Whether a text says nothing.
fn is_blank(text: &str) -> bool {
    text.trim().is_empty()
}
