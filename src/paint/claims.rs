//! The ledger of claims: what a painted file says it conforms to, and who sees to it.
//!
//! A file claims PDF 1.7 (ISO 32000-1), PDF/UA-1 (ISO 14289-1) and PDF/A-2a (ISO 19005-2), in its XMP
//! metadata. Booklets and bench copies claim the same: a check box is allowed in PDF/A-2 as long as
//! its looks stand in the file and nothing is left to a viewer to make or to run. A bench copy in which
//! boxes have been ticked and saved is another program's file, and what it then still is depends on
//! that program.

/// How a requirement is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Met {
    /// The painter sees to it, whatever the display list says.
    Enforced,
    /// The painter can only pass on what earlier stages and templates give it.
    CallersDuty,
    /// Not claimed, with the reason in the note.
    NotClaimed,
}

/// A requirement of a standard.
#[derive(Clone, Copy, Debug)]
pub struct Claim {
    /// Standard and clause.
    pub clause: &'static str,
    /// What it asks.
    pub asks: &'static str,
    /// How it is met.
    pub met: Met,
    /// By what, or why not.
    pub note: &'static str,
}

const fn enforced(clause: &'static str, asks: &'static str, note: &'static str) -> Claim {
    Claim { clause, asks, met: Met::Enforced, note }
}
const fn duty(clause: &'static str, asks: &'static str, note: &'static str) -> Claim {
    Claim { clause, asks, met: Met::CallersDuty, note }
}
const fn not_claimed(clause: &'static str, asks: &'static str, note: &'static str) -> Claim {
    Claim { clause, asks, met: Met::NotClaimed, note }
}

/// The ledger.
pub const CLAIMS: &[Claim] = &[
    // Text and fonts.
    enforced(
        "ISO 14289-1, 7.21.4; ISO 19005-2, 6.2.11.4",
        "fonts embedded, cut down with all glyphs shown",
        "fonts: a glyph that a face lacks is an error, never a box",
    ),
    enforced(
        "ISO 14289-1, 7.21.7; ISO 19005-2, 6.2.11.7",
        "every character mapped to Unicode, none to 0, FEFF or FFFE",
        "fonts: the text of each glyph; glyphs without text are word joiners",
    ),
    enforced(
        "ISO 19005-2, 6.2.11.3.2",
        "CIDToGIDMap present and CIDSet whole",
        "document: Identity, and a bit for each glyph in the font",
    ),
    enforced("ISO 19005-2, 6.2.11.5", "widths as in the font", "faces: taken from the font's own table"),
    // Graphics.
    enforced(
        "ISO 19005-2, 6.2.3 and 6.2.4",
        "device colours only with an output intent of that space",
        "icc, document: RGB and grey under an sRGB profile; CMYK pictures are decoded to RGB",
    ),
    enforced(
        "ISO 19005-2, 6.2.10",
        "transparency only with a blending space",
        "there is none: looks are opaque, pictures are laid on white",
    ),
    enforced("ISO 19005-2, 6.2.8", "pictures without alternates and interpolation", "pictures"),
    enforced(
        "ISO 19005-2, 6.9",
        "layers named, without events that switch them",
        "layers: Name in each, no AS, all in Order",
    ),
    // The file.
    enforced("ISO 19005-2, 6.1.3", "a file ID", "save: the first half of the content's SHA-256"),
    enforced("ISO 19005-2, 6.1.7", "streams whole, no LZW, nothing outside the file", "save"),
    enforced(
        "ISO 19005-2, 6.6.2",
        "XMP, not deflated, in step with the information dictionary",
        "xmp: both are written from the same values",
    ),
    enforced("ISO 19005-2, 6.6.2.3.2", "own properties described", "xmp: an extension schema"),
    enforced(
        "ISO 19005-2, 6.5",
        "no scripts, no actions but going somewhere",
        "annotations: GoTo and URI only",
    ),
    // Structure.
    enforced(
        "ISO 14289-1, 7.1",
        "all content tagged or marked as artifact",
        "page: every item stands in marked content",
    ),
    enforced(
        "ISO 14289-1, 7.1",
        "title shown, DisplayDocTitle; the identifier; no suspects",
        "document, xmp; an empty title is the caller's fault",
    ),
    enforced(
        "ISO 14289-1, 7.1; ISO 19005-2, 6.7.3",
        "standard structure types only",
        "tags: no role map needed",
    ),
    duty(
        "ISO 14289-1, 7.1",
        "structure in logical order, roles that fit",
        "layout: nodes and items in reading order",
    ),
    duty(
        "ISO 14289-1, 7.2",
        "language of the document",
        "booklet: the template's language; passages in another one are not marked",
    ),
    duty(
        "ISO 14289-1, 7.3",
        "figures with alternative text that says what they show",
        "booklet writes it; the box is enforced",
    ),
    duty("ISO 14289-1, 7.4", "headings begin at 1 and leave out no level", "booklet and layout"),
    duty(
        "ISO 14289-1, 7.5",
        "table headers with scope, regular rows",
        "layout gives the cells; scope and spans are enforced",
    ),
    duty(
        "ISO 14289-1, 7.6",
        "lists made of items with labels and bodies",
        "layout; the kind of numbering is enforced",
    ),
    enforced("ISO 14289-1, 7.8", "running heads and feet as pagination artifacts", "page"),
    enforced(
        "ISO 14289-1, 7.18",
        "annotations in the structure, with a description; tab order by structure",
        "annotations, tags, document: Contents, OBJR, Tabs S",
    ),
    enforced("ISO 14289-1, 7.18.4", "form fields with a name for people", "annotations: TU"),
    enforced(
        "ISO 19005-2, 6.3 and 6.4",
        "annotations printed, with all their looks in the file; no NeedAppearances",
        "annotations: F 4, an AP of two drawn states",
    ),
    // Not claimed.
    not_claimed(
        "ISO 14289-1, 7.1",
        "contrast and meaning by colour alone",
        "left to WCAG: letters stand on beads, patterns in grey; tested on the painted page",
    ),
    not_claimed(
        "ISO 19005-1",
        "PDF/A-1",
        "layers, object streams and version 1.7 do not exist in PDF 1.4, on which it rests",
    ),
    not_claimed(
        "ISO 14289-2, ISO 19005-4",
        "PDF/UA-2, PDF/A-4",
        "they rest on PDF 2.0, which fewer of the customers' readers know",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_claim_has_its_clause_and_note() {
        for claim in CLAIMS {
            assert!(claim.clause.starts_with("ISO "), "{claim:?}");
            assert!(!claim.asks.is_empty() && !claim.note.is_empty(), "{claim:?}");
        }
    }

    #[test]
    fn what_is_enforced_names_files_of_the_painter() {
        let files = [
            "fonts",
            "document",
            "faces",
            "icc",
            "pictures",
            "layers",
            "save",
            "xmp",
            "annotations",
            "page",
            "tags",
        ];
        for claim in CLAIMS.iter().filter(|c| c.met == Met::Enforced && c.note.contains(':')) {
            let named = claim.note.split(':').next().unwrap_or_default();
            let known = named.split(", ").all(|n| files.contains(&n) || n.contains(' '));
            assert!(known, "{claim:?}");
        }
    }
}
