//! What a diagram shows and in which columns: the stacks concerned, their neighbours, strands.

use super::route::{Hole, Leg, Through};
use super::state::{Bridge, State};
use super::whole::Whole;
use crate::booklet::drawing::earring::bead_of;
use crate::design::{Design, LetterId};
use crate::stitch::{MoveKind, Spot, StackAt, Work};
use std::collections::{BTreeMap, BTreeSet};

/// Space between neighbouring stacks as a share of a stack's width: wider than in the work, so that
/// the thread between them can be seen and numbered.
const GAP: f64 = 0.66;
/// The least such space: a number fits in it.
pub(super) const GAP_AT_LEAST: f64 = 4.2;

/// A stack that is shown.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Column {
    /// Its middle, in diagram millimetres.
    pub(super) x: f64,
    /// Letters from top to bottom.
    pub(super) letters: Vec<LetterId>,
    /// Width of its narrowest bead, in diagram millimetres.
    pub(super) narrowest: f64,
    /// Not concerned just now.
    pub(super) faded: bool,
}

/// A strand that is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    /// Its middle, in diagram millimetres.
    pub(super) x: f64,
    /// Width of its narrowest bead, in diagram millimetres.
    pub(super) narrowest: f64,
    /// Not concerned just now.
    pub(super) faded: bool,
}

/// What is shown, with its upright middle lines.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Columns {
    /// Diagram millimetres for each millimetre of a bead.
    pub(super) scale: f64,
    /// Stacks shown.
    pub(super) stacks: BTreeMap<StackAt, Column>,
    /// Strands shown.
    pub(super) strands: BTreeMap<usize, Line>,
    /// Whether the loop's beads are there.
    pub(super) looped: bool,
    /// Bridges laid before the diagram begins, between stacks that are shown.
    pub(super) bridges: BTreeSet<Bridge>,
}

impl Columns {
    /// Space between neighbouring stacks, in diagram millimetres.
    pub(super) fn gap(unit: f64) -> f64 {
        (unit * GAP).max(GAP_AT_LEAST)
    }
}

/// Chooses what to show of a stretch of the path, with stacks this many millimetres wide.
pub(super) fn columns(whole: &Whole, state: &State, legs: &[Leg], unit: f64) -> Columns {
    let Whole { design, work, .. } = whole;
    let pitch = unit + Columns::gap(unit);
    let stack_width = work.geometry.stack_width.0.max(0.1);
    let scale = unit / stack_width;
    let x_of = |at: &StackAt| whole.stacks.get(at).map(|stack| stack.x / stack_width * pitch);

    let met = Met::on(legs, state, work);
    let xs: Vec<f64> = met.touched().filter_map(x_of).collect();
    let left = xs.iter().copied().fold(f64::INFINITY, f64::min) - pitch * 1.05;
    let right = xs.iter().copied().fold(f64::NEG_INFINITY, f64::max) + pitch * 1.05;
    let rows: BTreeSet<usize> = met.touched().map(|at| at.row).collect();
    let lowest = rows.first().copied().unwrap_or(0);
    let highest = rows.last().copied().unwrap_or(0);
    let first = |row: usize| StackAt { row, stack: 0 };

    let stacks: BTreeMap<StackAt, Column> = whole
        .stacks
        .range(first(lowest)..first(highest.saturating_add(1)))
        .filter(|(at, _)| state.stacks.contains(at) || met.worked.contains(at))
        .filter_map(|(at, stack)| {
            let x = stack.x / stack_width * pitch;
            (left..=right).contains(&x).then(|| {
                let narrowest = narrowest(design, &stack.letters, scale);
                let faded = !met.concerned.contains(at);
                (*at, Column { x, letters: stack.letters.clone(), narrowest, faded })
            })
        })
        .collect();
    let strands = met
        .strands
        .iter()
        .filter(|_| !met.hanging.is_empty())
        .filter_map(|strand| {
            let x = x_of(&StackAt { row: 0, stack: *strand })?;
            let letters = &design.fringe.strands.get(*strand)?.beads;
            let faded = !met.hanging.contains(strand);
            let narrowest = narrowest(design, letters, scale);
            (left..=right).contains(&x).then_some((*strand, Line { x, narrowest, faded }))
        })
        .collect();
    let shows_hanging = legs.iter().any(|l| matches!(l.through.hole(), Some(Hole::Loop | Hole::Guard)));
    let shown = |b: &Bridge| {
        [b.bridge, b.bridge + 1]
            .iter()
            .all(|stack| stacks.contains_key(&StackAt { row: b.row, stack: *stack }))
    };
    let bridges = state.bridges.iter().filter(|b| shown(b)).copied().collect();
    Columns { scale, stacks, strands, looped: met.looped && shows_hanging, bridges }
}

/// What a stretch of the path meets.
struct Met {
    /// Stacks that it strings or passes.
    worked: BTreeSet<StackAt>,
    /// Stacks that it is about.
    concerned: BTreeSet<StackAt>,
    /// Stacks that it runs past.
    near: BTreeSet<StackAt>,
    /// Strands strung before or on the way.
    strands: BTreeSet<usize>,
    /// Strands that it is about.
    hanging: BTreeSet<usize>,
    /// Whether the loop's beads are strung.
    looped: bool,
}

impl Met {
    fn on(legs: &[Leg], state: &State, work: &Work) -> Met {
        let mut met = Met {
            worked: BTreeSet::new(),
            concerned: BTreeSet::new(),
            near: BTreeSet::new(),
            strands: state.strands.clone(),
            hanging: BTreeSet::new(),
            looped: state.looped,
        };
        for leg in legs {
            met.pass(leg, work);
        }
        met
    }

    fn pass(&mut self, leg: &Leg, work: &Work) {
        match leg.through {
            Through::Stack { at, .. } if leg.number.is_some() => {
                self.concerned.insert(at);
                self.worked.insert(at);
            }
            Through::Stack { at, .. } => {
                self.near.insert(at);
            }
            Through::Bridge { row, bridge } => {
                self.near.insert(StackAt { row, stack: bridge });
                self.near.insert(StackAt { row, stack: bridge + 1 });
            }
            Through::Wrap { anchor } => {
                if let Some(place) = work.anchors.get(anchor) {
                    for stack in [place.stack, place.stack + 1] {
                        self.concerned.insert(StackAt { row: place.row, stack });
                    }
                }
            }
            Through::Down { strand } | Through::Up { strand } => {
                self.strands.insert(strand);
                if leg.number.is_some() {
                    self.hanging.insert(strand);
                }
                self.near.insert(StackAt { row: 0, stack: strand });
            }
            Through::Loop { .. } => self.looped = true,
            Through::Beginning | Through::Guard { .. } | Through::End => {}
        }
    }

    /// Stacks that decide how far the diagram reaches.
    fn touched(&self) -> impl Iterator<Item = &StackAt> {
        self.concerned.iter().chain(&self.near)
    }
}

/// Width of the narrowest of some beads, in diagram millimetres.
fn narrowest(design: &Design, letters: &[LetterId], scale: f64) -> f64 {
    letters.iter().map(|l| bead_of(design, *l).width.0 * scale).reduce(f64::min).unwrap_or(scale)
}

/// Spots strung by a move.
pub(super) fn strung_by(kind: &MoveKind) -> &[Spot] {
    match kind {
        MoveKind::String { beads } => beads,
        _ => &[],
    }
}
