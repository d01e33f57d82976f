//! No template, however it is mangled, makes the program panic, hang, or grow beyond its bounds.

use super::{composed, file, small};
use crate::maker::Counted;
use fringebook::booklet::{Booklet, Templates, Word, Wording};
use fringebook::diagnostic::Problem;
use fringebook::layout::lay_out;
use proptest::prelude::*;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

static SMALL: LazyLock<Counted> = LazyLock::new(small);

/// Pieces that mean something in a template, and what has broken one.
const PIECES: [&str; 44] = [
    "{{",
    "}}",
    "{%",
    "%}",
    "{#",
    "#}",
    "{{-",
    "-%}",
    " ",
    "\n",
    "'",
    "\"",
    "{",
    "}",
    "weight",
    "nope",
    "a",
    "|num",
    "|dec(2)",
    "|dec(99999)",
    "|plural('a', 'b')",
    "(",
    ")",
    "[",
    "]",
    ".",
    ",",
    "~",
    "**",
    "*",
    "-",
    "not ",
    "1e308",
    "99999999999",
    "'x' * 9999",
    "if weight",
    "elif 1",
    "else",
    "endif",
    "for a in 'abcdefgh'",
    "endfor",
    "in",
    "[a](#chart)",
    "é\u{301}",
];

fn told_with_places(problems: &[Problem]) {
    assert!(!problems.is_empty());
    for problem in problems {
        assert!(!problem.message.is_empty());
        if let Some(place) = &problem.place {
            assert!(place.source.text.get(place.span.clone()).is_some(), "{problem:?}");
        }
    }
}

/// What comes of a text for the weight on the cover, in time and within bounds.
fn try_text(text: &str) -> Result<Booklet, Vec<Problem>> {
    // Written as JSON, which is YAML, so that every character arrives.
    let words = format!("cover: {{weight_text: {}}}\n", serde_json::Value::from(text));
    let begun = Instant::now();
    let result = composed(&SMALL, "en", None, file("own/words.yaml", &words));
    assert!(begun.elapsed() < Duration::from_secs(20), "{text:?}");
    match &result {
        Ok(booklet) => {
            let longest = format!("{:?}", booklet.sections[0]).len();
            assert!(longest < 400_000, "{longest} bytes from {text:?}");
        }
        Err(problems) => {
            told_with_places(problems);
            assert!(problems.iter().all(|p| p.place.is_some()), "{problems:?}");
        }
    }
    result
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn a_text_of_any_pieces_is_filled_in_or_told(pieces in prop::collection::vec(prop::sample::select(&PIECES[..]), 0..40)) {
        let _ = try_text(&pieces.concat());
    }

    #[test]
    fn code_of_any_pieces_is_filled_in_or_told(pieces in prop::collection::vec(prop::sample::select(&PIECES[14..]), 0..12)) {
        let _ = try_text(&format!("{{{{ {} }}}}", pieces.concat()));
    }

    #[test]
    fn a_built_in_text_with_a_piece_put_in_or_taken_out_is_filled_in_or_told(
        language in prop::sample::select(Wording::languages()),
        word in prop::sample::select(Word::all()),
        at in any::<prop::sample::Index>(),
        piece in prop::sample::select(&PIECES[..]),
        out in 0..4usize,
    ) {
        let wording = Wording::built_in(language).expect("built in");
        let mut text: Vec<char> = wording.text(word).chars().collect();
        let at = at.index(text.len() + 1);
        let end = (at + out).min(text.len());
        text.splice(at..end, piece.chars());
        let text: String = text.into_iter().collect();
        let (section, key) = word.name().split_once('.').expect("section.key");
        let words = format!("{section}: {{{key}: {}}}\n", serde_json::Value::from(text));
        if let Err(problems) = composed(&SMALL, language, None, file("own/words.yaml", &words)) {
            told_with_places(&problems);
        }
    }

    #[test]
    fn files_of_any_characters_are_read_or_told(settings in ".{0,200}", words in ".{0,200}") {
        if let Err(problems) = Templates::read(file("l", &settings), file("w", &words)) {
            told_with_places(&problems);
        }
    }

    #[test]
    fn settings_with_lines_taken_from_any_place_are_read_or_told(
        lines in prop::collection::vec(prop::sample::select(&SETTINGS[..]), 0..8),
        language in prop::sample::select(Wording::languages()),
    ) {
        let settings = lines.concat();
        match composed(&SMALL, language, file("l", &settings), None) {
            Ok(booklet) => assert!(!booklet.sections.is_empty(), "{settings}"),
            Err(problems) => told_with_places(&problems),
        }
    }
}

const SETTINGS: [&str; 16] = [
    "decimal: \",\"\n",
    "decimal: .\n",
    "thousands: \" \"\n",
    "thousands: \"\"\n",
    "before_percent: \" \"\n",
    "zero_is_singular: yes\n",
    "base: en\n",
    "tag: de-DE\n",
    "months: [a, b, c, d, e, f, g, h, i, j, k, l]\n",
    "months: [a]\n",
    "order: []\n",
    "order: [colourways]\n",
    "order: [safety, cover]\n",
    "order:\n  - chart\n",
    "date: \"{{ day }}{{ day * 3 }}\"\n",
    "date: \"{{ 'x' * 5000 }}\"\n",
];

/// What fell in the first version: each of these ended it with a panic, a full stack, all memory, or never.
#[test]
fn what_felled_the_first_version_is_told() {
    let deep = "not ".repeat(100_000);
    for text in [
        "{{ 1.5|dec(65536) }}".to_owned(),
        format!("{{{{ {deep}1 }}}}"),
        "{% for a in range(100000) %}{% for b in range(100000) %}{% endfor %}{% endfor %}".to_owned(),
        "{{ range(100000)|batch(1000000000)|list }}".to_owned(),
    ] {
        try_text(&text).expect_err("it is told");
    }
}

/// An entry of the contents that no page holds is set on several; the fuzzer found it.
#[test]
fn a_title_longer_than_a_page_is_set_in_the_contents() {
    let words = "strands: {title: \"{{ 'reed ' * 2000 }}\"}\n";
    let booklet = composed(&SMALL, "en", None, file("own/words.yaml", words)).expect("it is taken");
    let list = lay_out(&booklet).expect("it is laid out");
    assert!(list.pages.len() > 5);
}

/// As deep and as long as texts may be, on a thread with the smallest stack that the program runs on.
#[test]
fn the_deepest_text_that_is_taken_fits_a_small_stack() {
    let deepest = format!(
        "{}{{{{ {}{}weight{} }}}}{}",
        "{% if weight %}".repeat(9),
        "not ".repeat(30),
        "(".repeat(30),
        ")".repeat(30),
        "{% endif %}".repeat(9)
    );
    let run = move || try_text(&deepest).is_ok();
    let thread = std::thread::Builder::new().stack_size(2 << 20).spawn(run).expect("a thread");
    assert!(thread.join().expect("no panic"));
}
