//! Lines of a picture with their places.

use super::bounds::MOST_TOLD;
use super::letters::Letters;
use super::model::LetterId;
use super::yaml::{Check, Kind, Node, Style, shifted_with_spaces};
use crate::diagnostic::{Problem, Source};
use std::collections::BTreeSet;
use std::ops::Range;

/// One line of a picture as text.
#[derive(Clone, Debug)]
pub(super) struct PictureLine {
    /// Its text, without blanks at its end.
    pub text: String,
    /// Where it stands.
    pub span: Range<usize>,
}

/// One line of a body's picture.
#[derive(Clone, Debug)]
pub(super) struct RowLine {
    /// Leading dots.
    pub dots: usize,
    /// Letters from left to right.
    pub letters: Vec<LetterId>,
    /// Where the letters stand, without the dots.
    pub span: Range<usize>,
}

/// The lines of a picture, empty ones left out; `None` (with a problem) when it is not written as a block.
pub(super) fn lines(check: &mut Check<'_>, parent: &Node, key: &str) -> Option<Vec<PictureLine>> {
    let (name, node) = parent.entry(key)?;
    let Kind::Scalar { text, style, .. } = &node.kind else { return None };
    let one_line = node.text().trim().lines().count() <= 1;
    if *style == Style::Folded || (*style == Style::Plain && is_broken(check, node)) {
        check.error(
            name.span.clone(),
            "the lines of this picture are joined into one",
            format!("write `{key}: |` and begin the picture on the next line"),
        );
        return None;
    }
    let block = *style == Style::Literal;
    let begin = if block { block_start(&check.source, node.span.start) } else { node.span.start };
    let mut at = begin;
    let mut lines = Vec::new();
    for content in text.lines() {
        let rest = check.source.text.get(at..).unwrap_or("");
        let whole = rest.split('\n').next().unwrap_or("");
        let line = whole.trim_end_matches('\r');
        let text = content.trim_end();
        let span = if block && line.ends_with(content) {
            let start = at + line.len() - content.len();
            start..start + text.len()
        } else if one_line {
            inside(&check.source, node, 0..text.len())
        } else {
            node.span.clone()
        };
        at += whole.len() + 1;
        if !text.trim().is_empty() {
            lines.push(PictureLine { text: text.to_owned(), span });
        }
    }
    if lines.is_empty() {
        check.error(
            name.span.clone(),
            "this picture is empty",
            "draw one line of letters for each line of beads",
        );
        return None;
    }
    Some(lines)
}

/// Whether a text without quotes goes on over its line's end.
fn is_broken(check: &Check<'_>, node: &Node) -> bool {
    node.text() != check.source.text.get(node.span.clone()).unwrap_or("")
}

/// Where the content of a block begins: on the line after its `|`, wherever inside them the parser points.
fn block_start(source: &Source, at: usize) -> usize {
    let before = source.text.get(..at).unwrap_or("");
    let line = before.rfind('\n').map_or(0, |i| i + 1);
    let is_head = before.get(line..).is_some_and(|b| b.contains(':') || b.contains('-'))
        || source.text.get(at..).is_some_and(|rest| rest.starts_with('|'));
    if is_head { source.text[at..].find('\n').map_or(source.text.len(), |i| at + i + 1) } else { line }
}

/// The place of a stretch of a scalar's own text, as near as it can be told.
pub(super) fn inside(source: &Source, node: &Node, part: Range<usize>) -> Range<usize> {
    match begin_inside(source, node) {
        Some(begin) if part.end <= node.text().len() => begin + part.start..begin + part.end,
        _ => node.span.clone(),
    }
}

/// Where a scalar's own text begins, if it is written as it is read.
fn begin_inside(source: &Source, node: &Node) -> Option<usize> {
    // In quotes it begins a character later; nothing else can stand before it.
    let written = source.text.get(node.span.clone())?;
    let quote = usize::from(written.starts_with(['"', '\'']));
    written.get(quote..)?.starts_with(node.text()).then_some(node.span.start + quote)
}

/// Reads the letters of a picture; each unknown letter is told once.
pub(super) struct LetterReader<'l> {
    letters: &'l Letters,
    unknown: BTreeSet<char>,
}

impl<'l> LetterReader<'l> {
    /// For a design's letters.
    pub fn new(letters: &'l Letters) -> LetterReader<'l> {
        LetterReader { letters, unknown: BTreeSet::new() }
    }

    /// The letter of one character.
    pub fn letter(&mut self, check: &mut Check<'_>, symbol: char, span: Range<usize>) -> Option<LetterId> {
        let found = self.letters.find(symbol);
        if found.is_none() && self.unknown.len() < MOST_TOLD && self.unknown.insert(symbol) {
            if symbol.is_ascii_alphabetic() {
                let hint = self.letters.hint(symbol);
                check.error(span, format!("the letter `{symbol}` is not in `colours`"), hint);
            } else {
                let message = format!("`{}` is not a letter", symbol.escape_debug());
                check.error(span, message, "use letters from A to Z and a to z, and dots for half stacks");
            }
        }
        found
    }

    /// One line of a body's picture: dots, then letters two columns apart.
    pub fn row_line(&mut self, check: &mut Check<'_>, line: &PictureLine) -> Option<RowLine> {
        if line.text.starts_with(' ') {
            let start = line.text.len() - line.text.trim_start().len();
            let problem = shifted_with_spaces(&check.source, line.span.start + start..line.span.end);
            check.note(problem);
            return None;
        }
        // Dots after the last letter say no more than blanks would.
        let text = line.text.trim_end_matches(['.', ' ']);
        let dots = text.len() - text.trim_start_matches('.').len();
        let mut letters = Vec::new();
        let mut good = true;
        let cells = &text[dots..];
        for (column, (i, c)) in cells.char_indices().enumerate() {
            let at = line.span.start + dots + i;
            let span = at..at + c.len_utf8();
            if column % 2 == 1 {
                if c != ' ' {
                    apart(check, span, c);
                    return None;
                }
            } else if c == ' ' || c == '\t' || c == '.' {
                apart(check, span, c);
                return None;
            } else {
                match self.letter(check, c, span) {
                    Some(letter) => letters.push(letter),
                    None => good = false,
                }
            }
        }
        if letters.is_empty() && good {
            check.error(line.span.clone(), "this line has no letters", "remove it, or draw its beads");
            return None;
        }
        let span =
            (line.span.start + dots).min(line.span.end)..(line.span.start + text.len()).min(line.span.end);
        good.then_some(RowLine { dots, letters, span })
    }
}

/// Letters that do not stand two columns apart.
fn apart(check: &mut Check<'_>, span: Range<usize>, found: char) {
    let (message, hint) = match found {
        '\t' => ("a tab stands in this row of the picture", "put one space between two letters"),
        ' ' => (
            "there is a gap in this row of the picture",
            "a row has no holes: put one space between two letters, and dots only before the first",
        ),
        '.' => (
            "a dot stands among the letters of this row",
            "a row has no holes: write dots only before the first letter, one for each half stack",
        ),
        _ => (
            "the letters of this row do not stand two columns apart",
            "put one space between two letters, as in `A B B A`",
        ),
    };
    let problem = Problem::error(message).at(check.place(span)).hint(hint);
    check.note(problem);
}
