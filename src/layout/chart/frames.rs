//! Places to anchor as they are drawn: a frame round two stacks, as strong as the letters, and a leader that ends in a
//! bracket round its mark.

use super::anchors::{INSIDE, Marked};
use super::extent::Extent;
use super::part::View;
use crate::booklet::{Chart, Place, Placed};
use crate::colour::Colour;
use crate::design::Side;
use crate::drawn::{Align, Face, Segment};
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, Goal, line, stroked};
use crate::layout::setter::{Ink, Linked, Setter};
use crate::layout::{Layer, Path, Role};
use crate::units::{Mm, Point, Pt, Size};

/// Thickness of a frame, as a share of the size of letters: about that of their stems. It takes no more than this share
/// of the white between letters and the edges of their beads, and with the white under it no more than that.
const FRAME: f64 = 0.115;
const FRAME_SHARE: f64 = 1.1;
const GROUND_SHARE: f64 = 1.8;
/// Where frames that share a stack lie: the outmost so far outside the edges of its beads, and the others inside it within
/// this, as shares of the white between letters and those edges; and their
/// pen and the white under it, as shares of the distance between two.
const OUTMOST: f64 = 0.4;
const NESTED: f64 = 0.9;
const NESTED_PEN: f64 = 0.32;
const NESTED_GROUND: f64 = 0.85;
/// Where letters have more white round them than this, frames lie no further from one another.
const MOST_CLEAR: Mm = Mm(1.6);
/// Frames nearer to each other than this run together.
const TOUCHING: Mm = Mm(0.1);
/// Thickness of leaders and brackets, as shares of a frame's.
const LEADER: f64 = 0.6;
/// Length of a bracket's hooks, as a share of its half height.
const HOOK: f64 = 0.28;

impl Setter<'_> {
    /// Draws the frames, leaders and marks of anchors.
    pub(super) fn anchors(&mut self, chart: &Chart, marked: &[Marked], view: &View, piece: &mut Fragment) {
        let usual = (view.letter.unwrap_or(Pt(0.0)).mm() * FRAME).min(view.clear * FRAME_SHARE);
        let ground = |pen: Mm| (pen * 2.0).min(view.clear * GROUND_SHARE);
        let ink = self.sheet.ink;
        let put = |piece: &mut Fragment, path: Path| piece.path(view.node, Some(Layer::Marks), path);
        let rings: Vec<(Extent, Mm, Mm)> = depths(marked)
            .into_iter()
            .zip(marked)
            .map(|((depth, deepest), one)| {
                if deepest == 0 {
                    return (one.frame, usual, ground(usual));
                }
                // One inside the other, round the edge of the beads and in the white round the letters.
                let clear = view.clear.min(MOST_CLEAR);
                let step = clear * (NESTED / deepest as f64);
                let frame = one.frame.grown(clear * OUTMOST - step * depth as f64);
                (frame, usual.min(step * NESTED_PEN), step * NESTED_GROUND)
            })
            .collect();
        // All frames of a chart are of one weight, that of the finest.
        let weight = rings.iter().map(|(_, pen, _)| *pen).fold(usual, Mm::min);
        let fine = weight.min(usual * LEADER);
        let ring = |frame: &Extent, colour, pen| {
            stroked(frame.left, frame.top, frame.width(), frame.height(), colour, pen)
        };
        // White under all of them first, so that none cuts another.
        for (one, (frame, _, white)) in marked.iter().zip(&rings) {
            put(piece, ring(frame, Colour::WHITE, *white));
            put(piece, leader(one, frame, Colour::WHITE, ground(usual) * LEADER));
        }
        for (one, (frame, ..)) in marked.iter().zip(&rings) {
            put(piece, ring(frame, ink, weight));
            put(piece, leader(one, frame, ink, fine));
            put(piece, bracket(one, ink, fine));
            self.mark(chart, one, view, piece);
        }
    }

    fn mark(&mut self, chart: &Chart, one: &Marked, view: &View, piece: &mut Fragment) {
        let (sign, align) = match one.side {
            Side::Left => (-1.0, Align::End),
            Side::Right => (1.0, Align::Start),
        };
        let [.., Point { x, y }] = one.leader;
        let at =
            Point { x: x + one.size.mm() * (INSIDE * sign), y: y + cap_height(Face::Bold, one.size) / 2.0 };
        let ink = Ink { face: Face::Bold, size: one.size, colour: self.sheet.accent_text };
        let corner = Point { x: one.area.left, y: one.area.top };
        let (step, here) = mark_leads(chart, one);
        let place = |place| Goal { y: corner.y, section: None, place: Some(place), bookmark: None };
        piece.goals.extend(here.into_iter().map(place));
        let node = match step {
            Some(to) => {
                let node = self.tree.add(view.node, Role::Link);
                let size = Size { width: one.area.width(), height: one.area.height() };
                self.number_link(piece, node, (corner, size), Linked { to, here: None, said: &one.mark });
                node
            }
            None => view.node,
        };
        let mut items = self.label(ink, &one.mark, at, align, node);
        items.iter_mut().for_each(|item| item.layer = Some(Layer::Marks));
        piece.items.extend(items);
    }
}

/// The step that a mark leads to, and the places that it is: where two threads share a pair, one for each.
fn mark_leads(chart: &Chart, one: &Marked) -> (Option<Place>, Vec<Place>) {
    let Some(leads) = &chart.leads else { return (None, Vec::new()) };
    let index = |mark: &str| chart.anchors.iter().position(|anchor| anchor.mark == mark);
    let indices: Vec<usize> = one.mark.split(", ").filter_map(index).collect();
    let step = indices.iter().find_map(|index| leads.marks.get(index));
    let here = indices.iter().map(|i| leads.place(Placed::ChartMark(*i)));
    (step.map(|step| Place::step(*step)), here.collect())
}

/// How deep the frame of each lies in those that it would run together with, and how deep the deepest of these. Inner
/// pairs of a row, whose leaders run past the outer ones, lie outmost.
fn depths(marked: &[Marked]) -> Vec<(usize, usize)> {
    let mut depths = vec![0; marked.len()];
    let meets = |a: usize, b: usize, by: Mm| marked[a].frame.grown(by).meets(&marked[b].frame);
    // They come with the outer ones of a row first.
    for one in (0..marked.len()).rev() {
        let later = one + 1..marked.len();
        let is_free = |depth: &usize| {
            let mut alike = later.clone().filter(|other| depths[*other] == *depth);
            // Those that only touch stand apart where both lie deeper.
            alike.all(|other| !meets(one, other, if *depth == 0 { TOUCHING } else { -TOUCHING }))
        };
        depths[one] = (0..).find(is_free).unwrap_or(0);
    }
    let deepest = |one: usize| {
        let together = (0..marked.len()).filter(|other| meets(one, *other, TOUCHING));
        together.map(|other| depths[other]).max().unwrap_or(0)
    };
    (0..marked.len()).map(|one| (depths[one], deepest(one))).collect()
}

/// From the frame as it is drawn, and past the edge of the row to the bracket.
fn leader(one: &Marked, frame: &Extent, colour: Colour, pen: Mm) -> Path {
    let [from, bend, to] = one.leader;
    let x = if one.side == Side::Left { from.x.max(frame.left) } else { from.x.min(frame.right) };
    let start = Point { x, y: from.y.max(frame.top).min(frame.bottom) };
    let mut path = line(start, Point { x, ..from }, colour, pen);
    path.segments.push(Segment::Line(bend));
    if to != bend {
        path.segments.push(Segment::Line(to));
    }
    path
}

/// The bracket at the end of a leader, open towards the mark.
fn bracket(one: &Marked, colour: Colour, pen: Mm) -> Path {
    let [.., Point { x, y }] = one.leader;
    let hook = one.bracket * if one.side == Side::Left { -HOOK } else { HOOK };
    let at = |dx: Mm, dy: Mm| Point { x: x + dx, y: y + dy };
    let (top, bottom) = (-one.bracket, one.bracket);
    let mut path = line(at(hook, top), at(Mm::ZERO, top), colour, pen);
    path.segments.extend([Segment::Line(at(Mm::ZERO, bottom)), Segment::Line(at(hook, bottom))]);
    path
}
