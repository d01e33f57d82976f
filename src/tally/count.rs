//! Counting: beads, grams, packs, thread, findings and cost of one design.

use super::prices::prices;
use super::{BeadCount, FindingCount, FinishedSize, Tally, ThreadCount, fit};
use crate::design::{BeadId, Design, LetterId, Thread};
use crate::stitch::{self, ThreadUse, Work};
use crate::units::{Grams, Mm};

/// Earrings in a pair.
const PAIR: usize = 2;
/// A pack or spool that is overdrawn by less than this share of it is still enough: it only hides
/// the rounding of floating-point sums.
const ROUNDING: f64 = 1e-9;

/// Counts everything of one design from the path of its threads.
#[must_use]
pub fn tally(design: &Design, work: &Work) -> Tally {
    let beads = beads(design, work);
    let threads = threads(design, work);
    let findings = findings(design);
    Tally {
        beads_one: beads.iter().map(|b| b.one).sum(),
        beads_pair: beads.iter().map(|b| b.pair).sum(),
        cost: if prices(design).cost { cost(&beads, &threads, &findings) } else { None },
        size: size(work),
        weight: beads.iter().map(|b| weighing(b.one, design, b.bead)).sum(),
        fit: fit::fit(design, work, &stitch::passes(work)),
        beads,
        threads,
        findings,
    }
}

/// Packs that hold this much; `None` when a pack holds nothing.
pub(super) fn packs_for(grams: Grams, pack: Grams) -> Option<u32> {
    whole_units(grams / pack)
}

/// Whole units for a quotient of what is needed by what one unit holds.
pub(super) fn whole_units(quotient: f64) -> Option<u32> {
    let whole = (quotient - ROUNDING).ceil().max(0.0);
    (whole.is_finite() && whole <= f64::from(u32::MAX)).then_some(whole as u32)
}

fn weighing(count: usize, design: &Design, bead: BeadId) -> Grams {
    Grams(count as f64 / design.palette.beads[bead.0].per_gram)
}

fn beads(design: &Design, work: &Work) -> Vec<BeadCount> {
    let body = strung_in_body(work, design.letters.len());
    let fringe = strung_in_fringe(work, design.letters.len());
    let with_spare =
        |pair: usize, bead: BeadId| weighing(pair, design, bead) * (1.0 + design.allowances.spare);
    let mut counts: Vec<BeadCount> = design
        .letters
        .iter()
        .enumerate()
        .map(|(index, letter)| {
            let one = body[index] + fringe[index];
            BeadCount {
                letter: LetterId(index),
                bead: letter.bead,
                body: body[index],
                fringe: fringe[index],
                one,
                pair: PAIR * one,
                grams: with_spare(PAIR * one, letter.bead),
                packs: None,
                price: None,
            }
        })
        .collect();
    share_packs(design, &mut counts);
    counts
}

/// Beads of each letter that the body thread picks up: rows and loop, as the word chart says them.
fn strung_in_body(work: &Work, letters: usize) -> Vec<usize> {
    let mut counts = vec![0; letters];
    let rows = work.rows.iter().flat_map(|row| {
        let then = row.then.iter().flat_map(|run| run.beads.iter().map(|letter| (letter, run.count)));
        row.starts_with.iter().map(|letter| (letter, 1)).chain(then)
    });
    let loops: Vec<LetterId> = work.loops().flat_map(|ring| work.loop_letters(ring)).collect();
    for (letter, count) in rows.chain(loops.iter().map(|letter| (letter, 1))) {
        counts[letter.0] += count;
    }
    counts
}

/// Beads of each letter that the fringe thread picks up, as the bead list says them.
fn strung_in_fringe(work: &Work, letters: usize) -> Vec<usize> {
    let mut counts = vec![0; letters];
    for run in work.strands.iter().flat_map(|strand| strand.runs.iter().chain(&strand.turn)) {
        counts[run.letter.0] += run.count;
    }
    counts
}

/// Letters that share a bead share its packs: the first letter that has any of it carries them.
fn share_packs(design: &Design, counts: &mut [BeadCount]) {
    for index in 0..counts.len() {
        let bead = counts[index].bead;
        let Some(pack) = design.palette.beads[bead.0].pack else {
            continue;
        };
        let sharing = counts.iter().filter(|c| c.bead == bead && c.one > 0);
        let grams: Grams = sharing.clone().map(|c| c.grams).sum();
        let carrier = sharing.map(|c| c.letter).next();
        let packs =
            if carrier == Some(counts[index].letter) { packs_for(grams, pack.grams) } else { Some(0) };
        counts[index].packs = packs;
        counts[index].price = packs.zip(pack.price).map(|(n, price)| f64::from(n) * price);
    }
}

fn threads(design: &Design, work: &Work) -> Vec<ThreadCount> {
    let both = [(ThreadUse::Body, &design.body_thread), (ThreadUse::Fringe, &design.fringe_thread)];
    let mut counts: Vec<ThreadCount> = Vec::new();
    for (thread, described) in both {
        let cuts: Vec<Mm> = work.cuts.iter().filter(|cut| cut.thread == thread).map(|cut| cut.cut).collect();
        if cuts.is_empty() {
            continue;
        }
        let pair = cuts.iter().copied().sum::<Mm>() * PAIR as f64;
        counts.push(ThreadCount { thread, cuts, pair, spools: spools(described, pair), price: None });
    }
    // One spool serves both uses of the same thread: the first carries the spools of both.
    if let [body, fringe] = counts.as_mut_slice()
        && design.body_thread.key == design.fringe_thread.key
    {
        body.spools = spools(&design.body_thread, body.pair + fringe.pair);
        fringe.spools = fringe.spools.map(|_| 0);
    }
    for count in &mut counts {
        let spool = thread_of(design, count.thread).spool;
        count.price = count.spools.zip(spool.and_then(|s| s.price)).map(|(n, price)| f64::from(n) * price);
    }
    counts
}

fn spools(thread: &Thread, length: Mm) -> Option<u32> {
    whole_units(length / thread.spool?.length)
}

/// The palette's thread for a use.
pub(super) fn thread_of(design: &Design, thread: ThreadUse) -> &Thread {
    match thread {
        ThreadUse::Body => &design.body_thread,
        ThreadUse::Fringe => &design.fringe_thread,
    }
}

fn findings(design: &Design) -> Vec<FindingCount> {
    design
        .findings
        .iter()
        .enumerate()
        .map(|(finding, described)| {
            let pair = described.per_earring * PAIR as u32;
            FindingCount {
                finding,
                one: described.per_earring,
                pair,
                price: described.price.map(|price| price * f64::from(pair)),
            }
        })
        .collect()
}

/// What all of it costs; `None` where a price is missing or more packs are needed than can be counted.
fn cost(beads: &[BeadCount], threads: &[ThreadCount], findings: &[FindingCount]) -> Option<f64> {
    let used = beads.iter().filter(|bead| bead.one > 0);
    used.map(|bead| bead.price)
        .chain(threads.iter().map(|thread| thread.price))
        .chain(findings.iter().map(|finding| finding.price))
        .sum()
}

fn size(work: &Work) -> FinishedSize {
    let geometry = &work.geometry;
    let (top_left, bottom_right) = geometry.bounds;
    FinishedSize {
        width: bottom_right.x - top_left.x,
        body_height: geometry.body_height,
        longest_strand: geometry.longest_strand,
        drop: bottom_right.y - top_left.y,
    }
}
