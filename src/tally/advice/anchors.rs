//! Anchors that will show, and a thread that would show less.

use super::naming::beside;
use crate::colour::Colour;
use crate::design::{Design, LetterId, Thread};
use crate::diagnostic::Problem;
use crate::stitch::{Anchor, ThreadUse, Work, practice};
use crate::tally::count::thread_of;

pub(super) fn advise(design: &Design, work: &Work) -> Vec<Problem> {
    [ThreadUse::Body, ThreadUse::Fringe]
        .into_iter()
        .filter_map(|thread| {
            let mut worst: Option<&Anchor> = None;
            for anchor in work.anchors.iter().filter(|a| a.thread == thread && !a.is_close()) {
                if worst.is_none_or(|w| anchor.difference > w.difference) {
                    worst = Some(anchor);
                }
            }
            worst.map(|anchor| shows(design, work, anchor))
        })
        .collect()
}

fn shows(design: &Design, work: &Work, anchor: &Anchor) -> Problem {
    let thread = thread_of(design, anchor.thread);
    let (row, [left, right]) = anchor.numbers(&work.fabric);
    let end = if anchor.begins { "begins" } else { "ends" };
    Problem::advice(format!(
        "{} will show where it {end}: the closest stacks to anchor in, row {row}, stacks {left} and {right} from the left, differ from it by {}, over {:.0} (CIEDE2000)",
        thread.name,
        beside(anchor.difference, practice::CLOSE_COLOUR, 0),
        practice::CLOSE_COLOUR
    ))
    .at(thread.place.clone())
    .hint(suggestion(design, thread, &beads(work, anchor)))
}

/// The letters of both stacks.
fn beads(work: &Work, anchor: &Anchor) -> Vec<LetterId> {
    let fabric = &work.fabric;
    let beads = anchor.stacks.iter().flat_map(|stack| &fabric[*stack].beads);
    beads.map(|spot| fabric[*spot].letter).collect()
}

/// The palette's thread closest to these beads; else the colour to look for; else what to change.
fn suggestion(design: &Design, used: &Thread, beads: &[LetterId]) -> String {
    let stacks: Vec<Colour> = beads.iter().map(|id| design.bead(*id).colour).collect();
    let threads = design.palette.threads.iter().filter(|thread| thread.key != used.key);
    if let Some((difference, thread)) = closest(&stacks, threads, |thread| thread.colour) {
        return format!(
            "use a thread of the colour of {} ({}) from the palette: it differs by {difference:.0}",
            thread.name, thread.colour
        );
    }
    match closest(&stacks, beads.iter(), |id| design.bead(**id).colour) {
        Some((_, id)) => {
            let bead = design.bead(*id);
            format!("use a thread near the colour of {} ({}); the palette has none", bead.name, bead.colour)
        }
        None => "no one colour hides in them: give a row below the top two neighbouring stacks of one colour"
            .to_owned(),
    }
}

/// The candidate that differs least from the stacks on average, if it would not show.
fn closest<T>(
    stacks: &[Colour],
    candidates: impl Iterator<Item = T>,
    colour: impl Fn(&T) -> Colour,
) -> Option<(f64, T)> {
    candidates
        .map(|candidate| {
            let sum: f64 = stacks.iter().map(|stack| stack.delta_e(colour(&candidate))).sum();
            (sum / stacks.len().max(1) as f64, candidate)
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(difference, _)| *difference <= practice::CLOSE_COLOUR)
}
