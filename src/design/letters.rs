//! The letters of a design and the beads they stand for.

use super::bounds::{MOST_COLOURWAYS, MOST_LETTERS, MOST_UNLIKE, text};
use super::model::{Bead, BeadId, Colourway, Letter, LetterId, Palette};
use super::palette::PaletteRead;
use super::phrase::Phrase;
use super::replaced::used;
use super::yaml::{Check, Entries, Node, OneOrEach, Text};
use crate::diagnostic::{Problem, did_you_mean, list, shown, thousands};
use std::collections::BTreeMap;
use std::ops::Range;

/// The letters of a design.
pub(super) struct Letters {
    /// In the order of the file. A letter whose bead is unknown is here too, its problem noted.
    pub list: Vec<Letter>,
}

impl Letters {
    /// The letter with a symbol.
    pub fn find(&self, symbol: char) -> Option<LetterId> {
        self.list.iter().position(|l| l.symbol == symbol).map(LetterId)
    }

    /// What to do about a letter that is not among them.
    pub fn hint(&self, symbol: char) -> String {
        let other_case: Option<char> =
            self.list.iter().map(|l| l.symbol).find(|s| s.eq_ignore_ascii_case(&symbol) && *s != symbol);
        match other_case {
            Some(other) => format!("did you mean `{other}`? Capital and small letters are different letters"),
            None => {
                let symbols: Vec<String> = self.list.iter().map(|l| format!("`{}`", l.symbol)).collect();
                format!("add it to `colours`, or use one of {}", list(&symbols))
            }
        }
    }
}

/// Checks `colours`.
pub(super) fn check(
    check: &mut Check<'_>,
    colours: &Entries<Text>,
    node: &Node,
    palette: &PaletteRead,
) -> Letters {
    let mut letters = Letters { list: Vec::new() };
    let used = used(&palette.palette);
    if node.entries().is_empty() {
        check.error(
            node.span.clone(),
            "`colours` names no letter",
            "give each letter its bead, as in `{A: ink, B: mist}`",
        );
    }
    if let Some((key, _)) = node.entries().get(MOST_LETTERS) {
        check.error(
            key.span.clone(),
            format!("a design can have {MOST_LETTERS} letters; this one has {}", node.entries().len()),
            "the letters are A to Z and a to z",
        );
        return letters;
    }
    for ((_, field), (key, value)) in colours.0.iter().zip(node.entries()) {
        let symbol = one_letter(key.text());
        if symbol.is_none() {
            let message = format!("`{}` is not a letter of a picture", shown(key.text()));
            check.error(key.span.clone(), message, "use one letter, A to Z or a to z");
        }
        let Some(name) =
            check.item(field, value_span(key, value), &format!("the bead of `{}`", shown(key.text())))
        else {
            continue;
        };
        let letter = letter(check, symbol.unwrap_or('?'), name.0.trim(), key, value, palette, &used);
        if symbol.is_some() {
            letters.list.push(letter);
        }
    }
    letters
}

/// Among the letters of a colourway, the key of its name as printed.
const NAME: &str = "name";

/// Checks `colourways`.
pub(super) fn colourways(
    check: &mut Check<'_>,
    file: &Entries<Entries<OneOrEach>>,
    node: &Node,
    letters: &Letters,
    palette: &PaletteRead,
) -> Vec<Colourway> {
    let mut colourways = Vec::new();
    let used = used(&palette.palette);
    for ((_, field), (key, value)) in file.0.iter().zip(node.entries()) {
        if colourways.len() == MOST_COLOURWAYS {
            let all = thousands(node.entries().len());
            let message = format!("the design has {all} colourways, and can have {MOST_COLOURWAYS}");
            check.error(key.span.clone(), message, "put some into a design file of their own");
            break;
        }
        let name = format!("the colourway `{}`", shown(key.text()));
        check.short(key.text(), &key.span, &format!("the name of {name}"), text::TITLE);
        let Some(entries) = check.item(field, value_span(key, value), &name) else { continue };
        let mut changes = Vec::new();
        let mut printed =
            Some(Phrase::plain(key.text().trim().to_owned(), Some(check.place(key.span.clone()))));
        for ((_, bead), (letter_key, bead_node)) in entries.0.iter().zip(value.entries()) {
            if letter_key.text() == NAME {
                let hint = "give the name as it is printed, or remove the line";
                printed = check.need_phrase(bead, value, NAME, hint, text::TITLE);
                continue;
            }
            let id = one_letter(letter_key.text()).and_then(|s| letters.find(s));
            if id.is_none() {
                let message = format!("`{}` is not a letter of this design", shown(letter_key.text()));
                let hint = letters.hint(letter_key.text().chars().next().unwrap_or('?'));
                check.error(letter_key.span.clone(), message, hint);
            }
            let what = format!("the bead of `{}`", shown(letter_key.text()));
            let Some(bead) = check.item(bead, value_span(letter_key, bead_node), &what) else { continue };
            let OneOrEach::One(bead) = bead else {
                check.error(
                    bead_node.span.clone(),
                    format!("{what} must be a text"),
                    "name one bead of the palette",
                );
                continue;
            };
            let symbol = id.map_or('?', |id| letters.list[id.0].symbol);
            let letter = letter(check, symbol, bead.0.trim(), letter_key, bead_node, palette, &used);
            changes.extend(id.map(|id| (id, letter)));
        }
        if value.entries().iter().all(|(key, _)| key.text() == NAME) {
            check.error(
                key.span.clone(),
                format!("{name} changes no letter"),
                "give the letters that change, as in `{C: slate}`",
            );
        }
        let name = printed.unwrap_or_default();
        colourways.push(Colourway { key: key.text().to_owned(), name, changes });
    }
    colourways
}

/// Notes beads of a design that are so unlike in size that a unit must be wrong.
pub(super) fn alike_enough(
    check: &mut Check<'_>,
    letters: &Letters,
    colourways: &[Colourway],
    palette: &PaletteRead,
) {
    let changed = colourways.iter().flat_map(|colourway| colourway.changes.iter().map(|(_, letter)| letter));
    // A letter whose bead is unknown stands for the first; all it can add is a second problem.
    let beads = letters.list.iter().chain(changed).filter_map(|l| palette.palette.beads.get(l.bead.0));
    let beads: Vec<&Bead> = beads.collect();
    let longest = |bead: &&&Bead| bead.width.0.max(bead.length.0);
    let shortest = |bead: &&&Bead| bead.width.0.min(bead.length.0);
    let large = beads.iter().max_by(|a, b| longest(a).total_cmp(&longest(b)));
    let small = beads.iter().min_by(|a, b| shortest(a).total_cmp(&shortest(b)));
    let (Some(large), Some(small)) = (large, small) else { return };
    if longest(&large) > MOST_UNLIKE * shortest(&small) {
        let message = format!(
            "`{}` measures {} mm and `{}` {} mm: no earring has beads so unlike",
            shown(&large.key),
            longest(&large),
            shown(&small.key),
            shortest(&small)
        );
        let hint = format!("is the unit right, here or of `{}`?", shown(&small.key));
        check.note(Problem::error(message).at(large.place.clone()).hint(hint));
    }
}

/// One letter from `A`–`Z` or `a`–`z`.
pub(super) fn one_letter(text: &str) -> Option<char> {
    let mut chars = text.chars();
    chars.next().filter(|c| c.is_ascii_alphabetic() && chars.next().is_none())
}

/// The value's stretch, or its key's where nothing is written.
fn value_span<'n>(key: &'n Node, value: &'n Node) -> &'n Range<usize> {
    if value.span.is_empty() { &key.span } else { &value.span }
}

fn letter(
    check: &mut Check<'_>,
    symbol: char,
    name: &str,
    key: &Node,
    value: &Node,
    read: &PaletteRead,
    used: &BTreeMap<&str, (BeadId, Option<BeadId>)>,
) -> Letter {
    let place = check.place(key.span.clone());
    match used.get(name) {
        Some(&(bead, replaces)) => {
            if replaces.is_some() {
                let by = &read.palette.beads[bead.0].key;
                check.note(
                    Problem::warning(format!(
                        "`{}` is discontinued; `{}` is used in its place",
                        shown(name),
                        shown(by)
                    ))
                    .at(check.place(value.span.clone()))
                    .hint(format!(
                        "look at the colours together; to settle on it, write `{symbol}: {}`",
                        shown(by)
                    )),
                );
            }
            Letter { symbol, bead, replaces, place }
        }
        None => {
            if !read.unreadable && !read.broken.iter().any(|b| b == name) && !is_in(&read.palette, name) {
                let hint = unknown_bead_hint(&read.palette, name);
                check.error(value.span.clone(), format!("the palette has no bead `{}`", shown(name)), hint);
            }
            // Never used: an error is noted, here or in the palette, so no design is made.
            Letter { symbol, bead: BeadId(0), replaces: None, place }
        }
    }
}

fn is_in(palette: &Palette, name: &str) -> bool {
    palette.beads.iter().any(|b| b.key == name)
}

/// What to do about a bead that the palette does not have.
pub(super) fn unknown_bead_hint(palette: &Palette, name: &str) -> String {
    let names: Vec<&str> = palette.beads.iter().map(|b| b.key.as_str()).collect();
    did_you_mean(name, &names, "its beads are")
}
