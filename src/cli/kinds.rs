//! Telling designs from palette and studio files, and from files that are none of ours.

use crate::design::{LARGEST_FILE, Top, Unread, regular_file, top_of};
use std::path::Path;

/// What a YAML or JSON file seems to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// A design, or a file that was meant to be one.
    Design,
    /// Perhaps the beginning of a design.
    Beginning,
    /// A palette.
    Palette,
    /// A studio file.
    Studio,
    /// Nothing that a file could be: empty, cut off after a word, no text.
    Ruined,
    /// Something else.
    Unknown,
}

/// Keys that stand at the top level of each kind, and of no other. A design whose body is missing or
/// misspelt is known by its fringe or its letters, so that its mistake is reported.
const KEYS: [(Kind, &[&str]); 3] = [
    (Kind::Design, &["body", "fringe", "colours"]),
    (Kind::Palette, &["beads", "findings"]),
    (Kind::Studio, &["accent", "terms", "copyright", "contact", "paper", "web"]),
];

/// Keys with which designs begin: they show what a design was meant to be that is cut off after them.
const BEGINNINGS: [&str; 5] = ["title", "summary", "skill", "pair", "hang"];

/// What a file seems to be.
///
/// # Errors
/// It is not there, no regular file, too large, or cannot be read.
pub(super) fn kind_at(path: &Path) -> Result<Kind, Unread> {
    regular_file(path, LARGEST_FILE).map(|bytes| kind_of(&bytes))
}

/// What a file seems to be, by its keys.
pub(super) fn kind_of(bytes: &[u8]) -> Kind {
    // Most designs have their keys at the beginnings of lines: then the text need not be parsed.
    match at_line_beginnings(bytes) {
        Kind::Design => Kind::Design,
        seems => match top_of(&text_of(bytes)) {
            Top::Keys(keys) => match by_keys(&keys) {
                Kind::Unknown => seems,
                kind => kind,
            },
            Top::List => Kind::Unknown,
            Top::Nothing if seems == Kind::Unknown => Kind::Ruined,
            Top::Nothing => seems,
        },
    }
}

/// What a file seems to be by the keys at the beginnings of its lines.
fn at_line_beginnings(text: &[u8]) -> Kind {
    let text = text.strip_prefix(b"\xef\xbb\xbf").unwrap_or(text);
    let lines = text.split(|&b| b == b'\n' || b == b'\r').filter(|line| !line.is_empty());
    let is = |line: &[u8], key: &str| line.strip_prefix(key.as_bytes()).is_some_and(|l| l.starts_with(b":"));
    first_or_design(lines.filter_map(|line| kind_by(|key| is(line, key))))
}

fn by_keys(keys: &[String]) -> Kind {
    match first_or_design(keys.iter().filter_map(|key| kind_by(|known| key == known))) {
        Kind::Unknown if keys.iter().any(|key| BEGINNINGS.contains(&key.as_str())) => Kind::Beginning,
        kind => kind,
    }
}

fn kind_by(is: impl Fn(&str) -> bool) -> Option<Kind> {
    KEYS.iter().find(|(_, keys)| keys.iter().any(|key| is(key))).map(|(kind, _)| *kind)
}

/// A palette or studio key may stand in a design by mistake; a design key decides.
fn first_or_design(kinds: impl Iterator<Item = Kind>) -> Kind {
    let mut first = Kind::Unknown;
    for kind in kinds {
        if kind == Kind::Design {
            return kind;
        }
        if first == Kind::Unknown {
            first = kind;
        }
    }
    first
}

/// The text of a file, also of one that a word processor has saved in UTF-16 (Unicode 16.0, 23.8, byte order mark):
/// no such design can be used, but it is one.
fn text_of(bytes: &[u8]) -> String {
    let wide = |unit: fn([u8; 2]) -> u16| {
        let units = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]]));
        let text: String =
            char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect();
        text.trim_start_matches('\u{feff}').to_owned()
    };
    match bytes {
        // With its mark, or an ASCII character before a zero byte.
        [0xff, 0xfe, ..] | [1..=0x7f, 0, ..] => wide(u16::from_le_bytes),
        [0xfe, 0xff, ..] | [0, 1..=0x7f, ..] => wide(u16::from_be_bytes),
        _ => String::from_utf8_lossy(bytes).trim_start_matches('\u{feff}').to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn designs_palettes_and_studio_files_are_told_apart() {
        assert_eq!(kind_of(b"title: Heron\nbody:\n  drop: 2\n"), Kind::Design);
        assert_eq!(kind_of(b"\xef\xbb\xbfbody:\r\n  drop: 2\r\n"), Kind::Design);
        assert_eq!(kind_of(b"title: Heron\npaper: a4\ncolours: {A: ink}\nboddy:\n"), Kind::Design);
        assert_eq!(kind_of(b"beads:\n  ink: {}\nthreads:\n  body: {name: nylon}\n"), Kind::Palette);
        assert_eq!(kind_of(b"name: Willow\nterms:\n  - yours\n"), Kind::Studio);
        assert_eq!(kind_of(b"shopping: bread\n"), Kind::Unknown);
        assert_eq!(kind_of(b"- bread\n- title: milk\n"), Kind::Unknown);
    }

    #[test]
    fn a_design_is_known_however_its_keys_are_written() {
        for text in [
            "  title: Heron\n  body:\n    drop: 2\n",
            "'title': Heron\n\"body\": {drop: 2}\n",
            "{\"title\": \"Heron\", \"body\": {\"drop\": 2}}",
            "--- {paper: a4, fringe: []}",
            "body : {drop: 2}\n",
        ] {
            assert_eq!(kind_of(text.as_bytes()), Kind::Design, "{text}");
        }
        assert_eq!(kind_of(b"  beads:\n    body: {name: a bead of this name}\n"), Kind::Palette);
        assert_eq!(kind_of(b"{\"name\": \"Willow\", \"web\": \"body: x\"}"), Kind::Studio);
    }

    #[test]
    fn a_design_is_known_when_it_is_cut_off_or_in_another_encoding() {
        assert_eq!(kind_of(b"title: Her"), Kind::Beginning);
        assert_eq!(kind_of(b"{\"title\": \"Her"), Kind::Ruined);
        assert_eq!(kind_of(b"tit"), Kind::Ruined);
        assert_eq!(kind_of(b""), Kind::Ruined);
        assert_eq!(kind_of(b"# all that is left\n"), Kind::Ruined);
        assert_eq!(kind_of(&[0; 4096]), Kind::Ruined);
        let wide = |text: &str, unit: fn(u16) -> [u8; 2]| -> Vec<u8> {
            text.encode_utf16().flat_map(unit).collect()
        };
        for mark in ["\u{feff}", ""] {
            for unit in [u16::to_le_bytes, u16::to_be_bytes] {
                assert_eq!(kind_of(&wide(&format!("{mark}title: Hérön\nbody:\n"), unit)), Kind::Design);
                assert_eq!(kind_of(&wide(&format!("{mark}beads:\n  ink: {{}}\n"), unit)), Kind::Palette);
            }
        }
    }
}
