//! Random and mutated files never panic, never hang, and always say where.

use super::good::{DESIGN, PALETTE, STUDIO};
use fringebook::design::{Reading, Texts, Wishes, read_from};
use fringebook::diagnostic::{Look, has_errors, render_all};
use proptest::prelude::*;
use std::path::Path;

fn read(design: &[u8], palette: &[u8]) -> Reading {
    let files = [("d.yaml", design), ("palette.yaml", palette), ("studio.yaml", STUDIO.as_bytes())];
    read_from(&Texts::new(files), Path::new("d.yaml"), &Wishes::default())
}

/// A design, or errors to show; rendering them must not panic either.
fn design_or_errors(reading: &Reading) {
    let text = render_all(&reading.problems, Look::Coloured);
    assert_eq!(reading.design.is_none(), has_errors(&reading.problems), "{text}");
}

/// Texts that are likely to upset a parser of these files.
fn awkward() -> impl Strategy<Value = String> {
    let pieces = [
        "|",
        ">",
        "&a ",
        "*a",
        "- ",
        ": ",
        "{",
        "}",
        "[",
        "]",
        "#",
        "\"",
        "'",
        "\t",
        "\r\n",
        "\n",
        "\n\n",
        "    ",
        ".",
        "..",
        "A",
        "Z",
        "é",
        "鷺",
        "\u{feff}",
        "\u{0}",
        "0",
        "999999999999",
        "-1",
        "1e999",
        ".inf",
        ".nan",
        "null",
        "~",
        "true",
        "(",
        ")",
        "3(2A 1B)",
        "!!binary ",
        "!x ",
        "<<: *a",
        "---\n",
        "...\n",
        "? ",
        "%YAML 1.2\n",
        "picture: |\n",
        "  below: |\n",
    ];
    prop_oneof![4 => proptest::sample::select(pieces.to_vec()).prop_map(str::to_owned), 1 => ".{0,6}"]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn bytes_at_random(design in proptest::collection::vec(any::<u8>(), 0..400)) {
        design_or_errors(&read(&design, PALETTE.as_bytes()));
    }

    #[test]
    fn awkward_pieces(pieces in proptest::collection::vec(awkward(), 0..60)) {
        let text = pieces.concat();
        design_or_errors(&read(text.as_bytes(), PALETTE.as_bytes()));
        design_or_errors(&read(DESIGN.as_bytes(), text.as_bytes()));
    }

    #[test]
    fn good_files_with_something_put_in(
        at in 0.0..1.0f64, cut in 0usize..12, put in awkward(), in_palette in any::<bool>()
    ) {
        let text = if in_palette { PALETTE } else { DESIGN };
        let spoiled = spoil(text, at, cut, &put);
        if in_palette {
            design_or_errors(&read(DESIGN.as_bytes(), &spoiled));
        } else {
            design_or_errors(&read(&spoiled, PALETTE.as_bytes()));
        }
    }
}

/// The text with a few bytes from a place on replaced.
fn spoil(text: &str, at: f64, cut: usize, put: &str) -> Vec<u8> {
    let start = (at * text.len() as f64) as usize;
    let end = (start + cut).min(text.len());
    [&text.as_bytes()[..start], put.as_bytes(), &text.as_bytes()[end..]].concat()
}

#[test]
fn every_line_taken_out_or_given_twice() {
    let lines: Vec<&str> = DESIGN.lines().collect();
    for i in 0..lines.len() {
        for copies in [0, 2] {
            let text: String = lines
                .iter()
                .enumerate()
                .flat_map(|(k, l)| vec![format!("{l}\n"); if k == i { copies } else { 1 }])
                .collect();
            design_or_errors(&read(text.as_bytes(), PALETTE.as_bytes()));
        }
    }
}

#[test]
fn every_beginning_of_the_good_files() {
    for end in 0..DESIGN.len() {
        design_or_errors(&read(&DESIGN.as_bytes()[..end], PALETTE.as_bytes()));
    }
    for end in 0..PALETTE.len() {
        design_or_errors(&read(DESIGN.as_bytes(), &PALETTE.as_bytes()[..end]));
    }
}
