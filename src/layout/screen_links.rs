//! What is pressed at the foot of every screen of a tablet edition: back, contents, chart, forward.

use super::faces::cap_height;
use super::finish::{ABOVE_GOAL, Begin, Begins};
use super::fragment::line;
use super::setter::{Ink, Setter};
use super::sheet::SCREEN_LINKS;
use super::tree::Tree;
use super::{Artifact, Item, Link, Paint, Role, Standing, Target};
use crate::booklet::Place;
use crate::drawn::{Align, Face};
use crate::units::{Mm, Point, Size};

/// Pen of the rule over the links.
const RULE: Mm = Mm(0.2);

impl Setter<'_> {
    /// Adds the links of a page, which is one of so many. The chart is that of what the page tells. Where there is nothing to
    /// lead to the place stays empty.
    pub(super) fn screen_links(
        &mut self,
        (page, pages): (usize, usize),
        on_chart: Option<Place>,
        begins: &Begins,
        (items, links): (&mut Vec<Item>, &mut Vec<Link>),
    ) {
        let top = self.sheet.page.height - SCREEN_LINKS;
        let side = self.sheet.side;
        let width = self.sheet.width() / 4.0;
        let section = |name: &str| begins.sections.get(name);
        let to_page = |to: Option<usize>| to.filter(|to| *to < pages).map(|to| (to, Mm::ZERO));
        let above = |(to, y): &Begin| (*to, (*y - ABOVE_GOAL).max(Mm::ZERO));
        let chart = on_chart.and_then(|place| begins.places.get(&place)).or_else(|| section("chart"));
        // A place on this very page is where the reader is.
        let elsewhere = |(to, y): (usize, Mm)| (to != page).then_some((to, y));
        let goals = [
            to_page(page.checked_sub(1)),
            section("glance").map(above).and_then(elsewhere),
            chart.map(above).and_then(elsewhere),
            to_page(page.checked_add(1)),
        ];
        let [back, contents, chart, forward] = self.booklet.words.screen_links.clone();
        let words = [format!("← {back}"), contents, chart, format!("{forward} →")];
        let rule = line(
            Point { x: side, y: top },
            Point { x: self.sheet.page.width - side, y: top },
            self.sheet.hairline,
            RULE,
        );
        let standing = Standing::Artifact(Artifact::Layout);
        items.push(Item { standing, layer: None, paint: Paint::Path(rule) });
        let all = self.screen_links_node();
        let paragraph = self.tree.add(all, Role::Paragraph);
        let size = self.sheet.small.size;
        let baseline = top + (SCREEN_LINKS + cap_height(Face::Bold, size)) / 2.0;
        for (i, (goal, words)) in goals.into_iter().zip(words).enumerate() {
            let Some((to, y)) = goal else { continue };
            let node = self.tree.add(paragraph, Role::Link);
            let left = side + width * i as f64;
            let (x, align) = match i {
                0 => (left, Align::Start),
                3 => (left + width, Align::End),
                _ => (left + width / 2.0, Align::Middle),
            };
            let ink = Ink { face: Face::Bold, size, colour: self.sheet.accent_text };
            items.extend(self.label(ink, &words, Point { x, y: baseline }, align, node));
            links.push(Link {
                at: Point { x: left, y: top },
                size: Size { width, height: SCREEN_LINKS },
                target: Target::Page { page: to, y },
                node,
                alt: words,
            });
        }
    }

    /// The element that holds the links of all screens, read after everything else.
    fn screen_links_node(&mut self) -> super::NodeId {
        if let Some(node) = self.screen_links_in {
            return node;
        }
        let node = self.tree.add(Tree::ROOT, Role::Section);
        self.screen_links_in = Some(node);
        node
    }
}
