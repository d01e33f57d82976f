//! The colours of an earring as a card of swatches.

use super::sketch::Sketch;
use crate::colour::Colour;
use crate::drawn::{Align, BeadLook, BeadMark, Drawing, Face, LabelMark, Mark, Shape, Shine, rounded};
use crate::units::{Mm, Point, Pt};

/// A bead on the card.
pub struct CardBead {
    /// Its name.
    pub name: String,
    /// Its finish; may be empty.
    pub finish: String,
    /// Its colour.
    pub colour: Colour,
    /// Its shape.
    pub shape: Shape,
    /// What light does to it.
    pub shine: Shine,
    /// Its length along the hole over its width.
    pub length: f64,
}

/// A swatch, and the space from one to the next.
const SWATCH: (f64, f64) = (40.0, 26.0);
const APART: (f64, f64) = (6.0, 15.0);
/// Corners of a swatch.
const CORNER: f64 = 2.0;
/// The bead on a swatch: its width, and how far its middle is from the swatch's right edge and foot.
const BEAD: f64 = 7.0;
const BEAD_IN: f64 = 7.0;
/// The name's and the finish's baseline below the swatch, and the sizes of both.
const NAME: (f64, Pt) = (5.4, Pt(11.0));
const FINISH: (f64, Pt) = (9.9, Pt(8.5));
/// The mean advance of a character, as a share of the size.
const ADVANCE: f64 = 0.52;

/// The card: rows of swatches, nearly as many rows as columns; names and finishes in an ink.
#[must_use]
pub fn card(beads: &[CardBead], ink: Colour) -> Drawing {
    let mut sketch = Sketch::default();
    let columns = columns(beads.len());
    for (i, bead) in beads.iter().enumerate() {
        let left = (i % columns) as f64 * (SWATCH.0 + APART.0);
        let top = (i / columns) as f64 * (SWATCH.1 + APART.1);
        let centre = (left + SWATCH.0 / 2.0, top + SWATCH.1 / 2.0);
        let area = rounded(centre, SWATCH, (CORNER, CORNER));
        sketch.area(area.into_iter().map(|s| s.map(|(x, y)| Point::new(x, y))).collect(), bead.colour, None);
        sketch.bead(BeadMark {
            centre: Point::new(left + SWATCH.0 - BEAD_IN, top + SWATCH.1 - BEAD_IN),
            width: Mm(BEAD),
            length: Mm(BEAD * bead.length.clamp(0.6, 1.3)),
            shape: bead.shape,
            colour: bead.colour,
            turned: 0.0,
            look: BeadLook::Lifelike(bead.shine),
        });
        for (words, (below, size), face) in
            [(&bead.name, NAME, Face::Bold), (&bead.finish, FINISH, Face::Regular)]
        {
            if !words.is_empty() {
                let at = Point::new(left, top + SWATCH.1 + below);
                sketch.marks.push(label(words, at, size, ink, face));
            }
        }
    }
    sketch.finish(Mm(0.0), false)
}

/// Words below a swatch, set smaller where they would be wider than it.
fn label(words: &str, at: Point, size: Pt, ink: Colour, face: Face) -> Mark {
    let wide = words.chars().count() as f64 * ADVANCE * size.mm().0;
    let size = size * (SWATCH.0 / wide).min(1.0);
    let text = words.to_owned();
    Mark::Label(LabelMark {
        at,
        text,
        size,
        colour: ink,
        align: Align::Start,
        middle: false,
        face,
        halo: None,
    })
}

/// So many columns that the card is about as wide as it is high.
fn columns(beads: usize) -> usize {
    let across = SWATCH.0 + APART.0;
    let down = SWATCH.1 + APART.1;
    (1..=beads.max(1))
        .min_by_key(|&columns| {
            let rows = beads.div_ceil(columns);
            let sides = [columns as f64 * across, rows as f64 * down];
            // Tenths of a millimetre, so that the order is whole.
            (sides[0].max(sides[1]) * 10.0) as u64
        })
        .unwrap_or(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_card_is_about_square() {
        assert_eq!([1, 2, 4, 6, 8, 12, 24].map(columns), [1, 1, 2, 2, 3, 3, 5]);
    }
}
