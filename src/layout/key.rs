//! A key: signs, each with what it means at its right, in columns.

use super::NodeId;
use super::fragment::{Fragment, Slab};
use super::measures::FIGURES_APART;
use super::setter::Setter;
use crate::booklet::Figure;
use crate::units::Mm;

/// Between a sign and its words, and between two signs one above the other; grow with the type.
const WORDS_APART: Mm = Mm(2.5);
const ROWS_APART: Mm = Mm(0.9);
/// Least room for the words of a sign, in ems.
const LEAST_WORDS: f64 = 10.0;
/// Above and below a key; grows with the type.
const SPACE: Mm = Mm(2.0);

impl Setter<'_> {
    /// Signs in as many columns as the width has room for, read from row to row.
    pub fn key(&mut self, signs: &[Figure], width: Mm, room: Mm, parent: NodeId) -> Vec<Slab> {
        let gap = self.sheet.grown(FIGURES_APART);
        let apart = self.sheet.grown(WORDS_APART);
        let sign = signs.iter().map(|sign| self.figure_width(sign)).fold(Mm::ZERO, Mm::max).min(width / 3.0);
        let cell = sign + apart + self.sheet.small.size.mm() * LEAST_WORDS;
        let most = (((width + gap) / (cell + gap)).floor() as usize).clamp(1, signs.len().max(1));
        // Even rows, not full ones and a rest.
        let columns = signs.len().div_ceil(signs.len().div_ceil(most).max(1)).max(1);
        let column = (width + gap) / columns as f64 - gap;
        let space = self.sheet.grown(SPACE);
        let between = self.sheet.grown(ROWS_APART);
        let mut slabs = Vec::new();
        for row in signs.chunks(columns) {
            let mut piece = Fragment::default();
            let set: Vec<(Fragment, Fragment)> = row
                .iter()
                .map(|figure| self.figure_apart(figure, sign, room, column - sign - apart, parent))
                .collect();
            let heights = set.iter().map(|(drawn, words)| drawn.height.max(words.height));
            piece.height = heights.fold(Mm::ZERO, Mm::max);
            for (i, (drawn, words)) in set.into_iter().enumerate() {
                let x = (column + gap) * i as f64;
                let middle = |fragment: &Fragment| (piece.height - fragment.height) / 2.0;
                let (drawn_y, words_y) = (middle(&drawn), middle(&words));
                piece.absorb(drawn, x, drawn_y);
                piece.absorb(words, x + sign + apart, words_y);
            }
            slabs.push(Slab { keep_next: true, ..Slab::spaced(piece, between) });
        }
        if let Some(first) = slabs.first_mut() {
            first.before = space;
        }
        if let Some(last) = slabs.last_mut() {
            last.after = space;
            last.keep_next = false;
        }
        slabs
    }
}
