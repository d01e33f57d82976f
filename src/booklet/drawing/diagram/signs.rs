//! The signs of the diagrams, each by itself, for a key: painted as the diagrams paint them.

use super::bezier::arc;
use super::paint::{
    LAID, LAID_TEXT, OPEN, ROW_NUMBER, accent, arrowhead, cased, disc, ends, faded_ink, hidden, open,
};
use super::thread::{End, Run, Sight, Thread};
use crate::booklet::drawing::sketch::{Extent, Sketch};
use crate::colour::{Colour, ink_on};
use crate::design::Design;
use crate::drawn::{BeadLook, BeadMark, Drawing, Face, Segment};
use crate::units::{Mm, Point, Pt};

/// A sign of the diagrams.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// The thread, with the way it goes.
    Way,
    /// The thread inside a bead, or behind it.
    Inside,
    /// Numbers of moves.
    Numbers,
    /// Beads that are in place.
    InPlace,
    /// Thread laid before, from bead to bead.
    Bridge,
    /// The needle.
    Needle,
    /// The loose beginning.
    Beginning,
    /// Where the thread is cut.
    Cut,
    /// A row with its number, its stacks apart.
    Row,
}

/// Every sign, in the order in which a diagram is read.
pub const SIGNS: [Sign; 9] = [
    Sign::Beginning,
    Sign::Way,
    Sign::Inside,
    Sign::Numbers,
    Sign::Needle,
    Sign::Bridge,
    Sign::InPlace,
    Sign::Cut,
    Sign::Row,
];

/// The room that every sign has, so that words beside them begin in one line.
const ROOM: Extent = Extent { left: 0.0, top: 0.0, right: 13.0, bottom: 5.8 };
/// The line that a sign's thread lies on, and where it begins and ends.
const LINE: f64 = 2.9;
const ENDS: (f64, f64) = (1.0, 12.0);
/// Side of a bead, and half of it.
const BEAD: f64 = 4.3;
/// The same of a bead in a stack, and the number that its row has.
const SMALL_BEAD: f64 = 2.7;
const ROW: usize = 2;
/// Size of the letter on it.
const LETTER: Pt = Pt(8.0);

/// A sign, in the colours of the design.
pub fn sign(design: &Design, sign: Sign) -> Drawing {
    let mut sketch = Sketch::default();
    let accent = accent(design);
    let at = |x: f64| Point::new(x, LINE);
    let (from, to) = ENDS;
    let straight = |from: f64, to: f64| vec![Segment::Move(at(from)), Segment::Line(at(to))];
    match sign {
        Sign::Way => {
            let line = straight(from, to);
            open(&mut sketch, &run(line.clone(), Sight::Open), accent);
            arrowhead(&mut sketch, &line, accent);
        }
        Sign::Inside => {
            let middle = f64::midpoint(from, to);
            let (left, right) = (middle - BEAD / 2.0, middle + BEAD / 2.0);
            bead(&mut sketch, design, (at(middle), BEAD), BeadLook::Flat, None);
            hidden(&mut sketch, &run(straight(left, right), Sight::Hidden), accent);
            open(&mut sketch, &run(straight(from, left), Sight::Open), accent);
            open(&mut sketch, &run(straight(right, to), Sight::Open), accent);
        }
        Sign::Numbers => {
            open(&mut sketch, &run(straight(from, to), Sight::Open), accent);
            disc(&mut sketch, 1, at(4.2), accent);
            disc(&mut sketch, 2, at(8.8), accent);
        }
        Sign::InPlace => {
            let middle = f64::midpoint(from, to);
            let letter = design.letters.first().map(|letter| letter.symbol);
            bead(&mut sketch, design, (at(middle), BEAD), BeadLook::Faded, letter);
        }
        Sign::Bridge => {
            let beads =
                [ENDS.0 + BEAD / 2.0, ENDS.1 - BEAD / 2.0].map(|x| Point::new(x, ROOM.bottom - BEAD / 2.0));
            for centre in beads {
                bead(&mut sketch, design, (centre, BEAD), BeadLook::Faded, None);
            }
            let top = beads.map(|centre| Point::new(centre.x.0, centre.y.0 - BEAD / 2.0));
            let bridge = arc(top[0], top[1], 1.5, true);
            sketch.line(bridge, cased(LAID, OPEN));
        }
        Sign::Row => {
            for (x, up) in [(5.6, -0.5), (5.6, 0.5), (10.6, -0.5), (10.6, 0.5)] {
                let centre = Point::new(x, LINE + SMALL_BEAD * up);
                bead(&mut sketch, design, (centre, SMALL_BEAD), BeadLook::Faded, None);
            }
            let number = ROW.to_string();
            sketch.centred(at(1.6), number, ROW_NUMBER, LAID_TEXT, Face::Regular, None);
        }
        Sign::Needle => {
            open(&mut sketch, &run(straight(from, 2.9), Sight::Open), accent);
            end(&mut sketch, at(2.9), End::Needle, accent);
        }
        Sign::Beginning => {
            open(&mut sketch, &run(straight(from + 1.0, to), Sight::Open), accent);
            let thread = Thread { beginning: Some(at(from + 1.0)), ..Thread::default() };
            ends(&mut sketch, &thread, accent);
        }
        Sign::Cut => {
            open(&mut sketch, &run(straight(from, 8.0), Sight::Open), accent);
            end(&mut sketch, at(8.0), End::Cut, accent);
        }
    }
    sketch.cropped(ROOM, Mm(0.2), false)
}

fn run(line: Vec<Segment>, sight: Sight) -> Run {
    Run { number: Some(1), sight, line, head: false, carries: false, ends_wrap: false }
}

fn end(sketch: &mut Sketch, tip: Point, end: End, accent: Colour) {
    let thread = Thread { end: Some((tip, Point::new(1.0, 0.0), end)), ..Thread::default() };
    ends(sketch, &thread, accent);
}

/// A bead of the design's first letter.
fn bead(
    sketch: &mut Sketch,
    design: &Design,
    (centre, side): (Point, f64),
    look: BeadLook,
    letter: Option<char>,
) {
    let Some(bead) = design.letters.first().and_then(|letter| design.palette.beads.get(letter.bead.0)) else {
        return;
    };
    let (shape, colour) = (bead.shape, bead.colour);
    let ink = if look == BeadLook::Faded { faded_ink(colour) } else { ink_on(colour) };
    sketch.bead(BeadMark { centre, width: Mm(side), length: Mm(side), shape, colour, turned: 0.0, look });
    if let Some(letter) = letter {
        sketch.centred(centre, letter.to_string(), LETTER, ink, Face::Letters, None);
    }
}
