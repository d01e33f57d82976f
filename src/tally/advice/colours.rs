//! Colours of the chart that are hard to tell apart.

use super::{gathered, naming};
use crate::colour::{Colour, Sight};
use crate::design::Design;
use crate::diagnostic::{Problem, list};
use crate::tally::{BeadCount, Tally};

/// CIEDE2000 difference under which two colours on one chart are hard to tell apart. Our choice, no
/// source: about 1 is just visible side by side, and small spots under a lamp need much more.
const ALIKE: f64 = 8.0;
/// The same for colours as colour-blind eyes see them (our choice: a simulation is never exact, so
/// only what is plainly alike is reported).
const ALIKE_TO_COLOUR_BLIND: f64 = 5.0;
/// Difference of CIELAB lightness under which two greys are hard to tell apart. Our choice, as for
/// colour-blind eyes: between greys, lightness is all the difference there is.
const ALIKE_IN_GREY: f64 = 5.0;

/// Two letters that look alike on the chart.
struct Alike<'t> {
    one: &'t BeadCount,
    other: &'t BeadCount,
    /// How far apart they are, to whom they look most alike.
    difference: f64,
    /// Eyes and prints to which they look alike, though not to most; empty where they do to all.
    to_whom: Vec<String>,
}

pub(super) fn advise(design: &Design, tally: &Tally) -> Vec<Problem> {
    let used: Vec<&BeadCount> = tally.beads.iter().filter(|count| count.one > 0).collect();
    let mut advice = same_beads(design, &used);
    let pairs =
        used.iter().enumerate().flat_map(|(i, one)| used[i + 1..].iter().map(move |other| (one, other)));
    let alike = pairs.filter_map(|(one, other)| alike(design, one, other));
    let (to_all, to_some): (Vec<Alike>, Vec<Alike>) = alike.partition(|pair| pair.to_whom.is_empty());
    let to_all_of_them =
        format!("pairs of colours are hard to tell apart: they differ by less than {ALIKE:.0} (CIEDE2000)");
    let to_some_of_them = "pairs of colours are hard to tell apart for colour-blind eyes or in grey";
    advice.extend(told(design, to_all, &to_all_of_them));
    advice.extend(told(design, to_some, to_some_of_them));
    advice
}

/// Letters that stand for one bead.
fn same_beads(design: &Design, used: &[&BeadCount]) -> Vec<Problem> {
    let twice = used.iter().enumerate().filter(|(i, count)| {
        let is_same = |other: &&&BeadCount| other.bead == count.bead;
        used[..*i].iter().filter(is_same).count() == 1
    });
    twice
        .map(|(_, second)| {
            let same: Vec<&&BeadCount> = used.iter().filter(|count| count.bead == second.bead).collect();
            let symbol = |count: &&&BeadCount| design.letters[count.letter.0].symbol.to_string();
            let mut names: Vec<String> = same.iter().map(symbol).collect();
            if let (Some(name), Some(last)) = (names.last_mut(), same.last()) {
                *name = naming::letter(design, last.letter);
            }
            Problem::advice(format!("{} are one and the same bead", list(&names)))
                .at(design.letters[second.letter.0].place.clone())
                .hint(format!("use one letter for {}: customers look for a second bead", both_or_all(&same)))
        })
        .collect()
}

fn both_or_all<T>(items: &[T]) -> &'static str {
    if items.len() == 2 { "both" } else { "all of them" }
}

/// Pairs told one by one, or together where they are many.
fn told(design: &Design, mut pairs: Vec<Alike>, pairs_are: &str) -> Vec<Problem> {
    if pairs.len() <= gathered::TOLD_APART {
        return pairs.iter().map(|pair| advice(design, pair, message(design, pair))).collect();
    }
    pairs.sort_by(|a, b| a.difference.total_cmp(&b.difference));
    let symbol = |count: &BeadCount| design.letters[count.letter.0].symbol;
    let named = pairs.iter().map(|pair| format!("{}–{}", symbol(pair.one), symbol(pair.other)));
    let closest = &pairs[0];
    let message = format!(
        "{} {pairs_are}; the closest are {} and {}, by {:.1}: {}",
        pairs.len(),
        naming::letter(design, closest.one.letter),
        naming::letter(design, closest.other.letter),
        closest.difference,
        gathered::list(named)
    );
    vec![advice(design, closest, message)]
}

fn advice(design: &Design, pair: &Alike, message: String) -> Problem {
    Problem::advice(message)
        .at(design.letters[pair.other.letter.0].place.clone())
        .hint("make one of them clearly lighter or darker, or keep the letters on the chart")
}

fn message(design: &Design, pair: &Alike) -> String {
    let (first, second) =
        (naming::letter(design, pair.one.letter), naming::letter(design, pair.other.letter));
    let difference = naming::beside(pair.difference, ALIKE, 1);
    if pair.to_whom.is_empty() {
        format!(
            "{first} and {second} are hard to tell apart: they differ by {difference}, under {ALIKE:.0} (CIEDE2000)"
        )
    } else {
        format!("{first} and {second} are hard to tell apart {}", list(&pair.to_whom))
    }
}

fn alike<'t>(design: &Design, one: &'t BeadCount, other: &'t BeadCount) -> Option<Alike<'t>> {
    let (bead, beside) = (&design.palette.beads[one.bead.0], &design.palette.beads[other.bead.0]);
    // A drop among cylinders is told apart by its shape.
    if one.bead == other.bead || bead.shape != beside.shape {
        return None;
    }
    let difference = bead.colour.delta_e(beside.colour);
    if difference < ALIKE {
        return Some(Alike { one, other, difference, to_whom: Vec::new() });
    }
    let whom = hard_for(bead.colour, beside.colour);
    let difference = whom.iter().map(|(_, difference)| *difference).min_by(f64::total_cmp)?;
    let to_whom = whom.into_iter().map(|(whom, difference)| format!("{whom} ({difference:.1})")).collect();
    Some(Alike { one, other, difference, to_whom })
}

/// To whom two colours look alike that look different to most.
fn hard_for(one: Colour, other: Colour) -> Vec<(&'static str, f64)> {
    let mut whom: Vec<(&str, f64)> = Sight::ALL
        .into_iter()
        .filter_map(|sight| {
            let difference = sight.simulate(one).delta_e(sight.simulate(other));
            (difference < ALIKE_TO_COLOUR_BLIND).then(|| (eyes(sight), difference))
        })
        .collect();
    let lightness = (one.lab().l - other.lab().l).abs();
    if lightness < ALIKE_IN_GREY {
        whom.push(("in grey", lightness));
    }
    whom
}

fn eyes(sight: Sight) -> &'static str {
    match sight {
        Sight::Protanopia => "for red-blind eyes",
        Sight::Deuteranopia => "for green-blind eyes",
        Sight::Tritanopia => "for blue-blind eyes",
    }
}
