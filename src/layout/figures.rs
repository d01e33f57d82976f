//! Figures: a drawing with its caption below, alone or side by side.

use super::fragment::{Fragment, Slab};
use super::setter::Setter;
use super::{NodeId, Role};
use crate::booklet::Figure;
use crate::booklet::drawing::Align;
use crate::units::Mm;

impl Setter<'_> {
    /// A figure set into a column: scaled down where it is too wide or too high, unless its size means something.
    /// Gives the piece and the width it takes.
    pub fn figure(&mut self, figure: &Figure, width: Mm, room: Mm, parent: NodeId) -> (Fragment, Mm) {
        let size = figure.drawing.size;
        let has_caption = !figure.caption.0.is_empty();
        let caption_room = if has_caption { self.sheet.small.leading * 3.0 } else { Mm::ZERO };
        let fits = (width / size.width).min((room - caption_room).max(Mm(20.0)) / size.height).min(1.0);
        let scale = if figure.drawing.true_size || !fits.is_finite() { 1.0 } else { fits };
        let drawn_width = size.width * scale;
        let node = self.tree.add(parent, Role::Figure { alt: figure.alt.clone() });
        let mut piece = self.picture(&figure.drawing, scale, node);
        if has_caption {
            let caption = self.tree.add(node, Role::Caption);
            let style = self.sheet.small;
            let how = self.plain();
            let measure = width.min(drawn_width.max(style.size.mm() * 16.0));
            let words = self.block(&figure.caption, &style, measure, how, Align::Start, caption);
            let y = piece.height + self.sheet.grown(1.8);
            piece.height = y + words.height;
            piece.absorb(words, Mm::ZERO, y);
            return (piece, measure.max(drawn_width));
        }
        (piece, drawn_width)
    }

    /// A figure alone.
    pub fn figure_slab(&mut self, figure: &Figure, width: Mm, room: Mm, parent: NodeId) -> Slab {
        let (piece, _) = self.figure(figure, width, room, parent);
        Slab::spaced(piece, self.sheet.grown(4.5))
    }

    /// Figures side by side, as many as fit, in columns of like width.
    pub fn figure_rows(&mut self, figures: &[Figure], width: Mm, room: Mm, parent: NodeId) -> Vec<Slab> {
        let gap = self.sheet.grown(7.0);
        let widest = figures.iter().map(|f| f.drawing.size.width).fold(Mm(1.0), Mm::max).min(width);
        let caption_least = self.sheet.small.size.mm() * 13.0;
        let cell = widest.max(caption_least).min(width);
        let fits = (((width + gap) / (cell + gap)).floor() as usize).clamp(1, figures.len().max(1));
        // Even rows look better than a full one and a rest: 4 of 5 and 1 become 3 and 2.
        let rows = figures.len().div_ceil(fits);
        let columns = figures.len().div_ceil(rows.max(1)).max(1);
        let column = (width + gap) / columns as f64 - gap;
        let mut slabs = Vec::new();
        for row in figures.chunks(columns) {
            let mut piece = Fragment::default();
            let set: Vec<Fragment> = row.iter().map(|f| self.figure(f, column, room, parent).0).collect();
            for (i, figure) in set.into_iter().enumerate() {
                piece.height = piece.height.max(figure.height);
                piece.absorb(figure, (column + gap) * i as f64, Mm::ZERO);
            }
            slabs.push(Slab::spaced(piece, self.sheet.grown(4.5)));
        }
        slabs
    }
}
