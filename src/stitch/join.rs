//! Joining: where a thread longer than an arm span is cut, and a new length begins.
//!
//! A length ends before a row or strand, as a thread does at its end: to a pair of stacks, wrapped round them, and two
//! stacks on. The new length is anchored the same way in a place of its own and comes out of the stack that the old
//! one came out of (common practice, no source).

use super::anchor::Chooser;
use super::needle::Needle;
use super::needs::Needs;
use super::work::{Followed, end_thread};
use super::{Anchor, Cut, Manner, Pass, Phase, SectionId, ThreadUse, plan, practice};
use crate::design::Allowances;
use crate::units::Mm;
use std::collections::BTreeSet;

/// Rows and strands before which a new length of a thread is joined.
pub(super) type Joins = BTreeSet<(ThreadUse, SectionId)>;

/// How often the places of joins are found anew, each time allowing for the longest anchors met so far. Every time
/// the allowance grows by a twentieth of an arm span or more, or all is well.
const TRIES: usize = 24;

/// Follows the threads in lengths of an arm span at most, as far as rows and strands allow: first in one length each,
/// which tells how long every row and strand is, then with joins, and once more where anchors turn out longer than
/// allowed for.
pub(super) fn in_lengths(allowances: &Allowances, follow: impl Fn(&Joins) -> Followed) -> Followed {
    let whole = follow(&Joins::new());
    let demands = plan::demands(&whole.body, &whole.tail, &whole.fringe);
    // Anchors at joins: at first as the longest known ones.
    let mut anchored = Mm::ZERO;
    let mut followed = whole;
    for _ in 0..TRIES {
        let joins: Joins =
            demands.iter().flat_map(|demand| plan::joins(demand, allowances, anchored)).collect();
        if joins.is_empty() {
            break;
        }
        followed = follow(&joins);
        let cuts = plan::cuts(&followed.body, &followed.tail, &followed.fringe, allowances);
        let too_long =
            |cut: &&Cut| cut.cut > allowances.arm_span && plan::is_splittable(&demands, &joins, cut);
        let Some(over) =
            cuts.iter().filter(too_long).map(|cut| cut.cut - allowances.arm_span).reduce(Mm::max)
        else {
            break;
        };
        anchored += over.max(allowances.arm_span / 20.0);
    }
    followed
}

/// Joins new lengths to a thread.
pub(super) struct Seam<'a> {
    /// Where.
    pub joins: &'a Joins,
    /// Chooses the places to anchor.
    pub chooser: &'a Chooser<'a>,
    /// What is stitched.
    pub needs: &'a Needs<'a>,
    /// All places to anchor so far.
    pub anchors: &'a mut Vec<Anchor>,
}

impl Seam<'_> {
    /// Ends the thread and begins a new length, if one is joined before a row or strand. The new one comes out where
    /// the old one did.
    pub fn before(&mut self, needle: &mut Needle, thread: ThreadUse, section: SectionId) {
        let Some(standing) = needle.out_of().filter(|_| self.joins.contains(&(thread, section))) else {
            return;
        };
        let ending = self.chooser.choose(&needle.worked(), standing, self.anchors, practice::ANCHOR_FAR);
        let anchor = self.anchors.len();
        self.anchors.push(ending.anchor(thread, false, Some(section)));
        end_thread(needle, &ending, (Phase::Ending(anchor), Manner::JoinEnd), anchor, self.needs);

        // Into the other end of that stack, and out where the old length came out.
        let from = Pass { way: standing.way.back(), ..standing };
        let beginning = self.chooser.choose(&needle.worked(), from, self.anchors, practice::ANCHOR_FAR);
        let anchor = self.anchors.len();
        self.anchors.push(beginning.anchor(thread, true, Some(section)));
        let entry = beginning.far_end(needle.ground);
        needle.begin_anew(entry.unwrap_or(needle.ground.hole_end(from.stack, from.way)));
        needle.turn_to(Phase::Beginning(anchor), Manner::JoinBegin);
        needle.leave_tail(self.needs.allowances.tail);
        beginning.begin(needle, anchor, self.needs.start);
        beginning.come_back(needle);
        needle.pass(standing.stack, standing.way);
    }
}
