//! The display list: plain data, in reading order, every item with its role in the document.

use super::StandIn;
use super::TextArea;
use crate::booklet::Meta;
use crate::colour::Colour;
use crate::drawn::{BeadLook, Face, Segment, Shape, Stroke};
use crate::images::{Image, Wanted};
use crate::units::{Mm, Point, Pt, Size};
use serde::Serialize;
use smol_str::SmolStr;
use std::sync::Arc;

/// A laid-out document: all that a painter needs.
#[derive(Clone, Debug, Serialize)]
pub struct DisplayList {
    /// What the file says of itself.
    pub meta: Meta,
    /// The pages.
    pub pages: Vec<Page>,
    /// Where their content stands.
    pub text_area: TextArea,
    /// The document's structure: `nodes[0]` is the document itself.
    pub nodes: Vec<Node>,
    /// Bookmarks.
    pub bookmarks: Vec<Bookmark>,
    /// Characters that the maker's fonts have not.
    #[serde(skip)]
    pub stand_ins: Vec<StandIn>,
    /// Names of the optional layers, as shown: letters, marks, grid.
    pub layer_names: LayerNames,
}

/// Names of the optional layers, in the booklet's language.
#[derive(Clone, Debug, Serialize)]
pub struct LayerNames {
    /// Letters on beads.
    pub letters: String,
    /// Thread and anchor marks.
    pub marks: String,
    /// Grid and guide lines.
    pub grid: String,
}

/// A page.
#[derive(Clone, Debug, Serialize)]
pub struct Page {
    /// Its size.
    pub size: Size,
    /// Its label (`Cover`, `2`).
    pub label: String,
    /// The title of the section that it begins in, or that begins on it; empty for the cover.
    pub section: String,
    /// Whether it has a running head and foot, as all but the cover.
    pub running: bool,
    /// What is painted on it, in order of painting and of reading.
    pub items: Vec<Item>,
    /// Links.
    pub links: Vec<Link>,
    /// Boxes to tick.
    pub ticks: Vec<TickBox>,
}

/// Index into [`DisplayList::nodes`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct NodeId(pub usize);

/// A node of the document's structure (roles as in ISO 32000-1, 14.8.4).
#[derive(Clone, Debug, Serialize)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// The node it belongs to; `None` for the document.
    pub parent: Option<NodeId>,
    /// Its children, in reading order.
    pub children: Vec<NodeId>,
}

/// Roles in the document.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Role {
    /// The whole document.
    Document,
    /// A section.
    Section,
    /// A heading with its level, from 1.
    Heading(u8),
    /// A paragraph.
    Paragraph,
    /// A list.
    List { numbered: bool },
    /// An item of a list.
    ListItem,
    /// An item's number or bullet.
    ListLabel,
    /// An item's text.
    ListBody,
    /// A table, with its summary.
    Table { summary: String },
    /// A table's heading rows.
    TableHead,
    /// A table's other rows.
    TableBody,
    /// A row.
    TableRow,
    /// A heading cell of a column.
    ColumnHeader { span: usize },
    /// A heading cell of a row.
    RowHeader { span: usize },
    /// A cell.
    TableCell { span: usize },
    /// A figure with its alternative text. Its box is found by the painter from its items.
    Figure { alt: String },
    /// Words below a figure or table.
    Caption,
    /// A table of contents.
    Contents,
    /// An entry of it.
    ContentsItem,
    /// What an entry points with.
    Reference,
    /// A link; its annotations name this node.
    Link,
    /// A box to tick; its annotation names this node.
    Form,
    /// A stretch of text.
    Span,
}

/// Where an item stands in the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Standing {
    /// Part of this node.
    Content(NodeId),
    /// Not part of the content: running heads, page numbers, rules.
    Artifact(Artifact),
}

/// Kinds of artifact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Artifact {
    /// Running head or foot.
    Running,
    /// Rules, tints, boxes.
    Layout,
}

/// Optional layers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Layer {
    /// Letters on beads.
    Letters,
    /// Thread and anchor marks.
    Marks,
    /// Grid and guide lines.
    Grid,
}

/// One thing to paint.
#[derive(Clone, Debug, Serialize)]
pub struct Item {
    /// Where it stands in the document.
    pub standing: Standing,
    /// The optional layer it belongs to, if any.
    pub layer: Option<Layer>,
    /// What to paint.
    pub paint: Paint,
}

/// What to paint. Positions are from the page's top left, y downwards.
#[derive(Clone, Debug, Serialize)]
pub enum Paint {
    /// A line of glyphs in one face.
    Glyphs(Glyphs),
    /// A bead.
    Bead(Bead),
    /// A line, polygon or curve.
    Path(Path),
    /// An image, stretched to its box.
    Image(PlacedImage),
}

/// Glyphs on one baseline.
#[derive(Clone, Debug, Serialize)]
pub struct Glyphs {
    /// Their face.
    pub face: Face,
    /// Their size.
    pub size: Pt,
    /// Their colour.
    pub colour: Colour,
    /// Start of the baseline.
    pub at: Point,
    /// The glyphs, in order.
    pub glyphs: Vec<Glyph>,
    /// Stroke behind the glyphs, to keep them readable on lines: colour and width.
    pub halo: Option<(Colour, Mm)>,
}

/// One glyph.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Glyph {
    /// Glyph number in the whole face.
    pub id: u16,
    /// How far the next glyph's origin is from this one's, in thousandths of the size.
    /// This is what layout used to place it; the painter must reproduce it exactly.
    pub advance: f64,
    /// The text it stands for (several characters for a ligature).
    pub text: SmolStr,
}

/// A bead on the page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bead {
    /// Its centre.
    pub centre: Point,
    /// Across its hole.
    pub width: Mm,
    /// Along its hole.
    pub length: Mm,
    /// Its shape.
    pub shape: Shape,
    /// Its colour, already faded or grey where asked.
    pub colour: Colour,
    /// How far its hole is turned from upright, in degrees clockwise.
    pub turned: f64,
    /// How it is shown.
    pub look: BeadLook,
    /// Its pattern in grey, an index from 0; `None` for none.
    pub pattern: Option<u8>,
}

/// A path on the page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Path {
    /// Its pieces.
    pub segments: Vec<Segment>,
    /// Filled with this colour.
    pub fill: Option<Colour>,
    /// Stroked with this pen.
    pub stroke: Option<Stroke>,
}

/// An image on the page.
#[derive(Clone, Debug, Serialize)]
pub struct PlacedImage {
    /// Top left of its box.
    pub at: Point,
    /// Its box.
    pub size: Size,
    /// Without colour.
    pub grey: bool,
    /// The image.
    #[serde(skip)]
    pub image: Arc<Image>,
}

/// Most pixels to the inch that a print can show: common practice of printing, no source.
const MOST_PIXELS: f64 = 300.0;

impl PlacedImage {
    /// What a booklet holds of the image.
    #[must_use]
    pub fn wanted(&self) -> Wanted {
        let pixels = |side: Mm| (side.0 / 25.4 * MOST_PIXELS).round() as u32;
        Wanted { most: Some((pixels(self.size.width), pixels(self.size.height))), grey: self.grey }
    }
}

/// A link on a page.
#[derive(Clone, Debug, Serialize)]
pub struct Link {
    /// Top left of its box.
    pub at: Point,
    /// Its box.
    pub size: Size,
    /// Where it leads.
    pub target: Target,
    /// Its node in the structure, of role [`Role::Link`].
    pub node: NodeId,
    /// What it says, for those who cannot see it.
    pub alt: String,
}

/// Where a link leads.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum Target {
    /// A place in this document: page from 0, distance from the page's top.
    Page { page: usize, y: Mm },
    /// A web address.
    Web(String),
}

/// A bookmark.
#[derive(Clone, Debug, Serialize)]
pub struct Bookmark {
    /// Its words.
    pub title: String,
    /// Its level, from 1.
    pub level: u8,
    /// Page from 0.
    pub page: usize,
    /// Distance from the page's top.
    pub y: Mm,
}

/// A box to tick.
#[derive(Clone, Debug, Serialize)]
pub struct TickBox {
    /// Top left of the box.
    pub at: Point,
    /// Its side.
    pub side: Mm,
    /// Name of the form field, unique in the document.
    pub name: String,
    /// What a tablet says of it.
    pub tooltip: String,
    /// Whether it is ticked already: layout ticks none, but an earlier copy's ticks may be carried over.
    pub ticked: bool,
    /// Its node in the structure, of role [`Role::Form`].
    pub node: NodeId,
}
