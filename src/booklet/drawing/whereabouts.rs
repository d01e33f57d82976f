//! Where a row or strand is: a small outline of the whole earring with that one in the accent, and a row with the one that
//! it hangs on, bead by bead.

use super::diagram::accent;
use super::earring::{bead_of, lying_bead};
use super::sketch::{Sketch, pen};
use crate::colour::{Colour, ink_on};
use crate::design::Design;
use crate::drawn::{BeadLook, BeadMark, Drawing, Face, Segment};
use crate::stitch::{Lying, SectionId, SectionKind, Work};
use crate::units::{Mm, Point, Pt};

/// Space round a drawing.
const MARGIN: Mm = Mm(0.6);
/// What is worked before, and what comes later.
const DONE: Colour = Colour::new(0xc2, 0xc9, 0xcf);
const LATER: Colour = Colour::WHITE;
const EDGE: Colour = Colour::new(0x64, 0x6a, 0x71);
/// Width of edges, in millimetres of the earring.
const LINE: f64 = 0.22;
/// Width of the white round what is looked at.
const CASING: f64 = 0.5;
/// How wide strands are drawn, as a share of their beads: those side by side stay apart.
const STRAND: f64 = 0.72;
/// Most stacks of a row whose letters can be read where it is as wide as a screen.
const LETTERED: usize = 24;
/// Size of letters, as a share of the bead's width.
const LETTER: f64 = 0.66;
/// From the row to the arrow over it, and how long its head is, in widths of a stack.
const ARROW_APART: f64 = 0.5;
const ARROW_HEAD: f64 = 0.4;

/// The outline of the earring; `these` are where it is looked at, `done` is what is worked before.
#[must_use]
pub fn whereabouts(design: &Design, work: &Work, these: &[SectionId], done: &[SectionId]) -> Drawing {
    let mut sketch = Sketch::default();
    let sections = [SectionKind::Loop, SectionKind::Row, SectionKind::Strand];
    let mut all: Vec<_> = sections.into_iter().flat_map(|kind| work.fabric.of_kind(kind)).collect();
    // Those looked at last, so that nothing lies over their edges.
    all.sort_by_key(|(id, _)| these.contains(id));
    for (id, section) in all {
        let fill = match (these.contains(&id), done.contains(&id)) {
            (true, _) => accent(design),
            (false, true) => DONE,
            (false, false) => LATER,
        };
        let beads = || work.fabric.beads_of(id).map(|lying| lying_bead(design, lying, BeadLook::Flat));
        // Round the small circles of a ring a casing would leave hardly anything.
        let cased = these.contains(&id) && section.kind != SectionKind::Loop;
        let edge = Some(if cased { pen(Colour::WHITE, CASING) } else { pen(EDGE, LINE) });
        match section.kind {
            // A ring is no bar.
            SectionKind::Loop => {
                for bead in beads() {
                    let around = crate::drawn::circle(bead.centre, bead.width.min(bead.length) / 2.0);
                    sketch.area(around, fill, edge.clone());
                }
            }
            SectionKind::Row => sketch.area(bar(beads(), 1.0), fill, edge),
            SectionKind::Strand => {
                let share = if these.contains(&id) { 1.0 } else { STRAND };
                sketch.area(bar(beads(), share), fill, edge);
            }
        }
    }
    sketch.finish(MARGIN, false)
}

/// The box round some beads, so much of its width.
fn bar(beads: impl Iterator<Item = BeadMark>, share: f64) -> Vec<Segment> {
    let far = f64::INFINITY;
    let [mut left, mut top, mut right, mut bottom] = [far, far, -far, -far];
    for bead in beads {
        let (x, y, across, down) =
            (bead.centre.x.0, bead.centre.y.0, bead.width.0 / 2.0 * share, bead.length.0 / 2.0);
        (left, right) = (left.min(x - across), right.max(x + across));
        (top, bottom) = (top.min(y - down), bottom.max(y + down));
    }
    vec![
        Segment::Move(Point::new(left, top)),
        Segment::Line(Point::new(right, top)),
        Segment::Line(Point::new(right, bottom)),
        Segment::Line(Point::new(left, bottom)),
        Segment::Close,
    ]
}

/// A row bead by bead with its letters, where they can be read, over or under the row that it hangs on, and an arrow the
/// way it is worked.
#[must_use]
pub fn lying_row(design: &Design, work: &Work, row: SectionId) -> Drawing {
    let fabric = &work.fabric;
    let mut sketch = Sketch::default();
    if let Some(lies) = fabric[row].lies {
        for lying in fabric.beads_of(lies.on) {
            sketch.bead(lying_bead(design, lying, BeadLook::Faded));
        }
    }
    let lettered = fabric[row].stacks.len() <= LETTERED;
    let beads: Vec<&Lying> = fabric.beads_of(row).collect();
    for lying in &beads {
        sketch.bead(lying_bead(design, lying, BeadLook::Flat));
    }
    for lying in beads.iter().filter(|_| lettered) {
        let bead = bead_of(design, lying.letter);
        let size = Pt(Mm(bead.width.min(bead.length).0 * LETTER).pt().0);
        let letter = design.symbol(lying.letter).to_string();
        sketch.centred(lying.centre, letter, size, ink_on(bead.colour), Face::Letters, None);
    }
    arrow(&mut sketch, design, work, row, &beads);
    sketch.finish(MARGIN, false)
}

/// The way that a row is worked, on the side away from the row that it hangs on.
fn arrow(sketch: &mut Sketch, design: &Design, work: &Work, row: SectionId, beads: &[&Lying]) {
    let marks = beads.iter().map(|lying| lying_bead(design, lying, BeadLook::Flat));
    let outline = bar(marks, 1.0);
    let corners: Vec<Point> = outline.into_iter().flat_map(Segment::points).collect();
    let [top_left, _, bottom_right, _] = corners[..] else { return };
    let section = &work.fabric[row];
    let wide = work.geometry.stack_width.0;
    let down = section.lies.is_some_and(|lies| lies.away == crate::stitch::Way::Down);
    let y = if down { bottom_right.y.0 + wide * ARROW_APART } else { top_left.y.0 - wide * ARROW_APART };
    let (from, to) = match section.from {
        crate::design::Side::Left => (top_left.x.0, bottom_right.x.0),
        crate::design::Side::Right => (bottom_right.x.0, top_left.x.0),
    };
    let colour = accent(design);
    let head = wide * ARROW_HEAD * (to - from).signum();
    let line = vec![Segment::Move(Point::new(from, y)), Segment::Line(Point::new(to - head, y))];
    sketch.line(line, pen(colour, wide * 0.09));
    let tip = vec![
        Segment::Move(Point::new(to, y)),
        Segment::Line(Point::new(to - head, y - head.abs() * 0.5)),
        Segment::Line(Point::new(to - head, y + head.abs() * 0.5)),
        Segment::Close,
    ];
    sketch.area(tip, colour, None);
}
