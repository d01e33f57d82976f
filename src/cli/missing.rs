//! Characters that cannot be printed: named, and shown where they stand in the maker's files.

use crate::booklet::Wording;
use crate::design::{Design, Written, texts_of};
use crate::diagnostic::{Place, Problem, Source, number_of};
use crate::layout::{MissingGlyph, StandIn};
use std::cmp::Reverse;
use std::sync::Arc;

/// A problem for each character, at the text that holds it: of the design, its palette, its studio file, or the
/// maker's own templates.
pub(super) fn problems(missing: &[MissingGlyph], design: &Design, wording: &Wording) -> Vec<Problem> {
    let sources = design.sources().into_iter().chain(wording.sources());
    let order = design.studio.order.iter();
    let own = order.flat_map(|order| &order.entries).filter_map(|entry| entry.own());
    let lines = own.flat_map(|section| lines_of(&section.source));
    let texts: Vec<Written> = sources.flat_map(texts_of).chain(lines).collect();
    let mut problems: Vec<Problem> = missing.iter().map(|m| problem(m, &texts)).collect();
    crate::diagnostic::sort(&mut problems);
    problems
}

fn problem(missing: &MissingGlyph, texts: &[Written]) -> Problem {
    let c = missing.character;
    let name = unicode_names2::name(c)
        .map_or_else(String::new, |name| format!(" {}", name.to_string().to_lowercase()));
    let written = written(missing, texts);
    let shown = if c.is_control() { String::new() } else { format!(" “{c}”") };
    let of = if written.is_some() { String::new() } else { format!(" of “{}”", missing.text.trim()) };
    let problem =
        Problem::error(format!("no built-in font has the character{shown} (U+{:04X}{name}){of}", c as u32))
            .hint("write it another way; Latin, Greek and Cyrillic letters can be printed");
    match written {
        Some(written) => problem.at(written.place_of(c)),
        None => problem,
    }
}

/// Advice for each font of the maker's that lacks characters of a booklet: built-in faces stand in for it there.
pub(super) fn stand_ins(stand_ins: &[StandIn], design: &Design) -> Vec<Problem> {
    /// Characters that are named; more would bury what is said.
    const NAMED: usize = 12;
    let mut problems = Vec::new();
    for of_font in stand_ins.chunk_by(|one, next| one.font == next.font) {
        let Some(house) = design.studio.fonts.iter().find(|house| house.font == of_font[0].font) else {
            continue;
        };
        let named = of_font.iter().take(NAMED).map(|one| {
            let c = one.character;
            if c.is_control() { format!("U+{:04X}", c as u32) } else { format!("“{c}”") }
        });
        let more = if of_font.len() > NAMED { " …" } else { "" };
        let named = named.collect::<Vec<_>>().join(" ");
        let count = number_of(of_font.len(), "character");
        problems.push(
            Problem::advice(format!(
                "the font `{}` lacks {count} of this booklet: {named}{more}",
                house.name
            ))
            .at(house.place.clone())
            .hint("they are set in a built-in font; choose one that has them if that shows"),
        );
    }
    problems
}

/// The lines of a file of prose.
fn lines_of(source: &Arc<Source>) -> Vec<Written> {
    let mut start = 0;
    let line = |line: &str| {
        let place = Place::new(source, start..start + line.trim_end().len());
        start += line.len();
        Written { text: line.trim().to_owned(), place }
    };
    source.text.split_inclusive('\n').map(line).filter(|line| !line.text.is_empty()).collect()
}

/// The text of the files that a booklet's text was made of: one that is part of it, or that it is part of.
/// Where several are, the one that makes most of it: a bead that is not used may have a like name.
fn written<'t>(missing: &MissingGlyph, texts: &'t [Written]) -> Option<&'t Written> {
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let printed = words(&missing.text);
    let holding: Vec<&Written> = texts.iter().filter(|t| t.text.contains(missing.character)).collect();
    let of_it = holding.iter().filter_map(|t| {
        let text = words(&t.text);
        let is_part = printed.contains(&text) || text.contains(&printed);
        is_part.then_some((Reverse(text.len().min(printed.len())), *t))
    });
    let most_of_it = of_it.min_by_key(|(shared, _)| *shared).map(|(_, text)| text);
    most_of_it.or(holding.first().copied())
}
