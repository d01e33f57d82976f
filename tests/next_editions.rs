//! Next editions: what `remake` offers, what it writes, and what the booklets list.

use crate::catalogue::{Catalogue, PALETTE, STUDIO, design};
use crate::support::editions::plain;
use fringebook::booklet::{Block, Edition, Wording, compose, record};
use fringebook::design::{Design, Paper, Wishes, read_texts};
use fringebook::stitch::stitch;
use fringebook::tally::tally;
use lopdf::{Document, Object};

/// The designs of a text and a palette.
fn read(text: &str, palette: &str) -> Design {
    let reading = read_texts(
        &[("heron.yaml", text), ("palette.yaml", palette), ("studio.yaml", STUDIO)],
        &Wishes::default(),
    );
    reading.design.unwrap_or_else(|| panic!("{:?}", reading.problems))
}

/// What the booklet of a later edition lists as changed since an earlier one.
fn listed(before: &Design, now: &Design) -> Vec<String> {
    let wording = Wording::built_in("en").expect("English");
    let of = |design: &Design, edition: Edition| {
        let work = stitch(design);
        let tally = tally(design, &work);
        let shown = record(design, &work, &tally, &wording, &edition);
        (compose(design, &work, &tally, &wording, &edition).expect("a booklet"), shown)
    };
    let (_, shown) = of(before, plain(Paper::A4));
    let (booklet, _) = of(now, Edition { before: Some(shown), ..plain(Paper::A4) });
    let section = booklet.sections.into_iter().find(|section| section.name == "changes");
    let mut said = Vec::new();
    for block in section.map(|section| section.blocks).unwrap_or_default() {
        match block {
            Block::Paragraph { text, .. } => said.push(text.words()),
            Block::List { items, .. } => said.extend(items.iter().map(|item| item.words())),
            other => panic!("{other:?}"),
        }
    }
    said
}

/// Whether a booklet has a bookmark to what has changed.
fn lists_changes(pdf: &[u8]) -> bool {
    let doc = Document::load_mem(pdf).expect("a PDF");
    let title = |object: &Object| lopdf::decode_text_string(object.as_dict().ok()?.get(b"Title").ok()?).ok();
    doc.objects.values().filter_map(title).any(|title| title == "Changes in this edition")
}

const OFFER: &str = "1 booklet shows a buyer something else than its edition did at first:
  `--next-edition` numbers the designs on, and lists in the booklets what has changed
";

#[test]
fn a_replaced_bead_is_offered_numbered_and_listed() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["remake", "."]);
    assert!(!ran.well().out.contains("--next-edition"), "{}", ran.out);
    assert!(!lists_changes(&catalogue.bytes("heron.pdf")));

    catalogue.edit("palette.yaml", "name: Mist", "replaced by: slate, name: Mist");
    let ran = catalogue.run(&["remake", "."]);
    assert!(ran.well().out.contains(OFFER), "{}", ran.out);
    // It stays on offer while nothing else changes.
    let ran = catalogue.run(&["remake", "."]);
    assert!(ran.well().out.contains(OFFER), "{}", ran.out);
    assert!(ran.out.ends_with("1 booklet: 0 made, 1 current, 0 failed\n"), "{}", ran.out);
    assert!(!lists_changes(&catalogue.bytes("heron.pdf")));

    let before = catalogue.text("heron.yaml");
    let dry = catalogue.run(&["remake", ".", "--next-edition", "--dry-run"]);
    assert!(dry.well().out.contains("heron.yaml would be edition 2 now\n"), "{}", dry.out);
    assert_eq!(catalogue.text("heron.yaml"), before);

    let ran = catalogue.run(&["remake", ".", "--next-edition"]);
    assert!(ran.well().out.contains("heron.yaml is edition 2 now\n"), "{}", ran.out);
    assert!(!ran.out.contains("something else"), "{}", ran.out);
    assert_eq!(catalogue.text("heron.yaml"), before.replace("edition: 1", "edition: 2"));
    assert!(lists_changes(&catalogue.bytes("heron.pdf")));

    // Made again for another reason it still says so, and nothing is on offer.
    catalogue.edit("studio.yaml", "Hollow Reed Studio\nweb", "Hollow Rush Studio\nweb");
    let ran = catalogue.run(&["remake", "."]);
    assert!(!ran.well().out.contains("--next-edition"), "{}", ran.out);
    assert!(lists_changes(&catalogue.bytes("heron.pdf")));
    // `make` knows of it as well.
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    assert!(lists_changes(&catalogue.bytes("heron.pdf")));
    // There is nothing to number on.
    let ran = catalogue.run(&["remake", ".", "--next-edition"]);
    assert!(!ran.well().out.contains("is edition"), "{}", ran.out);
}

#[test]
fn beads_rows_and_strands_are_listed() {
    let text = design("Heron", ["ink", "mist", "reed"]);
    let first = read(&text, PALETTE);
    assert_eq!(listed(&first, &first), Vec::<String>::new());

    // The foundation is row 1.
    let text = text.replace("    .A B B A\n    A B C B A", "    .A C B A\n    A A C B A");
    let text = text.replace("    - 8A 2B 1C", "    - 9A 2B 1C").replace("edition: 1", "edition: 4");
    let fourth = read(&text, PALETTE);
    let intro = "What edition 4 shows otherwise than edition 1:";
    assert_eq!(listed(&first, &fourth), [intro, "Rows 1–2 have changed.", "Strand 3 has changed."]);

    let text = text.replace("    ..A B A", "    ...A A\n    ..A B A").replace("edition: 4", "edition: 5");
    let fifth = read(&text, PALETTE);
    let intro = "What edition 5 shows otherwise than edition 4:";
    assert_eq!(listed(&fourth, &fifth), [intro, "The body has 4 rows, not 3."]);

    // Another bead, another thread, another finding, and letters that come and go.
    let palette = PALETTE
        .replace("name: Mist", "name: Fog")
        .replace("braided thread 6 lb", "waxed thread")
        .replace("name: thread guard", "name: wire guard");
    let text = text
        .replace("edition: 5", "edition: 6")
        .replace("C: reed}", "D: slate}")
        .replace('C', "D")
        .replace(" 1C", " 1D");
    let intro = "What edition 6 shows otherwise than edition 5:";
    let all = [intro, "B is now Fog, in place of Mist.", "D is new: Slate.", "C (Reed) is no longer used."];
    let said = listed(&fifth, &read(&text, &palette));
    assert_eq!(said[..4], all);
    assert!(said.contains(&"waxed thread takes the place of braided thread 6 lb.".to_owned()), "{said:?}");
    assert!(said.contains(&"wire guard takes the place of thread guard.".to_owned()), "{said:?}");
}

#[test]
fn a_design_that_cannot_be_edited_is_told_and_the_others_are_numbered_on() {
    let catalogue = Catalogue::with_designs(2);
    catalogue.edit("design-01.yaml", "edition: 1\n", "edition: &e 1\ndate: 2026-05-04\n");
    catalogue.run(&["remake", "."]).ended(0);
    catalogue.edit("palette.yaml", "name: Mist", "name: Fog");
    let text = catalogue.text("design-01.yaml");
    let ran = catalogue.run(&["remake", ".", "--next-edition"]);
    ran.ended(1);
    assert!(ran.out.contains("design-02.yaml is edition 2 now\n"), "{}", ran.out);
    assert!(
        ran.err.contains("cannot be edited safely") && ran.err.contains("write `edition: 2` by hand"),
        "{}",
        ran.err
    );
    assert_eq!(catalogue.text("design-01.yaml"), text);
    assert!(lists_changes(&catalogue.bytes("design-02.pdf")));
}
