//! What keeps an image file from being used, in words of our own.

use crate::diagnostic::{Problem, thousands};

/// Most pixels: a page of A4 at 600 to the inch has 35 million. None takes more than 12 bytes while it is decoded
/// (four inks saved from coarse to fine: two bytes a coefficient, one a sample), so an image 720 MB at most.
pub(crate) const MOST_PIXELS: u64 = 60_000_000;
/// Most pixels on one side.
pub(crate) const LONGEST_SIDE: u32 = 30_000;

/// What to do about an image that is too large.
pub(crate) const SMALLER: &str =
    "save a smaller copy: 3,000 pixels on the longer side are enough for a whole page";
/// What to do about a broken image.
const AGAIN: &str = "copy it again from where it came, or open it and save it anew";

/// Why an image file cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It is neither PNG nor JPEG.
    NotAnImage,
    /// It has this many pixels across and down.
    TooManyPixels(u32, u32),
    /// It ends too early.
    CutShort,
    /// It breaks the rules of its format.
    Damaged,
    /// A drawing of more than so many millions of bytes.
    LargeDrawing(usize),
    /// A drawing that holds what cannot be shown as it is meant.
    DrawingHolds(&'static str),
    /// A JPEG that programs for looking at images do not open either.
    RareJpeg,
}

impl Fault {
    /// As told of a file of this name.
    #[must_use]
    pub fn problem(&self, name: &str) -> Problem {
        let (message, hint) = match self {
            Fault::NotAnImage => {
                (format!("`{name}` is not a PNG, JPEG or SVG picture"), "save the picture as PNG or JPEG")
            }
            Fault::TooManyPixels(across, down) => (
                format!(
                    "the picture `{name}` has {} × {} pixels; at most {} million can be used, {} on a side",
                    thousands(*across as usize),
                    thousands(*down as usize),
                    MOST_PIXELS / 1_000_000,
                    thousands(LONGEST_SIDE as usize),
                ),
                SMALLER,
            ),
            Fault::CutShort => (format!("the picture `{name}` is cut short"), AGAIN),
            Fault::Damaged => (format!("the picture `{name}` is damaged"), AGAIN),
            Fault::LargeDrawing(most) => (
                format!("the drawing `{name}` has more than {most} MB"),
                "make its paths simpler, or save it as PNG",
            ),
            Fault::DrawingHolds(what) => (
                format!("the drawing `{name}` holds {what}, which cannot be shown as they are meant"),
                "turn all of it into paths in the program that made it, or save it as PNG",
            ),
            Fault::RareJpeg => (
                format!("the picture `{name}` is a JPEG of a rare kind"),
                "open it and save it as an ordinary JPEG, or as PNG",
            ),
        };
        Problem::error(message).hint(hint)
    }
}
