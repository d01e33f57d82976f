//! Bytes of a file to its text.

use crate::diagnostic::{Place, Problem, Source, is_obeyed};
use std::sync::Arc;

/// What files of prose are called, which are no YAML.
const PROSE: &str = "Markdown";

/// The text of a file; a byte order mark at its beginning is dropped.
///
/// # Errors
/// The file is binary, or not UTF-8; or holds nothing.
pub(in crate::design) fn text_of(name: &str, bytes: Vec<u8>, what: &str) -> Result<Arc<Source>, Problem> {
    let nowhere = || Place::new(&Arc::new(Source { name: name.to_owned(), text: String::new() }), 0..0);
    // Byte order marks of UTF-16, in which some word processors save "Unicode text" (Unicode 16.0, 23.8).
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(Problem::error("this text is written in UTF-16, not in UTF-8")
            .at(nowhere())
            .hint("save the file as UTF-8 text in your editor"));
    }
    let good = std::str::from_utf8(&bytes).map(str::len).unwrap_or_else(|e| e.valid_up_to());
    if bytes.contains(&0) || (good < bytes.len() && bytes.iter().any(strange_byte)) {
        return Err(Problem::error("this is not a text file").at(nowhere()).hint(format!(
            "give the {what} file, which is plain text{}",
            if what == PROSE { "" } else { " (YAML)" }
        )));
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
    if let Some((at, c)) = source.text.char_indices().find(|(_, c)| is_strange(*c)) {
        let (what, hint) = strange(c);
        let place = Place::new(&source, at..at + c.len_utf8());
        return Err(Problem::error(format!("{what} stands here")).at(place).hint(hint));
    }
    if what == PROSE {
        return Ok(source);
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

/// A character that is not shown but obeyed, other than those that every text holds.
pub(super) fn is_strange(c: char) -> bool {
    is_obeyed(c) && !matches!(c, '\t' | '\n' | '\r')
}

/// What a strange character is, and what to do about it.
pub(super) fn strange(c: char) -> (String, &'static str) {
    let code = c as u32;
    match c {
        // YAML 1.1 ends lines there, YAML 1.2 does not (5.4).
        '\u{85}' | '\u{2028}' | '\u{2029}' => (
            format!("an invisible line end (U+{code:04X})"),
            "write a space or begin a new line in its place",
        ),
        c if c.is_control() => (
            format!("a control character (U+{code:04X})"),
            "delete it: these files take only letters, digits, marks, spaces and line breaks",
        ),
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {
            (format!("an invisible mark that turns the direction of writing (U+{code:04X})"), "delete it")
        }
        _ => (format!("U+{code:04X}, which is no character for a text,"), "delete it"),
    }
}
