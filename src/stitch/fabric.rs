//! The fabric: every bead of one earring with its place, the stacks and sections that the beads make, and
//! the thread bridges that the path has laid.
//!
//! Beads, stacks, bridges and sections are known by number only. What a number stands for, which stack lies
//! beside which and where, is asked of the [`Fabric`]; nobody reckons with the numbers.

use super::{Manner, Way};
use crate::design::{LetterId, Side};
use crate::units::Point;
use serde::Serialize;
use std::ops::Index;

/// One bead of the earring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Spot(pub(super) usize);

impl Spot {
    /// Which of [`Fabric::beads`] it is.
    #[must_use]
    pub fn number(self) -> usize {
        self.0
    }
}

/// A stack: one or more beads on one line of thread, worked as one stitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct StackId(pub(super) usize);

/// A thread bridge between two neighbouring stacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct BridgeId(pub(super) usize);

/// What is worked in one go and has one line in a chart of words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct SectionId(pub(super) usize);

/// Where a bead lies, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lying {
    /// Which bead.
    pub spot: Spot,
    /// Its letter.
    pub letter: LetterId,
    /// Its centre.
    pub centre: Point,
    /// How far its hole is turned from upright, in degrees clockwise (beads of a loop).
    pub turned: f64,
    /// The section it belongs to.
    pub section: SectionId,
    /// The stack it lies in; none in a loop or a strand.
    pub stack: Option<StackId>,
    /// Its number from 0: in its stack from the top, in a loop as strung, in a strand from what it hangs on down.
    pub place: usize,
}

/// A stack of a row.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stack {
    /// The section it belongs to.
    pub section: SectionId,
    /// Its number in its section from the left, from 0.
    pub place: usize,
    /// The line of stacks side by side that it lies in: 0 is the lowest.
    pub line: usize,
    /// Its beads from top to bottom.
    pub beads: Vec<Spot>,
    /// The upper end of its hole.
    pub upper: Point,
    /// The lower end of its hole.
    pub lower: Point,
}

impl Stack {
    /// An end of its hole: `Up` the upper, `Down` the lower.
    #[must_use]
    pub fn end(&self, end: Way) -> Point {
        match end {
            Way::Up => self.upper,
            Way::Down => self.lower,
        }
    }
}

/// Thread that lies between two neighbouring stacks at one edge. It is there because a move has laid it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Hash)]
pub struct Bridge {
    /// The left stack and the right one.
    pub stacks: [StackId; 2],
    /// The edge: `Up` the upper.
    pub edge: Way,
}

/// What kind of thing a section is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum SectionKind {
    /// A row of stacks.
    Row,
    /// A closed loop of beads.
    Loop,
    /// A strand of the fringe.
    Strand,
}

/// A section: a row, the loop, a strand.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Section {
    /// What it is.
    pub kind: SectionKind,
    /// Its number among its kind in working order, from 1.
    pub number: usize,
    /// Which of the design's rows, from 0 in working order, or strands, from 0 from the left, it is worked from.
    pub source: usize,
    /// The side it is worked from; of a strand, the one that the fringe is.
    pub from: Side,
    /// How it begins.
    pub manner: Manner,
    /// Its stacks from left to right; none in a loop or a strand.
    pub stacks: Vec<StackId>,
    /// Its beads: of a row by stack from the left, of a loop as strung, of a strand from what it hangs on down.
    pub beads: Vec<Spot>,
    /// The stack that a strand hangs on.
    pub hangs_on: Option<StackId>,
    /// How a row lies on the one it hangs on; none of the foundation, a loop or a strand.
    pub lies: Option<Lies>,
}

/// How a row lies on the row that it hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Lies {
    /// The row that it hangs on.
    pub on: SectionId,
    /// Away from that row: `Up` above the foundation, `Down` below it.
    pub away: Way,
    /// Half stacks from the end of that row to the end of this one at the side where it starts; negative inwards.
    pub starts: i32,
    /// The same at the side where it ends.
    pub ends: i32,
}

impl Lies {
    /// Stacks beyond the one that overhangs, where the row starts and where it ends.
    #[must_use]
    pub fn built_out(self) -> [usize; 2] {
        [self.starts, self.ends].map(|out| usize::try_from((out - 1) / 2).unwrap_or(0))
    }
}

impl Section {
    /// Number of a stack counted from the side where the section starts, from 1.
    #[must_use]
    pub fn counted(&self, place: usize) -> usize {
        match self.from {
            Side::Left => place + 1,
            Side::Right => self.stacks.len() - place,
        }
    }
}

/// Everything there is of one earring.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Fabric {
    /// Rows in working order, the loop, strands from left to right.
    pub sections: Vec<Section>,
    /// Stacks by section, from left to right.
    pub stacks: Vec<Stack>,
    /// Bridges in the order laid.
    pub bridges: Vec<Bridge>,
    /// Beads by section.
    pub beads: Vec<Lying>,
}

impl Fabric {
    /// Every section of a kind, with its name.
    pub fn of_kind(&self, kind: SectionKind) -> impl DoubleEndedIterator<Item = (SectionId, &Section)> {
        let named = self.sections.iter().enumerate().map(|(id, section)| (SectionId(id), section));
        named.filter(move |(_, section)| section.kind == kind)
    }

    /// Every stack, with its name.
    pub fn named_stacks(&self) -> impl DoubleEndedIterator<Item = (StackId, &Stack)> {
        self.stacks.iter().enumerate().map(|(id, stack)| (StackId(id), stack))
    }

    /// Beads of a section.
    pub fn beads_of(&self, section: SectionId) -> impl DoubleEndedIterator<Item = &Lying> + Clone {
        self[section].beads.iter().map(|spot| &self[*spot])
    }

    /// Beads of a kind of section.
    pub fn beads_of_kind(&self, kind: SectionKind) -> impl DoubleEndedIterator<Item = &Lying> + Clone {
        self.beads.iter().filter(move |lying| self[lying.section].kind == kind)
    }

    /// The topmost line of stacks.
    #[must_use]
    pub fn top_line(&self) -> Option<usize> {
        self.stacks.iter().map(|stack| stack.line).max()
    }

    /// The stacks of a line from left to right.
    pub fn line(&self, line: usize) -> impl DoubleEndedIterator<Item = (StackId, &Stack)> {
        self.named_stacks().filter(move |(_, stack)| stack.line == line)
    }

    /// Number of a stack counted from the side where its row starts, from 1.
    #[must_use]
    pub fn stack_number(&self, stack: StackId) -> usize {
        let stack = &self[stack];
        self[stack.section].counted(stack.place)
    }

    /// The number of the row that a stack belongs to.
    #[must_use]
    pub fn row_number(&self, stack: StackId) -> usize {
        self[self[stack].section].number
    }

    /// Stacks of a section beyond the one that overhangs, where it starts and where it ends: see [`Lies::built_out`].
    #[must_use]
    pub fn built_out(&self, section: SectionId) -> [usize; 2] {
        self[section].lies.map_or([0, 0], Lies::built_out)
    }

    /// A bead's address for a person: `row 5, stack 3, bead 1`, from the left and from the top; `strand 4, bead 12`.
    #[must_use]
    pub fn address(&self, spot: Spot) -> String {
        let lying = &self[spot];
        let section = self.name(lying.section);
        let bead = lying.place + 1;
        match lying.stack {
            Some(stack) => format!("{section}, stack {}, bead {bead}", self[stack].place + 1),
            None => format!("{section}, bead {bead}"),
        }
    }

    /// A section's name for a person: `row 5`, `loop`, `strand 4`.
    #[must_use]
    pub fn name(&self, section: SectionId) -> String {
        let section = &self[section];
        match section.kind {
            SectionKind::Row => format!("row {}", section.number),
            SectionKind::Loop if self.of_kind(SectionKind::Loop).count() > 1 => {
                format!("loop {}", section.number)
            }
            SectionKind::Loop => "loop".to_owned(),
            SectionKind::Strand => format!("strand {}", section.number),
        }
    }
}

impl Index<Spot> for Fabric {
    type Output = Lying;
    fn index(&self, spot: Spot) -> &Lying {
        &self.beads[spot.0]
    }
}

impl Index<StackId> for Fabric {
    type Output = Stack;
    fn index(&self, stack: StackId) -> &Stack {
        &self.stacks[stack.0]
    }
}

impl Index<BridgeId> for Fabric {
    type Output = Bridge;
    fn index(&self, bridge: BridgeId) -> &Bridge {
        &self.bridges[bridge.0]
    }
}

impl Index<SectionId> for Fabric {
    type Output = Section;
    fn index(&self, section: SectionId) -> &Section {
        &self.sections[section.0]
    }
}
