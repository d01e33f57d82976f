//! `bench` and personal copies, as stories.

use crate::catalogue::{Catalogue, Ran};
use crate::kept_ticks::box_names;
use std::collections::BTreeSet;

fn paths(ran: &Ran) -> Vec<&str> {
    ran.out.lines().filter_map(|line| line.split_once("  ").map(|(path, _)| path)).collect()
}

fn pages(ran: &Ran) -> usize {
    let words: Vec<&str> = ran.out.split_whitespace().collect();
    let at = words.iter().position(|w| w.starts_with("page")).expect("pages are told");
    words[at - 1].parse().expect("a number")
}

#[test]
fn a_bench_copy_has_its_own_name_and_fewer_pages_than_the_booklet() {
    let catalogue = Catalogue::with_heron();
    let booklet = catalogue.run(&["make", "heron.yaml"]);
    let whole = catalogue.run(&["bench", "heron.yaml"]);
    assert_eq!(paths(whole.ended(0)), ["heron-bench.pdf"]);
    assert!(pages(&whole) < pages(booklet.ended(0)), "{whole:?} {booklet:?}");
    let part = catalogue.run(&["bench", "heron.yaml", "--rows", "2-3", "--earring", "2"]);
    assert_eq!(paths(part.ended(0)), ["heron-bench-rows-2-3-earring-2.pdf"]);
    assert!(pages(&part) < pages(&whole), "{part:?} {whole:?}");
}

#[test]
fn rows_that_are_not_there_are_refused() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["bench", "heron.yaml", "--rows", "2-9"]);
    assert_eq!(ran.ended(1).err, "error: heron: there is no row 9\n  what to do: the rows are 1 to 3\n\n");
    catalogue.run(&["bench", "heron.yaml", "--rows", "3-2"]).ended(2);
    assert_eq!(catalogue.names(), ["heron.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn a_bench_copy_is_remade_with_the_rest() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["bench", "heron.yaml", "--rows", "1-2"]).ended(0);
    catalogue.run(&["remake", "."]).ended(0);
    let before = catalogue.bytes("heron-bench-rows-1-2.pdf");
    catalogue.edit("palette.yaml", "#1b1c20", "#202228");
    let ran = catalogue.run(&["remake", "."]);
    let why = "bead ink: colour #1b1c20 → #202228".to_owned();
    assert_eq!(
        ran.ended(0).rows("made"),
        [("heron-bench-rows-1-2.pdf".to_owned(), why.clone()), ("heron.pdf".to_owned(), why)]
    );
    assert_ne!(catalogue.bytes("heron-bench-rows-1-2.pdf"), before);
}

#[test]
fn a_bench_copy_that_starts_at_the_right_is_that_of_the_second_earring() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "hang: thread guard\n", "hang: thread guard\npair: mirrored\n");
    catalogue.run(&["bench", "heron.yaml"]).ended(0);
    let right = catalogue.run(&["bench", "heron.yaml", "--start", "right"]);
    assert_eq!(paths(right.ended(0)), ["heron-right-bench.pdf"]);
    // Heron is its own mirror image: worked from the other side, each earring is as the other was. Names of boxes hold
    // the words beside them, of a row with its side.
    let boxes = |file: &str, earring: &str| -> BTreeSet<String> {
        let names = box_names(&catalogue.bytes(file));
        let of_rows = names.iter().filter_map(|name| name.strip_prefix(earring));
        of_rows.filter(|name| name.starts_with("-row-")).map(str::to_owned).collect()
    };
    let [left, second] = ["e1", "e2"].map(|earring| boxes("heron-bench.pdf", earring));
    assert!(left.len() >= 6 && left != second, "{left:?} {second:?}");
    assert_eq!([second, left], ["e1", "e2"].map(|earring| boxes("heron-right-bench.pdf", earring)));
}

#[test]
fn a_bench_copy_is_asked_for_in_the_colours_of_the_booklet() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit(
        "heron.yaml",
        "hang: thread guard\n",
        "hang: thread guard\ncolourways: {River: {C: slate}}\n",
    );
    let ran = catalogue.run(&["bench", "heron.yaml", "--each-colourway", "--rows", "1"]);
    assert_eq!(paths(ran.ended(0)), ["heron-bench-rows-1-1.pdf", "heron-river-bench-rows-1-1.pdf"]);
    let ran = catalogue.run(&["bench", "heron.yaml", "--colour", "C=slate", "--grey"]);
    assert_eq!(paths(ran.ended(0)), ["heron-c-slate-grey-bench.pdf"]);
    let personal = catalogue.run(&["bench", "heron.yaml", "--for", "Order 7"]);
    assert_eq!(paths(personal.ended(0)), ["heron-for-order-7-bench.pdf"]);
    let (name, bytes) = (b"Order 7", catalogue.bytes("heron-for-order-7-bench.pdf"));
    assert!(bytes.windows(name.len()).any(|w| w == name), "the metadata name the customer");
    // They are remade with their booklet when the colour of a bead changes; what is made for one customer is not.
    catalogue.edit("palette.yaml", "#4a5a6a", "#4b5a6a");
    let made: Vec<String> =
        catalogue.run(&["remake", "."]).ended(0).rows("made").into_iter().map(|(file, _)| file).collect();
    for copy in ["heron-river-bench-rows-1-1.pdf", "heron-c-slate-grey-bench.pdf"] {
        assert!(made.contains(&copy.to_owned()), "{made:?}");
    }
    assert!(!made.contains(&"heron-for-order-7-bench.pdf".to_owned()), "{made:?}");
}

#[test]
fn a_personal_copy_has_its_own_name_and_as_many_pages() {
    let catalogue = Catalogue::with_heron();
    let plain = catalogue.run(&["make", "heron.yaml"]);
    let personal = catalogue.run(&["make", "heron.yaml", "--for", "Order 1042 & Co"]);
    assert_eq!(paths(personal.ended(0)), ["heron-for-order-1042-co.pdf"]);
    assert_eq!(pages(&personal), pages(plain.ended(0)));
    let bytes = catalogue.bytes("heron-for-order-1042-co.pdf");
    let stamp = b"Order 1042 &amp; Co";
    assert!(bytes.windows(stamp.len()).any(|w| w == stamp), "the metadata name the customer");
}
