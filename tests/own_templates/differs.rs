//! A folder of templates holds only what differs; all else stays as it is built in.

use super::{composed, file, small};
use crate::maker::{DESIGN, Folder, err, out};
use fringebook::booklet::Booklet;

const MONTHS: &str = "[Ice, Thaw, Bud, Leaf, Bloom, Hay, Sun, Corn, Apple, Mist, Frost, Dark]";

/// Everything that a booklet says, as one text.
fn all_of(booklet: &Booklet) -> String {
    format!("{booklet:?}")
}

fn titles(booklet: &Booklet) -> Vec<&str> {
    booklet.sections.iter().map(|s| s.title.as_str()).collect()
}

#[test]
fn one_word_and_the_order_and_the_months_differ() {
    let small = small();
    let plain = composed(&small, "en", None, None).expect("composed");
    let settings = format!("months: {MONTHS}\norder: [chart, cover, rows]\n");
    let words = "chart: {title: The picture}\npage: {page_of: \"{{ pages }} leaves, this is {{ page }}\"}\n";
    let own = composed(&small, "en", file("l", &settings), file("w", words)).expect("composed");

    assert_eq!(titles(&plain)[3], "Colour chart");
    assert_eq!(titles(&own), ["The picture", "", "Word chart"]);
    assert_eq!(own.words.page_of.with([2, 12]), "12 leaves, this is 2");
    assert_eq!(plain.words.page_of.with([2, 12]), "Page 2 of 12");
    assert_eq!(own.words.chart_part, plain.words.chart_part);
    assert!(all_of(&plain).contains("Edition 1, 21\\u{a0}March\\u{a0}2026"));
    assert!(all_of(&own).contains("Edition 1, 21\\u{a0}Bud\\u{a0}2026"));
    // The other words of a section that both have are the same.
    assert_eq!(plain.sections[4], own.sections[2]);
}

#[test]
fn a_mark_alone_may_differ() {
    let small = small();
    let own = composed(&small, "en", file("l", "decimal: \"·\"\n"), None).expect("composed");
    let plain = composed(&small, "en", None, None).expect("composed");
    let weight = |booklet: &Booklet| {
        let text = all_of(booklet);
        let from = text.find("of beads in each earring").expect("the weight is told");
        text[..from].chars().rev().take(14).collect::<Vec<_>>().into_iter().rev().collect::<String>()
    };
    assert_eq!(weight(&own), weight(&plain).replace('.', "·"));
    assert_ne!(weight(&own), weight(&plain));
}

#[test]
fn a_date_is_written_as_the_maker_says() {
    let date = "date: \"{{ year }}-{{ month }}-{{ day }}\"\n";
    let own = composed(&small(), "de", file("l", date), None).expect("composed");
    assert!(all_of(&own).contains("2026-März-21"));
}

#[test]
fn files_in_which_nothing_differs_change_nothing() {
    let small = small();
    let plain = composed(&small, "fr", None, None).expect("composed");
    for text in ["", "\n\n", "# to do\n", "\u{feff}# later\n"] {
        assert_eq!(composed(&small, "fr", file("l", text), file("w", text)).expect("composed"), plain);
    }
}

#[test]
fn a_new_language_stands_on_a_built_in_one() {
    let settings = "base: en\ntag: nl-NL\nname: Nederlands\ndecimal: \",\"\nthousands: \".\"\n";
    let own = composed(&small(), "nl", file("l", settings), file("w", "chart: {title: Kleurenkaart}\n"));
    let own = own.expect("composed");
    assert_eq!(own.meta.language, "nl-NL");
    assert_eq!(titles(&own)[3..5], ["Kleurenkaart", "Word chart"]);
}

#[test]
fn quotes_folds_and_braces_are_printed_as_they_are_meant() {
    let words = "chart:\n  title: 'It''s {{ ''{'' }}x{{ \"}\" }} 100 %'\n  body: >-\n    one\n    line\n";
    let own = composed(&small(), "en", None, file("w", words)).expect("composed");
    assert_eq!(titles(&own)[3], "It's {x} 100 %");
}

#[test]
fn the_program_takes_such_a_folder_and_remakes_what_it_changes() {
    let folder = Folder::new().with("small.yaml", DESIGN);
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let folder = folder.with("own/words.yaml", "chart: {title: The picture}\n");
    let made = folder.run(&["make", "small.yaml", "--templates", "own"]);
    assert_eq!((made.status.code(), err(&made).as_str()), (Some(0), ""));
    assert!(out(&made).starts_with("small.pdf  "), "{}", out(&made));

    let again = folder.run(&["remake", ".", "--templates", "own"]);
    assert!(out(&again).contains("current"), "{}", out(&again));
    let folder = folder.with("own/words.yaml", "chart: {title: The drawing}\n");
    let changed = folder.run(&["remake", ".", "--templates", "own"]);
    assert_eq!(changed.status.code(), Some(0));
    assert!(out(&changed).contains("made"), "{}", out(&changed));
}

#[test]
fn the_program_says_what_is_wrong_and_makes_nothing() {
    let folder = Folder::new().with("small.yaml", DESIGN);
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let folder = folder.with("own/language.yaml", "order: [cover, chrat]\n");
    for command in [&["make", "small.yaml"][..], &["bench", "small.yaml"], &["remake", "."]] {
        let stopped = folder.run(&[command, &["--templates", "own"]].concat());
        assert_eq!(stopped.status.code(), Some(1), "{command:?}");
        assert_eq!(out(&stopped).trim(), "");
        assert_eq!(
            err(&stopped),
            "own/language.yaml:1:16: error: `chrat` is no section of a booklet
  1 | order: [cover, chrat]
    |                ^^^^^
  what to do: did you mean `chart`?

"
        );
    }
    let files = std::fs::read_dir(folder.path(".")).expect("the folder").flatten();
    assert!(!files.map(|f| f.file_name()).any(|name| name.to_string_lossy().ends_with(".pdf")));
}

#[test]
fn a_folder_that_is_none_or_holds_no_templates_is_told() {
    let folder = Folder::new().with("small.yaml", DESIGN);
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let told = |templates: &str| err(&folder.run(&["make", "small.yaml", "--templates", templates]));
    assert_eq!(
        told("mine"),
        "error: there is no folder `mine`
  what to do: --templates takes the folder that holds your words.yaml, language.yaml or style.yaml

"
    );
    assert_eq!(
        told("small.yaml"),
        "error: `small.yaml` is not a folder
  what to do: --templates takes the folder that holds your words.yaml, language.yaml or style.yaml

"
    );
    assert_eq!(
        told("own"),
        "error: `own` holds neither words.yaml nor language.yaml nor style.yaml
  what to do: copy what you want to change from the built-in ones, into files of these names

"
    );
    std::fs::write(folder.path("own/word.yaml"), "").expect("a file");
    assert_eq!(
        told("own"),
        "error: `own` holds neither words.yaml nor language.yaml nor style.yaml
  what to do: is `word.yaml` meant to be `words.yaml`?

"
    );
    std::fs::create_dir(folder.path("own/words.yaml")).expect("a folder");
    assert_eq!(
        told("own"),
        "error: `own/words.yaml` is a folder, not a template file
  what to do: give the file's name in it

"
    );
}

#[test]
fn a_language_that_there_is_not_is_told_where_the_studio_names_it() {
    let folder = Folder::new()
        .with("small.yaml", DESIGN)
        .with("studio.yaml", "name: Studio Hollow Reed\nlanguage: fre\n");
    for command in ["make", "check"] {
        let stopped = folder.run(&[command, "small.yaml"]);
        assert_eq!(stopped.status.code(), Some(1), "{command}");
        assert_eq!(
            err(&stopped),
            "studio.yaml:2:11: error: there are no templates for the language `fre`
  2 | language: fre
    |           ^^^
  what to do: did you mean `fr`?

",
            "{command}"
        );
    }
    let asked = folder.run(&["make", "small.yaml", "--language", "tlh"]);
    assert_eq!(
        err(&asked),
        "error: there are no templates for the language `tlh`
  what to do: there are `de`, `en`, `en-US`, `es` and `fr`

"
    );
}
