//! One input: the files of a maker, some of them mutated. Everything follows from its number.

use super::chance::Chance;
use super::seeds::{SETS, Set, TEXTS};
use super::text::mutated;

/// Which of the files was mutated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    Design,
    Palette,
    Studio,
}

/// One input.
pub struct Input {
    /// Its number.
    pub number: u64,
    /// What was mutated.
    pub kind: Kind,
    /// Whether a good one is taken through to the painted file.
    pub painted: bool,
    /// Its files, the design first.
    pub files: Vec<(String, Vec<u8>)>,
}

/// One in so many inputs is to be taken through to the painted file. Most have mistakes, so that about one
/// in twenty comes that far.
const PAINTED: usize = 4;

impl Input {
    /// The input of a number.
    pub fn numbered(number: u64) -> Input {
        let mut chance = Chance::new(number);
        let kind = [Kind::Design, Kind::Design, Kind::Palette, Kind::Studio][chance.below(4)];
        let painted = chance.once_in(PAINTED);
        let set = SETS[chance.below(SETS.len()).min(chance.below(SETS.len()))];
        Input { number, kind, painted, files: texts(kind, set, &mut chance) }
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
