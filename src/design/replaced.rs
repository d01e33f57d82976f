//! Discontinued beads and what takes their place.

use super::bounds::MOST_TOLD;
use super::model::{BeadId, Palette};
use super::palette::PaletteRead;
use super::yaml::{Check, Node};
use crate::diagnostic::{did_you_mean, shown};
use std::collections::{BTreeMap, BTreeSet};

/// Most beads of a ring that are named.
const MOST_NAMED: usize = 12;

/// Notes every `replaced by` that leads nowhere, or round in a ring.
pub(super) fn replacements(check: &mut Check<'_>, read: &PaletteRead, beads: &Node) {
    let palette = &read.palette;
    let names: Vec<&str> = palette.beads.iter().map(|b| b.key.as_str()).collect();
    let broken: BTreeSet<&str> = read.broken.iter().map(String::as_str).collect();
    let span = |at: usize| beads.get(names[at]).get("replaced by").span.clone();
    let next = next(palette);
    let lost = palette.beads.iter().zip(&next).enumerate().filter_map(|(at, (bead, next))| {
        let by = bead.replaced_by.as_deref().filter(|by| next.is_none() && !broken.contains(by))?;
        Some((at, by))
    });
    for (at, by) in lost.take(MOST_TOLD) {
        let message =
            format!("`{}` is replaced by `{}`, which is not in this palette", shown(names[at]), shown(by));
        check.error(span(at), message, did_you_mean(by, &names, "the beads of this palette are"));
    }
    for ring in walk(palette, &next).1 {
        let mut named: Vec<String> = ring.iter().take(MOST_NAMED).map(|at| shown(names[*at])).collect();
        if ring.len() > MOST_NAMED {
            named.push("…".to_owned());
        }
        named.push(shown(names[ring[0]]));
        check.error(
            span(ring[0]),
            format!("the replacements run in a ring: {}", named.join(" → ")),
            "remove `replaced by` from the bead that can still be bought",
        );
    }
}

/// For each name of a bead the bead that is used, and the bead it replaces if that one is discontinued.
/// A bead whose replacements lead nowhere or in a ring is left out.
pub(super) fn used(palette: &Palette) -> BTreeMap<&str, (BeadId, Option<BeadId>)> {
    let (ends, _) = walk(palette, &next(palette));
    let beads = palette.beads.iter().zip(ends).enumerate();
    beads
        .filter_map(|(at, (bead, end))| {
            let end = end?;
            Some((bead.key.as_str(), (BeadId(end), (end != at).then_some(BeadId(at)))))
        })
        .collect()
}

/// For each bead the one that replaces it, if that is in the palette.
fn next(palette: &Palette) -> Vec<Option<usize>> {
    let places: BTreeMap<&str, usize> =
        palette.beads.iter().enumerate().map(|(at, bead)| (bead.key.as_str(), at)).collect();
    palette.beads.iter().map(|bead| places.get(bead.replaced_by.as_deref()?).copied()).collect()
}

/// How far a bead has been followed.
#[derive(Clone, Copy)]
enum Followed {
    NotYet,
    OnTheWay,
    To(Option<usize>),
}

/// Follows every chain of replacements, no bead twice: for each bead the last of its chain, if there is
/// one; and the rings, each from that of its beads which stands first in the file.
fn walk(palette: &Palette, next: &[Option<usize>]) -> (Vec<Option<usize>>, Vec<Vec<usize>>) {
    let mut followed = vec![Followed::NotYet; next.len()];
    let mut rings = Vec::new();
    for start in 0..next.len() {
        let mut way: Vec<usize> = Vec::new();
        let mut at = start;
        let end = loop {
            match (followed[at], next[at]) {
                (Followed::To(end), _) => break end,
                (Followed::OnTheWay, _) => {
                    let back = way.iter().position(|passed| *passed == at).unwrap_or(0);
                    let mut ring = way[back..].to_vec();
                    let first = (0..ring.len()).min_by_key(|i| ring[*i]).unwrap_or(0);
                    ring.rotate_left(first);
                    rings.push(ring);
                    break None;
                }
                (Followed::NotYet, next) => {
                    followed[at] = Followed::OnTheWay;
                    way.push(at);
                    match next {
                        Some(next) => at = next,
                        None => break palette.beads[at].replaced_by.is_none().then_some(at),
                    }
                }
            }
        };
        way.iter().for_each(|passed| followed[*passed] = Followed::To(end));
    }
    let end = |followed| if let Followed::To(end) = followed { end } else { None };
    (followed.into_iter().map(end).collect(), rings)
}
