//! Lists of what is to be found in a tablet edition: entries in two columns, each as high as a finger is wide.

use super::fragment::{Fragment, LinkTo, OpenLink, Slab};
use super::setter::{Setter, baseline};
use super::{NodeId, Role};
use crate::booklet::{Button, Text};
use crate::drawn::{Align, Face};
use crate::layout::setter::Ink;
use crate::units::{Mm, Point, Size};

/// Between the two columns; grows with the type.
const APART: Mm = Mm(8.0);
/// Least height of an entry: two thirds of a finger's width, as entries are wide.
pub(super) const LEAST: Mm = Mm(8.0);

impl Setter<'_> {
    /// Width of one of the columns.
    pub(super) fn index_column(&self, width: Mm) -> Mm {
        (width - self.sheet.grown(APART)) / 2.0
    }

    /// Entries down the first column, then down the second.
    pub(super) fn in_two_columns(&self, entries: Vec<Fragment>, width: Mm) -> Vec<Slab> {
        let rows = entries.len().div_ceil(2);
        let second = self.index_column(width) + self.sheet.grown(APART);
        let mut pieces: Vec<Fragment> = (0..rows).map(|_| Fragment::default()).collect();
        for (i, entry) in entries.into_iter().enumerate() {
            let (row, x) = if i < rows { (i, Mm::ZERO) } else { (i - rows, second) };
            pieces[row].height = pieces[row].height.max(entry.height);
            pieces[row].absorb(entry, x, Mm::ZERO);
        }
        pieces.into_iter().map(|fragment| Slab { fragment, ..Slab::default() }).collect()
    }

    /// What leads to places, each with its number.
    pub(super) fn index(&mut self, entries: &[Button], width: Mm, parent: NodeId) -> Vec<Slab> {
        let column = self.index_column(width);
        let style = self.sheet.cell;
        let widest = format!("{} ", entries.len());
        let indent = self.shaper.width(Face::Bold, &widest, style.size) + style.size.mm() * 0.4;
        let how = self.plain();
        let list = self.tree.add(parent, Role::List { numbered: true });
        let mut set = Vec::new();
        for (i, Button { words, to }) in entries.iter().enumerate() {
            let item = self.tree.add(list, Role::ListItem);
            let label = self.tree.add(item, Role::ListLabel);
            let body = self.tree.add(item, Role::ListBody);
            let link = self.tree.add(body, Role::Link);
            let told = self.block(&Text::plain(words), &style, column - indent, how, Align::Start, link);
            let high = told.height.max(LEAST);
            let mut piece = Fragment { height: high, ..Fragment::default() };
            let y = (high - told.height) / 2.0;
            let ink = Ink { face: Face::Bold, size: style.size, colour: self.sheet.accent_text };
            let at = Point { x: Mm::ZERO, y: y + baseline(&style) };
            piece.items.extend(self.label(ink, &(i + 1).to_string(), at, Align::Start, label));
            piece.absorb(told, indent, y);
            piece.links.push(OpenLink {
                at: Point::default(),
                size: Size { width: column, height: high },
                to: LinkTo::Place(*to),
                node: link,
                alt: words.clone(),
            });
            set.push(piece);
        }
        self.in_two_columns(set, width)
    }
}
