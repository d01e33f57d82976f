//! The body, row by row: what every stitch must say.

use super::brick::Brick;
use super::needle::Needle;
use super::{Phase, SectionId, Way};
use crate::design::{Side, StitchName};

/// A stitch: how the rows of a body are worked.
///
/// Stacks are counted from the side where the row starts, from 1. A row leaves the thread at that end of its last
/// stack which lies away from the row that it hangs on, where the next row starts.
pub(super) trait Stitch {
    /// Works row 1. The needle stands where the thread enters its first stack.
    fn foundation(&self, needle: &mut Needle, from: Side);

    /// Works a row on the row that it hangs on. The needle has come out of an outer stack of the row worked before.
    fn row(&self, needle: &mut Needle, row: SectionId);

    /// Where the thread enters the first stack of row 1: its lower end when strung up.
    fn foundation_starts(&self, stacks: usize) -> Way;
}

/// The stitch of a name.
pub(super) fn stitch_named(name: StitchName) -> &'static dyn Stitch {
    match name {
        StitchName::Brick => &Brick,
    }
}

/// The side a row starts from: each starts where the one before ended.
pub(super) fn starts_from(row: usize, start: Side) -> Side {
    if row.is_multiple_of(2) { start } else { start.other() }
}

/// Works some rows of the body; `before` each of them a new length of thread may be joined.
pub(super) fn work_rows(
    needle: &mut Needle,
    stitch: &dyn Stitch,
    rows: std::ops::Range<usize>,
    mut before: impl FnMut(&mut Needle, SectionId),
) {
    for row in rows.map(SectionId) {
        before(needle, row);
        let section = &needle.ground.fabric[row];
        needle.turn_to(Phase::Section(row), section.manner);
        match section.lies {
            None => stitch.foundation(needle, section.from),
            Some(_) => stitch.row(needle, row),
        }
    }
}
