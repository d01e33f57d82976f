//! How a loop of wire is opened: sideways, so that it keeps its round, and never outward. Common practice, no source.

use super::diagram::{arrowhead, disc};
use super::ear_wire::large_neck;
use super::findings::large_wire;
use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::design::EarWire;
use crate::drawn::{Drawing, Segment};
use crate::units::{Mm, Point};

/// Radius of the loop as it is drawn, and thickness of its wire.
const LOOP: f64 = 4.2;
const WIRE: f64 = 1.5;
/// From the middle of one view to that of the next.
const VIEWS_APART: f64 = 25.0;
/// How far the loop is turned to the side where it is seen to be open, in degrees.
const TURNED: f64 = 52.0;
/// How far its ends are moved apart.
const SIDEWAYS: f64 = 5.4;
/// How much of the round is missing where it has been pulled outward, in degrees, and how much wider it has become.
const OUTWARD: f64 = 66.0;
const WIDER: f64 = 1.16;
/// Straight pieces of a turn: so many that it looks round.
const PIECES: u32 = 72;
/// Length of an arrow, and its pen and that of the signs for right and wrong.
const ARROW: f64 = 5.0;
const ARROW_PEN: f64 = 0.5;
const SIGN_PEN: f64 = 0.8;
/// How far below the loop's middle numbers and signs stand.
const BELOW: f64 = 10.0;
const INK: Colour = Colour::new(0x33, 0x35, 0x3a);

/// Three views, numbered: the loop closed, opened sideways, and opened as it should not be. `wire` is the finding that
/// the loop belongs to; `None` for a ring by itself.
pub fn opening(wire: Option<EarWire>) -> Drawing {
    let mut sketch = Sketch::default();
    let centre = |view: usize| Point::new(VIEWS_APART * view as f64, 0.0);
    closed(&mut sketch, wire, centre(0));
    sideways(&mut sketch, wire, centre(1));
    outward(&mut sketch, wire, centre(2));
    for view in 0..3 {
        let aside = if view == 0 { 0.0 } else { -2.2 };
        disc(&mut sketch, view + 1, below(centre(view), aside), INK);
    }
    let sign = below(centre(1), 2.0);
    let at = |x: f64, y: f64| Point::new(sign.x.0 + x, sign.y.0 + y);
    let tick = vec![Segment::Move(at(-1.4, 0.1)), Segment::Line(at(-0.4, 1.2)), Segment::Line(at(1.6, -1.3))];
    sketch.line(tick, pen(INK, SIGN_PEN));
    let sign = below(centre(2), 2.0);
    for lean in [-1.0, 1.0] {
        let at = |share: f64| Point::new(sign.x.0 + 1.3 * share * lean, sign.y.0 + 1.3 * share);
        sketch.line(vec![Segment::Move(at(-1.0)), Segment::Line(at(1.0))], pen(INK, SIGN_PEN));
    }
    sketch.finish(Mm(0.6), false)
}

fn below(centre: Point, aside: f64) -> Point {
    Point::new(centre.x.0 + aside, centre.y.0 + BELOW)
}

/// A loop seen from its front, its ends together: a fine line where they meet.
fn closed(sketch: &mut Sketch, wire: Option<EarWire>, centre: Point) {
    turn(sketch, centre, LOOP, 360.0);
    let meet = |far: f64| on_round(centre, LOOP + far, -62.0);
    let cut = vec![Segment::Move(meet(-WIRE / 4.0)), Segment::Line(meet(WIRE / 4.0))];
    sketch.line(cut, pen(INK, 0.3));
    top(sketch, wire, centre, LOOP);
}

/// The same turned to the side, its free end moved towards the one who looks.
fn sideways(sketch: &mut Sketch, wire: Option<EarWire>, centre: Point) {
    let (sin, cos) = TURNED.to_radians().sin_cos();
    // From the neck round behind, and back in front of it: where, and how near to the one who looks.
    let at = |share: f64| {
        let angle = (-90.0 - 360.0 * share).to_radians();
        let (across, aside) = (LOOP * angle.cos(), SIDEWAYS * share);
        let place = Point::new(centre.x.0 + across * cos + aside * sin, centre.y.0 + LOOP * angle.sin());
        (place, aside * cos - across * sin)
    };
    let points: Vec<(Point, f64)> = (0..=PIECES).map(|i| at(f64::from(i) / f64::from(PIECES))).collect();
    let middle = SIDEWAYS * cos / 2.0;
    let is_near = |pair: &[(Point, f64)]| (pair[0].1 + pair[1].1) / 2.0 > middle;
    let pairs: Vec<&[(Point, f64)]> = points.windows(2).collect();
    let mut stretches: Vec<(bool, Vec<Segment>)> = Vec::new();
    for pair in pairs {
        let near = is_near(pair);
        match stretches.last_mut().filter(|(was_near, _)| *was_near == near) {
            Some((_, line)) => line.push(Segment::Line(pair[1].0)),
            None => stretches.push((near, vec![Segment::Move(pair[0].0), Segment::Line(pair[1].0)])),
        }
    }
    for (_, line) in stretches.iter().filter(|(near, _)| !near) {
        large_wire(sketch, line, WIRE);
    }
    top(sketch, wire, centre, LOOP);
    for (_, line) in stretches.iter().filter(|(near, _)| *near) {
        large_wire(sketch, line, WIRE);
    }
    let (free, _) = at(1.0);
    arrow(sketch, Point::new(free.x.0 + WIRE, free.y.0), (1.0, 0.0));
    arrow(sketch, Point::new(centre.x.0 - WIRE, centre.y.0 - LOOP), (-1.0, 0.0));
}

/// A loop that has been pulled apart: it is no longer round.
fn outward(sketch: &mut Sketch, wire: Option<EarWire>, centre: Point) {
    let wide = LOOP * WIDER;
    let middle = Point::new(centre.x.0, centre.y.0 - LOOP + wide);
    turn(sketch, middle, wide, 360.0 - OUTWARD);
    top(sketch, wire, centre, LOOP);
    let angle = (-90.0 + OUTWARD).to_radians();
    let free = on_round(middle, wide, -90.0 + OUTWARD);
    let towards = (angle.cos(), angle.sin());
    arrow(sketch, Point::new(free.x.0 + towards.0 * WIRE, free.y.0 + towards.1 * WIRE), towards);
    arrow(sketch, Point::new(centre.x.0 - WIRE, centre.y.0 - LOOP - 0.6), (-1.0, -0.25));
}

/// The wire of a loop from its neck down on the left and up on the right, so many degrees of it.
fn turn(sketch: &mut Sketch, centre: Point, radius: f64, degrees: f64) {
    let at = |i: u32| on_round(centre, radius, -90.0 - degrees * f64::from(i) / f64::from(PIECES));
    let lines = (1..=PIECES).map(|i| Segment::Line(at(i)));
    let line: Vec<Segment> = std::iter::once(Segment::Move(at(0))).chain(lines).collect();
    large_wire(sketch, &line, WIRE);
}

/// A point of a round; 0 degrees lie at the right, −90 above.
fn on_round(centre: Point, radius: f64, degrees: f64) -> Point {
    let (sin, cos) = degrees.to_radians().sin_cos();
    Point::new(centre.x.0 + radius * cos, centre.y.0 + radius * sin)
}

/// What a loop hangs on, from its upper edge up.
fn top(sketch: &mut Sketch, wire: Option<EarWire>, centre: Point, radius: f64) {
    if let Some(wire) = wire {
        large_neck(sketch, wire, Point::new(centre.x.0, centre.y.0 - radius), WIRE);
    }
}

fn arrow(sketch: &mut Sketch, from: Point, (x, y): (f64, f64)) {
    let length = f64::hypot(x, y);
    let along = |far: f64| Point::new(from.x.0 + x / length * far, from.y.0 + y / length * far);
    sketch.line(vec![Segment::Move(along(0.6)), Segment::Line(along(ARROW - 1.2))], pen(INK, ARROW_PEN));
    arrowhead(sketch, &[Segment::Move(along(0.6)), Segment::Line(along(ARROW))], INK);
}
