//! Where in a file the parts of a text stand that YAML has quoted, escaped or folded.

use crate::design::{Node, Style};
use crate::diagnostic::{Place, Source};
use std::ops::Range;
use std::sync::Arc;

/// Where a text comes from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Origin {
    source: Arc<Source>,
    /// The first line of the value in the file.
    first_line: Range<usize>,
    style: Style,
}

impl Origin {
    /// Of a value of a file.
    pub(super) fn of(source: &Arc<Source>, node: &Node) -> Origin {
        Origin { source: Arc::clone(source), first_line: node.span.clone(), style: node.style() }
    }

    /// The whole of it: what stands on its first line.
    pub(super) fn whole(&self) -> Place {
        Place::new(&self.source, self.first_line.clone())
    }

    /// Where a part of the text stands; the whole where it cannot be found.
    pub(super) fn part(&self, text: &str, part: &Range<usize>) -> Place {
        let end = part.end.max(part.start + first(text, part.start));
        let Some(start) = self.offset(text, part.start) else { return self.whole() };
        let end = self.offset(text, end).unwrap_or(start + first(&self.source.text, start));
        Place::new(&self.source, start..end)
    }

    /// The place in the file of a place in the text: walks both at once, since YAML writes the same
    /// characters, some of them escaped, and any run of blanks where it breaks a line.
    fn offset(&self, text: &str, to: usize) -> Option<usize> {
        let file = &self.source.text;
        let mut at = self.first_line.start;
        // The parser gives the place of the quote, but of a block that of its first word.
        if self.style == Style::Quoted {
            at += 1;
        }
        let doubly = self.style == Style::Quoted && file[self.first_line.start..].starts_with('"');
        let mut walked = 0;
        while walked < to {
            let rest = file.get(at..)?;
            let (there, here) = (rest.chars().next()?, text.get(walked..)?.chars().next()?);
            if doubly && there == '\\' {
                at += escape(rest)?;
                if !rest[1..].starts_with(['\n', '\r']) {
                    walked += here.len_utf8();
                }
            } else if there == '\'' && self.style == Style::Quoted && !doubly {
                at += 2;
                walked += 1;
            } else if matches!(there, '\n' | '\r') || (here.is_whitespace() && there != here) {
                at += blanks(rest);
                walked += blanks(&text[walked..]);
            } else if there == ' ' && here != ' ' {
                // Blanks before a break are folded away.
                at += blanks(rest);
            } else {
                at += there.len_utf8();
                walked += here.len_utf8();
            }
        }
        (walked == to).then_some(at)
    }
}

/// Bytes of the character at a place; one where there is none.
fn first(text: &str, at: usize) -> usize {
    text.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8)
}

/// Bytes of the blanks and line breaks at the beginning.
fn blanks(text: &str) -> usize {
    text.len() - text.trim_start_matches([' ', '\t', '\n', '\r']).len()
}

/// Bytes of the escape at the beginning of a doubly quoted text (YAML 1.2, 5.7).
fn escape(text: &str) -> Option<usize> {
    match text[1..].chars().next()? {
        'x' => Some(4),
        'u' => Some(6),
        'U' => Some(10),
        '\n' | '\r' => Some(1 + blanks(&text[1..])),
        other => Some(1 + other.len_utf8()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_takes_whole_characters() {
        let text = "a: x\u{a0}né\n";
        let source = Arc::new(Source { name: "words.yaml".to_owned(), text: text.to_owned() });
        let origin = Origin { source, first_line: 3..8, style: Style::Plain };
        let part = |part: Range<usize>| {
            let Place { source, span } = origin.part("x\u{a0}né", &part);
            source.text.get(span).map(str::to_owned)
        };
        assert_eq!(part(1..1).as_deref(), Some("\u{a0}"));
        assert_eq!(part(0..0).as_deref(), Some("x"));
        assert_eq!(part(4..4).as_deref(), Some("é"));
        assert_eq!(part(1..4).as_deref(), Some("\u{a0}n"));
        // What it says is longer than the text that stands there.
        assert_eq!(part(4..99).as_deref(), Some("é"));
    }
}
