//! The exact text a maker reads for each wrong template.

use super::{composed, file, said, small};
use crate::maker::{DESIGN, Folder, err};
use fringebook::diagnostic::{Look, render_all};

macro_rules! told {
    ($($name:ident: $text:expr;)+) => { $(
        #[test]
        fn $name() {
            insta::with_settings!({ prepend_module_to_snapshot => false, snapshot_path => "snapshots", omit_expression => true }, {
                insta::assert_snapshot!(stringify!($name), $text);
            });
        }
    )+ };
}

fn words(text: &str) -> String {
    said(None, Some(text))
}

fn language(text: &str) -> String {
    said(Some(text), None)
}

/// The text of a booklet's weight, whose only value is `weight`.
fn weight(text: &str) -> String {
    words(&format!("cover:\n  weight_text: |-\n    {text}\n"))
}

// The file of words.
told! {
    words_of_no_group: words("charts: {title: x}\n");
    words_of_no_name: words("chart: {titel: x}\n");
    words_twice: words("chart:\n  title: x\n  title: y\n");
    words_not_in_a_group: words("cover: Cover\n");
    words_as_a_list: words("- cover\n");
    words_missing: words("chart:\n  title:\n");
    words_of_blanks: words("chart: {title: \" \"}\n");
    words_that_are_a_list: words("chart: {title: [a, b]}\n");
    words_with_a_control_character: words("chart: {title: \"a\\u0007b\"}\n");
    words_with_a_noncharacter: words("chart: {title: \"a\u{fffe}b\"}\n");
    words_not_utf8: { let bytes = b"chart: {title: Caf\xe9}\n".to_vec();
        let own = Some(fringebook::booklet::TemplateFile { name: "own/words.yaml".into(), bytes });
        render_all(&composed(&small(), "en", None, own).expect_err("it is not text"), Look::Plain) };
    words_longer_than_a_page: weight(&"long ".repeat(900));
    words_in_broken_yaml: words("chart: {title: \"x}\n");
    words_with_a_link_to_nowhere: words("chart: {intro: \"See [the rows](#row).\"}\n");
    words_wrong_a_hundred_times: words(&(0..120).map(|i| format!("x{i:03}: {{a: b}}\n")).collect::<String>()).split("\n\n").skip(99).collect::<Vec<_>>().join("\n\n");
}

// The code in a text.
told! {
    a_value_in_single_braces: weight("{weight} of beads");
    a_stranger_in_single_braces: weight("{nope} of beads");
    single_braces_where_nothing_is_filled_in: words("chart: {title: \"Chart {nope}\"}\n");
    a_brace_by_itself: weight("{ of beads");
    a_value_misspelt: weight("{{ wieght|grams }}");
    a_value_of_another_text: weight("{{ pair|num }}");
    a_filter_misspelt: weight("{{ weight|gram }}");
    a_filter_of_other_programs: weight("{{ weight|tojson }}");
    a_function: weight("{{ range(9) }}");
    a_method: weight("{{ weight.hex() }}");
    a_test: weight("{% if weight is odd %}x{% endif %}");
    a_statement_misspelt: weight("{% fi weight %}");
    a_statement_of_other_programs: weight("{% macro x() %}{% endmacro %}");
    a_statement_of_nothing: weight("{% %}");
    an_if_not_ended: weight("{% if weight %}x");
    an_end_of_nothing: weight("x{% endif %}");
    an_else_of_nothing: weight("x{% else %}y");
    an_end_of_another: words("diagram:\n  moves: \"{% for m in moves %}{{ m.what }}{% endif %}\"\n");
    code_not_closed: weight("{{ weight");
    a_comment_not_closed: weight("x {# later");
    a_quote_not_closed: weight("{{ weight|plural('one, 'many') }}");
    curly_quotes: weight("{{ weight|plural(‘one’, ‘many’) }}");
    a_strange_sign: weight("{{ weight $ 2 }}");
    a_backslash: weight("{{ 'a\\n' }}");
    a_no_break_space_in_code: weight("{{ weight\u{a0}|grams }}");
    a_link_without_words: words("chart: {intro: \"See [ ](#rows).\"}\n");
    half_a_sum: weight("{{ weight + }}");
    a_page_reckoned_with: words("page: {page_of: \"{{ page + 1 }} of {{ pages }}\"}\n");
    a_page_asked_for_elsewhere: words("page: {cover: \"{{ page }}\"}\n");
    code_of_a_thousand_words: weight(&format!("{{{{ {}1 }}}}", "not ".repeat(900)));
    code_within_code: weight(&format!("{}x{}", "{% if weight %}".repeat(11), "{% endif %}".repeat(11)));
    code_in_a_folded_line: words("rows:\n  example_one: >-\n    Row {{ number|num }} is\n    {{ strat }}\n");
    code_behind_escapes: words("cover: {weight_text: \"\\u00e4 \\\"{{ wait }}\\\" \\\n    and {{ weit }}\"}\n");
    code_in_single_quotes: words("cover: {weight_text: 'It''s {{ wait }}'}\n");
}

// What shows only when a text is filled in.
told! {
    decimals_beyond_all: weight("{{ 1.5|dec(65536) }}");
    decimals_below_none: weight("{{ weight|dec(-1) }}");
    a_number_too_large: weight("{{ (weight * 1e300)|num }}");
    a_sum_of_a_word: weight("{{ weight + 'x' }}");
    a_part_of_a_number: weight("{{ weight.kilos }}");
    a_filter_without_its_words: weight("{{ weight|plural }}");
    a_text_of_a_billion: weight("{{ 'x' * 1000000000 }}");
    a_text_of_a_hundred_thousand: weight("{{ 'x' * 100000 }}");
    loops_in_loops: weight(&{
        let each = format!("{{% for a in '{}' %}}", "x".repeat(100));
        format!("{}{}", each.repeat(4), "{% endfor %}".repeat(4))
    });
}

// What comes to nothing where something is needed.
told! {
    words_that_come_to_nothing: weight("{% if not weight %}x{% endif %}");
    words_that_come_to_blanks: weight("{{ ' ' }}");
    words_that_come_to_marks_alone: weight("_\u{ad} _{% if not weight %}x{% endif %}");
    page_numbers_that_come_to_nothing: words("page: {page_of: \"{% if false %}{{ page }}{% endif %}\"}\n");
    a_date_that_comes_to_nothing: language("date: \"{% if day > 40 %}{{ day }}{% endif %}\"\n");
    a_link_whose_words_come_to_nothing: weight("{{ weight|grams }} [{{ '' }}](#chart)");
    a_text_that_makes_another_too_long: words("diagram: {pass: \"{{ 'far up ' * 3500 }}\"}\n");
    a_line_at_the_foot_longer_than_a_foot: words(&format!("page: {{continued: {}}}\n", "on ".repeat(140)));
    a_month_of_a_hundred_letters: language(&format!("months: [a, b, {}, d, e, f, g, h, i, j, k, l]\n", "c".repeat(100)));
    a_date_longer_than_a_line: language("date: \"{{ 'reed ' * 61 }}\"\n");
    page_numbers_of_a_hundred_thousand: words("page: {page_of: \"{{ page }}{{ 'x' * 100000 }}\"}\n");
}

/// Each of them can be said; all of them together took gigabytes, and thousands of pages.
#[test]
fn texts_that_make_a_booklet_of_thousands_of_pages() {
    let of_group = |group: &str| {
        let texts = fringebook::booklet::Word::all().iter().filter_map(|word| word.name().split_once('.'));
        let texts = texts.filter(|(of, _)| *of == group);
        texts.map(|(_, key)| format!("  {key}: \"{{{{ 'reed ' * 5900 }}}}\"\n")).collect::<String>()
    };
    let groups = ["cover", "glance", "materials", "fit", "steps", "finishing", "rows", "chart"];
    let text: String = groups.iter().map(|group| format!("{group}:\n{}", of_group(group))).collect();
    let told = words(&text);
    assert_eq!(told.matches("error: ").count(), 1, "{told}");
    assert!(
        told.contains("error: these texts make the booklet more than 1,000,000 bytes longer\n"),
        "{told}"
    );
    assert!(told.starts_with("own/words.yaml:"), "{told}");
}

/// A sum of moves may be nothing: where the built-in text says nothing, the maker's own need not.
#[test]
fn what_says_nothing_in_the_built_in_text_may_say_nothing() {
    let built_in = fringebook::booklet::Wording::built_in("en").expect("built in");
    let empty = fringebook::booklet::Word::all().iter().find(|w| built_in.text(**w).is_empty());
    let (group, key) =
        empty.expect("the head of a column is empty").name().split_once('.').expect("group.key");
    assert_eq!(
        words(&format!("{group}: {{{key}: \"{{% if false %}}x{{% endif %}}\"}}\n")),
        "nothing is wrong"
    );
}

// The settings of a language.
told! {
    a_setting_misspelt: language("decimals: \",\"\n");
    a_setting_of_nothing: language("decimal:\n");
    a_mark_of_letters: language("decimal: comma\n");
    a_mark_of_a_digit: language("thousands: \"0\"\n");
    both_marks_alike: language("decimal: \",\"\n");
    a_tag_of_no_language: language("tag: English\n");
    a_base_misspelt: language("base: ne\n");
    a_base_of_another_language: language("base: de\n");
    neither_yes_nor_no: language("zero_is_singular: maybe\n");
    one_month: language("months: [January]\n");
    a_month_twice: language("months: [a, b, c, d, e, f, g, h, i, j, k, a]\n");
    months_not_a_list: language("months: January\n");
    a_date_in_single_braces: language("date: \"{day} {month}\"\n");
    a_date_of_a_stranger: language("date: \"{{ day }} {{ moon }}\"\n");
    an_order_of_nothing: language("order: []\n");
    an_order_misspelt: language("order: [cover, chrat]\n");
    an_order_twice: language("order: [cover, chart, cover]\n");
    an_order_with_a_gap: language("order: [cover, , chart]\n");
    an_order_not_a_list: language("order: cover\n");
    an_order_of_what_the_design_has_not: language("order: [colourways]\n");
    settings_as_a_text: language("just words\n");
    both_files_wrong: said(Some("order: [chrat]\n"), Some("chrat: {title: x}\n"));
}

#[test]
fn a_new_language_says_which_it_is() {
    let told = |settings: &str| {
        let problems =
            composed(&small(), "nl", file("own/language.yaml", settings), None).expect_err("incomplete");
        render_all(&problems, Look::Plain)
    };
    assert_eq!(
        told("tag: nl-NL\n"),
        "error: there are no templates for the language `nl`
  what to do: say in your language.yaml which built-in one it differs from, as in `base: en`
"
    );
    assert_eq!(
        told("base: en\n"),
        "own/language.yaml:1:7: error: `tag` is missing: `nl` would be read aloud as `en`
  1 | base: en
    |       ^^
  what to do: add the language's tag, as in `tag: nl-NL`
"
    );
}

/// What the program says of its templates and makes nothing of.
fn program_says(command: &str, name: &str, text: &str) -> String {
    let folder = Folder::new().with("small.yaml", DESIGN);
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let folder = folder.with(&format!("own/{name}"), text);
    let stopped = folder.run(&[command, "small.yaml", "--templates", "own"]);
    assert_eq!(stopped.status.code(), Some(1), "{text}");
    err(&stopped)
}

#[test]
fn a_text_that_only_the_first_earring_of_a_bench_copy_says_is_told() {
    assert_eq!(
        program_says("bench", "words.yaml", "bench: {first: \"{{ 1.5|dec(99) }}\"}\n"),
        "own/words.yaml:1:24: error: `bench.first` cannot be filled in: `dec` gives a number 0 to 6 decimals
  1 | bench: {first: \"{{ 1.5|dec(99) }}\"}
    |                        ^^^^^^^
  what to do: compare it with the same text of a built-in language

"
    );
}

#[test]
fn a_character_that_no_font_has_is_told_where_the_templates_hold_it() {
    assert_eq!(
        program_says("make", "words.yaml", "rows: {title: Row chart}\nchart: {title: The 鷺 as it hangs}\n"),
        "own/words.yaml:2:20: error: no built-in font has the character “鷺” (U+9DFA cjk unified ideograph-9dfa)
  2 | chart: {title: The 鷺 as it hangs}
    |                    ^^
  what to do: write it another way; Latin, Greek and Cyrillic letters can be printed

"
    );
    let months = "months: [a, b, c, d, e, f, g, h, i, j, k, 雪]\n";
    let december = DESIGN.replacen("edition: 1\n", "edition: 1\ndate: 2026-12-24\n", 1);
    let folder = Folder::new().with("small.yaml", &december);
    std::fs::create_dir(folder.path("own")).expect("a folder");
    let folder = folder.with("own/language.yaml", months);
    let told = err(&folder.run(&["make", "small.yaml", "--templates", "own"]));
    assert!(
        told.starts_with("own/language.yaml:1:43: error: no built-in font has the character “雪”"),
        "{told}"
    );
}
