use super::Place;

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

impl Problem {
    /// Something that stops the result from being made.
    #[must_use]
    pub fn error(message: impl Into<String>) -> Problem {
        Problem { severity: Severity::Error, place: None, message: message.into(), hint: String::new() }
    }

    /// Something a person should look at.
    #[must_use]
    pub fn warning(message: impl Into<String>) -> Problem {
        Problem { severity: Severity::Warning, ..Problem::error(message) }
    }

    /// Something worth knowing.
    #[must_use]
    pub fn advice(message: impl Into<String>) -> Problem {
        Problem { severity: Severity::Advice, ..Problem::error(message) }
    }

    /// The same, standing at a place.
    #[must_use]
    pub fn at(mut self, place: Place) -> Problem {
        self.place = Some(place);
        self
    }

    /// The same, with what to do.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Problem {
        self.hint = hint.into();
        self
    }
}

/// Whether anything stops the result from being made.
#[must_use]
pub fn has_errors(problems: &[Problem]) -> bool {
    problems.iter().any(|p| p.severity == Severity::Error)
}

/// Puts problems in reading order: those without a place first, then by file in the order the files
/// were first met, then by position; equal ones are told once.
pub fn sort(problems: &mut Vec<Problem>) {
    let mut files: Vec<String> = Vec::new();
    for place in problems.iter().filter_map(|p| p.place.as_ref()) {
        if !files.contains(&place.source.name) {
            files.push(place.source.name.clone());
        }
    }
    problems.sort_by_key(|p| {
        p.place.as_ref().map(|place| {
            let file = files.iter().position(|name| *name == place.source.name);
            (file, place.span.start, place.span.end)
        })
    });
    problems.dedup();
}
