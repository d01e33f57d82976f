//! How the earring hangs: its weight, its top row, its strands.

use super::naming::{numbered, ranges};
use crate::design::{Design, Hang};
use crate::diagnostic::{Problem, either};
use crate::stitch::Work;
use crate::tally::Tally;
use crate::units::{Grams, Mm};
use std::collections::BTreeSet;

/// An earring heavier than this pulls on the ear (common practice, no source).
const HEAVY: Grams = Grams(10.0);
/// A strand longer than this tangles and catches in collars (common practice, no source).
const LONG_STRAND: Mm = Mm(100.0);
/// How far the middles of the outer stacks may be from the holes of a guard, in stack widths (our
/// choice: three stacks of 11/0 cylinders, 3.2 mm, suit holes 4 mm apart, and two do not).
const GUARD_SLACK: f64 = 0.75;
/// A fringe is taken to be meant as a mirror when at most one pair of strands in so many breaks it
/// (our choice: a fringe that slants on purpose breaks it in nearly every pair).
const ODD_ONES_OUT: usize = 3;
/// Strand lengths nearer than this are equal: less than a third of the smallest bead.
const SAME_LENGTH: Mm = Mm(0.3);

pub(super) fn advise(design: &Design, work: &Work, tally: &Tally) -> Vec<Problem> {
    let mut advice: Vec<Problem> = weight(tally).into_iter().collect();
    advice.extend(top_row(design, work));
    advice.extend(long_strands(design, work));
    advice.extend(broken_mirror(design, work));
    advice
}

fn weight(tally: &Tally) -> Option<Problem> {
    (tally.weight > HEAVY).then(|| {
        Problem::advice(format!("one earring weighs {:.1} g, over {:.0} g", tally.weight.0, HEAVY.0))
            .hint("shorten the strands or choose smaller beads: heavy earrings pull on the ear")
    })
}

fn top_row(design: &Design, work: &Work) -> Option<Problem> {
    if design.hang != Hang::ThreadGuard {
        return None;
    }
    let top = design.body.rows.last()?;
    let holes = design.findings.iter().find_map(|finding| finding.holes)?;
    let stack = work.geometry.stack_width;
    let between = |stacks: usize| stack * (stacks.saturating_sub(1)) as f64;
    let suits = |stacks: usize| (between(stacks) - holes).abs() <= stack * GUARD_SLACK;
    let stacks = top.stacks.len();
    if suits(stacks) {
        return None;
    }
    let kind = if between(stacks) < holes { "narrow" } else { "wide" };
    let suited: Vec<String> = (1..=stacks.max(8) + 1).filter(|n| suits(*n)).map(|n| n.to_string()).collect();
    let hint = if suited.is_empty() {
        "choose another guard, or hang the earring from a loop of beads".to_owned()
    } else {
        format!("end the body with {} stacks, or choose another guard", either(&suited))
    };
    Some(
        Problem::advice(format!(
            "the top row is too {kind} for the thread guard: its outer stacks are {:.1} mm apart, the guard's holes {:.1} mm",
            between(stacks).0,
            holes.0
        ))
        .at(top.place.clone())
        .hint(hint),
    )
}

fn long_strands(design: &Design, work: &Work) -> Option<Problem> {
    let long: BTreeSet<usize> = work
        .strands
        .iter()
        .filter(|strand| strand.length > LONG_STRAND)
        .map(|strand| strand.strand + 1)
        .collect();
    let longest = work.strands.iter().map(|s| s.length).fold(Mm::ZERO, Mm::max);
    let first = design.fringe.strands.get(long.first()?.checked_sub(1)?)?;
    let (message, them) = if long.len() == 1 {
        let strand = ranges(&long);
        (
            format!(
                "strand {strand} from the left is {:.0} mm long, over {:.0} mm",
                longest.0, LONG_STRAND.0
            ),
            "it",
        )
    } else {
        let strands = numbered("strand", &long);
        let limit = LONG_STRAND.0;
        (
            format!("{strands} from the left are over {limit:.0} mm long, the longest {:.0} mm", longest.0),
            "them",
        )
    };
    let hint = format!("shorten {them}, or warn the customer: long strands tangle and catch in collars");
    Some(Problem::advice(message).at(first.place.clone()).hint(hint))
}

/// Pairs of strands that break a mirror which all the others keep: most likely miscounted. (A fringe
/// declared with `mirror: true` is written by halves and cannot break.)
fn broken_mirror(design: &Design, work: &Work) -> Option<Problem> {
    let strands = &work.strands;
    let pairs = strands.len() / 2;
    let broken: Vec<(usize, usize)> = (0..pairs)
        .map(|left| (left, strands.len() - 1 - left))
        .filter(|(left, right)| (strands[*left].length - strands[*right].length).abs() > SAME_LENGTH)
        .collect();
    let (left, right) = *broken.first()?;
    if broken.len() * ODD_ONES_OUT > pairs {
        return None;
    }
    let place = design.fringe.strands.get(right)?.place.clone();
    Some(
        Problem::advice(format!(
            "strands {} and {} from the left are {:.1} mm and {:.1} mm long, while the lengths of {} of {pairs} pairs mirror each other",
            left + 1,
            right + 1,
            strands[left].length.0,
            strands[right].length.0,
            pairs - broken.len()
        ))
        .at(place)
        .hint("if the fringe is to be mirrored, write `mirror: true` and the left half with the middle strand only"),
    )
}
