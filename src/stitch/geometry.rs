//! Where every bead lies.

use super::ground::Ground;
use super::needs::Needs;
use super::{Geometry, Lying, Spot, StackAt, Way, hang};
use crate::design::{LetterId, Side};
use crate::units::{Mm, Point};

/// Where every bead lies; the loop is strung from the side `near`.
pub(super) fn lay(ground: &Ground, needs: &Needs, near: Side) -> Geometry {
    let mut beads = body(ground, needs);
    beads.extend(bead_loop(ground, needs, near));
    beads.extend(strands(ground, needs));
    let bounds = bounds(&beads, needs);
    let longest = |l: Mm, strand| l.max(needs.strand_length(strand));
    Geometry {
        beads,
        body_width: ground.width(),
        body_height: ground.height(),
        longest_strand: needs.strands.iter().fold(Mm::ZERO, longest),
        bounds,
        stack_width: ground.stack_width,
        stack_height: ground.stack_height(),
    }
}

fn body(ground: &Ground, needs: &Needs) -> Vec<Lying> {
    let mut beads = Vec::new();
    for row in 0..ground.rows() {
        for (stack, letters) in needs.stacks(row).iter().enumerate() {
            for (level, &letter) in letters.0.iter().enumerate() {
                beads.push(Lying {
                    spot: Spot::Body { row, stack, level },
                    letter,
                    centre: ground.bead_centre(StackAt { row, stack }, level),
                    turned: 0.0,
                });
            }
        }
    }
    beads
}

fn bead_loop(ground: &Ground, needs: &Needs, near: Side) -> Vec<Lying> {
    let letters = needs.loop_beads();
    if letters.is_empty() {
        return Vec::new();
    }
    let ends = hang::loop_hole_ends(ground, needs, near);
    let lying = |(bead, (&letter, ends)): (usize, (&LetterId, &[Point]))| {
        let (from, to) = (ends[0], ends[1]);
        Lying {
            spot: Spot::Loop { bead },
            letter,
            centre: Point { x: (from.x + to.x) / 2.0, y: (from.y + to.y) / 2.0 },
            turned: turned(from, to),
        }
    };
    letters.iter().zip(ends.windows(2)).enumerate().map(lying).collect()
}

/// How far a hole that runs between two points is turned from upright, clockwise, over −90 to 90 degrees.
fn turned(from: Point, to: Point) -> f64 {
    let degrees = (to.x - from.x).0.atan2((from.y - to.y).0).to_degrees();
    match degrees {
        d if d > 90.0 => d - 180.0,
        d if d <= -90.0 => d + 180.0,
        d => d,
    }
}

fn strands(ground: &Ground, needs: &Needs) -> Vec<Lying> {
    let mut beads = Vec::new();
    for (strand, hanging) in needs.strands.iter().enumerate().take(ground.stacks(0)) {
        let mut at = ground.hole_end(StackAt { row: 0, stack: strand }, Way::Down);
        for (bead, &letter) in hanging.beads.iter().enumerate() {
            let length = needs.bead(letter).length;
            beads.push(Lying {
                spot: Spot::Strand { strand, bead },
                letter,
                centre: Point { x: at.x, y: at.y + length / 2.0 },
                turned: 0.0,
            });
            at.y += length;
        }
    }
    beads
}

/// Outer edges of all beads: left top and right bottom.
fn bounds(beads: &[Lying], needs: &Needs) -> (Point, Point) {
    let mut edges: Option<(Point, Point)> = None;
    for lying in beads {
        let bead = needs.bead(lying.letter);
        let (sin, cos) = lying.turned.to_radians().sin_cos();
        let across = bead.width * cos.abs() + bead.length * sin.abs();
        let down = bead.width * sin.abs() + bead.length * cos.abs();
        let (left, right) = (lying.centre.x - across / 2.0, lying.centre.x + across / 2.0);
        let (top, bottom) = (lying.centre.y - down / 2.0, lying.centre.y + down / 2.0);
        let (least, most) = edges.unwrap_or((Point { x: left, y: top }, Point { x: right, y: bottom }));
        edges = Some((
            Point { x: least.x.min(left), y: least.y.min(top) },
            Point { x: most.x.max(right), y: most.y.max(bottom) },
        ));
    }
    edges.unwrap_or_default()
}
