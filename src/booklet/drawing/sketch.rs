//! A drawing while it is being made: marks anywhere, cropped to their bounds at the end.

use crate::colour::Colour;
use crate::drawn::{
    Align, BeadLook, BeadMark, Drawing, Face, LabelMark, Mark, PathMark, PhotographMark, Segment, ShadowMark,
    Stroke,
};
use crate::units::{Mm, Point, Pt, Size};

/// Marks in any coordinates; [`Sketch::finish`] moves them to the top left.
#[derive(Clone, Debug, Default)]
pub(super) struct Sketch {
    pub(super) marks: Vec<Mark>,
}

/// A box: left, top, right, bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Extent {
    /// The box round a point, this far to each side.
    pub(super) fn round(centre: Point, half_width: f64, half_height: f64) -> Extent {
        Extent {
            left: centre.x.0 - half_width,
            top: centre.y.0 - half_height,
            right: centre.x.0 + half_width,
            bottom: centre.y.0 + half_height,
        }
    }

    /// The smallest box that holds both.
    pub(super) fn with(self, other: Extent) -> Extent {
        Extent {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// How far the point lies outside; 0 inside.
    pub(super) fn distance(self, point: Point) -> f64 {
        let dx = (self.left - point.x.0).max(point.x.0 - self.right).max(0.0);
        let dy = (self.top - point.y.0).max(point.y.0 - self.bottom).max(0.0);
        dx.hypot(dy)
    }

    /// Whether any point of another box can be this near or nearer to this one.
    pub(super) fn is_beside(&self, other: Extent, limit: f64) -> bool {
        self.left - other.right <= limit
            && other.left - self.right <= limit
            && self.top - other.bottom <= limit
            && other.top - self.bottom <= limit
    }

    /// Whether the point is this near or nearer; tells points far away without measuring.
    pub(super) fn is_near(&self, point: Point, limit: f64) -> bool {
        let (x, y) = (point.x.0, point.y.0);
        self.left - x <= limit
            && x - self.right <= limit
            && self.top - y <= limit
            && y - self.bottom <= limit
            && self.distance(point) <= limit
    }
}

/// Advance of an average character of the built-in faces, as a share of the size: wide enough that
/// no label is cropped.
const ADVANCE: f64 = 0.58;
/// How many times as wide the widest letters are.
const WIDE: f64 = 1.6;
/// Height of the capitals as a share of the size.
const CAPITALS: f64 = 0.68;

impl Sketch {
    pub(super) fn bead(&mut self, bead: BeadMark) {
        self.marks.push(Mark::Bead(bead));
    }

    pub(super) fn line(&mut self, segments: Vec<Segment>, stroke: Stroke) {
        self.marks.push(Mark::Path(PathMark { segments, fill: None, stroke: Some(stroke) }));
    }

    pub(super) fn area(&mut self, segments: Vec<Segment>, fill: Colour, stroke: Option<Stroke>) {
        self.marks.push(Mark::Path(PathMark { segments, fill: Some(fill), stroke }));
    }

    /// A label centred on a point.
    pub(super) fn centred(
        &mut self,
        at: Point,
        text: String,
        size: Pt,
        colour: Colour,
        face: Face,
        halo: Option<Colour>,
    ) {
        self.marks.push(Mark::Label(LabelMark {
            at,
            text,
            size,
            colour,
            align: Align::Middle,
            middle: true,
            face,
            halo,
        }));
    }

    /// Everything in it.
    pub(super) fn extent(&self) -> Option<Extent> {
        self.marks.iter().filter_map(mark_extent).reduce(Extent::with)
    }

    /// The drawing, with this margin round its marks.
    pub(super) fn finish(self, margin: Mm, true_size: bool) -> Drawing {
        match self.extent() {
            Some(extent) => self.cropped(extent, margin, true_size),
            None => Drawing { true_size, ..Drawing::default() },
        }
    }

    /// The drawing of what lies in a box, with this margin round it.
    pub(super) fn cropped(mut self, extent: Extent, margin: Mm, true_size: bool) -> Drawing {
        let (dx, dy) = (margin.0 - extent.left, margin.0 - extent.top);
        for mark in &mut self.marks {
            shift(mark, dx, dy);
        }
        Drawing {
            size: Size {
                width: Mm(extent.right - extent.left) + margin * 2.0,
                height: Mm(extent.bottom - extent.top) + margin * 2.0,
            },
            true_size,
            marks: self.marks,
        }
    }

    /// Adds the marks of another, moved.
    pub(super) fn place(&mut self, other: &Sketch, dx: f64, dy: f64) {
        for mark in &other.marks {
            let mut mark = mark.clone();
            shift(&mut mark, dx, dy);
            self.marks.push(mark);
        }
    }

    /// The mirror image, left for right, about the upright line at `x`. Labels keep their direction.
    pub(super) fn mirrored(&self, x: f64) -> Sketch {
        let over = |p: Point| Point { x: Mm(2.0 * x) - p.x, y: p.y };
        let marks = self
            .marks
            .iter()
            .map(|mark| match mark.clone() {
                Mark::Bead(bead) => {
                    Mark::Bead(BeadMark { centre: over(bead.centre), turned: -bead.turned, ..bead })
                }
                Mark::Path(path) => Mark::Path(PathMark {
                    segments: path.segments.into_iter().map(|s| s.map(over)).collect(),
                    ..path
                }),
                Mark::Label(label) => Mark::Label(LabelMark { at: over(label.at), ..label }),
                Mark::Shadow(shadow) => Mark::Shadow(moved(shadow, over)),
                // A photograph shows what it shows: only its place changes sides.
                Mark::Photograph(mark) => {
                    let right = Point { x: mark.at.x + mark.size.width, y: mark.at.y };
                    Mark::Photograph(PhotographMark { at: over(right), ..mark })
                }
            })
            .collect();
        Sketch { marks }
    }
}

/// An unbroken round-ended pen.
pub(super) fn pen(colour: Colour, width: f64) -> Stroke {
    Stroke { colour, width: Mm(width), dash: Vec::new(), round: true }
}

fn shift(mark: &mut Mark, dx: f64, dy: f64) {
    let by = |p: Point| Point { x: p.x + Mm(dx), y: p.y + Mm(dy) };
    match mark {
        Mark::Bead(bead) => bead.centre = by(bead.centre),
        Mark::Path(path) => {
            for segment in &mut path.segments {
                *segment = segment.map(by);
            }
        }
        Mark::Label(label) => label.at = by(label.at),
        Mark::Photograph(mark) => mark.at = by(mark.at),
        Mark::Shadow(shadow) => {
            *shadow = moved(std::mem::replace(shadow, ShadowMark { lines: Vec::new() }), by)
        }
    }
}

fn moved(shadow: ShadowMark, to: impl Fn(Point) -> Point) -> ShadowMark {
    let lines = shadow.lines.into_iter();
    let line = |line: Vec<Segment>| line.into_iter().map(|segment| segment.map(&to)).collect();
    ShadowMark { lines: lines.map(|(width, segments)| (width, line(segments))).collect() }
}

/// The box round a bead, its turn allowed for.
pub(super) fn bead_extent(bead: &BeadMark) -> Extent {
    let (sin, cos) = bead.turned.to_radians().sin_cos();
    let (w, l) = (bead.width.0 / 2.0, bead.length.0 / 2.0);
    let edge = match bead.look {
        BeadLook::Silhouette => 0.0,
        BeadLook::Flat | BeadLook::Faded | BeadLook::Lifelike(_) => 0.15,
    };
    Extent::round(
        bead.centre,
        (w * cos).abs() + (l * sin).abs() + edge,
        (w * sin).abs() + (l * cos).abs() + edge,
    )
}

/// The box that a label fills, from average widths.
pub(super) fn label_extent(label: &LabelMark) -> Extent {
    let size = label.size.mm().0;
    let wide = |letter: char| if "mwMW".contains(letter) { WIDE } else { 1.0 };
    let width = size * ADVANCE * label.text.chars().map(wide).sum::<f64>();
    let left = match label.align {
        Align::Start => label.at.x.0,
        Align::Middle => label.at.x.0 - width / 2.0,
        Align::End => label.at.x.0 - width,
    };
    let height = size * CAPITALS;
    let bottom = if label.middle { label.at.y.0 + height / 2.0 } else { label.at.y.0 };
    Extent { left, top: bottom - height, right: left + width, bottom }
}

fn mark_extent(mark: &Mark) -> Option<Extent> {
    match mark {
        Mark::Bead(bead) => Some(bead_extent(bead)),
        Mark::Label(label) => Some(label_extent(label)),
        // It fades into the ground: what lies round a drawing takes its edge.
        Mark::Shadow(_) => None,
        Mark::Photograph(PhotographMark { at, size, .. }) => Some(Extent {
            left: at.x.0,
            top: at.y.0,
            right: at.x.0 + size.width.0,
            bottom: at.y.0 + size.height.0,
        }),
        Mark::Path(path) => {
            let half = path.stroke.as_ref().map_or(0.0, |s| s.width.0 / 2.0);
            // Control points bound a curve: the box may be a little too big, never too small.
            let points = path.segments.iter().flat_map(|s| s.points());
            points.map(|p| Extent::round(p, half, half)).reduce(Extent::with)
        }
    }
}
