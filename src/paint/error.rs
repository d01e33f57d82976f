//! What can stop the painter.

use crate::drawn::Face;
use crate::images::Fault;

/// Why a display list could not be painted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaintError {
    /// A glyph that its face does not have: it would be drawn as an empty box.
    MissingGlyph {
        /// Label of its page.
        page: String,
        /// Its face.
        face: Face,
        /// The text it stands for.
        text: String,
        /// The line it stands in.
        line: String,
    },
    /// A face that cannot be read or cut down to the glyphs used.
    Face {
        /// The face.
        face: Face,
        /// What the reader of fonts says.
        reason: String,
    },
    /// An image that cannot be decoded.
    Image {
        /// Its name, as shown to the user.
        name: String,
        /// What is wrong with it.
        fault: Fault,
    },
    /// A pattern number beyond those that the painter knows.
    Pattern {
        /// The number asked for, from 0.
        number: u8,
    },
    /// A position, size or advance that is not a number.
    NotANumber {
        /// Label of its page.
        page: String,
    },
    /// The display list refers to something it does not hold.
    Reference {
        /// What refers to what.
        what: String,
    },
    /// Two boxes to tick share a name.
    TwiceNamed {
        /// The name.
        name: String,
    },
    /// The document has no title.
    NoTitle,
    /// The document's language is missing or no tag of one.
    Language {
        /// What stands in its place.
        tag: String,
    },
    /// There is no page.
    NoPages,
    /// A page without a label.
    NoPageLabel {
        /// Its number, from 1.
        number: usize,
    },
    /// A layer that has no name to be shown by.
    NoLayerName {
        /// What is in it.
        what: &'static str,
    },
    /// A bookmark without words.
    NamelessBookmark {
        /// The number of the page it leads to, from 1.
        page: usize,
    },
    /// A bookmark more than one level below the one before it, or at level 0.
    BookmarkLevel {
        /// Its words.
        title: String,
        /// Its level.
        level: u8,
        /// The level of the one before; 0 for none.
        above: u8,
    },
    /// A glyph that stands for no character.
    NoCharacter {
        /// Label of its page.
        page: String,
        /// The line that begins with it.
        line: String,
    },
    /// A character of Unicode's private areas, which means nothing to others.
    PrivateUse {
        /// Label of its page.
        page: String,
        /// The character.
        character: char,
        /// The line it stands in.
        line: String,
    },
    /// Content that belongs to an element which may only hold other elements.
    Loose {
        /// Label of its page.
        page: String,
        /// The element.
        within: &'static str,
    },
    /// A drawing that is neither a figure nor decoration.
    NoFigure {
        /// Label of its page.
        page: String,
        /// What it stands in.
        within: &'static str,
    },
    /// A figure without alternative text.
    NoAlternative {
        /// Label of its page.
        page: String,
    },
    /// An element in one that may not hold it.
    Misplaced {
        /// Label of its page.
        page: String,
        /// The element.
        what: &'static str,
        /// What it stands in.
        within: &'static str,
        /// What is allowed.
        rule: &'static str,
    },
    /// An element without something that it must have.
    Hollow {
        /// Label of its page.
        page: String,
        /// The element.
        what: &'static str,
        /// What it lacks.
        lacks: &'static str,
    },
    /// A heading that leaves out a level, or of a level that there is not.
    HeadingLevel {
        /// Label of its page.
        page: String,
        /// Its words.
        words: String,
        /// Its level.
        level: u8,
        /// The level of the heading before; 0 for none.
        above: u8,
    },
    /// A table row with more or fewer columns than the first.
    UnevenRow {
        /// Label of the page where the table begins.
        page: String,
        /// Summary of the table.
        table: String,
        /// The row, from 1, heading rows counted.
        row: usize,
        /// Its columns.
        columns: usize,
        /// Those of the first row.
        wanted: usize,
    },
    /// A table cell over no column.
    NoSpan {
        /// Label of the page where the table begins.
        page: String,
        /// Summary of the table.
        table: String,
        /// Its row, from 1, heading rows counted.
        row: usize,
    },
    /// A table cell that neither its column nor its row heads.
    NoHeader {
        /// Label of the page where the table begins.
        page: String,
        /// Summary of the table.
        table: String,
        /// Its row, from 1, heading rows counted.
        row: usize,
        /// Its column, from 1.
        column: usize,
    },
    /// A link without words for those who cannot see it.
    SilentLink {
        /// Label of its page.
        page: String,
    },
    /// A link to an empty address.
    LeadsNowhere {
        /// Label of its page.
        page: String,
        /// Its words.
        words: String,
    },
    /// A link or a box to tick that belongs to an element of another kind.
    WrongOwner {
        /// Label of its page.
        page: String,
        /// Its words, or its name.
        words: String,
        /// What it belongs to.
        owner: &'static str,
        /// What it should belong to.
        wanted: &'static str,
    },
    /// A box to tick without a name.
    NamelessBox {
        /// Label of its page.
        page: String,
    },
    /// A box to tick whose name is not one field's.
    PointInName {
        /// Its name.
        name: String,
    },
    /// A box to tick that does not say what it is for.
    SilentBox {
        /// Its name.
        name: String,
    },
    /// The file could not be put together.
    Writing {
        /// What the writer says.
        reason: String,
    },
}

impl std::error::Error for PaintError {}
