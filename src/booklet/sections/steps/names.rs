//! What the steps are called in a design file: the same in every language, and plain enough to stay right when a
//! design changes.

/// What a step is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum StepName {
    /// By one word.
    Word(&'static str),
    /// By its place in the foundation, which is row 1 too.
    Ladder(&'static str),
    /// By the rows that it tells, and which part of the row where it does not tell its start.
    Rows { from: usize, to: usize, part: &'static str },
    /// By the strands that it tells.
    Strands { from: usize, to: usize },
    /// By the row or strand that a new length is joined before.
    Join { strand: bool, number: usize },
}

/// How a row goes on.
pub(super) const ADDING: &str = "adding";
/// How it ends.
pub(super) const ENDING: &str = "ending";
/// How it is begun beyond the row that it hangs on.
pub(super) const BUILDING_OUT: &str = "building out";
/// How it goes on beyond that row at its end.
pub(super) const BUILDING_OUT_ENDING: &str = "building out at the end";

impl StepName {
    /// The name, as a file may write it.
    pub(super) fn written(self) -> String {
        let and = |name: String, part: &str| if part.is_empty() { name } else { format!("{name} {part}") };
        match self {
            StepName::Word(word) => word.to_owned(),
            StepName::Ladder(part) => and("ladder".to_owned(), part),
            StepName::Rows { from, to, part } => and(numbered("row", from, to), part),
            StepName::Strands { from, to } => numbered("strand", from, to),
            StepName::Join { strand, number } => {
                format!("join {} {number}", if strand { "strand" } else { "row" })
            }
        }
    }

    /// Whether a file that writes this means the step.
    fn is_meant(self, asked: &str) -> bool {
        let within = |what: &str, from: usize, to: usize, part: &str| {
            Some(Numbered { what, part }).is_some_and(|wanted| {
                wanted.of(asked).is_some_and(|(first, last)| from <= first && last <= to)
            })
        };
        asked == self.written()
            || match self {
                StepName::Word(_) | StepName::Join { .. } => false,
                StepName::Ladder(part) => within("row", 1, 1, part),
                StepName::Rows { from, to, part } => within("row", from, to, part),
                StepName::Strands { from, to } => within("strand", from, to, ""),
            }
    }

    /// Whether it tells a row or strand that is asked for, in whatever part of it.
    fn tells(self, asked: &str) -> bool {
        let (what, from, to) = match self {
            StepName::Ladder(_) => ("row", 1, 1),
            StepName::Rows { from, to, .. } => ("row", from, to),
            StepName::Strands { from, to } => ("strand", from, to),
            StepName::Word(_) | StepName::Join { .. } => return false,
        };
        Numbered { what, part: "" }.of(asked).is_some_and(|(first, last)| from <= first && last <= to)
    }
}

/// The step that a file means; `None` where there is none of that name.
///
/// Which part of a row is told apart, and where a new length is joined, may differ from edition to edition (row 1 may
/// start at the other side): where a booklet has no step of its own for it, the one that tells the row or strand is meant,
/// and the second value is `false`.
pub(super) fn meant(asked: &str, names: &[StepName]) -> Option<(usize, bool)> {
    let asked = asked.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    if let Some(index) = names.iter().position(|name| name.is_meant(&asked)) {
        return Some((index, true));
    }
    let part = |part: &str| asked.strip_suffix(part).and_then(|rest| rest.strip_suffix(' '));
    let whole = [ADDING, ENDING, BUILDING_OUT, BUILDING_OUT_ENDING].into_iter().find_map(part);
    let whole = whole.or_else(|| asked.strip_prefix("join ")).unwrap_or(&asked);
    let whole = if whole == "ladder" { "row 1" } else { whole };
    names.iter().position(|name| name.tells(whole)).map(|index| (index, false))
}

/// `row 2`, `rows 4 to 13`.
fn numbered(what: &str, from: usize, to: usize) -> String {
    if from == to { format!("{what} {from}") } else { format!("{what}s {from} to {to}") }
}

/// Names with numbers in them.
struct Numbered<'n> {
    what: &'n str,
    part: &'n str,
}

impl Numbered<'_> {
    /// The numbers in a name of this kind: `row 7`, `rows 4 to 13`, `rows 4-13`.
    fn of(&self, asked: &str) -> Option<(usize, usize)> {
        let rest = asked.strip_prefix(self.what)?;
        let rest = rest.strip_prefix('s').unwrap_or(rest).strip_prefix(' ')?;
        let numbers =
            if self.part.is_empty() { rest } else { rest.strip_suffix(self.part)?.strip_suffix(' ')? };
        let mut ends = numbers.split(" to ").flat_map(|end| end.split(['-', '–'])).map(|end| {
            let is_number = !end.is_empty() && end.bytes().all(|b| b.is_ascii_digit());
            is_number.then(|| end.parse().ok()).flatten()
        });
        let first: usize = ends.next()??;
        let last = ends.next().map_or(Some(first), |last| last)?;
        ends.next().is_none().then_some((first, last))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NAMES: [StepName; 11] = [
        StepName::Word("begin"),
        StepName::Ladder(""),
        StepName::Ladder(ADDING),
        StepName::Rows { from: 2, to: 2, part: "" },
        StepName::Rows { from: 2, to: 2, part: ADDING },
        StepName::Rows { from: 3, to: 3, part: ENDING },
        StepName::Rows { from: 4, to: 13, part: "" },
        StepName::Join { strand: false, number: 9 },
        StepName::Word("hanging"),
        StepName::Strands { from: 1, to: 1 },
        StepName::Strands { from: 2, to: 17 },
    ];

    #[test]
    fn every_step_is_found_by_its_own_name() {
        for (index, name) in NAMES.into_iter().enumerate() {
            assert_eq!(meant(&name.written(), &NAMES), Some((index, true)), "{name:?}");
        }
    }

    #[test]
    fn a_row_or_strand_is_found_in_the_step_that_tells_it() {
        for (asked, wanted, exact) in [
            ("Row 2", "row 2", true),
            ("  ROW   2  Adding ", "row 2 adding", true),
            ("row 1", "ladder", true),
            ("row 1 adding", "ladder adding", true),
            ("row 7", "rows 4 to 13", true),
            ("rows 4-13", "rows 4 to 13", true),
            ("rows 5–9", "rows 4 to 13", true),
            ("strand 5", "strands 2 to 17", true),
            ("join row 9", "join row 9", true),
            // Nothing tells its start, its end or its join apart.
            ("row 3", "row 3 ending", false),
            ("row 2 ending", "row 2", false),
            ("ladder ending", "ladder", false),
            ("join row 8", "rows 4 to 13", false),
            ("join strand 3", "strands 2 to 17", false),
        ] {
            let found = meant(asked, &NAMES).map(|(index, exact)| (NAMES[index].written(), exact));
            assert_eq!(found, Some((wanted.to_owned(), exact)), "{asked}");
        }
    }

    #[test]
    fn nothing_else_is_a_name() {
        for asked in [
            "",
            "row",
            "rows",
            "row 14",
            "rows 4 to 14",
            "rows 4 to",
            "row +2",
            "strand 0",
            "join row 14",
            "join 8",
            "row 2adding",
        ] {
            assert_eq!(meant(asked, &NAMES), None, "{asked}");
        }
    }
}
