//! What painters of beads have to know: fills, strokes, gradients, and parts that show within an area only.

use crate::colour::Colour;
use crate::drawn::Segment;

/// A path in points round the bead's centre, y downwards.
pub type Path = Vec<Segment<(f64, f64)>>;

/// One thing to paint of a bead.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// An area filled with a colour.
    Fill(Path, Tint),
    /// A line along a path.
    Stroke(Path, Pen),
    /// An area filled with a gradient.
    Shade(Path, Gradient),
    /// What shows only within an area: inside an odd number of these paths.
    Within(Vec<Path>, Vec<Part>),
}

/// Which colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tint {
    /// The bead's own.
    Own,
    /// The one that shows on the bead's own: black or white.
    Ink,
    /// This one.
    Fixed(Colour),
}

/// What draws a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Its colour.
    pub tint: Tint,
    /// Its width in points.
    pub width: f64,
    /// Whether its ends are round: then a line of no length is a dot.
    pub round: bool,
}

/// Colours that run into one another and go on beyond their ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Gradient {
    /// Along what.
    pub run: Run,
    /// Where (0 to 1, rising) which colour stands.
    pub stops: Vec<(f64, Colour)>,
}

/// What a gradient runs along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Run {
    /// From one point to another.
    Line((f64, f64), (f64, f64)),
    /// From a point out to an ellipse: `focus` and `reach` are in shares of its half axes, from its centre.
    Ellipse {
        /// The middle of the ellipse.
        centre: (f64, f64),
        /// Half its width and half its height.
        axes: (f64, f64),
        /// Where the gradient begins.
        focus: (f64, f64),
        /// Where it ends: so many times the ellipse.
        reach: f64,
    },
}
