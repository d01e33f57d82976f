//! Two editions of one file name: neither is written over the other, unless that is asked for.

use crate::catalogue::{Catalogue, design};

const REPLACE: &str =
    "  what to do: rename it, write elsewhere with --out FOLDER, or replace it with --replace\n\n";

/// With the colourways `Grey` and `!`.
fn catalogue() -> Catalogue {
    let catalogue = Catalogue::with_heron();
    catalogue.edit(
        "heron.yaml",
        "hang: thread guard",
        "hang: thread guard\ncolourways:\n  Grey: {C: slate}\n  \"!\": {C: ember}",
    );
    catalogue
}

/// Makes the first, is refused the second with these words, and gets it when she insists.
#[track_caller]
fn refused(catalogue: &Catalogue, file: &str, first: &[&str], second: &[&str], told: &str) {
    let run = |words: &[&str], more: &[&str]| catalogue.run(&[&["make"], words, more].concat());
    run(first, &[]).ended(0);
    let before = catalogue.seen(file);
    assert_eq!(run(second, &[]).ended(1).err, format!("error: {told}, so it is left as it is\n{REPLACE}"));
    assert_eq!(catalogue.seen(file), before);
    // The first may be made again and again, also when it has changed.
    run(first, &[]).ended(0);
    catalogue.edit("palette.yaml", "name: Ink,", "name: Inky,");
    run(first, &[]).ended(0);
    let changed = catalogue.seen(file);
    assert_ne!(changed[file].bytes, before[file].bytes);
    run(second, &["--replace"]).ended(0);
    assert_ne!(catalogue.bytes(file), changed[file].bytes);
    run(second, &[]).ended(0);
}

#[test]
fn a_colourway_named_grey_and_charts_in_grey() {
    let (colourway, grey) = (["heron.yaml", "--colourway", "Grey"], ["heron.yaml", "--grey"]);
    let file = "heron-grey.pdf";
    refused(
        &catalogue(),
        file,
        &colourway,
        &grey,
        "heron-grey.pdf is the booklet of heron (colourway Grey), not of heron (grey)",
    );
    refused(
        &catalogue(),
        file,
        &grey,
        &colourway,
        "heron-grey.pdf is the booklet of heron (grey), not of heron (colourway Grey)",
    );
    // Each colourway is made that can be.
    let catalogue = catalogue();
    catalogue.run(&["make", "heron.yaml", "--grey"]).ended(0);
    let before = catalogue.seen(file);
    let ran = catalogue.run(&["make", "heron.yaml", "--each-colourway"]);
    assert!(ran.ended(1).err.contains("heron-grey.pdf is the booklet of heron (grey)"), "{}", ran.err);
    assert_eq!(catalogue.seen(file), before);
    assert!(catalogue.path("heron.pdf").exists() && catalogue.path("heron-exclamation-mark.pdf").exists());
}

#[test]
fn a_design_named_for_grey_and_charts_in_grey() {
    let catalogue = catalogue();
    catalogue.write("heron-grey.yaml", design("Grey Heron", ["ink", "mist", "slate"]));
    refused(
        &catalogue,
        "heron-grey.pdf",
        &["heron-grey.yaml"],
        &["heron.yaml", "--grey"],
        "heron-grey.pdf is the booklet of heron-grey, not of heron (grey)",
    );
}

#[test]
fn copies_for_two_people_of_the_same_letters() {
    refused(
        &catalogue(),
        "heron-for-a-b.pdf",
        &["heron.yaml", "--for", "A&B"],
        &["heron.yaml", "--for", "a b!"],
        "heron-for-a-b.pdf is the booklet of heron (for A&B), not of heron (for a b!)",
    );
}

#[test]
fn two_editions_of_one_run_and_one_name() {
    let catalogue = Catalogue::with_heron();
    let colourways = "colourways:\n  Low Sun: {C: slate}\n  low-sun!: {C: ember}";
    catalogue.edit("heron.yaml", "hang: thread guard", &format!("hang: thread guard\n{colourways}"));
    let told = "error: heron-low-sun.pdf would be the booklet of heron (colourway Low Sun) as well as of heron \
                (colourway low-sun!)\n  what to do: give one of the two another name, or make them into \
                different folders with --out\n\n";
    assert_eq!(catalogue.run(&["make", "heron.yaml", "--each-colourway"]).ended(2).err, told);
    assert!(catalogue.seen(".pdf").is_empty());
}

#[test]
fn a_colourway_without_letters_has_a_name_of_its_own() {
    let catalogue = catalogue();
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    let before = catalogue.seen("heron.pdf");
    let ran = catalogue.run(&["make", "heron.yaml", "--colourway", "!"]);
    assert!(ran.ended(0).out.starts_with("heron-exclamation-mark.pdf  "), "{}", ran.out);
    assert_eq!(catalogue.seen("heron.pdf"), before);
    // And it is remade under that name.
    catalogue.edit("palette.yaml", "#c2552d", "#b0452a");
    let again = catalogue.run(&["remake", "."]);
    let names: Vec<String> = again.ended(0).rows("made").into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["heron-exclamation-mark.pdf", "heron.pdf"]);
}

#[test]
fn a_bench_copy_and_a_design_named_for_it() {
    let catalogue = catalogue();
    catalogue.write("heron-bench.yaml", design("Bench", ["ink", "mist", "slate"]));
    catalogue.run(&["make", "heron-bench.yaml"]).ended(0);
    let ran = catalogue.run(&["bench", "heron.yaml"]);
    assert_eq!(
        ran.ended(1).err,
        format!(
            "error: heron-bench.pdf is the booklet of heron-bench, not of heron (bench copy), so it is left as it is\n{REPLACE}"
        )
    );
}

#[test]
fn remake_keeps_both_apart_and_says_which_could_not_be_made() {
    let catalogue = catalogue();
    catalogue.run(&["make", "heron.yaml", "--grey"]).ended(0);
    catalogue.write("heron-grey.yaml", design("Grey Heron", ["ink", "mist", "slate"]));
    let before = catalogue.seen("heron-grey.pdf");
    let told = "heron-grey.pdf is the booklet of heron (grey), not of heron-grey, so it is left as it is";
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(1).err, format!("error: {told}\n{REPLACE}"));
    assert_eq!(ran.last_line(), "3 booklets: 1 made, 1 current, 1 failed");
    assert_eq!(catalogue.seen("heron-grey.pdf"), before);
    // Whose it is, it is remade for.
    catalogue.edit("heron.yaml", "title: Heron", "title: Heron Grey");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(1).last_line(), "3 booklets: 2 made, 0 current, 1 failed");
    // Renamed, it is no longer in the way.
    let renamed = catalogue.path("heron in grey.pdf");
    std::fs::rename(catalogue.path("heron-grey.pdf"), renamed).expect("renamed");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "2 booklets: 1 made, 1 current, 0 failed");
}

#[test]
fn a_design_moved_to_another_folder_keeps_its_booklets() {
    let catalogue = catalogue();
    catalogue.run(&["make", "heron.yaml", "--each-colourway"]).ended(0);
    for name in ["heron.yaml", "heron.pdf", "heron-grey.pdf", "heron-exclamation-mark.pdf"] {
        catalogue.write(&format!("birds/{name}"), catalogue.bytes(name));
        std::fs::remove_file(catalogue.path(name)).expect("removed");
    }
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "3 booklets: 0 made, 3 current, 0 failed");
    catalogue.edit("palette.yaml", "#1b1c20", "#202228");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "3 booklets: 3 made, 0 current, 0 failed");
}

#[test]
fn designs_of_one_name_in_two_folders() {
    let catalogue = Catalogue::with_heron();
    let other = design("Night Heron", ["ink", "mist", "slate"])
        .replace("..A B A", "..B A B")
        .replace("8A 2B 1C", "9A 2B 1C");
    catalogue.write("night/heron.yaml", &other);
    catalogue.run(&["make", "heron.yaml", "--out", "books"]).ended(0);
    let before = catalogue.seen("books/heron.pdf");
    let ran = catalogue.run(&["make", "night/heron.yaml", "--out", "books"]);
    assert_eq!(
        ran.ended(1).err,
        format!(
            "error: books/heron.pdf is the booklet of another design called heron, so it is left as it is\n{REPLACE}"
        )
    );
    assert_eq!(catalogue.seen("books/heron.pdf"), before);
    catalogue.run(&["make", "night/heron.yaml", "--out", "books", "--replace"]).ended(0);
    // Whatever else changes, it is the same design as long as something of it is left.
    catalogue.write("night/heron.yaml", other.replace("Night", "Black").replace("9A 2B", "7A 3B"));
    catalogue.run(&["make", "night/heron.yaml", "--out", "books"]).ended(0);
}

#[test]
fn another_paper_than_the_studios_has_a_name_of_its_own() {
    let catalogue = catalogue();
    let paths = |words: &[&str]| -> Vec<String> {
        let ran = catalogue.run(words);
        let path = |line: &str| line.split_once("  ").map(|(path, _)| path.to_owned());
        ran.ended(0).out.lines().filter_map(path).collect()
    };
    assert_eq!(paths(&["make", "heron.yaml"]), ["heron.pdf"]);
    let before = catalogue.seen("heron.pdf");
    assert_eq!(paths(&["make", "heron.yaml", "--paper", "a4"]), ["heron.pdf"]);
    assert_eq!(paths(&["make", "heron.yaml", "--paper", "letter"]), ["heron-letter.pdf"]);
    assert_eq!(paths(&["bench", "heron.yaml", "--paper", "letter"]), ["heron-bench-letter.pdf"]);
    let letter = catalogue.bytes("heron-letter.pdf");
    assert_eq!(paths(&["make", "heron.yaml", "--paper", "both"]), ["heron-a4.pdf", "heron-letter.pdf"]);
    assert_eq!(catalogue.bytes("heron-letter.pdf"), letter);
    assert_eq!(catalogue.seen("heron.pdf")["heron.pdf"].bytes, before["heron.pdf"].bytes);
    // All of them stay up to date.
    catalogue.edit("palette.yaml", "#1b1c20", "#202228");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "4 booklets: 4 made, 0 current, 0 failed");
}

#[test]
fn the_paper_of_the_studio_may_change() {
    let catalogue = catalogue();
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    let before = catalogue.seen("heron.pdf");
    catalogue.edit("studio.yaml", "paper: a4", "paper: letter");
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    assert_ne!(catalogue.seen("heron.pdf"), before);
}
