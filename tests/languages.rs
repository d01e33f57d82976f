//! What a maker's files give in several languages is printed in that of the booklet, and told where it is missing.

use crate::catalogue::Catalogue;
use crate::maker::{DESIGN, Folder, PALETTE, STUDIO, err, out};
use fringebook::booklet::{Edition, Templates, Wording, compose};
use fringebook::design::{Paper, Wishes, read};
use fringebook::stitch::stitch;
use fringebook::tally::tally;

/// A folder in which most texts are given in English and German.
fn folder() -> Folder {
    let palette = PALETTE
        .replace(
            "name: Ink black,",
            "name: {en: Ink black, de: Tintenschwarz}, finish: {en: matte, de: matt},",
        )
        .replace("    name: Ember\n", "    name:\n      en: Ember\n      de: Glut\n")
        .replace("name: braided thread 6 lb", "name: {en: braided thread, de: geflochtener Faden}")
        .replace("name: lever-back ear wire", "name: {en: ear wire 2.5 mm, de: Brisur 2.5 mm}")
        .replace("[scissors]", "[{en: scissors, de: Schere}, ruler 30.5 cm]");
    let design = DESIGN
        .replace("title: Small Heron", "title: {en: Small Heron, de: Kleiner Reiher}")
        .replace("For tests.", "{en: For tests., de: Zum Prüfen.}")
        + "colourways:\n  River:\n    name: {en: River, de: Fluss}\n    C: frost\n";
    let studio = format!(
        "{STUDIO}copyright: {{en: All rights reserved., de: Alle Rechte vorbehalten.}}\nterms:\n  - en: One. \n    de: |\n      Eins.\n\n      Zwei.\n"
    );
    Folder::new().with("palette.yaml", &palette).with("heron.yaml", &design).with("studio.yaml", &studio)
}

/// Everything that the booklet says in a language.
fn said(folder: &Folder, language: &str, colourway: Option<&str>) -> String {
    let wishes = Wishes {
        language: Some(language.to_owned()),
        colourway: colourway.map(str::to_owned),
        ..Wishes::default()
    };
    let design = read(&folder.path("heron.yaml"), &wishes).design.expect("a design");
    let work = stitch(&design);
    let tally = tally(&design, &work);
    let wording = Wording::with(language, &Templates::BUILT_IN).expect("a built-in language");
    let edition = Edition {
        paper: Paper::A4,
        grey: false,
        large_print: false,
        tablet: false,
        stamp: None,
        digest: String::new(),
        digest_parts: Vec::new(),
        before: None,
    };
    format!("{:?}", compose(&design, &work, &tally, &wording, &edition).expect("composed"))
}

fn assert_all_in(text: &str, wanted: &[&str], not: &[&str]) {
    let lost: Vec<_> = wanted.iter().filter(|part| !text.contains(**part)).collect();
    let found: Vec<_> = not.iter().filter(|part| text.contains(**part)).collect();
    assert!(lost.is_empty() && found.is_empty(), "not there: {lost:?}; there: {found:?}");
}

const GERMAN: [&str; 8] = [
    "Kleiner Reiher",
    "Zum Prüfen.",
    "Tintenschwarz",
    "Glut",
    "geflochtener Faden",
    "Schere",
    "Alle Rechte vorbehalten.",
    "\"Zwei.\"",
];
const ENGLISH: [&str; 7] =
    ["Small Heron", "For tests.", "Ink black", "Ember", "braided thread", "scissors", "All rights reserved."];

#[test]
fn a_booklet_prints_what_is_given_in_its_language() {
    let folder = folder();
    assert_all_in(&said(&folder, "de", None), &GERMAN, &ENGLISH);
    assert_all_in(&said(&folder, "en", None), &ENGLISH, &GERMAN);
    // American English reads what is given in English; French finds nothing and reads what the studio writes in.
    assert_all_in(&said(&folder, "en-US", None), &ENGLISH, &GERMAN);
    assert_all_in(&said(&folder, "fr", None), &ENGLISH[1..], &GERMAN);
}

#[test]
fn measures_in_names_take_the_decimal_mark_of_the_language() {
    let folder = folder();
    assert_all_in(&said(&folder, "de", None), &["Brisur 2,5 mm", "ruler 30,5 cm"], &["2.5 mm", "30.5 cm"]);
    assert_all_in(&said(&folder, "en", None), &["ear wire 2.5 mm", "ruler 30.5 cm"], &["2,5 mm", "30,5 cm"]);
}

#[test]
fn a_colourway_is_asked_for_by_one_name_and_printed_by_another() {
    let folder = folder();
    let german = said(&folder, "de", Some("River"));
    assert_all_in(&german, &["Kleiner Reiher, Fluss"], &["River"]);
    let made = folder.run(&["make", "heron.yaml", "--colourway", "River", "--language", "de"]);
    assert!(folder.path("heron-river-de.pdf").exists(), "{}", err(&made));
}

#[test]
fn check_lists_what_is_not_given_in_a_language() {
    let folder = folder();
    insta::assert_snapshot!(err(&folder.run(&["check", "heron.yaml", "--language", "de"])));
    // What is given once is in the language of the studio; other languages are not asked for.
    let plain = folder.run(&["check", "heron.yaml"]);
    assert_eq!((out(&plain).as_str(), err(&plain).as_str()), ("heron.yaml: nothing to report\n", ""));
    // Advice is no failure, and `make` says nothing of it.
    let made = folder.run(&["make", "heron.yaml", "--language", "de"]);
    assert!(!err(&made).contains("not given"), "{}", err(&made));
}

#[test]
fn a_makers_own_language_reads_the_names_of_the_one_it_stands_on() {
    let folder = folder();
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let folder = folder.with("own/language.yaml", "base: de\ntag: de-CH\nname: Schweizer Hochdeutsch\n");
    let checked = folder.run(&["check", "heron.yaml", "--language", "swiss", "--templates", "own"]);
    // The same texts are missing, of which `swiss` alone could say that they are `de`.
    assert!(!err(&checked).contains("Ink black"), "{}", err(&checked));
    assert_eq!(err(&checked).matches("not given in `swiss`").count(), 5, "{}", err(&checked));
}

#[test]
fn a_replacement_is_written_beside_names_in_several_languages() {
    let folder = folder().with("heron.yaml", &DESIGN.replace("C: ember", "C: ember, D: mist"));
    let before = folder.text("palette.yaml");
    let told = folder.run(&["match", "heron.yaml", "--bead", "ember", "--write"]);
    assert!(told.status.success(), "{}", err(&told));
    let after = folder.text("palette.yaml");
    let added: Vec<&str> = after.lines().filter(|line| !before.contains(line)).collect();
    assert_eq!(added.len(), 1, "{added:?}");
    assert!(added[0].trim().starts_with("replaced by: "), "{added:?}");
    assert!(out(&told).contains("Ember (ember, #d2452b)"), "{}", out(&told));
    // In one line, too.
    let told = folder.run(&["match", "heron.yaml", "--bead", "ink", "--write"]);
    assert!(told.status.success(), "{}", err(&told));
    assert!(folder.text("palette.yaml").contains("name: {en: Ink black, de: Tintenschwarz}"));
}

#[test]
fn count_names_things_as_the_studio_does() {
    let folder = folder();
    let english = out(&folder.run(&["count", "heron.yaml", "--pairs", "2", "--csv"]));
    assert_all_in(&english, &["Ink black", "Ember", "braided thread"], &["Tintenschwarz"]);
    let studio = folder.text("studio.yaml") + "language: de\n";
    let german =
        out(&folder.with("studio.yaml", &studio).run(&["count", "heron.yaml", "--pairs", "2", "--csv"]));
    assert_all_in(&german, &["Tintenschwarz", "Glut", "geflochtener Faden"], &["Ink black"]);
}

#[test]
fn a_text_in_another_language_remakes_nothing() {
    let catalogue = Catalogue::with_designs(2);
    catalogue.edit("palette.yaml", "name: Ember", "name: {en: Ember, de: Glut}");
    catalogue.run(&["remake", "."]).ended(0);
    catalogue.edit("palette.yaml", "de: Glut", "de: Gluten");
    assert_eq!(
        catalogue.run(&["remake", "."]).ended(0).last_line(),
        "2 booklets: 0 made, 2 current, 0 failed"
    );
    catalogue.edit("palette.yaml", "en: Ember", "en: Embers");
    assert_eq!(
        catalogue.run(&["remake", "."]).ended(0).last_line(),
        "2 booklets: 1 made, 1 current, 0 failed"
    );
}
