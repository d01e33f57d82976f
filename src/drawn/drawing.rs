//! What a drawing is.

use super::{BeadLook, Face, Segment, Shape, Stroke};
use crate::colour::Colour;
use crate::units::{Mm, Point, Pt, Size};
use serde::Serialize;

/// Marks in millimetres of their own: x to the right, y downwards, from its top left.
/// Marks are painted in order.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Drawing {
    /// Its natural size; layout may scale it down, and in large print up, unless `true_size` is set.
    pub size: Size,
    /// Whether its size means something (a ruler, a silhouette): never scaled.
    pub true_size: bool,
    /// What is in it.
    pub marks: Vec<Mark>,
}

/// One mark of a drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum Mark {
    /// A bead.
    Bead(BeadMark),
    /// A line, polygon or curve.
    Path(PathMark),
    /// A short text (a letter, a pass number, a label).
    Label(LabelMark),
}

/// A bead in a drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeadMark {
    /// Its centre.
    pub centre: Point,
    /// Across its hole.
    pub width: Mm,
    /// Along its hole.
    pub length: Mm,
    /// Its shape.
    pub shape: Shape,
    /// Its colour.
    pub colour: Colour,
    /// How far its hole is turned from upright, in degrees clockwise.
    pub turned: f64,
    /// How it is shown.
    pub look: BeadLook,
}

/// A line, polygon or curve. In a drawing widths and dashes are in the drawing's own millimetres.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PathMark {
    /// Its pieces.
    pub segments: Vec<Segment>,
    /// Filled with this colour.
    pub fill: Option<Colour>,
    /// Stroked with this pen.
    pub stroke: Option<Stroke>,
}

/// A short text in a drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LabelMark {
    /// Where: on the baseline's start, middle or end, as `align` says; `middle_y` centres the cap height on it instead of the baseline.
    pub at: Point,
    /// The text, one line.
    pub text: String,
    /// Its size; not scaled with the drawing below 5 pt.
    pub size: Pt,
    /// Its colour.
    pub colour: Colour,
    /// How it lies on its point.
    pub align: Align,
    /// Whether `at.y` is the middle of the capitals rather than the baseline.
    pub middle: bool,
    /// Its face.
    pub face: Face,
    /// A halo of this colour round it, so that it can be read on top of lines.
    pub halo: Option<Colour>,
}

/// Alignment of text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize)]
pub enum Align {
    /// At the left.
    #[default]
    Start,
    /// Centred.
    Middle,
    /// At the right.
    End,
}
