//! Places to anchor as they are drawn: a frame round two stacks, as strong as the letters, and a leader that ends in a
//! bracket round its mark.

use super::anchors::{INSIDE, Marked};
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
/// Thickness of leaders and brackets, as shares of a frame's.
const LEADER: f64 = 0.6;
/// Length of a bracket's hooks, as a share of its half height.
const HOOK: f64 = 0.28;

impl Setter<'_> {
    /// Draws the frames, leaders and marks of anchors.
    pub(super) fn anchors(&mut self, chart: &Chart, marked: &[Marked], view: &View, piece: &mut Fragment) {
        let pen = (view.letter.unwrap_or(Pt(0.0)).mm() * FRAME).min(view.clear * FRAME_SHARE);
        let ground = (pen * 2.0).min(view.clear * GROUND_SHARE);
        let ink = self.sheet.ink;
        let put = |piece: &mut Fragment, path: Path| piece.path(view.node, Some(Layer::Marks), path);
        let ring = |one: &Marked, colour, pen| {
            let frame = &one.frame;
            stroked(frame.left, frame.top, frame.width(), frame.height(), colour, pen)
        };
        // White under all of them first, so that none cuts another.
        for one in marked {
            put(piece, ring(one, Colour::WHITE, ground));
            put(piece, leader(one, Colour::WHITE, ground * LEADER));
        }
        for one in marked {
            put(piece, ring(one, ink, pen));
            put(piece, leader(one, ink, pen * LEADER));
            put(piece, bracket(one, ink, pen * LEADER));
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

fn leader(one: &Marked, colour: Colour, pen: Mm) -> Path {
    let [from, bend, to] = one.leader;
    let mut path = line(from, bend, colour, pen);
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
