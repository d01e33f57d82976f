//! Sheets to fold, and pages of half the usual size.

use crate::catalogue::Catalogue;
use crate::support::booklets::{booklet, setting};
use fringebook::booklet::{Block, ParagraphStyle, Section, Text};
use fringebook::design::Paper;
use fringebook::layout::{DisplayList, Paint, Target, folded, lay_out};
use lopdf::Document;

/// A booklet of so many pages.
fn of_pages(pages: usize) -> DisplayList {
    let section = |number: usize| Section {
        name: format!("part-{number}"),
        title: format!("Part {number}"),
        new_page: true,
        faces: false,
        listed: true,
        blocks: (0..30)
            .map(|_| Block::Paragraph {
                text: Text::plain("Words that fill more than half of a page. ".repeat(3)),
                style: ParagraphStyle::Body,
            })
            .collect(),
    };
    lay_out(&booklet(setting(Paper::A5), (1..=pages).map(section).collect())).expect("every glyph is there")
}

/// What the left and the right half of a page say.
fn halves(list: &DisplayList, page: usize) -> [String; 2] {
    let page = &list.pages[page];
    let middle = page.size.width / 2.0;
    let mut said = [String::new(), String::new()];
    for item in &page.items {
        if let Paint::Glyphs(glyphs) = &item.paint {
            let half = &mut said[usize::from(glyphs.at.x >= middle)];
            glyphs.glyphs.iter().for_each(|glyph| half.push_str(&glyph.text));
            half.push('\n');
        }
    }
    said
}

#[test]
fn each_page_faces_the_next_when_the_sheets_are_folded() {
    for parts in 4..=20 {
        let single = of_pages(parts);
        let pages = single.pages.len();
        let own: Vec<String> = (0..pages).map(|page| halves(&single, page).concat()).collect();
        let sheets = folded(single, false);
        assert_eq!(sheets.pages.len(), pages.div_ceil(4) * 2, "{pages}");
        assert!(
            (sheets.pages[0].size.width.0 - 296.0).abs() < 1e-9 && sheets.pages[0].size.height.0 == 210.0
        );
        // Fronts lie on the table with their right half, backs with their left: turned from the outermost sheet inwards and
        // out again.
        let said: Vec<[String; 2]> = (0..sheets.pages.len()).map(|side| halves(&sheets, side)).collect();
        let inwards = said.chunks(2).flat_map(|sheet| [&sheet[0][1], &sheet[1][0]]);
        let outwards = said.chunks(2).rev().flat_map(|sheet| [&sheet[1][1], &sheet[0][0]]);
        for (page, read) in inwards.chain(outwards).enumerate() {
            let mut lines: Vec<&str> = read.lines().collect();
            let mut expected: Vec<&str> = own.get(page).map_or(Vec::new(), |own| own.lines().collect());
            lines.sort_unstable();
            expected.sort_unstable();
            expected.retain(|line| !line.is_empty());
            lines.retain(|line| !line.is_empty());
            assert_eq!(lines, expected, "page {page} of {pages}");
        }
    }
}

#[test]
fn links_and_bookmarks_lead_to_the_sheets() {
    let single = of_pages(9);
    let (before, pages) = (single.bookmarks.clone(), single.pages.len());
    let own: Vec<String> = (0..pages).map(|page| halves(&single, page).concat()).collect();
    let sheets = folded(single, true);
    for (old, new) in before.iter().zip(&sheets.bookmarks) {
        let both = halves(&sheets, new.page).concat();
        let first = own[old.page].lines().next().expect("a line");
        assert!(both.contains(first), "{}", old.title);
    }
    for page in &sheets.pages {
        for link in &page.links {
            let on_paper = link.at.x.0 >= 0.0 && (link.at.x + link.size.width).0 <= page.size.width.0;
            assert!(
                on_paper && matches!(&link.target, Target::Page { page, .. } if *page < sheets.pages.len())
            );
        }
    }
}

/// Width and height of the pages of a booklet, in whole millimetres.
fn sizes(pdf: &[u8]) -> Vec<(i32, i32)> {
    let doc = Document::load_mem(pdf).expect("a PDF");
    let side = |object: &lopdf::Object| (object.as_float().expect("a number") * 25.4 / 72.0).round() as i32;
    let of = |id| {
        let page = doc.get_dictionary(id).expect("a page");
        let media = page.get(b"MediaBox").and_then(lopdf::Object::as_array).expect("a box");
        (side(&media[2]), side(&media[3]))
    };
    doc.get_pages().into_values().map(of).collect()
}

#[test]
fn booklets_come_small_and_two_up() {
    let catalogue = Catalogue::with_heron();
    let small = catalogue.run(&["make", "heron.yaml", "--paper", "a5"]);
    assert!(small.well().out.starts_with("heron-a5.pdf  "), "{}", small.out);
    let pages = sizes(&catalogue.bytes("heron-a5.pdf"));
    assert!(pages.iter().all(|size| *size == (148, 210)), "{pages:?}");
    let ran = catalogue.run(&["make", "heron.yaml", "--fold"]);
    let sheets = pages.len().div_ceil(4);
    let told =
        format!("heron-folded.pdf  {sheets} sheets, printed on both sides and turned over the short edge  ");
    assert!(ran.well().out.starts_with(&told), "{}", ran.out);
    assert_eq!(sizes(&catalogue.bytes("heron-folded.pdf")), vec![(296, 210); 2 * sheets]);
    catalogue.run(&["make", "heron.yaml", "--fold", "--fold-marks", "--paper", "half-letter"]).ended(0);
    assert!(sizes(&catalogue.bytes("heron-folded-marked-letter.pdf")).iter().all(|size| *size == (279, 216)));
    // They are remade as they were made.
    catalogue.edit("palette.yaml", "name: Mist", "name: Fog");
    let ran = catalogue.run(&["remake", "."]);
    assert!(
        ran.well().out.contains("heron-folded.pdf ") && ran.out.contains("4 booklets: 4 made"),
        "{}",
        ran.out
    );
    assert_eq!(sizes(&catalogue.bytes("heron-folded.pdf")), vec![(296, 210); 2 * sheets]);
    // A studio may sell small ones.
    catalogue.edit("studio.yaml", "paper: a4", "paper: half letter");
    catalogue.run(&["make", "heron.yaml", "--out", "small"]).ended(0);
    assert!(sizes(&catalogue.bytes("small/heron.pdf")).iter().all(|size| *size == (140, 216)));
}
