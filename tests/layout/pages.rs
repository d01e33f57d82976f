//! Pages: sizes, margins, nothing over anything else, heads and feet.

use super::probe::{area, content_runs, every_setting, pages, text_area, words};
use crate::support::booklets::{PROSE, booklet, figure, full, heading, para, section, setting, step};
use fringebook::booklet::{Block, Setting, Text};
use fringebook::design::Paper;
use fringebook::layout::{Artifact, DisplayList, Item, Layer, Paint, Role, Standing, paper_size};

/// White that home printers need at every edge.
const EDGE: f64 = 12.7;
/// Height at the foot that some of them leave unprinted.
const FOOT: f64 = 17.0;

#[test]
fn papers_have_their_published_sizes() {
    // ISO 216: A4 is 210 × 297 mm.
    let a4 = paper_size(Paper::A4);
    assert_eq!((a4.width.0, a4.height.0), (210.0, 297.0));
    // ANSI/ASME Y14.1: Letter is 8.5 × 11 in; 1 in = 25.4 mm exactly (1959 yard and pound agreement).
    let letter = paper_size(Paper::Letter);
    assert!((letter.width.0 - 215.9).abs() < 1e-9 && (letter.height.0 - 279.4).abs() < 1e-9);
    for (name, booklet) in every_setting() {
        let size = paper_size(booklet.setting.paper);
        assert!(pages(&booklet).pages.iter().all(|p| p.size == size), "{name}");
    }
}

#[test]
fn nothing_leaves_the_margins() {
    for (name, booklet) in every_setting() {
        for (number, page) in pages(&booklet).pages.iter().enumerate() {
            for item in &page.items {
                let a = area(item);
                let inside = a.left >= EDGE
                    && a.top >= EDGE
                    && a.right <= page.size.width.0 - EDGE
                    && a.bottom <= page.size.height.0 - FOOT;
                assert!(inside, "{name}, page {}: {a:?} {item:?}", number + 1);
            }
        }
    }
}

#[test]
fn no_text_stands_on_other_text() {
    for (name, booklet) in every_setting() {
        for (number, page) in pages(&booklet).pages.iter().enumerate() {
            // Anchor marks stand between letters on purpose.
            let runs: Vec<_> = page
                .items
                .iter()
                .filter(|i| i.layer != Some(Layer::Marks))
                .filter_map(|i| if let Paint::Glyphs(g) = &i.paint { Some((i.layer, g)) } else { None })
                .filter(|(_, g)| !words(g).trim().is_empty())
                .collect();
            for (i, (layer, one)) in runs.iter().enumerate() {
                for (other_layer, other) in &runs[i + 1..] {
                    // Letters of one row come as runs that reach over each other's gaps.
                    if *layer == Some(Layer::Letters) && *other_layer == Some(Layer::Letters) {
                        continue;
                    }
                    let (a, b) = (text_area(one), text_area(other));
                    assert!(
                        !a.meets(&b),
                        "{name}, page {}: “{}” {a:?} and “{}” {b:?}",
                        number + 1,
                        words(one),
                        words(other)
                    );
                }
            }
        }
    }
}

#[test]
fn the_cover_has_its_own_label_and_the_others_their_number() {
    let list = pages(&full(setting(Paper::A4)));
    assert_eq!(list.pages[0].label, "Cover");
    for (i, page) in list.pages.iter().enumerate().skip(1) {
        assert_eq!(page.label, (i + 1).to_string());
    }
}

#[test]
fn large_print_runs_sections_on_and_enlarges_drawings() {
    let sections = |prose: Vec<Block>| {
        let shown = vec![step(1, vec![figure(40.0, 24.0)])];
        vec![section("one", "One", prose), section("two", "Two", shown)]
    };
    let usual = pages(&booklet(setting(Paper::A4), sections((0..6).map(|_| para(PROSE)).collect())));
    assert_eq!(usual.pages.len(), 2);
    let large = Setting { large_print: true, ..setting(Paper::A4) };
    let large = pages(&booklet(large, sections(vec![para("Short.")])));
    assert_eq!(large.pages.len(), 1);
    let number = |list: &DisplayList| {
        let drawn = list.pages.iter().flat_map(content_runs).find(|(item, g)| match item.standing {
            Standing::Content(node) => {
                words(g) == "3" && matches!(list.nodes[node.0].role, Role::Figure { .. })
            }
            Standing::Artifact(_) => false,
        });
        drawn.map(|(_, g)| g.size.0).expect("the drawing's number")
    };
    assert!((number(&usual) - 7.0).abs() < 0.01);
    assert!(number(&large) >= 16.0, "{}", number(&large));
}

/// As in a book: the first page is a right one.
#[test]
fn sections_and_page_numbers_stand_at_the_outer_edge() {
    let list = pages(&full(setting(Paper::A4)));
    let count = list.pages.len();
    let middle = paper_size(Paper::A4).width / 2.0;
    for (i, page) in list.pages.iter().enumerate().skip(1) {
        let at = |text: &str| {
            let of = |item: &Item| match &item.paint {
                Paint::Glyphs(g)
                    if item.standing == Standing::Artifact(Artifact::Running) && words(g) == text =>
                {
                    Some(g.at.x)
                }
                _ => None,
            };
            page.items.iter().find_map(of).expect("in head or foot")
        };
        let is_left = i % 2 == 1;
        assert_eq!(at(&format!("Page {} of {count}", i + 1)) < middle, is_left, "page {}", i + 1);
        assert_eq!(at(&page.section) < middle, is_left, "page {}", i + 1);
        assert_eq!(at("Reed Bed") < middle, !is_left, "page {}", i + 1);
    }
}

#[test]
fn every_page_but_the_cover_has_head_and_foot() {
    let list = pages(&full(setting(Paper::A4)));
    let count = list.pages.len();
    for (i, page) in list.pages.iter().enumerate() {
        let running: Vec<String> = page
            .items
            .iter()
            .filter(|item| item.standing == Standing::Artifact(Artifact::Running))
            .filter_map(|item| if let Paint::Glyphs(g) = &item.paint { Some(words(g)) } else { None })
            .collect();
        if i == 0 {
            assert!(running.is_empty(), "{running:?}");
        } else {
            assert!(running.contains(&format!("Page {} of {count}", i + 1)), "{running:?}");
            assert!(running.contains(&"Reed Bed".to_owned()), "{running:?}");
            assert!(running.iter().any(|w| w.starts_with("© 2026 Lantern & Loom")), "{running:?}");
        }
    }
}

#[test]
fn a_stamp_changes_nothing_else() {
    for paper in [Paper::A4, Paper::Letter] {
        let plain = full(setting(paper));
        let mut stamped = plain.clone();
        stamped.stamp = Some("For Ada, order 1815, not for resale ".repeat(9));
        let (plain, stamped) = (pages(&plain), pages(&stamped));
        assert_eq!(plain.pages.len(), stamped.pages.len());
        for (one, other) in plain.pages.iter().zip(&stamped.pages) {
            let print = |items: &[Item]| items.iter().map(|i| format!("{i:?}")).collect::<Vec<_>>();
            let added = other.items.len() - one.items.len();
            assert_eq!(added, 1, "one line more");
            assert_eq!(print(&one.items), print(&other.items[..one.items.len()]));
        }
    }
}

#[test]
fn headings_never_close_a_page_and_paragraphs_leave_two_lines() {
    // Prose of every length before a heading, so that some heading meets the foot of the page.
    for lines in 1..40 {
        let mut blocks: Vec<Block> = (0..8).map(|_| para(PROSE)).collect();
        blocks.extend((0..lines).map(|i| para(&format!("Line {i}."))));
        blocks.push(heading(2, "Heading"));
        blocks.extend((0..6).map(|_| para(PROSE)));
        let list = pages(&booklet(setting(Paper::A4), vec![section("one", "One", blocks)]));
        for page in &list.pages {
            let mut last = None;
            let mut first_node = None;
            for (item, glyphs) in content_runs(page) {
                first_node.get_or_insert((item.standing, glyphs.at.y.0));
                last = Some((item.standing, words(glyphs)));
            }
            let (last_node, last_words) = last.expect("a page with words");
            assert_ne!(last_words.trim(), "Heading", "{lines} lines before");
            for node in [first_node.map(|f| f.0), Some(last_node)].into_iter().flatten() {
                let lines_here = lines_of(page, node);
                let elsewhere: usize =
                    list.pages.iter().filter(|p| !std::ptr::eq(*p, page)).map(|p| lines_of(p, node)).sum();
                assert!(elsewhere == 0 || lines_here >= 2, "a lone line, {lines} lines before");
            }
        }
    }
}

fn lines_of(page: &fringebook::layout::Page, node: Standing) -> usize {
    let mut ys: Vec<i64> = content_runs(page)
        .filter(|(item, _)| item.standing == node)
        .map(|(_, g)| (g.at.y.0 * 100.0).round() as i64)
        .collect();
    ys.sort_unstable();
    ys.dedup();
    ys.len()
}

#[test]
fn the_same_booklet_gives_the_same_pages() {
    for (name, booklet) in every_setting() {
        let (one, other) = (pages(&booklet), pages(&booklet));
        assert_eq!(format!("{:?}", one.pages), format!("{:?}", other.pages), "{name}");
    }
}

#[test]
fn what_is_taller_than_a_page_is_continued_not_cut() {
    let mut table = crate::support::booklets::word_chart(3);
    let tall = Text::plain(PROSE.replace("**", "").repeat(24));
    table.rows[1].cells[4] = fringebook::booklet::Cell::Text(tall.clone());
    let legend: Vec<_> = (0..13).flat_map(|_| crate::support::booklets::legend()).collect();
    for large_print in [false, true] {
        let mut setting = setting(Paper::Letter);
        setting.large_print = large_print;
        let blocks = vec![
            Block::Table(table.clone()),
            Block::Chart(fringebook::booklet::Chart {
                legend: legend.clone(),
                ..crate::support::booklets::chart(9, 12)
            }),
            crate::support::booklets::step(1, vec![crate::support::booklets::figure(300.0, 900.0)]),
            Block::Together((0..30).map(|_| para(PROSE)).collect()),
            Block::Callout {
                kind: fringebook::booklet::CalloutKind::Note,
                title: Text::plain("Long"),
                blocks: (0..30).map(|_| para(PROSE)).collect(),
            },
        ];
        let list = pages(&booklet(setting, vec![section("one", "One", blocks)]));
        let found: String = list.pages.iter().flat_map(|p| content_runs(p).map(|(_, g)| words(g))).collect();
        let bare = |s: &str| s.chars().filter(|c| !c.is_whitespace() && *c != '-').collect::<String>();
        assert!(bare(&found).contains(&bare(&tall.words())));
        for page in &list.pages {
            for item in &page.items {
                let a = area(item);
                assert!(
                    a.bottom <= page.size.height.0 - FOOT && a.right <= page.size.width.0 - EDGE,
                    "{a:?}"
                );
            }
        }
    }
}

#[test]
fn a_cover_with_much_to_say_keeps_it_apart() {
    for large_print in [false, true] {
        let mut setting = setting(Paper::Letter);
        setting.large_print = large_print;
        let mut front = crate::support::booklets::cover();
        let Block::Cover(cover) = &mut front.blocks[0] else { panic!("a cover") };
        cover.title = "The Long Evening Walk Home Along the Canal Before the First Frost".into();
        cover.summary = Text::plain("A sentence of nine words that says very little. ".repeat(6));
        let list = pages(&booklet(setting, vec![front]));
        let runs: Vec<_> = content_runs(&list.pages[0]).map(|(_, g)| (text_area(g), words(g))).collect();
        for (i, (one, said)) in runs.iter().enumerate() {
            assert!(one.right <= 215.9 - EDGE, "{said}");
            for (other, more) in &runs[i + 1..] {
                assert!(!one.meets(other), "“{said}” and “{more}”");
            }
        }
    }
}
