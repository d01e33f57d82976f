//! The parts of a digest. A part holds exactly what a booklet shows or is computed from: stock, comments
//! and places in files are left out, and prices too where the booklet prints none.

use super::value::{Fields, HASHED, hash};
use crate::booklet::drawing::Face;
use crate::cli::settings::Settings;
use crate::design::{
    Bead, BeadId, Colourway, Design, Finding, Hang, Letter, LetterId, Picture, Studio, Thread,
};
use crate::layout;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::sync::OnceLock;

/// The part that holds the program's version.
pub(super) const PROGRAM: &str = "program";
/// The part that holds the name of the design file, without folder and extension.
pub(in crate::cli) const SLUG: &str = "file";
/// The part that holds the settings, as recorded.
pub(in crate::cli) const SETTINGS: &str = "settings";
/// How many pages the booklet came to: told again by later runs, but no part of the digest.
pub(in crate::cli) const MADE_PAGES: &str = "made pages";
/// How many warnings there were: likewise.
pub(in crate::cli) const MADE_WARNINGS: &str = "made warnings";

/// Whether a part says what went in, rather than what came out.
pub(super) fn is_input(name: &str) -> bool {
    name != MADE_PAGES && name != MADE_WARNINGS
}

/// The value of a part.
pub(in crate::cli) fn part<'a>(parts: &'a [(String, String)], name: &str) -> Option<&'a str> {
    parts.iter().find(|(n, _)| n == name).map(|(_, value)| value.as_str())
}

/// What goes into one booklet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cli) struct Inputs {
    /// The parts by name.
    pub(in crate::cli) parts: Vec<(String, String)>,
    /// The digest of them all, as hexadecimal.
    pub(in crate::cli) digest: String,
}

/// Everything that goes into a booklet of this design. `templates` is the hash of its wording.
pub(in crate::cli) fn parts_of(design: &Design, settings: &Settings, templates: &str) -> Inputs {
    let mut parts: Vec<(String, String)> = vec![
        (PROGRAM.to_owned(), env!("CARGO_PKG_VERSION").to_owned()),
        (SLUG.to_owned(), design.slug.clone()),
        (SETTINGS.to_owned(), settings.recorded()),
        ("design".to_owned(), of_design(design)),
    ];
    let used: BTreeSet<BeadId> = design.letters.iter().map(|l| l.bead).collect();
    let changed = design.colourways.iter().flat_map(|c| &c.changes).map(|(_, letter)| letter);
    let shown: BTreeSet<BeadId> = design.letters.iter().chain(changed).flat_map(beads_of).collect();
    for id in shown {
        let bead = &design.palette.beads[id.0];
        parts.push((format!("bead {}", bead.key), of_bead(bead, used.contains(&id))));
    }
    let summed = prints_cost(design, &used);
    parts.push(("thread of the body".to_owned(), of_thread(&design.body_thread, summed)));
    parts.push(("thread of the fringe".to_owned(), of_thread(&design.fringe_thread, summed)));
    for finding in &design.findings {
        parts.push((format!("finding {}", finding.key), of_finding(finding)));
    }
    parts.push((
        "palette".to_owned(),
        Fields::default()
            .add("tools", list(&design.palette.tools))
            .maybe("needle", design.palette.needle.map(|n| n.0))
            .maybe("currency", design.palette.currency.as_ref().filter(|_| prints_prices(design, &used)))
            .done(),
    ));
    parts.push(("studio".to_owned(), of_studio(&design.studio)));
    parts.push(("templates".to_owned(), format!("{HASHED}{templates}")));
    parts.push(("fonts".to_owned(), format!("{HASHED}{}", fonts())));
    let digest = digest(&parts);
    Inputs { parts, digest }
}

/// Lengths stand before names and values, so that no two lists of parts read alike.
fn digest(parts: &[(String, String)]) -> String {
    let mut all = String::new();
    for (name, value) in parts {
        let _ = write!(all, "{}:{name}{}:{value}", name.len(), value.len());
    }
    hash(all.as_bytes())
}

/// Whether the booklet prints any price, and with it the currency over its column.
fn prints_prices(design: &Design, used: &BTreeSet<BeadId>) -> bool {
    used.iter().any(|id| design.palette.beads[id.0].pack.is_some_and(|pack| pack.price.is_some()))
        || design.findings.iter().any(|finding| finding.price.is_some())
}

/// Whether the booklet prints the cost of everything, and with it the prices of threads: only where
/// nothing that it uses is without a price.
fn prints_cost(design: &Design, used: &BTreeSet<BeadId>) -> bool {
    let threads = [&design.body_thread, &design.fringe_thread];
    used.iter().all(|id| design.palette.beads[id.0].pack.is_some_and(|pack| pack.price.is_some()))
        && threads.iter().all(|thread| thread.spool.is_some_and(|spool| spool.price.is_some()))
        && design.findings.iter().all(|finding| finding.price.is_some())
}

fn beads_of(letter: &Letter) -> impl Iterator<Item = BeadId> {
    std::iter::once(letter.bead).chain(letter.replaces)
}

fn of_design(design: &Design) -> String {
    let key = |id: BeadId| design.palette.beads[id.0].key.as_str();
    let letter = |l: &Letter| {
        let replaced = l.replaces.map(|id| format!(" for {}", key(id))).unwrap_or_default();
        format!("{}:{}{replaced}", l.symbol, key(l.bead))
    };
    let a = &design.allowances;
    Fields::default()
        .add("title", &design.title)
        .add("summary", &design.summary)
        .add("edition", design.edition)
        .maybe("date", design.date.map(|d| format!("{}-{}-{}", d.year, d.month, d.day)))
        .add("skill", format!("{:?}", design.skill))
        .add("colours", list(design.letters.iter().map(letter)))
        .add("body", body_text(design))
        .add("fringe", fringe_text(design))
        .add("pair", format!("{:?}", design.pair))
        .add("hang", hang_text(&design.hang))
        .add("start", format!("{:?}", design.start))
        .add("allowances", format!("{} {} {} {}", a.arm_span.0, a.tail.0, a.handling, a.spare))
        .add("colourways", list(design.colourways.iter().map(|c| colourway_text(c, letter))))
        .maybe("colourway", design.colourway.as_ref())
        .done()
}

fn colourway_text(colourway: &Colourway, letter: impl Fn(&Letter) -> String) -> String {
    let changes = colourway.changes.iter().map(|(id, l)| format!("{} {}", id.0, letter(l)));
    format!("{}: {}", colourway.name, list(changes))
}

fn body_text(design: &Design) -> String {
    let mut text = format!("{:?} {}", design.body.stitch, design.body.drop);
    for row in &design.body.rows {
        let _ = write!(text, "\n{}", row.lead);
        for stack in &row.stacks {
            let _ = write!(text, " {}", beads_text(&stack.0));
        }
    }
    text
}

fn fringe_text(design: &Design) -> String {
    let mut text = format!("mirrored {}", design.fringe.mirrored);
    for strand in &design.fringe.strands {
        let _ = write!(text, "\n{} {}", strand.turn, beads_text(&strand.beads));
    }
    text
}

fn hang_text(hang: &Hang) -> String {
    match hang {
        Hang::ThreadGuard => "thread guard".to_owned(),
        Hang::Loop(beads) => format!("loop {}", beads_text(beads)),
    }
}

fn beads_text(beads: &[LetterId]) -> String {
    beads.iter().map(|b| b.0.to_string()).collect::<Vec<_>>().join(".")
}

fn of_bead(bead: &Bead, priced: bool) -> String {
    Fields::default()
        .add("name", &bead.name)
        .add("finish", &bead.finish)
        .add("colour", bead.colour.hex())
        .maybe("code", bead.code.as_ref())
        .maybe("supplier", bead.supplier.as_ref())
        .add("shape", format!("{:?}", bead.shape))
        .maybe("size", bead.size.as_ref())
        .add("width", bead.width.0)
        .add("length", bead.length.0)
        .add("hole", bead.hole.0)
        .add("per-gram", bead.per_gram)
        .maybe("pack", bead.pack.map(|p| p.grams.0))
        .maybe("price", bead.pack.and_then(|p| p.price).filter(|_| priced))
        .done()
}

fn of_thread(thread: &Thread, priced: bool) -> String {
    Fields::default()
        .add("name", &thread.name)
        .add("colour", thread.colour.hex())
        .add("diameter", thread.diameter.0)
        .add("stretch-first", thread.stretch_first)
        .maybe("spool", thread.spool.map(|s| s.length.0))
        .maybe("price", thread.spool.and_then(|s| s.price).filter(|_| priced))
        .done()
}

fn of_finding(finding: &Finding) -> String {
    Fields::default()
        .add("name", &finding.name)
        .add("per-earring", finding.per_earring)
        .maybe("holes", finding.holes.map(|h| h.0))
        .maybe("price", finding.price)
        .done()
}

fn of_studio(studio: &Studio) -> String {
    Fields::default()
        .add("name", &studio.name)
        .add("web", &studio.web)
        .add("contact", &studio.contact)
        .add("copyright", &studio.copyright)
        .add("terms", list(&studio.terms))
        .add("accent", studio.accent.hex())
        .maybe("logo", studio.logo.as_ref().map(picture_text))
        .maybe("photo", studio.photo.as_ref().map(picture_text))
        .add("language", &studio.language)
        .add("units", format!("{:?}", studio.units))
        .add("large-print", studio.large_print)
        .done()
}

fn picture_text(picture: &Picture) -> String {
    format!("{} {}", hash(&picture.bytes), picture.alt)
}

/// Items joined so that no two lists read alike: each with its length before it.
fn list(items: impl IntoIterator<Item = impl AsRef<str>>) -> String {
    items.into_iter().fold(String::new(), |mut text, item| {
        let item = item.as_ref();
        let _ = write!(text, "{}:{item}", item.len());
        text
    })
}

/// The hash of the built-in fonts, found once a run.
fn fonts() -> &'static str {
    static HASH: OnceLock<String> = OnceLock::new();
    HASH.get_or_init(|| hash(Face::ALL.map(|face| hash(layout::face_bytes(face))).concat().as_bytes()))
}
