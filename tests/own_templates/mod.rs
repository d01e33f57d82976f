//! A maker's own templates: a folder that holds only what differs, and what is said when it is wrong.

mod bounds;
mod differs;
mod told;

use crate::maker::{Counted, DESIGN, Folder};
use crate::support::editions::plain;
use fringebook::booklet::{self, Booklet, TemplateFile, Templates, Wording};
use fringebook::design::Paper;
use fringebook::diagnostic::{Look, Problem, render_all};

/// A small design, read, stitched and counted.
fn small() -> Counted {
    Folder::new().with("small.yaml", &format!("date: 2026-03-21\n{DESIGN}")).count("small.yaml")
}

fn file(name: &str, text: &str) -> Option<TemplateFile> {
    Some(TemplateFile { name: name.to_owned(), bytes: text.as_bytes().to_vec() })
}

/// From the texts of a folder to a booklet: what a run of `make --templates` does with them.
fn composed(
    of: &Counted,
    language: &str,
    settings: Option<TemplateFile>,
    words: Option<TemplateFile>,
) -> Result<Booklet, Vec<Problem>> {
    let templates = Templates::read(settings, words)?;
    let wording = Wording::with(language, &templates).map_err(|problem| vec![problem])?;
    let edition = plain(Paper::A4);
    booklet::compose(&of.design, &of.work, &of.tally, &wording, &edition)
}

/// What a maker reads when `words.yaml` or `language.yaml` is this.
fn said(settings: Option<&str>, words: Option<&str>) -> String {
    let settings = settings.and_then(|text| file("own/language.yaml", text));
    let words = words.and_then(|text| file("own/words.yaml", text));
    match composed(&small(), "en", settings, words) {
        Ok(_) => "nothing is wrong".to_owned(),
        Err(problems) => render_all(&problems, Look::Plain),
    }
}
