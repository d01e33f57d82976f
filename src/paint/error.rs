//! What can stop the painter.

use crate::booklet::drawing::Face;
use std::fmt;

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
    /// A picture that cannot be decoded.
    Picture {
        /// Its name, as shown to the user.
        name: String,
        /// What the decoder says.
        reason: String,
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
    /// The file could not be put together.
    Writing {
        /// What the writer says.
        reason: String,
    },
}

impl fmt::Display for PaintError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PaintError::MissingGlyph { page, face, text, line } => {
                write!(f, "page {page}: the {} has no “{text}”, needed in “{line}”", face_name(*face))
            }
            PaintError::Face { face, reason } => {
                write!(f, "the {} cannot be used: {reason}", face_name(*face))
            }
            PaintError::Picture { name, reason } => write!(f, "{name}: the picture cannot be read: {reason}"),
            PaintError::Pattern { number } => write!(f, "there is no bead pattern number {number}"),
            PaintError::NotANumber { page } => write!(f, "page {page}: something stands at no place at all"),
            PaintError::Reference { what } => write!(f, "{what}"),
            PaintError::TwiceNamed { name } => write!(f, "two boxes to tick are both named “{name}”"),
            PaintError::Writing { reason } => write!(f, "the PDF cannot be put together: {reason}"),
        }
    }
}

impl std::error::Error for PaintError {}

fn face_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "text face",
        Face::Bold => "strong text face",
        Face::Italic => "emphasised text face",
        Face::Title => "title face",
        Face::TitleLight => "light title face",
        Face::Letters => "face for letters on beads",
    }
}
