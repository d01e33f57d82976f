//! Editing a palette file and leaving all the rest as its maker wrote it.

use super::edit::edits;
use super::yaml::{Node, quoted, sound_tree};
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
    let edited = edits(text, bead, KEY, &quoted(by))
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
