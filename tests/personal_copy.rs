//! A personal copy carries its line on every page, and is the booklet otherwise.

use crate::support::editions::plain;
use fringebook::booklet::Wording;
use fringebook::booklet::{self, Edition};
use fringebook::design::{Paper, Wishes, read};
use fringebook::layout::{DisplayList, Item, Paint, Standing, lay_out};
use fringebook::{stitch, tally};
use std::path::Path;

const STAMP: &str = "Order 1042";

fn laid_out(stamp: Option<&str>) -> DisplayList {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs/heron-at-dusk.yaml");
    let design = read(&demo, &Wishes::default()).design.expect("the demo design reads");
    let work = stitch::stitch(&design);
    let tally = tally::tally(&design, &work);
    let wording = Wording::built_in("en").expect("English is built in");
    let edition = Edition { stamp: stamp.map(str::to_owned), ..plain(Paper::A4) };
    let booklet = booklet::compose(&design, &work, &tally, &wording, &edition).expect("composed");
    lay_out(&booklet).expect("laid out")
}

#[test]
fn the_line_is_on_every_page_and_nothing_else_is_changed() {
    let (plain, personal) = (laid_out(None), laid_out(Some(STAMP)));
    assert_eq!(plain.pages.len(), personal.pages.len());
    let last = personal.pages.len() - 1;
    for (index, (page, stamped)) in plain.pages.iter().zip(&personal.pages).enumerate() {
        let mut rest = page.items.iter().map(|i| format!("{i:?}")).peekable();
        let added: Vec<&Item> =
            stamped.items.iter().filter(|item| rest.next_if_eq(&format!("{item:?}")).is_none()).collect();
        assert_eq!(rest.next(), None, "page {} lost something", page.label);
        let [line] = added.as_slice() else { panic!("page {}: {added:#?}", page.label) };
        // Whoever listens hears it once, at the end: on the other pages it only runs along.
        let read_out = matches!(line.standing, Standing::Content(_));
        assert_eq!(read_out, index == last, "page {}: {line:#?}", page.label);
        let Paint::Glyphs(line) = &line.paint else { panic!("page {}: {line:#?}", page.label) };
        let words: String = line.glyphs.iter().map(|g| g.text.as_str()).collect();
        assert_eq!(words, STAMP, "page {}", page.label);
    }
}

#[test]
fn nobody_gets_no_copy() {
    let folder = crate::maker::Folder::new().with("heron.yaml", crate::maker::DESIGN);
    let long = "to whom it may concern ".repeat(5);
    for (whom, why) in [
        ("", "say whom the copy is for, as in --for \"Order 1042\""),
        (" \t", "say whom the copy is for"),
        (long.as_str(), "give at most 100 characters, which fit on a line"),
        ("Order\u{1b}[2J", "a control character stands in it"),
    ] {
        let run = folder.run(&["make", "heron.yaml", "--for", whom]);
        let told = crate::maker::err(&run);
        assert_eq!(run.status.code(), Some(2), "{told}");
        assert!(told.contains(why), "{told}");
    }
    assert!(!folder.path("heron-for.pdf").exists() && !folder.path("heron.pdf").exists());
}
