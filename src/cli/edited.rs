//! Editing a file of the maker's as it stands now.

use super::write::{self, Elsewhere};
use crate::diagnostic::Problem;
use std::fs;
use std::path::Path;

/// Some editors begin a file with it; it is no part of the text, and stays where it is.
const BYTE_ORDER_MARK: &str = "\u{feff}";

/// Replaces a file's text by what `edit` makes of it; nothing is written where that is `None`. It is read, changed and
/// written in one step: two runs at once would else undo each other's edits.
///
/// # Errors
/// When the file can be neither read nor written, and what `edit` says.
pub(super) fn edited(
    path: &Path,
    edit: impl FnOnce(&str) -> Result<Option<String>, Problem>,
) -> Result<(), Problem> {
    let unreadable = |e| Problem::error(format!("{} cannot be read again: {e}", path.display()));
    write::alone(path, || {
        let before = fs::read_to_string(path).map_err(unreadable)?;
        let (mark, text) = match before.strip_prefix(BYTE_ORDER_MARK) {
            Some(text) => (BYTE_ORDER_MARK, text),
            None => ("", before.as_str()),
        };
        let Some(text) = edit(text)? else { return Ok(()) };
        write::whole(path, format!("{mark}{text}").as_bytes()).map_err(|e| e.problem(Elsewhere::Nowhere))
    })
}
