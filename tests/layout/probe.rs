//! Readings of display lists that the tests share.

use crate::support::booklets::{full, setting};
use fringebook::booklet::Booklet;
use fringebook::design::Paper;
use fringebook::drawn::Segment;
use fringebook::layout::{DisplayList, Glyphs, Item, Page, Paint, Standing, lay_out};

/// A rectangle in millimetres of the page.
#[derive(Clone, Copy, Debug)]
pub struct Area {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Area {
    pub fn meets(&self, other: &Area) -> bool {
        let slack = 0.05;
        self.left + slack < other.right
            && other.left + slack < self.right
            && self.top + slack < other.bottom
            && other.top + slack < self.bottom
    }
}

/// A booklet laid out, or the test fails with its problems.
pub fn pages(booklet: &Booklet) -> DisplayList {
    lay_out(booklet).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// The booklet with every kind of block in each setting.
pub fn every_setting() -> Vec<(&'static str, Booklet)> {
    let mut list = Vec::new();
    for (name, paper) in [("A4", Paper::A4), ("Letter", Paper::Letter)] {
        list.push((name, full(setting(paper))));
    }
    let mut large = setting(Paper::A4);
    large.large_print = true;
    list.push(("large print", full(large)));
    let mut bench = setting(Paper::Letter);
    bench.bench = true;
    list.push(("bench", full(bench)));
    let mut grey = setting(Paper::A4);
    grey.grey = true;
    list.push(("grey", full(grey)));
    list
}

/// The words of a run of glyphs.
pub fn words(glyphs: &Glyphs) -> String {
    glyphs.glyphs.iter().map(|g| g.text.as_str()).collect()
}

/// Width of a run as seen: without a space at its end.
pub fn seen_width(glyphs: &Glyphs) -> f64 {
    let blank = glyphs.glyphs.iter().rev().take_while(|g| g.text.as_str() == " ").count();
    let seen = &glyphs.glyphs[..glyphs.glyphs.len() - blank];
    seen.iter().map(|g| g.advance).sum::<f64>() / 1000.0 * glyphs.size.mm().0
}

/// The box of a run, from capitals to descenders.
pub fn text_area(glyphs: &Glyphs) -> Area {
    let size = glyphs.size.mm().0;
    let (x, y) = (glyphs.at.x.0, glyphs.at.y.0);
    Area { left: x, top: y - 0.66 * size, right: x + seen_width(glyphs), bottom: y + 0.18 * size }
}

/// The box of an item.
pub fn area(item: &Item) -> Area {
    match &item.paint {
        Paint::Glyphs(g) => text_area(g),
        Paint::Bead(b) => {
            let (sin, cos) = b.turned.to_radians().sin_cos();
            let w = (b.width.0 * cos).abs() / 2.0 + (b.length.0 * sin).abs() / 2.0;
            let h = (b.width.0 * sin).abs() / 2.0 + (b.length.0 * cos).abs() / 2.0;
            let (x, y) = (b.centre.x.0, b.centre.y.0);
            Area { left: x - w, top: y - h, right: x + w, bottom: y + h }
        }
        Paint::Image(i) => Area {
            left: i.at.x.0,
            top: i.at.y.0,
            right: i.at.x.0 + i.size.width.0,
            bottom: i.at.y.0 + i.size.height.0,
        },
        Paint::Path(p) => {
            let points = p.segments.iter().flat_map(|s| match s {
                Segment::Move(p) | Segment::Line(p) => vec![*p],
                Segment::Curve(a, b, c) => vec![*a, *b, *c],
                Segment::Close => Vec::new(),
            });
            points.fold(Area { left: f64::MAX, top: f64::MAX, right: f64::MIN, bottom: f64::MIN }, |a, p| {
                Area {
                    left: a.left.min(p.x.0),
                    top: a.top.min(p.y.0),
                    right: a.right.max(p.x.0),
                    bottom: a.bottom.max(p.y.0),
                }
            })
        }
    }
}

/// Runs of glyphs of a page that are content.
pub fn content_runs(page: &Page) -> impl Iterator<Item = (&Item, &Glyphs)> {
    page.items.iter().filter_map(|item| match (&item.paint, item.standing) {
        (Paint::Glyphs(g), Standing::Content(_)) => Some((item, g)),
        _ => None,
    })
}
