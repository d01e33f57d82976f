//! A small booklet's display list in a readable form.

use super::probe::{pages, words};
use crate::support::booklets::{booklet, figure, materials, para, section, setting, step};
use fringebook::booklet::{Block, CalloutKind, Text};
use fringebook::design::Paper;
use fringebook::layout::{DisplayList, NodeId, Paint, Standing, Target};
use std::fmt::Write;

#[test]
fn a_small_booklet() {
    let blocks = vec![
        para("Pick up **2 A** and see [our page](https://lantern-and-loom.example)."),
        Block::List { numbered: true, items: vec![Text::plain("First."), Text::plain("Second.")] },
        Block::Callout {
            kind: CalloutKind::Check,
            title: Text::plain("Count"),
            blocks: vec![para("Nine beads.")],
        },
        step(1, vec![figure(58.0, 30.0)]),
    ];
    let sections = vec![
        section("one", "One", vec![Block::Contents, Block::Table(materials(2))]),
        section("two", "Two", blocks),
    ];
    insta::assert_snapshot!(readable(&pages(&booklet(setting(Paper::A4), sections))));
}

/// A line an item: what it is, where, in which node.
fn readable(list: &DisplayList) -> String {
    let mut out = String::new();
    for (number, page) in list.pages.iter().enumerate() {
        let _ = writeln!(
            out,
            "page {} “{}” {} × {} mm",
            number + 1,
            page.label,
            page.size.width.0,
            page.size.height.0
        );
        for item in &page.items {
            let place = match item.standing {
                Standing::Content(node) => path(list, node),
                Standing::Artifact(kind) => format!("{kind:?}"),
            };
            let layer = item.layer.map_or(String::new(), |l| format!(" on {l:?}"));
            let what = match &item.paint {
                Paint::Glyphs(g) => format!(
                    "{:.1} {:.1}  {:?} {} {} “{}”",
                    g.at.x.0,
                    g.at.y.0,
                    g.face,
                    g.size.0,
                    g.colour.hex(),
                    words(g)
                ),
                Paint::Bead(b) => format!(
                    "{:.1} {:.1}  {:?} {:.1} × {:.1} {} {:?}",
                    b.centre.x.0,
                    b.centre.y.0,
                    b.shape,
                    b.width.0,
                    b.length.0,
                    b.colour.hex(),
                    b.look
                ),
                Paint::Path(p) => {
                    let fill = p.fill.map_or(String::new(), |f| format!(" filled {}", f.hex()));
                    let pen = p
                        .stroke
                        .as_ref()
                        .map_or(String::new(), |s| format!(" drawn {} {:.2}", s.colour.hex(), s.width.0));
                    format!("path of {}{fill}{pen}", p.segments.len())
                }
                Paint::Image(i) => format!("{:.1} {:.1}  image", i.at.x.0, i.at.y.0),
            };
            let _ = writeln!(out, "  {what}{layer}  [{place}]");
        }
        for link in &page.links {
            let target = match &link.target {
                Target::Page { page, y } => format!("page {} at {:.1}", page + 1, y.0),
                Target::Web(address) => address.clone(),
            };
            let _ = writeln!(out, "  link {:.1} {:.1} “{}” to {target}", link.at.x.0, link.at.y.0, link.alt);
        }
        for tick in &page.ticks {
            let _ = writeln!(out, "  box {:.1} {:.1} {}", tick.at.x.0, tick.at.y.0, tick.name);
        }
    }
    for mark in &list.bookmarks {
        let _ = writeln!(
            out,
            "bookmark {} “{}” page {} at {:.1}",
            mark.level,
            mark.title,
            mark.page + 1,
            mark.y.0
        );
    }
    out
}

/// The roles from the section down to a node.
fn path(list: &DisplayList, node: NodeId) -> String {
    let mut roles = Vec::new();
    let mut at = Some(node);
    while let Some(id) = at {
        roles.push(format!("{:?}", list.nodes[id.0].role).split([' ', '{']).next().unwrap_or("").to_owned());
        at = list.nodes[id.0].parent;
    }
    roles.pop();
    roles.reverse();
    roles.join(" > ")
}
