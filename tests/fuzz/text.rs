//! Texts changed at random, as a hand, a broken disk or an attacker may change them.

use super::chance::Chance;
use std::ops::Range;

/// What upsets parsers of YAML, of strands, of templates and of numbers, and what upsets terminals and fonts.
const TOKENS: &[&str] = &[
    "|",
    ">",
    "|-\n",
    "&a ",
    "*a",
    "- ",
    ": ",
    "? ",
    "{",
    "}",
    "[",
    "]",
    "{{",
    "}}",
    "{%",
    "%}",
    "#",
    "\"",
    "'",
    "\t",
    "\n",
    "\r\n",
    "\r",
    "\n\n",
    "\n    ",
    "  ",
    ".",
    "..",
    "---\n",
    "...\n",
    "%YAML 1.2\n",
    "<<: *a\n",
    "!!binary ",
    "!!float ",
    "!x ",
    "null",
    "~",
    "true",
    "no",
    ".inf",
    "-.inf",
    ".nan",
    "0x1F",
    "1e999",
    "(",
    ")",
    "3(2A 1B)",
    "A",
    "Z",
    "1A",
    "0A",
    " 8A 2B\n",
    "é",
    "鷺",
    "ﬁ",
    "e\u{301}\u{323}\u{30a}",
    "🧵",
    "𝔄",
    "\u{feff}",
    "\u{0}",
    "\u{1b}[31m",
    "\u{7f}",
    "\u{85}",
    "\u{9b}",
    "\u{2028}",
    "\u{202e}",
    "\u{2060}",
    "\u{fffe}",
    "\u{ad}",
    "\u{fffd}",
    "שלום",
    "مرحبا",
    "नमस्ते",
    "%%EOF",
    "endstream",
    "<</",
    "\\",
    "\\u0000",
    "mm",
    " in",
    " ft",
    " m",
    "%",
    "1.6 mm",
    "4.0 mm apart",
    "#ffffff",
    "\"#23262d\"",
    "cylinder",
    "11/0",
    "2026-02-29",
    "file:///etc/passwd",
    "https://a.example",
    "../../../etc/passwd",
    "/dev/zero",
    "title: ",
    "colours: ",
    "body:\n",
    "drop: ",
    "picture: |\n",
    "fringe:\n",
    "strands:\n",
    "mirror: ",
    "turn: ",
    "hang: ",
    "{loop: 8A}",
    "colourways:\n",
    "beads:\n",
    "threads:\n",
    "findings:\n",
    "replaced by: ",
    "per gram: ",
    "palette: ",
    "studio: ",
    "language: ",
    "photos: {cover: {file: a.png, shows: x}}\n",
    "photos: {back: {file: a.png, shows: x}, steps: {row 2: [{file: a.png, shows: x, caption: y}]}}\n",
    "film: {address: example.org, times: {ladder: 1:42, row 2: 250}}\n",
];

/// Numbers at the edges of what something can hold.
const NUMBERS: &[&str] = &[
    "0",
    "-1",
    "1",
    "2",
    "3",
    "52",
    "53",
    "255",
    "256",
    "999",
    "1000",
    "65535",
    "65536",
    "100000",
    "2147483647",
    "4294967295",
    "4294967296",
    "9007199254740993",
    "9223372036854775808",
    "18446744073709551616",
    "99999999999999999999999",
    "0.0",
    "-0.0",
    "1e-320",
    "1e308",
    "1e309",
    "0.30000000000000004",
    "1_000",
    "0o17",
    "007",
    "1,5",
    "½",
    "٣",
];

/// Most bytes that mutation lets a text grow to: far above every real file, far below what takes long to make.
const MOST: usize = 60_000;

/// The text with a few changes; pieces may come from the others.
pub fn mutated(text: &str, others: &[&str], chance: &mut Chance) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    let changes = if chance.once_in(2) { 1 } else { chance.few() };
    for _ in 0..changes {
        change(&mut bytes, others, chance);
        bytes.truncate(MOST);
    }
    bytes
}

fn change(bytes: &mut Vec<u8>, others: &[&str], chance: &mut Chance) {
    match chance.below(14) {
        0 => {
            if !bytes.is_empty() {
                let at = chance.below(bytes.len());
                bytes[at] ^= 1 << chance.below(8);
            }
        }
        1 => drop(bytes.drain(stretch(bytes.len(), 12, chance))),
        2 | 3 => put(bytes, chance.one_of(TOKENS).as_bytes(), chance),
        4 => {
            // A token in place of a word.
            if let Some(word) = words(bytes, chance, |b| b.is_ascii_alphanumeric()) {
                bytes.splice(word, chance.one_of(TOKENS).bytes());
            }
        }
        5 | 6 => {
            if let Some(number) = words(bytes, chance, |b| b.is_ascii_digit()) {
                bytes.splice(number, chance.one_of(NUMBERS).bytes());
            }
        }
        7 => {
            // The beginning of this one and the end of another, or a piece of another somewhere.
            let other = chance.one_of(others).as_bytes();
            let piece = &other[stretch(other.len(), other.len(), chance)];
            if chance.once_in(3) {
                bytes.truncate(chance.below(bytes.len() + 1));
                bytes.extend_from_slice(piece);
            } else {
                put(bytes, piece, chance);
            }
        }
        8 => {
            // A line of another file in place of one.
            let mut lines: Vec<&[u8]> = bytes.split_inclusive(|b| *b == b'\n').collect();
            let others: Vec<&[u8]> =
                chance.one_of(others).as_bytes().split_inclusive(|b| *b == b'\n').collect();
            if !lines.is_empty() && !others.is_empty() {
                let at = chance.below(lines.len());
                lines[at] = others[chance.below(others.len())];
                *bytes = lines.concat();
            }
        }
        9 => {
            let mut lines: Vec<&[u8]> = bytes.split_inclusive(|b| *b == b'\n').collect();
            if !lines.is_empty() {
                let (from, to) = (chance.below(lines.len()), chance.below(lines.len()));
                match chance.below(3) {
                    0 => lines.swap(from, to),
                    1 => drop(lines.remove(from)),
                    _ => lines.insert(to, lines[from]),
                }
                *bytes = lines.concat();
            }
        }
        10 => {
            // One thing many times: a line, a row, a character.
            let piece = bytes[stretch(bytes.len(), 40, chance)].to_vec();
            let times = [2, 9, 120, 1500][chance.below(4)].min(MOST / piece.len().max(1));
            put(bytes, &piece.repeat(times), chance);
        }
        11 => {
            let (open, close) = chance.one_of(&[
                &("[", "]"),
                &("{a: ", "}"),
                &("(", ")"),
                &("2(", ")"),
                &("- ", ""),
                &("{{ (", ") }}"),
                &("{% if a %}", "{% endif %}"),
                &("not ", ""),
                &("**", "**"),
                &("? ", ""),
            ]);
            let deep = [3, 20, 130, 5000][chance.below(4)];
            let closed = if chance.once_in(2) { deep } else { 0 };
            put(bytes, [open.repeat(deep), "A".to_owned(), close.repeat(closed)].concat().as_bytes(), chance);
        }
        12 => {
            // Every occurrence of a byte becomes another.
            if !bytes.is_empty() {
                let (old, new) = (bytes[chance.below(bytes.len())], bytes[chance.below(bytes.len())]);
                bytes.iter_mut().filter(|b| **b == old).for_each(|b| *b = new);
            }
        }
        _ => {
            // A letter of a picture or strand becomes another letter that is likely to be one.
            if let Some(word) = words(bytes, chance, |b| b.is_ascii_uppercase()) {
                bytes[word.start] = b"ABCDEFGH"[chance.below(8)];
            }
        }
    }
}

/// Puts a piece in somewhere.
fn put(bytes: &mut Vec<u8>, piece: &[u8], chance: &mut Chance) {
    let at = chance.below(bytes.len() + 1);
    bytes.splice(at..at, piece.iter().copied());
}

/// A stretch of at most so many bytes.
pub fn stretch(length: usize, most: usize, chance: &mut Chance) -> Range<usize> {
    let start = chance.below(length);
    start..(start + chance.below(most + 1)).min(length)
}

/// A run of bytes of a kind, the next one after a random place.
fn words(bytes: &[u8], chance: &mut Chance, of_kind: impl Fn(&u8) -> bool) -> Option<Range<usize>> {
    let from = chance.below(bytes.len());
    let start = from + bytes[from..].iter().position(&of_kind)?;
    let length = bytes[start..].iter().take_while(|b| of_kind(b)).count();
    Some(start..start + length)
}
