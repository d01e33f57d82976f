//! A film beside the steps: what of it is told as wrong, and what stands in a booklet.

use crate::catalogue::Catalogue;
use lopdf::{Document, Object};
use std::collections::BTreeMap;

/// A catalogue whose design has this film.
fn with_film(film: &str) -> Catalogue {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "edition: 1", &format!("edition: 1\n{film}"));
    catalogue
}

/// What `check` and `make` say of the catalogue's design; nothing is written.
#[track_caller]
fn told(film: &str) -> String {
    with_film(film).refused()
}

/// How often each address of the web is linked to, of those with these words in it.
fn linked(pdf: &[u8], with: &str) -> BTreeMap<String, usize> {
    let doc = Document::load_mem(pdf).expect("a PDF");
    let uri = |object: &Object| {
        let action = object.as_dict().ok()?.get_deref(b"A", &doc).ok()?.as_dict().ok()?;
        let uri = action.get(b"URI").ok()?.as_str().ok()?;
        Some(String::from_utf8_lossy(uri).into_owned())
    };
    let mut found = BTreeMap::new();
    for uri in doc.objects.values().filter_map(uri).filter(|uri| uri.contains(with)) {
        *found.entry(uri).or_default() += 1;
    }
    found
}

#[test]
fn each_wrong_value_is_told_at_its_place() {
    let told = told(
        "film:
  address: ftp://example.org/film
  times:
    ladder: 1:4
    row 2: soon
    hanging: {en: 4:10, de: '4:61'}
    colour: red
  length: 3 min",
    );
    for wanted in [
        "heron.yaml:5:12: error: a film is reached by `https:` or `http:`, not by `ftp:`\n  5 |   address: ftp://example.org/film\n    |            ^^^^^^^^^^^^^^^^^^^^^^\n",
        "heron.yaml:7:13: error: `1:4` is not a time in a film\n  7 |     ladder: 1:4\n    |             ^^^\n  what to do: write minutes and seconds as players show them, as in `4:10`, or `1:02:30` with hours\n",
        "heron.yaml:8:12: error: `soon` is not a time in a film\n",
        "heron.yaml:9:29: error: `4:61` is not a time in a film\n",
        "heron.yaml:10:13: error: `red` is not a time in a film\n",
        "heron.yaml:11:3: error: `length` is not a key that can stand here\n",
    ] {
        assert!(told.contains(wanted), "{wanted}{told}");
    }
}

#[test]
fn an_address_without_a_page_or_with_other_places_to_fill_in_is_told() {
    for (address, message) in [
        ("mailto:hello@example.org", "a film is reached by `https:` or `http:`, not by `mailto:`"),
        ("'https://example.org/film?t={start}'", "only `{seconds}` is filled in in an address"),
        ("https://example.org/für", "an address cannot hold `ü`"),
        ("'https://'", "this is not the address of a page"),
        ("''", "`address` is empty"),
    ] {
        let told = told(&format!("film: {{address: {address}}}"));
        assert!(told.contains(&format!("heron.yaml:4:17: error: {message}\n")), "{told}");
    }
    assert!(told("film: {times: {ladder: 1:42}}").contains("`address` is missing here"));
    // A brace that is not quoted means something else between braces: the hint says what to do.
    let told = told("film: {address: https://example.org/film?t={seconds}, times: {ladder: 1:42}}");
    assert!(told.contains("heron.yaml:4:"), "{told}");
}

#[test]
fn a_name_that_is_no_step_is_told_with_all_that_are() {
    let told = told(
        "film:\n  address: example.org/film\n  times: {ladde: 1:42, row 9: 2:00, ending: 3:00, row 1: 3:10, ladder: 3:20}",
    );
    let steps = "the steps of this design are `begin`, `ladder`, `ladder adding`, `row 2`, `row 2 adding`, `row 3`, \
                 `hanging`, `anchoring`, `tail`, `fringe`, `strand 1`, `strands 2 to 5`, `ending`\n";
    for wanted in [
        "heron.yaml:6:11: error: no step is called `ladde`\n".to_owned(),
        format!("    |           ^^^^^\n  what to do: did you mean `ladder`? {steps}"),
        "heron.yaml:6:24: error: no step is called `row 9`\n".to_owned(),
        "heron.yaml:6:64: error: `ladder` is told in the same step as `row 1`\n".to_owned(),
        "what to do: keep one of the two times: the step is `ladder`\n".to_owned(),
    ] {
        assert!(told.contains(&wanted), "{wanted}{told}");
    }
}

#[test]
fn check_lists_what_the_steps_are_called_in_every_language() {
    let catalogue = Catalogue::with_heron();
    let names = |language: &str| {
        let ran = catalogue.run(&["check", "heron.yaml", "--steps", "--language", language]);
        let rows = ran.out.lines().filter(|line| line.trim_start().starts_with(|c: char| c.is_ascii_digit()));
        // Columns stand two blanks apart at least.
        let name = |line: &str| line.trim().split("  ").nth(1).expect("a name").trim().to_owned();
        rows.map(name).collect::<Vec<_>>()
    };
    let english = names("en");
    assert_eq!(english.len(), 13, "{english:?}");
    assert!(english.contains(&"row 2 adding".to_owned()), "{english:?}");
    assert_eq!(names("de"), english);
    assert_eq!(names("fr"), english);
}

#[test]
fn a_step_leads_to_its_second_and_all_of_them_to_the_beginning() {
    let catalogue = with_film(
        "film:\n  address: https://example.org/film#t={seconds}\n  times: {ladder: 1:42, Row 2: 250, strand 3: 1:02:30}",
    );
    catalogue.run(&["make", "heron.yaml"]).well();
    let at = |second: u32| (format!("https://example.org/film#t={second}"), 2);
    // Words and code are two places of one link.
    let wanted: BTreeMap<String, usize> = [0, 102, 250, 3750].map(at).into();
    assert_eq!(linked(&catalogue.bytes("heron.pdf"), "example.org/film"), wanted);
    let before = catalogue.bytes("heron.pdf");
    catalogue.run(&["bench", "heron.yaml"]).well();
    assert_eq!(linked(&catalogue.bytes("heron-bench.pdf"), "example.org/film"), BTreeMap::new());
    assert_eq!(catalogue.bytes("heron.pdf"), before);
}

#[test]
fn without_a_place_for_the_time_all_lead_to_the_beginning() {
    let catalogue = with_film("film: {address: example.org/film, times: {ladder: 1:42}}");
    catalogue.run(&["make", "heron.yaml"]).well();
    let wanted: BTreeMap<String, usize> = [("https://example.org/film".to_owned(), 4)].into();
    assert_eq!(linked(&catalogue.bytes("heron.pdf"), "example.org/film"), wanted);
}

#[test]
fn each_language_may_have_a_film_of_its_own() {
    let catalogue = with_film(
        "film:\n  address: {en: \"https://example.org/en#{seconds}\", de: \"https://example.org/de#{seconds}\"}\n  times: {ladder: {en: 1:42, de: 1:50}}",
    );
    for (language, seconds) in [("en", "102"), ("de", "110")] {
        catalogue.run(&["make", "heron.yaml", "--language", language]).well();
        let found = linked(&catalogue.bytes(&format!("heron-{language}.pdf")), "example.org");
        assert!(found.contains_key(&format!("https://example.org/{language}#{seconds}")), "{found:?}");
        assert_eq!(found.len(), 2, "{found:?}");
    }
    let checked = catalogue.run(&["check", "heron.yaml", "--language", "fr"]);
    assert_eq!(
        checked.err.matches("this text is not given in `fr`").count(),
        2 + given_once(),
        "{}",
        checked.err
    );
}

/// Texts of the small catalogue that are given once, in English.
fn given_once() -> usize {
    let checked = Catalogue::with_heron().run(&["check", "heron.yaml", "--language", "fr"]);
    checked.err.matches("this text is not given in `fr`").count()
}

#[test]
fn one_film_for_all_languages_is_not_missed_in_any() {
    let catalogue = with_film("film: {address: example.org/film, times: {ladder: 1:42}}");
    let checked = catalogue.run(&["check", "heron.yaml", "--language", "fr"]);
    assert_eq!(
        checked.err.matches("this text is not given in `fr`").count(),
        given_once(),
        "{}",
        checked.err
    );
}

#[test]
fn a_film_that_changes_remakes_the_booklet() {
    let catalogue = with_film("film: {address: example.org/film, times: {ladder: 1:42}}");
    catalogue.run(&["remake", "."]).ended(0);
    assert_eq!(catalogue.run(&["remake", "."]).rows("made"), []);
    for (from, to) in [("1:42", "1:43"), ("ladder", "hanging"), ("example.org/film", "example.org/new")] {
        catalogue.edit("heron.yaml", from, to);
        let again = catalogue.run(&["remake", "."]);
        assert_eq!(again.rows("made").len(), 1, "{from}: {}", again.out);
    }
}
