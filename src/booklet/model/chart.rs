//! Colour charts: beads, rows, strands and anchor places where they truly lie.

use super::{Place, Placed, Swatch, Text};
use crate::colour::Colour;
use crate::design::Side;
use crate::drawn::Shape;
use crate::stitch::SectionKind;
use crate::units::{Mm, Point};
use serde::Serialize;
use std::collections::BTreeMap;

/// An entry of a legend.
#[derive(Clone, Debug, PartialEq)]
pub struct LegendEntry {
    /// The bead.
    pub swatch: Swatch,
    /// Its name.
    pub name: String,
    /// A word more (`120 in one earring`); may be empty.
    pub note: String,
}

/// A colour chart: beads at their true place and size; layout chooses the scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Which part of the earring it shows.
    pub part: ChartPart,
    /// Its beads.
    pub beads: Vec<ChartBead>,
    /// Its rows, in working order.
    pub rows: Vec<ChartRow>,
    /// Its strands, from left to right.
    pub strands: Vec<ChartStrand>,
    /// Places to anchor.
    pub anchors: Vec<ChartAnchor>,
    /// The legend printed on each of its pages.
    pub legend: Vec<LegendEntry>,
    /// What it says, for those who cannot see it.
    pub alt: String,
    /// Words below it; may be empty.
    pub caption: Text,
    /// Boxes to tick beside rows and strands; `None` for no boxes.
    pub ticks: Option<ChartTicks>,
    /// Where its numbers and marks lead; `None` for nowhere.
    pub leads: Option<ChartLeads>,
    /// Largest height to take; `None` for the whole page. Small charts of colourways use it.
    pub max_height: Option<Mm>,
    /// Whether it is a picture only: without letters, numbers and marks, as large as its place.
    pub bare: bool,
}

/// The boxes to tick of a chart.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ChartTicks {
    /// Names of the form fields of rows, by the number of the row.
    pub rows: BTreeMap<usize, String>,
    /// Names of the form fields of strands, by the number of the strand.
    pub strands: BTreeMap<usize, String>,
}

/// Where the numbers and marks of a chart lead: rows to the word chart, strands to the bead list, marks to steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChartLeads {
    /// The earring that it shows.
    pub earring: u8,
    /// The first strand of each strand's line in the bead list, by the number of the strand.
    pub lines: BTreeMap<usize, usize>,
    /// The number of the step that tells a place to anchor, by its index.
    pub marks: BTreeMap<usize, usize>,
}

impl ChartLeads {
    /// A place of the earring that the chart shows.
    #[must_use]
    pub fn place(&self, what: Placed) -> Place {
        Place { earring: self.earring, what }
    }
}

/// Which part of the earring a chart shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum ChartPart {
    /// Body, loop and fringe.
    Whole,
    /// Body and loop.
    Body,
    /// Fringe under its foundation row.
    Fringe,
}

/// A bead of a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartBead {
    /// What it belongs to.
    pub kind: SectionKind,
    /// The number of that.
    pub number: usize,
    /// Its letter.
    pub letter: char,
    /// Its colour.
    pub colour: Colour,
    /// Its centre, in millimetres of the earring.
    pub centre: Point,
    /// Across its hole.
    pub width: Mm,
    /// Along its hole.
    pub length: Mm,
    /// Its shape.
    pub shape: Shape,
    /// How far its hole is turned from upright, in degrees clockwise.
    pub turned: f64,
    /// Its pattern in grey, an index from 0; `None` for none.
    pub pattern: Option<u8>,
    /// Shown faded, for orientation only (the foundation above a fringe chart); not counted.
    pub faded: bool,
}

/// A row beside a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartRow {
    /// Its number, in working order, from 1.
    pub number: usize,
    /// The side it starts from: its number and arrow stand there.
    pub from: Side,
    /// Its upper and lower edge, in millimetres of the earring.
    pub top: Mm,
    /// See `top`.
    pub bottom: Mm,
    /// Heights inside it where in all its stacks a bead ends and the next begins.
    pub joints: Vec<Mm>,
    /// Its left and right edge.
    pub left: Mm,
    /// See `left`.
    pub right: Mm,
}

/// A strand below a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartStrand {
    /// Its number from the side the fringe starts from, from 1.
    pub number: usize,
    /// The middle of its beads, in millimetres of the earring.
    pub x: Mm,
    /// Width of its first bead.
    pub wide: Mm,
    /// Its upper and lower end.
    pub top: Mm,
    /// See `top`.
    pub bottom: Mm,
    /// How far down the middles of its first and its last bead are.
    pub middles: [Mm; 2],
    /// Lower edges of every fifth bead, for marks.
    pub fifths: Vec<Mm>,
}

/// An anchor place on a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartAnchor {
    /// Middle between its two stacks, in millimetres of the earring.
    pub at: Point,
    /// Width of both stacks together.
    pub width: Mm,
    /// Height of a stack.
    pub height: Mm,
    /// Short mark (`①` is not in every font: a letter or number).
    pub mark: String,
}
