//! Mirror images of earrings and of stitched work.

use super::sample::Sample;
use crate::design::Side;
use crate::stitch::*;
use crate::units::Point;

/// The earring turned left for right.
pub fn mirrored(sample: &Sample) -> Sample {
    let mut mirror = sample.clone();
    mirror.start = sample.start.other();
    mirror.body.rows.iter_mut().for_each(|row| row.stacks.reverse());
    mirror.strands.reverse();
    mirror
}

/// Compares two works that must be mirror images, and says where they are not.
pub fn difference(one: &Work, other: &Work) -> Option<String> {
    let mirror = Mirror { work: one };
    let moves = |work: &Work| -> Vec<Move> {
        [&work.body, &work.tail, &work.fringe].iter().flat_map(|p| p.moves.clone()).collect()
    };
    let (mine, theirs) = (moves(one), moves(other));
    if mine.len() != theirs.len() {
        return Some(format!("{} moves against {}", mine.len(), theirs.len()));
    }
    for (mine, theirs) in mine.iter().zip(&theirs) {
        let image = mirror.image(mine);
        let near = |(a, b): (&Point, &Point)| a.distance(*b).0 < 1e-6;
        let same_points =
            image.points.len() == theirs.points.len() && image.points.iter().zip(&theirs.points).all(near);
        if image.kind != theirs.kind || image.phase != theirs.phase || !same_points {
            return Some(format!("{mine:?}\nshould mirror\n{theirs:?}"));
        }
    }
    let said = |work: &Work| -> Vec<_> {
        work.rows.iter().map(|row| (row.starts_with.clone(), row.then.clone())).collect()
    };
    (said(one) != said(other) || one.start == other.start).then(|| "rows are said otherwise".into())
}

struct Mirror<'a> {
    work: &'a Work,
}

impl Mirror<'_> {
    fn image(&self, made: &Move) -> Move {
        use MoveKind::*;
        let kind = match made.kind.clone() {
            String { beads } => String { beads: beads.into_iter().map(|b| self.spot(b)).collect() },
            Pass { stack, way } => {
                Pass { stack: StackAt { row: stack.row, stack: self.stack(stack.row, stack.stack) }, way }
            }
            UnderBridge { row, bridge } => {
                UnderBridge { row, bridge: self.work.stacks_in_row(row) - 2 - bridge }
            }
            ThroughGuard { towards } => ThroughGuard { towards: towards.other() },
            ThroughLoop { towards } => ThroughLoop { towards: towards.other() },
            ReturnUp { strand } => ReturnUp { strand: self.stack(0, strand) },
            same @ (LeaveTail { .. } | Wrap { .. } | CutTail { .. }) => same,
        };
        let phase = match made.phase {
            Phase::Strand(strand) => Phase::Strand(self.stack(0, strand)),
            same => same,
        };
        let width = self.work.geometry.body_width;
        let points = made.points.iter().map(|p| Point { x: width - p.x, y: p.y }).collect();
        Move { kind, phase, points }
    }

    fn spot(&self, spot: Spot) -> Spot {
        match spot {
            Spot::Body { row, stack, level } => Spot::Body { row, stack: self.stack(row, stack), level },
            Spot::Strand { strand, bead } => Spot::Strand { strand: self.stack(0, strand), bead },
            same @ Spot::Loop { .. } => same,
        }
    }

    fn stack(&self, row: usize, stack: usize) -> usize {
        self.work.stacks_in_row(row) - 1 - stack
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
