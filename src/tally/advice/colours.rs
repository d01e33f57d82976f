//! Colours of the chart that are hard to tell apart.

use super::naming;
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

pub(super) fn advise(design: &Design, tally: &Tally) -> Vec<Problem> {
    let used: Vec<&BeadCount> = tally.beads.iter().filter(|count| count.one > 0).collect();
    let mut advice = Vec::new();
    for (index, one) in used.iter().enumerate() {
        for other in &used[index + 1..] {
            advice.extend(pair(design, one, other));
        }
    }
    advice
}

fn pair(design: &Design, one: &BeadCount, other: &BeadCount) -> Option<Problem> {
    let (first, second) = (naming::letter(design, one.letter), naming::letter(design, other.letter));
    let place = design.letters[other.letter.0].place.clone();
    if one.bead == other.bead {
        return Some(
            Problem::advice(format!(
                "{} and {second} are one and the same bead",
                design.letters[one.letter.0].symbol
            ))
            .at(place)
            .hint("use one letter for both: customers look for a second bead"),
        );
    }
    let (bead, beside) = (&design.palette.beads[one.bead.0], &design.palette.beads[other.bead.0]);
    // A drop among cylinders is told apart by its shape.
    if bead.shape != beside.shape {
        return None;
    }
    let difference = bead.colour.delta_e(beside.colour);
    let message = if difference < ALIKE {
        format!(
            "{first} and {second} are hard to tell apart: they differ by {difference:.1}, under {ALIKE:.0} (CIEDE2000)"
        )
    } else {
        let to_whom = hard_for(bead.colour, beside.colour);
        if to_whom.is_empty() {
            return None;
        }
        format!("{first} and {second} are hard to tell apart {}", list(&to_whom))
    };
    Some(
        Problem::advice(message)
            .at(place)
            .hint("make one of them clearly lighter or darker, or keep the letters on the chart"),
    )
}

/// To whom two colours look alike that look different to most.
fn hard_for(one: Colour, other: Colour) -> Vec<String> {
    let mut whom: Vec<String> = Sight::ALL
        .into_iter()
        .filter_map(|sight| {
            let difference = sight.simulate(one).delta_e(sight.simulate(other));
            (difference < ALIKE_TO_COLOUR_BLIND).then(|| format!("{} ({difference:.1})", eyes(sight)))
        })
        .collect();
    let lightness = (one.lab().l - other.lab().l).abs();
    if lightness < ALIKE_IN_GREY {
        whom.push(format!("in grey ({lightness:.1})"));
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
