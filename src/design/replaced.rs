//! Discontinued beads and what takes their place.

use super::check::Check;
use super::model::{BeadId, Palette};
use super::outline::Node;
use super::palette::PaletteRead;
use crate::diagnostic::did_you_mean;

/// Notes every `replaced by` that leads nowhere, or round in a ring.
pub(super) fn replacements(check: &mut Check<'_>, read: &PaletteRead, beads: &Node) {
    let names: Vec<&str> = read.palette.beads.iter().map(|b| b.key.as_str()).collect();
    for bead in &read.palette.beads {
        let Some(by) = &bead.replaced_by else { continue };
        let span = beads.get(&bead.key).get("replaced by").span.clone();
        if !names.contains(&by.as_str()) && !read.broken.contains(by) {
            let hint = did_you_mean(by, &names, "the beads of this palette are");
            check.error(
                span,
                format!("`{}` is replaced by `{by}`, which is not in this palette", bead.key),
                hint,
            );
        } else if let Some(ring) =
            follow(&read.palette, &bead.key).err().filter(|ring| is_told_at(&names, ring))
        {
            check.error(
                span,
                format!("the replacements run in a ring: {}", ring.join(" → ")),
                "remove `replaced by` from the bead that can still be bought",
            );
        }
    }
}

/// Whether a ring is told at the bead it was followed from: at that of its own which stands first in the file.
fn is_told_at(names: &[&str], ring: &[String]) -> bool {
    let first = names.iter().find(|name| ring.iter().any(|r| r == *name));
    ring.first() == ring.last() && first.is_some_and(|name| ring.first().is_some_and(|r| r == name))
}

/// The bead that is used for a key: itself, or the end of its chain of replacements. `None` when the
/// chain leads to a bead that is not there.
///
/// # Errors
/// The ring of keys in which the chain runs.
pub(super) fn follow(palette: &Palette, key: &str) -> Result<Option<BeadId>, Vec<String>> {
    let mut seen: Vec<String> = vec![key.to_owned()];
    let mut at = palette.beads.iter().position(|b| b.key == key);
    while let Some(by) = at.and_then(|i| palette.beads[i].replaced_by.as_ref()) {
        let again = seen.contains(by);
        seen.push(by.clone());
        if again {
            return Err(seen);
        }
        at = palette.beads.iter().position(|b| b.key == *by);
    }
    Ok(at.map(BeadId))
}
