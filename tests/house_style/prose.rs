//! Sections of the maker's own: what Markdown becomes, and what is told of what a booklet cannot show.

use super::{checked, said, styled};
use fringebook::design::{Prose, Span, SpanStyle, Texts, Wishes, read_from};
use proptest::prelude::*;
use std::path::Path;

use crate::maker::{DESIGN, PALETTE, STUDIO};

/// The blocks of a file as the design holds them.
fn blocks(markdown: &str) -> Vec<Prose> {
    let studio = format!("{STUDIO}order: [about.md]\n");
    let texts = [
        ("small.yaml", DESIGN),
        ("palette.yaml", PALETTE),
        ("studio.yaml", studio.as_str()),
        ("about.md", markdown),
    ];
    let reading = read_from(&Texts::new(texts), Path::new("small.yaml"), &Wishes::default());
    let design = reading.design.unwrap_or_else(|| panic!("{:?}", reading.problems));
    let order = design.studio.order.expect("an order");
    order.entries[0].own().expect("a section of one's own").blocks.clone()
}

fn plain(words: &str) -> Vec<Span> {
    vec![Span { words: words.to_owned(), style: SpanStyle::Plain }]
}

#[test]
fn paragraphs_headings_and_marks() {
    let styles = |style: SpanStyle, words: &str| Span { words: words.to_owned(), style };
    assert_eq!(
        blocks(
            "# T\n\nOne *two* **three** `four`\nfive\\\nsix &amp; <!-- not this -->\n\n## H\n\n[a](willow.example) [b](#chart) [m](mailto:a@b.example)\n"
        ),
        [
            Prose::Paragraph(vec![
                styles(SpanStyle::Plain, "One "),
                styles(SpanStyle::Emphasis, "two"),
                styles(SpanStyle::Plain, " "),
                styles(SpanStyle::Strong, "three"),
                styles(SpanStyle::Plain, " four five\nsix & "),
            ]),
            Prose::Heading { level: 2, words: plain("H") },
            Prose::Paragraph(vec![
                styles(SpanStyle::Web("https://willow.example".into()), "a"),
                styles(SpanStyle::Plain, " "),
                styles(SpanStyle::Section("chart".into()), "b"),
                styles(SpanStyle::Plain, " "),
                styles(SpanStyle::Web("mailto:a@b.example".into()), "m"),
            ]),
        ]
    );
}

#[test]
fn lists_quotes_and_tables() {
    assert_eq!(
        blocks("# T\n\n3. a\n   - b\n4. c\n\n   d\n\n> q\n\n| x | y |\n|:-:|--:|\n| 1 | 2 |\n"),
        [
            Prose::List {
                from: Some(3),
                items: vec![
                    vec![
                        Prose::Paragraph(plain("a")),
                        Prose::List { from: None, items: vec![vec![Prose::Paragraph(plain("b"))]] },
                    ],
                    vec![Prose::Paragraph(plain("c")), Prose::Paragraph(plain("d"))],
                ]
            },
            Prose::Quote(vec![Prose::Paragraph(plain("q"))]),
            Prose::Table(fringebook::design::ProseTable {
                columns: vec![fringebook::design::ColumnSide::Middle, fringebook::design::ColumnSide::Right],
                head: vec![plain("x"), plain("y")],
                rows: vec![vec![plain("1"), plain("2")]],
            }),
        ]
    );
}

#[test]
fn what_a_booklet_cannot_show_is_told_at_its_place() {
    for (name, text) in [
        ("html", "# T\n\nOne <b>two</b> three.\n\n<div>\nfour\n</div>\n"),
        ("no_title", "Words without a title.\n"),
        ("nothing", "# T\n"),
        ("second_title", "# T\n\nOne.\n\n# U\n\nTwo.\n"),
        ("level", "# T\n\nOne.\n\n### U\n\nTwo.\n"),
        (
            "links",
            "# T\n\n[one](file:///etc/passwd) [two](javascript:alert) [](https://a.example) [four](#chrat)\n",
        ),
        (
            "pictures",
            "# T\n\n![](a.png)\n\nWords and ![a picture](a.png) among them.\n\n![b](https://a.example/b.png)\n",
        ),
        ("table", "# T\n\n| x | |\n|---|---|\n| 1 | 2 |\n\n| x | y |\n|---|---|\n"),
        ("deep", "# T\n\n- a\n  - b\n    - c\n      - d\n        - e\n"),
        ("item", "# T\n\n- a\n-\n- c\n\n## \n"),
    ] {
        let folder = styled("order: [cover, about.md]\n").with("about.md", text);
        insta::assert_snapshot!(name, checked(&folder));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever stands in a file, it becomes blocks or is told at a place in it.
    #[test]
    fn any_text_is_read_or_told(parts in proptest::collection::vec(proptest::sample::select(PARTS), 0..40)) {
        let markdown = format!("# Title\n\n{}", parts.concat());
        let studio = format!("{STUDIO}order: [about.md]\n");
        let texts = [
            ("small.yaml", DESIGN),
            ("palette.yaml", PALETTE),
            ("studio.yaml", studio.as_str()),
            ("about.md", markdown.as_str()),
        ];
        let reading = read_from(&Texts::new(texts), Path::new("small.yaml"), &Wishes::default());
        for problem in &reading.problems {
            let place = problem.place.as_ref().expect("a place");
            prop_assert_eq!(place.source.name.as_str(), "about.md");
            prop_assert!(place.source.text.get(place.span.clone()).is_some(), "{:?}", place.span);
        }
        prop_assert!(reading.design.is_some() || !reading.problems.is_empty());
    }
}

/// What Markdown is made of.
const PARTS: &[&str] = &[
    "# ",
    "## ",
    "### ",
    "- ",
    "1. ",
    "> ",
    "    ",
    "  ",
    "\n",
    "\n\n",
    "**",
    "*",
    "_",
    "`",
    "```\n",
    "[",
    "](",
    ")",
    "](#chart)",
    "![",
    "](a.png)",
    "<b>",
    "<!-- ",
    " -->",
    "|",
    "|---|---|\n",
    "---\n",
    "===\n",
    "\\",
    "&amp;",
    "&#0;",
    "bead",
    "é",
    "北",
    "\t",
    "https://a.example",
    "<https://a.example>",
    "[a]: b\n",
    "[a]",
];

#[test]
fn prose_is_bounded() {
    let long = format!("# T\n\n{}\n", "word ".repeat(50_000));
    insta::assert_snapshot!("large", checked(&styled("order: [cover, about.md]\n").with("about.md", &long)));
    let long = format!("# T\n\n{}\n", "word ".repeat(3_000));
    insta::assert_snapshot!(
        "paragraph",
        checked(&styled("order: [cover, about.md]\n").with("about.md", &long))
    );
    // What is worst to take apart comes to an end too.
    for part in ["[", "*a **b ", "> ", "- ", "![", "<!-- ", "|a", "`", "1. "] {
        let text = format!("# T\n\n{}\n", part.repeat(150_000 / part.len()));
        let said =
            said(&styled("order: [cover, about.md]\n").with("about.md", &text), &["check", "small.yaml"]);
        assert!(matches!(said.0, Some(0 | 1)), "{part:?}: {}", said.2.chars().take(500).collect::<String>());
    }
}
