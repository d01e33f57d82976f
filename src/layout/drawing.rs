//! A drawing on a page: its marks at a scale.

use super::faces::cap_height;
use super::fragment::Fragment;
use super::setter::{Ink, Setter};
use super::shadow::shadow;
use super::tree::within;
use super::{Bead, Item, NodeId, Paint, Path, PlacedImage};
use crate::colour::Colour;
use crate::drawn::{BeadLook, Drawing, FADED, Face, LabelMark, Mark, Stroke};
use crate::images::Image;
use crate::units::{Mm, Point, Pt, Size};
use std::sync::Arc;

/// Thinnest line that prints well on home printers: common practice, no source.
const THINNEST: Mm = Mm(0.08);
/// How far a bead of a bench copy's chart is mixed with white.
const BENCH_PALE: f64 = 0.6;

impl Setter<'_> {
    /// A drawing at a scale, as a piece of its own size.
    pub fn drawing(&mut self, drawing: &Drawing, scale: f64, node: NodeId) -> Fragment {
        self.drawing_on(Some(Colour::WHITE), drawing, scale, node)
    }

    /// The same on a ground of this colour, as printed; where there is none, no shadow falls.
    pub fn drawing_on(
        &mut self,
        ground: Option<Colour>,
        drawing: &Drawing,
        scale: f64,
        node: NodeId,
    ) -> Fragment {
        let mut piece = Fragment { height: drawing.size.height * scale, ..Fragment::default() };
        for mark in &drawing.marks {
            match mark {
                Mark::Bead(b) => {
                    let colour = self.printed(b.colour);
                    let faded = b.look == BeadLook::Faded;
                    let bead = Bead {
                        centre: scaled(b.centre, scale),
                        width: b.width * scale,
                        length: b.length * scale,
                        shape: b.shape,
                        colour: if faded { colour.mix(Colour::WHITE, FADED) } else { colour },
                        turned: b.turned,
                        look: b.look,
                        pattern: None,
                    };
                    piece.items.push(Item { standing: within(node), layer: None, paint: Paint::Bead(bead) });
                }
                Mark::Path(p) => {
                    let path = Path {
                        segments: p.segments.iter().map(|s| s.map(|at| scaled(at, scale))).collect(),
                        fill: p.fill.map(|c| self.printed(c)),
                        stroke: p.stroke.as_ref().map(|s| Stroke {
                            colour: self.printed(s.colour),
                            width: (s.width * scale).max(THINNEST.min(s.width)),
                            dash: s.dash.iter().map(|d| *d * scale).collect(),
                            round: s.round,
                        }),
                    };
                    piece.path(node, None, path);
                }
                Mark::Photograph(mark) => {
                    let size = Size { width: mark.size.width * scale, height: mark.size.height * scale };
                    piece.items.push(self.placed(&mark.image, scaled(mark.at, scale), size, node));
                }
                Mark::Shadow(mark) => {
                    let paths = ground.into_iter().flat_map(|ground| shadow(mark, ground, scale));
                    paths.for_each(|path| piece.path(node, None, path));
                }
                Mark::Label(label) => {
                    let size = self.label_size(label, scale);
                    piece.items.extend(self.drawn_label(label, scale, size, node));
                }
            }
        }
        piece
    }

    /// A label's size at a scale: never under the least.
    fn label_size(&self, mark: &LabelMark, scale: f64) -> Pt {
        let on_bead = mark.face == Face::Letters;
        (mark.size * scale).max(if on_bead { self.sheet.least_letter } else { self.sheet.least })
    }

    fn drawn_label(&mut self, mark: &LabelMark, scale: f64, size: Pt, node: NodeId) -> Vec<Item> {
        let mut at = scaled(mark.at, scale);
        if mark.middle {
            at.y += cap_height(mark.face, size) / 2.0;
        }
        let colour = self.printed(mark.colour);
        let halo = mark.halo.map(|c| (self.printed(c), size.mm() * 0.22));
        let mut items = self.label(Ink { face: mark.face, size, colour }, &mark.text, at, mark.align, node);
        for item in &mut items {
            if let Paint::Glyphs(glyphs) = &mut item.paint {
                glyphs.halo = halo;
            }
        }
        items
    }

    /// An image in a box; grey where this booklet is.
    pub fn placed(&self, image: &Image, at: Point, size: Size, node: NodeId) -> Item {
        let grey = self.booklet.setting.grey;
        let paint = Paint::Image(PlacedImage { at, size, grey, image: Arc::new(image.clone()) });
        Item { standing: within(node), layer: None, paint }
    }

    /// A bead's colour on a chart: pale on a bench copy, which is to take little ink.
    pub fn chart_colour(&self, colour: Colour) -> Colour {
        let printed = self.printed(colour);
        if self.booklet.setting.bench { printed.mix(Colour::WHITE, BENCH_PALE) } else { printed }
    }

    /// A colour as this booklet prints it: grey where that is asked for.
    pub fn printed(&self, colour: Colour) -> Colour {
        if self.booklet.setting.grey { colour.grey() } else { colour }
    }
}

pub(super) fn scaled(p: Point, scale: f64) -> Point {
    Point { x: p.x * scale, y: p.y * scale }
}
