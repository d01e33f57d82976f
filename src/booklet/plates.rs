//! Pictures of an earring for a listing: what each shows, and how much of it.

use super::compose::open;
use super::drawing::{self, CardBead};
use super::{Edition, Plate, Wording};
use crate::colour::Colour;
use crate::design::Design;
use crate::stitch::Work;
use crate::tally::Tally;
use crate::units::{Mm, Point, Size};
use std::collections::BTreeSet;

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// The finished pair.
    Pair,
    /// One earring near by, where body and fringe meet.
    Detail,
    /// The colours as a card of swatches.
    Colours,
}

/// Side of a picture: what it measures is said in pixels later.
const SIDE: Mm = Mm(200.0);

/// A square picture. `margin` is white round what is shown, as a share of the side; a detail fills the picture.
#[must_use]
pub fn plate(
    (design, work, tally): (&Design, &Work, &Tally),
    (wording, edition): (&Wording, &Edition),
    shown: Shown,
    (ground, margin): (Option<Colour>, f64),
) -> Plate {
    let (drawing, at, size, margin) = match shown {
        Shown::Pair => whole(drawing::pair(design, work), margin),
        Shown::Detail => {
            let (drawing, middle, side) = drawing::detail(design, work);
            let at = Point { x: middle.x - side / 2.0, y: middle.y - side / 2.0 };
            (drawing, at, Size { width: side, height: side }, 0.0)
        }
        Shown::Colours => {
            let book = open(design, work, tally, wording, edition);
            let mut met = BTreeSet::new();
            let used = book.used();
            let beads = used.into_iter().map(|(letter, _)| design.bead(letter));
            let cards: Vec<CardBead> = beads
                .filter(|bead| met.insert(bead.key.clone()))
                .map(|bead| CardBead {
                    name: book.words.own(&bead.name),
                    finish: book.words.own(&bead.finish),
                    colour: bead.colour,
                    shape: bead.shape,
                    shine: bead.shine,
                    length: bead.length / bead.width,
                })
                .collect();
            whole(drawing::card(&cards, crate::colour::ink_on(ground.unwrap_or(Colour::WHITE))), margin)
        }
    };
    framed(drawing, at, size, (ground, margin))
}

/// A square picture of a part of a drawing; the margin is a share of its side that the larger of both sides leaves free.
pub(super) fn framed(
    drawing: crate::drawn::Drawing,
    at: Point,
    size: Size,
    (ground, margin): (Option<Colour>, f64),
) -> Plate {
    let grown = 1.0 / (1.0 - 2.0 * margin);
    let shown = Size { width: size.width * grown, height: size.height * grown };
    let at =
        Point { x: at.x - (shown.width - size.width) / 2.0, y: at.y - (shown.height - size.height) / 2.0 };
    Plate { drawing, at, shown, size: Size { width: SIDE, height: SIDE }, ground }
}

fn whole(drawing: crate::drawn::Drawing, margin: f64) -> (crate::drawn::Drawing, Point, Size, f64) {
    let size = drawing.size;
    (drawing, Point::default(), size, margin)
}
