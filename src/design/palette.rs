//! A palette file to a checked palette.

use super::check::Check;
use super::field::{Entries, Field};
use super::files::{BeadPart, FindingPart, PackPart, PaletteFile, SpoolPart, ThreadEntry};
use super::model::{Bead, BeadId, Finding, Pack, Palette, Shape, Spool, Thread};
use super::outline::Node;
use super::sizes;
use crate::diagnostic::{Place, did_you_mean, list, shown};
use crate::units::{Grams, Mm};

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

/// Checks a palette file.
pub(super) fn check(check: &mut Check<'_>, file: &PaletteFile, root: &Node) -> PaletteRead {
    check.keys::<PaletteFile>(root);
    let mut read = PaletteRead {
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
        threads_at: check.place(key_span(root, "threads")),
        findings_at: check.place(key_span(root, "findings")),
        unreadable: false,
    };
    let palette = &mut read.palette;
    palette.currency = check.take(&file.currency, root, "currency").map(|t| t.0.clone());
    palette.needle = check.take(&file.needle, root, "needle").map(|l| l.0);
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
        let node = root.get("tools");
        for (i, tool) in tools.0.iter().enumerate() {
            let span = node.items().get(i).unwrap_or(node).span.clone();
            palette.tools.extend(check.item(tool, &span, "a tool").map(|t| t.0.clone()));
        }
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
        let name = format!("the {what} `{}`", key.text());
        let span = if value.text().is_empty() { &key.span } else { &value.span };
        if let Some(part) = check.item(field, span, &name) {
            let place = check.place(key.span.clone());
            take(check, key.text(), part, &Node { span: key.span.clone(), kind: value.kind.clone() }, place);
        }
    }
}

fn bead(check: &mut Check<'_>, key: &str, part: &BeadPart, node: &Node, place: Place) -> Option<Bead> {
    check.keys::<BeadPart>(node);
    let name =
        check.need(&part.name, node, "name", "give the bead's name as it is printed").map(|t| t.0.clone());
    let colour =
        check.need(&part.colour, node, "colour", "give its colour, as in `colour: \"#1b1c20\"`").map(|h| h.0);
    let shape = check
        .need(&part.shape, node, "shape", "give `cylinder`, `round`, `drop`, `bugle`, `faceted` or `cube`")
        .map(|s| s.0);
    let pack = check.take(&part.pack, node, "pack").and_then(|pack| pack_of(check, pack, node.get("pack")));
    let stock = check.take(&part.stock, node, "stock").map(|n| Grams(n.0));
    let replaced_by = check.take(&part.replaced_by, node, "replaced by").map(|t| t.0.trim().to_owned());
    let code = text(check, &part.code, node, "code");
    let supplier = text(check, &part.supplier, node, "supplier");
    let finish = text(check, &part.finish, node, "finish").unwrap_or_default();
    let dimensions = dimensions(check, part, node, shape);
    let (size, [width, length, hole], per_gram) = dimensions?;
    Some(Bead {
        key: key.to_owned(),
        name: name?,
        finish,
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

/// A text as the file writes it (a number keeps its zeros).
fn text(check: &mut Check<'_>, field: &Field<super::field::Text>, node: &Node, key: &str) -> Option<String> {
    check.take(field, node, key).map(|_| node.get(key).text().trim().to_owned())
}

fn pack_of(check: &mut Check<'_>, pack: &PackPart, node: &Node) -> Option<Pack> {
    check.keys::<PackPart>(node);
    let price = check.take(&pack.price, node, "price").map(|n| n.0);
    let grams = check.need(&pack.grams, node, "grams", "say what a pack holds, as in `grams: 5`")?;
    Some(Pack { grams: Grams(grams.0), price })
}

type Dimensions = (Option<String>, [Mm; 3], f64);

/// Width, length, hole and beads a gram: from the size where it is known, each overridden where it is given.
fn dimensions(
    check: &mut Check<'_>,
    part: &BeadPart,
    node: &Node,
    shape: Option<Shape>,
) -> Option<Dimensions> {
    let named = check.take(&part.size, node, "size").map(|_| node.get("size").text().trim().to_owned());
    let given: [Option<Mm>; 3] = [
        check.take(&part.width, node, "width").map(|l| l.0),
        check.take(&part.length, node, "length").map(|l| l.0),
        check.take(&part.hole, node, "hole").map(|l| l.0),
    ];
    let per_gram = check.take(&part.per_gram, node, "per gram").map(|n| n.0);
    let known = named.as_deref().zip(shape).and_then(|(name, shape)| sizes::known_size(shape, name));
    let of_size = [known.map(|k| Mm(k.width)), known.map(|k| Mm(k.length)), known.map(|k| Mm(k.hole))];
    let per_gram = per_gram.or(known.map(|k| k.per_gram));
    let all: Vec<Option<Mm>> = given.iter().zip(of_size).map(|(given, known)| given.or(known)).collect();
    let (&[Some(width), Some(length), Some(hole)], Some(per_gram)) = (all.as_slice(), per_gram) else {
        missing_dimensions(check, part, node, shape, &all, per_gram);
        return None;
    };
    if hole.0 >= width.0 {
        check.error(
            node.get("hole").span.clone(),
            format!("the hole ({} mm) is not smaller than the bead is wide ({} mm)", hole.0, width.0),
            "correct `hole` or `width`",
        );
        return None;
    }
    Some((named, [width, length, hole], per_gram))
}

/// Notes which dimensions are neither given nor known from the size; a wrong one has been told already.
fn missing_dimensions(
    check: &mut Check<'_>,
    part: &BeadPart,
    node: &Node,
    shape: Option<Shape>,
    all: &[Option<Mm>],
    per_gram: Option<f64>,
) {
    let keys = ["width", "length", "hole", "per gram"];
    let there = [&part.width, &part.length, &part.hole].map(|f| !matches!(f, Field::Missing));
    let there = [there[0], there[1], there[2], !matches!(part.per_gram, Field::Missing)];
    let found = [all[0].is_some(), all[1].is_some(), all[2].is_some(), per_gram.is_some()];
    let missing: Vec<String> =
        (0..4).filter(|&i| !found[i] && !there[i]).map(|i| format!("`{}`", keys[i])).collect();
    let Some(shape) = shape else { return };
    if missing.is_empty() {
        return;
    }
    let sizes: Vec<String> = sizes::sizes_of(shape).iter().map(|s| format!("`{s}`")).collect();
    let give = format!("give {}, as in `width: 1.6 mm` and `per gram: 200`", list(&missing));
    let hint = if sizes.is_empty() {
        give
    } else {
        format!("sizes known for this shape are {}; or {give}", list(&sizes))
    };
    match &part.size {
        Field::Given(_) => {
            let size = node.get("size");
            let message = format!("the size `{}` of this shape is not known by name", shown(size.text()));
            check.error(size.span.clone(), message, hint);
        }
        Field::Missing => {
            check.error(node.span.clone(), "neither a known `size` nor all dimensions are given", hint)
        }
        Field::Empty | Field::Wrong(_) => {}
    }
}

fn thread(check: &mut Check<'_>, key: &str, part: &ThreadEntry, node: &Node, place: Place) -> Option<Thread> {
    check.keys::<ThreadEntry>(node);
    let name =
        check.need(&part.name, node, "name", "give the thread's name as it is printed").map(|t| t.0.clone());
    let colour =
        check.need(&part.colour, node, "colour", "give its colour, as in `colour: \"#ffffff\"`").map(|h| h.0);
    let diameter =
        check.need(&part.diameter, node, "diameter", "give its diameter, as in `diameter: 0.15 mm`");
    let spool = check.take(&part.spool, node, "spool").and_then(|s| spool_of(check, s, node.get("spool")));
    let stretch_first = check.take(&part.stretch_first, node, "stretch first").is_some_and(|y| y.0);
    let stock = check.take(&part.stock, node, "stock").map(|l| l.0);
    Some(Thread {
        key: key.to_owned(),
        name: name?,
        colour: colour?,
        diameter: diameter?.0,
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
    Some(Spool { length: length.0, price })
}

fn finding(
    check: &mut Check<'_>,
    key: &str,
    part: &FindingPart,
    node: &Node,
    place: Place,
) -> Option<Finding> {
    check.keys::<FindingPart>(node);
    let name =
        check.need(&part.name, node, "name", "give the finding's name as it is printed").map(|t| t.0.clone());
    let per_earring = check.take(&part.per_earring, node, "per earring").map_or(1, |n| n.0);
    let holes = check.take(&part.holes, node, "holes").map(|a| a.0);
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
    Some(Finding { key: key.to_owned(), name: name?, per_earring, holes, price, stock, place })
}

/// Notes every `replaced by` that leads nowhere, or round in a ring.
fn replacements(check: &mut Check<'_>, read: &PaletteRead, beads: &Node) {
    let names: Vec<&str> = read.palette.beads.iter().map(|b| b.key.as_str()).collect();
    for bead in &read.palette.beads {
        let Some(by) = &bead.replaced_by else { continue };
        let span = beads.get(&bead.key).get("replaced by").span.clone();
        if !names.contains(&by.as_str()) && !read.broken.contains(by) {
            let hint = did_you_mean(by, &names, "the beads of this palette are");
            check.error(
                span,
                format!("`{}` is replaced by `{by}`, which is not in this palette", bead.key),
                hint,
            );
        } else if let Some(ring) =
            follow(&read.palette, &bead.key).err().filter(|ring| is_told_at(&names, ring))
        {
            check.error(
                span,
                format!("the replacements run in a ring: {}", ring.join(" → ")),
                "remove `replaced by` from the bead that can still be bought",
            );
        }
    }
}

/// Whether a ring is told at the bead it was followed from: at that of its own which stands first in the file.
fn is_told_at(names: &[&str], ring: &[String]) -> bool {
    let first = names.iter().find(|name| ring.iter().any(|r| r == *name));
    ring.first() == ring.last() && first.is_some_and(|name| ring.first().is_some_and(|r| r == name))
}

/// The bead that is used for a key: itself, or the end of its chain of replacements. `None` when the
/// chain leads to a bead that is not there.
///
/// # Errors
/// The ring of keys in which the chain runs.
pub(super) fn follow(palette: &Palette, key: &str) -> Result<Option<BeadId>, Vec<String>> {
    let mut seen: Vec<String> = vec![key.to_owned()];
    let mut at = palette.beads.iter().position(|b| b.key == key);
    while let Some(by) = at.and_then(|i| palette.beads[i].replaced_by.as_ref()) {
        let again = seen.contains(by);
        seen.push(by.clone());
        if again {
            return Err(seen);
        }
        at = palette.beads.iter().position(|b| b.key == *by);
    }
    Ok(at.map(BeadId))
}
