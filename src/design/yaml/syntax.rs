//! Broken YAML, explained by what a maker most likely did.

use crate::design::bounds::DEEPEST;
use crate::diagnostic::{Place, Problem, Source};
use std::ops::Range;
use std::sync::Arc;

/// What is wrong in a text that the YAML parser gave up on at a byte.
pub(super) fn explain(source: &Arc<Source>, at: usize, parser_says: &str) -> Vec<Problem> {
    let lines = lines(&source.text);
    let here = lines.iter().rposition(|l| l.start <= at).unwrap_or(0);
    let colours = unquoted_colours(source, &lines);
    if !colours.is_empty() {
        return colours;
    }
    let at = at.min(source.text.len());
    let problem = tab(source, &lines)
        .or_else(|| by_its_words(source, at, parser_says))
        .or_else(|| shifted_picture(source, &lines, here))
        .or_else(|| open_bracket(source, &lines, here))
        .unwrap_or_else(|| {
            let line = lines.get(here).map_or(0..0, Clone::clone);
            let place = if at >= line.end { trimmed(source, &line) } else { at..at };
            Problem::error(format!("this is not YAML as it can be read: {}", plain(parser_says)))
                .at(Place::new(source, place))
                .hint("look at this line and the one before: is a quote or bracket left open, a colon missing, or the indentation uneven?")
        });
    vec![problem]
}

fn plain(parser_says: &str) -> String {
    let text = parser_says.split(" at line ").next().unwrap_or(parser_says);
    text.trim_end_matches('.').to_owned()
}

/// Stretches of the lines, without their line breaks.
fn lines(text: &str) -> Vec<Range<usize>> {
    let mut start = 0;
    text.split('\n')
        .map(|line| {
            let range = start..start + line.trim_end_matches('\r').len();
            start += line.len() + 1;
            range
        })
        .collect()
}

fn trimmed(source: &Source, line: &Range<usize>) -> Range<usize> {
    let text = &source.text[line.clone()];
    let start = line.start + (text.len() - text.trim_start().len());
    start..start + text.trim().len()
}

/// A `#` colour without quotes takes the rest of its line with it as a comment.
fn unquoted_colours(source: &Arc<Source>, lines: &[Range<usize>]) -> Vec<Problem> {
    lines
        .iter()
        .filter_map(|line| {
            let text = &source.text[line.clone()];
            if text.trim_start().starts_with('#') {
                return None;
            }
            ["colour:", "accent:"].iter().find_map(|key| {
                let after = text.find(key)? + key.len();
                let rest = &text[after..];
                let value = rest.trim_start();
                let digits = value.strip_prefix('#')?.chars().take_while(char::is_ascii_alphanumeric).count();
                let start = line.start + after + (rest.len() - value.len());
                (digits > 0).then(|| unquoted_colour(source, start..start + 1 + digits))
            })
        })
        .collect()
}

/// The problem of a `#` colour without quotes.
pub(super) fn unquoted_colour(source: &Arc<Source>, span: Range<usize>) -> Problem {
    let colour = source.text.get(span.clone()).unwrap_or("#1b1c20").to_owned();
    Problem::error("without quotes, `#` begins a comment, so no colour is read here")
        .at(Place::new(source, span))
        .hint(format!("put the colour in quotes: \"{colour}\""))
}

/// YAML takes no tabs for indentation.
fn tab(source: &Arc<Source>, lines: &[Range<usize>]) -> Option<Problem> {
    lines.iter().find_map(|line| {
        let text = &source.text[line.clone()];
        let blank = text.len() - text.trim_start_matches([' ', '\t']).len();
        let tab = text[..blank].find('\t')?;
        (!text.trim().is_empty()).then(|| {
            Problem::error("a tab stands at the beginning of this line")
                .at(Place::new(source, line.start + tab..line.start + tab + 1))
                .hint("YAML takes only spaces there: replace the tab by spaces")
        })
    })
}

/// A picture whose first line is indented further than a later one: YAML ends the block there.
fn shifted_picture(source: &Arc<Source>, lines: &[Range<usize>], here: usize) -> Option<Problem> {
    let text = |i: usize| &source.text[lines[i].clone()];
    let indent = |i: usize| text(i).len() - text(i).trim_start_matches(' ').len();
    let is_head = |i: usize| {
        let line = text(i).trim();
        ["picture:", "below:"]
            .iter()
            .any(|k| line.strip_prefix(k).is_some_and(|rest| rest.trim_start().starts_with(['|', '>'])))
    };
    let head = (0..=here.min(lines.len().checked_sub(1)?)).rev().find(|&i| is_head(i))?;
    let first = (head + 1..lines.len()).find(|&i| !text(i).trim().is_empty())?;
    let out = (first + 1..lines.len()).find(|&i| !text(i).trim().is_empty() && indent(i) < indent(first))?;
    (out <= here + 1 && indent(out) > indent(head))
        .then(|| shifted_with_spaces(source, trimmed(source, &lines[first])))
}

/// The problem of a picture whose rows are moved with spaces.
pub(in crate::design) fn shifted_with_spaces(source: &Arc<Source>, span: Range<usize>) -> Problem {
    Problem::error("this row of the picture is moved with spaces")
        .at(Place::new(source, span))
        .hint("begin every line of the picture in the same column and write one dot for each half stack, as in `..A A A`")
}

/// Lists and mappings inside one another beyond all need.
pub(super) fn nested(source: &Arc<Source>, span: Range<usize>) -> Problem {
    Problem::error(format!("lists and keys are nested more than {DEEPEST} deep"))
        .at(Place::new(source, span))
        .hint("these files need five levels at most: look for brackets that were never closed")
}

/// What the parser's own words mean to a maker.
fn by_its_words(source: &Arc<Source>, at: usize, parser_says: &str) -> Option<Problem> {
    let here = |len: usize| Place::new(source, at..(at + len).min(source.text.len()));
    if parser_says.contains("recursion limit") {
        return Some(nested(source, at..at));
    }
    if parser_says.contains("unknown anchor") {
        let name = source.text[at..]
            .chars()
            .skip(1)
            .take_while(|c| c.is_alphanumeric())
            .map(char::len_utf8)
            .sum::<usize>()
            + 1;
        return Some(
            Problem::error("nothing in this file has this `*` name")
                .at(here(name))
                .hint("write the value out instead"),
        );
    }
    parser_says.contains("mapping values are not allowed").then(|| {
        Problem::error("a colon stands where no key can be")
            .at(here(1))
            .hint("indent this line like its neighbours; a text that holds a colon is written in quotes")
    })
}

/// Whether a quote after this text begins a quoted text, rather than being an apostrophe.
fn begins(before: &str) -> bool {
    before.trim_end().is_empty() || before.trim_end().ends_with([':', '-', ',', '[', '{'])
}

/// A quote, bracket or brace that is not closed on the line it opens on.
fn open_bracket(source: &Arc<Source>, lines: &[Range<usize>], here: usize) -> Option<Problem> {
    (here.saturating_sub(3)..=here).rev().filter_map(|i| lines.get(i)).find_map(|line| {
        let text = &source.text[line.clone()];
        let (mut open, mut quote) = (Vec::new(), None);
        for (i, c) in text.char_indices() {
            match (quote, c) {
                (Some((_, q)), c) if q == c => quote = None,
                (Some(_), _) => {}
                (None, '"' | '\'') if begins(&text[..i]) => quote = Some((i, c)),
                (None, '#') if i == 0 || text[..i].ends_with(' ') => break,
                (None, '{' | '[') => open.push((i, c)),
                (None, '}' | ']') => {
                    open.pop();
                }
                _ => {}
            }
        }
        if let Some((i, q)) = quote {
            return Some(
                Problem::error("the quote that begins here is not closed")
                    .at(Place::new(source, line.start + i..line.start + i + 1))
                    .hint(format!("add the {q} that belongs to it")),
            );
        }
        let (i, c) = open.pop()?;
        let close = if c == '{' { '}' } else { ']' };
        Some(
            Problem::error(format!("the `{c}` here is not closed"))
                .at(Place::new(source, line.start + i..line.start + i + 1))
                .hint(format!("add the `{close}` that belongs to it")),
        )
    })
}
