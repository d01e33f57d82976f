//! What a bead's hole takes: threads and needles as circles in a circle.

pub mod packing;

use crate::units::Mm;
use packing::enclosing;

/// Share of a hole that threads may fill, by diameter, before the fit is called tight
/// (common practice, no source: beyond it a needle has to be pulled through with pliers).
pub const TIGHT: f64 = 0.85;
/// Diameter of a hole that surely takes these passes, one count a thread (body, fringe).
///
/// The fullest moment is the last pass, when the needle goes through beside every pass before it;
/// a thread thicker than the needle fills the hole more once the needle is through. The fringe is
/// worked last, so a bead that both threads pass sees its last pass by the fringe thread.
#[must_use]
pub fn needed(passes: [usize; 2], threads: [Mm; 2], needle: Option<Mm>) -> Mm {
    let moments = fullest_moments(passes, threads, needle);
    moments.iter().map(|lying| enclosing(lying)).fold(Mm::ZERO, Mm::max)
}

/// What lies in a hole when it is fullest: diameters, once for each moment that may be the worst.
#[must_use]
pub fn fullest_moments(passes: [usize; 2], threads: [Mm; 2], needle: Option<Mm>) -> Vec<Vec<Mm>> {
    let lying = |passes: [usize; 2]| -> Vec<Mm> {
        let body = std::iter::repeat_n(threads[0], passes[0]);
        body.chain(std::iter::repeat_n(threads[1], passes[1])).collect()
    };
    let before = match passes {
        [0, 0] => return Vec::new(),
        [body, 0] => [body - 1, 0],
        [body, fringe] => [body, fringe - 1],
    };
    let mut moments = vec![lying(passes)];
    if let Some(needle) = needle {
        let mut on_its_way = lying(before);
        on_its_way.push(needle);
        moments.push(on_its_way);
    }
    moments
}
