//! A plate: one drawing, or a part of it, that is a whole picture.

use crate::colour::Colour;
use crate::drawn::Drawing;
use crate::units::{Point, Size};

/// A drawing to be seen by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// The drawing.
    pub drawing: Drawing,
    /// The part of it that must be seen, from its top left and in its own millimetres.
    pub at: Point,
    /// The size of that part.
    pub shown: Size,
    /// The size of the picture.
    pub size: Size,
    /// What is behind the drawing; nothing where another picture shall show through.
    pub ground: Option<Colour>,
}
