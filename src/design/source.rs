//! Bytes of a file to its text.

use crate::diagnostic::{Place, Problem, Source};
use std::sync::Arc;

/// Largest file that is read: room for a picture of the largest body and fringe, and more.
pub(super) const LARGEST_FILE: usize = 12_000_000;

/// The text of a file; a byte order mark at its beginning is dropped.
///
/// # Errors
/// The file is too large, binary, or not UTF-8; or holds nothing.
pub(super) fn text_of(name: &str, bytes: Vec<u8>, what: &str) -> Result<Arc<Source>, Problem> {
    let nowhere = || Place::new(&Arc::new(Source { name: name.to_owned(), text: String::new() }), 0..0);
    if bytes.len() > LARGEST_FILE {
        return Err(Problem::error(format!("this file is larger than {} MB", LARGEST_FILE / 1_000_000))
            .at(nowhere())
            .hint(format!("a {what} file is a few kilobytes of text: is this the right file?")));
    }
    let good = std::str::from_utf8(&bytes).map(str::len).unwrap_or_else(|e| e.valid_up_to());
    if bytes.contains(&0) || (good < bytes.len() && bytes.iter().any(strange_byte)) {
        return Err(Problem::error("this is not a text file")
            .at(nowhere())
            .hint(format!("give the {what} file, which is plain text (YAML)")));
    }
    let text = match String::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            let source = Arc::new(Source { name: name.to_owned(), text });
            let end = good + '\u{fffd}'.len_utf8();
            return Err(Problem::error("this character is not written in UTF-8")
                .at(Place::new(&source, good..end))
                .hint("save the file as UTF-8 text in your editor"));
        }
    };
    let text = text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text);
    let source = Arc::new(Source { name: name.to_owned(), text });
    if let Some(at) = source.text.bytes().position(|b| strange_byte(&b)) {
        return Err(Problem::error("a control character stands here")
            .at(Place::new(&source, at..at + 1))
            .hint("delete it: these files take only letters, digits, marks, spaces and line breaks"));
    }
    let nothing = source.text.lines().all(|l| l.trim().is_empty() || l.trim_start().starts_with('#'));
    if nothing {
        return Err(Problem::error(format!("the {what} file is empty"))
            .at(Place::new(&source, 0..0))
            .hint("`fringebook new NAME` writes one to start from"));
    }
    Ok(source)
}

/// A control character that no text file needs.
fn strange_byte(byte: &u8) -> bool {
    *byte < b' ' && !matches!(*byte, b'\t' | b'\n' | b'\r')
}
