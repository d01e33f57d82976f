//! What a box of a bench copy is ticked for, and its name, by which a later run finds it again.

use crate::design::{Design, LetterId, Side};
use crate::stitch::{BeadRun, RowWork, StrandWork};
use sha2::{Digest, Sha256};
use std::fmt::{self, Display, Write};

/// Hexadecimal digits of the hash of a row's or strand's words. A tick is kept for a row that has
/// changed when two hashes agree by chance in all of them: once in 2³².
const HASH_DIGITS: usize = 8;

/// What is worked in one go and ticked off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Worked {
    /// A row of the body, by its number from 1.
    Row(usize),
    /// A loop, by its number in working order from 1.
    Loop(usize),
    /// A thread guard, by its number in working order from 1.
    Guard(usize),
    /// A place to anchor, by its number in working order from 1.
    Anchor(usize),
    /// A new length of thread, by the number of the place where the one before ends.
    Join(usize),
    /// Turning the work upside down for the rows below the foundation.
    Turn,
    /// A strand of the fringe, by its number in working order from 1.
    Strand(usize),
}

impl Display for Worked {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Worked::Row(number) => write!(f, "row {number}"),
            Worked::Loop(1) => f.write_str("loop"),
            Worked::Loop(number) => write!(f, "loop {number}"),
            Worked::Guard(1) => f.write_str("guard"),
            Worked::Guard(number) => write!(f, "guard {number}"),
            Worked::Anchor(number) => write!(f, "anchor {number}"),
            Worked::Join(number) => write!(f, "join {number}"),
            Worked::Turn => f.write_str("turn"),
            Worked::Strand(number) => write!(f, "strand {number}"),
        }
    }
}

/// A box to tick. Its name holds what it stands beside and a hash of those words in letters and numbers,
/// whatever the language: in a newer bench copy a box has the same name only while the words are the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BoxName {
    /// The earring of the pair, 1 or 2.
    pub earring: usize,
    /// What it is ticked for.
    pub worked: Worked,
    /// The hash of its words.
    words: String,
}

impl BoxName {
    /// The box of a row.
    pub(super) fn of_row(design: &Design, earring: usize, row: &RowWork) -> BoxName {
        let RowWork { section: _, number, from, starts_with, then, pick_ups: _ } = row;
        let side = match from {
            Side::Left => "left",
            Side::Right => "right",
        };
        let mut words = format!("{side} {}", design.symbols(starts_with));
        for run in then {
            // Writing to a string cannot fail.
            let _ = write!(words, " {}x{}", run.count, design.symbols(&run.beads));
        }
        BoxName::new(earring, Worked::Row(*number), &words)
    }

    /// The box of a loop, by its number in working order from 1.
    pub(super) fn of_loop(design: &Design, earring: usize, number: usize, beads: &[LetterId]) -> BoxName {
        BoxName::new(earring, Worked::Loop(number), &design.symbols(beads))
    }

    /// The box of something else that is done once, by the words beside it.
    pub(super) fn of_step(earring: usize, worked: Worked, words: &str) -> BoxName {
        BoxName::new(earring, worked, words)
    }

    /// The box of a strand.
    pub(super) fn of_strand(design: &Design, earring: usize, strand: &StrandWork) -> BoxName {
        let StrandWork { section: _, number, runs, turn, beads: _, length: _ } = strand;
        let mut words = String::new();
        for BeadRun { count, letter } in runs {
            let _ = write!(words, "{count}{} ", design.symbol(*letter));
        }
        for BeadRun { count, letter } in turn {
            let _ = write!(words, "turn {count}{}", design.symbol(*letter));
        }
        BoxName::new(earring, Worked::Strand(*number), &words)
    }

    fn new(earring: usize, worked: Worked, words: &str) -> BoxName {
        let hash = Sha256::digest(words.as_bytes());
        let mut hex: String = hash.iter().map(|byte| format!("{byte:02x}")).collect();
        hex.truncate(HASH_DIGITS);
        BoxName { earring, worked, words: hex }
    }

    /// The name of the box in the list: `e1-row-3-1f9c2ab0`.
    pub(super) fn in_list(&self) -> String {
        format!("e{}-{}-{}", self.earring, self.joined(), self.words)
    }

    /// The name of the box of one of its long runs, from 1: `e1-row-3-1f9c2ab0-run-2`.
    pub(super) fn of_run(&self, run: usize) -> String {
        format!("{}-run-{run}", self.in_list())
    }

    /// The name of the box beside the chart: `e1-row-3-1f9c2ab0-chart`.
    pub(super) fn on_chart(&self) -> String {
        format!("{}-chart", self.in_list())
    }

    fn joined(&self) -> String {
        self.worked.to_string().replace(' ', "-")
    }

    /// From the name of a form field; `None` when it is none of ours.
    #[must_use]
    pub fn from_field(name: &str) -> Option<BoxName> {
        let mut parts = name.split('-').peekable();
        let earring = parts.next()?.strip_prefix('e')?.parse().ok()?;
        let worked = match parts.next()? {
            "row" => Worked::Row(parts.next()?.parse().ok()?),
            // The first loop or guard, mostly the only one, has no number; a hash is longer than any.
            kind @ ("loop" | "guard") => {
                let number = parts.next_if(|part| part.len() < HASH_DIGITS).map(str::parse);
                let number = number.unwrap_or(Ok(1)).ok()?;
                if kind == "loop" { Worked::Loop(number) } else { Worked::Guard(number) }
            }
            "anchor" => Worked::Anchor(parts.next()?.parse().ok()?),
            "join" => Worked::Join(parts.next()?.parse().ok()?),
            "turn" => Worked::Turn,
            "strand" => Worked::Strand(parts.next()?.parse().ok()?),
            _ => return None,
        };
        Some(BoxName { earring, worked, words: parts.next()?.to_owned() })
    }
}

/// Boxes that stand for the same work as a box beside a chart, best first: charts are split and scaled
/// anew in every copy, and leave out boxes too small for a pen. None for other boxes.
#[must_use]
pub fn stand_ins(field: &str) -> Vec<String> {
    match BoxName::from_field(field) {
        Some(name) if field.starts_with(&name.on_chart()) => vec![name.on_chart(), name.in_list()],
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_says_what_is_ticked_and_changes_with_its_words() {
        let name = BoxName::new(2, Worked::Row(13), "left AB 3xA");
        assert_eq!(name.in_list(), "e2-row-13-552a6687");
        for field in [name.in_list(), name.of_run(4), name.on_chart(), format!("{}-2", name.on_chart())] {
            assert_eq!(BoxName::from_field(&field).as_ref(), Some(&name), "{field}");
        }
        assert_ne!(BoxName::new(2, Worked::Row(13), "left AB 4xA").in_list(), name.in_list());
        let first = BoxName::new(1, Worked::Loop(1), "AAB");
        assert_eq!(first.in_list(), "e1-loop-c50128cf");
        assert_eq!(BoxName::from_field("e1-loop-c50128cf"), Some(first));
        for worked in [Worked::Guard(1), Worked::Guard(3), Worked::Anchor(12), Worked::Join(5), Worked::Turn]
        {
            let name = BoxName::of_step(2, worked, "row 3, stacks 1 and 2");
            assert_eq!(BoxName::from_field(&name.in_list()), Some(name));
        }
        let second = BoxName::new(1, Worked::Loop(2), "AAB");
        assert_eq!(second.in_list(), "e1-loop-2-c50128cf");
        assert_eq!(BoxName::from_field("e1-loop-2-c50128cf"), Some(second));
    }

    #[test]
    fn a_box_beside_a_chart_may_be_in_another_place_in_the_next_copy() {
        let wanted = ["e1-strand-4-1f9c2ab0-chart", "e1-strand-4-1f9c2ab0"];
        assert_eq!(stand_ins("e1-strand-4-1f9c2ab0-chart-2"), wanted);
        assert_eq!(stand_ins("e1-strand-4-1f9c2ab0-chart"), wanted);
        assert!(stand_ins("e1-strand-4-1f9c2ab0").is_empty());
        assert!(stand_ins("e1-strand-4-1f9c2ab0-run-2").is_empty());
    }

    #[test]
    fn other_fields_are_none_of_ours() {
        for name in ["", "Name", "e1", "e1-chart", "e1-row-x-1f9c2ab0", "e1-loop-x-1f9c2ab0", "row-3", "é"] {
            assert_eq!(BoxName::from_field(name), None, "{name}");
        }
    }
}
