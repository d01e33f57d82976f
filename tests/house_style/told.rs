//! What is told of a house style that cannot be: at its place, and what to do.

use super::{checked, styled};
use std::fs;

fn told(more: &str) -> String {
    checked(&styled(more))
}

#[test]
fn colours_in_which_words_cannot_be_read() {
    insta::assert_snapshot!("tint", told("tint: \"#8899aa\"\n"));
    insta::assert_snapshot!("accent", told("accent: \"#f3d24a\"\n"));
    assert_eq!(told("accent: \"#7a2e4a\"\ntint: \"#f6eee4\"\n"), "");
}

#[test]
fn covers_heads_and_feet() {
    insta::assert_snapshot!("cover", told("cover: baner\n"));
    insta::assert_snapshot!("value", told("head: {left: \"{{ titel }}\"}\n"));
    insta::assert_snapshot!("brace", told("foot: {right: \"{page}\"}\n"));
    insta::assert_snapshot!("part", told("foot: {centre: \"{{ page }}\"}\n"));
}

#[test]
fn fonts_that_cannot_be_used() {
    insta::assert_snapshot!("no_font", told("fonts: {text: plain.ttf}\n"));
    insta::assert_snapshot!("unknown_use", told("fonts: {body: marsh-plain.ttf}\n"));
    insta::assert_snapshot!("not_a_font", told("fonts: {text: palette.yaml}\n"));
    let folder = styled("fonts: {text: locked.ttf}\n");
    let mut locked = fs::read(folder.path("marsh-plain.ttf")).expect("a test font");
    let table = (0..).map(|i| 12 + 16 * i).find(|&at| &locked[at..at + 4] == b"OS/2").expect("its table");
    let start = u32::from_be_bytes(locked[table + 8..table + 12].try_into().expect("four bytes")) as usize;
    locked[start + 9] = 0x02;
    fs::write(folder.path("locked.ttf"), locked).expect("a font");
    insta::assert_snapshot!("restricted_font", checked(&folder));
}

#[test]
fn orders_of_sections() {
    insta::assert_snapshot!("unknown_section", told("order: [cover, chrat]\n"));
    insta::assert_snapshot!("no_file", told("order: [cover, welcome.md]\n"));
    insta::assert_snapshot!("twice", told("order: [cover, materials, cover]\n"));
    insta::assert_snapshot!("no_section", told("order: []\n"));
    insta::assert_snapshot!(
        "name_of_a_built_in_section",
        checked(&styled("order: [cover, chart.md]\n").with("chart.md", "# Chart\n\nMine.\n"))
    );
    let lost = "# About\n\nSee [the pictures](#chrat), and [what it takes](#materials).\n";
    insta::assert_snapshot!(
        "lost_link",
        checked(&styled("order: [cover, about.md]\n").with("about.md", lost))
    );
    let each = "order: [cover, {en: a.md, de: b.md}]\n";
    let folder = styled(each).with("a.md", "# A\n\nEnglish.\n").with("b.md", "# B\n\n<b>Deutsch</b>\n");
    insta::assert_snapshot!("a_file_of_another_language", checked(&folder));
}

#[test]
fn a_character_that_no_font_has_is_told_in_its_file() {
    let folder = styled("order: [cover, about.md]\n").with("about.md", "# About\n\nWe bead in 北京 too.\n");
    insta::assert_snapshot!("character", checked(&folder));
}
