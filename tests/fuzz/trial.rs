//! What is done with an input, and what must be true of it.

use super::input::Input;
use crate::support::editions::plain;
use fringebook::booklet::{Edition, Wording, compose};
use fringebook::design::{Paper, Texts, Wishes, read_from};
use fringebook::diagnostic::{Look, Problem, has_errors, render_all};
use fringebook::layout::lay_out;
use fringebook::paint::{Times, pdf};
use fringebook::stitch::stitch;
use fringebook::tally::{advise, tally};
use std::path::Path;

/// How far an input came.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Came {
    /// Its mistakes were told.
    Refused,
    /// A design came of it.
    Read,
    /// A painted file came of it.
    Painted,
}

/// Reads, stitches and counts; paints if the input asks for it.
///
/// # Errors
/// What is not as it must be.
pub fn through_all(input: &Input) -> Result<Came, String> {
    let texts = Texts::new(input.files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())));
    let reading = read_from(&texts, Path::new(&input.files[0].0), &Wishes::default());
    told(&reading.problems)?;
    if reading.design.is_some() == has_errors(&reading.problems) {
        return Err(format!("a design and errors, or neither: {:?}", reading.problems));
    }
    let Some(design) = reading.design else { return Ok(Came::Refused) };
    let work = stitch(&design);
    let counted = tally(&design, &work);
    told(&advise(&design, &work, &counted))?;
    if !input.painted {
        return Ok(Came::Read);
    }
    let Some(wording) = Wording::built_in(&design.studio.language) else {
        return Err(format!("a design came of it, and there is no language `{}`", design.studio.language));
    };
    let edition = Edition { large_print: design.studio.large_print, ..plain(Paper::A4) };
    let booklet = match compose(&design, &work, &counted, &wording, &edition) {
        Ok(booklet) => booklet,
        Err(problems) => return told(&problems).map(|()| Came::Refused),
    };
    // Characters without a glyph are told by the command.
    let Ok(list) = lay_out(&booklet) else { return Ok(Came::Refused) };
    match pdf(&list, &Times::of(design.date, None)) {
        Ok(bytes) if bytes.starts_with(b"%PDF-1.7") && !list.pages.is_empty() => Ok(Came::Painted),
        Ok(bytes) => Err(format!("{} pages, {} bytes", list.pages.len(), bytes.len())),
        Err(e) => Err(format!("the painter refuses: {e}")),
    }
}

/// Problems can be shown, coloured and plain, and nothing of a file reaches the terminal raw.
fn told(problems: &[Problem]) -> Result<(), String> {
    let _ = render_all(problems, Look::Coloured);
    let plain = render_all(problems, Look::Plain);
    match plain.chars().find(|c| c.is_control() && *c != '\n') {
        Some(raw) => Err(format!("a message holds {raw:?}: {plain:?}")),
        None => Ok(()),
    }
}
