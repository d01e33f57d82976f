//! What a booklet is: the tree of blocks that layout sets on pages.

use super::drawing::{Align, Drawing};
use crate::colour::Colour;
use crate::design::{Date, Paper, Picture, Shape, Side};
use crate::stitch::Spot;
use crate::units::{Mm, Point};
use serde::Serialize;

/// A whole booklet or bench copy.
#[derive(Clone, Debug, PartialEq)]
pub struct Booklet {
    /// What the file says of itself.
    pub meta: Meta,
    /// How it is to be set.
    pub setting: Setting,
    /// The line at the head of every page but the cover.
    pub running_title: String,
    /// The copyright line at the foot of every page.
    pub foot_line: String,
    /// A discreet personal line on every page; `None` for none.
    pub stamp: Option<String>,
    /// Words that layout needs: see [`PageWords`].
    pub words: PageWords,
    /// The sections in order.
    pub sections: Vec<Section>,
}

/// What the file says of itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// Author: the studio.
    pub author: String,
    /// Subject: the summary.
    pub subject: String,
    /// Keywords.
    pub keywords: Vec<String>,
    /// Language tag (BCP 47): `en-GB`.
    pub language: String,
    /// Date of the edition; `None` leaves the file's dates to the caller.
    pub date: Option<Date>,
    /// Edition number.
    pub edition: u32,
    /// Copyright line.
    pub rights: String,
    /// Digest of everything that went into the booklet, as hexadecimal; stands in the file's metadata.
    pub digest: String,
    /// The parts of the digest by name (`bead ink`, `studio`, …), so that a later run can say what changed.
    pub digest_parts: Vec<(String, String)>,
    /// Personal line, when stamped.
    pub stamp: Option<String>,
}

/// How a booklet is to be set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Setting {
    /// Paper.
    pub paper: Paper,
    /// Large print: body text at 18 pt, charts with cells of 7 mm at least.
    pub large_print: bool,
    /// In grey, to be read without colour: beads with like greys carry patterns.
    pub grey: bool,
    /// Accent colour of rules and headings.
    pub accent: Colour,
    /// Bench copy: big type, little ink, no cover.
    pub bench: bool,
}

/// Words that layout sets by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PageWords {
    /// `Page {page} of {pages}`, with those two placeholders.
    pub page_of: String,
    /// `continued`, behind the heading of a table or chart that runs over.
    pub continued: String,
    /// `Contents`.
    pub contents: String,
    /// `Part {part} of {parts}` of a chart split over pages.
    pub chart_part: String,
    /// Names of the optional layers: letters, thread marks, grid.
    pub layer_letters: String,
    /// See `layer_letters`.
    pub layer_marks: String,
    /// See `layer_letters`.
    pub layer_grid: String,
    /// `Row {number}` beside the chart, for its alternative text.
    pub row: String,
    /// `from the left`.
    pub from_left: String,
    /// `from the right`.
    pub from_right: String,
    /// `Strands` above the strand numbers.
    pub strands: String,
    /// `Foundation`.
    pub foundation: String,
}

/// A section of the booklet.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its name in the template's order, also the target of links (`materials`).
    pub name: String,
    /// Its title, a heading of level 1; empty for the cover, which brings its own.
    pub title: String,
    /// Whether it begins on a new page.
    pub new_page: bool,
    /// Whether it stands in the table of contents and the bookmarks.
    pub listed: bool,
    /// What is in it.
    pub blocks: Vec<Block>,
}

/// A block of a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// The cover: fills a page by itself.
    Cover(Cover),
    /// A heading below the section's title: level 2 or 3. Kept with what follows.
    Heading { level: u8, text: Text },
    /// A paragraph.
    Paragraph { text: Text, style: ParagraphStyle },
    /// A list; numbered or with bullets.
    List { numbered: bool, items: Vec<Text> },
    /// A table whose heading row repeats over pages.
    Table(Table),
    /// A drawing with caption and alternative text.
    Figure(Figure),
    /// Figures side by side, as many as fit, wrapped into rows.
    Figures(Vec<Figure>),
    /// A colour chart, scaled to the page or split over pages.
    Chart(Chart),
    /// The legend of letters.
    Legend(Vec<LegendEntry>),
    /// A numbered step.
    Step(Step),
    /// Something set apart in a box.
    Callout { kind: CalloutKind, title: Text, blocks: Vec<Block> },
    /// The linked table of contents.
    Contents,
    /// Blocks kept on one page.
    Together(Vec<Block>),
    /// Go on with a new page.
    NewPage,
    /// Space between blocks.
    Space(Mm),
}

/// Text with emphasis.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Text(pub Vec<TextRun>);

/// A run of text in one style.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TextRun {
    /// The words.
    pub text: String,
    /// Its style.
    pub style: RunStyle,
}

/// Style of a run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum RunStyle {
    /// As its paragraph.
    Plain,
    /// Strong.
    Strong,
    /// Emphasised.
    Emphasis,
    /// A link to a section, by its name.
    SectionLink(String),
    /// A link to a web address.
    WebLink(String),
}

impl Text {
    /// Plain text.
    #[must_use]
    pub fn plain(text: impl Into<String>) -> Text {
        Text(vec![TextRun { text: text.into(), style: RunStyle::Plain }])
    }
    /// Text marked up as the templates mark it: `**strong**`, `_emphasis_` (at word edges), `[words](#section)`, `[words](https://…)`.
    #[must_use]
    pub fn marked(text: &str) -> Text {
        super::markup::parse(text)
    }
    /// Its words without styles.
    #[must_use]
    pub fn words(&self) -> String {
        self.0.iter().map(|r| r.text.as_str()).collect()
    }
}

/// Style of a paragraph.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub enum ParagraphStyle {
    /// Running text.
    Body,
    /// The opening words of a section, larger.
    Lead,
    /// Notes below tables and charts, smaller.
    Small,
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it is, for those who cannot see it; not printed.
    pub summary: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Cells of the heading row.
    pub head: Vec<Text>,
    /// Rows.
    pub rows: Vec<TableRow>,
    /// Column whose cells are headings of their rows.
    pub row_header: Option<usize>,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// How its cells are aligned.
    pub align: Align,
    /// How its width is found.
    pub width: ColumnWidth,
}

/// How a column's width is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ColumnWidth {
    /// As wide as its widest unbroken cell.
    Fit,
    /// A share of what is left, broken over lines as needed.
    Share(f64),
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// Its cells, one a column.
    pub cells: Vec<Cell>,
    /// How it is set.
    pub kind: RowKind,
}

/// How a table row is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum RowKind {
    /// As usual.
    Plain,
    /// A sum: strong, with a rule above.
    Total,
    /// A heading of a group of rows, in its first cell, over the whole width.
    Group,
}

/// What a table cell holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Text.
    Text(Text),
    /// A bead with its letter.
    Swatch(Swatch),
    /// A box to tick.
    Tick(Tick),
    /// Text in parts, some with a box to tick before them.
    Parts(Vec<CellPart>),
    /// Nothing.
    Empty,
}

/// A part of a cell's text.
#[derive(Clone, Debug, PartialEq)]
pub struct CellPart {
    /// The box to tick before it.
    pub tick: Option<Tick>,
    /// Its text, not broken over lines.
    pub text: Text,
}

/// A bead shown by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Swatch {
    /// Its letter; `None` for a bare swatch.
    pub letter: Option<char>,
    /// Its colour.
    pub colour: Colour,
    /// Its shape.
    pub shape: Shape,
    /// Its pattern in grey, an index from 0; `None` for none.
    pub pattern: Option<u8>,
    /// What to say of it to those who cannot see it.
    pub alt: String,
}

/// A box to tick, on paper and on a tablet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Tick {
    /// Name of the form field, unique in the file (`row-5`).
    pub name: String,
    /// What a tablet says of it.
    pub tooltip: String,
}

/// A drawing in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The picture.
    pub drawing: Drawing,
    /// Words below it; may be empty.
    pub caption: Text,
    /// What the picture says, for those who cannot see it.
    pub alt: String,
}

/// The cover.
#[derive(Clone, Debug, PartialEq)]
pub struct Cover {
    /// Title.
    pub title: String,
    /// Colourway, when the booklet is of one.
    pub colourway: Option<String>,
    /// One or two sentences.
    pub summary: Text,
    /// The drawn earring, or the seller's photo.
    pub picture: CoverPicture,
    /// What the picture shows.
    pub alt: String,
    /// Facts: a label and its value each (`Finished size`, `26 × 84 mm …`).
    pub facts: Vec<(String, String)>,
    /// Seller.
    pub studio: String,
    /// Seller's web address, may be empty.
    pub web: String,
    /// Edition line.
    pub edition: String,
    /// Logo.
    pub logo: Option<Picture>,
}

/// What a cover shows.
#[derive(Clone, Debug, PartialEq)]
pub enum CoverPicture {
    /// The pair, drawn; may be scaled up to fill its place.
    Drawn(Drawing),
    /// The seller's photo.
    Photo(Picture),
}

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
    /// Whether rows and strands have boxes to tick beside them: what the names of their form fields
    /// begin with (`e1-chart` makes `e1-chart-row-3`); `None` for no boxes.
    pub ticks: Option<String>,
    /// Largest height to take; `None` for the whole page. Small charts of colourways use it.
    pub max_height: Option<Mm>,
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
    /// Which bead.
    pub spot: Spot,
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
    /// Its upper and lower end.
    pub top: Mm,
    /// See `top`.
    pub bottom: Mm,
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

/// A numbered step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its number.
    pub number: usize,
    /// Its title, a heading of level 2.
    pub title: Text,
    /// What to do.
    pub blocks: Vec<Block>,
    /// Diagrams, kept with the step.
    pub figures: Vec<Figure>,
}

/// Kinds of callout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum CalloutKind {
    /// Good to know.
    Note,
    /// Count or measure before going on.
    Check,
    /// Take care.
    Caution,
}
