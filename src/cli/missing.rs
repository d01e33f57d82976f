//! Characters that cannot be printed: named, and shown where they stand in the maker's files.

use crate::design::Design;
use crate::diagnostic::{Place, Problem, Source};
use crate::layout::MissingGlyph;
use std::sync::Arc;

/// A problem for each character, at its first place in the design or the palette where it stands there.
pub(super) fn problems(missing: &[MissingGlyph], design: &Design) -> Vec<Problem> {
    let of_letter = design.letters.iter().map(|l| &l.place.source);
    let of_bead = design.palette.beads.iter().map(|b| &b.place.source);
    let mut sources: Vec<&Arc<Source>> = Vec::new();
    for source in of_letter.chain(of_bead) {
        if !sources.iter().any(|s| Arc::ptr_eq(s, source)) {
            sources.push(source);
        }
    }
    let mut problems: Vec<Problem> = missing.iter().map(|m| problem(m, &sources)).collect();
    problems.sort_by_key(|p| p.place.as_ref().map(|place| place.span.start));
    problems
}

fn problem(missing: &MissingGlyph, sources: &[&Arc<Source>]) -> Problem {
    let c = missing.character;
    let name = unicode_names2::name(c)
        .map_or_else(String::new, |name| format!(" {}", name.to_string().to_lowercase()));
    let place = sources.iter().find_map(|source| {
        let start = source.text.find(c)?;
        Some(Place::new(source, start..start + c.len_utf8()))
    });
    let shown = if c.is_control() { String::new() } else { format!(" “{c}”") };
    let of = if place.is_some() { String::new() } else { format!(" of “{}”", missing.text.trim()) };
    let problem =
        Problem::error(format!("no built-in font has the character{shown} (U+{:04X}{name}){of}", c as u32))
            .hint("write it another way; Latin, Greek and Cyrillic letters can be printed");
    match place {
        Some(place) => problem.at(place),
        None => problem,
    }
}
