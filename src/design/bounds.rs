//! How much a file may ask for: every bound of the input, with its reason.
//!
//! Whatever is accepted is made in time and memory in proportion to its size. The bounds lie far
//! beyond what is beaded and printed; what lies beyond them is a slip of the keyboard, or not a design.

use crate::units::Mm;

/// Largest design, palette or studio file, in bytes. The largest body and fringe drawn as pictures take
/// 3 MB, a palette of 10,000 beads 2 MB.
pub const LARGEST_FILE: u64 = 4_000_000;
/// Largest file of an image, in bytes: the best phones and cameras write half as much.
pub(super) const LARGEST_IMAGE: u64 = 50_000_000;
/// Most values a file may hold once its aliases are written out: a palette of 10,000 beads.
pub(super) const MOST_NODES: usize = 200_000;
/// Deepest nesting of lists and mappings; the formats need five levels.
pub(super) const DEEPEST: usize = 24;
/// Most problems that are told of one design or folder of templates; more bury the first.
pub(crate) const MOST_TOLD: usize = 100;

/// Most beads of an earring: a body of 200 stacks by 400 rows in three-drop with its fringe.
pub(super) const MOST_BEADS: usize = 300_000;
/// Most stacks in a row: 640 mm of size 11/0.
pub(super) const MOST_STACKS: usize = 400;
/// Most rows of a body.
pub(super) const MOST_ROWS: usize = 2000;
/// Most beads in a stack: single-drop, two-drop, three-drop.
pub(super) const LARGEST_DROP: usize = 3;
/// Most strands of a fringe: more than stacks, so that the foundation is told first.
pub(super) const MOST_STRANDS: usize = 500;
/// Most beads of a strand or a loop: 2.6 m of size 11/0.
pub(super) const MOST_BEADS_OF_STRAND: usize = 2000;
/// Deepest nesting of groups in a strand.
pub(super) const DEEPEST_GROUP: usize = 8;
/// Most letters a design may have: `A`–`Z` and `a`–`z`.
pub(super) const MOST_LETTERS: usize = 52;
/// Most colourways of a design: each takes a swatch card of the booklet.
pub(super) const MOST_COLOURWAYS: usize = 100;
/// Most photographs of a design: more would be an album, and each is decoded for every booklet.
pub(super) const MOST_PHOTOGRAPHS: usize = 60;
/// Longest film, in seconds: a day.
pub(super) const LONGEST_FILM: u32 = 24 * 60 * 60;
/// Most texts of a list: tools, findings, paragraphs of the terms.
pub(super) const MOST_ITEMS: usize = 200;

/// Longest text of each kind, in characters.
pub(super) mod text {
    /// A title: four lines of a cover in large print.
    pub(in crate::design) const TITLE: usize = 120;
    /// A name, a code, a finish.
    pub(in crate::design) const NAME: usize = 200;
    /// A line on the cover or at the foot of every page: four lines at most, so that the foot holds it.
    pub(in crate::design) const LINE: usize = 300;
    /// The address of a film: a code for a camera grows with it, to 33 mm for so many characters.
    pub(in crate::design) const ADDRESS: usize = 200;
    /// A summary: one or two sentences, which the cover holds in every size.
    pub(in crate::design) const SUMMARY: usize = 500;
    /// What a picture shows: as long as it may take to read out.
    pub(in crate::design) const SHOWS: usize = 2000;
    /// A paragraph of the terms: a few pages.
    pub(in crate::design) const PARAGRAPH: usize = 10_000;
    /// The runs of a strand or a loop: each of its beads written out with blanks between.
    pub(in crate::design) const RUNS: usize = 10 * super::MOST_BEADS_OF_STRAND;
    /// A file name with its folders (`PATH_MAX` of Linux).
    pub(in crate::design) const PATH: usize = 4096;
}

/// Which lengths can be meant.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lengths {
    /// The shortest.
    pub least: Mm,
    /// The longest.
    pub most: Mm,
    /// What measures so much, for messages.
    pub of: &'static str,
}

const fn lengths(of: &'static str, least: f64, most: f64) -> Lengths {
    Lengths { least: Mm(least), most: Mm(most), of }
}

/// Width and length of a bead: seed beads of 24/0 are about 0.7 mm, bugles up to 35 mm.
pub(super) const BEAD: Lengths = lengths("a bead", 0.3, 50.0);
/// How many times as long as another a bead of the same design may be: a bugle of 35 mm among size 15/0
/// is 32 times. A chart in which the small ones can be read would take hundreds of pages beyond.
pub(super) const MOST_UNLIKE: f64 = 40.0;
/// A bead's hole.
pub(super) const HOLE: Lengths = lengths("a hole", 0.1, 20.0);
/// Thickness of a thread or needle: fine braid is 0.06 mm, cord for large beads 2 mm.
pub(super) const THICKNESS: Lengths = lengths("a thread or needle", 0.02, 3.0);
/// Distance of a thread guard's holes.
pub(super) const HOLES_APART: Lengths = lengths("the gap between two holes", 0.5, 50.0);
/// Thread on a spool: a cone of industry holds some kilometres.
pub(super) const SPOOL: Lengths = lengths("the thread on a spool", 100.0, 50_000_000.0);
/// Thread on the shelf.
pub(super) const STOCK: Lengths = lengths("a stock of thread", 1.0, 1_000_000_000.0);
/// An arm span: shorter threads would be all tail, and nobody's arms span more.
pub(super) const ARM_SPAN: Lengths = lengths("an arm span", 500.0, 3000.0);
/// A tail; how long it may be beside the arm span is checked apart.
pub(super) const TAIL: Lengths = lengths("a tail", 10.0, 1000.0);
