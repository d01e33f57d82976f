//! What would be bought for nothing: letters and packs that are never used.

use super::naming;
use crate::design::{BeadId, Design};
use crate::diagnostic::Problem;
use crate::tally::count::packs_for;
use crate::tally::{BeadCount, Tally};
use crate::units::Grams;

pub(super) fn advise(design: &Design, tally: &Tally) -> Vec<Problem> {
    let unused = tally.beads.iter().filter(|count| count.one == 0);
    let mut advice: Vec<Problem> = unused.map(|count| unused_letter(design, tally, count)).collect();
    advice.extend(tally.beads.iter().filter_map(|count| unopened_pack(design, tally, count)));
    advice
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

/// A last pack that only the spare beads would open: reported at the letter that carries the packs.
fn unopened_pack(design: &Design, tally: &Tally, count: &BeadCount) -> Option<Problem> {
    let pack = design.palette.beads[count.bead.0].pack?;
    let packs = count.packs.filter(|packs| *packs > 1)?;
    let used = without_spare(design, tally, count.bead);
    (packs_for(used, pack.grams)? < packs).then(|| {
        Problem::advice(format!(
            "only the spare beads of {} open pack {packs}: the pair takes {:.1} g, and {} packs hold {:.1} g",
            naming::letter(design, count.letter),
            used.0,
            packs - 1,
            pack.grams.0 * f64::from(packs - 1)
        ))
        .at(design.letters[count.letter.0].place.clone())
        .hint("use a few beads less of it and save the customer a pack")
    })
}

fn without_spare(design: &Design, tally: &Tally, bead: BeadId) -> Grams {
    let pair: usize = tally.beads.iter().filter(|c| c.bead == bead).map(|c| c.pair).sum();
    Grams(pair as f64 / design.palette.beads[bead.0].per_gram)
}
