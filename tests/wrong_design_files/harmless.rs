//! Oddities that do no harm work, and give the same design.

use super::good::DESIGN;
use super::spoiled::{Spoiled, good};
use fringebook::design::{Design, Side, Wishes};
use fringebook::diagnostic::{Look, render_all};

fn design(files: &Spoiled) -> Design {
    let reading = files.read();
    let told = render_all(&reading.problems, Look::Plain);
    assert_eq!(told, "");
    reading.design.expect("a design without problems")
}

/// Everything but places and the text they stand in.
fn content(design: &Design) -> String {
    let rows: Vec<String> = design
        .body
        .rows
        .iter()
        .map(|r| {
            let stacks: Vec<String> = r.stacks.iter().map(|s| design.symbols(&s.0)).collect();
            format!("{} {}", r.lead, stacks.join(" "))
        })
        .collect();
    let strands: Vec<String> =
        design.fringe.strands.iter().map(|s| format!("{} {}", design.symbols(&s.beads), s.turn)).collect();
    let beads: Vec<&str> = design
        .letters
        .iter()
        .map(|l| design.bead(design.letter(l.symbol).expect("it")).key.as_str())
        .collect();
    format!("{} {:?} {rows:#?} {strands:#?} {beads:?}", design.title, design.hangings)
}

fn same_as_the_good_one(files: &Spoiled) {
    assert_eq!(content(&design(files)), content(&design(&good())));
}

#[test]
fn the_good_files_are_good() {
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("the_good_design", content(&design(&good())));
    });
}

#[test]
fn line_ends_of_another_system() {
    same_as_the_good_one(&good().file("little.yaml", DESIGN.replace('\n', "\r\n")));
}

#[test]
fn a_byte_order_mark() {
    same_as_the_good_one(&good().file("little.yaml", format!("\u{feff}{DESIGN}")));
}

#[test]
fn blanks_at_line_ends() {
    same_as_the_good_one(&good().file("little.yaml", DESIGN.replace('\n', "  \n")));
}

#[test]
fn no_line_break_at_the_end() {
    same_as_the_good_one(&good().file("little.yaml", DESIGN.trim_end()));
}

#[test]
fn comments_and_a_document_start() {
    same_as_the_good_one(&good().file("little.yaml", format!("# mine\n---\n{DESIGN}# end\n")));
}

#[test]
fn a_picture_without_dots_is_centred() {
    same_as_the_good_one(
        &good().file("little.yaml", DESIGN.replace("    ..", "    ").replace("    .", "    ")),
    );
}

#[test]
fn dots_after_the_last_letter() {
    same_as_the_good_one(&good().design("    ..A A\n", "    ..A A..\n"));
}

#[test]
fn an_empty_line_between_rows() {
    same_as_the_good_one(&good().design("    ..B B\n", "    ..B B\n\n"));
}

#[test]
fn a_fringe_drawn_as_a_picture() {
    let drawn = "  picture: |\n    A A\n    A A\n    A A\n    A A\n    A A\n    A A\n    A A\n    A A\n    B A\n    B B\n    C C\n    . B\n    . C\n";
    same_as_the_good_one(&good().design("  strands:\n    - 8A 2B 1C\n    - 9A 2(1B 1C)\n", drawn));
}

#[test]
fn strands_all_written() {
    same_as_the_good_one(
        &good()
            .design("  mirror: true\n", "")
            .design("    - 9A 2(1B 1C)\n", "    - 9A 2(1B 1C)\n    - 9A 2(BC)\n    - 4A 4A BBC\n"),
    );
}

#[test]
fn named_values() {
    same_as_the_good_one(&good().design("- 8A 2B 1C", "- &first 8A 2B 1C"));
    same_as_the_good_one(&good().design("mirror: true", "mirror: yes"));
}

#[test]
fn texts_stay_as_they_are_written() {
    for written in ["1.10", "0x1F", "1e3", "yes", "007", "null and void", "99999999999999999999"] {
        let design = design(&good().design("title: Little Triangle", &format!("title: {written}")));
        assert_eq!(design.title.as_str(), written);
    }
}

#[test]
fn a_long_chain_of_replacements() {
    let beads: String = (0..3000)
        .map(|n| {
            let by = if n == 2999 { "mist".to_owned() } else { format!("b{}", n + 1) };
            format!(
                "  b{n}: {{name: B, colour: \"#ffffff\", shape: cylinder, size: 11/0, replaced by: {by}}}\n"
            )
        })
        .collect();
    let files = good().design("A: ink", "A: b0").palette("threads:\n", &format!("{beads}threads:\n"));
    let design = files.read().design.expect("a design");
    let letter = &design.letters[0];
    let key = |id: fringebook::design::BeadId| design.palette.beads[id.0].key.as_str();
    assert_eq!((key(letter.bead), letter.replaces.map(key)), ("mist", Some("b0")));
}

#[test]
fn pages_and_addresses_of_mail_are_linked() {
    for web in [
        "willow.example/shop",
        "https://willow.example",
        "http://willow.example:80",
        "mailto:a@willow.example",
    ] {
        assert_eq!(design(&good().studio("paper: both", &format!("web: {web}"))).studio.web, web);
    }
}

#[test]
fn a_palette_in_the_folder_above() {
    use fringebook::design::{Texts, read_from};
    let files = [("shop/new/d.yaml", DESIGN), ("shop/palette.yaml", super::good::PALETTE)];
    let reading = read_from(&Texts::new(files), std::path::Path::new("shop/new/d.yaml"), &Wishes::default());
    assert_eq!(reading.design.expect("a design").slug, "d");
}

#[test]
fn wishes_are_met() {
    let wishes = Wishes {
        colourway: Some("River".into()),
        colours: vec!["C=mist".into()],
        start: Some(Side::Right),
        large_print: true,
        language: Some("de".into()),
    };
    let design = design(&good().wishing(wishes));
    let beads: Vec<&str> =
        design.letters.iter().map(|l| design.palette.beads[l.bead.0].key.as_str()).collect();
    assert_eq!(beads, ["slate", "mist", "mist"]);
    assert_eq!((design.start, design.studio.large_print), (Side::Right, true));
    assert_eq!((design.studio.language.as_str(), design.colourway.as_deref()), ("de", Some("River")));
}

#[test]
fn lengths_of_a_design_override_those_of_the_studio() {
    let studio = "paper: both\nthread: {arm span: 5.5 ft, tail: 4 in, allowance: 12 %}";
    let design = design(
        &good()
            .studio("paper: both", studio)
            .design("pair: same", "thread: {tail: 90 mm, spare beads: 15 %}"),
    );
    let a = design.allowances;
    assert!((a.arm_span.0 - 5.5 * 304.8).abs() < 1e-9 && (a.tail.0 - 90.0).abs() < 1e-9);
    assert!((a.handling - 0.12).abs() < 1e-9 && (a.spare - 0.15).abs() < 1e-9);
}
