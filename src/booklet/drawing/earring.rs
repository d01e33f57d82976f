//! The finished earring, every bead where it lies and as big as it is.

use super::ear_wire::ear_wire;
use super::findings::{METAL_EDGE, chain, guard, guard_rise};
use super::shadow::shadow;
use super::sketch::{Extent, Sketch, bead_extent, pen};
use super::sway::hanging;
use crate::design::{Bead, Design, LetterId, Pair};
use crate::drawn::{BeadLook, BeadMark, Drawing, Mark, Segment};
use crate::stitch::{Carrier, Lying, SectionKind, Work, practice};
use crate::units::{Mm, Point};

/// Space round a finished earring.
const MARGIN: Mm = Mm(1.5);
/// Space between the two earrings of a pair, as a share of the width of one.
const BETWEEN: f64 = 0.22;
/// How high several hangings are joined above them, as a share of their distance (our choice).
const JOINED_RISE: f64 = 0.62;
/// How much of an earring's width a near view takes, and how many stacks it takes at least.
const NEAR: f64 = 0.62;
const NEAR_AT_LEAST: f64 = 5.0;
/// The least space between the two earrings of a pair.
const BETWEEN_AT_LEAST: f64 = 4.0;

/// The pair side by side; the second is the first one's mirror image where the design says so.
#[must_use]
pub fn pair(design: &Design, work: &Work) -> Drawing {
    let first = finished(design, work, 0);
    let Some(extent) = first.extent() else {
        return first.finish(MARGIN, false);
    };
    let width = extent.right - extent.left;
    let second = match design.pair {
        Pair::Same => finished(design, work, 1),
        Pair::Mirrored => first.mirrored(f64::midpoint(extent.left, extent.right)),
    };
    let mut both = Sketch::default();
    both.place(&first, 0.0, 0.0);
    both.place(&second, width + (width * BETWEEN).max(BETWEEN_AT_LEAST), 0.0);
    shaded(both).finish(MARGIN, false)
}

/// One earring, and what of it a near view shows: the middle of the lowest row of the body and the side of a square
/// round it, in the drawing's own millimetres.
#[must_use]
pub fn detail(design: &Design, work: &Work) -> (Drawing, Point, Mm) {
    let earring = shaded(finished(design, work, 0));
    let (extent, beads) = (earring.extent(), beaded(design, work));
    let drawing = earring.finish(MARGIN, false);
    let (Some(extent), Some(beads)) = (extent, beads) else {
        return (drawing, Point::default(), Mm(1.0));
    };
    let foot = work.fabric.line(0).map(|(_, stack)| stack.lower.y.0).fold(f64::NEG_INFINITY, f64::max);
    let across = beads.right - beads.left;
    let x = f64::midpoint(beads.left, beads.right) - extent.left + MARGIN.0;
    let side = (across * NEAR).max(work.geometry.stack_width.0 * NEAR_AT_LEAST);
    (drawing, Point::new(x, foot - extent.top + MARGIN.0), Mm(side))
}

/// The bead that a letter stands for.
pub(super) fn bead_of(design: &Design, letter: LetterId) -> &Bead {
    &design.palette.beads[design.letters[letter.0].bead.0]
}

/// A bead of the work as a mark in the work's own millimetres.
pub(super) fn lying_bead(design: &Design, lying: &Lying, look: BeadLook) -> BeadMark {
    let bead = bead_of(design, lying.letter);
    BeadMark {
        centre: lying.centre,
        width: bead.width,
        length: bead.length,
        shape: bead.shape,
        colour: bead.colour,
        turned: lying.turned,
        look,
    }
}

/// What is drawn, with its shadow behind it.
fn shaded(mut sketch: Sketch) -> Sketch {
    let shadow = shadow(&sketch.marks);
    sketch.marks.insert(0, Mark::Shadow(shadow));
    sketch
}

/// One finished earring at its true proportions as it hangs: beads, guard or loop, ear wire. `earring` is its number in
/// the pair.
fn finished(design: &Design, work: &Work, earring: u64) -> Sketch {
    let mut sketch = Sketch::default();
    let beads = hanging(&work.fabric, earring);
    turns(&mut sketch, design, work, &beads);
    hang(&mut sketch, design, work);
    for lying in &beads {
        let look = BeadLook::Lifelike(bead_of(design, lying.letter).shine);
        sketch.bead(lying_bead(design, lying, look));
    }
    sketch
}

/// The thread that can be seen round the last bead of each strand.
fn turns(sketch: &mut Sketch, design: &Design, work: &Work, beads: &[Lying]) {
    let fabric = &work.fabric;
    for (_, strand) in fabric.of_kind(SectionKind::Strand) {
        let turning = design.fringe.strands.get(strand.source).map_or(1, |written| written.turn.max(1));
        let last = |back: usize| Some(&beads[strand.beads.iter().rev().nth(back)?.number()]);
        let (Some(turn), Some(above)) = (last(0), last(turning)) else { continue };
        let stroke = pen(design.fringe_thread.colour.mix(crate::colour::Colour::BLACK, 0.25), 0.14);
        sketch.line(vec![Segment::Move(above.centre), Segment::Line(turn.centre)], stroke);
    }
}

/// The guards (a loop's beads are beads), and the ear wire in the one that carries it; several are joined to it.
fn hang(sketch: &mut Sketch, design: &Design, work: &Work) {
    let carried: Vec<Point> =
        work.hangings.iter().filter_map(|carrier| hung(sketch, design, work, carrier)).collect();
    match carried[..] {
        [] => {}
        [only] => ear_wire(sketch, design.ear_wire(), only),
        _ => {
            let apart = |by: fn(f64, f64) -> f64, from| carried.iter().map(|p| p.x.0).fold(from, by);
            let (left, right) = (apart(f64::min, f64::INFINITY), apart(f64::max, f64::NEG_INFINITY));
            let top = carried.iter().map(|p| p.y.0).fold(f64::INFINITY, f64::min);
            let rise = (right - left) * JOINED_RISE;
            let joint = Point::new(f64::midpoint(left, right), top - rise);
            carried.iter().for_each(|carried| chain(sketch, *carried, joint));
            ear_wire(sketch, design.ear_wire(), joint);
        }
    }
}

/// The guards, without an ear wire and without light on them: small on paper they would not be seen.
pub(super) fn guards(sketch: &mut Sketch, design: &Design, work: &Work) {
    let mut all = Sketch::default();
    for carrier in &work.hangings {
        hung(&mut all, design, work, carrier);
    }
    let is_edge = |mark: &Mark| matches!(mark, Mark::Path(path) if path.stroke.as_ref().is_some_and(|stroke| stroke.colour == METAL_EDGE));
    sketch.marks.extend(all.marks.into_iter().filter(is_edge));
}

/// Draws one guard, if it is one, and says where what carries it touches its inner upper edge, or that of the loop.
fn hung(sketch: &mut Sketch, design: &Design, work: &Work, carrier: &Carrier) -> Option<Point> {
    let [one, other] = carrier.stacks.map(|stack| work.fabric[stack].upper.x.0);
    let centre = f64::midpoint(one, other);
    let Some(ring) = carrier.ring else {
        let holes = design.guard_holes().unwrap_or(practice::GUARD_HOLES).0;
        let rise = guard_rise(holes);
        let tube = practice::GUARD_TUBE.0;
        let foot = top_row(work)?.top + tube * 0.25;
        let (left, right) = (Point::new(centre - holes / 2.0, foot), Point::new(centre + holes / 2.0, foot));
        guard(sketch, left, right, rise, tube);
        return Some(Point::new(centre, foot - rise + tube / 2.0));
    };
    let topmost = work.fabric.beads_of(ring).min_by(|a, b| a.centre.y.0.total_cmp(&b.centre.y.0))?;
    // The wire rests against the inside of the loop's topmost bead, whose hole lies across.
    let thick = bead_of(design, topmost.letter).width.0;
    Some(Point::new(centre, topmost.centre.y.0 + thick / 2.0))
}

/// The box round the centres of the topmost stacks, with their upper edge.
fn top_row(work: &Work) -> Option<Extent> {
    let fabric = &work.fabric;
    let across = work.geometry.stack_width.0 / 2.0;
    let boxes = fabric.line(fabric.top_line()?).flat_map(|(_, stack)| {
        let half = work.geometry.stack_height.0 / 2.0 / stack.beads.len().max(1) as f64;
        stack.beads.iter().map(move |spot| Extent::round(fabric[*spot].centre, across, half))
    });
    boxes.reduce(Extent::with)
}

/// The box round every bead of the earring.
pub(super) fn beaded(design: &Design, work: &Work) -> Option<Extent> {
    work.fabric
        .beads
        .iter()
        .map(|l| bead_extent(&lying_bead(design, l, BeadLook::Silhouette)))
        .reduce(Extent::with)
}
