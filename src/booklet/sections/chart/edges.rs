//! Where rows, strands and places to anchor lie on a chart.

use super::apart::Apart;
use crate::booklet::book::Book;
use crate::booklet::{ChartAnchor, ChartRow, ChartStrand};
use crate::design::Design;
use crate::stitch::{self, Lying, SectionId, SectionKind, StackId};
use crate::units::{Mm, Point};

/// Beads that end at heights no further apart than this end at one height.
const ALIKE: Mm = Mm(0.02);

/// Outer edges of the beads of one row or strand.
struct Edges {
    left: Mm,
    right: Mm,
    top: Mm,
    bottom: Mm,
}

impl Edges {
    fn of<'a>(design: &Design, beads: impl Iterator<Item = &'a Lying>) -> Edges {
        let none = Edges {
            left: Mm(f64::INFINITY),
            right: Mm(f64::NEG_INFINITY),
            top: Mm(f64::INFINITY),
            bottom: Mm(f64::NEG_INFINITY),
        };
        beads.fold(none, |e, lying| {
            let bead = design.bead(lying.letter);
            Edges {
                left: e.left.min(lying.centre.x - bead.width / 2.0),
                right: e.right.max(lying.centre.x + bead.width / 2.0),
                top: e.top.min(lying.centre.y - bead.length / 2.0),
                bottom: e.bottom.max(lying.centre.y + bead.length / 2.0),
            }
        })
    }
}

pub(super) fn chart_rows(book: &Book) -> Vec<ChartRow> {
    let row = |(id, row): (SectionId, &stitch::Section)| {
        let e = Edges::of(book.design, book.work.fabric.beads_of(id));
        ChartRow {
            number: row.number,
            from: row.from,
            top: e.top,
            bottom: e.bottom,
            joints: joints(book, row),
            left: e.left,
            right: e.right,
        }
    };
    book.work.fabric.of_kind(SectionKind::Row).map(row).collect()
}

/// Heights where in all stacks of a row a bead ends and the next begins.
fn joints(book: &Book, row: &stitch::Section) -> Vec<Mm> {
    let fabric = &book.work.fabric;
    let of = |stack: &StackId| -> Vec<Mm> {
        let beads = fabric[*stack].beads.iter().map(|spot| &fabric[*spot]);
        let mut ends: Vec<Mm> =
            beads.map(|lying| lying.centre.y + book.design.bead(lying.letter).length / 2.0).collect();
        ends.pop();
        ends
    };
    let Some(first) = row.stacks.first().map(of) else { return Vec::new() };
    let alike = |ends: Vec<Mm>| {
        ends.len() == first.len() && ends.iter().zip(&first).all(|(a, b)| (*a - *b).abs() < ALIKE)
    };
    if row.stacks.iter().map(of).all(alike) { first } else { Vec::new() }
}

/// The strands as they hang, or as they are shown apart.
pub(super) fn chart_strands(book: &Book, apart: Option<&Apart>) -> Vec<ChartStrand> {
    let strand = |(id, strand): (SectionId, &stitch::Section)| {
        let beads = book.work.fabric.beads_of(id);
        let e = Edges::of(book.design, beads.clone());
        let fifths = beads.clone().skip(4).step_by(5);
        let (first, last) = (beads.clone().next(), beads.clone().last());
        let x = first.map_or(Mm::ZERO, |b| b.centre.x);
        let at = |y: Mm| apart.map_or(Point { x, y }, |apart| apart.moved(id, Point { x, y }));
        ChartStrand {
            number: strand.number,
            x: at(e.top).x,
            wide: first.map_or(Mm::ZERO, |b| book.design.bead(b.letter).width),
            top: at(e.top).y,
            bottom: at(e.bottom).y,
            middles: [first, last].map(|bead| bead.map_or(Mm::ZERO, |b| at(b.centre.y).y)),
            fifths: fifths.map(|b| at(b.centre.y + book.design.bead(b.letter).length / 2.0).y).collect(),
        }
    };
    book.work.fabric.of_kind(SectionKind::Strand).map(strand).collect()
}

pub(super) fn chart_anchors(book: &Book) -> Vec<ChartAnchor> {
    let fabric = &book.work.fabric;
    let edges =
        |stack: StackId| Edges::of(book.design, fabric[stack].beads.iter().map(|spot| &fabric[*spot]));
    book.work
        .anchors
        .iter()
        .enumerate()
        .map(|(i, anchor)| {
            let [a, b] = anchor.stacks.map(edges);
            let (top, bottom) = (a.top.min(b.top), a.bottom.max(b.bottom));
            ChartAnchor {
                at: Point { x: (a.left + b.right) / 2.0, y: (top + bottom) / 2.0 },
                width: b.right - a.left,
                height: bottom - top,
                mark: book.anchor_mark(i),
            }
        })
        .collect()
}
