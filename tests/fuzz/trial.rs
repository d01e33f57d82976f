//! What is done with an input, and what must be true of it.

use super::embedded::sound;
use super::input::{Asked, Input, Kind};
use super::seeds::SETS;
use crate::maker::Counted;
use crate::support::editions::plain;
use fringebook::booklet::{BenchEarring, Booklet, Edition, TemplateFile, Templates, Wording, bench, compose};
use fringebook::design::{Paper, Texts, Wishes, read_from};
use fringebook::diagnostic::{Look, Problem, Severity, has_errors, render_all};
use fringebook::layout::lay_out;
use fringebook::paint::{Times, pdf};
use fringebook::stitch::stitch;
use fringebook::tally::{advise, tally};
use std::path::Path;
use std::sync::LazyLock;

/// How far an input came.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Came {
    /// Its mistakes were told.
    Refused,
    /// A design came of it; of templates, a booklet.
    Read,
    /// A painted file came of it.
    Painted,
}

/// Reads, stitches and counts; paints if the input asks for it.
///
/// # Errors
/// What is not as it must be.
pub fn through_all(input: &Input) -> Result<Came, String> {
    match input.kind {
        Kind::Template => templates(input),
        _ => design(input),
    }
}

fn design(input: &Input) -> Result<Came, String> {
    let texts = Texts::new(input.files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())));
    let reading = read_from(&texts, Path::new(&input.files[0].0), &Wishes::default());
    told(&reading.problems)?;
    if reading.design.is_some() == has_errors(&reading.problems) {
        return Err(format!("a design and errors, or neither: {:?}", reading.problems));
    }
    if input.kind == Kind::Image {
        named(&reading.problems)?;
    }
    let Some(design) = reading.design else { return Ok(Came::Refused) };
    for image in design.photographs.pictures().chain(&design.studio.logo) {
        sound(&image.image.file).map_err(|wrong| format!("{}: {wrong}", image.image.name))?;
    }
    let work = stitch(&design);
    let tally = tally(&design, &work);
    told(&advise(&design, &work, &tally))?;
    if !input.painted {
        return Ok(Came::Read);
    }
    let wording = match Wording::with(&design.studio.language, &Templates::BUILT_IN) {
        Ok(wording) => wording,
        Err(problem) => return told(&[problem]).map(|()| Came::Refused),
    };
    match composed(&Counted { design, work, tally }, &wording, input.asked) {
        Ok((times, booklet)) => painted(&times, &booklet),
        Err(problems) => told(&problems).map(|()| Came::Refused),
    }
}

/// The good designs that booklets with mutated templates are made of.
static GOOD: LazyLock<Vec<Counted>> = LazyLock::new(|| {
    let read = |set: &super::seeds::Set| {
        let texts =
            Texts::new([("d.yaml", set.design), ("palette.yaml", set.palette), ("studio.yaml", set.studio)]);
        let design =
            read_from(&texts, Path::new("d.yaml"), &Wishes::default()).design.expect("a good design");
        let work = stitch(&design);
        let tally = tally(&design, &work);
        Counted { design, work, tally }
    };
    SETS.iter().map(read).collect()
});

/// Everything wrong in a maker's own templates is told at its place, in them.
fn templates(input: &Input) -> Result<Came, String> {
    let file = |at: usize| {
        let (name, bytes) = &input.files[at];
        Some(TemplateFile { name: name.clone(), bytes: bytes.clone() })
    };
    let refused = |problems: Vec<Problem>| {
        told(&problems)?;
        located(&problems, "own/").map(|()| Came::Refused)
    };
    let read = match Templates::read(file(3), file(4)) {
        Ok(read) => read,
        Err(problems) => return refused(problems),
    };
    let wording = match Wording::with(input.asked.language, &read) {
        Ok(wording) => wording,
        // A language that there is not is asked for in the studio file or in the command, which know where.
        Err(problem) if problem.place.is_none() && Wording::built_in(input.asked.language).is_none() => {
            return told(&[problem]).map(|()| Came::Refused);
        }
        Err(problem) => return refused(vec![problem]),
    };
    match composed(&GOOD[input.asked.set], &wording, input.asked) {
        Err(problems) => refused(problems),
        Ok(_) if !input.painted => Ok(Came::Read),
        Ok((times, booklet)) => painted(&times, &booklet),
    }
}

/// The booklet that is asked for, and its times.
fn composed(of: &Counted, wording: &Wording, asked: Asked) -> Result<(Times, Booklet), Vec<Problem>> {
    let Counted { design, work, tally } = of;
    let large_print = design.studio.large_print || asked.large_print;
    let edition = Edition { large_print, grey: asked.grey, ..plain(Paper::A4) };
    let booklet = if asked.bench {
        let earrings = [1, 2].map(|number| BenchEarring { number, design, work, tally });
        bench(&earrings, wording, &edition, None)?
    } else {
        compose(design, work, tally, wording, &edition)?
    };
    Ok((Times::of(design.date, None), booklet))
}

fn painted(times: &Times, booklet: &Booklet) -> Result<Came, String> {
    // Characters without a glyph are told by the command.
    let Ok(list) = lay_out(booklet) else { return Ok(Came::Refused) };
    match pdf(&list, times) {
        Ok(bytes) if bytes.starts_with(b"%PDF-1.7") && !list.pages.is_empty() => Ok(Came::Painted),
        Ok(bytes) => Err(format!("{} pages, {} bytes", list.pages.len(), bytes.len())),
        Err(e) => Err(format!("the painter refuses: {e}")),
    }
}

/// Problems can be shown, coloured and plain, and nothing of a file reaches the terminal raw.
fn told(problems: &[Problem]) -> Result<(), String> {
    let _ = render_all(problems, Look::Coloured);
    let plain = render_all(problems, Look::Plain);
    match plain.chars().find(|c| c.is_control() && !matches!(c, '\n' | '\t')) {
        Some(raw) => Err(format!("a message holds {raw:?}: {plain:?}")),
        None => Ok(()),
    }
}

/// There are errors, and each has its place in a file whose name begins so.
fn located(problems: &[Problem], file: &str) -> Result<(), String> {
    let in_it = |p: &Problem| {
        let place = p.place.as_ref();
        place.is_some_and(|p| p.source.name.starts_with(file) && p.source.text.get(p.span.clone()).is_some())
    };
    match problems.iter().find(|p| !in_it(p)) {
        // How many more there are has no place of its own.
        Some(p) if problems.len() > 100 && p.message.ends_with(" more") => Ok(()),
        Some(p) => Err(format!("a problem without a place: {p:?}")),
        None if problems.is_empty() => Err("refused without a word".to_owned()),
        None => Ok(()),
    }
}

/// Errors stand where a picture is named, and name it.
fn named(problems: &[Problem]) -> Result<(), String> {
    let is_right = |p: &Problem| {
        let underlined = p.place.as_ref().and_then(|p| p.source.text.get(p.span.clone()));
        ["photo.jpg", "logo.png"].iter().any(|name| underlined == Some(*name) && p.message.contains(name))
    };
    match problems.iter().find(|p| p.severity == Severity::Error && !is_right(p)) {
        Some(p) => Err(format!("an error that does not stand at the picture: {p:?}")),
        None => Ok(()),
    }
}
