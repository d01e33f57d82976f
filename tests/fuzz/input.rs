//! One input: the files of a maker, some of them mutated. Everything follows from its number.

use super::chance::Chance;
use super::seeds::{SETS, SMALL, Set, TEXTS};
use super::text::mutated;
use super::{jpeg_file, picture_seeds, png_file, templates};

/// Which of the files was mutated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    Design,
    Palette,
    Studio,
    Template,
    Image,
}

/// All of them; each has the same share of the inputs.
pub const KINDS: [Kind; 5] = [Kind::Design, Kind::Palette, Kind::Studio, Kind::Template, Kind::Image];

/// One input.
pub struct Input {
    /// Its number.
    pub number: u64,
    /// What was mutated.
    pub kind: Kind,
    /// Which booklet is asked for.
    pub asked: Asked,
    /// Whether a good one is taken through to the painted file.
    pub painted: bool,
    /// Its files, the design first.
    pub files: Vec<(String, Vec<u8>)>,
}

/// Which booklet is asked for.
#[derive(Clone, Copy, Debug)]
pub struct Asked {
    /// The number of its set of files.
    pub set: usize,
    /// Its language, when its templates are mutated.
    pub language: &'static str,
    /// A bench copy.
    pub bench: bool,
    /// To be read without colour.
    pub grey: bool,
    /// In large print.
    pub large_print: bool,
}

/// One in so many inputs is to be taken through to the painted file. Most have mistakes, so that about one
/// in twenty comes that far.
const PAINTED: usize = 4;

/// Languages that are asked for: those built in, English most, and one that a maker's templates may add.
const LANGUAGES: [&str; 8] = ["en", "en", "en", "de", "fr", "es", "en-US", "nl"];

impl Input {
    /// The input of a number.
    pub fn numbered(number: u64) -> Input {
        let mut chance = Chance::new(number);
        let kind = KINDS[chance.below(KINDS.len())];
        let painted = chance.once_in(PAINTED);
        let asked = Asked {
            set: (0..3).map(|_| chance.below(SETS.len())).min().unwrap_or(0),
            language: chance.one_of(&LANGUAGES),
            bench: chance.once_in(5),
            grey: chance.once_in(5),
            large_print: chance.once_in(5),
        };
        let set = SETS[asked.set];
        let files = match kind {
            Kind::Design | Kind::Palette | Kind::Studio => texts(kind, set, &mut chance),
            Kind::Template => with_templates(set, asked.language, &mut chance),
            Kind::Image => with_pictures(&mut chance),
        };
        Input { number, kind, asked, painted, files }
    }
}

fn texts(kind: Kind, set: Set, chance: &mut Chance) -> Vec<(String, Vec<u8>)> {
    let files = [
        ("d.yaml", set.design, Kind::Design),
        ("palette.yaml", set.palette, Kind::Palette),
        ("studio.yaml", set.studio, Kind::Studio),
    ];
    files
        .into_iter()
        .map(|(name, text, of)| {
            let bytes = if of == kind { mutated(text, &TEXTS, chance) } else { text.as_bytes().to_vec() };
            (name.to_owned(), bytes)
        })
        .collect()
}

/// As they are, and a folder `own` of templates.
fn with_templates(set: Set, language: &str, chance: &mut Chance) -> Vec<(String, Vec<u8>)> {
    let own = templates::own(language, chance);
    let mut files = texts(Kind::Template, set, chance);
    files.push(("own/language.yaml".to_owned(), own.settings));
    files.push(("own/words.yaml".to_owned(), own.words));
    files
}

/// The small set with a logo and a photograph, one of them mutated.
fn with_pictures(chance: &mut Chance) -> Vec<(String, Vec<u8>)> {
    let mut files = texts(Kind::Image, SMALL, chance);
    files[0].1.extend(b"photos: {cover: {file: photo.jpg, shows: a pair}}\n");
    files[2].1.extend(b"logo: {file: logo.png, shows: a reed}\n");
    let mut pictures = [&picture_seeds::JPEGS[0], &picture_seeds::PNGS[0]].map(Vec::clone);
    // What a file is named says nothing of what it is.
    let which = chance.below(2);
    let mut bytes = if chance.once_in(2) { png_file::mutated(chance) } else { jpeg_file::mutated(chance) };
    if chance.once_in(5) {
        png_file::bytes_changed(&mut bytes, chance);
    }
    pictures[which] = bytes;
    let [photo, logo] = pictures;
    files.push(("photo.jpg".to_owned(), photo));
    files.push(("logo.png".to_owned(), logo));
    files
}
