//! Strands shown apart: where on the earring they lie over rows or over each other's beads, a chart of the fringe shows
//! them side by side from one height, so far apart that no bead covers another.

use crate::booklet::book::Book;
use crate::stitch::{self, SectionId, SectionKind, Stack};
use crate::units::{Mm, Point};
use std::collections::BTreeMap;

/// Distance of strands along an edge, as a share of a stack's width: they are seen not to hang on one row.
const ALONG_EDGE: f64 = 1.25;
/// White between the widest neighbouring beads, as a share of their width.
const BETWEEN: f64 = 1.04;
/// What a bead may cover of another's width or height without hiding its letter.
const COVERED: f64 = 0.1;

/// How strands are moved where they must be shown apart.
pub(super) struct Apart {
    moves: BTreeMap<SectionId, (Mm, Mm)>,
}

impl Apart {
    /// Of a design's strands as they hang.
    pub fn of(book: &Book) -> Apart {
        let strands: Vec<Hanging> =
            book.work.fabric.of_kind(SectionKind::Strand).map(|strand| Hanging::of(book, strand)).collect();
        let covers = strands.windows(2).any(|pair| pair[0].covers(&pair[1]));
        let on_one_row = on_one_row(book);
        if on_one_row && !covers {
            return Apart { moves: BTreeMap::new() };
        }
        let least = book.work.geometry.stack_width * if on_one_row { 1.0 } else { ALONG_EDGE };
        let needed = strands.windows(2).map(|pair| pair[0].room_beside(&pair[1]) * BETWEEN);
        let apart = needed.fold(least, Mm::max);
        let middle = book.work.geometry.body_width / 2.0;
        let top = strands.iter().map(|strand| strand.at.y).fold(Mm(f64::MAX), Mm::min);
        let first = middle - apart * (strands.len().saturating_sub(1) as f64 / 2.0);
        let moved = |(index, strand): (usize, &Hanging)| {
            let x = first + apart * index as f64;
            (strand.id, (x - strand.at.x, top - strand.at.y))
        };
        Apart { moves: strands.iter().enumerate().map(moved).collect() }
    }

    /// Whether strands must be shown apart.
    pub fn must_be(&self) -> bool {
        !self.moves.is_empty()
    }

    /// Where a point of a strand is shown.
    pub fn moved(&self, strand: SectionId, at: Point) -> Point {
        let (across, down) = self.moves.get(&strand).copied().unwrap_or_default();
        Point { x: at.x + across, y: at.y + down }
    }
}

/// Whether all strands hang on one row, each on a stack of its own, with no row below them.
fn on_one_row(book: &Book) -> bool {
    let (fabric, wide) = (&book.work.fabric, book.work.geometry.stack_width);
    let strands = fabric.of_kind(SectionKind::Strand);
    let hung: Vec<&Stack> = strands.filter_map(|(_, s)| s.hangs_on).map(|stack| &fabric[stack]).collect();
    let near = |a: &Stack, b: &Stack| (a.upper.x - b.upper.x).abs() < wide * 0.9;
    let lies_below = |low: &Stack| hung.iter().any(|stack| low.line < stack.line && near(low, stack));
    let level = hung.windows(2).all(|pair| pair[0].line == pair[1].line && !near(pair[0], pair[1]));
    level && !fabric.stacks.iter().any(lies_below)
}

/// A strand as it hangs: the middle of its first bead's upper edge, and the boxes of its beads seen from there.
struct Hanging {
    id: SectionId,
    at: Point,
    beads: Vec<Reach>,
}

/// The box of a bead.
#[derive(Clone, Copy)]
struct Reach {
    left: Mm,
    right: Mm,
    top: Mm,
    bottom: Mm,
}

impl Hanging {
    fn of(book: &Book, (id, _): (SectionId, &stitch::Section)) -> Hanging {
        let beads = || book.work.fabric.beads_of(id);
        let mut boxes: Vec<Reach> = beads()
            .map(|lying| {
                let bead = book.design.bead(lying.letter);
                let (sin, cos) = lying.turned.to_radians().sin_cos();
                let across = (bead.width * cos.abs() + bead.length * sin.abs()) / 2.0;
                let down = (bead.width * sin.abs() + bead.length * cos.abs()) / 2.0;
                let Point { x, y } = lying.centre;
                Reach { left: x - across, right: x + across, top: y - down, bottom: y + down }
            })
            .collect();
        let at = Point {
            x: beads().next().map_or(Mm::ZERO, |lying| lying.centre.x),
            y: boxes.first().map_or(Mm::ZERO, |first| first.top),
        };
        for reach in &mut boxes {
            reach.left -= at.x;
            reach.right -= at.x;
            reach.top -= at.y;
            reach.bottom -= at.y;
        }
        Hanging { id, at, beads: boxes }
    }

    /// Whether a bead of one strand covers more of a bead of the other than may be.
    fn covers(&self, other: &Hanging) -> bool {
        let (across, down) = (other.at.x - self.at.x, other.at.y - self.at.y);
        // Strands of beads no wider than their distance cover nothing.
        let reach =
            |strand: &Hanging, of: fn(&Reach) -> Mm| strand.beads.iter().map(of).fold(Mm::ZERO, Mm::max);
        if reach(self, |bead| bead.right) + reach(other, |bead| -bead.left) <= across {
            return false;
        }
        let meets = |a: &Reach, b: &Reach| {
            let wide = a.right.min(b.right + across) - a.left.max(b.left + across);
            let high = a.bottom.min(b.bottom + down) - a.top.max(b.top + down);
            let [least_wide, least_high] =
                [(a.right - a.left).min(b.right - b.left), (a.bottom - a.top).min(b.bottom - b.top)];
            wide > least_wide * COVERED && high > least_high * COVERED
        };
        self.beads.iter().any(|a| other.beads.iter().any(|b| meets(a, b)))
    }

    /// How far apart this strand and the next must be for no bead to touch another, from one height.
    fn room_beside(&self, next: &Hanging) -> Mm {
        let beside = |a: &Reach, b: &Reach| a.top < b.bottom && b.top < a.bottom;
        let rooms = self
            .beads
            .iter()
            .flat_map(|a| next.beads.iter().filter(move |b| beside(a, b)).map(move |b| a.right - b.left));
        rooms.fold(Mm::ZERO, Mm::max)
    }
}
