//! What a diagram shows and in which columns: the stacks concerned, their neighbours, strands.

use super::route::{Hole, Leg, Through};
use super::state::State;
use super::whole::Whole;
use crate::booklet::drawing::earring::bead_of;
use crate::design::{Design, LetterId};
use crate::stitch::{Bridge, Carrier, SectionId, StackId, Work};
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
    /// Its line of stacks.
    pub(super) line: usize,
    /// Letters from top to bottom.
    pub(super) letters: Vec<LetterId>,
    /// Width of its narrowest bead, in diagram millimetres.
    pub(super) narrowest: f64,
    /// Not concerned just now.
    pub(super) faded: bool,
}

/// A strand that is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hung {
    /// Its middle, in diagram millimetres.
    pub(super) x: f64,
    /// The line of stacks that it hangs on.
    pub(super) line: usize,
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
    pub(super) stacks: BTreeMap<StackId, Column>,
    /// Strands shown.
    pub(super) strands: BTreeMap<SectionId, Hung>,
    /// The guard or loop that is shown.
    pub(super) carrier: Option<Carrier>,
    /// Whether its loop's beads are there.
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
pub(super) fn columns(
    whole: &Whole,
    state: &State,
    carrier: Option<Carrier>,
    legs: &[Leg],
    unit: f64,
) -> Columns {
    let Whole { design, work, .. } = whole;
    let pitch = unit + Columns::gap(unit);
    let stack_width = work.geometry.stack_width.0.max(0.1);
    let scale = unit / stack_width;
    let x_of = |at: &StackId| whole.middle(*at) / stack_width * pitch;
    let fabric = &work.fabric;

    let met = Met::on(legs, state, work);
    let xs: Vec<f64> = met.touched().map(x_of).collect();
    let left = xs.iter().copied().fold(f64::INFINITY, f64::min) - pitch * 1.05;
    let right = xs.iter().copied().fold(f64::NEG_INFINITY, f64::max) + pitch * 1.05;
    let lines: BTreeSet<usize> = met.touched().map(|at| fabric[*at].line).collect();
    let lowest = lines.first().copied().unwrap_or(0);
    let highest = lines.last().copied().unwrap_or(0);

    let stacks: BTreeMap<StackId, Column> = whole
        .lines
        .get(lowest..=highest)
        .unwrap_or_default()
        .iter()
        .flatten()
        .filter(|at| state.stacks.contains(at) || met.worked.contains(at))
        .filter_map(|at| {
            let x = x_of(at);
            (left..=right).contains(&x).then(|| {
                let letters = whole.letters(*at);
                let narrowest = narrowest(design, &letters, scale);
                let faded = !met.concerned.contains(at);
                (*at, Column { x, line: fabric[*at].line, letters, narrowest, faded })
            })
        })
        .collect();
    let strands = met
        .strands
        .iter()
        .filter(|_| !met.hanging.is_empty())
        .filter_map(|strand| {
            let stack = fabric[*strand].hangs_on?;
            let x = x_of(&stack);
            let letters: Vec<LetterId> = fabric.beads_of(*strand).map(|lying| lying.letter).collect();
            let faded = !met.hanging.contains(strand);
            let narrowest = narrowest(design, &letters, scale);
            let line = fabric[stack].line;
            (left..=right).contains(&x).then_some((*strand, Hung { x, line, narrowest, faded }))
        })
        .collect();
    let shows_hanging = legs.iter().any(|l| matches!(l.through.hole(), Some(Hole::Loop | Hole::Guard)));
    let shown = |b: &Bridge| b.stacks.iter().all(|stack| stacks.contains_key(stack));
    let bridges = state.bridges.iter().filter(|b| shown(b)).copied().collect();
    let strung = carrier.and_then(|carrier| carrier.ring).is_some_and(|ring| state.loops.contains(&ring));
    let looped = (met.looped || strung) && shows_hanging;
    Columns { scale, stacks, strands, carrier, looped, bridges }
}

/// What a stretch of the path meets.
struct Met {
    /// Stacks that it strings or passes.
    worked: BTreeSet<StackId>,
    /// Stacks that it is about.
    concerned: BTreeSet<StackId>,
    /// Stacks that it runs past.
    near: BTreeSet<StackId>,
    /// Strands strung before or on the way.
    strands: BTreeSet<SectionId>,
    /// Strands that it is about.
    hanging: BTreeSet<SectionId>,
    /// Whether it goes through a loop.
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
            looped: false,
        };
        for leg in legs {
            met.pass(leg, work);
        }
        met
    }

    fn pass(&mut self, leg: &Leg, work: &Work) {
        match leg.through {
            Through::Stack(pass) if leg.number.is_some() => {
                self.concerned.insert(pass.stack);
                self.worked.insert(pass.stack);
            }
            Through::Stack(pass) => {
                self.near.insert(pass.stack);
            }
            Through::Bridge(bridge) => self.near.extend(bridge.stacks),
            Through::Wrap { anchor } => {
                if let Some(place) = work.anchors.get(anchor) {
                    self.concerned.extend(place.stacks);
                }
            }
            Through::Down { strand } | Through::Up { strand } => {
                self.strands.insert(strand);
                if leg.number.is_some() {
                    self.hanging.insert(strand);
                }
                self.near.extend(work.fabric[strand].hangs_on);
            }
            Through::Loop { .. } => self.looped = true,
            Through::Beginning | Through::Guard { .. } | Through::End => {}
        }
    }

    /// Stacks that decide how far the diagram reaches.
    fn touched(&self) -> impl Iterator<Item = &StackId> {
        self.concerned.iter().chain(&self.near)
    }
}

/// Width of the narrowest of some beads, in diagram millimetres.
fn narrowest(design: &Design, letters: &[LetterId], scale: f64) -> f64 {
    letters.iter().map(|l| bead_of(design, *l).width.0 * scale).reduce(f64::min).unwrap_or(scale)
}
