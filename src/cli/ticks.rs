//! What somebody has put into a file since it was made. Ticks are carried over to the copy that takes its
//! place, where what they stand beside is the same; a file with anything else in it is left as it is.

use super::settings::Settings;
use crate::booklet::{BoxName, stand_ins};
use crate::diagnostic::{Problem, list, number_of, ranges};
use crate::layout::DisplayList;
use crate::paint::{self, Standing};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// Names of boxes that are ticked.
pub(super) type Ticked = BTreeSet<String>;

/// What became of ticks in the new copy.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Carried {
    /// How many are kept.
    pub(super) kept: usize,
    /// Those that are not: what they stood beside is not in the new copy.
    pub(super) lost: Ticked,
}

/// The boxes that are ticked in a file of ours that is to be replaced, made with these settings; a picture has none.
///
/// # Errors
/// When something else than ticks has been put into it, or when that cannot be told.
pub(super) fn on(path: &Path, settings: &Settings) -> Result<Ticked, Problem> {
    if settings.picture.is_some() {
        return Ok(Ticked::new());
    }
    let is_bench = settings.bench.is_some();
    let bytes = match fs::read(path) {
        Ok(bytes) => bytes,
        Err(e) if e.kind() == ErrorKind::NotFound => return Ok(Ticked::new()),
        Err(e) => return Err(left(path, &format!("cannot be read ({e})"), is_bench)),
    };
    match paint::standing(&bytes, is_bench) {
        Standing::Ticked { boxes } => Ok(boxes),
        Standing::CutShort => Ok(Ticked::new()),
        Standing::NotedOn { pages } => {
            let word = if pages.len() == 1 { "page" } else { "pages" };
            let pages = list(&ranges(&pages.into_iter().collect()));
            let what = format!("has been written in since it was made (notes or marks on {word} {pages})");
            Err(left(path, &what, is_bench))
        }
        Standing::Changed => {
            Err(left(path, "has been changed by another program since it was made", is_bench))
        }
        Standing::Unclear => {
            let what = "has been saved by another program, and whether it was written in cannot be told";
            Err(left(path, what, is_bench))
        }
    }
}

fn left(path: &Path, what: &str, is_bench: bool) -> Problem {
    let ticks = if is_bench { ", ticks and all," } else { "" };
    Problem::error(format!("{} {what}, so it is left as it is", path.display()))
        .hint(format!("rename it to keep it, or replace it{ticks} with --replace"))
}

/// Ticks the boxes of a new copy that are ticked in the old one.
pub(super) fn carry(ticked: &Ticked, to: &mut DisplayList) -> Carried {
    let mut boxes: BTreeMap<&str, &mut bool> = to
        .pages
        .iter_mut()
        .flat_map(|page| &mut page.ticks)
        .map(|tick| (tick.name.as_str(), &mut tick.ticked))
        .collect();
    let mut lost = Ticked::new();
    for name in ticked {
        let its =
            std::iter::once(name.clone()).chain(stand_ins(name)).find(|n| boxes.contains_key(n.as_str()));
        match its.and_then(|n| boxes.get_mut(n.as_str())) {
            Some(is_ticked) => **is_ticked = true,
            // What is still to be bought depends on what is bought: shopping lists begin anew.
            None if BoxName::from_field(name).is_none() => {}
            None => {
                lost.insert(name.clone());
            }
        }
    }
    Carried { kept: boxes.into_values().filter(|is_ticked| **is_ticked).count(), lost }
}

impl Carried {
    /// `25 ticks kept`; `None` where there were none.
    pub(super) fn told(&self) -> Option<String> {
        (self.kept > 0).then(|| format!("{} kept", number_of(self.kept, "tick")))
    }

    /// Which ticks could not be kept in the new file.
    pub(super) fn problem(&self, path: &Path) -> Option<Problem> {
        if self.lost.is_empty() {
            return None;
        }
        let mut by_earring: BTreeMap<usize, BTreeSet<_>> = BTreeMap::new();
        for name in self.lost.iter().filter_map(|field| BoxName::from_field(field)) {
            by_earring.entry(name.earring).or_default().insert(name.worked);
        }
        let places: Vec<String> = by_earring
            .into_iter()
            .map(|(earring, worked)| {
                let worked: Vec<String> = worked.iter().map(ToString::to_string).collect();
                format!("{} of earring {earring}", list(&worked))
            })
            .collect();
        let message = format!(
            "{}: {} could not be kept, for the words beside {} have changed or are gone: {}",
            path.display(),
            number_of(self.lost.len(), "tick"),
            if self.lost.len() == 1 { "it" } else { "them" },
            places.join("; ")
        );
        Some(
            Problem::warning(message)
                .hint("see whether your beadwork still fits the pattern there, and tick again what does"),
        )
    }
}
