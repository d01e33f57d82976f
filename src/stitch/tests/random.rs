//! Random earrings.

use super::sample::{Sample, strand};
use crate::colour::Colour;
use crate::design::{Hang, LetterId, Side, Stack};
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
            sample.hang = hang;
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
            sample
        },
    )
}
