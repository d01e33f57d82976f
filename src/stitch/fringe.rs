//! The fringe: one strand a foundation stack.

use super::needle::Needle;
use super::needs::Needs;
use super::{MoveKind, Phase, Spot, StackAt, Way};
use crate::design::Side;
use crate::units::Point;

/// Works the strands from one side. The needle stands at the upper end of the outer foundation
/// stack there; it leaves the thread at the upper end of the other outer stack.
pub(super) fn work(needle: &mut Needle, needs: &Needs, from: Side) {
    for k in 1..=needs.strands.len().min(needle.ground.stacks(0)) {
        let stack = needle.ground.counted_from(0, from, k);
        strand(needle, needs, stack);
    }
}

/// Works one strand: down its stack, string it, skip the turning bead, back up the other beads
/// and the stack.
fn strand(needle: &mut Needle, needs: &Needs, stack: StackAt) {
    let number = stack.stack;
    let strand = &needs.strands[number];
    needle.phase = Phase::Strand(number);
    needle.pass(stack, Way::Down);
    let top = needle.stands();
    let turns_at = Point { x: top.x, y: top.y + needs.turning_depth(strand) };
    let beads = (0..strand.beads.len()).map(|bead| Spot::Strand { strand: number, bead });
    needle.string(beads.collect(), [turns_at]);
    needle.make(MoveKind::ReturnUp { strand: number }, [top]);
    needle.pass(stack, Way::Up);
}
