//! Editing a palette file and leaving all the rest as its maker wrote it.

use super::yaml::{Kind, Node, Style, quoted, sound_tree};
use crate::diagnostic::{Place, Problem, Source, did_you_mean, shown};
use serde_yaml::Value;
use std::ops::Range;
use std::sync::Arc;

/// The key that names a replacement.
const KEY: &str = "replaced by";

/// The text of a palette with the bead `key` replaced by the bead `by`; comments and layout stay, byte for byte.
///
/// # Errors
/// The text is no palette, has no such beads, the replacement would lead back to the bead itself, or
/// the bead is written in a way that cannot be edited safely.
pub fn set_replaced_by(text: &str, key: &str, by: &str) -> Result<String, Problem> {
    let source = Arc::new(Source { name: "palette.yaml".to_owned(), text: text.to_owned() });
    let root = sound_tree(&source).map_err(first)?;
    let beads = root.get("beads");
    known(&source, &root, key)?;
    known(&source, &root, by)?;
    let Some((name, bead)) = beads.entry(key) else { return Err(not_safe(&source, root.span.clone(), key)) };
    let edited = edits(text, bead, &quoted(by))
        .into_iter()
        .find(|edited| changes_only_that(text, edited, key, by))
        .ok_or_else(|| not_safe(&source, name.span.clone(), key))?;
    if leads_back(&edited, key) {
        let message =
            format!("`{}` cannot be replaced by `{}`, which leads back to it", shown(key), shown(by));
        return Err(Problem::error(message)
            .at(Place::new(&source, name.span.clone()))
            .hint("choose a bead that can still be bought"));
    }
    Ok(edited)
}

fn first(mut problems: Vec<Problem>) -> Problem {
    if problems.is_empty() { Problem::error("this palette cannot be read") } else { problems.swap_remove(0) }
}

fn known(source: &Arc<Source>, root: &Node, key: &str) -> Result<(), Problem> {
    let (at, beads) = root.entry("beads").map_or((root, root), |(name, beads)| (name, beads));
    let names: Vec<&str> = beads.entries().iter().map(|(name, _)| name.text()).collect();
    if names.contains(&key) {
        return Ok(());
    }
    Err(Problem::error(format!("the palette has no bead `{}`", shown(key)))
        .at(Place::new(source, at.span.clone()))
        .hint(did_you_mean(key, &names, "its beads are")))
}

fn not_safe(source: &Arc<Source>, span: Range<usize>, key: &str) -> Problem {
    Problem::error(format!("the bead `{}` is written in a way that cannot be edited safely", shown(key)))
        .at(Place::new(source, span))
        .hint(format!("write `{KEY}:` into it by hand"))
}

/// The text with the value in the bead, the most fitting layout first; each is to be checked.
fn edits(text: &str, bead: &Node, by: &str) -> Vec<String> {
    if let Some((name, value)) = bead.entry(KEY) {
        return replace(text, name, value, by).into_iter().collect();
    }
    let (Some((first, _)), Some((_, last))) = (bead.entries().first(), bead.entries().last()) else {
        return Vec::new();
    };
    if text[bead.span.start..].starts_with('{') {
        let at_end = text[bead.span.clone()]
            .strip_suffix('}')
            .map(|inner| put(text, bead.span.start + inner.trim_end().len(), &format!(", {KEY}: {by}")));
        let at_beginning = put(text, first.span.start, &format!("{KEY}: {by}, "));
        return at_end.into_iter().chain([at_beginning]).collect();
    }
    let line_start = text[..first.span.start].rfind('\n').map_or(0, |i| i + 1);
    let indent = &text[line_start..first.span.start];
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let at_end = on_one_line(text, last).then(|| match text[last.span.end..].find('\n') {
        Some(end) => put(text, last.span.end + end + 1, &format!("{indent}{KEY}: {by}{line_end}")),
        None => format!("{text}{line_end}{indent}{KEY}: {by}"),
    });
    let at_beginning = put(text, line_start, &format!("{indent}{KEY}: {by}{line_end}"));
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

/// Whether the two texts say the same but for the one value.
fn changes_only_that(before: &str, after: &str, key: &str, by: &str) -> bool {
    let (Ok(mut before), Ok(after)) =
        (serde_yaml::from_str::<Value>(before), serde_yaml::from_str::<Value>(after))
    else {
        return false;
    };
    let Some(bead) = before.get_mut("beads").and_then(|b| b.get_mut(key)).and_then(Value::as_mapping_mut)
    else {
        return false;
    };
    bead.insert(KEY.into(), by.into());
    before == after
}

/// Whether the replacements that begin at a bead come back to it.
fn leads_back(text: &str, key: &str) -> bool {
    let Ok(palette) = serde_yaml::from_str::<Value>(text) else { return false };
    let Some(beads) = palette.get("beads").and_then(Value::as_mapping) else { return false };
    let next = |at: &str| beads.get(at).and_then(|b| b.get(KEY)).and_then(Value::as_str);
    // A chain without a ring is shorter than the list of beads.
    let mut at = next(key);
    for _ in 0..=beads.len() {
        match at {
            None => return false,
            Some(name) if name == key => return true,
            Some(name) => at = next(name),
        }
    }
    true
}
