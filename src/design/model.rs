//! What a checked design is. Only this stage can make one.

use super::film::Film;
use super::order::Order;
use super::photographs::Photographs;
use super::phrase::Phrase;
use super::running::Running;
use super::style::{CoverWay, HouseFont};
use crate::colour::Colour;
use crate::diagnostic::{Place, Source};
use crate::drawn::{Shape, Shine};
use crate::images::Image;
use crate::units::{Grams, Mm};
use std::sync::Arc;

/// Proof that the checks of this stage have passed: only `design` can make it.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked(pub(super) ());

/// A checked design with all that it needs of its palette and studio.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// File name without folder and extension: names the booklet (`heron-at-dusk`).
    pub slug: String,
    /// Title on the cover.
    pub title: Phrase,
    /// One or two sentences under the title; may be empty.
    pub summary: Phrase,
    /// Edition number, from 1.
    pub edition: u32,
    /// Date of the edition; `None` when the file gives none.
    pub date: Option<Date>,
    /// Skill level printed on the cover.
    pub skill: Skill,
    /// The letters in use order of the file's `colours:`; [`LetterId`] indexes this.
    pub letters: Vec<Letter>,
    /// The body.
    pub body: Body,
    /// The fringe.
    pub fringe: Fringe,
    /// Whether the second earring mirrors the first.
    pub pair: Pair,
    /// What the earring hangs from: mostly one guard or loop; of several, from left to right.
    pub hangings: Vec<Hanging>,
    /// The side row 1 starts from.
    pub start: Side,
    /// The thread of the body.
    pub body_thread: Thread,
    /// The thread of the fringe.
    pub fringe_thread: Thread,
    /// Lengths the maker allows on top of the path.
    pub allowances: Allowances,
    /// Findings used, with how many an earring takes.
    pub findings: Vec<Finding>,
    /// Colourways, in the order of the file.
    pub colourways: Vec<Colourway>,
    /// The name of the colourway this design stands in; `None` for the design as written.
    pub colourway: Option<String>,
    /// The whole palette.
    pub palette: Palette,
    /// Who sells it.
    pub studio: Studio,
    /// The maker's photographs.
    pub photographs: Photographs,
    /// A film of how it is made.
    pub film: Option<Film>,
    /// Proof of checking.
    pub checked: Checked,
}

/// Index into [`Design::letters`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct LetterId(pub usize);

/// Index into [`Palette::beads`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct BeadId(pub usize);

/// A letter of the design and the bead it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Letter {
    /// `A`–`Z` or `a`–`z`.
    pub symbol: char,
    /// The bead that is used: the replacement where the named one is discontinued.
    pub bead: BeadId,
    /// The bead the design names, when it is discontinued and `bead` stands in for it.
    pub replaces: Option<BeadId>,
    /// Where the letter is given.
    pub place: Place,
}

/// The bead-stitched body.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// The stitch of the rows on the foundation.
    pub stitch: StitchName,
    /// Beads in a stack: 1, 2 or 3.
    pub drop: usize,
    /// Rows in working order: the foundation and those above it, then those below it from the foundation down.
    pub rows: Vec<Row>,
    /// How many of them are the foundation and what lies above it.
    pub above: usize,
}

/// Names of stitches that a design file may ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub enum StitchName {
    /// Brick stitch on a ladder foundation.
    Brick,
}

/// One row of the body.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Half stacks between the left edge of the picture and the row's first stack.
    pub lead: usize,
    /// Stacks from left to right, as the earring hangs, seen from the front.
    pub stacks: Vec<Stack>,
    /// Where the row's upper line stands.
    pub place: Place,
}

/// One stack: its beads from top to bottom.
#[derive(Clone, Debug, PartialEq, Eq, Hash, serde::Serialize)]
pub struct Stack(pub Vec<LetterId>);

/// The fringe: strands that hang on stacks of the body.
#[derive(Clone, Debug, PartialEq)]
pub struct Fringe {
    /// Strands from left to right.
    pub strands: Vec<Strand>,
    /// Whether the file declares the fringe mirrored.
    pub mirrored: bool,
}

/// One strand of the fringe.
#[derive(Clone, Debug, PartialEq)]
pub struct Strand {
    /// Beads from the body down.
    pub beads: Vec<LetterId>,
    /// How many of the last beads the thread turns round: 1 is a turning bead, 3 a picot.
    pub turn: usize,
    /// The stack that it hangs on.
    pub hangs_on: StackPlace,
    /// Where the strand is written.
    pub place: Place,
}

/// A stack of the body: its row in working order and its number from the left, both from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct StackPlace {
    /// Index into [`Body::rows`].
    pub row: usize,
    /// Index into [`Row::stacks`].
    pub stack: usize,
}

/// Whether the two earrings of a pair are the same or mirror each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub enum Pair {
    /// Both alike.
    Same,
    /// The second is the mirror image of the first.
    Mirrored,
}

/// One guard or loop that the earring hangs from.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Hanging {
    /// What it is.
    pub by: Hang,
    /// The stacks of the top row that carry it, counted from the left, from 1; `None` where the design leaves it to
    /// the middle.
    pub on: Option<[usize; 2]>,
}

/// How the earring hangs from its ear wire.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub enum Hang {
    /// A thread guard on the top row.
    ThreadGuard,
    /// A closed loop of beads, in the order strung.
    Loop(Vec<LetterId>),
}

/// Left or right, as the earring hangs, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Side {
    /// The left.
    Left,
    /// The right.
    Right,
}

impl Side {
    /// The other side.
    #[must_use]
    pub fn other(self) -> Side {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }
}

/// Skill levels of pattern publishing (Craft Yarn Council standards: basic, easy, intermediate, complex).
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub enum Skill {
    /// For a first project.
    Basic,
    /// For one who knows the stitch.
    Easy,
    /// Several techniques.
    Intermediate,
    /// Needs experience.
    Complex,
}

/// A day of the Gregorian calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Date {
    /// Year.
    pub year: i32,
    /// Month, 1–12.
    pub month: u8,
    /// Day, 1–31.
    pub day: u8,
}

/// A named set of other beads for some letters.
#[derive(Clone, Debug, PartialEq)]
pub struct Colourway {
    /// What it is asked for by.
    pub key: String,
    /// Its name as printed.
    pub name: Phrase,
    /// The letters that change, with their new letter data.
    pub changes: Vec<(LetterId, Letter)>,
}

/// Everything that is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Palette {
    /// Beads, in the order of the file.
    pub beads: Vec<Bead>,
    /// Threads, in the order of the file.
    pub threads: Vec<Thread>,
    /// Findings, in the order of the file.
    pub findings: Vec<Finding>,
    /// Tools and needles.
    pub tools: Tools,
    /// Needle thickness, for fit; `None` when the palette gives none.
    pub needle: Option<Mm>,
    /// Currency of the prices, as printed (`EUR`); `None` when no prices are given.
    pub currency: Option<String>,
}

/// What the palette calls the tools.
#[derive(Clone, Debug, PartialEq)]
pub enum Tools {
    /// Names of the tools that steps use, where it gives any.
    ByUse(Vec<(Tool, Phrase)>),
    /// A list of the maker's own, to be printed as it is.
    Listed(Vec<Phrase>),
}

/// Tools that steps use, in the order in which they are listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// The needle.
    Needle,
    /// Cuts thread.
    Scissors,
    /// Two pairs, to open and close loops of wire.
    Pliers,
    /// Beads are sorted on it.
    Mat,
    /// Strands and the print are measured by it.
    Ruler,
}

/// A bead of the palette.
#[derive(Clone, Debug, PartialEq)]
pub struct Bead {
    /// Its key in the palette file.
    pub key: String,
    /// Its name as printed.
    pub name: Phrase,
    /// Its finish as printed; may be empty.
    pub finish: Phrase,
    /// What light does to it, where it is drawn as it looks.
    pub shine: Shine,
    /// Its colour, for charts and swatches.
    pub colour: Colour,
    /// The seller's supplier code.
    pub code: Option<String>,
    /// Where it is bought.
    pub supplier: Option<String>,
    /// Its shape.
    pub shape: Shape,
    /// Its size as named in the trade (`11/0`); `None` when only dimensions are given.
    pub size: Option<String>,
    /// Across the hole: the outer diameter.
    pub width: Mm,
    /// Along the hole (of a drop: its height as it hangs).
    pub length: Mm,
    /// Diameter of the hole.
    pub hole: Mm,
    /// Beads in one gram.
    pub per_gram: f64,
    /// What one pack holds and costs.
    pub pack: Option<Pack>,
    /// What is on the shelf.
    pub stock: Option<Grams>,
    /// The key of the bead that replaces it, when it is discontinued.
    pub replaced_by: Option<String>,
    /// Where it is given.
    pub place: Place,
}

/// A pack of beads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pack {
    /// What it holds.
    pub grams: Grams,
    /// What it costs, in the palette's currency.
    pub price: Option<f64>,
}

/// A thread of the palette.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Its key (`body`, `fringe`, or a name of the maker's).
    pub key: String,
    /// Its name as printed.
    pub name: Phrase,
    /// Its colour.
    pub colour: Colour,
    /// Its diameter.
    pub diameter: Mm,
    /// Whether it is stretched before use.
    pub stretch_first: bool,
    /// Length on a spool, and its price.
    pub spool: Option<Spool>,
    /// Length on the shelf.
    pub stock: Option<Mm>,
    /// Where it is given.
    pub place: Place,
}

/// A spool of thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spool {
    /// Thread on it.
    pub length: Mm,
    /// What it costs, in the palette's currency.
    pub price: Option<f64>,
}

/// A finding: thread guard, ear wire and the like.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Its key (`thread guard`, `ear wire`).
    pub key: String,
    /// Its name as printed.
    pub name: Phrase,
    /// What kind of ear wire it is; `None` for all other findings.
    pub kind: Option<EarWire>,
    /// How many one earring takes.
    pub per_earring: u32,
    /// Distance of its holes, of a thread guard.
    pub holes: Option<Mm>,
    /// Price of one, in the palette's currency.
    pub price: Option<f64>,
    /// How many are on the shelf.
    pub stock: Option<u32>,
    /// Where it is given.
    pub place: Place,
}

/// Kinds of ear wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EarWire {
    /// A wire bent to an open hook.
    Hook,
    /// A hook that a hinged lever closes behind the ear.
    LeverBack,
    /// A post with a ball in front and a clutch behind.
    Stud,
    /// A ring through the ear.
    Hoop,
}

/// Lengths the maker allows on top of the path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowances {
    /// Longest comfortable thread; longer ones are split.
    pub arm_span: Mm,
    /// Each tail.
    pub tail: Mm,
    /// Share added to the path for tension and handling (0.10 = 10 %).
    pub handling: f64,
    /// Share of spare beads (0.10 = 10 %).
    pub spare: f64,
}

impl Default for Allowances {
    /// What is allowed where neither studio nor design says otherwise.
    fn default() -> Allowances {
        Allowances {
            // One arm span, 1.6 to 1.8 m (several craft publications).
            arm_span: Mm(1800.0),
            // 3 to 4 inches. Common practice, no source.
            tail: Mm(100.0),
            // Common practice, no source.
            handling: 0.10,
            // For culling: 10 to 15 %. From memory, no source.
            spare: 0.10,
        }
    }
}

/// Who sells the booklet.
#[derive(Clone, Debug, PartialEq)]
pub struct Studio {
    /// Name.
    pub name: String,
    /// Web address; may be empty.
    pub web: String,
    /// Contact line; may be empty.
    pub contact: String,
    /// Copyright line; may be empty.
    pub copyright: Phrase,
    /// Terms of use; an empty line begins a paragraph.
    pub terms: Vec<Phrase>,
    /// Accent colour of rules and headings.
    pub accent: Colour,
    /// Ground of boxes and covers; `None` for a light one of the accent.
    pub tint: Option<Colour>,
    /// Fonts of the maker's, each for another use.
    pub fonts: Vec<HouseFont>,
    /// How the cover is arranged.
    pub cover: CoverWay,
    /// Head of every page; `None` for the built-in one.
    pub head: Option<Running>,
    /// Foot of every page, likewise.
    pub foot: Option<Running>,
    /// The sections in the maker's order; `None` for the language's.
    pub order: Option<Order>,
    /// Logo, read from its file, and what it shows.
    pub logo: Option<Picture>,
    /// Papers to make.
    pub paper: Vec<Paper>,
    /// Language of the booklet: the name of a folder of templates.
    pub language: String,
    /// The language that texts given once are written in: the studio file's.
    pub written_in: String,
    /// Where the studio file names the language; `None` when it does not, or another was asked for.
    pub language_at: Option<Place>,
    /// Which units come first.
    pub units: UnitOrder,
    /// Large print.
    pub large_print: bool,
    /// How many beads are worked in an hour, where the booklet shall say how long it takes.
    pub beads_an_hour: Option<u32>,
    /// The studio file; `None` where there is none.
    pub source: Option<Arc<Source>>,
}

/// An image with what it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The image; what it shows is told in the language of the booklet.
    pub image: Image,
    /// What it shows, in every language it is told in.
    pub shows: Phrase,
}

/// Paper sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8.5 × 11 in (ANSI/ASME Y14.1).
    Letter,
    /// 148 × 210 mm (ISO 216): half of A4.
    A5,
    /// 5.5 × 8.5 in: half of US Letter.
    HalfLetter,
}

impl Paper {
    /// The paper that two pages of this one lie on side by side, or this one where it is folded to pages half its size.
    #[must_use]
    pub fn sheet(self) -> Paper {
        match self {
            Paper::A4 | Paper::A5 => Paper::A4,
            Paper::Letter | Paper::HalfLetter => Paper::Letter,
        }
    }

    /// The pages that this paper is folded to, or this one where it is the half of another.
    #[must_use]
    pub fn half(self) -> Paper {
        match self {
            Paper::A4 | Paper::A5 => Paper::A5,
            Paper::Letter | Paper::HalfLetter => Paper::HalfLetter,
        }
    }
}

/// Which units a length is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub enum UnitOrder {
    /// Metric first, imperial in brackets.
    Metric,
    /// Imperial first, metric in brackets.
    Imperial,
}
