//! A personal copy carries its line on every page, and is the booklet otherwise.

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
    let edition = Edition {
        paper: Paper::A4,
        grey: false,
        large_print: false,
        stamp: stamp.map(str::to_owned),
        digest: String::new(),
        digest_parts: Vec::new(),
    };
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
