//! What a terminal or a spreadsheet would obey never reaches it, wherever it comes from.

use crate::maker::{DESIGN, Folder, PALETTE, err, out};

/// A file name that would clear the screen, colour what follows, and turn the direction of writing.
const NAME: &str = "he\u{1b}[2J\u{1b}[31mron\u{9b}1m\u{202e}.yaml";

fn is_harmless(text: &str) -> bool {
    !text.chars().any(|c| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c))
}

#[test]
fn escapes_in_names_of_files_stay_where_they_are() {
    let wrong = DESIGN.replace("edition: 1", "edition: one");
    for (design, words) in [
        (DESIGN, vec!["make", NAME]),
        (DESIGN, vec!["check", NAME]),
        (DESIGN, vec!["bench", NAME]),
        (&wrong, vec!["make", NAME]),
        (&wrong, vec!["count", NAME]),
        (&wrong, vec!["remake", "."]),
        (DESIGN, vec!["remake", "."]),
        (DESIGN, vec!["match", NAME, "--bead", NAME]),
        (DESIGN, vec!["make", "no\u{1b}[2Jsuch.yaml"]),
        (DESIGN, vec!["make", NAME, "--colourway", "\u{1b}[31m"]),
        (DESIGN, vec!["make", NAME, "--paper", "\u{9b}31m"]),
        (DESIGN, vec!["\u{9b}31m"]),
    ] {
        let folder = Folder::new().with(NAME, design);
        let run = folder.run(&words);
        let told = out(&run) + &err(&run);
        assert!(is_harmless(&told), "{words:?}: {told:?}");
        assert!(told.contains('·'), "{words:?} says nothing of the name: {told}");
    }
}

#[test]
fn cells_that_a_spreadsheet_would_take_for_formulas_are_texts() {
    let palette = PALETTE
        .replace("name: Ink black", "name: '=HYPERLINK(\"http://x\")'")
        .replace("QF-010", "\"+1-2\"")
        .replace("name: Mist", "name: ' @SUM(A1)'")
        .replace("QF-022", "\"-22\"");
    let folder = Folder::new().with("palette.yaml", &palette).with("heron.yaml", DESIGN);
    let run = folder.run(&["count", "heron.yaml", "--csv"]);
    let text = out(&run);
    let lines: Vec<&str> = text.lines().skip(1).take(2).collect();
    assert!(lines[0].starts_with("bead,ink,\"'=HYPERLINK(\"\"http://x\"\")\",'+1-2,46,"), "{}", lines[0]);
    // A number is a number, whatever its sign.
    assert!(lines[1].starts_with("bead,mist,'@SUM(A1),-22,12,"), "{}", lines[1]);
}
