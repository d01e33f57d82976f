//! What a reader is told of an error.

use super::error::PaintError;
use crate::diagnostic::number_of;
use crate::drawn::Face;
use std::fmt;

impl fmt::Display for PaintError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PaintError::MissingGlyph { page, face, text, line } => {
                write!(f, "page {page}: the {} has no “{text}”, needed in “{line}”", face_name(*face))
            }
            PaintError::Face { face, reason } => {
                write!(f, "the {} cannot be used: {reason}", face_name(*face))
            }
            PaintError::Image { name, fault } => write!(f, "{}", fault.problem(name).message),
            PaintError::Pattern { number } => write!(f, "there is no bead pattern number {number}"),
            PaintError::NotANumber { page } => write!(f, "page {page}: something stands at no place at all"),
            PaintError::Reference { what } => write!(f, "{what}"),
            PaintError::TwiceNamed { name } => write!(f, "two boxes to tick are both named “{name}”"),
            PaintError::NoTitle => write!(f, "the document has no title"),
            PaintError::Language { tag } if tag.trim().is_empty() => {
                write!(f, "the document has no language")
            }
            PaintError::Language { tag } => {
                write!(f, "“{tag}” is not the tag of a language, as “en-GB” is")
            }
            PaintError::NoPages => write!(f, "the document has no pages"),
            PaintError::NoPageLabel { number } => write!(f, "page {number} of the file has no label"),
            PaintError::NoLayerName { what } => write!(f, "the layer of the {what} has no name"),
            PaintError::NamelessBookmark { page } => {
                write!(f, "a bookmark to page {page} of the file has no words")
            }
            PaintError::BookmarkLevel { title, level, above: 0 } => {
                write!(f, "the first bookmark, “{title}”, is of level {level}: bookmarks begin at level 1")
            }
            PaintError::BookmarkLevel { title, level, above } => {
                write!(f, "the bookmark “{title}” is of level {level} after one of level {above}")
            }
            PaintError::NoCharacter { page, line } => {
                write!(f, "page {page}: the line “{line}” begins with a glyph that stands for no character")
            }
            PaintError::PrivateUse { page, character, line } => {
                let code = u32::from(*character);
                write!(f, "page {page}: “{line}” holds U+{code:04X}, a character for private use")
            }
            PaintError::Loose { page, within } => {
                write!(f, "page {page}: content stands right in {within}, which may only hold elements")
            }
            PaintError::NoFigure { page, within } => {
                write!(f, "page {page}: something is drawn in {within} that is no figure")
            }
            PaintError::NoAlternative { page } => {
                write!(f, "page {page}: a figure has no text for those who cannot see it")
            }
            PaintError::Misplaced { page, what, within, rule } => {
                write!(f, "page {page}: {what} stands in {within}: {rule}")
            }
            PaintError::Hollow { page, what, lacks } => write!(f, "page {page}: {what} lacks {lacks}"),
            PaintError::HeadingLevel { page, words, level, above: 0 } => {
                write!(
                    f,
                    "page {page}: the first heading, “{words}”, is of level {level}: headings begin at level 1"
                )
            }
            PaintError::HeadingLevel { page, words, level, above } => {
                write!(f, "page {page}: the heading “{words}” is of level {level} after one of level {above}")
            }
            PaintError::UnevenRow { page, table, row, columns, wanted } => write!(
                f,
                "page {page}: row {row} of the table “{table}” has {}, the first has {wanted}",
                number_of(*columns, "column")
            ),
            PaintError::NoSpan { page, table, row } => {
                write!(f, "page {page}: row {row} of the table “{table}” has a cell over no column")
            }
            PaintError::NoHeader { page, table, row, column } => write!(
                f,
                "page {page}: neither its row nor its column heads the cell in row {row}, column {column} of the table “{table}”"
            ),
            PaintError::SilentLink { page } => {
                write!(f, "page {page}: a link does not say where it leads")
            }
            PaintError::LeadsNowhere { page, words } => {
                write!(f, "page {page}: the link “{words}” leads to no address")
            }
            PaintError::WrongOwner { page, words, owner, wanted } => {
                write!(f, "page {page}: “{words}” belongs to {owner}, not to {wanted}")
            }
            PaintError::NamelessBox { page } => write!(f, "page {page}: a box to tick has no name"),
            PaintError::PointInName { name } => {
                write!(f, "the box to tick “{name}” has a point in its name")
            }
            PaintError::SilentBox { name } => {
                write!(f, "the box to tick “{name}” does not say what it is for")
            }
            PaintError::Writing { reason } => write!(f, "the PDF cannot be put together: {reason}"),
        }
    }
}

fn face_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "text face",
        Face::Bold => "strong text face",
        Face::Italic => "emphasised text face",
        Face::Title => "title face",
        Face::TitleLight => "light title face",
        Face::Letters => "face for letters on beads",
        Face::Own(own) => &own.font().name,
    }
}
