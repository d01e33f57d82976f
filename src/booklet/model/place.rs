//! Places that are linked with each other: rows, strands and marks on the chart, their lines in words, and steps.

use serde::Serialize;

/// A place of a booklet that links lead to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Place {
    /// The earring that it is about, 1 or 2: a second one that is worked otherwise has charts and lists of its own.
    pub earring: u8,
    /// What stands there.
    pub what: Placed,
}

/// What stands at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Placed {
    /// The number of a row on the chart, by that number.
    ChartRow(usize),
    /// The number of a strand on the chart, by that number.
    ChartStrand(usize),
    /// The mark of a place to anchor on the chart, by its index.
    ChartMark(usize),
    /// The line of a row in the word chart, by the row's number.
    Row(usize),
    /// The line of a strand in the bead list, by the number of the first strand that it tells.
    Strand(usize),
    /// A step, by its number.
    Step(usize),
}

impl Place {
    /// The step of a number: steps are told once, for both earrings.
    #[must_use]
    pub fn step(number: usize) -> Place {
        Place { earring: 1, what: Placed::Step(number) }
    }

    /// As the markup of texts names a mark on the chart: `@1.3`.
    #[must_use]
    pub fn mark_written(earring: u8, index: usize) -> String {
        format!("@{earring}.{index}")
    }

    /// What markup names so; `None` for anything else.
    #[must_use]
    pub fn mark_named(target: &str) -> Option<Place> {
        let (earring, index) = target.strip_prefix('@')?.split_once('.')?;
        let what = Placed::ChartMark(index.parse().ok()?);
        Some(Place { earring: earring.parse().ok()?, what })
    }
}
