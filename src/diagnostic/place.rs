use std::ops::Range;
use std::sync::Arc;

/// A file's text, kept so that a problem can show the line it speaks of.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// The file's name as the user gave it.
    pub name: String,
    /// The whole text.
    pub text: String,
}

/// A stretch of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The file it stands in.
    pub source: Arc<Source>,
    /// Byte range in the file's text.
    pub span: Range<usize>,
}

impl Place {
    /// A stretch of a file.
    #[must_use]
    pub fn new(source: &Arc<Source>, span: Range<usize>) -> Place {
        Place { source: Arc::clone(source), span }
    }

    /// Line and column of the first character, both from 1; a column is a character.
    #[must_use]
    pub fn line_column(&self) -> (usize, usize) {
        let before = self.before();
        let line = before.bytes().filter(|&b| b == b'\n').count() + 1;
        let column = before[line_start(before)..].chars().count() + 1;
        (line, column)
    }

    /// The line it begins on, without its line break.
    #[must_use]
    pub fn line(&self) -> &str {
        let start = line_start(self.before());
        let rest = &self.source.text[start..];
        rest.split('\n').next().unwrap_or("").trim_end_matches('\r')
    }

    /// The part of its first line before it, and the part of it that stands on that line.
    #[must_use]
    pub(super) fn on_line(&self) -> (&str, &str) {
        let before = self.before();
        let start = line_start(before);
        let line = self.line();
        let from = (before.len() - start).min(line.len());
        let end = self.span.end.max(self.span.start).saturating_sub(start).clamp(from, line.len());
        (line.get(..from).unwrap_or(""), line.get(from..end).unwrap_or(""))
    }

    /// The text before it; a span that does not fit the text counts as its end.
    fn before(&self) -> &str {
        self.source.text.get(..self.span.start).unwrap_or(&self.source.text)
    }
}

fn line_start(before: &str) -> usize {
    before.rfind('\n').map_or(0, |i| i + 1)
}
