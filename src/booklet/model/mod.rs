//! What a booklet is: the tree of blocks that layout sets on pages.

mod chart;
mod place;
mod plate;
mod screen;
mod table;

pub use chart::*;
pub use place::*;
pub use plate::*;
pub use screen::*;
pub use table::*;

use crate::colour::Colour;
use crate::design::{CoverWay, Date, Paper};
use crate::drawn::{Drawing, OwnFaces};
use crate::images::Image;
use crate::units::{Mm, Size};
use serde::Serialize;

/// A whole booklet or bench copy.
#[derive(Clone, Debug, PartialEq)]
pub struct Booklet {
    /// What the file says of itself.
    pub meta: Meta,
    /// How it is to be set.
    pub setting: Setting,
    /// The line at the head of every page but the cover.
    pub running_title: String,
    /// The copyright line at the foot of every page.
    pub foot_line: String,
    /// What the maker has at the head of every page in place of title and section.
    pub head: Option<RunningLine>,
    /// What the maker has at the foot of every page in place of copyright and number.
    pub foot: Option<RunningLine>,
    /// A discreet personal line on every page; `None` for none.
    pub stamp: Option<String>,
    /// Words that layout needs: see [`PageWords`].
    pub words: PageWords,
    /// The sections in order.
    pub sections: Vec<Section>,
}

/// What the file says of itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// Author: the studio.
    pub author: String,
    /// Subject: the summary.
    pub subject: String,
    /// Keywords.
    pub keywords: Vec<String>,
    /// Language tag (BCP 47): `en-GB`.
    pub language: String,
    /// Date of the edition; `None` leaves the file's dates to the caller.
    pub date: Option<Date>,
    /// Edition number.
    pub edition: u32,
    /// Copyright line.
    pub rights: String,
    /// Digest of everything that went into the booklet, as hexadecimal; stands in the file's metadata.
    pub digest: String,
    /// The parts of the digest by name (`bead ink`, `studio`, …), so that a later run can say what changed.
    pub digest_parts: Vec<(String, String)>,
    /// Personal line, when stamped.
    pub stamp: Option<String>,
}

/// How a booklet is to be set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Setting {
    /// Paper.
    pub paper: Paper,
    /// Large print: body text at 18 pt, charts with cells of 7 mm at least.
    pub large_print: bool,
    /// In grey, to be read without colour: beads with like greys carry patterns.
    pub grey: bool,
    /// Accent colour of rules and headings.
    pub accent: Colour,
    /// Ground of boxes and covers; `None` for a light one of the accent.
    pub tint: Option<Colour>,
    /// Fonts of the maker's.
    pub fonts: OwnFaces,
    /// Bench copy: big type, little ink, no cover.
    pub bench: bool,
    /// To be read on a tablet: pages like its screen, whatever the paper, with links to go on by.
    pub tablet: bool,
}

/// A line at the head or foot of every page: what stands at the left, in the middle and at the right.
#[derive(Clone, Debug, PartialEq)]
pub struct RunningLine(pub [Vec<RunningPart>; 3]);

/// A part of what stands there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RunningPart {
    /// Words.
    Words(String),
    /// The title of the page's section.
    Section,
    /// The page's number.
    Page,
    /// How many pages there are.
    Pages,
}

/// Words that layout sets by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PageWords {
    /// `Page 3 of 12`: the page and how many there are.
    pub page_of: Late<2>,
    /// `Cover`, the label of the cover's page.
    pub cover: String,
    /// `Back`, the label of the back's page.
    pub back: String,
    /// `continued`, behind the heading of a table or chart that runs over.
    pub continued: String,
    /// `Part 1 of 2` of a chart split over pages: the part and how many there are.
    pub chart_part: Late<2>,
    /// The same of a part that shows beads of another one again, faded.
    pub chart_part_pale: Late<2>,
    /// Names of the optional layers: letters, thread marks, grid.
    pub layer_letters: String,
    /// See `layer_letters`.
    pub layer_marks: String,
    /// See `layer_letters`.
    pub layer_grid: String,
    /// `Row 5`: what a box beside the chart is for.
    pub row: Late<1>,
    /// `from the left`.
    pub from_left: String,
    /// `from the right`.
    pub from_right: String,
    /// `Strand 5`.
    pub strand: Late<1>,
    /// `Step 5`.
    pub step: Late<1>,
    /// `on the colour chart`: where a link leads.
    pub on_chart: String,
    /// `in the word chart`.
    pub in_rows: String,
    /// `in the bead list`.
    pub in_strands: String,
    /// What is pressed on every screen of a tablet edition: `Back`, `Contents`, `Chart`, `Forward`.
    pub screen_links: [String; 4],
}

/// Words with `N` numbers in them that only layout knows.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Late<const N: usize>(pub Vec<LatePiece>);

/// A piece of words with late numbers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum LatePiece {
    /// Words as they are.
    Words(String),
    /// One of the numbers, by its index.
    Value(usize),
}

impl<const N: usize> Late<N> {
    /// The words with these numbers.
    #[must_use]
    pub fn with(&self, numbers: [usize; N]) -> String {
        let piece = |piece: &LatePiece| match piece {
            LatePiece::Words(words) => words.clone(),
            LatePiece::Value(i) => numbers.get(*i).map_or_else(String::new, usize::to_string),
        };
        self.0.iter().map(piece).collect()
    }
}

/// A section of the booklet.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its name in the template's order, also the target of links (`materials`).
    pub name: String,
    /// Its title, a heading of level 1; empty for the cover, which brings its own.
    pub title: String,
    /// Whether it would rather begin a page.
    pub new_page: bool,
    /// Whether it should face what stands before it, the section before or what floats there, where each fits one page:
    /// on a right page, the other on the left.
    pub faces: bool,
    /// Whether it stands in the table of contents and the bookmarks.
    pub listed: bool,
    /// What is in it.
    pub blocks: Vec<Block>,
}

/// A block of a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// The cover: fills a page by itself.
    Cover(Cover),
    /// A heading below the section's title: level 2 or 3. Kept with what follows.
    Heading { level: u8, text: Text },
    /// A paragraph.
    Paragraph { text: Text, style: ParagraphStyle },
    /// A list; numbered or with bullets.
    List { numbered: bool, items: Vec<Text> },
    /// A list whose items hold blocks; numbered from a number, or with bullets.
    Items { from: Option<usize>, items: Vec<Vec<Block>> },
    /// A table whose heading row repeats over pages.
    Table(Table),
    /// A drawing with caption and alternative text.
    Figure(Figure),
    /// Signs, each with what it means beside it.
    Key(Vec<Figure>),
    /// A colour chart, scaled to the page or split over pages.
    Chart(Chart),
    /// A colour chart where one page can hold it with letters of full size; else other blocks in its place.
    ChartOnOnePage { chart: Chart, otherwise: Vec<Block> },
    /// A numbered step.
    Step(Step),
    /// A row or strand of a tablet edition: fills pages by itself.
    Screen(Screen),
    /// Things to press, side by side.
    Buttons(Vec<Button>),
    /// Things to press, numbered, one below the other.
    Index(Vec<Button>),
    /// A code that a camera reads, with words beside it.
    Code(Code),
    /// Photographs on pages of their own, as large as they can stand there.
    Pictures(Vec<Figure>),
    /// The back: fills the last page by itself.
    Back(Back),
    /// A sheet of cards: fills a page by itself.
    EarringCards(EarringCards),
    /// Something set apart in a box.
    Callout { kind: CalloutKind, title: Text, blocks: Vec<Block> },
    /// The linked table of contents.
    Contents,
    /// Lines to write on, as many as the page has room for. A section with them is a page to take out: nothing of another
    /// section floats there.
    WritingLines(WritingLines),
    /// Blocks kept on one page.
    Together(Vec<Block>),
    /// Blocks kept on one page, which may be the end of another section: where they fill what is left of a page.
    Float(Floating),
    /// A line to cut along, above what is to be taken out; kept with it.
    CutLine,
    /// What follows would rather begin a page.
    NewPage,
}

impl Block {
    /// The chart of a block that is one, as large as its page.
    #[must_use]
    pub fn chart(&self) -> Option<&Chart> {
        match self {
            Block::Chart(chart) | Block::ChartOnOnePage { chart, .. } if chart.max_height.is_none() => {
                Some(chart)
            }
            _ => None,
        }
    }
}

/// Text with emphasis.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Text(pub Vec<TextRun>);

/// A run of text in one style.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TextRun {
    /// The words.
    pub text: String,
    /// Its style.
    pub style: RunStyle,
}

/// Style of a run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum RunStyle {
    /// As its paragraph.
    Plain,
    /// Strong.
    Strong,
    /// Emphasised.
    Emphasis,
    /// A link to a section, by its name.
    SectionLink(String),
    /// A link to a web address.
    WebLink(String),
    /// A link that looks as its words do: to a place, from one where it is such itself.
    Leads {
        /// Where it leads.
        to: Place,
        /// The place that it stands at; `None` for none.
        here: Option<Place>,
        /// Whether it is strong.
        strong: bool,
    },
}

impl Text {
    /// Words that lead to a place and stand at one themselves.
    #[must_use]
    pub fn leading(text: impl Into<String>, to: Place, here: Option<Place>, strong: bool) -> Text {
        Text(vec![TextRun { text: text.into(), style: RunStyle::Leads { to, here, strong } }])
    }
    /// Plain text.
    #[must_use]
    pub fn plain(text: impl Into<String>) -> Text {
        Text(vec![TextRun { text: text.into(), style: RunStyle::Plain }])
    }
    /// Text marked up as the templates mark it: `**strong**`, `_emphasis_` (at word edges), `[words](#section)`, `[words](https://…)`.
    #[must_use]
    pub fn marked(text: &str) -> Text {
        crate::booklet::markup::parse(text)
    }
    /// Its words without styles.
    #[must_use]
    pub fn words(&self) -> String {
        self.0.iter().map(|r| r.text.as_str()).collect()
    }
}

/// Style of a paragraph.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub enum ParagraphStyle {
    /// Running text.
    Body,
    /// Notes below tables and charts, smaller.
    Small,
}

/// What a number in a drawing stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct NumberedMove {
    /// The number.
    pub number: usize,
    /// What the hand does.
    pub what: Text,
}

/// A drawing in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The drawing.
    pub drawing: Drawing,
    /// What its numbers stand for, if it has any.
    pub moves: Vec<NumberedMove>,
    /// Words below it; may be empty.
    pub caption: Text,
    /// What the drawing says, for those who cannot see it.
    pub alt: String,
}

/// Blocks kept on one page, which may stand at the end of another section.
#[derive(Clone, Debug, PartialEq)]
pub struct Floating {
    /// The blocks.
    pub blocks: Vec<Block>,
    /// Its own line in the contents, if it has one: before that of the section that it is shown with.
    pub listed: Option<String>,
}

/// Lines to write on.
#[derive(Clone, Debug, PartialEq)]
pub struct WritingLines {
    /// Words above them; may be empty.
    pub words: Text,
    /// Fewer than these, and words with them, are left out, where none need be there.
    pub least: usize,
    /// Whether some must be there.
    pub needed: bool,
    /// Most of them.
    pub most: usize,
    /// What they are, for those who cannot see them.
    pub alt: String,
}

/// The cover.
#[derive(Clone, Debug, PartialEq)]
pub struct Cover {
    /// What kind of thing it is: stands over the title.
    pub kind: String,
    /// Title.
    pub title: String,
    /// Colourway, when the booklet is of one.
    pub colourway: Option<String>,
    /// One or two sentences.
    pub summary: Text,
    /// The drawn earring, or the seller's photo.
    pub art: CoverArt,
    /// What it shows.
    pub alt: String,
    /// Facts: a label and its value each (`Finished size`, `26 × 84 mm …`).
    pub facts: Vec<(String, String)>,
    /// Seller.
    pub studio: String,
    /// Seller's web address, may be empty.
    pub web: String,
    /// Edition line.
    pub edition: String,
    /// How it is arranged.
    pub way: CoverWay,
    /// Logo.
    pub logo: Option<Image>,
}

/// What a cover shows.
#[derive(Clone, Debug, PartialEq)]
pub enum CoverArt {
    /// The pair, drawn; may be scaled up to fill its place.
    Drawn(Drawing),
    /// The seller's photo.
    Photo(Image),
}

/// A numbered step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its number.
    pub number: usize,
    /// Its title, a heading of level 2.
    pub title: Text,
    /// Where the chart shows what it is about, and what it says there: a number or a mark.
    pub on_chart: Option<(Place, String)>,
    /// What to do.
    pub blocks: Vec<Block>,
    /// Diagrams, kept with the step.
    pub figures: Vec<Figure>,
}

/// A code that a camera reads, beside a link to the same place.
#[derive(Clone, Debug, PartialEq)]
pub struct Code {
    /// The code, with the white that it needs round it.
    pub drawing: Drawing,
    /// What stands beside it, a link.
    pub words: Text,
    /// What stands below that; may be empty.
    pub note: Text,
    /// Where both lead.
    pub address: String,
}

/// The back.
#[derive(Clone, Debug, PartialEq)]
pub struct Back {
    /// The seller's photograph.
    pub photograph: Figure,
    /// Seller.
    pub studio: String,
    /// Seller's web address, may be empty.
    pub web: String,
}

/// A sheet of cards that pairs are sold on, all alike.
#[derive(Clone, Debug, PartialEq)]
pub struct EarringCards {
    /// The size of one.
    pub size: Size,
    /// Which side of them.
    pub face: CardFace,
}

/// A side of a card.
#[derive(Clone, Debug, PartialEq)]
pub enum CardFace {
    /// The one that the pair hangs on.
    Front(CardFront),
    /// The other one.
    Back(CardBack),
}

/// The front of a card.
#[derive(Clone, Debug, PartialEq)]
pub struct CardFront {
    /// How far apart the two places to pierce are, and how far below the upper edge.
    pub holes: (Mm, Mm),
    /// Seller.
    pub studio: String,
    /// Title of the design.
    pub title: String,
    /// Colourway, when it is one.
    pub colourway: Option<String>,
    /// Seller's web address, a link; may be empty.
    pub web: Text,
    /// What the places to pierce are, for those who cannot see them.
    pub alt: String,
}

/// The back of a card.
#[derive(Clone, Debug, PartialEq)]
pub struct CardBack {
    /// How far below the upper edge the places to pierce are: where it can, all of it stands below them.
    pub holes_below: Mm,
    /// What it is about.
    pub title: String,
    /// Its paragraphs.
    pub texts: Vec<Text>,
    /// Lines at its foot.
    pub foot: Vec<Text>,
}

/// Kinds of callout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum CalloutKind {
    /// Good to know.
    Note,
    /// Count or measure before going on.
    Check,
    /// Take care.
    Caution,
}
