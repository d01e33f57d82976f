//! What a tally is.

use crate::design::{BeadId, LetterId};
use crate::stitch::{Spot, ThreadUse};
use crate::units::{Grams, Mm};
use serde::Serialize;

/// Everything counted for one design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tally {
    /// Beads by letter, in the order of the design's letters; letters never used have a count of 0.
    pub beads: Vec<BeadCount>,
    /// Beads of one earring.
    pub beads_one: usize,
    /// Beads of the pair.
    pub beads_pair: usize,
    /// Threads, a row each.
    pub threads: Vec<ThreadCount>,
    /// Findings, a row each, in the order of the design.
    pub findings: Vec<FindingCount>,
    /// Cost of what has to be bought for one pair, threads and findings included; `None` unless every
    /// bead used, thread and finding has a price.
    pub cost: Option<f64>,
    /// Finished size of one earring, with a nominal ear wire left out.
    pub size: FinishedSize,
    /// Weight of the beads of one earring.
    pub weight: Grams,
    /// Fit of the threads in the beads, only where it is not plainly loose, worst first.
    pub fit: Vec<Fit>,
}

/// One letter's beads.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeadCount {
    /// The letter.
    pub letter: LetterId,
    /// The bead of the palette.
    pub bead: BeadId,
    /// In the body and loop of one earring.
    pub body: usize,
    /// In the fringe of one earring.
    pub fringe: usize,
    /// In one earring.
    pub one: usize,
    /// In the pair.
    pub pair: usize,
    /// Grams for the pair, with the spare allowance.
    pub grams: Grams,
    /// Packs for the pair, with the spare allowance; `None` when the palette gives no pack.
    /// Two letters that share a bead share its packs: the first one carries them, the other has `Some(0)`.
    pub packs: Option<u32>,
    /// Price of those packs; `None` when the palette gives no price.
    pub price: Option<f64>,
}

/// One thread's lengths.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadCount {
    /// Which thread.
    pub thread: ThreadUse,
    /// The lengths to cut for one earring, in working order.
    pub cuts: Vec<Mm>,
    /// Their sum, for the pair.
    pub pair: Mm,
    /// Spools to buy for the pair; `None` when the palette gives no spool.
    pub spools: Option<u32>,
    /// Price of those spools.
    pub price: Option<f64>,
}

/// One finding's count.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingCount {
    /// Index into [`crate::design::Design::findings`].
    pub finding: usize,
    /// For one earring.
    pub one: u32,
    /// For the pair.
    pub pair: u32,
    /// Price for the pair.
    pub price: Option<f64>,
}

/// How big the finished earring is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FinishedSize {
    /// Across the widest part.
    pub width: Mm,
    /// The body alone, top row to foundation.
    pub body_height: Mm,
    /// Longest strand.
    pub longest_strand: Mm,
    /// From the top of the beadwork (loop included) to the end of the longest strand.
    pub drop: Mm,
}

/// How well threads pass a bead's hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum FitGrade {
    /// Passes with room to spare.
    Fits,
    /// Passes, but over 85 % of the limit.
    Tight,
    /// Will not pass.
    WillNotPass,
}

/// One group of beads with the same fit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fit {
    /// How well.
    pub grade: FitGrade,
    /// The bead.
    pub bead: BeadId,
    /// The beads concerned, in the order of the path.
    pub spots: Vec<Spot>,
    /// Passes through the fullest of them, thread by thread.
    pub passes: Vec<(ThreadUse, usize)>,
    /// Diameter of the smallest circle that holds those threads and the needle on its last pass.
    pub needed: Mm,
    /// The hole.
    pub hole: Mm,
}
