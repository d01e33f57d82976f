//! A display list painted as PDF: what stands in the file, and what is refused.

mod fixture;

use fringebook::paint::{Times, pdf};

#[test]
fn the_fixture_is_painted() {
    let list = fixture::everything();
    let bytes = pdf(&list, &Times::of(list.meta.date, None)).expect("paints");
    std::fs::write(concat!(env!("CARGO_TARGET_TMPDIR"), "/fixture.pdf"), &bytes).expect("written");
}
