//! The digest and the booklet agree: what changes the one changes the other.

use super::parts_of;
use crate::booklet::Wording;
use crate::booklet::{self, Booklet, Edition};
use crate::cli::settings::{PaperName, Settings};
use crate::design::{Paper, Wishes, read_texts};
use crate::{stitch, tally};

const DESIGN: &str = "\
title: Heron
summary: A small triangle.
edition: 1
date: 2026-05-04
skill: easy
colours: {A: ink, B: mist, C: old reed}
body:
  stitch: brick
  drop: 1
  picture: |
    ..A B A
    .A B B A
    A B C B A
fringe:
  strands:
    - 6A 2B 1C
    - 7A 2B 1C
    - 8A 2B 1C
    - 7A 2B 1C
    - 6A 2B 1C
pair: same
hang: thread guard
start: left
colourways:
  River: {C: slate}
";

const PALETTE: &str = "\
currency: EUR
beads:
  ink: {name: Ink, finish: matte, shine: glossy, colour: \"#1b1c20\", code: Q1, supplier: Weir, shape: cylinder, size: 11/0, pack: {grams: 5, price: 2.90}, stock: 3}
  mist: {name: Mist, colour: \"#d9dfe0\", shape: cylinder, size: 11/0, hole: 0.9 mm, pack: {grams: 4, price: 1.10}}
  old reed: {name: Old reed, colour: \"#6f7f40\", shape: cylinder, size: 11/0, replaced by: reed}
  reed: {name: Reed, colour: \"#6f7f45\", shape: cylinder, size: 11/0, pack: {grams: 4, price: 1.20}}
  slate: {name: Slate, colour: \"#4a5a6a\", shape: cylinder, size: 11/0, pack: {grams: 5, price: 3.00}}
  never: {name: Never, colour: \"#123456\", shape: cylinder, size: 11/0, pack: {grams: 7, price: 9.00}}
threads:
  body: {name: braided thread, colour: \"#ffffff\", diameter: 0.15 mm, spool: {length: 50 m, price: 9.00}, stock: 4 m}
  fringe: {name: nylon, colour: \"#ffffff\", diameter: 0.20 mm, stretch first: true, spool: {length: 20 m, price: 3.10}}
  spare: {name: spare thread, colour: \"#ff0000\", diameter: 0.20 mm}
findings:
  thread guard: {name: guard, holes: 4.0 mm apart, per earring: 1, price: 0.20, stock: 8}
  ear wire: {name: ear wire, kind: hook, per earring: 1, price: 0.50}
needle: 0.36 mm
tools: [needle, scissors]
";

const STUDIO: &str = "\
name: Willow Weir
web: willow.example
contact: hello@willow.example
copyright: © Willow Weir
accent: \"#2f5563\"
paper: a4
language: en
units: metric
large print: false
beads an hour: 120
terms: [One., Two.]
";

/// The booklet with a digest that is always the same, and the digest.
fn made(design: &str, palette: &str, studio: &str) -> (Booklet, String) {
    let files = [("heron.yaml", design), ("palette.yaml", palette), ("studio.yaml", studio)];
    let reading = read_texts(&files, &Wishes::default());
    let design = reading.design.unwrap_or_else(|| panic!("{:#?}", reading.problems));
    let settings = Settings::plain(PaperName::A4, false);
    let digest = parts_of(&design, &settings, "").digest;
    let work = stitch::stitch(&design);
    let tally = tally::tally(&design, &work);
    let wording = Wording::built_in("en").expect("English is built in");
    let edition = Edition {
        paper: Paper::A4,
        grey: false,
        large_print: design.studio.large_print,
        tablet: settings.tablet,
        stamp: None,
        digest: String::new(),
        digest_parts: Vec::new(),
        before: None,
    };
    let booklet = booklet::compose(&design, &work, &tally, &wording, &edition).expect("composed");
    (booklet, digest)
}

/// Edits of all three files: what is replaced, and by what.
const SHOWN: [(&str, &str); 45] = [
    ("title: Heron", "title: Grey Heron"),
    ("A small triangle.", "A small point."),
    ("edition: 1", "edition: 2"),
    ("2026-05-04", "2026-05-05"),
    ("skill: easy", "skill: complex"),
    ("B: mist", "B: slate"),
    ("C: old reed", "C: reed"),
    (".A B B A", ".A B C A"),
    ("8A 2B 1C", "9A 2B 1C"),
    ("pair: same", "pair: mirrored"),
    ("hang: thread guard", "hang: {loop: 8A}"),
    ("start: left", "start: right"),
    ("River: {C: slate}", "Stream: {C: slate}"),
    ("River: {C: slate}", "River: {B: slate}"),
    ("name: Ink", "name: Black"),
    ("finish: matte", "finish: glossy"),
    ("shine: glossy", "shine: lustre"),
    ("#1b1c20", "#1b1c21"),
    ("code: Q1", "code: Q2"),
    ("supplier: Weir", "supplier: Mill"),
    ("size: 11/0, pack: {grams: 5, price: 2.90}", "size: 15/0, pack: {grams: 5, price: 2.90}"),
    ("grams: 5, price: 2.90", "grams: 0.1, price: 2.90"),
    ("price: 2.90", "price: 3.90"),
    ("name: Old reed", "name: Former reed"),
    ("name: Reed", "name: Rush"),
    ("name: Slate", "name: Stone"),
    ("#4a5a6a", "#4a5a6b"),
    ("name: braided thread", "name: plaited thread"),
    ("name: nylon", "name: fine nylon"),
    ("stretch first: true", "stretch first: false"),
    ("name: guard", "name: horseshoe"),
    ("kind: hook, per earring: 1", "kind: hook, per earring: 2"),
    ("kind: hook", "kind: stud"),
    ("tools: [needle, scissors]", "tools: [needle, pliers]"),
    ("currency: EUR", "currency: GBP"),
    ("name: Willow Weir", "name: Willow Mill"),
    ("willow.example\ncontact", "weir.example\ncontact"),
    ("hello@", "ask@"),
    ("© Willow Weir", "© W. Weir"),
    ("#2f5563", "#2f5564"),
    ("units: metric", "units: imperial"),
    ("large print: false", "large print: true"),
    ("beads an hour: 120", "beads an hour: 30"),
    ("[One., Two.]", "[One., Three.]"),
    ("language: en\n", "language: de\n"),
];

/// What no booklet shows.
const HIDDEN: [(&str, &str); 8] = [
    ("stock: 3", "stock: 300"),
    ("stock: 4 m", "stock: 40 m"),
    ("stock: 8", "stock: 80"),
    ("name: Never", "name: Ever"),
    ("grams: 7, price: 9.00", "grams: 8, price: 8.00"),
    ("price: 3.00", "price: 4.00"),
    ("name: spare thread", "name: other thread"),
    ("currency: EUR", "# A note.\ncurrency: EUR"),
];

fn edited(old: &str, new: &str) -> (Booklet, String) {
    let texts = [DESIGN, PALETTE, STUDIO];
    assert_eq!(texts.iter().filter(|t| t.contains(old)).count(), 1, "{old:?} stands in one file");
    let [design, palette, studio] = texts.map(|text| text.replacen(old, new, 1));
    made(&design, &palette, &studio)
}

#[test]
fn what_a_booklet_shows_is_in_its_digest() {
    let (booklet, digest) = made(DESIGN, PALETTE, STUDIO);
    for (old, new) in SHOWN {
        let (changed, its_digest) = edited(old, new);
        // A change of language shows in the wording, which is no part of this test.
        if !old.starts_with("language") {
            assert!(booklet != changed, "{old} → {new} shows");
        }
        assert_ne!(digest, its_digest, "{old} → {new} is in the digest");
    }
}

#[test]
fn what_no_booklet_shows_is_not_in_its_digest() {
    let (booklet, digest) = made(DESIGN, PALETTE, STUDIO);
    for (old, new) in HIDDEN {
        let (same, its_digest) = edited(old, new);
        assert!(booklet == same, "{old} → {new} does not show");
        assert_eq!(digest, its_digest, "{old} → {new} is not in the digest");
    }
}

#[test]
fn where_no_cost_is_printed_prices_of_threads_are_not_in_the_digest() {
    let unpriced = PALETTE.replace("grams: 4, price: 1.10", "grams: 4");
    let (booklet, digest) = made(DESIGN, &unpriced, STUDIO);
    let cheaper = unpriced.replacen("50 m, price: 9.00", "50 m, price: 8.00", 1);
    let (same, its_digest) = made(DESIGN, &cheaper, STUDIO);
    assert!(booklet == same, "the price of a thread does not show");
    assert_eq!(digest, its_digest);
    // The currency stands over the prices that are left.
    let (other, its_digest) = made(DESIGN, &unpriced.replace("currency: EUR", "currency: GBP"), STUDIO);
    assert!(booklet != other && digest != its_digest);
    let (priced, _) = made(DESIGN, PALETTE, STUDIO);
    assert!(priced != booklet, "with every price the cost shows");
}

/// The cost is printed in spite of a letter without a price that is never used, and with it the threads'.
#[test]
fn a_letter_that_is_never_used_takes_no_price_from_the_digest() {
    let design = DESIGN.replace("C: old reed}", "C: old reed, D: bare}");
    let palette = PALETTE.replace(
        "  never:",
        "  bare: {name: Bare, colour: \"#654321\", shape: cylinder, size: 11/0}\n  never:",
    );
    let (booklet, digest) = made(&design, &palette, STUDIO);
    let cheaper = palette.replacen("50 m, price: 9.00", "50 m, price: 8.00", 1);
    let (other, its_digest) = made(&design, &cheaper, STUDIO);
    assert!(booklet != other, "the price of a thread shows in the cost");
    assert_ne!(digest, its_digest);
}

/// Threads that are alike in everything but their key share no spool.
#[test]
fn whether_both_uses_share_a_thread_is_in_the_digest() {
    let palette = PALETTE.replace(
        "  spare:",
        "  double: {name: braided thread, colour: \"#ffffff\", diameter: 0.15 mm, spool: {length: 50 m, price: 9.00}}\n  spare:",
    );
    let with = |threads: &str| DESIGN.replace("pair: same", &format!("threads: {threads}\npair: same"));
    let (one, digest) = made(&with("{body: body, fringe: body}"), &palette, STUDIO);
    let (two, its_digest) = made(&with("{body: body, fringe: double}"), &palette, STUDIO);
    assert!(one != two, "the spools show");
    assert_ne!(digest, its_digest);
}

#[test]
fn where_no_price_is_printed_the_currency_is_not_in_the_digest() {
    let (free, unpriced) = (without_prices(PALETTE), without_prices(&PALETTE.replace("EUR", "GBP")));
    let ((booklet, digest), (same, its_digest)) =
        (made(DESIGN, &free, STUDIO), made(DESIGN, &unpriced, STUDIO));
    assert!(booklet == same, "the currency does not show");
    assert_eq!(digest, its_digest);
}

/// A palette that tells no price.
fn without_prices(palette: &str) -> String {
    let mut out = String::new();
    for (i, part) in palette.split(", price: ").enumerate() {
        out.push_str(if i == 0 {
            part
        } else {
            part.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.')
        });
    }
    assert!(!out.contains("price"), "{out}");
    out
}
