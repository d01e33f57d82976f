//! Brick stitch: a ladder foundation, then rows that hang on the thread bridges of the row that they lie on.
//!
//! Common practice, no source. Stacks are counted from the side where the row starts; *away* is away from the row that
//! it hangs on, up above the foundation and down below it.
//!
//! * A row begins with two stacks at once, so that no thread shows at the edge: string 1 and 2, under the bridge of
//!   stack 2, through 2 away, 1 back, 2 away. Half a stack in, stack 2 lies over bridge 2; half a stack out, stack 1
//!   overhangs and stack 2 lies over bridge 1.
//! * Every further stack is strung alone, back; under its bridge; and through it away. A last stack that overhangs
//!   shares the last bridge. So does the only stack of a row.
//! * Further in the thread first walks through the row that it hangs on, back and away in turn, until it comes out
//!   where the row starts. If it would come out at the wrong edge it takes one stack more: the row's first stack lies
//!   between the two.
//! * Stacks further out are ladder-stitched on, one after the other, and the thread is brought back to where the next
//!   move begins; out of the wrong end of the last it turns round the thread bridge there.
//! * Below the foundation all is the same, turned upside down; the thread first comes down the edge.

use super::needle::Needle;
use super::rows::Stitch;
use super::{Lies, Manner, Pass, SectionId, StackId, Way, ladder};
use crate::design::Side;

/// Brick stitch.
pub(super) struct Brick;

impl Stitch for Brick {
    fn foundation(&self, needle: &mut Needle, from: Side) {
        ladder::work(needle, from);
    }

    fn row(&self, needle: &mut Needle, row: SectionId) {
        let section = &needle.ground.fabric[row];
        let Some(lies) = section.lies else { return };
        let mut stacks = section.stacks.clone();
        if section.from == Side::Right {
            stacks.reverse();
        }
        Row { stacks, lies, from: section.from }.work(needle);
    }

    fn foundation_starts(&self, stacks: usize) -> Way {
        ladder::way(1, stacks).back()
    }
}

/// A row to be worked.
struct Row {
    /// Its stacks from the side where it starts.
    stacks: Vec<StackId>,
    lies: Lies,
    from: Side,
}

impl Row {
    fn work(&self, needle: &mut Needle) {
        let [before, after] = self.lies.built_out();
        let hung = &self.stacks[before.min(self.stacks.len())..self.stacks.len().saturating_sub(after)];
        self.reach(needle);
        match *hung {
            [] => {}
            [only] => self.add(needle, only),
            [first, second, ref others @ ..] => {
                self.start(needle, first, second);
                self.build_out(needle, Manner::BuiltOut, first, self.stacks[..before].iter().rev().copied());
                self.come_back(needle, second);
                for (i, stack) in others.iter().enumerate() {
                    let overhangs = self.lies.ends > 0 && i + 1 == others.len();
                    needle.manner = match self.lies.away {
                        _ if overhangs => Manner::WiderEnd,
                        Way::Up => Manner::Onward,
                        Way::Down => Manner::OnwardBelow,
                    };
                    self.add(needle, *stack);
                }
            }
        }
        if let (Some(last), Some(outermost)) = (hung.last(), self.stacks.last()) {
            let beyond = self.stacks[self.stacks.len() - after..].iter().copied();
            self.build_out(needle, Manner::BuiltOutEnd, *last, beyond);
            self.come_back(needle, *outermost);
        }
    }

    /// Brings the thread to where the row starts: to the outer stack of the row that it hangs on, or further in.
    fn reach(&self, needle: &mut Needle) {
        let ground = needle.ground;
        let on = &ground.fabric[self.lies.on].stacks;
        // The stacks that its own first one touches: either will do.
        let inwards = usize::try_from((-self.lies.starts - 1) / 2).unwrap_or(0);
        let counted = |k: usize| match self.from {
            Side::Left => on.get(k).copied(),
            Side::Right => on.len().checked_sub(k + 1).and_then(|i| on.get(i)).copied(),
        };
        let away = self.lies.away;
        let at = [counted(inwards), counted(inwards + 1).filter(|_| self.lies.starts < 0)];
        needle.travel_along(self.lies.on, |pass| pass.way == away && at.contains(&Some(pass.stack)));
    }

    /// Starts with two stacks at once.
    fn start(&self, needle: &mut Needle, first: StackId, second: StackId) {
        let (away, back) = (self.lies.away, self.lies.away.back());
        needle.string_stacks(&[(first, away), (second, back)]);
        needle.under_bridge_of(second, back);
        needle.pass(second, away);
        needle.pass(first, back);
        needle.pass(second, away);
    }

    /// Adds a stack.
    fn add(&self, needle: &mut Needle, stack: StackId) {
        let (away, back) = (self.lies.away, self.lies.away.back());
        needle.string_stacks(&[(stack, back)]);
        needle.under_bridge_of(stack, back);
        needle.pass(stack, away);
    }

    /// Ladder-stitches stacks on, outwards from one that hangs.
    fn build_out(
        &self,
        needle: &mut Needle,
        manner: Manner,
        from: StackId,
        stacks: impl Iterator<Item = StackId>,
    ) {
        let mut last = from;
        for stack in stacks {
            needle.manner = manner;
            needle.travel_to(|pass| pass.stack == last);
            let Some(Pass { way, .. }) = needle.out_of() else { return };
            needle.string_stacks(&[(stack, way.back())]);
            needle.pass(last, way);
            needle.pass(stack, way.back());
            last = stack;
        }
    }

    /// Brings the thread back to the end of a stack from which the row goes on.
    fn come_back(&self, needle: &mut Needle, stack: StackId) {
        let away = self.lies.away;
        needle.travel_round(|pass| pass == Pass { stack, way: away });
    }
}
