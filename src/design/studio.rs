//! A studio file to a checked studio.

use super::address;
use super::bounds::{self, text};
use super::files::{ImagePart, StudioFile, ThreadPart};
use super::gallery::Gallery;
use super::model::{Allowances, Paper, Picture, Studio, UnitOrder};
use super::order;
use super::phrase::Phrase;
use super::shelf::Shelf;
use super::style::{self, Beside, CoverWay, Fields};
use super::yaml::{Check, Field, Node};
use crate::colour::Colour;
use crate::diagnostic::Place;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Accent colour without a studio's own.
const ACCENT: Colour = Colour::new(0x2f, 0x4a, 0x55);
/// Languages are named by their folder of templates: letters, digits and hyphens.
const LANGUAGE_HINT: &str = "give the name of a folder of templates, as in `language: en`";

/// What a studio file gives beside the studio itself.
#[derive(Clone, Debug)]
pub(super) struct StudioRead {
    /// The studio.
    pub studio: Studio,
    /// Its lengths; a design may give others.
    pub allowances: Allowances,
    /// The folder of cover photos, and where it is named.
    pub photos: Option<(PathBuf, Place)>,
}

impl Default for StudioRead {
    /// A studio without a file.
    fn default() -> Self {
        StudioRead {
            studio: Studio {
                name: String::new(),
                web: String::new(),
                contact: String::new(),
                copyright: Phrase::default(),
                terms: Vec::new(),
                accent: ACCENT,
                tint: None,
                fonts: Vec::new(),
                cover: CoverWay::default(),
                head: None,
                foot: None,
                order: None,
                logo: None,
                paper: vec![Paper::A4],
                language: "en".to_owned(),
                written_in: "en".to_owned(),
                language_at: None,
                units: UnitOrder::Metric,
                large_print: false,
                beads_an_hour: None,
                source: None,
            },
            allowances: Allowances::default(),
            photos: None,
        }
    }
}

/// Checks a studio file that stands in `folder`.
pub(super) fn check(
    check: &mut Check<'_>,
    file: &StudioFile,
    root: &Node,
    shelf: &dyn Shelf,
    gallery: &Gallery<'_>,
    folder: &Path,
) -> StudioRead {
    check.keys::<StudioFile>(root);
    let mut read = StudioRead::default();
    let studio = &mut read.studio;
    studio.source = Some(Arc::clone(&check.source));
    for (to, field, key, most) in [
        (&mut studio.name, &file.name, "name", text::NAME),
        (&mut studio.web, &file.web, "web", text::LINE),
        (&mut studio.contact, &file.contact, "contact", text::LINE),
    ] {
        *to = check.text(field, root, key, most).unwrap_or_default();
    }
    studio.copyright = check.phrase(&file.copyright, root, "copyright", text::LINE).unwrap_or_default();
    let links =
        [("web", address::wrong_link(&studio.web)), ("contact", address::wrong_line(&studio.contact))];
    for (key, wrong) in links {
        if let Some((message, hint)) = wrong {
            check.error(root.get(key).span.clone(), message, hint);
        }
    }
    let hint = "give the name of the studio as it is printed";
    match &file.name {
        Field::Missing => check.error(root.span.clone(), "`name` is missing here", hint),
        Field::Given(name) if name.0.trim().is_empty() => {
            check.error(root.get("name").span.clone(), "the name of the studio is empty", hint);
        }
        Field::Given(_) | Field::Empty | Field::Wrong(_) => {}
    }
    if let Some(terms) = check.take(&file.terms, root, "terms") {
        studio.terms = check.phrases(terms, root.get("terms"), "a paragraph of the terms", text::PARAGRAPH);
    }
    if let Some(papers) = check.take(&file.paper, root, "paper") {
        studio.paper.clone_from(&papers.0);
    }
    if let Some(language) = check.take(&file.language, root, "language") {
        if is_language(language.0.trim()) {
            language.0.trim().clone_into(&mut studio.language);
            language.0.trim().clone_into(&mut studio.written_in);
            studio.language_at = Some(check.place(root.get("language").span.clone()));
        } else {
            check.error(
                root.get("language").span.clone(),
                "this is not the name of a language",
                LANGUAGE_HINT,
            );
        }
    }
    if let Some(units) = check.take(&file.units, root, "units") {
        studio.units = units.0;
    }
    studio.beads_an_hour = check.take(&file.beads_an_hour, root, "beads an hour").map(|n| n.0);
    studio.large_print = check.take(&file.large_print, root, "large print").is_some_and(|y| y.0);
    let beside = Beside { shelf, gallery, folder };
    studio.wear(style::check(check, &Fields::from(file), root, &beside));
    if let Some(order) = check.take(&file.order, root, "order") {
        studio.order = order::check(check, order, root.get("order"), &beside);
    }
    let photos = check.text(&file.photos, root, "photos", text::PATH).map(|photos| folder.join(photos));
    read.photos = photos.map(|photos| (photos, check.place(root.get("photos").span.clone())));
    if let Some(thread) = check.take(&file.thread, root, "thread") {
        allowances(check, thread, root.get("thread"), &mut read.allowances);
    }
    read
}

/// Whether a text can be the name of a folder of templates.
pub(super) fn is_language(text: &str) -> bool {
    /// Longer than any tag of a language (BCP 47).
    const LONGEST: usize = 64;
    (1..=LONGEST).contains(&text.len()) && text.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

/// Overrides the lengths that a part gives.
pub(super) fn allowances(check: &mut Check<'_>, part: &ThreadPart, node: &Node, to: &mut Allowances) {
    check.keys::<ThreadPart>(node);
    if let Some(span) = check.length(&part.arm_span, node, "arm span", &bounds::ARM_SPAN) {
        to.arm_span = span;
    }
    if let Some(tail) = check.length(&part.tail, node, "tail", &bounds::TAIL) {
        to.tail = tail;
    }
    if to.tail.0 * 4.0 > to.arm_span.0 {
        check.error(
            node.get("tail").span.clone(),
            "tails this long leave no thread to work with",
            "common practice is 100 mm",
        );
    }
    if let Some(share) = check.take(&part.allowance, node, "allowance") {
        to.handling = share.0;
    }
    if let Some(share) = check.take(&part.spare_beads, node, "spare beads") {
        to.spare = share.0;
    }
}

/// A picture that a file names; what it shows is empty where nothing is said of it.
pub(super) fn given_image(
    check: &mut Check<'_>,
    part: &ImagePart,
    node: &Node,
    gallery: &Gallery<'_>,
    folder: &Path,
) -> Option<Picture> {
    check.keys::<ImagePart>(node);
    let shows = check.phrase(&part.shows, node, "shows", text::SHOWS);
    if shows.as_ref().is_some_and(|shows| shows.is_empty()) {
        check.error(
            node.get("shows").span.clone(),
            "those who cannot see this picture are told nothing of it",
            "say what it shows, as in `{file: logo.png, shows: a reed}`",
        );
    }
    let shows = shows.unwrap_or_default();
    let hint = "name the picture, as in `{file: logo.png, shows: a reed}`";
    let file = check.need_text(&part.file, node, "file", hint, text::PATH)?;
    let place = check.place(node.get("file").span.clone());
    match gallery.image(&folder.join(file), shows.to_string(), Some(place)) {
        Ok(image) => Some(Picture { image, shows }),
        Err(problem) => {
            check.note(problem);
            None
        }
    }
}
