//! The fringe: strands that hang on stacks of the body.

use super::needle::Needle;
use super::needs::Needs;
use super::{Fabric, Lying, Manner, MoveKind, Pass, Phase, Section, SectionId, SectionKind, Spot, Way};
use crate::design::Side;
use crate::units::Point;

/// Lays the strands from left to right, each on its stack.
pub(super) fn lay(fabric: &mut Fabric, needs: &Needs, from: Side) {
    let count = needs.strands.len();
    for (source, strand) in needs.strands.iter().enumerate() {
        let hung_on =
            fabric.sections.get(strand.hangs_on.row).and_then(|row| row.stacks.get(strand.hangs_on.stack));
        let Some(&stack) = hung_on else { continue };
        let section = SectionId(fabric.sections.len());
        let mut at = fabric[stack].lower;
        let mut beads = Vec::with_capacity(strand.beads.len());
        for (place, &letter) in strand.beads.iter().enumerate() {
            let length = needs.bead(letter).length;
            let spot = Spot(fabric.beads.len());
            let centre = Point { x: at.x, y: at.y + length / 2.0 };
            fabric.beads.push(Lying { spot, letter, centre, turned: 0.0, section, stack: None, place });
            beads.push(spot);
            at.y += length;
        }
        let number = match from {
            Side::Left => source + 1,
            Side::Right => count - source,
        };
        fabric.sections.push(Section {
            kind: SectionKind::Strand,
            number,
            source,
            from,
            manner: Manner::Strand,
            stacks: Vec::new(),
            beads,
            hangs_on: Some(stack),
            lies: None,
        });
    }
}

/// Works the strands in the order of their numbers. The needle stands at the upper end of the stack that the
/// first one hangs on; it goes from stack to stack the shortest way and leaves the thread at the upper end of the
/// last one's. `before` each strand a new length of thread may be joined.
pub(super) fn work(
    needle: &mut Needle,
    needs: &Needs,
    fabric: &Fabric,
    mut before: impl FnMut(&mut Needle, SectionId),
) {
    let mut strands: Vec<(SectionId, &Section)> = fabric.of_kind(SectionKind::Strand).collect();
    strands.sort_by_key(|(_, strand)| strand.number);
    for (section, strand) in strands {
        before(needle, section);
        needle.turn_to(Phase::Section(section), Manner::Strand);
        work_one(needle, needs, section, strand);
    }
}

/// Works one strand: down its stack, string it, skip the turning bead, back up the other beads
/// and the stack.
fn work_one(needle: &mut Needle, needs: &Needs, section: SectionId, strand: &Section) {
    let Some(stack) = strand.hangs_on else { return };
    let written = &needs.strands[strand.source];
    needle.room.give_back(stack);
    let down = Pass { stack, way: Way::Down };
    match needle.out_of() {
        // A second strand on the same stack: the thread turns back into it round the bridge beside it, so that the first
        // is held. Beside a stack alone in its row there is none: it goes round through the row above.
        Some(from) if from.stack == stack && needle.can_turn_back(from) => needle.turn_back(from),
        _ => needle.travel_to(|pass| pass == down),
    }
    if needle.out_of() != Some(down) {
        needle.pass(stack, Way::Down);
    }
    let top = needle.stands();
    let turns_at = Point { x: top.x, y: top.y + needs.turning_depth(written) };
    needle.string(strand.beads.clone(), [turns_at]);
    let line = strand.beads.len() - super::needs::turn_of(written);
    let back = strand.beads[..line].iter().rev().copied().collect();
    needle.make(MoveKind::ReturnUp { strand: section }, back, [top]);
    needle.pass(stack, Way::Up);
}
