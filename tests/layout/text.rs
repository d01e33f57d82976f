//! Text: all of it, once, in order; readable sizes and colours; characters that no font has.

use super::probe::{area, content_runs, every_setting, pages, words};
use crate::support::booklets::{PROSE, booklet, full, heading, para, section, setting, step};
use fringebook::booklet::{Block, Booklet, CalloutKind, Cell, Text};
use fringebook::colour::Colour;
use fringebook::design::Paper;
use fringebook::layout::{Item, Layer, Paint, lay_out};

/// Every word of a list of blocks, in order.
fn spoken(blocks: &[Block], out: &mut String) {
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph { text, .. } => out.push_str(&text.words()),
            Block::List { numbered, items } => {
                for (i, item) in items.iter().enumerate() {
                    out.push_str(&if *numbered { format!("{}.", i + 1) } else { "•".into() });
                    out.push_str(&item.words());
                }
            }
            Block::Table(table) => {
                table.head.iter().for_each(|h| out.push_str(&h.words()));
                for cell in table.rows.iter().flat_map(|r| &r.cells) {
                    match cell {
                        Cell::Text(text) => out.push_str(&text.words()),
                        Cell::Swatches(s) => out.extend(s.iter().filter_map(|s| s.letter)),
                        Cell::Tick(_) | Cell::Parts(_) | Cell::Across(_) | Cell::Empty => {}
                    }
                }
            }
            Block::Step(step) => {
                out.push_str(&step.number.to_string());
                out.push_str(&step.title.words());
                spoken(&step.blocks, out);
            }
            Block::Callout { title, blocks, .. } => {
                out.push_str(&title.words());
                spoken(blocks, out);
            }
            other => panic!("not spoken here: {other:?}"),
        }
    }
}

/// Without white space and the hyphens that line breaks add.
fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && *c != '-').collect()
}

#[test]
fn every_word_stands_on_the_pages_once_and_in_order() {
    let callout =
        |kind| Block::Callout { kind, title: Text::plain("Check the count"), blocks: vec![para(PROSE)] };
    let blocks = vec![
        para(PROSE),
        heading(
            2,
            "A heading of some length that needs to be broken over lines because it will not fit on one",
        ),
        para(
            "See [the chart](#one), **then** _go on_ — “26\u{a0}×\u{202f}84\u{a0}mm”, ½ in, Ελληνικά и кириллица.",
        ),
        Block::List {
            numbered: true,
            items: (0..30).map(|i| Text::marked(&format!("{i} {PROSE}"))).collect(),
        },
        Block::List { numbered: false, items: vec![Text::plain("one"), Text::marked(PROSE)] },
        Block::Table(crate::support::booklets::materials(40)),
        callout(CalloutKind::Caution),
        step(1, vec![]),
        para("A_word_that_is_far_too_long_for_any_line_of_this_page_".repeat(6).as_str()),
    ];
    let mut expected = "One".to_owned();
    spoken(&blocks, &mut expected);
    for paper in [Paper::A4, Paper::Letter] {
        let list = pages(&booklet(setting(paper), vec![section("one", "One", blocks.clone())]));
        let found: String = list.pages.iter().flat_map(|p| content_runs(p).map(|(_, g)| words(g))).collect();
        assert_eq!(bare(&found), bare(&expected));
    }
}

#[test]
fn words_at_the_end_of_a_line_keep_their_space() {
    let list = pages(&booklet(setting(Paper::A4), vec![section("one", "One", vec![para(PROSE)])]));
    let found: String = content_runs(&list.pages[0]).skip(1).map(|(_, g)| words(g)).collect();
    let expected = Text::marked(PROSE).words();
    assert_eq!(found.split_whitespace().collect::<Vec<_>>(), expected.split_whitespace().collect::<Vec<_>>());
}

#[test]
fn nothing_is_smaller_than_seven_points_and_large_print_is_large_everywhere() {
    for (name, booklet) in every_setting() {
        let list = pages(&booklet);
        for page in &list.pages {
            let runs = page.items.iter().filter_map(|item| match &item.paint {
                Paint::Glyphs(glyphs) => Some(glyphs),
                _ => None,
            });
            for glyphs in runs {
                // RNIB clear print guidance: large print is 16 pt at least.
                let least = if booklet.setting.large_print { 16.0 } else { 7.0 };
                assert!(glyphs.size.0 >= least - 1e-6, "{name}: {:?} {}", glyphs.size, words(glyphs));
            }
        }
    }
}

/// The ground that a text stands on: the last filled thing under it, or paper.
fn ground(items: &[Item], text: &Item) -> Colour {
    let a = area(text);
    let (x, y) = ((a.left + a.right) / 2.0, (a.top + a.bottom) / 2.0);
    let under = |item: &&Item| {
        let b = area(item);
        b.left <= x && x <= b.right && b.top <= y && y <= b.bottom
    };
    items
        .iter()
        .filter(under)
        .filter_map(|item| match &item.paint {
            Paint::Bead(b) => Some(b.colour),
            Paint::Path(p) => p.fill,
            Paint::Glyphs(_) | Paint::Image(_) => None,
        })
        .next_back()
        .unwrap_or(Colour::WHITE)
}

#[test]
fn text_contrasts_with_its_ground() {
    // WCAG 2.2, success criterion 1.4.3: 4.5 to 1.
    let pale = |mut b: Booklet| {
        b.setting.accent = Colour::new(0xf2, 0xd0, 0x6b);
        b
    };
    let mut all = every_setting();
    all.push(("pale accent", pale(full(setting(Paper::A4)))));
    for (name, booklet) in all {
        for page in &pages(&booklet).pages {
            for (i, item) in page.items.iter().enumerate() {
                let Paint::Glyphs(glyphs) = &item.paint else { continue };
                if glyphs.halo.is_some() || item.layer == Some(Layer::Letters) || glyphs.glyphs.is_empty() {
                    continue;
                }
                let ground = ground(&page.items[..i], item);
                let contrast = glyphs.colour.contrast(ground);
                assert!(contrast >= 4.5, "{name}: “{}” {contrast} on {ground:?}", words(glyphs));
            }
        }
    }
}

#[test]
fn letters_contrast_with_their_beads() {
    for (name, booklet) in every_setting() {
        for page in &pages(&booklet).pages {
            let beads: Vec<&Item> = page.items.iter().filter(|i| matches!(i.paint, Paint::Bead(_))).collect();
            for item in page.items.iter().filter(|i| i.layer == Some(Layer::Letters)) {
                let Paint::Glyphs(glyphs) = &item.paint else { continue };
                let mut x = glyphs.at.x.0;
                for glyph in &glyphs.glyphs {
                    let at = x + 0.2 * glyphs.size.mm().0;
                    let y = glyphs.at.y.0 - 0.3 * glyphs.size.mm().0;
                    let bead = beads.iter().find_map(|b| {
                        let a = area(b);
                        let hit = a.left <= at && at <= a.right && a.top <= y && y <= a.bottom;
                        if let (true, Paint::Bead(bead)) = (hit, &b.paint) { Some(bead) } else { None }
                    });
                    let bead = bead.unwrap_or_else(|| panic!("{name}: {} stands on no bead", glyph.text));
                    assert!(glyphs.colour.contrast(bead.colour) >= 4.5, "{name}: {}", glyph.text);
                    x += glyph.advance / 1000.0 * glyphs.size.mm().0;
                }
            }
        }
    }
}

#[test]
fn a_character_that_no_font_has_is_named_with_its_text() {
    let blocks = vec![para("Plain."), para("The char 針 is not Latin.")];
    let missing =
        lay_out(&booklet(setting(Paper::A4), vec![section("one", "One", blocks)])).expect_err("refused");
    assert_eq!(missing.len(), 1);
    assert_eq!(missing[0].character, '針');
    assert_eq!(missing[0].text.trim(), "The char 針 is not Latin.");
}
