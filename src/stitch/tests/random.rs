//! Random earrings.

use super::sample::{Sample, strand};
use crate::colour::Colour;
use crate::design::{Hang, Hanging, LetterId, Side, Stack};
use crate::units::Mm;
use proptest::prelude::*;

/// Letters in use.
pub const LETTERS: usize = 5;

fn any_letter() -> impl Strategy<Value = LetterId> {
    (0..LETTERS).prop_map(LetterId)
}

/// Drop 1 to 3, 2 to 40 stacks wide, narrowing to any top.
pub fn body() -> impl Strategy<Value = Sample> {
    (1usize..=3, 2usize..=40)
        .prop_flat_map(|(drop, width)| (Just(drop), Just(width), 1..=width))
        .prop_flat_map(|(drop, width, top)| {
            let beads: usize = (top..=width).sum::<usize>() * drop;
            (Just((drop, width, top)), proptest::collection::vec(any_letter(), beads))
        })
        .prop_map(|((drop, width, top), letters)| {
            let mut stacks = letters.chunks(drop).map(|s| Stack(s.to_vec()));
            let row = |m| stacks.by_ref().take(m).collect();
            Sample::of_stacks((top..=width).rev().map(row).collect())
        })
}

/// A body of any shape that brick stitch allows: rows above and below the foundation, each moved in or out at both
/// sides.
pub fn shape() -> impl Strategy<Value = Sample> {
    let moves = || proptest::collection::vec((0usize..20, 0usize..20), 0..6);
    let start = (1usize..=3, 2usize..=40, moves(), moves(), any::<bool>());
    start
        .prop_flat_map(|(drop, width, above, below, right)| {
            let foundation = (200, 200 + 2 * width);
            let rows_above = rows_on(foundation, &above);
            let rows_below = rows_on(foundation, &below);
            let rows: Vec<(usize, usize)> =
                [foundation].into_iter().chain(rows_above.clone()).chain(rows_below).collect();
            let beads: usize = rows.iter().map(|(left, right)| (right - left) / 2 * drop).sum();
            let letters = proptest::collection::vec(any_letter(), beads);
            (Just((drop, rows, rows_above.len() + 1, right)), letters)
        })
        .prop_map(|((drop, rows, above, right), letters)| {
            let mut stacks = letters.chunks(drop).map(|s| Stack(s.to_vec()));
            let row =
                |(left, right): (usize, usize)| (left, stacks.by_ref().take((right - left) / 2).collect());
            let mut sample = Sample::of_leads(rows.into_iter().map(row).collect(), above);
            sample.start = if right { Side::Right } else { Side::Left };
            // Now and then hung from stacks of its own choice.
            let top = sample.body.top_row().stacks.len();
            if top > 3 && drop == 2 {
                sample.hangings[0].on = Some([2, top - 1 - usize::from(right)]);
            }
            // Or from two places.
            if top > 5 && drop == 3 {
                let ring = Hanging { by: Hang::Loop(vec![LetterId(0); 7]), on: Some([top - 2, top]) };
                sample.hangings = vec![Hanging { on: Some([1, 3]), ..Hanging::guard() }, ring];
            }
            sample
        })
}

/// Half stacks by which an edge moves outwards, the usual ones more often.
const MOVES: [isize; 20] = [-1, -1, -1, -1, -1, -1, -1, -1, 1, 1, 1, 1, 1, 1, 1, -3, -3, 3, -5, 5];

/// Rows on a foundation, as far as they can be worked.
fn rows_on(foundation: (usize, usize), moves: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let mut rows = Vec::new();
    let (mut left, mut right) = foundation;
    for (at_left, at_right) in moves {
        let there = left.checked_add_signed(-MOVES[*at_left]).zip(right.checked_add_signed(MOVES[*at_right]));
        let Some((l, r)) = there else { continue };
        // A stack over a bridge: between the middles of the outer stacks of the row that it lies on.
        let stacks_over =
            (l..r).step_by(2).filter(|column| (left + 1..=right.saturating_sub(3)).contains(column));
        if r > l && stacks_over.count() > 0 {
            rows.push((l, r));
            (left, right) = (l, r);
        }
    }
    rows
}

/// A whole earring; all its beads are of one size, so that lengths have a formula.
pub fn earring() -> impl Strategy<Value = Sample> {
    let strands = proptest::collection::vec((proptest::collection::vec(any_letter(), 1..40), 1usize..4), 40);
    let hang = prop_oneof![
        Just(Hang::ThreadGuard),
        proptest::collection::vec(any_letter(), 1..20).prop_map(Hang::Loop)
    ];
    let colours = proptest::collection::vec(any::<(u8, u8, u8)>(), LETTERS + 2);
    let size = (8u32..40, 8u32..40);
    (body(), strands, hang, colours, size, any::<bool>()).prop_map(
        |(mut sample, strands, hang, colours, (width, length), right)| {
            let stacks = sample.body.rows[0].stacks.len();
            sample.strands = strands
                .into_iter()
                .take(stacks)
                .map(|(b, turn)| strand(b.clone(), turn.min(b.len())))
                .collect();
            sample.hangings[0].by = hang;
            sample.start = if right { Side::Right } else { Side::Left };
            let colours: Vec<Colour> = colours.into_iter().map(|(r, g, b)| Colour::new(r, g, b)).collect();
            for (bead, &colour) in sample.beads.iter_mut().zip(&colours) {
                bead.colour = colour;
            }
            for bead in &mut sample.beads {
                bead.width = Mm(f64::from(width) / 10.0);
                bead.length = Mm(f64::from(length) / 10.0);
            }
            sample.body_thread.colour = colours[LETTERS];
            sample.fringe_thread.colour = colours[LETTERS + 1];
            sample.hung_on_the_foundation()
        },
    )
}
