//! The files that a new folder starts from read without a word, whatever the title.

use fringebook::design::{Wishes, read_texts, starter, starter_palette, starter_studio};
use fringebook::diagnostic::{Look, render_all};

fn title_read_back(title: &str, palette: &str) -> String {
    let (design, studio) = (starter(title), starter_studio());
    let files = [("new.yaml", design.as_str()), ("palette.yaml", palette), ("studio.yaml", &studio)];
    let reading = read_texts(&files, &Wishes::default());
    assert_eq!(render_all(&reading.problems, Look::Plain), "");
    reading.design.expect("a design").title.to_string()
}

#[test]
fn they_read_without_a_word() {
    assert_eq!(title_read_back("Heron at Dusk", &starter_palette()), "Heron at Dusk");
}

#[test]
fn the_design_reads_against_the_demo_palette_too() {
    assert_eq!(title_read_back("Reeds", include_str!("../demo-designs/palette.yaml")), "Reeds");
}

#[test]
fn any_title_comes_back() {
    for title in [
        "Tide: the second",
        "\"Quoted\"",
        "#1",
        "- x",
        "no",
        "true",
        "12",
        "Fünf & *Sterne*",
        "it's",
        "A\u{1F41F}",
        "a\\b",
        "yes: {no}",
    ] {
        assert_eq!(title_read_back(title, &starter_palette()), title);
    }
}
