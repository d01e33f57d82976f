//! What keeps a font file from being used, in words of our own.

use crate::diagnostic::Problem;

/// Why a font file cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It is no font.
    NotAFont,
    /// It breaks the rules of its format.
    Damaged,
    /// It holds several fonts.
    Collection,
    /// It is packed for web pages.
    ForTheWeb,
    /// It is a font of many weights or widths in one.
    Variable,
    /// It has no outlines: bitmaps or colours only.
    NoOutlines,
    /// It may not be embedded.
    Restricted,
    /// It may not be cut down.
    OnlyWhole,
    /// Only its bitmaps may be embedded.
    OnlyBitmaps,
    /// It does not say whether it may be embedded.
    NothingSaid,
}

impl Fault {
    /// As told of a file of this name.
    #[must_use]
    pub fn problem(self, name: &str) -> Problem {
        const OTHER: &str = "choose a font whose licence allows it, or ask its makers for one that does";
        let (message, hint) = match self {
            Fault::NotAFont => {
                (format!("`{name}` is not a font"), "give a font file, which ends in .ttf or .otf")
            }
            Fault::Damaged => (format!("the font `{name}` is damaged"), "copy it again from where it came"),
            Fault::Collection => (
                format!("`{name}` is a collection of fonts"),
                "save the one that is meant as a .ttf or .otf file of its own",
            ),
            Fault::ForTheWeb => {
                (format!("`{name}` is a font packed for web pages"), "give the same font as .ttf or .otf")
            }
            Fault::Variable => (
                format!("`{name}` is a variable font"),
                "give the weight that is meant as a font of its own: most families offer such files as static fonts",
            ),
            Fault::NoOutlines => (
                format!("the font `{name}` has no outlines that can be printed"),
                "give a font with outlines (TrueType or CFF)",
            ),
            Fault::Restricted => {
                (format!("the font `{name}` may not be embedded: its own permission bits say so"), OTHER)
            }
            Fault::OnlyWhole => (
                format!(
                    "the font `{name}` may be embedded only whole, and booklets hold what they use of it"
                ),
                OTHER,
            ),
            Fault::OnlyBitmaps => {
                (format!("of the font `{name}` only bitmaps may be embedded, which cannot be printed"), OTHER)
            }
            Fault::NothingSaid => {
                (format!("the font `{name}` does not say whether it may be embedded"), OTHER)
            }
        };
        Problem::error(message).hint(hint)
    }
}
