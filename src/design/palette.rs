//! A palette file to a checked palette.

use super::bounds::{self, text};
use super::dimensions::dimensions;
use super::files::{BeadPart, FindingPart, PackPart, PaletteFile, SpoolPart, ThreadEntry};
use super::model::{Bead, Finding, Pack, Palette, Spool, Thread, Tools};
use super::replaced::replacements;
use super::shine;
use super::tools;
use super::yaml::{Check, Entries, Node};
use crate::diagnostic::{Place, shown};
use crate::units::Grams;

/// A palette with the names of everything its file speaks of, right or wrong, so that one wrong bead
/// is not told a second time as an unknown one.
#[derive(Clone, Debug)]
pub(super) struct PaletteRead {
    /// The palette; what was wrong is left out.
    pub palette: Palette,
    /// Keys of beads that could not be read.
    pub broken: Vec<String>,
    /// Keys of threads that could not be read.
    pub threads_broken: Vec<String>,
    /// Keys of findings that could not be read.
    pub findings_broken: Vec<String>,
    /// Where its threads begin.
    pub threads_at: Place,
    /// Where its findings begin.
    pub findings_at: Place,
    /// Whether the whole file could not be read.
    pub unreadable: bool,
}

impl PaletteRead {
    /// A palette with nothing in it yet.
    pub(super) fn empty(threads_at: Place, findings_at: Place) -> PaletteRead {
        PaletteRead {
            palette: Palette {
                beads: Vec::new(),
                threads: Vec::new(),
                findings: Vec::new(),
                tools: Tools::ByUse(Vec::new()),
                needle: None,
                currency: None,
            },
            broken: Vec::new(),
            threads_broken: Vec::new(),
            findings_broken: Vec::new(),
            threads_at,
            findings_at,
            unreadable: false,
        }
    }
}

/// Checks a palette file.
pub(super) fn check(check: &mut Check<'_>, file: &PaletteFile, root: &Node) -> PaletteRead {
    check.keys::<PaletteFile>(root);
    let mut read =
        PaletteRead::empty(check.place(key_span(root, "threads")), check.place(key_span(root, "findings")));
    let palette = &mut read.palette;
    palette.currency = check.text(&file.currency, root, "currency", text::NAME);
    palette.needle = check.length(&file.needle, root, "needle", &bounds::THICKNESS);
    if let Some(beads) =
        check.need(&file.beads, root, "beads", "list the beads under `beads:`, each with a name of your own")
    {
        each(check, beads, root.get("beads"), "bead", |check, key, part, node, place| {
            match bead(check, key, part, node, place) {
                Some(bead) => palette.beads.push(bead),
                None => read.broken.push(key.to_owned()),
            }
        });
    }
    if let Some(threads) = check.take(&file.threads, root, "threads") {
        each(check, threads, root.get("threads"), "thread", |check, key, part, node, place| {
            match thread(check, key, part, node, place) {
                Some(thread) => palette.threads.push(thread),
                None => read.threads_broken.push(key.to_owned()),
            }
        });
    }
    if let Some(findings) = check.take(&file.findings, root, "findings") {
        each(
            check,
            findings,
            root.get("findings"),
            "finding",
            |check, key, part, node, place| match finding(check, key, part, node, place) {
                Some(finding) => palette.findings.push(finding),
                None => read.findings_broken.push(key.to_owned()),
            },
        );
    }
    if let Some(tools) = check.take(&file.tools, root, "tools") {
        palette.tools = tools::check(check, tools, root.get("tools"));
    }
    replacements(check, &read, root.get("beads"));
    read
}

/// Where a key stands, or else the beginning of the file.
fn key_span(root: &Node, key: &str) -> std::ops::Range<usize> {
    root.entry(key).map_or(root.span.start..root.span.start, |(name, _)| name.span.clone())
}

/// Calls `take` with each entry that can be read.
fn each<T>(
    check: &mut Check<'_>,
    entries: &Entries<T>,
    node: &Node,
    what: &str,
    mut take: impl FnMut(&mut Check<'_>, &str, &T, &Node, Place),
) {
    for ((_, field), (key, value)) in entries.0.iter().zip(node.entries()) {
        let name = format!("the {what} `{}`", shown(key.text()));
        check.short(key.text(), &key.span, &format!("the name of {name}"), text::NAME);
        let span = if value.text().is_empty() { &key.span } else { &value.span };
        if let Some(part) = check.item(field, span, &name) {
            let place = check.place(key.span.clone());
            take(check, key.text(), part, &Node { span: key.span.clone(), kind: value.kind.clone() }, place);
        }
    }
}

fn bead(check: &mut Check<'_>, key: &str, part: &BeadPart, node: &Node, place: Place) -> Option<Bead> {
    check.keys::<BeadPart>(node);
    let hint = "give the bead's name as it is printed";
    let name = check.need_phrase(&part.name, node, "name", hint, text::NAME);
    let colour =
        check.need(&part.colour, node, "colour", "give its colour, as in `colour: \"#1b1c20\"`").map(|h| h.0);
    let shape = check
        .need(&part.shape, node, "shape", "give `cylinder`, `round`, `drop`, `bugle`, `faceted` or `cube`")
        .map(|s| s.0);
    let pack = check.take(&part.pack, node, "pack").and_then(|pack| pack_of(check, pack, node.get("pack")));
    let stock = check.take(&part.stock, node, "stock").map(|n| Grams(n.0));
    let replaced_by = check.take(&part.replaced_by, node, "replaced by").map(|t| t.0.trim().to_owned());
    let code = check.text(&part.code, node, "code", text::NAME);
    let supplier = check.text(&part.supplier, node, "supplier", text::NAME);
    let finish = check.phrase(&part.finish, node, "finish", text::NAME).unwrap_or_default();
    let shine =
        check.take(&part.shine, node, "shine").map_or_else(|| shine::of_finish(&finish), |words| words.0);
    let dimensions = dimensions(check, part, node, shape);
    let (size, [width, length, hole], per_gram) = dimensions?;
    Some(Bead {
        key: key.to_owned(),
        name: name?,
        finish,
        shine,
        colour: colour?,
        code,
        supplier,
        shape: shape?,
        size,
        width,
        length,
        hole,
        per_gram,
        pack,
        stock,
        replaced_by,
        place,
    })
}

fn pack_of(check: &mut Check<'_>, pack: &PackPart, node: &Node) -> Option<Pack> {
    check.keys::<PackPart>(node);
    let price = check.take(&pack.price, node, "price").map(|n| n.0);
    let grams = check.need(&pack.grams, node, "grams", "say what a pack holds, as in `grams: 5`")?;
    Some(Pack { grams: Grams(grams.0), price })
}

fn thread(check: &mut Check<'_>, key: &str, part: &ThreadEntry, node: &Node, place: Place) -> Option<Thread> {
    check.keys::<ThreadEntry>(node);
    let hint = "give the thread's name as it is printed";
    let name = check.need_phrase(&part.name, node, "name", hint, text::NAME);
    let colour =
        check.need(&part.colour, node, "colour", "give its colour, as in `colour: \"#ffffff\"`").map(|h| h.0);
    let diameter = check
        .need(&part.diameter, node, "diameter", "give its diameter, as in `diameter: 0.15 mm`")
        .and_then(|l| check.meant(l.0, node, "diameter", &bounds::THICKNESS));
    let spool = check.take(&part.spool, node, "spool").and_then(|s| spool_of(check, s, node.get("spool")));
    let stretch_first = check.take(&part.stretch_first, node, "stretch first").is_some_and(|y| y.0);
    let stock = check.length(&part.stock, node, "stock", &bounds::STOCK);
    Some(Thread {
        key: key.to_owned(),
        name: name?,
        colour: colour?,
        diameter: diameter?,
        stretch_first,
        spool,
        stock,
        place,
    })
}

fn spool_of(check: &mut Check<'_>, spool: &SpoolPart, node: &Node) -> Option<Spool> {
    check.keys::<SpoolPart>(node);
    let price = check.take(&spool.price, node, "price").map(|n| n.0);
    let length =
        check.need(&spool.length, node, "length", "say how much is on a spool, as in `length: 50 m`")?;
    let length = check.meant(length.0, node, "length", &bounds::SPOOL)?;
    Some(Spool { length, price })
}

fn finding(
    check: &mut Check<'_>,
    key: &str,
    part: &FindingPart,
    node: &Node,
    place: Place,
) -> Option<Finding> {
    check.keys::<FindingPart>(node);
    let hint = "give the finding's name as it is printed";
    let name = check.need_phrase(&part.name, node, "name", hint, text::NAME);
    let kind = check.take(&part.kind, node, "kind").map(|word| word.0);
    let per_earring = check.take(&part.per_earring, node, "per earring").map_or(1, |n| n.0);
    let holes = check
        .take(&part.holes, node, "holes")
        .and_then(|apart| check.meant(apart.0, node, "holes", &bounds::HOLES_APART));
    let price = check.take(&part.price, node, "price").map(|n| n.0);
    let stock = check.take(&part.stock, node, "stock").map(|n| n.0);
    if stock.is_some_and(|n| n.fract() != 0.0) {
        check.error(
            node.get("stock").span.clone(),
            "`stock` of a finding must be a whole number",
            "count the pieces on the shelf",
        );
        return None;
    }
    // Checked to be a whole number between 0 and a million.
    let stock = stock.map(|n| n as u32);
    Some(Finding { key: key.to_owned(), name: name?, kind, per_earring, holes, price, stock, place })
}
