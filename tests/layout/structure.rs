//! The document's structure, links, bookmarks and boxes.

use super::probe::{every_setting, pages, words};
use crate::support::booklets::{booklet, full, para, section, setting};
use fringebook::booklet::Block;
use fringebook::design::Paper;
use fringebook::layout::{NodeId, Paint, Role, Standing, Target};

#[test]
fn parents_and_children_agree_and_content_stands_in_reading_order() {
    for (name, booklet) in every_setting() {
        let list = pages(&booklet);
        for (id, node) in list.nodes.iter().enumerate() {
            for child in &node.children {
                assert_eq!(list.nodes[child.0].parent, Some(NodeId(id)), "{name}");
            }
            assert_eq!(node.parent.is_none(), id == 0, "{name}");
        }
        // Walking the tree meets the pages in order.
        let mut first_page = vec![None; list.nodes.len()];
        for (number, page) in list.pages.iter().enumerate() {
            for item in &page.items {
                if let Standing::Content(node) = item.standing {
                    assert!(node.0 > 0 && node.0 < list.nodes.len(), "{name}");
                    first_page[node.0].get_or_insert(number);
                }
            }
        }
        let mut order = Vec::new();
        walk(&list.nodes, NodeId(0), &mut order);
        let met: Vec<usize> = order.iter().filter_map(|id| first_page[id.0]).collect();
        assert!(met.is_sorted(), "{name}: {met:?}");
    }
}

fn walk(nodes: &[fringebook::layout::Node], id: NodeId, order: &mut Vec<NodeId>) {
    order.push(id);
    for child in &nodes[id.0].children {
        walk(nodes, *child, order);
    }
}

#[test]
fn roles_stand_where_they_may() {
    // ISO 32000-1, 14.8.4: which element may stand in which.
    for (name, booklet) in every_setting() {
        let list = pages(&booklet);
        for node in &list.nodes {
            let parent = node.parent.map(|p| &list.nodes[p.0].role);
            let right = match &node.role {
                Role::Document => parent.is_none(),
                Role::TableHead | Role::TableBody => matches!(parent, Some(Role::Table { .. })),
                Role::TableRow => matches!(parent, Some(Role::TableHead | Role::TableBody)),
                Role::ColumnHeader { .. } | Role::RowHeader { .. } | Role::TableCell { .. } => {
                    parent == Some(&Role::TableRow)
                }
                Role::ListItem => matches!(parent, Some(Role::List { .. })),
                Role::ListLabel | Role::ListBody => parent == Some(&Role::ListItem),
                Role::ContentsItem => parent == Some(&Role::Contents),
                Role::Reference => parent == Some(&Role::ContentsItem),
                Role::Caption => matches!(parent, Some(Role::Figure { .. } | Role::Table { .. })),
                _ => parent.is_some(),
            };
            assert!(right, "{name}: {:?} in {parent:?}", node.role);
        }
    }
}

#[test]
fn links_boxes_and_contents_lead_where_they_say() {
    let list = pages(&full(setting(Paper::A4)));
    let titles = ["At a glance", "Materials", "Colour chart", "Word chart", "Steps", "Colourways"];
    let starts: Vec<usize> = titles
        .iter()
        .map(|t| {
            list.bookmarks.iter().find(|b| b.title == *t && b.level == 1).map(|b| b.page).expect("a bookmark")
        })
        .collect();
    for link in list.pages.iter().flat_map(|p| &p.links) {
        assert_eq!(list.nodes[link.node.0].role, Role::Link);
        assert!(!link.alt.is_empty());
    }
    let contents = &list.pages[1];
    // What the contents stand in is not among them.
    assert!(contents.links.iter().all(|link| link.alt != titles[0]));
    for (title, start) in titles.iter().zip(&starts).skip(1) {
        let link = contents.links.iter().find(|l| l.alt == *title).expect("an entry");
        assert!(matches!(link.target, Target::Page { page, .. } if page == *start), "{title}");
        let number = contents.items.iter().any(|i| match &i.paint {
            Paint::Glyphs(g) => {
                i.standing == Standing::Content(link.node) && words(g) == (start + 1).to_string()
            }
            _ => false,
        });
        assert!(number, "{title} on {start}");
    }
    assert!(
        contents.links.iter().any(|l| l.target == Target::Web("https://lantern-and-loom.example".into()))
    );
    for tick in list.pages.iter().flat_map(|p| &p.ticks) {
        assert_eq!(list.nodes[tick.node.0].role, Role::Form);
    }
    assert!(list.pages.iter().any(|p| !p.ticks.is_empty()));
}

#[test]
fn a_link_to_a_section_that_is_not_there_is_no_link() {
    let list =
        pages(&booklet(setting(Paper::A4), vec![section("one", "One", vec![para("See [it](#nowhere).")])]));
    assert!(list.pages[0].links.is_empty());
    assert!(list.nodes.iter().all(|node| node.role != Role::Link), "nor is it one to those who only hear it");
}

#[test]
fn bookmarks_go_down_one_level_at_a_time() {
    for (name, booklet) in every_setting() {
        let list = pages(&booklet);
        let mut above = 0;
        for mark in &list.bookmarks {
            assert!(mark.level >= 1 && mark.level <= above + 1, "{name}: {mark:?}");
            above = mark.level;
        }
        assert!(list.bookmarks.iter().map(|b| (b.page, b.y.0)).is_sorted_by(|a, b| a <= b), "{name}");
    }
}

#[test]
fn an_empty_booklet_has_no_pages_and_an_empty_section_only_its_title() {
    assert!(pages(&booklet(setting(Paper::A4), Vec::new())).pages.is_empty());
    let list = pages(&booklet(
        setting(Paper::A4),
        vec![section("one", "One", vec![Block::NewPage, Block::NewPage])],
    ));
    assert_eq!(list.pages.len(), 1);
}
