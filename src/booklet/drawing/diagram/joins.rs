//! Joins: how the thread gets from one hole to the next, and how much room that takes between rows.

use super::columns::Columns;
use super::lanes::{Hanging, Port, ports};
use super::route::{Leg, Through};
use crate::stitch::{Bridge, SectionId, Way};
use std::collections::BTreeMap;

/// Height of the lowest arc above its holes.
pub(super) const FIRST_ARC: f64 = 2.4;
/// Distance between arcs that lie over each other: a numbered disc fits on one and clears the next.
pub(super) const ARC_STEP: f64 = 2.5;
/// Height of a space that thread crosses.
const CROSSED: f64 = 7.5;
/// Height of a space that no thread of the diagram crosses.
const QUIET: f64 = 3.4;

/// What lies between two holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Bend {
    /// An arc between two holes on the same side of a space; arcs of a higher level pass over lower ones.
    Arc { level: usize },
    /// Across a space from one row to the next.
    Across,
    /// Along the outside of a stack alone in its row, between its far end and a hole at the other.
    Beside,
    /// Round a bridge and back.
    Hook { bridge: Bridge },
    /// Round the turning bead.
    Turn { strand: SectionId },
    /// Once or several times round two stacks, then on.
    Wrapped,
}

/// A join between two legs with holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Join {
    /// Index of the leg that is left.
    pub(super) from: usize,
    /// Index of the leg that is entered.
    pub(super) to: usize,
    /// Where it is left.
    pub(super) out: Port,
    /// Where it is entered.
    pub(super) into: Port,
    /// How the thread goes from one to the other.
    pub(super) bend: Bend,
}

/// An arc, laid before or by the diagram's own thread.
#[derive(Clone, Copy, Debug)]
struct Span {
    channel: usize,
    from_below: bool,
    left: f64,
    right: f64,
    level: usize,
}

/// Half the distance of a laid bridge's end from the middle of its stack, as a share of the stack's width.
const BRIDGE_END: f64 = 0.1;

/// Where a laid bridge ends over its stack: nearer to its other end than the middle.
pub(super) fn bridge_ends(columns: &Columns, bridge: &Bridge) -> Option<(f64, f64)> {
    let [left, right] = bridge.stacks.map(|stack| columns.stacks.get(&stack));
    let (left, right) = (left?, right?);
    Some((left.x + left.narrowest * BRIDGE_END, right.x - right.narrowest * BRIDGE_END))
}

/// The joins of a diagram, their arcs put in levels, and the height of each space that is not shown
/// at its quiet height.
pub(super) fn joins(
    columns: &Columns,
    legs: &[Leg],
    offsets: &[f64],
    hanging: &Hanging,
) -> (Vec<Join>, BTreeMap<usize, f64>) {
    let mut joins = Vec::new();
    let mut last: Option<(usize, Port)> = None;
    for (index, leg) in legs.iter().enumerate() {
        let Some((entry, exit)) = ports(columns, leg, hanging, offsets[index]) else { continue };
        if let Some((from, out)) = last {
            let bend = bend_between(&legs[from], leg, &legs[from + 1..index], out, entry);
            joins.push(Join { from, to: index, out, into: entry, bend });
        }
        last = Some((index, exit));
    }
    let mut spans: Vec<Span> = columns
        .bridges
        .iter()
        .filter_map(|bridge| {
            let (left, right) = bridge_ends(columns, bridge)?;
            let line = columns.stacks.get(&bridge.stacks[0])?.line;
            let (channel, from_below) = match bridge.edge {
                Way::Up => (line + 1, true),
                Way::Down => (line, false),
            };
            Some(Span { channel, from_below, left, right, level: 1 })
        })
        .collect();
    level(&mut joins, &mut spans);
    let heights = heights(&joins, &spans);
    (joins, heights)
}

fn bend_between(from: &Leg, to: &Leg, between: &[Leg], out: Port, into: Port) -> Bend {
    if between.iter().any(|l| matches!(l.through, Through::Wrap { .. })) {
        return Bend::Wrapped;
    }
    for leg in between {
        if let Through::Bridge(bridge) = leg.through {
            return Bend::Hook { bridge };
        }
    }
    match (from.through, to.through) {
        (Through::Down { strand }, Through::Up { .. }) => Bend::Turn { strand },
        _ if out.channel == into.channel && out.from_below == into.from_below => Bend::Arc { level: 1 },
        _ if out.is_beside(into) => Bend::Beside,
        _ => Bend::Across,
    }
}

/// Gives every arc the lowest level at which it lies over all shorter arcs that it overlaps.
fn level(joins: &mut [Join], spans: &mut Vec<Span>) {
    let mut order: Vec<usize> =
        (0..joins.len()).filter(|j| matches!(joins[*j].bend, Bend::Arc { .. })).collect();
    let span = |j: &Join| (j.out.x - j.into.x).abs();
    order.sort_by(|a, b| span(&joins[*a]).total_cmp(&span(&joins[*b])));
    for index in order {
        let join = &mut joins[index];
        let (left, right) = (join.out.x.min(join.into.x), join.out.x.max(join.into.x));
        let over = spans
            .iter()
            .filter(|s| s.channel == join.out.channel && s.from_below == join.out.from_below)
            .filter(|s| s.left < right && left < s.right)
            .map(|s| s.level)
            .max();
        let level = over.unwrap_or(0) + 1;
        join.bend = Bend::Arc { level };
        spans.push(Span { channel: join.out.channel, from_below: join.out.from_below, left, right, level });
    }
}

/// How far an arc of a level stands off its holes.
pub(super) fn arc_height(level: usize) -> f64 {
    FIRST_ARC + ARC_STEP * level.saturating_sub(1) as f64
}

fn heights(joins: &[Join], spans: &[Span]) -> BTreeMap<usize, f64> {
    let mut levels: BTreeMap<usize, [usize; 2]> = BTreeMap::new();
    for span in spans {
        let level = &mut levels.entry(span.channel).or_default()[usize::from(span.from_below)];
        *level = (*level).max(span.level);
    }
    let mut heights: BTreeMap<usize, f64> = levels
        .into_iter()
        .map(|(channel, sides)| {
            let arcs: f64 =
                sides.iter().map(|level| if *level == 0 { 0.8 } else { arc_height(*level) + 0.6 }).sum();
            (channel, arcs.max(QUIET))
        })
        .collect();
    for join in joins {
        match join.bend {
            Bend::Arc { .. } | Bend::Turn { .. } => {}
            // A hook begins beyond the arcs of the row that it hangs: they lie across from the bridge.
            Bend::Hook { bridge } => {
                let channel = join.out.channel;
                let arcs = spans
                    .iter()
                    .filter(|s| s.channel == channel && s.from_below == (bridge.edge == Way::Down))
                    .map(|s| arc_height(s.level))
                    .fold(0.0, f64::max);
                let height = heights.entry(channel).or_insert(CROSSED);
                *height = height.max(CROSSED + arcs);
            }
            Bend::Across | Bend::Beside | Bend::Wrapped => {
                for channel in [join.out.channel, join.into.channel] {
                    let height = heights.entry(channel).or_insert(CROSSED);
                    *height = height.max(CROSSED);
                }
            }
        }
    }
    heights
}

/// The height of a space about which nothing is known.
pub(super) const fn quiet() -> f64 {
    QUIET
}
