//! The parts of a design file put together.

use super::check::Check;
use super::field::{Field, Text};
use super::files::DesignFile;
use super::model::{Checked, Design, Hang, Pair, Side, Skill};
use super::outline::Node;
use super::palette::PaletteRead;
use super::picture::LetterReader;
use super::shelf::Shelf;
use super::studio::StudioRead;
use super::{body, fringe, hang, letters, studio, supplies};
use crate::diagnostic::{did_you_mean, shown};
use std::path::Path;

/// Checks a design file against its palette and studio; `None` when any part is missing or wrong.
pub(super) fn assemble(
    check: &mut Check<'_>,
    shelf: &dyn Shelf,
    path: &Path,
    root: &Node,
    file: &DesignFile,
    palette: PaletteRead,
    studio: StudioRead,
) -> Option<Design> {
    let slug = path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
    let title =
        check.need(&file.title, root, "title", "give the design a title, as in `title: Heron at Dusk`");
    let title = title.map(|t| t.0.trim().to_owned());
    if title.as_deref() == Some("") {
        check.error(
            root.get("title").span.clone(),
            "the title is empty",
            "give the design a title, as in `title: Heron at Dusk`",
        );
    }
    let summary =
        check.take(&file.summary, root, "summary").map(|t| t.0.trim().to_owned()).unwrap_or_default();
    let edition = check.take(&file.edition, root, "edition").map_or(1, |n| n.0);
    let date = check.take(&file.date, root, "date").map(|d| d.0);
    let skill = check.take(&file.skill, root, "skill").map_or(Skill::Intermediate, |s| s.0);
    let pair = word(
        check,
        &file.pair,
        root,
        "pair",
        &[("mirrored", Pair::Mirrored), ("same", Pair::Same)],
        Pair::Mirrored,
    );
    let start =
        word(check, &file.start, root, "start", &[("left", Side::Left), ("right", Side::Right)], Side::Left);

    let colours = check.need(
        &file.colours,
        root,
        "colours",
        "give each letter its bead, as in `colours: {A: ink, B: mist}`",
    );
    let letters = colours.map(|c| letters::check(check, c, &root.named("colours"), &palette));
    let hint = "draw the body: `stitch: brick`, `drop:` and `picture: |`";
    let body_part = check.need(&file.body, root, "body", hint);
    let hint = "list the strands: `strands:` with one line each, as in `- 8A 2B 1D`";
    let fringe_part = check.need(&file.fringe, root, "fringe", hint);
    // Without letters every bead would be told as unknown.
    let letters = letters.filter(|l| !l.list.is_empty())?;
    let reader = &mut LetterReader::new(&letters);
    let (body, width) =
        body_part.map(|part| body::check(check, part, &root.named("body"), reader)).unwrap_or_default();
    let fringe =
        fringe_part.and_then(|part| fringe::check(check, part, &root.named("fringe"), reader, width));
    let hang = match (&file.hang, root.entry("hang")) {
        (Field::Missing, _) | (_, None) => Some(Hang::ThreadGuard),
        (given, Some((key, node))) => {
            check.take(given, root, "hang").and_then(|part| hang::check(check, part, node, key, reader))
        }
    };
    let colourways = check
        .take(&file.colourways, root, "colourways")
        .map(|c| letters::colourways(check, c, root.get("colourways"), &letters, &palette))
        .unwrap_or_default();
    let (body_thread, fringe_thread) = supplies::threads(check, file, root, &palette);
    let findings = hang.as_ref().and_then(|hang| supplies::findings(check, file, root, hang, &palette));
    let mut allowances = studio.allowances;
    if let Some(part) = check.take(&file.thread, root, "thread") {
        studio::allowances(check, part, &root.named("thread"), &mut allowances);
    }
    let mut own_studio = studio.studio;
    let cover = title.clone().unwrap_or_default();
    let folder = path.parent().unwrap_or(Path::new(""));
    let by_name = || studio::photo_in(shelf, studio.photos.as_deref()?, &slug, &cover);
    own_studio.photo = supplies::photo(check, file, root, shelf, folder, by_name, &cover);
    Some(Design {
        slug,
        title: title?,
        summary,
        edition,
        date,
        skill,
        letters: letters.list,
        body: body?,
        fringe: fringe?,
        pair,
        hang: hang?,
        start,
        body_thread: body_thread?,
        fringe_thread: fringe_thread?,
        allowances,
        findings: findings?,
        colourways,
        colourway: None,
        palette: palette.palette,
        studio: own_studio,
        checked: Checked(()),
    })
}

fn word<T: Copy>(
    check: &mut Check<'_>,
    field: &Field<Text>,
    root: &Node,
    key: &str,
    choices: &[(&str, T)],
    default: T,
) -> T {
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
