//! Photographs as figures: as large as their place allows.

use crate::booklet::{Figure, Text};
use crate::design::Photograph;
use crate::drawn::{Drawing, Mark, PhotographMark};
use crate::units::{Mm, Point, Size};

/// Longest side of a photograph in a step: as wide as the words beside it leave, and no higher than a diagram.
const LONGEST: f64 = 76.0;

/// A photograph with its caption, as large as one stands in a step; elsewhere it is set to its place.
#[must_use]
pub fn photograph(photograph: &Photograph, caption: String) -> Figure {
    let image = &photograph.picture.image;
    let (across, down) = image.file.pixels();
    let (across, down) = (f64::from(across), f64::from(down));
    let scale = LONGEST / across.max(down);
    let size = Size { width: Mm(across * scale), height: Mm(down * scale) };
    let mark = PhotographMark { at: Point::default(), size, image: image.clone() };
    Figure {
        drawing: Drawing { size, true_size: false, marks: vec![Mark::Photograph(mark)] },
        moves: Vec::new(),
        caption: if caption.is_empty() { Text::default() } else { Text::plain(caption) },
        alt: image.alt.clone(),
    }
}
