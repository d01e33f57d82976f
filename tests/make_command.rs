//! `make`, `check` and `new`, as stories with what is read on the screen.

use crate::catalogue::{Catalogue, Ran, design, ran};

/// A line of `make` without its size, which depends on compression: `heron.pdf  12 pages`.
fn without_sizes(out: &str) -> Vec<&str> {
    out.lines().map(|line| line.rsplit_once("  ").map_or(line, |(start, _)| start)).collect()
}

fn paths(out: &str) -> Vec<&str> {
    out.lines().filter_map(|line| line.split_once("  ").map(|(path, _)| path)).collect()
}

#[test]
fn a_booklet_is_written_beside_its_design() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["make", "heron.yaml"]);
    ran.ended(0);
    let bytes = catalogue.bytes("heron.pdf");
    let line = ran.out.trim_end();
    assert!(
        line.starts_with("heron.pdf  ") && line.ends_with(&format!("  {} kB", bytes.len().div_ceil(1000))),
        "{line}"
    );
    assert!(without_sizes(&ran.out)[0].ends_with(" pages"), "{line}");
    assert!(bytes.starts_with(b"%PDF-1.7"));
}

#[test]
fn two_runs_are_alike_to_the_byte() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    catalogue.run(&["make", "heron.yaml", "--out", "again"]).ended(0);
    assert_eq!(catalogue.bytes("heron.pdf"), catalogue.bytes("again/heron.pdf"));
}

#[test]
fn dates_come_from_the_environment_and_never_from_the_clock() {
    let catalogue = Catalogue::with_heron();
    let made = |epoch: &str, out: &str| {
        let ran =
            ran(catalogue.command(&["make", "heron.yaml", "--out", out]).env("SOURCE_DATE_EPOCH", epoch));
        ran.ended(0);
        catalogue.bytes(&format!("{out}/heron.pdf"))
    };
    let holds = |bytes: &[u8], text: &str| bytes.windows(text.len()).any(|w| w == text.as_bytes());
    let first = made("1700000000", "a");
    assert!(holds(&first, "2023-11-14T22:13:20Z"));
    assert_eq!(first, made("1700000000", "b"));
    assert_ne!(first, made("1700000001", "c"));
    catalogue.edit("heron.yaml", "edition: 1", "edition: 1\ndate: 2024-02-29");
    let dated = made("1700000000", "d");
    assert!(holds(&dated, "2024-02-29T00:00:00Z") && !holds(&dated, "2023-11-14"));
}

#[test]
fn each_paper_and_each_colourway_has_its_file() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit(
        "heron.yaml",
        "hang: thread guard",
        "hang: thread guard\ncolourways:\n  River: {C: slate}\n  Low Sun: {C: ember, B: reed}",
    );
    let ran = catalogue.run(&["make", "heron.yaml", "--each-colourway", "--paper", "both"]);
    assert_eq!(
        paths(&ran.ended(0).out),
        [
            "heron-a4.pdf",
            "heron-letter.pdf",
            "heron-river-a4.pdf",
            "heron-river-letter.pdf",
            "heron-low-sun-a4.pdf",
            "heron-low-sun-letter.pdf"
        ]
    );
}

#[test]
fn everything_asked_for_is_in_the_name() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&[
        "make",
        "heron.yaml",
        "--colour",
        "C=slate",
        "--start",
        "right",
        "--grey",
        "--large-print",
        "--for",
        "Order 1042",
        "--out",
        "books",
    ]);
    assert_eq!(paths(&ran.ended(0).out), ["books/heron-c-slate-right-large-print-grey-for-order-1042.pdf"]);
}

#[test]
fn a_design_that_cannot_be_made_stops_no_other() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("orchard.yaml", design("Orchard", ["ink", "mist", "slat"]));
    let ran = catalogue.run(&["make", "orchard.yaml", "heron.yaml"]);
    assert_eq!(paths(&ran.ended(1).out), ["heron.pdf"]);
    assert!(ran.err.contains("orchard.yaml:4:"), "{}", ran.err);
    assert!(ran.err.contains("slate"), "the nearest bead is suggested: {}", ran.err);
    assert_eq!(catalogue.names(), ["heron.pdf", "heron.yaml", "orchard.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn what_came_of_each_design_is_said_in_their_order() {
    let catalogue = Catalogue::with_designs(12);
    catalogue.edit("design-04.yaml", "reed", "slat");
    catalogue.edit("design-09.yaml", "reed", "slat");
    // A character that no face has: the design reads well and cannot be set, on either paper.
    for n in ["03", "07"] {
        catalogue.edit(&format!("design-{n}.yaml"), "over a short", "over a \u{4e2d} short");
    }
    let names: Vec<String> = (1..=12).rev().map(|n| format!("design-{n:02}.yaml")).collect();
    let args: Vec<&str> =
        ["make", "--paper", "both"].into_iter().chain(names.iter().map(String::as_str)).collect();
    let ran = catalogue.run(&args);
    let made: Vec<String> = (1..=12)
        .rev()
        .filter(|n| ![3, 4, 7, 9].contains(n))
        .flat_map(|n| ["a4", "letter"].map(|paper| format!("design-{n:02}-{paper}.pdf")))
        .collect();
    assert_eq!(paths(&ran.ended(1).out), made);
    let told: Vec<&str> = ran.err.lines().filter(|l| l.contains(": error: ")).collect();
    let places: Vec<&str> = told.iter().filter_map(|l| l.split_once(':').map(|(file, _)| file)).collect();
    assert_eq!(places, ["design-09.yaml", "design-07.yaml", "design-04.yaml", "design-03.yaml"]);
}

#[test]
fn palette_and_studio_files_that_a_shell_brings_along_are_passed_over() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["make", "heron.yaml", "palette.yaml", "studio.yaml"]);
    assert_eq!(paths(&ran.well().out), ["heron.pdf"]);
    let none = catalogue.run(&["check", "palette.yaml", "studio.yaml"]);
    assert_eq!(
        none.ended(2).err,
        "\
error: palette.yaml is a palette, not a design
  what to do: give the design that uses it; `fringebook remake FOLDER` finds all that do

error: studio.yaml is a studio file, not a design
  what to do: give the design that uses it; `fringebook remake FOLDER` finds all that do

"
    );
}

#[test]
fn designs_that_would_share_a_file_are_refused() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("birds/heron.yaml", design("Other Heron", ["ink", "mist", "slate"]));
    let ran = catalogue.run(&["make", "heron.yaml", "birds/heron.yaml", "--out", "books"]);
    assert_eq!(
        ran.ended(2).err,
        "\
error: books/heron.pdf would be written twice
  what to do: give the designs different file names, or make them into different folders with --out

"
    );
    assert!(!catalogue.path("books").exists());
}

#[test]
fn a_file_of_the_makers_is_left_alone() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("heron.pdf", "set by hand");
    let ran = catalogue.run(&["make", "heron.yaml"]);
    assert_eq!(
        ran.ended(1).err,
        "\
error: heron.pdf is there already and was not made by fringebook, so it is left as it is
  what to do: move or rename it, write elsewhere with --out FOLDER, or replace it with --replace

"
    );
    assert_eq!(catalogue.bytes("heron.pdf"), b"set by hand");
    catalogue.run(&["make", "heron.yaml", "--replace"]).ended(0);
    assert_ne!(catalogue.bytes("heron.pdf"), b"set by hand");
}

#[test]
fn wrong_usage_ends_with_2() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["make"]).ended(2);
    catalogue.run(&["make", "heron.yaml", "--paper", "a6"]).ended(2);
    catalogue.run(&["mend", "heron.yaml"]).ended(2);
    catalogue.run(&["make", "heron.yaml", "--colourway", "River", "--each-colourway"]).ended(2);
    catalogue.run(&[]).ended(2);
    assert_eq!(catalogue.names(), ["heron.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn check_makes_nothing_and_says_how_each_design_stands() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("orchard.yaml", design("Orchard", ["ink", "mist", "slat"]));
    let ran = catalogue.run(&["check", "heron.yaml", "orchard.yaml"]);
    ran.ended(1);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert_eq!(lines.len(), 2);
    assert!(lines[0].starts_with("heron.yaml: "), "{}", ran.out);
    assert_eq!(lines[1], "orchard.yaml: 1 error");
    assert_eq!(catalogue.names(), ["heron.yaml", "orchard.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn new_writes_a_design_that_can_be_made_and_never_overwrites() {
    let catalogue = Catalogue::new();
    let ran = catalogue.run(&["new", "Heron at Dusk", "--in", "birds"]);
    assert_eq!(ran.well().out, "birds/heron-at-dusk.yaml\n");
    let again = catalogue.run(&["new", "Heron at dusk", "--in", "birds"]);
    assert_eq!(
        again.ended(1).err,
        "\
error: birds/heron-at-dusk.yaml is there already, and is left as it is
  what to do: choose another name, or write into another folder with --in FOLDER

"
    );
    let nameless = catalogue.run(&["new", "…"]);
    nameless.ended(2);
}

#[test]
fn new_in_an_empty_folder_brings_palette_and_studio_and_all_of_it_makes_a_booklet() {
    let catalogue = Catalogue::new();
    for name in ["palette.yaml", "studio.yaml"] {
        std::fs::remove_file(catalogue.path(name)).expect("removed");
    }
    let ran = catalogue.run(&["new", "Heron at Dusk"]);
    assert_eq!(ran.well().out, "heron-at-dusk.yaml\npalette.yaml\nstudio.yaml\n");
    catalogue.run(&["make", "heron-at-dusk.yaml"]).well();
}

#[test]
fn new_calls_no_design_by_the_name_of_a_palette_or_a_studio() {
    let catalogue = Catalogue::new();
    for name in ["palette.yaml", "studio.yaml"] {
        std::fs::remove_file(catalogue.path(name)).expect("removed");
    }
    for (title, file, what) in
        [("Palette", "palette.yaml", "palette"), ("STUDIO!", "studio.yaml", "studio file")]
    {
        assert_eq!(
            catalogue.run(&["new", title]).ended(2).err,
            format!(
                "\
error: a design called {file} would be taken for the {what}
  what to do: choose another name, as in `fringebook new \"{title} Earrings\"`

"
            )
        );
    }
    assert!(catalogue.names().is_empty(), "{:?}", catalogue.names());
}

#[test]
fn two_new_at_once_do_not_overwrite_each_other() {
    for round in 0..5 {
        let catalogue = Catalogue::new();
        for name in ["palette.yaml", "studio.yaml"] {
            std::fs::remove_file(catalogue.path(name)).expect("removed");
        }
        let titles = ["Heron at Dusk", "Heron at dusk", "Wren"];
        let ran: Vec<Ran> = std::thread::scope(|scope| {
            let runs: Vec<_> =
                titles.iter().map(|title| scope.spawn(|| catalogue.run(&["new", title]))).collect();
            runs.into_iter().map(|run| run.join().expect("no panic")).collect()
        });
        // One of the two of one name has come first, and its design stands; the other is told so.
        let (won, lost) = if ran[0].status == Some(0) { (0, 1) } else { (1, 0) };
        ran[won].well();
        let there = "error: heron-at-dusk.yaml is there already, and is left as it is";
        assert!(ran[lost].ended(1).err.starts_with(there), "round {round}: {:?}", ran[lost]);
        let text = String::from_utf8(catalogue.bytes("heron-at-dusk.yaml")).expect("text");
        assert!(text.contains(titles[won]), "round {round}: {text}");
        ran[2].well();
        // Palette and studio are written once, by whoever came first.
        let out: String = ran.iter().map(|run| run.out.as_str()).collect();
        assert_eq!(out.matches("palette.yaml").count(), 1, "round {round}: {out}");
        assert_eq!(catalogue.names(), ["heron-at-dusk.yaml", "palette.yaml", "studio.yaml", "wren.yaml"]);
    }
}

#[test]
fn a_character_that_cannot_be_printed_is_named_where_it_stands_and_once() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "title: Heron", "title: Heron 針");
    let ran = catalogue.run(&["make", "heron.yaml", "--paper", "both"]);
    ran.ended(1);
    assert_eq!(
        ran.err,
        "heron.yaml:1:14: error: no built-in font has the character “針” (U+91DD cjk unified ideograph-91dd)\n  \
         1 | title: Heron 針\n    |              ^^\n  \
         what to do: write it another way; Latin, Greek and Cyrillic letters can be printed\n\n"
    );
    assert!(!catalogue.names().iter().any(|n| n.ends_with(".pdf")));
}
