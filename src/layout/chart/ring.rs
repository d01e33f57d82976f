//! Letters on loops: the beads of a tight ring overlap at its inner side, so their letters stand nearer to the outer one.

use super::part::View;
use crate::booklet::ChartBead;
use crate::drawn::{Face, Shape};
use crate::layout::faces::cap_height;
use crate::layout::setter::Setter;
use crate::stitch::SectionKind;
use crate::units::{Mm, Point, Pt};
use std::collections::BTreeMap;

/// How far outwards letters may stand, as shares of their beads' width, the least first.
const OUTWARDS: [f64; 7] = [0.0, 0.04, 0.08, 0.12, 0.16, 0.2, 0.24];

/// How far outwards the letters of each loop stand, as a share of their beads' width, and the middle of the loop.
pub(super) struct Rings(BTreeMap<usize, (Point, f64)>);

/// A bead of a loop with the half width and half height of its letter, on the page.
struct Lettered<'c> {
    bead: &'c ChartBead,
    centre: Point,
    across: f64,
    down: f64,
}

impl Setter<'_> {
    /// Of the loops that a view shows, with letters of a size.
    pub(super) fn rings(&mut self, shown: &[(usize, &ChartBead)], view: &View, size: Pt) -> Rings {
        let mut loops: BTreeMap<usize, Vec<Lettered>> = BTreeMap::new();
        for (_, bead) in shown.iter().filter(|(_, bead)| bead.kind == SectionKind::Loop) {
            let across = self.shaper.shape(Face::Letters, &bead.letter.to_string()).width(size).0 / 2.0;
            let down = cap_height(Face::Letters, size).0 / 2.0;
            let lettered = Lettered { bead, centre: view.centre(bead), across, down };
            loops.entry(bead.number).or_default().push(lettered);
        }
        let of = |(number, beads): (usize, Vec<Lettered>)| {
            let middle = middle(&beads);
            let covered = |share: f64| {
                let of = |bead: &Lettered| bead.covered(middle, share, view.scale, &beads);
                beads.iter().map(of).sum::<usize>()
            };
            let best = OUTWARDS.into_iter().map(|share| (covered(share), share));
            // The first of those that are alike.
            let best = best.reduce(|best, other| if other.0 < best.0 { other } else { best });
            (number, (middle, best.map_or(0.0, |(_, share)| share)))
        };
        Rings(loops.into_iter().map(of).collect())
    }
}

impl Rings {
    /// The middle of a bead's letter, whose bead has its middle at a point.
    pub(super) fn letter(&self, bead: &ChartBead, centre: Point, scale: f64) -> Point {
        let of = self.0.get(&bead.number).filter(|_| bead.kind == SectionKind::Loop);
        of.map_or(centre, |(middle, share)| outwards(bead, centre, *middle, *share, scale))
    }
}

fn middle(beads: &[Lettered]) -> Point {
    let many = beads.len().max(1) as f64;
    let sum = |of: fn(&Lettered) -> Mm| beads.iter().map(of).sum::<Mm>() / many;
    Point { x: sum(|bead| bead.centre.x), y: sum(|bead| bead.centre.y) }
}

/// A point of a bead, so much of its width away from its middle, on the side away from the middle of its loop.
fn outwards(bead: &ChartBead, centre: Point, middle: Point, share: f64, scale: f64) -> Point {
    let (sin, cos) = bead.turned.to_radians().sin_cos();
    let towards = (centre.x - middle.x) * cos + (centre.y - middle.y) * sin;
    let far = bead.width * (scale * share * if towards < Mm::ZERO { -1.0 } else { 1.0 });
    Point { x: centre.x + far * cos, y: centre.y + far * sin }
}

impl Lettered<'_> {
    /// How many points round its letter lie on other beads of the loop, or beside its own.
    fn covered(&self, middle: Point, share: f64, scale: f64, beads: &[Lettered]) -> usize {
        let at = outwards(self.bead, self.centre, middle, share, scale);
        let grid = [-1.0, 0.0, 1.0];
        let round = grid.into_iter().flat_map(|dx| grid.map(|dy| (dx, dy)));
        let points =
            round.map(|(dx, dy)| Point { x: at.x + Mm(self.across * dx), y: at.y + Mm(self.down * dy) });
        let wrong = |point: &Point| {
            let others = || beads.iter().filter(|other| !std::ptr::eq(*other, self));
            !self.holds(*point, scale) || others().any(|other| other.holds(*point, scale))
        };
        points.filter(wrong).count()
    }

    /// Whether its bead lies over a point of the page.
    fn holds(&self, point: Point, scale: f64) -> bool {
        let (sin, cos) = self.bead.turned.to_radians().sin_cos();
        let (dx, dy) = (point.x - self.centre.x, point.y - self.centre.y);
        let across = (dx * cos + dy * sin) / (self.bead.width * (scale / 2.0));
        let along = (dy * cos - dx * sin) / (self.bead.length * (scale / 2.0));
        match self.bead.shape {
            Shape::Round => across.hypot(along) < 1.0,
            Shape::Cylinder | Shape::Drop | Shape::Bugle | Shape::Faceted | Shape::Cube => {
                across.abs() < 1.0 && along.abs() < 1.0
            }
        }
    }
}
