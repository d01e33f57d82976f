//! The parts of a design file put together.

use super::bounds::{MOST_BEADS, text};
use super::files::DesignFile;
use super::gallery::Gallery;
use super::model::{
    Allowances, Body, Checked, Colourway, Date, Design, Fringe, Hanging, Letter, Pair, Side, Skill,
};
use super::palette::PaletteRead;
use super::phrase::Phrase;
use super::picture::LetterReader;
use super::studio::StudioRead;
use super::yaml::{Check, Field, Node, Text};
use super::{body, film, fringe, hang, letters, photographs, studio, supplies};
use crate::diagnostic::{did_you_mean, shown, thousands};
use std::path::Path;

/// What a design is checked against.
pub(super) struct Around<'l> {
    /// Where its pictures are read.
    pub gallery: &'l Gallery<'l>,
    /// Whether its photographs are decoded, to know that they are whole.
    pub prove: bool,
    /// Its palette.
    pub palette: PaletteRead,
    /// Its studio.
    pub studio: StudioRead,
}

/// Checks a design file against its palette and studio; `None` when any part is missing or wrong.
pub(super) fn assemble(
    check: &mut Check<'_>,
    path: &Path,
    root: &Node,
    file: &DesignFile,
    around: Around<'_>,
) -> Option<Design> {
    let Around { gallery, prove, palette, studio } = around;
    let slug = path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
    let head = head(check, root, file);
    let beadwork = beadwork(check, root, file, &palette)?;
    let (body_thread, fringe_thread) = supplies::threads(check, file, root, &palette);
    let hangings = beadwork.hangings.as_deref();
    let findings = hangings.and_then(|hangings| supplies::findings(check, file, root, hangings, &palette));
    let allowances = allowances(check, root, file, studio.allowances);
    let cover = head.title.clone().unwrap_or_default();
    let folder = path.parent().unwrap_or(Path::new(""));
    let mut photographs = check
        .take(&file.photos, root, "photos")
        .map(|part| photographs::check(check, part, root, &photographs::Source { gallery, folder }))
        .unwrap_or_default();
    let names_cover = root.get("photos").entry("cover").is_some();
    if let Some((photos, place)) = studio.photos.as_ref().filter(|_| !names_cover) {
        let found = gallery.photo_in(photos, Some(place.clone()), &slug, &cover);
        photographs.cover = photographs::by_name(check, found, &cover);
    }
    if prove {
        let problems: Vec<_> = photographs.pictures().filter_map(|picture| picture.image.problem()).collect();
        problems.into_iter().for_each(|problem| check.note(problem));
    }
    let film =
        check.take(&file.film, root, "film").and_then(|part| film::check(check, part, &root.named("film")));
    Some(Design {
        slug,
        title: head.title?,
        summary: head.summary,
        edition: head.edition,
        date: head.date,
        skill: head.skill,
        letters: beadwork.letters,
        body: beadwork.body?,
        fringe: beadwork.fringe?,
        pair: head.pair,
        hangings: beadwork.hangings?,
        start: head.start,
        body_thread: body_thread?,
        fringe_thread: fringe_thread?,
        allowances,
        findings: findings?,
        colourways: beadwork.colourways,
        colourway: None,
        palette: palette.palette,
        studio: studio.studio,
        photographs,
        film,
        checked: Checked(()),
    })
}

/// What a design says of itself.
struct Head {
    title: Option<Phrase>,
    summary: Phrase,
    edition: u32,
    date: Option<Date>,
    skill: Skill,
    pair: Pair,
    start: Side,
}

fn head(check: &mut Check<'_>, root: &Node, file: &DesignFile) -> Head {
    Head {
        title: title(check, root, file),
        summary: check.phrase(&file.summary, root, "summary", text::SUMMARY).unwrap_or_default(),
        edition: check.take(&file.edition, root, "edition").map_or(1, |n| n.0),
        date: check.take(&file.date, root, "date").map(|d| d.0),
        skill: check.take(&file.skill, root, "skill").map_or(Skill::Intermediate, |s| s.0),
        pair: word(check, &file.pair, root, "pair", &[("mirrored", Pair::Mirrored), ("same", Pair::Same)]),
        start: word(check, &file.start, root, "start", &[("left", Side::Left), ("right", Side::Right)]),
    }
}

fn title(check: &mut Check<'_>, root: &Node, file: &DesignFile) -> Option<Phrase> {
    let hint = "give the design a title, as in `title: Heron at Dusk`";
    check.need_phrase(&file.title, root, "title", hint, text::TITLE)
}

/// What is beaded: the letters, and what they draw as far as it can be read.
struct Beadwork {
    letters: Vec<Letter>,
    body: Option<Body>,
    fringe: Option<Fringe>,
    hangings: Option<Vec<Hanging>>,
    colourways: Vec<Colourway>,
}

/// `None` without letters: every bead would be told as unknown.
fn beadwork(
    check: &mut Check<'_>,
    root: &Node,
    file: &DesignFile,
    palette: &PaletteRead,
) -> Option<Beadwork> {
    let hint = "give each letter its bead, as in `colours: {A: ink, B: mist}`";
    let colours = check.need(&file.colours, root, "colours", hint);
    let letters = colours.map(|c| letters::check(check, c, &root.named("colours"), palette));
    let hint = "draw the body: `stitch: brick`, `drop:` and `picture: |`";
    let body = check.need(&file.body, root, "body", hint);
    let hint = "list the strands: `strands:` with one line each, as in `- 8A 2B 1D`";
    let fringe = check.need(&file.fringe, root, "fringe", hint);

    let letters = letters.filter(|l| !l.list.is_empty())?;
    let reader = &mut LetterReader::new(&letters);
    let (body, width) =
        body.map(|part| body::check(check, part, &root.named("body"), reader)).unwrap_or_default();
    let fringe = fringe
        .and_then(|part| fringe::check(check, part, &root.named("fringe"), reader, body.as_ref(), width));
    let fringe = fringe.filter(|fringe| !too_many_beads(check, root, body.as_ref(), fringe));
    let hangings = match (&file.hang, root.entry("hang")) {
        (Field::Missing, _) | (_, None) => Some(vec![Hanging::guard()]),
        (given, Some((key, node))) => {
            let top = body.as_ref().map(|body| body.top_row().stacks.len());
            check.take(given, root, "hang").and_then(|part| hang::check(check, part, node, key, reader, top))
        }
    };
    let colourways = check
        .take(&file.colourways, root, "colourways")
        .map(|c| letters::colourways(check, c, root.get("colourways"), &letters, palette))
        .unwrap_or_default();
    letters::alike_enough(check, &letters, &colourways, palette);
    Some(Beadwork { letters: letters.list, body, fringe, hangings, colourways })
}

/// Notes an earring of more beads than any is made of, at the part that has most of them.
fn too_many_beads(check: &mut Check<'_>, root: &Node, body: Option<&Body>, fringe: &Fringe) -> bool {
    let of_body =
        body.map_or(0, |body| body.rows.iter().map(|row| row.stacks.len()).sum::<usize>() * body.drop);
    let of_fringe: usize = fringe.strands.iter().map(|strand| strand.beads.len()).sum();
    let beads = of_body + of_fringe;
    if beads > MOST_BEADS {
        let part = if of_body > of_fringe { "body" } else { "fringe" };
        check.error(
            root.named(part).span,
            format!("the earring has {} beads, and can have {}", thousands(beads), thousands(MOST_BEADS)),
            format!("make the {part} smaller"),
        );
    }
    beads > MOST_BEADS
}

/// The studio's allowances, or where the design gives its own, those.
fn allowances(check: &mut Check<'_>, root: &Node, file: &DesignFile, studio: Allowances) -> Allowances {
    let mut allowances = studio;
    if let Some(part) = check.take(&file.thread, root, "thread") {
        studio::allowances(check, part, &root.named("thread"), &mut allowances);
    }
    allowances
}

/// One of two or more words, the first of them where nothing is said.
fn word<T: Copy>(
    check: &mut Check<'_>,
    field: &Field<Text>,
    root: &Node,
    key: &str,
    choices: &[(&str, T)],
) -> T {
    let default = choices[0].1;
    let Some(text) = check.take(field, root, key) else { return default };
    let text = text.0.trim().to_lowercase();
    match choices.iter().find(|(word, _)| *word == text) {
        Some((_, choice)) => *choice,
        None => {
            let words: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
            let hint = did_you_mean(&text, &words, "the words are");
            check.error(root.get(key).span.clone(), format!("`{key}` cannot be `{}`", shown(&text)), hint);
            default
        }
    }
}
