//! Screens of a tablet edition: a row or a strand at a time, large.

use super::{Figure, LegendEntry, Place, Swatch, Text};

/// A row, or a strand and those beside it that are like it: fills pages by itself, one where that can hold it.
#[derive(Clone, Debug, PartialEq)]
pub struct Screen {
    /// `Row 7`, a heading of level 2.
    pub title: String,
    /// What stands beside it (`→ from the left`); may be empty.
    pub aside: String,
    /// How many beads it has, and more of that kind.
    pub facts: Text,
    /// The places that it is.
    pub here: Vec<Place>,
    /// Where the chart shows it.
    pub on_chart: Place,
    /// What is picked up, in order.
    pub strung: Vec<Strung>,
    /// The row as it lies.
    pub lying: Option<Figure>,
    /// Where on the earring it is.
    pub whereabouts: Figure,
    /// Its beads.
    pub legend: Vec<LegendEntry>,
    /// What else is to be known of it.
    pub notes: Vec<Text>,
}

/// A part of what is picked up.
#[derive(Clone, Debug, PartialEq)]
pub struct Strung {
    /// What it is (`Start with`).
    pub label: String,
    /// Its beads.
    pub runs: Vec<StrungRun>,
}

/// Beads that are picked up together, so many times.
#[derive(Clone, Debug, PartialEq)]
pub struct StrungRun {
    /// How many times; `None` for once, without a number.
    pub count: Option<usize>,
    /// The beads.
    pub beads: Vec<Swatch>,
}

/// Something to press that leads to a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Button {
    /// Its words, short.
    pub words: String,
    /// Where it leads.
    pub to: Place,
}
