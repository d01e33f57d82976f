//! How far a chart reaches, in millimetres of the earring.

use crate::booklet::{Chart, ChartBead};
use crate::units::{Mm, Point};

/// A rectangle in millimetres of the earring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::layout) struct Extent {
    pub left: Mm,
    pub right: Mm,
    pub top: Mm,
    pub bottom: Mm,
}

impl Extent {
    pub fn width(&self) -> Mm {
        self.right - self.left
    }
    pub fn height(&self) -> Mm {
        self.bottom - self.top
    }
    /// The box round points.
    pub fn round(points: &[Point]) -> Extent {
        let none =
            Extent { left: Mm(f64::MAX), right: Mm(f64::MIN), top: Mm(f64::MAX), bottom: Mm(f64::MIN) };
        points.iter().fold(none, |e, p| Extent {
            left: e.left.min(p.x),
            right: e.right.max(p.x),
            top: e.top.min(p.y),
            bottom: e.bottom.max(p.y),
        })
    }
    /// Larger by so much at every side.
    pub fn grown(&self, by: Mm) -> Extent {
        let Extent { left, right, top, bottom } = *self;
        Extent { left: left - by, right: right + by, top: top - by, bottom: bottom + by }
    }
    /// Elsewhere.
    pub fn moved(&self, by: Point) -> Extent {
        let Extent { left, right, top, bottom } = *self;
        Extent { left: left + by.x, right: right + by.x, top: top + by.y, bottom: bottom + by.y }
    }
    /// Whether they have points in common, more than an edge.
    pub fn meets(&self, other: &Extent) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
    /// Whether a point lies in it, its edges included.
    pub fn holds(&self, p: Point) -> bool {
        self.left <= p.x && p.x <= self.right && self.top <= p.y && p.y <= self.bottom
    }
}

/// Half of what a bead takes across and down, however it is turned.
pub(super) fn half(bead: &ChartBead) -> (Mm, Mm) {
    let (sin, cos) = bead.turned.to_radians().sin_cos();
    let across = bead.width * cos.abs() + bead.length * sin.abs();
    let down = bead.width * sin.abs() + bead.length * cos.abs();
    (across / 2.0, down / 2.0)
}

/// The extent of beads; nothing for none.
pub(super) fn of_beads<'c>(beads: impl Iterator<Item = &'c ChartBead>) -> Extent {
    let none = Extent { left: Mm(f64::MAX), right: Mm(f64::MIN), top: Mm(f64::MAX), bottom: Mm(f64::MIN) };
    let reach = beads.fold(none, |e, b| {
        let (across, down) = half(b);
        Extent {
            left: e.left.min(b.centre.x - across),
            right: e.right.max(b.centre.x + across),
            top: e.top.min(b.centre.y - down),
            bottom: e.bottom.max(b.centre.y + down),
        }
    });
    if reach == none {
        Extent { left: Mm::ZERO, right: Mm(1.0), top: Mm::ZERO, bottom: Mm(1.0) }
    } else {
        reach
    }
}

/// The largest bead of a chart, across and down.
pub(super) fn largest(chart: &Chart) -> (Mm, Mm) {
    chart.beads.iter().map(half).fold((Mm(0.1), Mm(0.1)), |(w, h), (a, d)| (w.max(a * 2.0), h.max(d * 2.0)))
}
