//! Display lists whose file could not be what it claims to be: the painter refuses them, each with its words.

use crate::fixture::{Builder, EMBER, bead, everything, line};
use fringebook::drawn::{BeadLook, Face, Shape};
use fringebook::layout::{DisplayList, NodeId, Paint, Role, Standing, Target};
use fringebook::paint::{Times, pdf};
use fringebook::units::Mm;

/// What the painter says to the fixture when it is spoiled like this.
fn refusal(spoil: impl FnOnce(&mut DisplayList)) -> String {
    let mut list = everything();
    spoil(&mut list);
    pdf(&list, &Times::default()).expect_err("refused").to_string()
}

/// The node of a role, counted from 0 among those.
fn node(list: &DisplayList, number: usize, is: impl Fn(&Role) -> bool) -> usize {
    let mut found = (0..list.nodes.len()).filter(|index| is(&list.nodes[*index].role));
    found.nth(number).expect("a node of this role")
}

/// Moves a node to the end of another.
fn hang(list: &mut DisplayList, moved: usize, under: usize) {
    let parent = list.nodes[moved].parent.expect("a parent").0;
    list.nodes[parent].children.retain(|child| child.0 != moved);
    list.nodes[under].children.push(NodeId(moved));
    list.nodes[moved].parent = Some(NodeId(under));
}

/// Takes everything drawn out of a node.
fn empty(list: &mut DisplayList, node: usize) {
    for page in &mut list.pages {
        page.items.retain(|item| item.standing != Standing::Content(NodeId(node)));
    }
}

/// The first line of glyphs of a page.
fn first_line(list: &mut DisplayList, page: usize) -> &mut fringebook::layout::Glyphs {
    let lines = list.pages[page].items.iter_mut().filter_map(|item| match &mut item.paint {
        Paint::Glyphs(line) => Some(line),
        Paint::Bead(_) | Paint::Path(_) | Paint::Image(_) => None,
    });
    lines.into_iter().next().expect("words")
}

fn heading(role: &Role) -> bool {
    matches!(role, Role::Heading(_))
}
fn figure(role: &Role) -> bool {
    matches!(role, Role::Figure { .. })
}
fn list(role: &Role) -> bool {
    matches!(role, Role::List { .. })
}
fn table(role: &Role) -> bool {
    matches!(role, Role::Table { .. })
}
fn cell(role: &Role) -> bool {
    matches!(role, Role::TableCell { .. })
}
fn row_header(role: &Role) -> bool {
    matches!(role, Role::RowHeader { .. })
}
fn column_header(role: &Role) -> bool {
    matches!(role, Role::ColumnHeader { .. })
}

#[test]
fn the_fixture_itself_is_painted() {
    assert!(pdf(&everything(), &Times::default()).is_ok());
}

#[test]
fn a_document_without_title_language_or_pages() {
    assert_eq!(refusal(|l| l.meta.title = " ".into()), "the document has no title");
    assert_eq!(refusal(|l| l.meta.language = String::new()), "the document has no language");
    for tag in ["e", "en-", "en_GB", "en-toolongtag", "1n"] {
        let message = format!("“{tag}” is not the tag of a language, as “en-GB” is");
        assert_eq!(refusal(|l| l.meta.language = tag.into()), message);
    }
    assert_eq!(refusal(|l| l.pages.clear()), "the document has no pages");
}

#[test]
fn pages_layers_and_bookmarks_without_a_name() {
    assert_eq!(refusal(|l| l.pages[1].label = String::new()), "page 2 of the file has no label");
    assert_eq!(refusal(|l| l.layer_names.letters = " ".into()), "the layer of the letters has no name");
    assert_eq!(refusal(|l| l.layer_names.marks.clear()), "the layer of the thread marks has no name");
    assert_eq!(refusal(|l| l.layer_names.grid.clear()), "the layer of the guide lines has no name");
    assert_eq!(refusal(|l| l.bookmarks[3].title.clear()), "a bookmark to page 2 of the file has no words");
}

#[test]
fn bookmarks_that_leave_out_a_level() {
    assert_eq!(
        refusal(|l| l.bookmarks[2].level = 3),
        "the bookmark “Chart” is of level 3 after one of level 1"
    );
    assert_eq!(
        refusal(|l| l.bookmarks[0].level = 2),
        "the first bookmark, “Dusk & Ember”, is of level 2: bookmarks begin at level 1"
    );
    assert_eq!(
        refusal(|l| l.bookmarks[3].level = 0),
        "the bookmark “Steps” is of level 0 after one of level 2"
    );
}

#[test]
fn a_tree_that_is_none() {
    assert_eq!(refusal(|l| l.nodes.clear()), "the document has no root node");
    let told = refusal(|l| {
        let child = l.nodes[0].children[0];
        l.nodes[0].children.push(child);
    });
    assert_eq!(told, "node 0 has a child 1 that is not its own");
    assert_eq!(
        refusal(|l| l.pages[1].ticks[0].node = NodeId(999)),
        "“row-1” belongs to node 999, which there is not"
    );
}

#[test]
fn a_glyph_without_a_character() {
    assert_eq!(
        refusal(|l| first_line(l, 1).glyphs[0].text = "".into()),
        "page 2: the line “aterials” begins with a glyph that stands for no character"
    );
    // A later glyph may belong to the character before it, as a mark above a letter does.
    let mut list = everything();
    first_line(&mut list, 1).glyphs[1].text = "".into();
    assert!(pdf(&list, &Times::default()).is_ok());
}

#[test]
fn a_character_for_private_use() {
    for (character, code) in [('\u{e000}', "E000"), ('\u{f8ff}', "F8FF"), ('\u{f0000}', "F0000")] {
        let told = refusal(|l| first_line(l, 0).glyphs[0].text = character.to_string().as_str().into());
        assert_eq!(
            told,
            format!("page Cover: “{character}usk & Ember” holds U+{code}, a character for private use")
        );
    }
    // Neighbours of those areas that begin with the same byte.
    for character in ["\u{fb01}", "\u{ffe5}", "\u{1f9f5}"] {
        let mut list = everything();
        first_line(&mut list, 0).glyphs[0].text = character.into();
        assert!(pdf(&list, &Times::default()).is_ok(), "{character}");
    }
}

#[test]
fn content_outside_any_tag() {
    for (number, within) in [(0, "the document"), (1, "a section")] {
        let told = refusal(|l| {
            for item in &mut l.pages[0].items {
                item.standing = Standing::Content(NodeId(number));
            }
        });
        let wanted = format!("page Cover: content stands right in {within}, which may only hold elements");
        assert_eq!(told, wanted);
    }
    let mut b = Builder::new();
    b.page("1");
    let table = b.node(NodeId(0), Role::Table { summary: String::new() });
    let body = b.node(table, Role::TableBody);
    let row = b.node(body, Role::TableRow);
    b.words(row, Face::Regular, 10.0, 20.0, 20.0, "A");
    let told = pdf(&b.list, &Times::default()).expect_err("refused").to_string();
    assert_eq!(told, "page 1: content stands right in a table row, which may only hold elements");
}

#[test]
fn a_drawing_that_is_no_figure() {
    let mut b = Builder::new();
    b.page("1");
    let words = b.text(NodeId(0), Role::Paragraph, Face::Regular, 10.0, 20.0, "A bead");
    let drawn = bead(Shape::Round, BeadLook::Flat, EMBER, 20.0, 20.0);
    b.put(Standing::Content(words), None, Paint::Bead(drawn));
    let told = pdf(&b.list, &Times::default()).expect_err("refused").to_string();
    assert_eq!(told, "page 1: something is drawn in a paragraph that is no figure");
}

#[test]
fn a_figure_without_alternative_text() {
    for blank in ["", " \n"] {
        let told = refusal(|l| {
            let second = node(l, 1, figure);
            l.nodes[second].role = Role::Figure { alt: blank.into() };
        });
        assert_eq!(told, "page Cover: a figure has no text for those who cannot see it");
    }
    let told = refusal(|l| {
        let chart = node(l, 2, figure);
        empty(l, chart);
    });
    assert_eq!(told, "page 2: a figure lacks anything drawn");
}

#[test]
fn headings_that_leave_out_a_level() {
    let level = |number: usize, level: u8| {
        refusal(|l| {
            let heading = node(l, number, heading);
            l.nodes[heading].role = Role::Heading(level);
        })
    };
    assert_eq!(level(2, 3), "page 2: the heading “Chart” is of level 3 after one of level 1");
    assert_eq!(level(3, 0), "page 2: the heading “Steps” is of level 0 after one of level 2");
    assert_eq!(
        level(0, 2),
        "page Cover: the first heading, “Dusk & Ember”, is of level 2: headings begin at level 1"
    );
    let mut b = Builder::new();
    b.page("1");
    for level in 1..=7 {
        b.text(NodeId(0), Role::Heading(level), Face::Bold, 10.0, 20.0, "Down");
    }
    let told = pdf(&b.list, &Times::default()).expect_err("refused").to_string();
    assert_eq!(told, "page 1: the heading “Down” is of level 7 after one of level 6");
}

#[test]
fn headings_captions_and_links_without_words() {
    for (number, page) in [(0, "Cover"), (1, "2")] {
        let told = refusal(|l| {
            let heading = node(l, number, heading);
            empty(l, heading);
        });
        assert_eq!(told, format!("page {page}: a heading lacks words"));
    }
    let told = refusal(|l| {
        let caption = node(l, 0, |role| *role == Role::Caption);
        empty(l, caption);
    });
    assert_eq!(told, "page Cover: a caption lacks words");
    let told = refusal(|l| {
        let link = node(l, 1, |role| *role == Role::Link);
        empty(l, link);
    });
    assert_eq!(told, "page Cover: a link lacks words");
}

#[test]
fn links_that_say_or_lead_nothing() {
    assert_eq!(
        refusal(|l| l.pages[0].links[0].alt = " ".into()),
        "page Cover: a link does not say where it leads"
    );
    assert_eq!(
        refusal(|l| l.pages[0].links[1].target = Target::Web(" ".into())),
        "page Cover: the link “Pages of Reed Lane Beads” leads to no address"
    );
    assert_eq!(
        refusal(|l| l.pages[0].links[0].target = Target::Page { page: 7, y: Mm(0.0) }),
        "“To Materials” leads to page 8, which there is not"
    );
    assert_eq!(
        refusal(|l| drop(l.pages[0].links.remove(1))),
        "page Cover: a link lacks a place that it leads to"
    );
    assert_eq!(
        refusal(|l| {
            let paragraph = node(l, 0, |role| *role == Role::Paragraph);
            l.pages[0].links[0].node = NodeId(paragraph);
        }),
        "page Cover: “To Materials” belongs to a paragraph, not to a link"
    );
    let nowhere = "page Cover: something stands at no place at all";
    assert_eq!(refusal(|l| l.pages[0].links[0].size.width = Mm(f64::INFINITY)), nowhere);
}

#[test]
fn boxes_to_tick_without_name_or_description() {
    assert_eq!(refusal(|l| l.pages[1].ticks[0].name.clear()), "page 2: a box to tick has no name");
    assert_eq!(
        refusal(|l| l.pages[1].ticks[0].name = "row.1".into()),
        "the box to tick “row.1” has a point in its name"
    );
    assert_eq!(
        refusal(|l| l.pages[1].ticks[1].tooltip = " ".into()),
        "the box to tick “row-2” does not say what it is for"
    );
    assert_eq!(refusal(|l| drop(l.pages[1].ticks.pop())), "page 2: a box to tick lacks a field on its page");
    assert_eq!(
        refusal(|l| {
            let link = node(l, 0, |role| *role == Role::Link);
            l.pages[1].ticks[0].node = NodeId(link);
        }),
        "page 2: “row-1” belongs to a link, not to a box to tick"
    );
    assert_eq!(
        refusal(|l| l.pages[1].ticks[0].side = Mm(f64::NAN)),
        "page 2: something stands at no place at all"
    );
}

#[test]
fn table_rows_of_unequal_length() {
    let told = refusal(|l| {
        let total = node(l, 2, row_header);
        l.nodes[total].role = Role::RowHeader { span: 2 };
    });
    assert_eq!(told, "page 2: row 4 of the table “Beads to buy.” has 3 columns, the first has 4");
    let told = refusal(|l| {
        let first = node(l, 0, column_header);
        l.nodes[first].role = Role::ColumnHeader { span: 2 };
    });
    assert_eq!(told, "page 2: row 2 of the table “Beads to buy.” has 4 columns, the first has 5");
    let told = refusal(|l| {
        let (one, next) = (node(l, 0, cell), node(l, 1, cell));
        l.nodes[one].role = Role::TableCell { span: 0 };
        l.nodes[next].role = Role::TableCell { span: 2 };
    });
    assert_eq!(told, "page 2: row 2 of the table “Beads to buy.” has a cell over no column");
}

#[test]
fn a_cell_that_nothing_heads() {
    let message = "page 2: neither its row nor its column heads the cell in row 2, column 2 of the table “Beads to buy.”";
    let beside = |l: &mut DisplayList| {
        let header = node(l, 0, row_header);
        l.nodes[header].role = Role::TableCell { span: 1 };
    };
    // Its column still heads it.
    let mut list = everything();
    beside(&mut list);
    assert!(pdf(&list, &Times::default()).is_ok());
    let told = refusal(|l| {
        beside(l);
        // A header without words heads nothing.
        let above = node(l, 1, column_header);
        empty(l, above);
    });
    assert_eq!(told, message);
}

#[test]
fn list_items_outside_a_list_and_lists_without_items() {
    let told = refusal(|l| {
        let (item, section) =
            (node(l, 0, |role| *role == Role::ListItem), node(l, 1, |r| *r == Role::Section));
        hang(l, item, section);
    });
    assert_eq!(told, "page 2: an item of a list stands in a section: it belongs in a list");
    let told = refusal(|l| {
        let list = node(l, 0, list);
        let role = Role::List { numbered: false };
        let section = l.nodes[list].parent.expect("a section");
        l.nodes.push(fringebook::layout::Node { role, parent: Some(section), children: Vec::new() });
        let new = NodeId(l.nodes.len() - 1);
        l.nodes[section.0].children.push(new);
    });
    assert_eq!(told, "page 2: a list lacks items");
    let told = refusal(|l| {
        let (body, other) = (node(l, 0, |r| *r == Role::ListBody), node(l, 1, |r| *r == Role::ListItem));
        hang(l, body, other);
    });
    assert_eq!(told, "page 2: an item of a list lacks a text");
    let told = refusal(|l| {
        let (label, other) = (node(l, 0, |r| *r == Role::ListLabel), node(l, 1, |r| *r == Role::ListItem));
        hang(l, label, other);
    });
    assert_eq!(told, "page 2: an item of a list lacks a label, in a list with numbers");
}

#[test]
fn elements_where_they_may_not_stand() {
    // What is moved, where to, and what is said of it.
    type Is = fn(&Role) -> bool;
    let cases: [(Is, Is, &str); 11] = [
        (heading, list, "a heading stands in a list: only items may"),
        (
            heading,
            |r| *r == Role::ListItem,
            "a heading stands in an item of a list: only its label and its text may",
        ),
        (heading, table, "a heading stands in a table: only rows may"),
        (heading, |r| *r == Role::TableBody, "a heading stands in the rows of a table: only rows may"),
        (heading, |r| *r == Role::TableRow, "a heading stands in a table row: only cells may"),
        (
            |r| *r == Role::ListLabel,
            |r| *r == Role::Section,
            "the label of an item stands in a section: it belongs in an item of a list",
        ),
        (
            |r| *r == Role::TableRow,
            |r| *r == Role::Section,
            "a table row stands in a section: it belongs in a table",
        ),
        (cell, |r| *r == Role::Section, "a table cell stands in a section: it belongs in a table row"),
        (
            |r| *r == Role::Caption,
            |r| *r == Role::Section,
            "a caption stands in a section: it belongs to a figure, a table or a list",
        ),
        (
            |r| *r == Role::ContentsItem,
            |r| *r == Role::Section,
            "an entry of the contents stands in a section: it belongs in a table of contents",
        ),
        (
            |r| *r == Role::Reference,
            |r| *r == Role::Section,
            "a reference stands in a section: it belongs in an entry of the contents",
        ),
    ];
    for (what, within, told) in &cases {
        let mut list = with_contents();
        let (moved, under) = (node(&list, 0, what), node(&list, 0, within));
        hang(&mut list, moved, under);
        let refused = pdf(&list, &Times::default()).expect_err(told).to_string();
        let (_, refused) = refused.split_once(": ").expect("a page");
        assert_eq!(refused, *told);
    }
    let mut list = with_contents();
    let (moved, under) = (node(&list, 0, heading), node(&list, 0, |r| *r == Role::Contents));
    hang(&mut list, moved, under);
    let refused = pdf(&list, &Times::default()).expect_err("refused").to_string();
    assert_eq!(refused, "page Cover: a heading stands in a table of contents: only entries may");
    let told = refusal(|l| {
        let section = node(l, 0, |role| *role == Role::Section);
        l.nodes[section].role = Role::Document;
    });
    assert_eq!(told, "page Cover: the document stands in the document: there is one document");
}

/// The fixture with a table of contents behind it.
fn with_contents() -> DisplayList {
    let mut b = Builder { list: everything() };
    b.page("3");
    let contents = b.node(NodeId(0), Role::Contents);
    let item = b.node(contents, Role::ContentsItem);
    let reference = b.node(item, Role::Reference);
    b.put(
        Standing::Content(reference),
        None,
        Paint::Glyphs(line(Face::Regular, 10.0, 20.0, 20.0, "Materials 2")),
    );
    assert!(pdf(&b.list, &Times::default()).is_ok());
    b.list
}

#[test]
fn tables_and_contents_with_nothing_in_them() {
    for (role, told) in [
        (Role::Table { summary: "None".into() }, "page 1: a table lacks anything in it"),
        (Role::Contents, "page 1: a table of contents lacks anything in it"),
    ] {
        let mut b = Builder::new();
        b.page("1");
        b.text(NodeId(0), Role::Paragraph, Face::Regular, 10.0, 20.0, "Nothing");
        b.node(NodeId(0), role);
        assert_eq!(pdf(&b.list, &Times::default()).expect_err("refused").to_string(), told);
    }
}
