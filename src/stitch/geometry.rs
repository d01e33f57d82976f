//! How large everything is.

use super::ground::Ground;
use super::needs::Needs;
use super::{Fabric, Geometry, Lying};
use crate::units::{Mm, Point};

/// Measures an earring.
pub(super) fn measure(ground: &Ground, fabric: &Fabric, needs: &Needs) -> Geometry {
    let longest = |l: Mm, strand| l.max(needs.strand_length(strand));
    let body = needs.body.rows.iter().flat_map(|row| row.stacks.iter().flat_map(|stack| &stack.0));
    // That of a tip may be wider than all the stacks of the other rows.
    let widest = body.map(|bead| needs.bead(*bead).width).fold(Mm::ZERO, Mm::max);
    Geometry {
        body_width: ground.width().max(widest),
        body_height: ground.height(),
        longest_strand: needs.strands.iter().fold(Mm::ZERO, longest),
        bounds: bounds(&fabric.beads, needs),
        stack_width: ground.stack_width,
        stack_height: ground.stack_height(),
    }
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
