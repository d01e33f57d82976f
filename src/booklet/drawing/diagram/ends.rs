//! The two ends of the thread in a diagram: where it comes from, and needle or cut.

use super::bezier::{between, points, straight};
use super::paint::NEEDLE;
use super::route::Through;
use super::thread::{End, Sight, Tracer};
use crate::booklet::drawing::sketch::{Extent, bead_extent};
use crate::drawn::Segment;
use crate::units::Point;

/// Length of a loose beginning.
const LOOSE: f64 = 9.0;
/// Length of the stretch by which thread comes in from outside the diagram.
const STUB: f64 = 5.0;
/// Thread between the last bead and the needle.
const TO_NEEDLE: f64 = 4.0;
/// Thread between the last arc that it crosses and the needle.
const BEYOND_ARCS: f64 = 2.4;
/// The same before a cut above the rows, whose number stands beside it: clear of the beads.
const BEYOND_ARCS_CUT: f64 = 4.6;
/// How far the needle leans to the side for each millimetre upwards.
const LEAN: f64 = 0.36;
/// The same beside a guard or loop.
const LEAN_HUNG: f64 = 2.2;
/// Leans of a needle that would else lie on beads, in the order tried, and how far it begins aside at most.
const LEANS_LYING: [f64; 4] = [1.0, 2.2, 4.5, 9.0];
const NEARER: f64 = 0.6;
const ASIDE: f64 = 2.7;
/// Where a thread ends beside wrapped stacks, seen from its last wrap on the right: the point, and which way needle or cut
/// lies; in the order tried.
const ENDS_ASIDE: [((f64, f64), (f64, f64)); 3] =
    [((TO_NEEDLE, 1.6), (1.4, 0.8)), ((1.6, TO_NEEDLE), (0.1, 1.6)), ((1.6, -TO_NEEDLE), (0.1, -1.6))];
/// Points of a needle that are looked at, and the white between it and beads.
const NEEDLE_SAMPLES: u32 = 10;
const BESIDE_NEEDLE: f64 = 0.4;
/// Arcs are looked for no further than this beyond the hole the thread comes out of.
const ARCS_REACH: f64 = 9.0;

impl Tracer<'_> {
    /// The loose beginning, or the stretch that comes from outside the diagram.
    pub(super) fn beginning(&mut self, first: usize) {
        let begins = self.legs[..first].iter().find(|l| l.through == Through::Beginning);
        let Some(entry) = self.port(first, true) else { return };
        let sign = if self.above(first, true) { -1.0 } else { 1.0 };
        let p = Point::new;
        let (x, y) = (entry.x.0, entry.y.0);
        let Some(begins) = begins else {
            if self.legs[first].number.is_some() {
                self.run(None, Sight::Open, straight(p(x, y + sign * STUB), entry)).head = true;
            }
            return;
        };
        let loose = p(x - 2.2, y + sign * LOOSE);
        let line = vec![
            Segment::Move(loose),
            Segment::Curve(p(x - 2.6, y + sign * LOOSE * 0.62), p(x, y + sign * LOOSE * 0.55), entry),
        ];
        self.run(begins.number, Sight::Open, line).head = true;
        self.thread.beginning = Some(loose);
    }

    /// The thread's end, in a needle or cut.
    pub(super) fn end(&mut self, last: usize) {
        let Some(exit) = self.port(last, false) else { return };
        let rest = &self.legs[last + 1..];
        let sign = if self.above(last, false) { -1.0 } else { 1.0 };
        let cut = rest.iter().find(|l| l.through == Through::End);
        let number = cut.or(rest.last()).map_or(self.legs[last].number, |l| l.number);
        let end = if cut.is_some() { End::Cut } else { End::Needle };
        if let Some((last, side)) = self.wraps(last, exit) {
            self.aside(number, last, side, end);
            return;
        }
        let beyond = if end == End::Cut && sign < 0.0 { BEYOND_ARCS_CUT } else { BEYOND_ARCS };
        let to_needle = TO_NEEDLE.max(self.arcs_beyond(exit, sign) + beyond);
        let out = Point::new(exit.x.0, exit.y.0 + sign * to_needle);
        // The needle leans away from the middle of what is worked, and lies down beside guard or loop.
        let hung = sign < 0.0 && (self.stage.guard.is_some() || !self.stage.ring.is_empty());
        let lean = if hung { LEAN_HUNG } else { LEAN };
        let outwards = if exit.x.0 < self.middle() { -1.0 } else { 1.0 };
        // Where it would lie on beads it lies lower, to this side or the other, or nearer to the hole.
        let leans = || LEANS_LYING.into_iter().flat_map(|lean| [lean * outwards, -lean * outwards]);
        let nearer = Point::new(out.x.0, exit.y.0 + sign * to_needle * NEARER);
        let usual = (out, lean * outwards);
        let mut others = [out, nearer].into_iter().flat_map(|out| leans().map(move |lean| (out, lean)));
        let hides = |(out, aside): &(Point, f64)| {
            end == End::Needle && self.hides_beads(tip_of(*out, *aside), (*aside, sign))
        };
        let best = if hides(&usual) { others.find(|other| !hides(other)) } else { None };
        let (out, aside) = best.unwrap_or(usual);
        let tip = tip_of(out, aside);
        let line = vec![
            Segment::Move(exit),
            Segment::Curve(
                between(exit, out, 0.4),
                Point::new(tip.x.0 - aside * 0.9, tip.y.0 - sign * to_needle * 0.35),
                tip,
            ),
        ];
        self.run(number, Sight::Open, line);
        let length = f64::hypot(aside, 1.0);
        self.thread.end = Some((tip, Point::new(aside / length, sign / length), end));
    }

    /// Whether a needle from a point in a direction would lie on a bead.
    fn hides_beads(&self, tip: Point, (dx, dy): (f64, f64)) -> bool {
        let length = f64::hypot(dx, dy);
        let mut along = (0..=NEEDLE_SAMPLES).map(|i| {
            let far = NEEDLE * f64::from(i) / f64::from(NEEDLE_SAMPLES);
            Point::new(tip.x.0 + dx / length * far, tip.y.0 + dy / length * far)
        });
        let beads: Vec<Extent> = self.stage.beads.iter().map(|shown| bead_extent(&shown.mark)).collect();
        along.any(|at| beads.iter().any(|bead| bead.is_near(at, BESIDE_NEEDLE)))
    }

    /// The thread's end beside the stacks that it was wrapped round last: further aside, or where stacks stand there down
    /// or up between them.
    fn aside(&mut self, number: Option<usize>, from: Point, side: f64, end: End) {
        let ways = ENDS_ASIDE
            .map(|((x, y), (dx, dy))| (Point::new(from.x.0 + side * x, from.y.0 + y), (side * dx, dy)));
        let hides =
            |(tip, towards): &(Point, (f64, f64))| end == End::Needle && self.hides_beads(*tip, *towards);
        let (tip, (dx, dy)) = ways.into_iter().find(|way| !hides(way)).unwrap_or(ways[0]);
        let line = vec![
            Segment::Move(from),
            Segment::Curve(
                Point::new(from.x.0 + side * 1.6, from.y.0),
                Point::new(tip.x.0 - dx, tip.y.0 - dy),
                tip,
            ),
        ];
        self.run(number, Sight::Open, line);
        let length = f64::hypot(dx, dy);
        self.thread.end = Some((tip, Point::new(dx / length, dy / length), end));
    }

    /// How far arcs that the thread crosses on its way out reach beyond the hole it comes out of.
    pub(super) fn arcs_beyond(&self, exit: Point, sign: f64) -> f64 {
        self.thread
            .runs
            .iter()
            .filter(|r| r.sight == Sight::Open)
            .flat_map(|r| points(&r.line))
            .filter(|p| (p.x.0 - exit.x.0).abs() < 1.0)
            .map(|p| (p.y.0 - exit.y.0) * sign)
            .filter(|beyond| (0.0..ARCS_REACH).contains(beyond))
            .fold(0.0, f64::max)
    }

    /// The middle of what is worked.
    pub(super) fn middle(&self) -> f64 {
        let xs = self.legs.iter().filter_map(|leg| match leg.through {
            Through::Stack(pass) => self.stage.stacks.get(&pass.stack).map(|h| h.x),
            _ => None,
        });
        let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
        f64::midpoint(low, high)
    }
}

/// Where a needle with a lean begins, above or below the point where the thread comes out.
fn tip_of(out: Point, aside: f64) -> Point {
    Point::new(out.x.0 + (aside * 1.2).clamp(-ASIDE, ASIDE), out.y.0)
}
