//! Things to press: words in boxes of like size, side by side.

use super::fragment::{Fragment, Slab, stroked};
use super::measures::TABLE_SPACE;
use super::setter::{Ink, Linked, Setter};
use super::{NodeId, Role};
use crate::booklet::Button;
use crate::drawn::{Align, Face};
use crate::layout::faces::cap_height;
use crate::units::{Mm, Point, Size};

/// Least width and height of a box: a finger's width (WCAG 2.2, 2.5.5: 44 CSS pixels, 11.6 mm).
const LEAST: Mm = Mm(11.6);
/// Between boxes.
const APART: Mm = Mm(2.4);
/// White round the words, in ems.
const ROUND: f64 = 1.0;
/// Pen of the boxes.
const PEN: Mm = Mm(0.25);

impl Setter<'_> {
    /// The boxes in rows as wide as the column, a slab each.
    pub fn buttons(&mut self, buttons: &[Button], width: Mm, parent: NodeId) -> Vec<Slab> {
        let style = self.sheet.heading(3);
        let em = style.size.mm();
        let widest = buttons.iter().map(|b| self.shaper.width(Face::Bold, &b.words, style.size));
        let wide = (widest.fold(Mm::ZERO, Mm::max) + em * ROUND).max(LEAST);
        let high = LEAST.max(style.leading);
        let abreast = (((width + APART) / (wide + APART)).floor() as usize).max(1);
        let mut slabs = Vec::new();
        for row in buttons.chunks(abreast) {
            let node = self.tree.add(parent, Role::Paragraph);
            let mut piece = Fragment { height: high, ..Fragment::default() };
            for (i, button) in row.iter().enumerate() {
                let at = Point { x: (wide + APART) * i as f64, y: Mm::ZERO };
                let size = Size { width: wide, height: high };
                piece.rule(stroked(at.x, at.y, wide, high, self.sheet.accent_text, PEN));
                let link = self.tree.add(node, Role::Link);
                let linked = Linked { to: button.to, here: None, said: &button.words };
                self.number_link(&mut piece, link, (at, size), linked);
                let ink = Ink { face: Face::Bold, size: style.size, colour: self.sheet.accent_text };
                let middle = high / 2.0 + cap_height(Face::Bold, style.size) / 2.0;
                let foot = Point { x: at.x + wide / 2.0, y: middle };
                piece.items.extend(self.label(ink, &button.words, foot, Align::Middle, link));
            }
            slabs.push(Slab { fragment: piece, before: APART, after: APART, ..Slab::default() });
        }
        if let Some(last) = slabs.last_mut() {
            last.after = self.sheet.grown(TABLE_SPACE);
        }
        slabs
    }
}
