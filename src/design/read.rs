//! From a path to a checked design: the files, then their parts, then the design.

use super::check::Check;
use super::field::Field;
use super::files::{DesignFile, PaletteFile, StudioFile};
use super::load::{Loaded, load};
use super::model::{Checked, Design, Finding, Hang, Pair, Palette, Side, Skill, Thread};
use super::outline::Node;
use super::palette::PaletteRead;
use super::picture::LetterReader;
use super::shelf::{Disk, Shelf, Texts};
use super::studio::StudioRead;
use super::wishes::{Wishes, apply};
use super::{body, fringe, letters, palette, studio};
use crate::diagnostic::{Place, Problem, did_you_mean, has_errors, shown, sort};
use std::path::{Path, PathBuf};

/// Most errors that are shown for one design; more bury the first.
const MOST_SHOWN: usize = 100;

/// What came of reading a design.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The design; `None` when any problem is an error.
    pub design: Option<Design>,
    /// All problems of the design, its palette and its studio, in reading order.
    pub problems: Vec<Problem>,
}

/// Reads a design file with its palette and studio from the disk.
#[must_use]
pub fn read(path: &Path, wishes: &Wishes) -> Reading {
    read_from(&Disk, path, wishes)
}

/// Reads the first of some files held in memory as a design; palette and studio are looked for among them.
#[must_use]
pub fn read_texts(files: &[(&str, &str)], wishes: &Wishes) -> Reading {
    let texts = Texts::new(files.iter().map(|(path, text)| (*path, *text)));
    let first = files.first().map_or("", |(path, _)| *path);
    read_from(&texts, Path::new(first), wishes)
}

/// Reads a design file with its palette and studio.
#[must_use]
pub fn read_from(shelf: &dyn Shelf, path: &Path, wishes: &Wishes) -> Reading {
    let mut problems = Vec::new();
    let design = load::<DesignFile>(shelf, path, "design", None, &mut problems)
        .and_then(|loaded| design(shelf, path, &loaded, &mut problems));
    let design = design.map(|design| apply(design, wishes, &mut problems));
    sort(&mut problems);
    let design = design.filter(|_| !has_errors(&problems));
    if problems.len() > MOST_SHOWN {
        let more = problems.len() - MOST_SHOWN;
        problems.truncate(MOST_SHOWN);
        problems
            .push(Problem::error(format!("there are {more} problems more")).hint("put these right first"));
    }
    Reading { design, problems }
}

fn design(
    shelf: &dyn Shelf,
    path: &Path,
    loaded: &Loaded<DesignFile>,
    problems: &mut Vec<Problem>,
) -> Option<Design> {
    let Loaded { source, root, file } = loaded;
    // The design's own problems come first, so its files are found before they are read.
    let mut beside = Vec::new();
    let mut check = Check::new(source, problems);
    check.keys::<DesignFile>(root);
    let palette_read = match find(&mut check, &file.palette, root, "palette", shelf, path) {
        Found::At(at, place) => read_palette(shelf, &at, place, &mut beside),
        Found::Nowhere => {
            check.error(
                root.span.start..root.span.start,
                "there is no palette.yaml in this design's folder or above it",
                "write one (`fringebook new NAME` does in an empty folder), or name another with `palette:`",
            );
            no_palette()
        }
        Found::Wrong => no_palette(),
    };
    let studio_read = match find(&mut check, &file.studio, root, "studio", shelf, path) {
        Found::At(at, place) => read_studio(shelf, &at, place, &mut beside),
        Found::Nowhere | Found::Wrong => StudioRead::default(),
    };
    let made = assemble(&mut check, shelf, path, root, file, palette_read, studio_read);
    problems.append(&mut beside);
    made
}

fn assemble(
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
    let letters = colours.map(|c| letters::check(check, c, &named(root, "colours"), &palette));
    let hint = "draw the body: `stitch: brick`, `drop:` and `picture: |`";
    let body_part = check.need(&file.body, root, "body", hint);
    let hint = "list the strands: `strands:` with one line each, as in `- 8A 2B 1D`";
    let fringe_part = check.need(&file.fringe, root, "fringe", hint);
    // Without letters every bead would be told as unknown.
    let letters = letters.filter(|l| !l.list.is_empty())?;
    let reader = &mut LetterReader::new(&letters);
    let (body, width) =
        body_part.map(|part| body::check(check, part, &named(root, "body"), reader)).unwrap_or_default();
    let fringe =
        fringe_part.and_then(|part| fringe::check(check, part, &named(root, "fringe"), reader, width));
    let hang = match (&file.hang, root.entry("hang")) {
        (Field::Missing, _) | (_, None) => Some(Hang::ThreadGuard),
        (given, Some((key, node))) => {
            check.take(given, root, "hang").and_then(|part| fringe::hang(check, part, node, key, reader))
        }
    };
    let colourways = check
        .take(&file.colourways, root, "colourways")
        .map(|c| letters::colourways(check, c, root.get("colourways"), &letters, &palette))
        .unwrap_or_default();
    let (body_thread, fringe_thread) = threads(check, file, root, &palette);
    let findings = hang.as_ref().and_then(|hang| findings(check, file, root, hang, &palette));
    let mut allowances = studio.allowances;
    if let Some(part) = check.take(&file.thread, root, "thread") {
        studio::allowances(check, part, &named(root, "thread"), &mut allowances);
    }
    let mut own_studio = studio.studio;
    own_studio.photo = photo(
        check,
        shelf,
        path,
        root,
        file,
        studio.photos.as_deref(),
        &slug,
        title.as_deref().unwrap_or(""),
    );
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

/// The value under a key, its place that of the key.
fn named(root: &Node, key: &str) -> Node {
    root.entry(key).map_or_else(
        || root.clone(),
        |(name, value)| Node { span: name.span.clone(), kind: value.kind.clone() },
    )
}

fn word<T: Copy>(
    check: &mut Check<'_>,
    field: &Field<super::field::Text>,
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

/// Where a palette or studio is.
enum Found {
    At(PathBuf, Option<Place>),
    Nowhere,
    Wrong,
}

fn find(
    check: &mut Check<'_>,
    field: &Field<super::field::Text>,
    root: &Node,
    key: &str,
    shelf: &dyn Shelf,
    path: &Path,
) -> Found {
    let folder = path.parent().unwrap_or(Path::new(""));
    match (field, check.take(field, root, key)) {
        (_, Some(name)) => {
            let at = folder.join(name.0.trim());
            let span = root.get(key).span.clone();
            if at == path {
                check.error(
                    span,
                    format!("this design names itself as its {key}"),
                    format!("name the {key} file, as in `{key}: {key}.yaml`"),
                );
                return Found::Wrong;
            }
            Found::At(at, Some(check.place(span)))
        }
        (Field::Missing, None) => shelf
            .folders_of(path)
            .iter()
            .map(|folder| folder.join(format!("{key}.yaml")))
            .find(|at| shelf.has(at))
            .map_or(Found::Nowhere, |at| Found::At(at, None)),
        (_, None) => Found::Wrong,
    }
}

fn no_palette() -> PaletteRead {
    let source = std::sync::Arc::new(crate::diagnostic::Source { name: String::new(), text: String::new() });
    PaletteRead {
        palette: Palette {
            beads: Vec::new(),
            threads: Vec::new(),
            findings: Vec::new(),
            tools: Vec::new(),
            needle: None,
            currency: None,
        },
        broken: Vec::new(),
        threads_broken: Vec::new(),
        findings_broken: Vec::new(),
        threads_at: Place::new(&source, 0..0),
        findings_at: Place::new(&source, 0..0),
        unreadable: true,
    }
}

fn read_palette(
    shelf: &dyn Shelf,
    at: &Path,
    asked_at: Option<Place>,
    problems: &mut Vec<Problem>,
) -> PaletteRead {
    match load::<PaletteFile>(shelf, at, "palette", asked_at, problems) {
        Some(loaded) => palette::check(&mut Check::new(&loaded.source, problems), &loaded.file, &loaded.root),
        None => no_palette(),
    }
}

fn read_studio(
    shelf: &dyn Shelf,
    at: &Path,
    asked_at: Option<Place>,
    problems: &mut Vec<Problem>,
) -> StudioRead {
    match load::<StudioFile>(shelf, at, "studio", asked_at, problems) {
        Some(loaded) => {
            let folder = at.parent().unwrap_or(Path::new(""));
            studio::check(
                &mut Check::new(&loaded.source, problems),
                &loaded.file,
                &loaded.root,
                shelf,
                folder,
            )
        }
        None => StudioRead::default(),
    }
}

/// The threads of body and fringe: those the design names, or those of these names.
fn threads(
    check: &mut Check<'_>,
    file: &DesignFile,
    root: &Node,
    read: &PaletteRead,
) -> (Option<Thread>, Option<Thread>) {
    let node = named(root, "threads");
    let part = check.take(&file.threads, root, "threads");
    if part.is_some() {
        check.keys::<super::files::ThreadsPart>(&node);
    }
    let mut thread = |use_: &str, field: Option<&Field<super::field::Text>>| {
        let given = field.and_then(|f| check.take(f, &node, use_)).map(|t| t.0.trim().to_owned());
        let key = given.clone().unwrap_or_else(|| use_.to_owned());
        let found = read.palette.threads.iter().find(|t| t.key == key);
        if found.is_none() && !read.unreadable && !read.threads_broken.contains(&key) {
            let names: Vec<&str> = read.palette.threads.iter().map(|t| t.key.as_str()).collect();
            let message = format!("the palette has no thread `{}`", shown(&key));
            let hint = did_you_mean(&key, &names, "its threads are");
            if given.is_some() {
                check.error(node.get(use_).span.clone(), message, hint);
            } else {
                let hint = if names.is_empty() {
                    "list it under `threads:` in the palette".to_owned()
                } else {
                    format!("add it, or name one in the design with `threads: {{{use_}: {}}}`", names[0])
                };
                check.note(Problem::error(message).at(read.threads_at.clone()).hint(hint));
            }
        }
        found.cloned()
    };
    (thread("body", part.map(|p| &p.body)), thread("fringe", part.map(|p| &p.fringe)))
}

/// The findings an earring takes: those the design lists, or the ear wire and, if it hangs by one, the thread guard.
fn findings(
    check: &mut Check<'_>,
    file: &DesignFile,
    root: &Node,
    hang: &Hang,
    read: &PaletteRead,
) -> Option<Vec<Finding>> {
    let in_palette = |key: &str| read.palette.findings.iter().find(|f| f.key == key).cloned();
    let listed = check.take(&file.findings, root, "findings");
    let known = |key: &str| read.unreadable || read.findings_broken.iter().any(|b| b == key);
    let Some(listed) = listed else {
        let wanted: &[&str] =
            if *hang == Hang::ThreadGuard { &["thread guard", "ear wire"] } else { &["ear wire"] };
        let mut findings = Vec::new();
        for key in wanted {
            match in_palette(key) {
                Some(finding) => findings.push(finding),
                None if known(key) => {}
                None => check.note(
                    Problem::error(format!("the palette has no finding `{key}`"))
                        .at(read.findings_at.clone())
                        .hint("add it under `findings:` in the palette, or list what this design takes under its own `findings:`"),
                ),
            }
        }
        return Some(findings);
    };
    let node = root.get("findings");
    let mut findings = Vec::new();
    for (i, field) in listed.0.iter().enumerate() {
        let span = node.items().get(i).unwrap_or(node).span.clone();
        let Some(key) = check.item(field, &span, "a finding").map(|t| t.0.trim()) else { continue };
        match in_palette(key) {
            Some(finding) => findings.push(finding),
            None if known(key) => {}
            None => {
                let names: Vec<&str> = read.palette.findings.iter().map(|f| f.key.as_str()).collect();
                check.error(
                    span,
                    format!("the palette has no finding `{}`", shown(key)),
                    did_you_mean(key, &names, "its findings are"),
                );
            }
        }
    }
    Some(findings)
}

/// The cover photo: the one the design names, or the one of its name in the studio's folder.
#[allow(clippy::too_many_arguments)]
fn photo(
    check: &mut Check<'_>,
    shelf: &dyn Shelf,
    path: &Path,
    root: &Node,
    file: &DesignFile,
    photos: Option<&Path>,
    slug: &str,
    title: &str,
) -> Option<super::model::Picture> {
    let folder = path.parent().unwrap_or(Path::new(""));
    if let Some(part) = check.take(&file.photo, root, "photo") {
        return studio::given_picture(check, part, &named(root, "photo"), shelf, folder, title);
    }
    match studio::photo_in(shelf, photos?, slug, title)? {
        Ok(picture) => Some(picture),
        Err(problem) => {
            check.note(problem);
            None
        }
    }
}
