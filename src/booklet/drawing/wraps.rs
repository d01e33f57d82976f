//! Wraps, drawn large: how the thread lies round two stacks in front of and behind them.

use super::diagram::{accent, arrowhead};
use super::earring::bead_of;
use super::sketch::{Sketch, pen};
use crate::colour::{Colour, ink_on};
use crate::design::Design;
use crate::drawn::{BeadLook, BeadMark, Drawing, Face, Segment, circle};
use crate::stitch::{Move, MoveKind, StackId, Work};
use crate::units::{Mm, Point, Pt};

/// Width of a stack, and its least height: beads are drawn longer than they are where letters would not stand clear of
/// the thread.
const STACK: f64 = 9.0;
const HIGH: f64 = 24.0;
/// Space between the stacks, and between the view from the front and that from behind.
const BETWEEN: f64 = 1.0;
const APART: f64 = 15.0;
/// How far the thread stands out at the sides.
const OUT: f64 = 2.4;
/// How far before the tip of an arrow its line ends, as a share of that.
const NECK: f64 = 0.45;
/// How far one wrap lies from the next.
const WRAP: f64 = 4.6;
/// Width of the thread, and of the white beside it.
const THREAD: f64 = 0.9;
const CASING: f64 = 0.45;
/// How far the middle of a letter stands from the end of its stack.
const EDGE: f64 = 3.0;
/// Size of letters and numbers, and the radius of the dots that these stand on.
const LETTER: Pt = Pt(9.0);
const NUMBER: Pt = Pt(8.5);
const DOT: f64 = 2.3;
const MARGIN: Mm = Mm(1.0);

/// The wraps of an anchor: on the left from the front, on the right from behind, where left and right change places.
/// Each wrap has the number of its move, with *a* for the way in front and *b* for that behind. `None` where there is no
/// such anchor.
#[must_use]
pub fn wraps(design: &Design, work: &Work, anchor: usize, numbers: &[usize]) -> Option<Drawing> {
    let [left, right] = work.anchors.get(anchor)?.stacks;
    let mut sketch = Sketch::default();
    let stacks = if left == right { vec![left] } else { vec![left, right] };
    let mut behind = stacks.clone();
    behind.reverse();
    let width = stacks.len() as f64 * (STACK + BETWEEN) - BETWEEN;
    let paths = [&work.body, &work.tail, &work.fringe];
    let wrap = paths.iter().flat_map(|path| &path.moves).find(|made| is_wrap(made, anchor))?;
    // Points of a wrap: where it begins, the other side, and back.
    let [.., near, far, _] = wrap.points[..] else { return None };
    let rightwards = near.x < far.x;
    view(&mut sketch, (design, work), &stacks, 0.0, View { side: 'a', later: 0.0, numbers, rightwards });
    view(
        &mut sketch,
        (design, work),
        &behind,
        width + APART,
        View { side: 'b', later: 0.5, numbers, rightwards },
    );
    Some(sketch.finish(MARGIN, false))
}

fn is_wrap(made: &Move, anchor: usize) -> bool {
    matches!(made.kind, MoveKind::Wrap { anchor: at } if at == anchor)
}

/// What one view shows of the ways round.
#[derive(Clone, Copy)]
struct View<'n> {
    /// The letter of its ways.
    side: char,
    /// The numbers of the wraps as moves.
    numbers: &'n [usize],
    /// By what part of a wrap it comes later than the view from the front.
    later: f64,
    /// Which way the thread runs in it: the same in both, for from behind left and right have changed places.
    rightwards: bool,
}

/// One view: the stacks from left to right, and the ways that lie before them.
fn view(sketch: &mut Sketch, (design, work): (&Design, &Work), stacks: &[StackId], x: f64, view: View<'_>) {
    let mut height: f64 = 0.0;
    for (index, stack) in stacks.iter().enumerate() {
        let left = x + index as f64 * (STACK + BETWEEN);
        height = height.max(beads(sketch, design, work, *stack, left));
    }
    let width = stacks.len() as f64 * (STACK + BETWEEN) - BETWEEN;
    let (out_left, out_right) = (x - OUT, x + width + OUT);
    let wraps = view.numbers.len();
    let accent = accent(design);
    let top = height / 2.0 - WRAP * (wraps as f64 - 1.0) / 2.0;
    for (wrap, number) in view.numbers.iter().enumerate() {
        // The thread winds a little downwards: what ends at one side goes on from there on the other face.
        let turn = wrap as f64 + view.later;
        let (from, to) = (top + WRAP * (turn - 0.25), top + WRAP * (turn + 0.25));
        let at = Point::new;
        let (start, end) = if view.rightwards { (out_left, out_right) } else { (out_right, out_left) };
        let inwards = if view.rightwards { OUT } else { -OUT };
        // The line ends inside its arrowhead: as wide as it is, it would show at both sides of the tip.
        let neck = end - inwards * NECK;
        let line = vec![
            Segment::Move(at(start, from)),
            Segment::Curve(at(start + inwards, from), at(neck - inwards, to), at(neck, to)),
        ];
        sketch.line(line.clone(), pen(Colour::WHITE, THREAD + CASING * 2.0));
        sketch.line(line, pen(accent, THREAD));
        arrowhead(sketch, &[Segment::Move(at(neck, to)), Segment::Line(at(end, to))], accent);
        // Between the letters of the stacks.
        let centre = at(x + width / 2.0, f64::midpoint(from, to));
        sketch.area(circle(centre, Mm(DOT)), accent, Some(pen(Colour::WHITE, 0.35)));
        sketch.centred(centre, format!("{number}{}", view.side), NUMBER, Colour::WHITE, Face::Bold, None);
    }
}

/// The beads of a stack, the outer ones with their letters at the stack's ends, clear of the thread; their height.
fn beads(sketch: &mut Sketch, design: &Design, work: &Work, stack: StackId, left: f64) -> f64 {
    let letters = work.fabric[stack].beads.iter().map(|spot| work.fabric[*spot].letter);
    let letters: Vec<_> = letters.collect();
    let scale = STACK / work.geometry.stack_width.0.max(0.1);
    let mut y = 0.0;
    let last = letters.len().saturating_sub(1);
    let long: f64 = letters.iter().map(|letter| bead_of(design, *letter).length.0 * scale).sum();
    let stretched = (HIGH / long.max(0.1)).max(1.0);
    for (index, letter) in letters.iter().enumerate() {
        let bead = bead_of(design, *letter);
        let length = bead.length.0 * scale * stretched;
        let centre = Point::new(left + STACK / 2.0, y + length / 2.0);
        let mark = BeadMark {
            centre,
            width: bead.width * scale,
            length: Mm(length),
            shape: bead.shape,
            colour: bead.colour,
            turned: 0.0,
            look: BeadLook::Flat,
        };
        sketch.bead(mark);
        let letter_y = match index {
            0 => Some(y + EDGE),
            _ if index == last => Some(y + length - EDGE),
            _ => None,
        };
        if let Some(letter_y) = letter_y {
            let symbol = design.symbol(*letter).to_string();
            let at = Point::new(centre.x.0, letter_y);
            sketch.centred(at, symbol, LETTER, ink_on(bead.colour), Face::Letters, None);
        }
        y += length;
    }
    y
}
