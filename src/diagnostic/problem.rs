use super::{Place, number_of};

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

/// Keeps the first so many problems, and says how many more there are: as much of an error as the worst of them.
pub fn keep_first(problems: &mut Vec<Problem>, most: usize) {
    let Some(more) = problems.get(most..).filter(|more| !more.is_empty()) else { return };
    let are = if more.len() == 1 { "is" } else { "are" };
    let message = format!("there {are} {} more", number_of(more.len(), "problem"));
    let severity = more.iter().map(|p| p.severity).max().unwrap_or(Severity::Advice);
    let rest = Problem { severity, ..Problem::error(message).hint("put these right first") };
    problems.truncate(most);
    problems.push(rest);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_are_kept_and_the_others_counted() {
        let of = |count: usize| (0..count).map(|i| Problem::advice(format!("{i}"))).collect::<Vec<_>>();
        let kept = |count: usize| {
            let mut problems = of(count);
            keep_first(&mut problems, 3);
            problems
        };
        assert_eq!(kept(3), of(3));
        assert_eq!((kept(4)[..3].to_vec(), kept(4)[3].message.as_str()), (of(3), "there is 1 problem more"));
        assert_eq!(kept(9)[3].message, "there are 6 problems more");
        // Many pieces of advice are no error; one error among them is.
        assert!(!has_errors(&kept(9)));
        let mut problems = of(4);
        problems.push(Problem::error("e"));
        keep_first(&mut problems, 3);
        assert!(has_errors(&problems));
    }
}
