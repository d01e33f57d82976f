//! Photographs on pages of their own: in rows as wide as the page, those side by side of one height, so that nothing is
//! cut off and nothing stands askew.

use super::blocks::Slot;
use super::fragment::{Fragment, Slab};
use super::measures::{FIGURE_SPACE, FIGURES_APART};
use super::setter::Setter;
use crate::booklet::Figure;
use crate::units::{Mm, Size};

/// Height that rows come near, as a share of a page's: two of them with their captions fill one.
const WANTED: f64 = 0.4;
/// Most of a page's height that a row may take: its captions need room too.
const MOST: f64 = 0.8;
/// Most photographs side by side.
const ABREAST: usize = 3;

impl Setter<'_> {
    /// Photographs in rows.
    pub fn pictures(&mut self, figures: &[Figure], slot: Slot) -> Vec<Slab> {
        let gap = self.sheet.grown(FIGURES_APART);
        let shapes: Vec<f64> = figures.iter().map(|figure| shape(figure.drawing.size)).collect();
        let rows = rows(&shapes, slot.width, gap, slot.room);
        let mut slabs = Vec::new();
        let mut rest = figures;
        for (count, height) in rows {
            let (row, others) = rest.split_at(count);
            rest = others;
            let piece = match row {
                // One that cannot be as wide as the page has its words at its side, if there is room.
                [one] if shape(one.drawing.size) * height.0 < slot.width.0 * 0.6 => {
                    let one = sized(one, height);
                    self.figure_with_words(&one, slot.width, slot.room, slot.parent).fragment
                }
                row => {
                    let mut piece = Fragment::default();
                    let mut x = Mm::ZERO;
                    for figure in row {
                        let figure = sized(figure, height);
                        let width = figure.drawing.size.width;
                        let set = self.figure(&figure, width, slot.room, slot.parent);
                        piece.height = piece.height.max(set.height);
                        piece.absorb(set, x, Mm::ZERO);
                        x += width + gap;
                    }
                    piece
                }
            };
            slabs.push(Slab::spaced(piece, self.sheet.grown(FIGURE_SPACE)));
        }
        slabs
    }
}

/// Width by height.
fn shape(size: Size) -> f64 {
    size.width / size.height
}

/// A figure of this height.
fn sized(figure: &Figure, height: Mm) -> Figure {
    let mut figure = figure.clone();
    figure.drawing = figure.drawing.scaled(height / figure.drawing.size.height);
    figure
}

/// How many stand in each row, and how high it is: the rows that come nearest to the wanted height, by the square of how
/// far the logarithms are apart (as lines of a paragraph are broken by Knuth and Plass).
fn rows(shapes: &[f64], width: Mm, gap: Mm, room: Mm) -> Vec<(usize, Mm)> {
    let height = |row: &[f64]| {
        let spread = (width - gap * (row.len() - 1) as f64) / row.iter().sum::<f64>();
        spread.min(room * MOST)
    };
    let cost = |row: &[f64]| (height(row) / (room * WANTED)).ln().powi(2);
    // Least cost of the first so many, and how many stand in the last row of them.
    let mut best = vec![(0.0, 0)];
    for end in 1..=shapes.len() {
        let ways = (1..=ABREAST.min(end)).map(|count| {
            let before: f64 = best[end - count].0;
            (before + cost(&shapes[end - count..end]), count)
        });
        let least = ways.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((0.0, 1));
        best.push(least);
    }
    let mut rows = Vec::new();
    let mut end = shapes.len();
    while end > 0 {
        let count = best[end].1;
        rows.push((count, height(&shapes[end - count..end])));
        end -= count;
    }
    rows.reverse();
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDTH: Mm = Mm(170.0);
    const GAP: Mm = Mm(6.0);
    const ROOM: Mm = Mm(245.0);

    fn counts(shapes: &[f64]) -> Vec<usize> {
        rows(shapes, WIDTH, GAP, ROOM).into_iter().map(|(count, _)| count).collect()
    }

    #[test]
    fn rows_are_as_wide_as_the_page_and_of_one_height() {
        for shapes in [vec![1.5, 1.5], vec![0.67, 0.67, 1.5], vec![1.0; 7], vec![0.75, 1.33, 1.33, 0.75]] {
            let mut at = 0;
            for (count, height) in rows(&shapes, WIDTH, GAP, ROOM) {
                let wide = height * shapes[at..at + count].iter().sum::<f64>() + GAP * (count - 1) as f64;
                at += count;
                let fills = (wide.0 - WIDTH.0).abs() < 0.01;
                assert!(fills || height.0 >= ROOM.0 * MOST - 0.01, "{shapes:?}: {wide:?}");
                assert!(height <= ROOM);
            }
            assert_eq!(at, shapes.len());
        }
    }

    #[test]
    fn upright_ones_stand_side_by_side_and_wide_ones_below_each_other() {
        assert_eq!(counts(&[1.5, 1.5]), [1, 1]);
        assert_eq!(counts(&[0.67, 0.67]), [2]);
        assert_eq!(counts(&[1.5, 0.67, 0.67]), [1, 2]);
        assert_eq!(counts(&[0.5]), [1]);
        assert_eq!(counts(&[]), [] as [usize; 0]);
    }
}
