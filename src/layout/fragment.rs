//! Pieces of a page: items with a height, not yet on a page. Positions are from the piece's own top
//! left; what still lacks is the page, and with it the targets of links and the numbers in the contents.

use super::fit::{Begins, Measure};
use super::{Artifact, Item, Layer, NodeId, Paint, Path, Standing, TickBox};
use crate::booklet::Place;
use crate::colour::Colour;
use crate::drawn::{Segment, Stroke, rectangle};
use crate::units::{Mm, Point, Size};
use std::sync::Arc;

/// A piece of a page.
#[derive(Clone, Debug, Default)]
pub(super) struct Fragment {
    /// Its height.
    pub height: Mm,
    /// What is painted.
    pub items: Vec<Item>,
    /// Links.
    pub links: Vec<OpenLink>,
    /// Boxes to tick.
    pub ticks: Vec<TickBox>,
    /// Places that links and bookmarks lead to.
    pub goals: Vec<Goal>,
    /// Page numbers to fill in.
    pub numbers: Vec<OpenNumber>,
    /// Where the chart shows what it tells; `None` where it is about no row, strand or mark.
    pub on_chart: Option<Place>,
}

/// A link whose target's page is not known yet.
#[derive(Clone, Debug)]
pub(super) struct OpenLink {
    pub at: Point,
    pub size: Size,
    pub to: LinkTo,
    pub node: NodeId,
    pub alt: String,
}

/// Where a link is to lead.
#[derive(Clone, Debug)]
pub(super) enum LinkTo {
    /// To a section, by name.
    Section(String),
    /// To a place of the booklet.
    Place(Place),
    /// To a web address.
    Web(String),
}

/// A place that links and bookmarks lead to.
#[derive(Clone, Debug)]
pub(super) struct Goal {
    pub y: Mm,
    /// The section it opens, by name; `None` below a section.
    pub section: Option<String>,
    /// The place that it is; `None` for none.
    pub place: Option<Place>,
    /// Words and level of its bookmark.
    pub bookmark: Option<(String, u8)>,
}

/// A page number to fill in once the pages are known: an item with no glyphs yet, right-aligned at its place.
#[derive(Clone, Debug)]
pub(super) struct OpenNumber {
    /// Index of the item.
    pub item: usize,
    /// The section whose page is meant.
    pub section: String,
}

impl Fragment {
    /// Takes another piece in, moved.
    pub fn absorb(&mut self, other: Fragment, dx: Mm, dy: Mm) {
        let before = self.items.len();
        self.items.extend(other.items.into_iter().map(|mut item| {
            shift(&mut item.paint, dx, dy);
            item
        }));
        self.numbers.extend(other.numbers.into_iter().map(|n| OpenNumber { item: n.item + before, ..n }));
        self.links.extend(other.links.into_iter().map(|l| OpenLink { at: moved(l.at, dx, dy), ..l }));
        self.ticks.extend(other.ticks.into_iter().map(|t| TickBox { at: moved(t.at, dx, dy), ..t }));
        self.on_chart = self.on_chart.or(other.on_chart);
        self.goals.extend(other.goals.into_iter().map(|g| Goal { y: g.y + dy, ..g }));
    }

    /// Takes another piece in under what it has, with a space between.
    pub fn put_below(&mut self, other: Fragment, space: Mm) {
        let y = self.height + space;
        self.height = y + other.height;
        self.absorb(other, Mm::ZERO, y);
    }

    /// Gives its nodes the numbers that they have in a larger tree, see [`super::tree::Tree::append`]. The document
    /// itself stays what it is.
    pub fn renumber(&mut self, by: usize) {
        let renumber = |node: &mut NodeId| {
            if node.0 > 0 {
                node.0 += by;
            }
        };
        for item in &mut self.items {
            if let Standing::Content(node) = &mut item.standing {
                renumber(node);
            }
        }
        self.links.iter_mut().for_each(|link| renumber(&mut link.node));
        self.ticks.iter_mut().for_each(|tick| renumber(&mut tick.node));
    }

    /// Paints a path that is no content.
    pub fn rule(&mut self, path: Path) {
        self.items.push(Item {
            standing: Standing::Artifact(Artifact::Layout),
            layer: None,
            paint: Paint::Path(path),
        });
    }

    /// Paints a path that belongs to a node.
    pub fn path(&mut self, node: NodeId, layer: Option<Layer>, path: Path) {
        self.items.push(Item { standing: Standing::Content(node), layer, paint: Paint::Path(path) });
    }
}

pub(super) fn moved(p: Point, dx: Mm, dy: Mm) -> Point {
    Point { x: p.x + dx, y: p.y + dy }
}

/// Moves what is painted.
pub(super) fn shift(paint: &mut Paint, dx: Mm, dy: Mm) {
    match paint {
        Paint::Glyphs(g) => g.at = moved(g.at, dx, dy),
        Paint::Bead(b) => b.centre = moved(b.centre, dx, dy),
        Paint::Image(i) => i.at = moved(i.at, dx, dy),
        Paint::Path(p) => {
            for segment in &mut p.segments {
                *segment = segment.map(|p| moved(p, dx, dy));
            }
        }
    }
}

/// A piece as the pages take it: with its spaces and what it must stay with.
#[derive(Clone, Debug, Default)]
pub(super) struct Slab {
    /// The piece.
    pub fragment: Fragment,
    /// Space above, dropped at the head of a page; of two spaces that meet, the larger counts.
    pub before: Mm,
    /// Space below.
    pub after: Mm,
    /// Whether no page may end after it.
    pub keep_next: bool,
    /// Height that must be free below its group, or a new page begins: a section should not open at a page's foot.
    pub wants: Mm,
    /// What it costs to end a page after it, besides the white that is left: see [`super::fit`].
    pub tie: f64,
    /// What begins with it.
    pub begins: Begins,
    /// What it costs when that does not begin a page.
    pub below_others: f64,
    /// Whether it begins a section that is to face the one before.
    pub faces: bool,
    /// Least height that it can be set anew in; only charts in one part can.
    pub least: Option<Mm>,
    /// A heading to repeat above it when it comes to stand at the head of a page.
    pub repeat: Option<Arc<Fragment>>,
}

impl Slab {
    /// What pages ask of it.
    pub fn measure(&self) -> Measure {
        Measure {
            height: self.fragment.height,
            least: self.least.unwrap_or(self.fragment.height),
            before: self.before,
            after: self.after,
            repeat: self.repeat.as_ref().map_or(Mm::ZERO, |r| r.height),
            wants: self.wants,
            tie: self.tie,
            tied: self.keep_next,
            begins: self.begins,
            below_others: self.below_others,
            faces: self.faces,
        }
    }

    /// A piece with equal spaces above and below.
    pub fn spaced(fragment: Fragment, space: Mm) -> Slab {
        Slab { fragment, before: space, after: space, ..Slab::default() }
    }
}

/// Height of slabs one under the other, without the spaces at either end.
pub(super) fn height(slabs: &[Slab]) -> Mm {
    let inner: Mm = slabs.windows(2).map(|pair| pair[0].after.max(pair[1].before)).sum();
    slabs.iter().map(|s| s.fragment.height).sum::<Mm>() + inner
}

/// Sets slabs one under the other into one piece, without the spaces at either end.
pub(super) fn stack(slabs: Vec<Slab>) -> Fragment {
    let mut whole = Fragment::default();
    let mut after: Option<Mm> = None;
    for slab in slabs {
        let gap = after.map_or(Mm::ZERO, |a| a.max(slab.before));
        whole.put_below(slab.fragment, gap);
        after = Some(slab.after);
    }
    whole
}

/// A filled rectangle.
pub(super) fn filled(x: Mm, y: Mm, width: Mm, height: Mm, colour: Colour) -> Path {
    Path { segments: rectangle(Point { x, y }, Size { width, height }), fill: Some(colour), stroke: None }
}

/// A stroked rectangle.
pub(super) fn stroked(x: Mm, y: Mm, width: Mm, height: Mm, colour: Colour, pen: Mm) -> Path {
    Path {
        segments: rectangle(Point { x, y }, Size { width, height }),
        fill: None,
        stroke: Some(pen_of(colour, pen)),
    }
}

/// A straight line.
pub(super) fn line(from: Point, to: Point, colour: Colour, pen: Mm) -> Path {
    Path {
        segments: vec![Segment::Move(from), Segment::Line(to)],
        fill: None,
        stroke: Some(pen_of(colour, pen)),
    }
}

fn pen_of(colour: Colour, width: Mm) -> Stroke {
    Stroke { colour, width, dash: Vec::new(), round: false }
}
