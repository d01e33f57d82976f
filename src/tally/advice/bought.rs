//! What would be bought for nothing: letters and packs that are never used.

use super::{gathered, naming};
use crate::design::{BeadId, Design};
use crate::diagnostic::Problem;
use crate::tally::count::packs_for;
use crate::tally::{BeadCount, Tally};
use crate::units::Grams;

pub(super) fn advise(design: &Design, tally: &Tally) -> Vec<Problem> {
    let unused: Vec<&BeadCount> = tally.beads.iter().filter(|count| count.one == 0).collect();
    let mut advice = if unused.len() <= gathered::TOLD_APART {
        unused.iter().map(|count| unused_letter(design, tally, count)).collect()
    } else {
        vec![unused_letters(design, &unused)]
    };
    let opened: Vec<(&BeadCount, Opened)> = tally
        .beads
        .iter()
        .filter_map(|count| Some((count, opened_by_spare(design, tally, count)?)))
        .collect();
    if opened.len() <= gathered::TOLD_APART {
        advice.extend(opened.iter().map(|(count, opened)| unopened_pack(design, count, opened)));
    } else {
        advice.push(unopened_packs(design, &opened));
    }
    advice
}

fn unused_letters(design: &Design, unused: &[&BeadCount]) -> Problem {
    let names = unused.iter().map(|count| naming::letter(design, count.letter));
    Problem::advice(format!(
        "{} letters are never used, nor the packs of their beads: {}",
        unused.len(),
        gathered::list(names)
    ))
    .at(design.letters[unused[0].letter.0].place.clone())
    .hint("use them in the picture or the strands, or take them out of `colours`")
}

fn unused_letter(design: &Design, tally: &Tally, count: &BeadCount) -> Problem {
    let named = naming::letter(design, count.letter);
    let pack = design.palette.beads[count.bead.0].pack;
    let elsewhere = tally.beads.iter().any(|c| c.bead == count.bead && c.one > 0);
    let message = match pack {
        Some(pack) if !elsewhere => {
            format!("{named} is never used, nor the pack of {} g that it is sold in", pack.grams.0)
        }
        _ => format!("{named} is never used"),
    };
    Problem::advice(message)
        .at(design.letters[count.letter.0].place.clone())
        .hint("use the letter in the picture or the strands, or take it out of `colours`")
}

/// A last pack that only the spare beads would open.
struct Opened {
    /// Which one it is.
    pack: u32,
    /// What each holds.
    holds: Grams,
    /// What the pair takes without spare.
    used: Grams,
}

/// Found at the letter that carries the packs.
fn opened_by_spare(design: &Design, tally: &Tally, count: &BeadCount) -> Option<Opened> {
    let holds = design.palette.beads[count.bead.0].pack?.grams;
    let pack = count.packs.filter(|packs| *packs > 1)?;
    let used = without_spare(design, tally, count.bead);
    (packs_for(used, holds)? < pack).then_some(Opened { pack, holds, used })
}

fn unopened_pack(design: &Design, count: &BeadCount, opened: &Opened) -> Problem {
    let Opened { pack, holds, used } = opened;
    Problem::advice(format!(
        "only the spare beads of {} open pack {pack}: the pair takes {:.1} g, and {} packs hold {:.1} g",
        naming::letter(design, count.letter),
        used.0,
        pack - 1,
        holds.0 * f64::from(pack - 1)
    ))
    .at(design.letters[count.letter.0].place.clone())
    .hint("use a few beads less of it and save the customer a pack")
}

fn unopened_packs(design: &Design, opened: &[(&BeadCount, Opened)]) -> Problem {
    let names = opened.iter().map(|(count, _)| naming::letter(design, count.letter));
    Problem::advice(format!(
        "only the spare beads open the last pack of {} beads: {}",
        opened.len(),
        gathered::list(names)
    ))
    .at(design.letters[opened[0].0.letter.0].place.clone())
    .hint("use a few beads less of each and save the customer the packs")
}

fn without_spare(design: &Design, tally: &Tally, bead: BeadId) -> Grams {
    let pair: usize = tally.beads.iter().filter(|c| c.bead == bead).map(|c| c.pair).sum();
    Grams(pair as f64 / design.palette.beads[bead.0].per_gram)
}
