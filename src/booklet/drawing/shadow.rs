//! The shadow that a finished earring throws on what it lies on.

use crate::drawn::{BeadLook, BeadMark, Mark, PathMark, Segment, ShadowMark};
use crate::units::{Mm, Point};

/// How many beads one below the other are taken for a strand.
const STRAND: usize = 6;

/// The shadow of marks: of beads along their holes, of wire along itself.
pub(super) fn shadow(marks: &[Mark]) -> ShadowMark {
    let mut lines: Vec<(Mm, Vec<Segment>)> = Vec::new();
    let mut add = |width: Mm, line: Vec<Segment>| match lines.iter_mut().find(|(other, _)| *other == width) {
        Some((_, lines)) => lines.extend(line),
        None => lines.push((width, line)),
    };
    let beads: Vec<&BeadMark> = marks.iter().filter_map(bead).collect();
    let (strands, others): (Vec<&[&BeadMark]>, Vec<&[&BeadMark]>) =
        beads.chunk_by(|last, next| follows(last, next)).partition(|run| run.len() >= STRAND);
    // Beads on one straight piece of thread throw one shadow, and so do those that lie side by side in a row.
    for run in strands {
        add(
            run[0].width,
            vec![Segment::Move(end(run[0], -1.0)), Segment::Line(end(run[run.len() - 1], 1.0))],
        );
    }
    let mut rows: Vec<&BeadMark> = others.concat();
    rows.sort_by(|a, b| a.centre.y.0.total_cmp(&b.centre.y.0).then(a.centre.x.0.total_cmp(&b.centre.x.0)));
    for run in rows.chunk_by(|left, right| beside(left, right)) {
        let (left, right) = (run[0], run[run.len() - 1]);
        let [from, to] = match run {
            [only] => [end(only, -1.0), end(only, 1.0)],
            _ => [across(left, -1.0), across(right, 1.0)],
        };
        let wide = if run.len() > 1 { left.length } else { left.width };
        add(wide, vec![Segment::Move(from), Segment::Line(to)]);
    }
    let mut before: Option<&PathMark> = None;
    for path in marks.iter().filter_map(path) {
        // A tube is its edge, its body and its light along one line: the first is the widest.
        if before.is_none_or(|before| before.segments != path.segments)
            && let Some(stroke) = &path.stroke
        {
            add(stroke.width, path.segments.clone());
        }
        before = Some(path);
    }
    ShadowMark { lines }
}

fn bead(mark: &Mark) -> Option<&BeadMark> {
    match mark {
        Mark::Bead(bead) if matches!(bead.look, BeadLook::Lifelike(_)) => Some(bead),
        _ => None,
    }
}

fn path(mark: &Mark) -> Option<&PathMark> {
    match mark {
        Mark::Path(path) => Some(path),
        _ => None,
    }
}

/// Whether a bead lies on the other's thread, right below it or above it, and is as wide.
fn follows(before: &BeadMark, next: &BeadMark) -> bool {
    let near = (before.length + next.length) * 0.6;
    before.width == next.width
        && (before.turned - next.turned).abs() < 4.0
        && before.centre.distance(next.centre) <= near
        && (before.centre.x - next.centre.x).0.abs() < 0.25 * before.width.0
}

/// Whether a bead lies right of another in its row, and is as long.
fn beside(left: &BeadMark, right: &BeadMark) -> bool {
    let upright = |bead: &BeadMark| bead.turned == 0.0;
    left.centre.y == right.centre.y
        && left.length == right.length
        && upright(left)
        && upright(right)
        && (right.centre.x - left.centre.x).0 <= 0.55 * (left.width + right.width).0
}

/// Where the round end of a line as wide as a row is high stands, so that it reaches to the bead's own side.
fn across(bead: &BeadMark, side: f64) -> Point {
    let half = ((bead.width - bead.length) / 2.0).0.max(0.0) * side;
    Point::new(bead.centre.x.0 + half, bead.centre.y.0)
}

/// Where the round end of a line as wide as the bead stands, so that it reaches to the bead's own.
fn end(bead: &BeadMark, side: f64) -> Point {
    let (sin, cos) = bead.turned.to_radians().sin_cos();
    let half = ((bead.length.0 - 0.7 * bead.width.0) / 2.0).max(0.0) * side;
    Point::new(bead.centre.x.0 - sin * half, bead.centre.y.0 + cos * half)
}
