//! Editing a file of a maker's and leaving all the rest as it is written: comments and layout stay, byte for byte.

use super::yaml::{Kind, Node, Style};

/// The text with a value under a key of a mapping, the most fitting layout first; each is to be checked.
pub(super) fn edits(text: &str, within: &Node, key: &str, by: &str) -> Vec<String> {
    if let Some((name, value)) = within.entry(key) {
        return replace(text, name, value, by).into_iter().collect();
    }
    let (Some((first, _)), Some((_, last))) = (within.entries().first(), within.entries().last()) else {
        return Vec::new();
    };
    if text[within.span.start..].starts_with('{') {
        let at_end = text[within.span.clone()]
            .strip_suffix('}')
            .map(|inner| put(text, within.span.start + inner.trim_end().len(), &format!(", {key}: {by}")));
        let at_beginning = put(text, first.span.start, &format!("{key}: {by}, "));
        return at_end.into_iter().chain([at_beginning]).collect();
    }
    let line_start = text[..first.span.start].rfind('\n').map_or(0, |i| i + 1);
    let indent = &text[line_start..first.span.start];
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let at_end = on_one_line(text, last).then(|| match text[last.span.end..].find('\n') {
        Some(end) => put(text, last.span.end + end + 1, &format!("{indent}{key}: {by}{line_end}")),
        None => format!("{text}{line_end}{indent}{key}: {by}"),
    });
    let at_beginning = put(text, line_start, &format!("{indent}{key}: {by}{line_end}"));
    at_end.into_iter().chain([at_beginning]).collect()
}

/// The text with another value after a key.
fn replace(text: &str, name: &Node, value: &Node, by: &str) -> Option<String> {
    if value.span.is_empty() {
        let colon = text.get(name.span.end..)?.find(':')? + name.span.end + 1;
        return Some(put(text, colon, &format!(" {by}")));
    }
    on_one_line(text, value).then(|| format!("{}{by}{}", &text[..value.span.start], &text[value.span.end..]))
}

/// Whether a value certainly ends where its first line's stretch ends.
fn on_one_line(text: &str, value: &Node) -> bool {
    let written = text.get(value.span.clone()).unwrap_or("");
    match &value.kind {
        Kind::Scalar { text, style: Style::Plain, .. } => written == text,
        Kind::Scalar { style: Style::Quoted, .. } => written.len() > 1 && written.ends_with(['"', '\'']),
        Kind::Scalar { .. } => false,
        Kind::Mapping(_) => written.starts_with('{') && written.ends_with('}'),
        Kind::List(_) => written.starts_with('[') && written.ends_with(']'),
    }
}

fn put(text: &str, at: usize, new: &str) -> String {
    format!("{}{new}{}", &text[..at], &text[at..])
}
