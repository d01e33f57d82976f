//! What can be asked for on top of a design's own files, and the booklets that follow from it.

use super::settings::{PaperName, Settings, Shows, SideName};
use crate::design::{Design, Paper};
use crate::diagnostic::is_obeyed;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// The paper asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperWish {
    /// 210 × 297 mm
    A4,
    /// 8.5 × 11 in
    Letter,
    /// A file for each
    Both,
    /// 148 × 210 mm
    A5,
    /// 5.5 × 8.5 in
    HalfLetter,
}

impl PaperWish {
    /// The papers it means.
    fn papers(self) -> Vec<Paper> {
        match self {
            PaperWish::A4 => vec![Paper::A4],
            PaperWish::Letter => vec![Paper::Letter],
            PaperWish::Both => vec![Paper::A4, Paper::Letter],
            PaperWish::A5 => vec![Paper::A5],
            PaperWish::HalfLetter => vec![Paper::HalfLetter],
        }
    }
}

/// Where files go and how they are set: asked of booklets and bench copies alike.
#[derive(Debug, Args)]
pub(super) struct SheetArgs {
    /// The paper; otherwise the studio file says
    #[arg(long, value_enum, hide_possible_values = true, value_name = "a4|letter|both|a5|half-letter")]
    pub(super) paper: Option<PaperWish>,
    /// Write into this folder, made if need be; otherwise each file goes beside its design
    #[arg(long, value_name = "FOLDER")]
    pub(super) out: Option<PathBuf>,
    /// Large print
    #[arg(long)]
    pub(super) large_print: bool,
    /// The language of the booklet; otherwise the studio file says
    #[arg(long, value_name = "LANGUAGE")]
    pub(super) language: Option<String>,
    /// Take wording and section order from this folder
    #[arg(long, value_name = "FOLDER")]
    pub(super) templates: Option<PathBuf>,
    /// Replace even another edition of the same name, or a file that fringebook has not made
    #[arg(long)]
    pub(super) replace: bool,
}

/// Which edition of a booklet is wanted.
#[derive(Debug, Args)]
pub(super) struct EditionArgs {
    /// In this colourway of the design
    #[arg(long, value_name = "NAME", conflicts_with = "each_colourway")]
    pub(super) colourway: Option<String>,
    /// As the design is written, and in each of its colourways
    #[arg(long)]
    pub(super) each_colourway: bool,
    /// Give a letter another bead of the palette, for this time only; may be given several times
    #[arg(long = "colour", value_name = "LETTER=BEAD")]
    pub(super) colours: Vec<String>,
    /// Begin row 1 at this side: `right` suits left-handed beaders
    #[arg(long, value_enum, hide_possible_values = true, value_name = "left|right")]
    pub(super) start: Option<SideName>,
    /// A personal line on every page: makes a copy for one customer
    #[arg(long = "for", value_name = "WORDS", value_parser = personal)]
    pub(super) stamp: Option<String>,
    /// Charts that can be read without colour
    #[arg(long)]
    pub(super) grey: bool,
}

/// A personal line: whom the copy is for.
fn personal(text: &str) -> Result<String, String> {
    /// It stands on one line of the page, and in the file's name.
    const LONGEST: usize = 100;
    let text = text.trim();
    if text.is_empty() {
        Err("say whom the copy is for, as in --for \"Order 1042\"".to_owned())
    } else if text.chars().count() > LONGEST {
        Err(format!("give at most {LONGEST} characters, which fit on a line"))
    } else if text.contains(is_obeyed) {
        Err("a control character stands in it".to_owned())
    } else {
        Ok(text.to_owned())
    }
}

impl SheetArgs {
    /// The settings that these words ask for, before paper and edition are known.
    pub(super) fn settings(&self) -> Settings {
        Settings {
            large_print: self.large_print,
            language: self.language.clone(),
            ..Settings::plain(PaperName::A4, false)
        }
    }
}

impl EditionArgs {
    /// The settings that these words ask for, on top of those of the sheet.
    pub(super) fn settings(&self, sheet: Settings) -> Settings {
        Settings {
            colourway: self.colourway.clone(),
            colours: self.colours.clone(),
            start: self.start,
            grey: self.grey,
            stamp: self.stamp.clone(),
            ..sheet
        }
    }
}

/// One set of settings for each paper that a design is to be made for: those asked for, or else the studio's.
/// The name says which paper it is where there are several, and where it is not the studio's own: the
/// booklet on the studio's paper keeps its name then.
pub(super) fn on_each_paper(
    design: &Design,
    settings: &Settings,
    asked_for: Option<PaperWish>,
) -> impl Iterator<Item = Settings> {
    let studios = &design.studio.paper;
    let mut papers = asked_for.map_or_else(|| studios.clone(), PaperWish::papers);
    // A picture is the same whatever the paper, but for one of a page; a fan shows one kind of paper.
    // A tablet has a screen of its own.
    let paper_matters =
        !settings.tablet && settings.picture.as_ref().is_none_or(|p| matches!(p.shows, Shows::Page(_)));
    if !paper_matters {
        papers.truncate(1);
    }
    if settings.fold {
        // Folded to pages of half the size.
        papers.iter_mut().for_each(|paper| *paper = paper.sheet());
    }
    let paper_in_name = paper_matters && (papers.len() > 1 || papers != *studios);
    papers.into_iter().map(move |paper| Settings { paper: paper.into(), paper_in_name, ..settings.clone() })
}
