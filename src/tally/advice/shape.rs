//! How the earring hangs: its weight, its top row, its strands.

use super::naming::{beside, side, strands};
use crate::design::{Design, Strand};
use crate::diagnostic::{Problem, either};
use crate::stitch::{Carrier, StrandWork, Work, practice};
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
    advice.extend(guards(design, work));
    advice.extend(joined(design));
    advice.extend(crowded(design, work));
    advice.extend(long_strands(design, work));
    advice.extend(broken_mirror(design, work));
    advice
}

fn weight(tally: &Tally) -> Option<Problem> {
    (tally.weight > HEAVY).then(|| {
        let weight = beside(tally.weight.0, HEAVY.0, 1);
        Problem::advice(format!("one earring weighs {weight} g, over {:.0} g", HEAVY.0))
            .hint("shorten the strands or choose smaller beads: heavy earrings pull on the ear")
    })
}

/// Of several guards the first that does not fit: the others are alike.
fn guards(design: &Design, work: &Work) -> Option<Problem> {
    let mut guards = work.hangings.iter().filter(|carrier| carrier.ring.is_none());
    guards.find_map(|carrier| guard(design, work, carrier))
}

fn guard(design: &Design, work: &Work, carrier: &Carrier) -> Option<Problem> {
    let top = design.body.top_row();
    let holes = design.guard_holes()?;
    let stack = work.geometry.stack_width;
    let [one, other] = carrier.stacks.map(|stack| work.fabric[stack].upper.x);
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

/// Several hangings meet at one ear wire only by something that joins them.
fn joined(design: &Design) -> Option<Problem> {
    let hangings = design.hangings.len();
    let others = design.findings.iter().filter(|finding| finding.holes.is_none()).count();
    (hangings > 1 && others < 2).then(|| {
        Problem::advice(format!(
            "the earring hangs from {hangings} places, and nothing joins them to its ear wire"
        ))
        .hint("list what does under `findings:`, such as a connector bar, two jump rings or a chain")
    })
}

/// Two hangings side by side that reach into each other.
fn crowded(design: &Design, work: &Work) -> Option<Problem> {
    let mut reaches: Vec<(&Carrier, Mm, Mm)> = work
        .hangings
        .iter()
        .map(|carrier| {
            let (left, right) = reach(design, work, carrier);
            (carrier, left, right)
        })
        .collect();
    reaches.sort_by(|a, b| a.1.0.total_cmp(&b.1.0));
    let pair = reaches.windows(2).find(|pair| pair[1].1 < pair[0].2)?;
    let stacks = |carrier: &Carrier| {
        let mut stacks = carrier.stacks.map(|stack| work.fabric[stack].place + 1);
        stacks.sort_unstable();
        format!("{} and {}", stacks[0], stacks[1])
    };
    let message = format!(
        "what hangs on stacks {} of the top row reaches {} mm into what hangs on {}",
        stacks(pair[0].0),
        beside((pair[0].2 - pair[1].1).0, 0.0, 1),
        stacks(pair[1].0)
    );
    let problem = Problem::advice(message).at(design.body.top_row().place.clone());
    Some(problem.hint("hang them further apart, or choose a smaller guard or loop"))
}

/// How far a guard or loop reaches to the left and right.
fn reach(design: &Design, work: &Work, carrier: &Carrier) -> (Mm, Mm) {
    let Some(ring) = carrier.ring else {
        let [one, other] = carrier.stacks.map(|stack| work.fabric[stack].upper.x);
        let half = (design.guard_holes().unwrap_or(practice::GUARD_HOLES) + practice::GUARD_TUBE) / 2.0;
        let middle = (one + other) / 2.0;
        return (middle - half, middle + half);
    };
    let ends = work.fabric.beads_of(ring).map(|lying| {
        let bead = design.bead(lying.letter);
        let (sin, cos) = lying.turned.to_radians().sin_cos();
        let half = (bead.width * cos.abs() + bead.length * sin.abs()) / 2.0;
        (lying.centre.x - half, lying.centre.x + half)
    });
    ends.reduce(|(left, right), (l, r)| (left.min(l), right.max(r))).unwrap_or_default()
}

fn long_strands(design: &Design, work: &Work) -> Option<Problem> {
    let mut long = work.strands_in_order();
    long.retain(|strand| strand.length > LONG_STRAND);
    let first = written(design, work, long.first()?)?;
    let named = strands(work, &long.iter().map(|strand| strand.number).collect());
    let longest = long.iter().map(|strand| strand.length).fold(Mm::ZERO, Mm::max).0;
    let limit = LONG_STRAND.0;
    let longest = beside(longest, limit, 0);
    let (message, them) = if long.len() == 1 {
        (format!("{named} is {longest} mm long, over {limit:.0} mm"), "it")
    } else {
        (format!("{named} are over {limit:.0} mm long, the longest {longest} mm"), "them")
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
