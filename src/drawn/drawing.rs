//! What a drawing is.

use super::{BeadLook, Face, Segment, Shape, Stroke};
use crate::colour::Colour;
use crate::images::Image;
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

impl Drawing {
    /// The drawing at another size: all that is in it is larger or smaller, but for labels, which layout sets.
    #[must_use]
    pub fn scaled(&self, scale: f64) -> Drawing {
        self.placed(scale, |p| Point { x: p.x * scale, y: p.y * scale })
    }

    /// The drawing with its marks further to the right and down.
    #[must_use]
    pub fn moved(&self, right: Mm, down: Mm) -> Drawing {
        let moved = self.placed(1.0, |p| Point { x: p.x + right, y: p.y + down });
        Drawing { size: self.size, ..moved }
    }

    /// Its marks with other points, and measures this many times as large.
    fn placed(&self, scale: f64, to: impl Fn(Point) -> Point) -> Drawing {
        let line = |line: Vec<Segment>| line.into_iter().map(|segment| segment.map(&to)).collect();
        let sized = |size: Size| Size { width: size.width * scale, height: size.height * scale };
        let mark = |mark: &Mark| match mark.clone() {
            Mark::Bead(bead) => Mark::Bead(BeadMark {
                centre: to(bead.centre),
                width: bead.width * scale,
                length: bead.length * scale,
                ..bead
            }),
            Mark::Path(path) => Mark::Path(PathMark { segments: line(path.segments), ..path }),
            Mark::Label(label) => Mark::Label(LabelMark { at: to(label.at), ..label }),
            Mark::Shadow(shadow) => {
                let lines = shadow.lines.into_iter();
                Mark::Shadow(ShadowMark { lines: lines.map(|(width, l)| (width * scale, line(l))).collect() })
            }
            Mark::Photograph(mark) => {
                Mark::Photograph(PhotographMark { at: to(mark.at), size: sized(mark.size), ..mark })
            }
        };
        Drawing {
            size: sized(self.size),
            true_size: self.true_size,
            marks: self.marks.iter().map(mark).collect(),
        }
    }
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
    /// A photograph.
    Photograph(PhotographMark),
    /// The shadow of what is painted after it, on the ground that the drawing lies on.
    Shadow(ShadowMark),
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

/// A photograph in a drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PhotographMark {
    /// Its top left.
    pub at: Point,
    /// Its size.
    pub size: Size,
    /// The image.
    #[serde(skip)]
    pub image: Image,
}

/// A soft shadow.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShadowMark {
    /// What throws it: round-ended lines by their width.
    pub lines: Vec<(Mm, Vec<Segment>)>,
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
