//! What was asked for on top of the design's own files: it names the booklet's file and stands in its
//! metadata, so that a later run can make the same booklet again.

use crate::design::{Paper, Side};
use serde::{Deserialize, Serialize};

/// The settings of one booklet or bench copy.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct Settings {
    /// The paper.
    pub(super) paper: PaperName,
    /// Whether its name says which paper it is: it is one of several, or not the studio's own.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) paper_in_name: bool,
    /// The colourway asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) colourway: Option<String>,
    /// Letters given another bead for this booklet only: `C=slate`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) colours: Vec<String>,
    /// The starting side asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) start: Option<SideName>,
    /// Large print was asked for.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) large_print: bool,
    /// Grey was asked for.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) grey: bool,
    /// The language asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) language: Option<String>,
    /// Pages of half the paper's size lie on it, to be folded.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) fold: bool,
    /// The fold is marked.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) fold_marks: bool,
    /// To be read on a tablet, a row or a step a screen.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) tablet: bool,
    /// The personal line.
    #[serde(default, skip_serializing_if = "Option::is_none", rename = "for")]
    pub(super) stamp: Option<String>,
    /// A bench copy, not a booklet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) bench: Option<BenchSettings>,
    /// Cards to sell a pair on, not a booklet.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) cards: bool,
    /// A picture, not a booklet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) picture: Option<PictureSettings>,
}

/// The settings of a picture.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct PictureSettings {
    /// What it shows.
    pub(super) shows: Shows,
    /// How many pixels it has across; `None` for an SVG.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) pixels: Option<u32>,
    /// The colour behind what it shows, as `light`, `dark` or six hexadecimal digits after `#`; `none` for a clear one.
    pub(super) ground: String,
    /// The margin at each side, in hundredths of the side.
    pub(super) margin: u8,
}

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Shows {
    /// The pair.
    Pair,
    /// One earring near by.
    Detail,
    /// The colours.
    Colours,
    /// Some pages of the booklet, as a fan.
    Fan,
    /// A page of the booklet, from 1.
    Page(usize),
    /// The diagrams of a step, from 1.
    Step(usize),
    /// The same, move by move in one file that moves.
    Moves {
        /// The step, from 1.
        step: usize,
        /// How long each move is seen, in milliseconds.
        each: u16,
    },
    /// The same after so many moves.
    Move {
        /// The step, from 1.
        step: usize,
        /// How many of its pictures come before: 0 shows what is there before its first move.
        done: usize,
    },
}

impl Shows {
    /// In words, as in file names.
    pub(super) fn told(self) -> String {
        match self {
            Shows::Pair => "pair".to_owned(),
            Shows::Detail => "detail".to_owned(),
            Shows::Colours => "colours".to_owned(),
            Shows::Fan => "fan".to_owned(),
            Shows::Page(number) => format!("page {number}"),
            Shows::Step(number) => format!("step {number}"),
            Shows::Moves { step, .. } => format!("step {step} moves"),
            Shows::Move { step, done } => format!("step {step} move {done:02}"),
        }
    }
}

impl PictureSettings {
    /// Pixels across where nothing else is asked for: what most shops show at their largest, common practice, no
    /// source.
    pub(super) const PIXELS: u32 = 2000;
    /// The margin where nothing else is asked for.
    pub(super) const MARGIN: u8 = 6;
    /// The ground where nothing else is asked for; a step's moves are to lie over a film.
    pub(super) const GROUND: &str = "light";
    /// The ground that is none.
    pub(super) const CLEAR: &str = "none";
    /// How long a move is seen where nothing else is asked for, in milliseconds: chosen by eye.
    pub(super) const EACH: u16 = 1200;

    /// The ground where nothing else is asked for.
    pub(super) fn usual_ground(shows: Shows) -> &'static str {
        match shows {
            Shows::Moves { .. } | Shows::Move { .. } => PictureSettings::CLEAR,
            Shows::Pair | Shows::Detail | Shows::Colours | Shows::Fan | Shows::Page(_) | Shows::Step(_) => {
                PictureSettings::GROUND
            }
        }
    }

    /// Whether anything is behind what it shows.
    pub(super) fn has_ground(&self) -> bool {
        self.ground != PictureSettings::CLEAR
    }

    /// What is not as usual, in words.
    pub(super) fn unusual(&self) -> Vec<String> {
        let pixels = self.pixels.filter(|pixels| *pixels != PictureSettings::PIXELS);
        let ground = Some(&self.ground).filter(|ground| *ground != PictureSettings::usual_ground(self.shows));
        let margin = Some(self.margin).filter(|margin| *margin != PictureSettings::MARGIN);
        let each = match self.shows {
            Shows::Moves { each, .. } if each != PictureSettings::EACH => Some(each),
            _ => None,
        };
        [
            pixels.map(|pixels| format!("{pixels} pixels")),
            ground.map(|ground| if self.has_ground() { format!("on {ground}") } else { "clear".to_owned() }),
            margin.map(|margin| format!("margin {margin}")),
            each.map(|each| format!("{each} ms a move")),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// The ending of its file.
    pub(super) fn ending(&self) -> &'static str {
        if self.pixels.is_some() { "png" } else { "svg" }
    }
}

/// The settings of a bench copy.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct BenchSettings {
    /// First and last row, from 1; `None` for all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) rows: Option<(usize, usize)>,
    /// The earring of the pair, 1 or 2; `None` for both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) earring: Option<u8>,
}

/// A paper as it is written on the command line and in file names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum PaperName {
    /// A4.
    A4,
    /// US Letter.
    Letter,
    /// A5.
    A5,
    /// Half of US Letter.
    HalfLetter,
}

impl From<Paper> for PaperName {
    fn from(paper: Paper) -> PaperName {
        match paper {
            Paper::A4 => PaperName::A4,
            Paper::Letter => PaperName::Letter,
            Paper::A5 => PaperName::A5,
            Paper::HalfLetter => PaperName::HalfLetter,
        }
    }
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::Letter => Paper::Letter,
            PaperName::A5 => Paper::A5,
            PaperName::HalfLetter => Paper::HalfLetter,
        }
    }
}

impl PaperName {
    /// As it is written.
    pub(super) fn word(self) -> &'static str {
        match self {
            PaperName::A4 => "a4",
            PaperName::Letter => "letter",
            PaperName::A5 => "a5",
            PaperName::HalfLetter => "half-letter",
        }
    }
}

/// A side as it is written on the command line and in file names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, clap::ValueEnum)]
#[serde(rename_all = "kebab-case")]
pub(super) enum SideName {
    /// The left.
    Left,
    /// The right.
    Right,
}

impl From<SideName> for Side {
    fn from(name: SideName) -> Side {
        match name {
            SideName::Left => Side::Left,
            SideName::Right => Side::Right,
        }
    }
}

impl SideName {
    /// As it is written.
    pub(super) fn word(self) -> &'static str {
        match self {
            SideName::Left => "left",
            SideName::Right => "right",
        }
    }
}

/// For serde, which hands over a reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_false(value: &bool) -> bool {
    !*value
}

impl Settings {
    /// A plain booklet on this paper.
    pub(super) fn plain(paper: PaperName, paper_in_name: bool) -> Settings {
        Settings {
            paper,
            paper_in_name,
            colourway: None,
            colours: Vec::new(),
            start: None,
            large_print: false,
            grey: false,
            language: None,
            fold: false,
            fold_marks: false,
            tablet: false,
            stamp: None,
            bench: None,
            cards: false,
            picture: None,
        }
    }

    /// The paper of a single page.
    pub(super) fn page(&self) -> Paper {
        let paper = Paper::from(self.paper);
        if self.fold { paper.half() } else { paper }
    }

    /// As it stands in a file's metadata.
    pub(super) fn recorded(&self) -> String {
        // Nothing in it can fail to become JSON: no map with odd keys, no float.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Whether these are the settings of the same edition. The paper that the studio file asks for may have
    /// changed since; where it was asked for on top, it tells editions apart.
    pub(super) fn is_same_edition(&self, other: &Settings) -> bool {
        let paper = if self.paper_in_name { self.paper } else { other.paper };
        *other == Settings { paper, ..self.clone() }
    }

    /// The edition in words: `heron (colourway River, large print, for Order 1042)`.
    pub(super) fn told(&self, slug: &str) -> String {
        let mut words: Vec<String> = Vec::new();
        words.extend(self.colourway.iter().map(|name| format!("colourway {name}")));
        words.extend(self.colours.iter().cloned());
        words.extend(self.start.map(|side| format!("start {}", side.word())));
        words.extend(self.large_print.then(|| "large print".to_owned()));
        words.extend(self.grey.then(|| "grey".to_owned()));
        words.extend(self.language.iter().map(|language| format!("language {language}")));
        words.extend(self.fold.then(|| "folded".to_owned()));
        words.extend(self.fold_marks.then(|| "fold marks".to_owned()));
        words.extend(self.tablet.then(|| "tablet".to_owned()));
        words.extend(self.stamp.iter().map(|stamp| format!("for {stamp}")));
        if let Some(bench) = &self.bench {
            words.push("bench copy".to_owned());
            words.extend(bench.rows.map(|(first, last)| format!("rows {first}-{last}")));
            words.extend(bench.earring.map(|earring| format!("earring {earring}")));
        }
        words.extend(self.cards.then(|| "cards".to_owned()));
        if let Some(picture) = &self.picture {
            words.push(format!("picture of {}", picture.shows.told()));
            words.extend(picture.unusual());
        }
        words.extend(self.paper_in_name.then(|| format!("paper {}", self.paper.word())));
        if words.is_empty() { slug.to_owned() } else { format!("{slug} ({})", words.join(", ")) }
    }

    /// From a file's metadata; `None` when it is none of ours, or of a later version's.
    pub(super) fn from_recorded(text: &str) -> Option<Settings> {
        serde_json::from_str(text).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_recorded_can_be_read_back() {
        let mut settings = Settings::plain(PaperName::Letter, true);
        assert_eq!(settings.recorded(), r#"{"paper":"letter","paper-in-name":true}"#);
        settings.colourway = Some("River".to_owned());
        settings.colours = vec!["C=slate".to_owned()];
        settings.start = Some(SideName::Right);
        settings.stamp = Some("Order \"1042\"".to_owned());
        settings.bench = Some(BenchSettings { rows: Some((5, 12)), earring: Some(2) });
        assert_eq!(Settings::from_recorded(&settings.recorded()), Some(settings));
    }

    #[test]
    fn an_edition_is_told_from_every_other() {
        let plain = Settings::plain(PaperName::A4, false);
        let bench = |rows, earring| Some(BenchSettings { rows, earring });
        let editions = [
            (plain.clone(), "heron"),
            (Settings { colourway: Some("Grey".to_owned()), ..plain.clone() }, "heron (colourway Grey)"),
            (Settings { colours: vec!["C=slate".to_owned()], ..plain.clone() }, "heron (C=slate)"),
            (Settings { start: Some(SideName::Right), ..plain.clone() }, "heron (start right)"),
            (Settings { large_print: true, ..plain.clone() }, "heron (large print)"),
            (Settings { grey: true, ..plain.clone() }, "heron (grey)"),
            (Settings { language: Some("de".to_owned()), ..plain.clone() }, "heron (language de)"),
            (Settings { tablet: true, ..plain.clone() }, "heron (tablet)"),
            (Settings { stamp: Some("A&B".to_owned()), ..plain.clone() }, "heron (for A&B)"),
            (Settings { stamp: Some("a b!".to_owned()), ..plain.clone() }, "heron (for a b!)"),
            (Settings { bench: bench(None, None), ..plain.clone() }, "heron (bench copy)"),
            (
                Settings { bench: bench(Some((2, 3)), Some(2)), ..plain.clone() },
                "heron (bench copy, rows 2-3, earring 2)",
            ),
            (Settings::plain(PaperName::A4, true), "heron (paper a4)"),
            (Settings::plain(PaperName::Letter, true), "heron (paper letter)"),
        ];
        for (one, told) in &editions {
            assert_eq!(one.told("heron"), *told);
            let same = editions.iter().filter(|(other, _)| one.is_same_edition(other)).count();
            assert_eq!(same, 1, "{told}");
        }
        // The studio's own paper is no edition.
        assert!(plain.is_same_edition(&Settings::plain(PaperName::Letter, false)));
    }

    #[test]
    fn what_a_later_version_recorded_is_not_guessed_at() {
        assert_eq!(Settings::from_recorded(r#"{"paper":"a4","gilding":true}"#), None);
    }
}
