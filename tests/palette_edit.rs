//! Setting a replacement in a palette changes that and nothing else.

use fringebook::design::palette_edit::set_replaced_by;
use fringebook::diagnostic::{Look, render};

/// The lines that differ, as `-` and `+`.
fn difference(before: &str, after: &str) -> String {
    let (a, b): (Vec<&str>, Vec<&str>) =
        (before.split_inclusive('\n').collect(), after.split_inclusive('\n').collect());
    let same = a.iter().zip(&b).take_while(|(x, y)| x == y).count();
    let tail = a[same..].iter().rev().zip(b[same..].iter().rev()).take_while(|(x, y)| x == y).count();
    let old = a[same..a.len() - tail].iter().map(|l| format!("-{l}"));
    let new = b[same..b.len() - tail].iter().map(|l| format!("+{l}"));
    old.chain(new).collect()
}

fn edited(text: &str, key: &str, by: &str) -> String {
    difference(
        text,
        &set_replaced_by(text, key, by).unwrap_or_else(|p| panic!("{}", render(&p, Look::Plain))),
    )
}

fn refused(text: &str, key: &str, by: &str) -> String {
    match set_replaced_by(text, key, by) {
        Ok(text) => panic!("edited: {text}"),
        Err(problem) => render(&problem, Look::Plain),
    }
}

const BLOCK: &str = "\
# my beads
beads:
  ink:            # the darkest
    name: Ink
    pack: {grams: 5, price: 2.60}   # since spring

  # greys
  mist:
    name: Mist
    pack:
      grams: 5
  'sea glass': {name: \"Sea glass\", colour: \"#86c0b3\"}   # frosted
  slate: {name: Slate, replaced by: mist}
  odd: {name: Odd,
        finish: none}
";

#[test]
fn a_block_gets_a_line_at_its_end() {
    assert_eq!(edited(BLOCK, "ink", "mist"), "+    replaced by: mist\n");
}

#[test]
fn a_block_that_ends_in_a_block_gets_a_line_at_its_beginning() {
    assert_eq!(edited(BLOCK, "mist", "ink"), "+    replaced by: ink\n");
}

#[test]
fn braces_get_it_before_they_close() {
    assert_eq!(
        edited(BLOCK, "sea glass", "mist"),
        "-  'sea glass': {name: \"Sea glass\", colour: \"#86c0b3\"}   # frosted\n\
         +  'sea glass': {name: \"Sea glass\", colour: \"#86c0b3\", replaced by: mist}   # frosted\n"
    );
}

#[test]
fn braces_over_several_lines_get_it_first() {
    assert_eq!(
        edited(BLOCK, "odd", "sea glass"),
        "-  odd: {name: Odd,\n+  odd: {replaced by: sea glass, name: Odd,\n"
    );
}

#[test]
fn braces_with_a_comma_at_their_end_get_it_first() {
    assert_eq!(
        edited("beads:\n  a: {name: A,}\n  b: {name: B}\n", "a", "b"),
        "-  a: {name: A,}\n+  a: {replaced by: b, name: A,}\n"
    );
}

#[test]
fn a_replacement_that_is_there_is_changed() {
    assert_eq!(
        edited(BLOCK, "slate", "ink"),
        "-  slate: {name: Slate, replaced by: mist}\n+  slate: {name: Slate, replaced by: ink}\n"
    );
}

#[test]
fn line_ends_of_another_system_and_a_missing_last_one_stay() {
    let text = "beads:\r\n  a:\r\n    name: A\r\n  b: {name: B}\r\n";
    assert_eq!(edited(text, "a", "b"), "+    replaced by: b\r\n");
    assert_eq!(
        set_replaced_by("beads:\n  b: {name: B}\n  a:\n    name: A", "a", "b").expect("edited"),
        "beads:\n  b: {name: B}\n  a:\n    name: A\n    replaced by: b"
    );
}

#[test]
fn names_that_yaml_would_misread_are_quoted() {
    let text = "beads:\n  'no: 1': {name: One}\n  a: {name: A}\n  yes: {name: Y}\n";
    assert_eq!(edited(text, "a", "no: 1"), "-  a: {name: A}\n+  a: {name: A, replaced by: \"no: 1\"}\n");
}

#[test]
fn what_cannot_be_done_is_told() {
    insta::assert_snapshot!(
        [
            refused(BLOCK, "slait", "ink"),
            refused(BLOCK, "ink", "gold"),
            refused(BLOCK, "ink", "ink"),
            refused(BLOCK, "mist", "slate"),
            refused("beads:\n  a: &x {name: A}\n  b: *x\n", "b", "a"),
            refused("beads: {a: {name: A}", "a", "a"),
        ]
        .join("\n")
    );
}

#[test]
fn a_bead_that_shares_its_text_with_another_is_left_alone() {
    let text = "beads:\n  a: &x\n    name: A\n  b: *x\n  c: {name: C}\n";
    let told = refused(text, "b", "c");
    assert!(told.contains("the bead `b` is written in a way that cannot be edited safely"), "{told}");
}

#[test]
fn the_demo_palette_stays_as_it_is_but_for_one_line() {
    let text = include_str!("../demo-designs/palette.yaml");
    assert_eq!(edited(text, "sea glass", "mist"), "+    replaced by: mist\n");
    assert_eq!(
        edited(text, "reed", "leaf"),
        "-    replaced by: sedge        # the maker stopped this colour\n+    replaced by: leaf        # the maker stopped this colour\n"
    );
}
