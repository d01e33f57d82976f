//! Problems: what is wrong, where it stands in which file, and what to do about it.

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

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing; nothing is wrong.
    Advice,
    /// The result is made, but a person should look at it.
    Warning,
    /// The result cannot be made.
    Error,
}

/// One thing to tell the user.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// How much it matters.
    pub severity: Severity,
    /// Where it is, when it is in a file.
    pub place: Option<Place>,
    /// What is wrong, as one sentence without a full stop.
    pub message: String,
    /// What to do, as one sentence; may be empty.
    pub hint: String,
}
