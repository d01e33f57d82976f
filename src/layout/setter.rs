//! What every block is set with: the style sheet, the shaper and the growing structure; and how lines
//! of text become pieces of a page.

use super::collect::Hyphens;
use super::contents::Listed;
use super::faces::cap_height;
use super::fragment::{Fragment, Goal, LinkTo, OpenLink, Slab, line};
use super::lines::{Breaking, SetLine, break_text};
use super::shape::Shaper;
use super::sheet::{Sheet, Style};
use super::tree::{Tree, within};
use super::{Glyph, Glyphs, Item, NodeId, Paint, Role};
use crate::booklet::{Booklet, Place, Placed, RunStyle, Text};
use crate::colour::Colour;
use crate::drawn::{Align, Face};
use crate::units::{Mm, Point, Pt, Size};
use std::collections::BTreeSet;

/// Thickness of the line under a link.
const LINK_LINE: Mm = Mm(0.12);

/// How far the area of a link that looks as its words do reaches beyond them, in ems: a finger is wider than a digit.
const QUIET_REACH: f64 = 0.5;

/// What it costs to part a paragraph: see `layout::fit`.
const PARTED: f64 = 60.0;

/// How a label is written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ink {
    pub face: Face,
    pub size: Pt,
    pub colour: Colour,
}

/// What a number or mark leads to, the place that it is itself with its height, and what it says.
#[derive(Clone, Copy, Debug)]
pub(super) struct Linked<'s> {
    pub to: Place,
    pub here: Option<(Place, Mm)>,
    pub said: &'s str,
}

/// What blocks are set with.
pub(super) struct Setter<'b> {
    /// The booklet.
    pub booklet: &'b Booklet,
    /// Its style sheet.
    pub sheet: Sheet,
    /// Its shaper.
    pub shaper: Shaper,
    /// Its structure.
    pub tree: Tree,
    /// Its language's hyphenation; `None` when there is none for it.
    pub lang: Option<hypher::Lang>,
    /// What has a line in the contents besides the sections, each with the section before whose line it stands.
    pub listed: Vec<(usize, Listed)>,
    /// Names of form fields given so far by layout itself.
    names: BTreeSet<String>,
    /// The element that holds the links at the foot of screens, once there is one.
    pub screen_links_in: Option<NodeId>,
}

impl<'b> Setter<'b> {
    /// Ready to set a booklet.
    pub fn new(booklet: &'b Booklet) -> Setter<'b> {
        let lang = match booklet.meta.language.as_bytes() {
            [a, b, ..] => hypher::Lang::from_iso([a.to_ascii_lowercase(), b.to_ascii_lowercase()]),
            _ => None,
        };
        Setter {
            booklet,
            sheet: Sheet::new(&booklet.setting),
            shaper: Shaper::new(booklet.setting.fonts),
            tree: Tree::new(),
            lang,
            listed: Vec::new(),
            names: BTreeSet::new(),
            screen_links_in: None,
        }
    }

    /// A field name that no other box of layout's own has.
    pub fn unique(&mut self, name: String) -> String {
        let taken = |n: &usize| !self.names.contains(&numbered(&name, *n));
        let free = (1..).find(taken).unwrap_or(1);
        let name = numbered(&name, free);
        self.names.insert(name.clone());
        name
    }

    /// How running text is broken.
    pub fn running(&self) -> Breaking {
        let hyphens = self.lang.map_or(Hyphens::IfNeeded(None), Hyphens::Freely);
        Breaking { hyphens, balanced: false }
    }
    /// How cells and labels are broken.
    pub fn plain(&self) -> Breaking {
        Breaking { hyphens: Hyphens::IfNeeded(self.lang), balanced: false }
    }
    /// How headings are broken.
    pub fn balanced(&self) -> Breaking {
        Breaking { hyphens: Hyphens::IfNeeded(self.lang), balanced: true }
    }

    /// Sets a text as lines, each a piece of one leading's height. Its links become children of `node`.
    pub fn lines(
        &mut self,
        text: &Text,
        style: &Style,
        width: Mm,
        how: Breaking,
        align: Align,
        node: NodeId,
    ) -> Vec<Fragment> {
        let lines = break_text(&mut self.shaper, text, style, width, how);
        self.shaper.name_missing(text);
        let nodes = self.run_nodes(text, node);
        lines.into_iter().map(|l| self.line_piece(l, text, style, width, align, &nodes)).collect()
    }

    /// Sets a text as one piece.
    pub fn block(
        &mut self,
        text: &Text,
        style: &Style,
        width: Mm,
        how: Breaking,
        align: Align,
        node: NodeId,
    ) -> Fragment {
        let lines = self.lines(text, style, width, how, align, node);
        let mut whole = Fragment::default();
        for one in lines {
            whole.put_below(one, Mm::ZERO);
        }
        whole
    }

    /// The node of each run: links have their own, and beside links plain runs do too, so that the order of
    /// reading is plain from the tree alone.
    fn run_nodes(&mut self, text: &Text, node: NodeId) -> Vec<NodeId> {
        let linked: Vec<bool> = text.0.iter().map(|run| self.link_of(&run.style).is_some()).collect();
        if !linked.contains(&true) {
            return vec![node; linked.len()];
        }
        let role = |linked| if linked { Role::Link } else { Role::Span };
        linked.into_iter().map(|linked| self.tree.add(node, role(linked))).collect()
    }

    /// Where a run leads; a section that is not in this booklet is no place to lead to.
    fn link_of(&self, style: &RunStyle) -> Option<LinkTo> {
        match style {
            RunStyle::SectionLink(name) => {
                let is_there = self.booklet.sections.iter().any(|section| section.name == *name);
                is_there.then(|| LinkTo::Section(name.clone()))
            }
            RunStyle::WebLink(address) => Some(LinkTo::Web(address.clone())),
            RunStyle::Leads { to, .. } => Some(LinkTo::Place(*to)),
            RunStyle::Plain | RunStyle::Strong | RunStyle::Emphasis => None,
        }
    }

    fn line_piece(
        &self,
        set: SetLine,
        text: &Text,
        style: &Style,
        width: Mm,
        align: Align,
        nodes: &[NodeId],
    ) -> Fragment {
        let mut piece = Fragment { height: style.leading, ..Fragment::default() };
        let baseline = baseline(style);
        let mut x = match align {
            Align::Start => Mm::ZERO,
            Align::Middle => (width - set.width) / 2.0,
            Align::End => width - set.width,
        };
        for part in set.pieces {
            let at = Point { x, y: baseline };
            let run = &text.0[part.run];
            let to = self.link_of(&run.style);
            // What leads to a place looks as its words do.
            let quiet = matches!(run.style, RunStyle::Leads { .. });
            let colour = if to.is_some() && !quiet { self.sheet.accent_text } else { style.colour };
            let blank = part
                .glyphs
                .iter()
                .rev()
                .take_while(|g| g.text.as_str() == " ")
                .map(|g| g.advance)
                .sum::<f64>();
            let seen = part.width - style.size.mm() * (blank / 1000.0);
            if let Some(to) = to.filter(|_| seen.0 > 0.0) {
                let said = run.text.trim();
                let alt = match &to {
                    LinkTo::Place(place) => self.place_told(*place, said),
                    LinkTo::Section(_) | LinkTo::Web(_) => {
                        let y = baseline + style.size.mm() * 0.13;
                        piece.rule(line(Point { x, y }, Point { x: x + seen, y }, colour, LINK_LINE));
                        said.to_owned()
                    }
                };
                let reach = if quiet { style.size.mm() * QUIET_REACH } else { Mm::ZERO };
                let size = Size { width: seen + reach * 2.0, height: style.leading };
                let at = Point { x: x - reach, y: Mm::ZERO };
                piece.links.push(OpenLink { at, size, to, node: nodes[part.run], alt });
                if let RunStyle::Leads { here: place @ Some(_), .. } = run.style {
                    piece.goals.push(Goal { y: Mm::ZERO, section: None, place, bookmark: None });
                }
            }
            piece.items.push(glyph_item(part.face, style.size, colour, at, part.glyphs, nodes[part.run]));
            x += part.width;
        }
        piece
    }

    /// What a link to a place says, which is a number or a mark itself: `Row 5, on the colour chart`.
    pub fn place_told(&self, place: Place, said: &str) -> String {
        let words = &self.booklet.words;
        match place.what {
            Placed::ChartRow(row) => format!("{}, {}", words.row.with([row]), words.on_chart),
            Placed::ChartStrand(strand) => format!("{}, {}", words.strand.with([strand]), words.on_chart),
            Placed::ChartMark(_) => format!("{said}, {}", words.on_chart),
            Placed::Row(row) => format!("{}, {}", words.row.with([row]), words.in_rows),
            Placed::Strand(strand) => format!("{}, {}", words.strand.with([strand]), words.in_strands),
            Placed::Step(step) => words.step.with([step]),
        }
    }

    /// Makes a link of a number that stands by itself, and a place that others lead to.
    pub fn number_link(&mut self, piece: &mut Fragment, node: NodeId, area: (Point, Size), of: Linked) {
        let (at, size) = area;
        let alt = self.place_told(of.to, of.said);
        piece.links.push(OpenLink { at, size, to: LinkTo::Place(of.to), node, alt });
        if let Some((place, y)) = of.here {
            piece.goals.push(Goal { y, section: None, place: Some(place), bookmark: None });
        }
    }

    /// What comes of setting something that is not to be kept: its structure is thrown away.
    pub fn tried<T>(&mut self, set: impl FnOnce(&mut Self) -> T) -> T {
        let kept = std::mem::replace(&mut self.tree, Tree::new());
        let set = set(self);
        self.tree = kept;
        set
    }

    /// A short text on one line, placed by its baseline.
    pub fn label(&mut self, ink: Ink, text: &str, at: Point, align: Align, node: NodeId) -> Vec<Item> {
        let Ink { face, size, colour } = ink;
        let shaped = self.shaper.shape(face, text);
        let width = shaped.width(size);
        let mut x = match align {
            Align::Start => at.x,
            Align::Middle => at.x - width / 2.0,
            Align::End => at.x - width,
        };
        let mut items = Vec::new();
        for stretch in &shaped.stretches {
            let place = Point { x, y: at.y };
            items.push(glyph_item(stretch.face, size, colour, place, stretch.glyphs.clone(), node));
            x += size.mm() * (stretch.glyphs.iter().map(|g| g.advance).sum::<f64>() / 1000.0);
        }
        items
    }

    /// Sets a paragraph as slabs, a line each, with two lines at least at either end of a page.
    pub fn paragraph(&mut self, text: &Text, style: &Style, width: Mm, node: NodeId) -> Vec<Slab> {
        let how = self.running();
        let lines = self.lines(text, style, width, how, Align::Start, node);
        let space = style.leading * 0.45;
        let count = lines.len();
        lines
            .into_iter()
            .enumerate()
            .map(|(i, fragment)| Slab {
                fragment,
                before: if i == 0 { space } else { Mm::ZERO },
                after: if i + 1 == count { space } else { Mm::ZERO },
                keep_next: i + 1 < count && (i == 0 || i + 2 == count),
                tie: if i + 1 < count { PARTED } else { 0.0 },
                ..Slab::default()
            })
            .collect()
    }
}

/// Where the baseline lies in a line: capitals stand in its middle.
pub(super) fn baseline(style: &Style) -> Mm {
    (style.leading + cap_height(style.face, style.size)) / 2.0
}

/// An item of glyphs.
pub(super) fn glyph_item(
    face: Face,
    size: Pt,
    colour: Colour,
    at: Point,
    glyphs: Vec<Glyph>,
    node: NodeId,
) -> Item {
    let paint = Paint::Glyphs(Glyphs { face, size, colour, at, glyphs, halo: None });
    Item { standing: within(node), layer: None, paint }
}

fn numbered(name: &str, n: usize) -> String {
    if n == 1 { name.to_owned() } else { format!("{name}-{n}") }
}
