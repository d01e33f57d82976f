//! The maker's photographs: for the cover, the back, details, and steps.

use super::bounds::{MOST_PHOTOGRAPHS, text};
use super::files::{ImagePart, PhotoPart, PhotosPart};
use super::film::StepRef;
use super::gallery::Gallery;
use super::model::Picture;
use super::phrase::Phrase;
use super::yaml::{Check, Field, Kind, Node, OneOrEach, PartOrMore, Text, TextOr};
use crate::diagnostic::shown;
use crate::images::Image;
use std::path::Path;

/// What a photograph needs beside its file.
const SHOWS_HINT: &str =
    "say what it shows, for those who cannot see it, as in `shows: the pair on grey linen`";
const FILE_HINT: &str = "name the picture, as in `{file: heron.jpg, shows: the pair on grey linen}`";

/// The photographs of a design.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Photographs {
    /// On the cover, in place of the drawn pair.
    pub cover: Option<Picture>,
    /// On the last page.
    pub back: Option<Photograph>,
    /// On pages of their own, in the order of the file.
    pub details: Vec<Photograph>,
    /// In steps, in the order of the file.
    pub steps: Vec<(StepRef, Vec<Photograph>)>,
}

/// A photograph with what stands below it.
#[derive(Clone, Debug, PartialEq)]
pub struct Photograph {
    /// The photograph, and what it shows.
    pub picture: Picture,
    /// Words below it; may be empty.
    pub caption: Phrase,
}

impl Photographs {
    /// All pictures.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.cover.iter().chain(self.captioned().map(|photograph| &photograph.picture))
    }

    /// All but that of the cover.
    pub fn captioned(&self) -> impl Iterator<Item = &Photograph> {
        let steps = self.steps.iter().flat_map(|(_, photographs)| photographs);
        self.back.iter().chain(&self.details).chain(steps)
    }

    pub(super) fn pictures_mut(&mut self) -> impl Iterator<Item = &mut Picture> {
        let steps = self.steps.iter_mut().flat_map(|(_, photographs)| photographs);
        let captioned = self.back.iter_mut().chain(&mut self.details).chain(steps);
        self.cover.iter_mut().chain(captioned.map(|photograph| &mut photograph.picture))
    }

    pub(super) fn captions_mut(&mut self) -> impl Iterator<Item = &mut Phrase> {
        let steps = self.steps.iter_mut().flat_map(|(_, photographs)| photographs);
        self.back.iter_mut().chain(&mut self.details).chain(steps).map(|photograph| &mut photograph.caption)
    }
}

/// Where photographs are read from.
pub(super) struct Source<'s> {
    pub gallery: &'s Gallery<'s>,
    /// The folder of the design.
    pub folder: &'s Path,
}

/// Checks the photographs that a design gives.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &PhotosPart,
    root: &Node,
    source: &Source<'_>,
) -> Photographs {
    let (key, node) = (root.named("photos"), root.get("photos"));
    check.keys::<PhotosPart>(&key);
    let mut photographs = Photographs::default();
    if let Some(ImagePart { file, shows }) = check.take(&part.cover, &key, "cover") {
        let here = node.named("cover");
        check.keys::<ImagePart>(&here);
        photographs.cover = picture(check, file, shows, &here, source);
    }
    if let Some(back) = check.take(&part.back, &key, "back") {
        photographs.back = photograph(check, back, &node.named("back"), source);
    }
    if let Some(details) = check.take(&part.details, &key, "details") {
        photographs.details = several(check, details, &node.named("details"), "a detail", source);
    }
    if let Some(steps) = check.take(&part.steps, &key, "steps") {
        for ((name, field), (key, value)) in steps.0.iter().zip(node.get("steps").entries()) {
            let what = format!("the photograph of `{}`", shown(name));
            let Some(given) = check.item(field, &key.span, &what) else { continue };
            let here = Node { span: key.span.clone(), kind: value.kind.clone() };
            let step = StepRef { name: name.trim().to_owned(), place: check.place(key.span.clone()) };
            photographs.steps.push((step, several(check, given, &here, &what, source)));
        }
    }
    let count = photographs.pictures().count();
    if count > MOST_PHOTOGRAPHS {
        let message = format!("the design has {count} photographs, and can have {MOST_PHOTOGRAPHS}");
        check.error(key.span.clone(), message, "leave some out");
    }
    photographs
}

/// One photograph or a list of them. `node` has the place of its key.
fn several(
    check: &mut Check<'_>,
    given: &PartOrMore<PhotoPart>,
    node: &Node,
    what: &str,
    source: &Source<'_>,
) -> Vec<Photograph> {
    let mut read = Vec::new();
    let is_list = matches!(node.kind, Kind::List(_));
    if is_list && given.0.is_empty() {
        check.error(node.span.clone(), format!("{what} is empty"), FILE_HINT);
    }
    for (i, field) in given.0.iter().take(MOST_PHOTOGRAPHS + 1).enumerate() {
        let here = node.items().get(i).filter(|_| is_list).unwrap_or(node);
        match check.item(field, &here.span, what) {
            Some(TextOr::Keys(part)) => read.extend(photograph(check, part, here, source)),
            Some(TextOr::Text(_)) => {
                check.error(here.span.clone(), "it is not said what this photograph shows", FILE_HINT);
            }
            None => {}
        }
    }
    read
}

fn photograph(
    check: &mut Check<'_>,
    part: &PhotoPart,
    node: &Node,
    source: &Source<'_>,
) -> Option<Photograph> {
    check.keys::<PhotoPart>(node);
    let caption = check.phrase(&part.caption, node, "caption", text::SUMMARY).unwrap_or_default();
    let picture = picture(check, &part.file, &part.shows, node, source)?;
    Some(Photograph { picture, caption })
}

fn picture(
    check: &mut Check<'_>,
    file: &Field<Text>,
    shows: &Field<OneOrEach>,
    node: &Node,
    source: &Source<'_>,
) -> Option<Picture> {
    let shows = check.need_phrase(shows, node, "shows", SHOWS_HINT, text::SHOWS);
    let file = check.need_text(file, node, "file", FILE_HINT, text::PATH)?;
    let place = check.place(node.get("file").span.clone());
    let alt = shows.as_deref().unwrap_or_default().to_owned();
    match source.gallery.image(&source.folder.join(file), alt, Some(place)) {
        Ok(image) => shows.map(|shows| Picture { image, shows }),
        Err(problem) => {
            check.note(problem);
            None
        }
    }
}

/// The cover photograph of a design's name in the studio's folder. It shows what the title says: there is no better
/// place to say more than the design's own `photos:`.
pub(super) fn by_name(
    check: &mut Check<'_>,
    found: Option<Result<Image, crate::diagnostic::Problem>>,
    title: &Phrase,
) -> Option<Picture> {
    match found? {
        Ok(image) => Some(Picture { image, shows: title.clone() }),
        Err(problem) => {
            check.note(problem);
            None
        }
    }
}
