//! Things set apart: a quiet ground, a rule at the left, and for checks and cautions a sign of their own,
//! so that nothing is said by colour alone.

use super::blocks::Slot;
use super::fragment::{Fragment, Slab, filled, height, stack};
use super::measures::BAR;
use super::setter::Setter;
use super::{Path, Role};
use crate::booklet::{Block, CalloutKind, Text};
use crate::colour::Colour;
use crate::drawn::{Align, Segment, Stroke, circle};
use crate::units::{Mm, Point};
use std::sync::Arc;

/// White between the edge of a callout and its words; grows with the type.
const PAD: Mm = Mm(3.6);
/// Between its title and its words; grows with the type.
const UNDER_TITLE: Mm = Mm(0.4);
/// Above and below a callout; grows with the type.
const SPACE: Mm = Mm(5.0);

/// What it costs to part a callout within a paragraph: see [`super::fit`].
const WITHIN: f64 = 200.0;

/// What is the same for every piece of a callout.
struct Frame {
    width: Mm,
    pad: Mm,
    sign_room: Mm,
    colour: Colour,
    kind: CalloutKind,
}

impl Setter<'_> {
    /// A callout; it stays on one page unless it is taller than most of one.
    pub fn callout(&mut self, kind: CalloutKind, title: &Text, blocks: &[Block], slot: Slot) -> Vec<Slab> {
        let pad = self.sheet.grown(PAD);
        let sign_room = self.sheet.body.size.mm() * 2.1;
        let width = slot.width.min(self.sheet.measure());
        let node = self.tree.add(slot.parent, Role::Section);
        let inner = Slot { width: width - pad * 2.0 - sign_room, room: slot.room * 0.6, parent: node };
        let mut slabs = Vec::new();
        if !title.0.is_empty() {
            let role = self.tree.add(node, Role::Paragraph);
            let style = self.sheet.body.strong();
            let how = self.balanced();
            let fragment = self.block(title, &style, inner.width, how, Align::Start, role);
            slabs.push(Slab {
                fragment,
                after: self.sheet.grown(UNDER_TITLE),
                keep_next: true,
                ..Slab::default()
            });
        }
        slabs.extend(self.blocks(blocks, inner));
        let space = self.sheet.grown(SPACE);
        let frame = Frame { width, pad, sign_room, colour: self.callout_colour(kind), kind };
        if height(&slabs) + pad * 2.0 <= slot.room * 0.6 {
            let content = stack(slabs);
            let boxed = self.boxed(content, &frame);
            return vec![Slab::spaced(boxed, space)];
        }
        self.open_callout(title, slabs, &frame, space)
    }

    fn callout_colour(&self, kind: CalloutKind) -> Colour {
        match kind {
            CalloutKind::Note | CalloutKind::Check => self.sheet.accent,
            CalloutKind::Caution => self.sheet.caution,
        }
    }

    /// A callout that runs over pages: every slab has its own length of ground and rule, and pages further on say what
    /// goes on there.
    fn open_callout(&mut self, title: &Text, slabs: Vec<Slab>, frame: &Frame, space: Mm) -> Vec<Slab> {
        let &Frame { width, pad, sign_room, colour, kind } = frame;
        let last = slabs.len().saturating_sub(1);
        let goes_on = (!title.0.is_empty()).then(|| Arc::new(self.callout_goes_on(title, frame)));
        let mut open = Vec::new();
        let mut gap = pad * 0.6;
        for (i, slab) in slabs.into_iter().enumerate() {
            let below = if i == last { pad * 0.6 } else { slab.after };
            let mut piece = Fragment { height: gap + slab.fragment.height + below, ..Fragment::default() };
            self.ground(&mut piece, width, colour);
            if i == 0 {
                let at = Point { x: pad, y: gap + self.sheet.body.leading / 2.0 };
                self.sign(&mut piece, kind, at, colour);
            }
            piece.absorb(slab.fragment, pad + sign_room, gap);
            open.push(Slab {
                fragment: piece,
                before: if i == 0 { space } else { Mm::ZERO },
                after: if i == last { space } else { Mm::ZERO },
                keep_next: slab.keep_next && i < last,
                // It rather parts between what it lists than within.
                tie: if slab.tie > 0.0 && i < last { WITHIN } else { 0.0 },
                repeat: slab.repeat.or_else(|| goes_on.clone().filter(|_| i > 0)),
                ..Slab::default()
            });
            gap = Mm::ZERO;
        }
        open
    }

    /// `Before you bead, continued`, on the same ground: no content, the callout has its title.
    fn callout_goes_on(&mut self, title: &Text, frame: &Frame) -> Fragment {
        let style = self.sheet.cell;
        let room = frame.width - frame.pad * 2.0 - frame.sign_room;
        let words = self.goes_on_words(&title.words(), room);
        let down = frame.pad * 0.6;
        let mut piece = Fragment { height: style.leading + down * 2.0, ..Fragment::default() };
        self.ground(&mut piece, frame.width, frame.colour);
        piece.absorb(words, frame.pad + frame.sign_room, down);
        piece
    }

    fn boxed(&self, content: Fragment, frame: &Frame) -> Fragment {
        let &Frame { width, pad, sign_room, colour, kind } = frame;
        let mut piece = Fragment { height: content.height + pad * 1.5, ..Fragment::default() };
        self.ground(&mut piece, width, colour);
        let at = Point { x: pad, y: pad * 0.75 + self.sheet.body.leading / 2.0 };
        self.sign(&mut piece, kind, at, colour);
        piece.absorb(content, pad + sign_room, pad * 0.75);
        piece
    }

    fn ground(&self, piece: &mut Fragment, width: Mm, colour: Colour) {
        let height = piece.height;
        self.on_tint(piece, Mm::ZERO, Mm::ZERO, width, height);
        piece.rule(filled(Mm::ZERO, Mm::ZERO, BAR, height, colour));
    }

    /// A sign: a dot in a ring for a note, a tick for a check, a triangle for a caution.
    fn sign(&self, piece: &mut Fragment, kind: CalloutKind, at: Point, colour: Colour) {
        let r = self.sheet.body.size.mm() * 0.55;
        let p = |dx: f64, dy: f64| Point { x: at.x + r * (1.0 + dx), y: at.y + r * dy };
        let pen = |colour| Stroke { colour, width: r * 0.2, dash: Vec::new(), round: true };
        let line = |points: &[Point]| {
            let step = |(i, &p): (usize, &Point)| if i == 0 { Segment::Move(p) } else { Segment::Line(p) };
            points.iter().enumerate().map(step).collect::<Vec<_>>()
        };
        match kind {
            CalloutKind::Note => {
                piece.rule(Path { segments: circle(p(0.0, 0.0), r), fill: None, stroke: Some(pen(colour)) });
                piece.rule(Path { segments: circle(p(0.0, 0.0), r * 0.3), fill: Some(colour), stroke: None });
            }
            CalloutKind::Check => {
                let tick = line(&[p(-0.85, 0.05), p(-0.25, 0.7), p(0.95, -0.75)]);
                let stroke = Stroke { width: r * 0.3, ..pen(colour) };
                piece.rule(Path { segments: tick, fill: None, stroke: Some(stroke) });
            }
            CalloutKind::Caution => {
                let mut triangle = line(&[p(0.0, -1.0), p(1.05, 0.85), p(-1.05, 0.85)]);
                triangle.push(Segment::Close);
                piece.rule(Path { segments: triangle, fill: Some(colour), stroke: Some(pen(colour)) });
                let bar = line(&[p(0.0, -0.4), p(0.0, 0.2)]);
                piece.rule(Path { segments: bar, fill: None, stroke: Some(pen(Colour::WHITE)) });
                let dot = circle(p(0.0, 0.56), r * 0.11);
                piece.rule(Path { segments: dot, fill: Some(Colour::WHITE), stroke: None });
            }
        }
    }
}
