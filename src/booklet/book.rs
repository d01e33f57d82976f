//! What every section is made from, and how beads and runs are written.

use super::record::Record;
use super::sections::steps::StepPlan;
use super::wording::NBSP;
use super::words::{Words, number_ranges, spaced};
use super::{LegendEntry, Place, Placed, Swatch};
use crate::booklet::Word;
use crate::design::{Bead, Design, EarWire, LetterId, Paper, Side};
use crate::drawn::Shape;
use crate::stitch::{Anchor, BeadRun, SectionId, Spot, StackRun, ThreadUse, Work};
use crate::tally::Tally;
use std::cell::OnceCell;
use std::collections::BTreeSet;

/// Between runs: wider than between count and letters, so that a run is seen as one (and programs that read
/// the page find its spaces); a line may break after the dot, never before it.
pub(super) const RUN_SEPARATOR: &str = "\u{a0}\u{a0}·\u{a0} ";

/// Which edition of a booklet is to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Edition {
    /// Paper.
    pub paper: Paper,
    /// To be read without colour.
    pub grey: bool,
    /// Large print.
    pub large_print: bool,
    /// To be read on a tablet, a row or a step a screen.
    pub tablet: bool,
    /// A personal line on every page.
    pub stamp: Option<String>,
    /// Digest of all that goes into the booklet, kept in its metadata.
    pub digest: String,
    /// Its named parts.
    pub digest_parts: Vec<(String, String)>,
    /// What the edition before showed, where that is known.
    pub before: Option<Record>,
}

/// How many beads of a letter a chart shows, and how many one earring takes.
#[derive(Clone, Copy)]
pub(super) struct Counted {
    pub here: usize,
    pub one: usize,
}

/// What every section is made from.
pub(super) struct Book<'a> {
    /// The earring of the pair that it is about, 1 or 2.
    pub earring: u8,
    pub design: &'a Design,
    pub work: &'a Work,
    pub tally: &'a Tally,
    pub words: Words<'a>,
    pub edition: &'a Edition,
    /// Pattern of each letter in a booklet without colour.
    pub patterns: Vec<Option<u8>>,
    /// The steps, planned once.
    pub steps: OnceCell<StepPlan>,
}

impl Book<'_> {
    /// `A B D C`: beads in the order strung.
    pub(super) fn spaced(&self, beads: &[LetterId]) -> String {
        spaced(beads.iter().map(|&l| self.design.symbol(l)))
    }

    /// `3 AB · 1 BB`: runs of stacks.
    pub(super) fn stack_runs(&self, runs: &[StackRun]) -> String {
        let texts = runs.iter().map(|r| format!("{}{NBSP}{}", r.count, self.design.symbols(&r.beads)));
        texts.collect::<Vec<_>>().join(RUN_SEPARATOR)
    }

    /// `2 A · 1 B`: runs of beads.
    pub(super) fn bead_runs(&self, runs: &[BeadRun]) -> String {
        let texts = runs.iter().map(|r| format!("{}{NBSP}{}", r.count, self.design.symbol(r.letter)));
        texts.collect::<Vec<_>>().join(RUN_SEPARATOR)
    }

    /// `two-drop` and the like.
    pub(super) fn drop_name(&self) -> String {
        self.words.fixed(match self.design.body.drop {
            1 => Word::NameDrop1,
            2 => Word::NameDrop2,
            _ => Word::NameDrop3,
        })
    }

    /// `left` or `right`.
    pub(super) fn side(&self, side: Side) -> String {
        self.words.fixed(match side {
            Side::Left => Word::NameLeft,
            Side::Right => Word::NameRight,
        })
    }

    /// The side that a row starts from: `from the left` or `from the right`.
    pub(super) fn side_started(&self, side: Side) -> String {
        self.words.fixed(match side {
            Side::Left => Word::NameStartsLeft,
            Side::Right => Word::NameStartsRight,
        })
    }

    /// The side that stacks are counted from: `from the left`.
    pub(super) fn side_counted(&self) -> String {
        self.words.fixed(Word::NameFromLeft)
    }

    /// A bead shape's name.
    pub(super) fn shape(&self, shape: Shape) -> String {
        self.words.fixed(match shape {
            Shape::Cylinder => Word::NameCylinder,
            Shape::Round => Word::NameRound,
            Shape::Drop => Word::NameDrop,
            Shape::Bugle => Word::NameBugle,
            Shape::Faceted => Word::NameFaceted,
            Shape::Cube => Word::NameCube,
        })
    }

    /// `body` or `fringe`.
    pub(super) fn thread_use(&self, thread: ThreadUse) -> String {
        self.words.fixed(match thread {
            ThreadUse::Body => Word::NameBody,
            ThreadUse::Fringe => Word::NameFringe,
        })
    }

    /// What the earring hangs by: `thread guard`, `2 thread guards`.
    pub(super) fn hang_name(&self) -> String {
        let loops = self.work.loops().count();
        let guards = self.work.hangings.len() - loops;
        match (guards, loops) {
            (1, 0) => self.words.fixed(Word::NameThreadGuard),
            (0, 1) => self.words.fixed(Word::NameLoop),
            _ => self.words.say(Word::NameHangings, minijinja::context! { guards, loops }),
        }
    }

    /// Of the ear wire: `of the ear wire`.
    pub(super) fn of_wire(&self) -> String {
        self.words.fixed(match self.design.ear_wire() {
            EarWire::Hook => Word::WireOfHook,
            EarWire::LeverBack => Word::WireOfLeverBack,
            EarWire::Stud => Word::WireOfStud,
            EarWire::Hoop => Word::WireOfHoop,
        })
    }

    /// The beads of a loop as runs, in the order strung.
    pub(super) fn loop_runs(&self, ring: SectionId) -> String {
        let letters = self.work.loop_letters(ring);
        let runs = letters.chunk_by(|a, b| a == b).map(|run| BeadRun { count: run.len(), letter: run[0] });
        self.bead_runs(&runs.collect::<Vec<_>>())
    }

    /// What a swatch says to those who cannot see it.
    pub(super) fn swatch_alt(&self, symbol: char, bead: &Bead) -> String {
        let values = minijinja::context! { letter => symbol.to_string(), name => self.words.own(&bead.name) };
        self.words.say(Word::ChartSwatchAlt, values)
    }

    /// A letter's bead shown by itself.
    pub(super) fn swatch(&self, letter: LetterId) -> Swatch {
        let bead = self.design.bead(letter);
        Swatch {
            letter: Some(self.design.symbol(letter)),
            colour: bead.colour,
            shape: bead.shape,
            pattern: self.patterns[letter.0],
            alt: self.swatch_alt(self.design.symbol(letter), bead),
        }
    }

    /// Legend of some letters, with how many of each are shown and how many one earring takes.
    pub(super) fn legend(&self, letters: impl Iterator<Item = (LetterId, Counted)>) -> Vec<LegendEntry> {
        letters
            .map(|(letter, Counted { here, one })| LegendEntry {
                swatch: self.swatch(letter),
                name: self.words.own(&self.design.bead(letter).name),
                note: {
                    let here = (here < one).then_some(here);
                    self.words.say(Word::ChartLegendNote, minijinja::context! { here, one })
                },
            })
            .collect()
    }

    /// Beads that the earring is made of, whichever letters stand for them.
    pub(super) fn colours(&self) -> usize {
        self.tally.beads.iter().filter(|b| b.one > 0).map(|b| b.bead).collect::<BTreeSet<_>>().len()
    }

    /// Letters that are used at all, with their count in one earring.
    pub(super) fn used(&self) -> Vec<(LetterId, usize)> {
        self.tally.beads.iter().filter(|b| b.one > 0).map(|b| (b.letter, b.one)).collect()
    }

    /// The short mark of an anchor on the chart: lower-case Roman numerals, which are no bead counts.
    pub(super) fn anchor_mark(&self, anchor: usize) -> String {
        const TENS: [&str; 10] = ["", "x", "xx", "xxx", "xl", "l", "lx", "lxx", "lxxx", "xc"];
        const ONES: [&str; 10] = ["", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix"];
        let number = anchor + 1;
        match TENS.get(number / 10) {
            Some(tens) => format!("{tens}{}", ONES[number % 10]),
            None => number.to_string(),
        }
    }

    /// The mark of an anchor in a marked text, a link to the chart: see [`Place::mark_written`].
    pub(super) fn anchor_link(&self, anchor: usize) -> String {
        format!("[{}]({})", self.anchor_mark(anchor), Place::mark_written(self.earring, anchor))
    }

    /// A place of this earring.
    pub(super) fn place(&self, what: Placed) -> Place {
        Place { earring: self.earring, what }
    }

    /// The marks of the anchors of a join: where one length ends, and where the next begins.
    pub(super) fn join_marks(&self, section: SectionId) -> impl Iterator<Item = String> {
        let anchors = self.work.anchors.iter().enumerate();
        anchors.filter(move |(_, anchor)| anchor.join == Some(section)).map(|(i, _)| self.anchor_link(i))
    }

    /// `row 5, stacks 3 and 4 from the left`: an anchor's place.
    pub(super) fn anchor_place(&self, anchor: &Anchor) -> String {
        let (row, [first, second]) = anchor.numbers(&self.work.fabric);
        let side = self.side_counted();
        self.words.say(
            Word::StepsPlace,
            minijinja::context! { row => row, first => first, second => second, side => side },
        )
    }

    /// `rows 3–5, 7 and strand 2`: where beads lie.
    pub(super) fn where_spots(&self, spots: &[Spot]) -> String {
        let found = self.work.whereabouts(spots);
        let mut parts = Vec::new();
        if !found.rows.is_empty() {
            parts.push(self.words.say(
                Word::FitRows,
                minijinja::context! { rows => found.rows.len(), list => number_ranges(&found.rows) },
            ));
        }
        if !found.strands.is_empty() {
            parts.push(self.words.say(
                Word::FitStrands,
                minijinja::context! { strands => found.strands.len(), list => number_ranges(&found.strands) },
            ));
        }
        if found.in_loop {
            parts.push(self.words.fixed(Word::FitLoop));
        }
        self.words.list(&parts)
    }
}
