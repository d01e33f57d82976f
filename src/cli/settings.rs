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
    /// Whether it was made for several papers at once, so that its name says which one it is.
    #[serde(default, skip_serializing_if = "is_false")]
    pub(super) of_several: bool,
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
    /// The personal line.
    #[serde(default, skip_serializing_if = "Option::is_none", rename = "for")]
    pub(super) stamp: Option<String>,
    /// A bench copy, not a booklet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) bench: Option<BenchSettings>,
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
}

impl From<Paper> for PaperName {
    fn from(paper: Paper) -> PaperName {
        match paper {
            Paper::A4 => PaperName::A4,
            Paper::Letter => PaperName::Letter,
        }
    }
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::Letter => Paper::Letter,
        }
    }
}

impl PaperName {
    /// As it is written.
    pub(super) fn word(self) -> &'static str {
        match self {
            PaperName::A4 => "a4",
            PaperName::Letter => "letter",
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
    pub(super) fn plain(paper: PaperName, of_several: bool) -> Settings {
        Settings {
            paper,
            of_several,
            colourway: None,
            colours: Vec::new(),
            start: None,
            large_print: false,
            grey: false,
            language: None,
            stamp: None,
            bench: None,
        }
    }

    /// As it stands in a file's metadata.
    pub(super) fn recorded(&self) -> String {
        // Nothing in it can fail to become JSON: no map with odd keys, no float.
        serde_json::to_string(self).unwrap_or_default()
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
        assert_eq!(settings.recorded(), r#"{"paper":"letter","of-several":true}"#);
        settings.colourway = Some("River".to_owned());
        settings.colours = vec!["C=slate".to_owned()];
        settings.start = Some(SideName::Right);
        settings.stamp = Some("Order \"1042\"".to_owned());
        settings.bench = Some(BenchSettings { rows: Some((5, 12)), earring: Some(2) });
        assert_eq!(Settings::from_recorded(&settings.recorded()), Some(settings));
    }

    #[test]
    fn what_a_later_version_recorded_is_not_guessed_at() {
        assert_eq!(Settings::from_recorded(r#"{"paper":"a4","gilding":true}"#), None);
    }
}
