//! How the earring hangs: its weight, its top row, its strands.

use super::naming::{side, strands};
use crate::design::{Design, Hang, Strand};
use crate::diagnostic::{Problem, either};
use crate::stitch::{StrandWork, Work};
use crate::tally::Tally;
use crate::units::{Grams, Mm};

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
    let top = design.body.rows[..design.body.above].last()?;
    let holes = design.guard_holes()?;
    let stack = work.geometry.stack_width;
    let [one, other] = work.hung_on.map(|stack| work.fabric[stack].upper.x);
    let apart = (one - other).abs();
    if (apart - holes).abs() <= stack * GUARD_SLACK {
        return None;
    }
    let between = |stacks: usize| stack * (stacks.saturating_sub(1)) as f64;
    let suits = |stacks: usize| (between(stacks) - holes).abs() <= stack * GUARD_SLACK;
    let stacks = top.stacks.len();
    // A wide row has a pair of stacks in its middle that comes as near as any.
    let kind = if apart < holes { "narrow" } else { "wide" };
    let outer = (apart - between(stacks)).abs() < SAME_LENGTH;
    let carriers = if outer { "its outer stacks" } else { "the stacks in its middle" };
    let suited: Vec<String> = (1..=stacks.max(8) + 1).filter(|n| suits(*n)).map(|n| n.to_string()).collect();
    let hint = if suited.is_empty() {
        "choose another guard, or hang the earring from a loop of beads".to_owned()
    } else {
        format!("end the body with {} stacks, or choose another guard", either(&suited))
    };
    Some(
        Problem::advice(format!(
            "the top row is too {kind} for the thread guard: {carriers} are {:.1} mm apart, the guard's holes {:.1} mm",
            apart.0,
            holes.0
        ))
        .at(top.place.clone())
        .hint(hint),
    )
}

fn long_strands(design: &Design, work: &Work) -> Option<Problem> {
    let mut long = work.strands_in_order();
    long.retain(|strand| strand.length > LONG_STRAND);
    let first = written(design, work, long.first()?)?;
    let named = strands(work, &long.iter().map(|strand| strand.number).collect());
    let longest = long.iter().map(|strand| strand.length).fold(Mm::ZERO, Mm::max).0;
    let limit = LONG_STRAND.0;
    let (message, them) = if long.len() == 1 {
        (format!("{named} is {longest:.0} mm long, over {limit:.0} mm"), "it")
    } else {
        (format!("{named} are over {limit:.0} mm long, the longest {longest:.0} mm"), "them")
    };
    let hint = format!("shorten {them}, or warn the customer: long strands tangle and catch in collars");
    Some(Problem::advice(message).at(first.place.clone()).hint(hint))
}

/// A strand as the design has it.
fn written<'d>(design: &'d Design, work: &Work, strand: &StrandWork) -> Option<&'d Strand> {
    design.fringe.strands.get(work.fabric[strand.section].source)
}

/// Pairs of strands that break a mirror which all the others keep: most likely miscounted. (A fringe
/// declared with `mirror: true` is written by halves and cannot break.)
fn broken_mirror(design: &Design, work: &Work) -> Option<Problem> {
    let strands = work.strands_in_order();
    let pairs = strands.len() / 2;
    let broken: Vec<(&StrandWork, &StrandWork)> = strands
        .iter()
        .zip(strands.iter().rev())
        .take(pairs)
        .filter(|(one, other)| (one.length - other.length).abs() > SAME_LENGTH)
        .map(|(one, other)| (*one, *other))
        .collect();
    let (one, other) = *broken.first()?;
    if broken.len() * ODD_ONES_OUT > pairs {
        return None;
    }
    let place = written(design, work, if one.section < other.section { other } else { one })?.place.clone();
    Some(
        Problem::advice(format!(
            "strands {} and {} from the {} are {:.1} mm and {:.1} mm long, while the lengths of {} of {pairs} pairs mirror each other",
            one.number,
            other.number,
            side(work.fringe_from),
            one.length.0,
            other.length.0,
            pairs - broken.len()
        ))
        .at(place)
        .hint("if the fringe is to be mirrored, write `mirror: true` and the left half with the middle strand only"),
    )
}
