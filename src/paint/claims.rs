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
    /// The painter sees to it: it writes the file so, or refuses a display list that does not say enough.
    Enforced {
        /// The files of the painter that do.
        by: &'static [&'static str],
        /// Tests that hold it, as `file::test`, in `tests/` or `src/`; those of `outside` read the painted file with other programs.
        tests: &'static [&'static str],
    },
    /// No program can tell: earlier stages and templates answer for it.
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
    /// In what way, or why not.
    pub note: &'static str,
}

const fn enforced(
    clause: &'static str,
    asks: &'static str,
    by: &'static [&'static str],
    note: &'static str,
    tests: &'static [&'static str],
) -> Claim {
    Claim { clause, asks, met: Met::Enforced { by, tests }, note }
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
        &["fonts"],
        "a glyph that a face lacks is an error, never a box",
        &["painted_pdf::a_missing_glyph_is_refused_with_its_place", "outside/sound::fonts"],
    ),
    enforced(
        "ISO 14289-1, 7.21.7; ISO 19005-2, 6.2.11.7",
        "every character mapped to Unicode, none to 0, FEFF or FFFE",
        &["check/survey", "fonts"],
        "a line begins with a character; glyphs that belong to one before are word joiners",
        &["refused_booklets::a_glyph_without_a_character", "outside/sound::fonts"],
    ),
    enforced(
        "ISO 19005-2, 6.2.11.7.3",
        "no characters for private use without a text in their place",
        &["check/survey"],
        "there are none",
        &["refused_booklets::a_character_for_private_use"],
    ),
    enforced(
        "ISO 19005-2, 6.2.11.3.2 and 6.2.11.4.2",
        "CIDToGIDMap present and CIDSet whole",
        &["document"],
        "Identity, and a bit for each glyph in the font",
        &["outside/standards::archive", "outside/standards::preflight"],
    ),
    enforced(
        "ISO 19005-2, 6.2.11.5",
        "widths as in the font",
        &["faces"],
        "taken from the font's own table",
        &["painted_pdf::glyphs_stand_where_layout_put_them", "outside/standards::preflight"],
    ),
    // Graphics.
    enforced(
        "ISO 19005-2, 6.2.3 and 6.2.4",
        "device colours only with an output intent of that space",
        &["icc", "document", "images"],
        "RGB and grey under an sRGB profile; images in inks come as RGB",
        &[
            "paint/icc::the_profile_says_how_long_it_is",
            "images/tests::inks_without_a_profile_become_red_green_and_blue",
            "outside/standards::archive",
        ],
    ),
    enforced(
        "ISO 19005-2, 6.2.10",
        "transparency only with a blending space",
        &["images"],
        "there is none: looks are opaque, images come laid on white",
        &["images/tests::one_clear_colour_becomes_white", "outside/standards::archive"],
    ),
    enforced(
        "ISO 19005-2, 6.2.8",
        "images without alternates and interpolation",
        &["images"],
        "neither is written",
        &["outside/standards::preflight"],
    ),
    enforced(
        "ISO 14289-1, 7.10; ISO 19005-2, 6.9",
        "layers named, without events that switch them",
        &["check/survey", "layers"],
        "a layer that is used has a name; no AS, all in Order",
        &[
            "refused_booklets::pages_layers_and_bookmarks_without_a_name",
            "painted_pdf::layers_carry_the_booklets_own_names_and_are_on",
        ],
    ),
    // The file.
    enforced(
        "ISO 19005-2, 6.1.3",
        "a file ID",
        &["save"],
        "the first half of the content's SHA-256",
        &["painted_pdf::the_id_follows_the_content_and_nothing_else"],
    ),
    enforced(
        "ISO 19005-2, 6.1.7",
        "streams whole, no LZW, nothing outside the file",
        &["save"],
        "deflated or as they are",
        &["outside/sound::check", "outside/standards::archive"],
    ),
    enforced(
        "ISO 19005-2, 6.6.2 and 6.6.3",
        "XMP, not deflated, in step with the information dictionary",
        &["xmp"],
        "both are written from the same values",
        &["outside/standards::archive", "outside/standards::in_step"],
    ),
    enforced(
        "ISO 19005-2, 6.6.2.3.2",
        "own properties described",
        &["xmp"],
        "an extension schema",
        &["outside/standards::preflight"],
    ),
    enforced(
        "ISO 19005-2, 6.5",
        "no scripts, no actions but going somewhere",
        &["annotations"],
        "GoTo and URI only",
        &["outside/standards::archive"],
    ),
    // Structure.
    enforced(
        "ISO 14289-1, 7.1",
        "all content tagged or marked as artifact",
        &["check/survey", "page"],
        "every item stands in marked content, of an element that may hold content",
        &[
            "refused_booklets::content_outside_any_tag",
            "painted_pdf::what_does_not_fit_together_is_refused",
            "outside/standards::pdfua",
        ],
    ),
    enforced(
        "ISO 14289-1, 7.1",
        "a title, and shown; the identifier; no suspects",
        &["check/document", "document", "xmp"],
        "an empty title is refused; DisplayDocTitle",
        &["refused_booklets::a_document_without_title_language_or_pages", "outside/standards::pdfua"],
    ),
    enforced(
        "ISO 14289-1, 7.1; ISO 19005-2, 6.7.3",
        "standard structure types only, one tree, each where it may stand",
        &["check/structure", "tags"],
        "no role map needed",
        &[
            "refused_booklets::a_tree_that_is_none",
            "refused_booklets::elements_where_they_may_not_stand",
            "painted_pdf::structure_of_the_document",
        ],
    ),
    duty(
        "ISO 14289-1, 7.1",
        "structure in logical order, roles that fit",
        "layout: nodes and items in reading order",
    ),
    enforced(
        "ISO 14289-1, 7.2",
        "language of the document",
        &["check/document", "document"],
        "a well-formed tag of BCP 47",
        &["refused_booklets::a_document_without_title_language_or_pages", "outside/standards::language"],
    ),
    duty(
        "ISO 14289-1, 7.2",
        "the language named is the one that is spoken",
        "booklet: the template's language; passages in another one are not marked",
    ),
    enforced(
        "ISO 14289-1, 7.3",
        "what is drawn is a figure, with alternative text and a box, or an artifact",
        &["check/survey", "check/structure", "tags"],
        "but for a bead behind the letter that labels an item: it is the bullet",
        &[
            "refused_booklets::a_drawing_that_is_no_figure",
            "refused_booklets::a_figure_without_alternative_text",
        ],
    ),
    duty("ISO 14289-1, 7.3", "alternative text that says what a figure shows", "booklet writes it"),
    enforced(
        "ISO 14289-1, 7.4",
        "headings begin at 1 and leave out no level",
        &["check/structure"],
        "and have words",
        &[
            "refused_booklets::headings_that_leave_out_a_level",
            "refused_booklets::headings_captions_and_links_without_words",
        ],
    ),
    enforced(
        "ISO 14289-1, 7.5",
        "regular tables, a header with scope for each cell",
        &["check/tables", "tags"],
        "rows of equal length, spans counted; the header of a cell's row or column has words",
        &[
            "refused_booklets::table_rows_of_unequal_length",
            "refused_booklets::a_cell_that_nothing_heads",
            "painted_pdf::structure_of_the_document",
        ],
    ),
    enforced(
        "ISO 14289-1, 7.6",
        "lists made of items with labels and bodies",
        &["check/structure", "tags"],
        "an item stands in a list and has a body; the kind of numbering is written",
        &["refused_booklets::list_items_outside_a_list_and_lists_without_items"],
    ),
    enforced(
        "ISO 14289-1, 7.8",
        "running heads and feet as pagination artifacts",
        &["page"],
        "items that stand as such",
        &["painted_pdf::operators_of_a_page"],
    ),
    enforced(
        "ISO 14289-1, 7.17",
        "bookmarks and page labels to find the way by",
        &["check/document", "bookmarks"],
        "each bookmark has words, a page and its level; each page a label",
        &[
            "refused_booklets::pages_layers_and_bookmarks_without_a_name",
            "refused_booklets::bookmarks_that_leave_out_a_level",
            "painted_pdf::bookmarks_are_nested_and_lead_to_their_place",
            "painted_pdf::what_does_not_fit_together_is_refused",
        ],
    ),
    enforced(
        "ISO 14289-1, 7.18",
        "annotations in the structure, with a description; tab order by structure",
        &["check/annotations", "annotations", "tags", "document"],
        "Contents, OBJR, Tabs S; a link or field element has its annotation",
        &[
            "refused_booklets::links_that_say_or_lead_nothing",
            "refused_booklets::boxes_to_tick_without_name_or_description",
            "painted_pdf::structure_of_the_document",
        ],
    ),
    enforced(
        "ISO 14289-1, 7.18.4",
        "form fields with a name for people",
        &["check/annotations", "annotations"],
        "TU",
        &["refused_booklets::boxes_to_tick_without_name_or_description"],
    ),
    enforced(
        "ISO 14289-1, 7.18.5",
        "links with words, that lead somewhere",
        &["check/annotations", "check/structure", "annotations"],
        "an address or a page that there is",
        &[
            "refused_booklets::headings_captions_and_links_without_words",
            "refused_booklets::links_that_say_or_lead_nothing",
            "outside/links::check",
        ],
    ),
    enforced(
        "ISO 19005-2, 6.3 and 6.4",
        "annotations printed, with all their looks in the file; no NeedAppearances",
        &["annotations"],
        "F 4, an AP of two drawn states",
        &["outside/standards::archive", "outside/ticks::check"],
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
