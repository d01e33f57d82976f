//! Telling designs from palette and studio files without reading them whole.

/// What a YAML file seems to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// A design, or a file that was meant to be one.
    Design,
    /// A palette.
    Palette,
    /// A studio file.
    Studio,
    /// Neither.
    Unknown,
}

/// Keys that stand at the top level of each kind, and of no other. A design whose body is missing or
/// misspelt is known by its fringe or its letters, so that its mistake is reported.
const KEYS: [(Kind, &[&str]); 3] = [
    (Kind::Design, &["body:", "fringe:", "colours:"]),
    (Kind::Palette, &["beads:", "findings:"]),
    (Kind::Studio, &["accent:", "terms:", "copyright:", "contact:", "paper:", "web:"]),
];

/// What a file seems to be, by the keys at the beginnings of its lines.
pub(super) fn kind_of(text: &[u8]) -> Kind {
    let text = text.strip_prefix(b"\xef\xbb\xbf").unwrap_or(text);
    let mut lines = text.split(|&b| b == b'\n' || b == b'\r').filter(|line| !line.is_empty());
    let has = |keys: &[&str], line: &[u8]| keys.iter().any(|key| line.starts_with(key.as_bytes()));
    let mut kind = Kind::Unknown;
    // A palette or studio key may stand in a design by mistake; a design key decides.
    lines
        .find_map(|line| {
            let (found, _) = KEYS.iter().find(|(_, keys)| has(keys, line))?;
            if kind == Kind::Unknown {
                kind = *found;
            }
            (*found == Kind::Design).then_some(Kind::Design)
        })
        .unwrap_or(kind)
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
        assert_eq!(kind_of(b""), Kind::Unknown);
    }
}
