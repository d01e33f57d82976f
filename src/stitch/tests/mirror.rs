//! Mirror images of earrings and of stitched work.

use super::sample::Sample;
use crate::design::{Row, Side, StackPlace};
use crate::stitch::*;
use crate::units::Point;

/// The earring turned left for right.
pub fn mirrored(sample: &Sample) -> Sample {
    let mut mirror = sample.clone();
    mirror.start = sample.start.other();
    let right = |row: &Row| row.lead + 2 * row.stacks.len();
    let widest = sample.body.rows.iter().map(right).max().unwrap_or(0);
    for row in &mut mirror.body.rows {
        row.lead = widest - right(row);
        row.stacks.reverse();
    }
    let top = sample.body.top_row().stacks.len();
    mirror.hangings.reverse();
    for hanging in &mut mirror.hangings {
        hanging.on = hanging.on.map(|[left, right]| [top + 1 - right, top + 1 - left]);
    }
    mirror.strands.reverse();
    for strand in &mut mirror.strands {
        let StackPlace { row, stack } = &mut strand.hangs_on;
        *stack = sample.body.rows[*row].stacks.len() - 1 - *stack;
    }
    mirror
}

/// Compares two works that must be mirror images, and says where they are not.
pub fn difference(one: &Work, other: &Work) -> Option<String> {
    let mirror = Mirror { one, other };
    let moves = |work: &Work| -> Vec<Move> {
        [&work.body, &work.tail, &work.fringe].iter().flat_map(|p| p.moves.clone()).collect()
    };
    let (mine, theirs) = (moves(one), moves(other));
    if mine.len() != theirs.len() {
        return Some(format!("{} moves against {}", mine.len(), theirs.len()));
    }
    for (mine, theirs) in mine.iter().zip(&theirs) {
        if !mirror.is_image(mine, theirs) {
            return Some(format!("{mine:?}\nshould mirror\n{theirs:?}"));
        }
    }
    let said = |work: &Work| -> Vec<_> {
        work.rows.iter().map(|row| (row.starts_with.clone(), row.then.clone())).collect()
    };
    (said(one) != said(other) || one.start == other.start).then(|| "rows are said otherwise".into())
}

/// Two works of which one should be the other's mirror image.
struct Mirror<'a> {
    one: &'a Work,
    other: &'a Work,
}

impl Mirror<'_> {
    /// Whether two moves are mirror images.
    fn is_image(&self, mine: &Move, theirs: &Move) -> bool {
        use MoveKind::*;
        let width = self.one.geometry.body_width;
        let near = |(a, b): (&Point, &Point)| Point { x: width - a.x, y: a.y }.distance(*b).0 < 1e-6;
        let same_points =
            mine.points.len() == theirs.points.len() && mine.points.iter().zip(&theirs.points).all(near);
        let same_kind = match (&mine.kind, &theirs.kind) {
            (LeaveTail { length: a }, LeaveTail { length: b })
            | (CutTail { length: a }, CutTail { length: b }) => a == b,
            (String { through: a }, String { through: b }) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| self.is_pass(*a, *b))
            }
            (Pass(a), Pass(b)) => self.is_pass(*a, *b),
            (UnderBridge { bridge: a }, UnderBridge { bridge: b }) => self.is_bridge(*a, *b),
            (ThroughGuard { towards: a }, ThroughGuard { towards: b })
            | (ThroughLoop { towards: a }, ThroughLoop { towards: b }) => *a == b.other(),
            (ReturnUp { strand: a }, ReturnUp { strand: b }) => self.is_section(*a, *b),
            (Wrap { anchor: a }, Wrap { anchor: b }) => a == b,
            _ => false,
        };
        let same_phase = match (mine.phase, theirs.phase) {
            (Phase::Section(a), Phase::Section(b)) => self.is_section(a, b),
            (a, b) => a == b,
        };
        let same_beads = mine.beads.len() == theirs.beads.len()
            && mine.beads.iter().zip(&theirs.beads).all(|(a, b)| self.is_bead(*a, *b));
        let same_bridges = mine.lays.len() == theirs.lays.len()
            && mine.lays.iter().zip(&theirs.lays).all(|(a, b)| self.is_bridge(*a, *b));
        same_points && same_kind && same_phase && same_beads && same_bridges && mine.manner == theirs.manner
    }

    fn is_pass(&self, a: Pass, b: Pass) -> bool {
        a.way == b.way && self.is_stack(a.stack, b.stack)
    }

    fn is_stack(&self, a: StackId, b: StackId) -> bool {
        let (a, b) = (&self.one.fabric[a], &self.other.fabric[b]);
        let last = self.one.fabric[a.section].stacks.len() - 1;
        a.line == b.line && a.place == last - b.place
    }

    fn is_bridge(&self, a: BridgeId, b: BridgeId) -> bool {
        let (a, b) = (self.one.fabric[a], self.other.fabric[b]);
        a.edge == b.edge && self.is_stack(a.stacks[0], b.stacks[1]) && self.is_stack(a.stacks[1], b.stacks[0])
    }

    fn is_section(&self, a: SectionId, b: SectionId) -> bool {
        // Numbered in working order, and the work is turned round as a whole.
        self.one.fabric.name(a) == self.other.fabric.name(b)
    }

    fn is_bead(&self, a: Spot, b: Spot) -> bool {
        let (a, b) = (&self.one.fabric[a], &self.other.fabric[b]);
        let stacks = match (a.stack, b.stack) {
            (Some(a), Some(b)) => self.is_stack(a, b),
            (a, b) => a == b,
        };
        stacks && a.place == b.place && a.letter == b.letter && self.is_section(a.section, b.section)
    }
}

#[test]
fn the_comparison_sees_a_difference() {
    let sample = Sample::plain(2, 5, 2).with_strands(4);
    let work = sample.stitch();
    assert_eq!(difference(&work, &mirrored(&sample).stitch()), None);
    assert!(difference(&work, &work).is_some());
    assert_eq!(mirrored(&sample).start, Side::Right);
}
