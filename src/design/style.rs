//! The house style: colours, fonts, logo, the cover's arrangement, and what stands at the head and foot of pages. It is
//! given in the studio file, and what a folder of templates says otherwise goes before it.

use super::bounds::text;
use super::files::{FontsPart, ImagePart, RunningPart, StudioFile, StyleFile};
use super::gallery::Gallery;
use super::measure::Hex;
use super::model::{Picture, Studio};
use super::phrase::Phrase;
use super::running::{self, Running};
use super::shelf::Shelf;
use super::studio::given_image;
use super::yaml::{Check, Field, Node, Text};
use crate::colour::{Colour, LEAST_CONTRAST, QUIET_INKS, darkened};
use crate::diagnostic::{Place, Problem, did_you_mean, shown};
use crate::drawn::{Face, OwnFaces};
use crate::fonts::{self, LARGEST_FONT, OwnFont};
use std::path::Path;

/// How the cover is arranged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub enum CoverWay {
    /// Title over the drawing on a quiet ground, facts below.
    #[default]
    Framed,
    /// Title on a band of the accent across the head of the page.
    Banner,
    /// Title and facts in a tinted column at the left, the drawing as high as the page beside them.
    Column,
}

impl CoverWay {
    /// The words that choose one.
    const WORDS: [(&'static str, CoverWay); 3] =
        [("framed", CoverWay::Framed), ("banner", CoverWay::Banner), ("column", CoverWay::Column)];
}

/// A font of the maker's, and what is set in it.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseFont {
    /// What is set in it: the key it stands under.
    pub key: &'static str,
    /// The built-in faces that it stands in place of.
    pub faces: &'static [Face],
    /// The font.
    pub font: OwnFont,
    /// Its file, as shown to the user.
    pub name: String,
    /// Where it is named.
    pub place: Place,
}

/// What is set in fonts of the maker's: the key, and the built-in faces that they stand in place of.
const USES: [(&str, &[Face]); 4] = [
    ("text", &[Face::Regular, Face::TitleLight]),
    ("strong", &[Face::Bold]),
    ("emphasis", &[Face::Italic]),
    ("title", &[Face::Title]),
];

/// What a file says of the house style.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HouseStyle {
    /// Colour of headings and rules.
    pub accent: Option<Colour>,
    /// Ground of boxes and covers.
    pub tint: Option<Colour>,
    /// The cover's arrangement.
    pub cover: Option<CoverWay>,
    /// Fonts, each for another use.
    pub fonts: Vec<HouseFont>,
    /// Head of every page.
    pub head: Option<Running>,
    /// Foot of every page.
    pub foot: Option<Running>,
    /// Logo.
    pub logo: Option<Picture>,
}

/// The fields of either file.
pub(super) struct Fields<'f> {
    accent: &'f Field<Hex>,
    tint: &'f Field<Hex>,
    fonts: &'f Field<FontsPart>,
    cover: &'f Field<Text>,
    head: &'f Field<RunningPart>,
    foot: &'f Field<RunningPart>,
    logo: &'f Field<ImagePart>,
}

impl<'f> From<&'f StudioFile> for Fields<'f> {
    fn from(file: &'f StudioFile) -> Fields<'f> {
        let StudioFile { accent, tint, fonts, cover, head, foot, logo, .. } = file;
        Fields { accent, tint, fonts, cover, head, foot, logo }
    }
}

impl<'f> From<&'f StyleFile> for Fields<'f> {
    fn from(file: &'f StyleFile) -> Fields<'f> {
        let StyleFile { accent, tint, fonts, cover, head, foot, logo } = file;
        Fields { accent, tint, fonts, cover, head, foot, logo }
    }
}

/// Where what a style names is read from.
pub(super) struct Beside<'s> {
    pub shelf: &'s dyn Shelf,
    pub gallery: &'s Gallery<'s>,
    /// The folder of the file.
    pub folder: &'s Path,
}

/// Checks what a file says of the house style.
pub(super) fn check(
    check: &mut Check<'_>,
    fields: &Fields<'_>,
    root: &Node,
    beside: &Beside<'_>,
) -> HouseStyle {
    let accent = check.take(fields.accent, root, "accent").map(|accent| accent.0);
    let tint = check.take(fields.tint, root, "tint").map(|tint| tint.0);
    if let Some(tint) = tint {
        readable_ground(check, tint, root.get("tint"));
    }
    if let Some(accent) = accent {
        readable_accent(check, accent, tint.unwrap_or(Colour::WHITE), root.get("accent"));
    }
    let cover = check.take(fields.cover, root, "cover").and_then(|word| cover_way(check, word, root));
    let fonts = match check.take(fields.fonts, root, "fonts") {
        Some(part) => house_fonts(check, part, &root.named("fonts"), beside),
        None => Vec::new(),
    };
    let [head, foot] = [("head", fields.head), ("foot", fields.foot)].map(|(key, field)| {
        let part = check.take(field, root, key)?;
        running::check(check, part, &root.named(key))
    });
    let logo = check.take(fields.logo, root, "logo").and_then(|logo| {
        let node = root.get("logo");
        given_image(check, logo, node, beside.gallery, beside.folder)
    });
    HouseStyle { accent, tint, cover, fonts, head, foot, logo }
}

/// Text must be readable on the ground of boxes and covers.
fn readable_ground(check: &mut Check<'_>, tint: Colour, node: &Node) {
    let least = QUIET_INKS.iter().map(|ink| ink.contrast(tint)).fold(f64::INFINITY, f64::min);
    if least >= LEAST_CONTRAST {
        return;
    }
    let lighter = (1..=100).map(|step| tint.mix(Colour::WHITE, f64::from(step) / 100.0));
    let enough = |c: &Colour| QUIET_INKS.iter().all(|ink| ink.contrast(*c) >= LEAST_CONTRAST);
    let hint = lighter
        .into_iter()
        .find(enough)
        .map_or_else(String::new, |c| format!("a lighter one can be read on, as `tint: \"{}\"`", c.hex()));
    let message = format!(
        "text on this tint cannot be read well: its contrast is {:.1} : 1, and WCAG 2.2 asks for {LEAST_CONTRAST} : 1",
        // Cut, not rounded, so that it is never told to be what it falls short of.
        (least * 10.0).floor() / 10.0
    );
    check.error(node.span.clone(), message, hint);
}

/// What is told of an accent that headings cannot be read in: they are printed darker.
fn readable_accent(check: &mut Check<'_>, accent: Colour, ground: Colour, node: &Node) {
    let contrast = accent.contrast(Colour::WHITE).min(accent.contrast(ground));
    if contrast >= LEAST_CONTRAST {
        return;
    }
    let printed = darkened(accent, ground).hex();
    let message = format!(
        "words in this accent could not be read well: its contrast is {:.1} : 1, and WCAG 2.2 asks for {LEAST_CONTRAST} : 1",
        (contrast * 10.0).floor() / 10.0
    );
    let hint = format!(
        "rules and bands keep it, words are printed in `\"{printed}\"`; give a darker one to have both alike"
    );
    check.note(Problem::advice(message).at(check.place(node.span.clone())).hint(hint));
}

fn cover_way(check: &mut Check<'_>, word: &Text, root: &Node) -> Option<CoverWay> {
    let word = word.0.trim().to_lowercase();
    if let Some((_, way)) = CoverWay::WORDS.iter().find(|(known, _)| *known == word) {
        return Some(*way);
    }
    let words = CoverWay::WORDS.map(|(word, _)| word);
    let hint = did_you_mean(&word, &words, "the arrangements are");
    check.error(root.get("cover").span.clone(), format!("a cover cannot be `{}`", shown(&word)), hint);
    None
}

fn house_fonts(check: &mut Check<'_>, part: &FontsPart, node: &Node, beside: &Beside<'_>) -> Vec<HouseFont> {
    check.keys::<FontsPart>(node);
    let FontsPart { text, strong, emphasis, title } = part;
    let mut fonts = Vec::new();
    for ((key, faces), field) in USES.into_iter().zip([text, strong, emphasis, title]) {
        let hint = format!("name the font's file, as in `{key}: fonts/{key}.ttf`");
        if matches!(field, Field::Missing) {
            continue;
        }
        let Some(file) = check.need_text(field, node, key, &hint, text::PATH) else { continue };
        let place = check.place(node.get(key).span.clone());
        let path = beside.folder.join(file);
        let name = path.display().to_string();
        let bytes = beside.shelf.read(&path, LARGEST_FONT).map_err(|why| {
            let hint =
                "give one that holds fewer scripts: Latin, Greek and Cyrillic take less than a megabyte";
            why.problem("font", &name, LARGEST_FONT, hint)
        });
        let read = bytes.and_then(|bytes| fonts::read(bytes).map_err(|fault| fault.problem(&name)));
        match read {
            Ok(font) => fonts.push(HouseFont { key, faces, font, name, place }),
            Err(problem) => check.note(problem.at(place)),
        }
    }
    fonts
}

impl Studio {
    /// Takes up what a style says; what it leaves out stays.
    pub fn wear(&mut self, style: HouseStyle) {
        let HouseStyle { accent, tint, cover, fonts, head, foot, logo } = style;
        self.accent = accent.unwrap_or(self.accent);
        self.tint = tint.or(self.tint);
        self.cover = cover.unwrap_or(self.cover);
        self.fonts.retain(|old| fonts.iter().all(|new| new.key != old.key));
        self.fonts.extend(fonts);
        for (to, given) in [(&mut self.head, head), (&mut self.foot, foot)] {
            if given.is_some() {
                *to = given;
            }
        }
        if let Some(mut logo) = logo {
            // A logo shows the studio's name where nothing else is said of it.
            if logo.shows.is_empty() {
                logo.shows = Phrase::from(self.name.as_str());
                logo.image.alt.clone_from(&self.name);
            }
            self.logo = Some(logo);
        }
    }

    /// The maker's fonts by the built-in faces that they stand in place of.
    #[must_use]
    pub fn own_faces(&self) -> OwnFaces {
        let mut own = OwnFaces::NONE;
        for house in &self.fonts {
            house.faces.iter().for_each(|face| own.set(*face, house.font));
        }
        own
    }
}
