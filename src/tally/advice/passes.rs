//! Threads that hardly pass a bead, or not at all.

use super::gathered;
use super::naming::{diameter, whereabouts};
use crate::design::Design;
use crate::diagnostic::{Place, Problem, list};
use crate::holes::{TIGHT, needed};
use crate::stitch::{SectionKind, Spot, ThreadUse, Work};
use crate::tally::count::thread_of;
use crate::tally::fit::diameters;
use crate::tally::{Fit, FitGrade, Tally};
use crate::units::Mm;

/// Thinner than this no thread or needle is sold for beading (from memory: needles of size 15 have
/// about 0.25 mm, fine braid 0.08 mm); a remedy that asks for less is none.
const THINNEST_NEEDLE: Mm = Mm(0.25);
const THINNEST_THREAD: Mm = Mm(0.08);
/// Diameters are advised in steps of this, millimetres.
const STEP: f64 = 0.01;

pub(super) fn advise(design: &Design, work: &Work, tally: &Tally) -> Vec<Problem> {
    let of_grades = tally.fit.chunk_by(|a, b| a.grade == b.grade);
    of_grades
        .flat_map(|fits| match fits {
            [worst, _, ..] if fits.len() > gathered::TOLD_APART => {
                vec![together(design, fits, problem(design, work, worst))]
            }
            few => few.iter().map(|fit| problem(design, work, fit)).collect(),
        })
        .collect()
}

/// Many beads of one grade: the worst in full, then the names of all.
fn together(design: &Design, fits: &[Fit], worst: Problem) -> Problem {
    let named = gathered::list(fits.iter().map(|fit| design.palette.beads[fit.bead.0].name.to_string()));
    Problem { message: format!("{}; so it is with {} beads: {named}", worst.message, fits.len()), ..worst }
}

fn problem(design: &Design, work: &Work, fit: &Fit) -> Problem {
    let bead = &design.palette.beads[fit.bead.0];
    let passes: Vec<String> = fit
        .passes
        .iter()
        .map(|(thread, count)| {
            let thread = thread_of(design, *thread);
            let noun = if *count == 1 { "pass" } else { "passes" };
            format!("{count} {noun} of {} ({})", thread.name, diameter(thread.diameter))
        })
        .collect();
    let needle = design
        .palette
        .needle
        .map_or(String::new(), |needle| format!(", the last with a needle of {},", diameter(needle)));
    let needs = format!(
        "{}{needle} need {}, and the hole has {}",
        list(&passes),
        diameter(fit.needed),
        diameter(fit.hole)
    );
    let at = whereabouts(work, &fit.spots);
    let problem = match fit.grade {
        FitGrade::WillNotPass => {
            Problem::warning(format!("the thread will not pass {} in {at}: {needs}", bead.name))
        }
        FitGrade::Tight | FitGrade::Fits => {
            Problem::advice(format!("the thread is tight in {} in {at}: {needs}", bead.name))
        }
    };
    let problem = problem.hint(remedies(design, fit));
    match fit.spots.first().and_then(|spot| place(design, work, *spot)) {
        Some(place) => problem.at(place),
        None => problem,
    }
}

fn place(design: &Design, work: &Work, spot: Spot) -> Option<Place> {
    let lying = &work.fabric[spot];
    let section = &work.fabric[lying.section];
    match section.kind {
        SectionKind::Row => Some(design.body.rows.get(section.source)?.place.clone()),
        SectionKind::Strand => Some(design.fringe.strands.get(section.source)?.place.clone()),
        SectionKind::Loop => Some(design.letters.get(lying.letter.0)?.place.clone()),
    }
}

/// Two ways out: something thinner for that pass, or a larger hole.
fn remedies(design: &Design, fit: &Fit) -> String {
    let share = if fit.grade == FitGrade::WillNotPass { 1.0 } else { TIGHT };
    let larger = Mm((fit.needed.0 / share / STEP).ceil() * STEP);
    let hole = format!("choose a bead with a hole of at least {}", diameter(larger));
    match thinner(design, fit, fit.hole * share) {
        Some(thinner) => format!("{thinner}, or {hole}"),
        None => format!("{hole}: no needle or thread is thin enough for this one"),
    }
}

/// A thinner needle if that is enough, else a thinner thread for the last passes.
fn thinner(design: &Design, fit: &Fit, room: Mm) -> Option<String> {
    let threads = diameters(design);
    let mut passes = [0, 0];
    for (thread, count) in &fit.passes {
        passes[*thread as usize] = *count;
    }
    if let Some(needle) = design.palette.needle {
        let thinner = thickest(THINNEST_NEEDLE, needle, |d| needed(passes, threads, Some(d)) <= room);
        if let Some(thinner) = thinner {
            return Some(format!("take a needle of {} or less for the last pass", diameter(thinner)));
        }
    }
    let last = if passes[1] > 0 { ThreadUse::Fringe } else { ThreadUse::Body };
    let with_thread = |d: Mm, needle: Option<Mm>| {
        let mut threads = threads;
        threads[last as usize] = d;
        needed(passes, threads, needle) <= room
    };
    let described = thread_of(design, last);
    let needle = design.palette.needle;
    if let Some(d) = thickest(THINNEST_THREAD, described.diameter, |d| with_thread(d, needle)) {
        return Some(format!("take a thread of {} or less for {}", diameter(d), described.name));
    }
    let thin_needle = needle.map(|n| n.min(THINNEST_NEEDLE));
    thickest(THINNEST_THREAD, described.diameter, |d| with_thread(d, thin_needle)).map(|d| {
        format!(
            "take a thread of {} or less for {} and a needle of {}",
            diameter(d),
            described.name,
            diameter(THINNEST_NEEDLE)
        )
    })
}

/// The thickest of the diameters between two that will do, in steps; `None` when the thinnest will not.
fn thickest(thinnest: Mm, thickest: Mm, will_do: impl Fn(Mm) -> bool) -> Option<Mm> {
    let in_steps = |steps: i64| Mm(steps as f64 * STEP);
    let (mut low, mut high) = ((thinnest.0 / STEP).round() as i64, (thickest.0 / STEP).ceil() as i64);
    if low > high || !will_do(in_steps(low)) {
        return None;
    }
    while high - low > 1 {
        let middle = i64::midpoint(low, high);
        if will_do(in_steps(middle)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(in_steps(low))
}
