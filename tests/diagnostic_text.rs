//! Problems as text: the right columns are underlined whatever stands before them, and the grammar is right.

use fringebook::diagnostic::{
    Look, Place, Problem, Source, did_you_mean, either, list, nearest, number_of, render, render_all, sort,
    summary, thousands,
};
use std::sync::Arc;

fn at(name: &str, text: &str, marked: &str) -> Place {
    let source = Arc::new(Source { name: name.to_owned(), text: text.to_owned() });
    let start = text.find(marked).expect("the marked text");
    Place::new(&source, start..start + marked.len())
}

fn rendered(text: &str, marked: &str) -> String {
    render(&Problem::error("wrong").at(at("d.yaml", text, marked)).hint("right it"), Look::Plain)
}

#[test]
fn the_line_is_shown_and_the_text_underlined() {
    assert_eq!(
        rendered("a: 1\nb: two\n", "two"),
        "d.yaml:2:4: error: wrong\n  2 | b: two\n    |    ^^^\n  what to do: right it\n"
    );
}

#[test]
fn tabs_are_shown_as_a_terminal_does() {
    assert_eq!(
        rendered("ab\tcd\tX", "X"),
        "d.yaml:1:7: error: wrong\n  1 | ab      cd      X\n    |                 ^\n  what to do: right it\n"
    );
}

#[test]
fn wide_and_joined_characters_keep_the_carets_in_place() {
    // Two ideographs are four columns wide; a combining accent has no width.
    assert_eq!(
        rendered("鷺鷺 e\u{301} X", "X"),
        "d.yaml:1:7: error: wrong\n  1 | 鷺鷺 e\u{301} X\n    |        ^\n  what to do: right it\n"
    );
    assert_eq!(
        rendered("a 鷺鷺 b", "鷺鷺"),
        "d.yaml:1:3: error: wrong\n  1 | a 鷺鷺 b\n    |   ^^^^\n  what to do: right it\n"
    );
}

#[test]
fn a_long_line_is_cut_round_the_place() {
    let text = format!("{}X{}", "a".repeat(500), "b".repeat(500));
    let shown = rendered(&text, "X");
    let lines: Vec<&str> = shown.lines().collect();
    assert_eq!(lines[0], "d.yaml:1:501: error: wrong");
    assert!(lines[1].chars().count() < 120, "{shown}");
    let caret = lines[2].find('^').expect("a caret");
    assert_eq!(lines[1].chars().nth(caret), Some('X'), "{shown}");
}

#[test]
fn what_runs_over_several_lines_is_underlined_on_its_first() {
    assert_eq!(
        rendered("a: [1,\n  2]\n", "[1,\n  2]"),
        "d.yaml:1:4: error: wrong\n  1 | a: [1,\n    |    ^^^\n  what to do: right it\n"
    );
}

#[test]
fn colours_are_the_callers_choice_and_change_nothing_else() {
    let problem = Problem::warning("look").at(at("d.yaml", "a: 1", "1")).hint("again");
    let coloured = render(&problem, Look::Coloured);
    let mut plain = String::new();
    let mut rest = coloured.as_str();
    while let Some(start) = rest.find('\x1b') {
        plain.push_str(&rest[..start]);
        rest = &rest[start + rest[start..].find('m').expect("the end of a sequence") + 1..];
    }
    plain.push_str(rest);
    assert!(coloured.contains("\x1b[1;33mwarning\x1b[0m"), "{coloured:?}");
    assert_eq!(plain, render(&problem, Look::Plain));
}

#[test]
fn problems_are_told_in_reading_order_and_once() {
    let text = "a: 1\nb: 2\n";
    let source = Arc::new(Source { name: "d.yaml".to_owned(), text: text.to_owned() });
    let other = Arc::new(Source { name: "a.yaml".to_owned(), text: text.to_owned() });
    let problem =
        |s: &Arc<Source>, at: usize| Problem::error(format!("at {at}")).at(Place::new(s, at..at + 1));
    let mut problems = vec![
        problem(&source, 5),
        problem(&source, 0),
        problem(&other, 0),
        Problem::error("first"),
        problem(&source, 5),
    ];
    sort(&mut problems);
    let told: Vec<String> = problems
        .iter()
        .map(|p| format!("{} {}", p.place.as_ref().map_or("", |p| &p.source.name), p.message))
        .collect();
    assert_eq!(told, [" first", "d.yaml at 0", "d.yaml at 5", "a.yaml at 0"]);
    assert_eq!(render_all(&problems[..1], Look::Plain), "error: first\n");
}

#[test]
fn counts_and_lists_read_as_sentences() {
    assert_eq!(
        [number_of(1, "stack"), number_of(3, "stack"), number_of(0, "bead")],
        ["1 stack", "3 stacks", "0 beads"]
    );
    assert_eq!([number_of(2, "story"), number_of(2, "tray")], ["2 stories", "2 trays"]);
    assert_eq!([list(&["a"]), list(&["a", "b"]), list(&["a", "b", "c"])], ["a", "a and b", "a, b and c"]);
    assert_eq!([either::<&str>(&[]), either(&["a", "b", "c"])], ["", "a, b or c"]);
    assert_eq!([thousands(7), thousands(2000), thousands(1_234_567)], ["7", "2,000", "1,234,567"]);
    let problems = [
        Problem::error("a"),
        Problem::error("b"),
        Problem::warning("c"),
        Problem::advice("d"),
        Problem::advice("e"),
    ];
    assert_eq!(summary(&problems), "2 errors, 1 warning and 2 pieces of advice");
    assert_eq!(summary(&[]), "");
}

#[test]
fn the_nearest_known_word_is_suggested_if_any_is_near() {
    assert_eq!(nearest("colurs", ["title", "colours", "colourways"]), Some("colours"));
    assert_eq!(nearest("Mist", ["mist", "moss"]), Some("mist"));
    assert_eq!(nearest("zzz", ["title", "colours"]), None);
    assert_eq!(did_you_mean("zzz", &["a", "b"], "the keys are"), "the keys are `a` and `b`");
    assert_eq!(did_you_mean("zzz", &[], "the keys are"), "");
}
