//! Places to anchor on a chart: where the mark of each stands outside the body, clear of beads, letters, numbers and
//! other marks, and which way its leader runs there.

use super::extent::Extent;
use super::labels::RowLabel;
use super::part::View;
use super::taken::{LINE, Taken, on_way};
use crate::booklet::{Chart, ChartAnchor, ChartRow};
use crate::design::Side;
use crate::drawn::Face;
use crate::layout::faces::cap_height;
use crate::layout::setter::Setter;
use crate::units::{Mm, Point, Pt};

/// How far from a row's edge the bracket of a mark stands at least, in ems.
const CLOSE: f64 = 0.6;
/// White between bracket and mark, and round both, in ems.
pub(super) const INSIDE: f64 = 0.3;
const ROUND: f64 = 0.22;
/// How much higher than the capitals of its mark a bracket is, in ems.
const BRACKET: f64 = 0.3;
/// How much nearer to the body a mark must be for its leader to bend by one step up or down, in ems.
const BEND: f64 = 2.0;
/// Steps up and down that a mark may stand from its leader's height, nearest first.
const STEPS: [f64; 13] = [0.0, -1.0, 1.0, -2.0, 2.0, -3.0, 3.0, -4.0, 4.0, -6.0, 6.0, -8.0, 8.0];
/// What speaks against a place to which the leader would run through something, as if it were so much further away.
const MEETS: Mm = Mm(200.0);
/// So many pairs are on no page: the whole of a large chart is only measured, and its parts are marked by themselves.
const MANY_PAIRS: usize = 80;
/// What a pair may stand out of a part by rounding.
const SLACK: Mm = Mm(0.05);
/// Leaders nearer to each other than this would be taken for one.
const APART: Mm = Mm(1.0);
/// What speaks against a way of a leader, in millimetres that it might be longer: one between the beads of its stacks,
/// one through the frame of another anchor, one along its edge, where it would seem to be that one's, and one along the
/// leader of another.
const AT_JOINT: Mm = Mm(4.0);
const THROUGH_FRAME: Mm = Mm(30.0);
const ALONG_FRAME: Mm = Mm(60.0);
const ALONG_LEADER: Mm = Mm(300.0);

/// The anchors of one pair of stacks, with their mark: on the page, seen from where the view stands.
#[derive(Clone, Debug)]
pub(super) struct Marked {
    /// The pair.
    pub frame: Extent,
    /// `ii`, or `ii, iv` where two threads share a pair.
    pub mark: String,
    pub size: Pt,
    pub side: Side,
    /// From the frame past the edge of the row, and to the bracket.
    pub leader: [Point; 3],
    /// Half the height of the bracket.
    pub bracket: Mm,
    /// Bracket and mark.
    pub area: Extent,
}

/// A way for a leader: to a side, at a height, and what speaks against it from the outset.
struct Way {
    side: Side,
    y: Mm,
    dislike: Mm,
}

/// A pair of stacks that is to be marked.
struct Pair<'p> {
    row: &'p ChartRow,
    mark: &'p str,
    /// Its edges.
    frame: &'p Extent,
}

impl Setter<'_> {
    /// Marks of the anchors in a view, from the top down.
    pub(super) fn marked(&mut self, chart: &Chart, labels: &[RowLabel], view: &View) -> Vec<Marked> {
        if chart.anchors.is_empty() {
            return Vec::new();
        }
        let pairs = pairs(chart, view);
        let frames: Vec<Extent> = pairs.iter().map(|(anchor, _)| frame(anchor, view)).collect();
        let obstacles = self.obstacles(chart, labels, &frames, view);
        let rows: Vec<Option<&ChartRow>> = pairs.iter().map(|(anchor, _)| row_of(chart, anchor)).collect();
        let pairs: Vec<Pair> = rows
            .into_iter()
            .zip(&pairs)
            .zip(&frames)
            .filter_map(|((row, (_, mark)), frame)| Some(Pair { row: row?, mark, frame }))
            .collect();
        // Where a mark finds no place without crossing something, those placed before it may be in its way: then
        // others come first.
        let mut best: Option<(Mm, Vec<Marked>)> = None;
        let tried = if pairs.len() > MANY_PAIRS { 1 } else { usize::MAX };
        for order in orders(&pairs).take(tried) {
            let placed = self.marked_in(&order, &frames, obstacles.clone(), view);
            if best.as_ref().is_none_or(|(least, _)| placed.0 < *least) {
                best = Some(placed);
            }
            if best.as_ref().is_some_and(|(least, _)| *least < MEETS) {
                break;
            }
        }
        let mut marked = best.map_or_else(Vec::new, |(_, marked)| marked);
        let place = |one: &Marked| pairs.iter().position(|pair| *pair.frame == one.frame);
        marked.sort_by_key(place);
        marked
    }

    /// Marks placed one after the other, with the most that speaks against one of them.
    fn marked_in(
        &mut self,
        order: &[&Pair],
        frames: &[Extent],
        mut taken: Taken,
        view: &View,
    ) -> (Mm, Vec<Marked>) {
        let (mut worst, mut marked) = (Mm::ZERO, Vec::new());
        for pair in order {
            let mut best: Option<(Mm, Mm, Marked)> = None;
            for way in ways(pair.row, pair.frame, view) {
                let dislike = way.dislike;
                let (crossed, one) = self.mark_at(pair.row, pair.mark, (pair.frame, way), &taken, view);
                let against = dislike + against(&one, frames, &marked);
                if best.as_ref().is_none_or(|(least, ..)| against < *least) {
                    best = Some((against, crossed, one));
                }
            }
            if let Some((against, crossed, best)) = best {
                worst = worst.max(against).max(crossed);
                taken.add(best.area);
                best.outside(pair.row, view).into_iter().for_each(|area| taken.add(area));
                marked.push(best);
            }
        }
        (worst, marked)
    }

    /// A mark at the end of a way, as near to the body as it is clear of all that is there, and what speaks against it
    /// where its leader runs through something.
    fn mark_at(
        &mut self,
        row: &ChartRow,
        mark: &str,
        (frame, way): (&Extent, Way),
        taken: &Taken,
        view: &View,
    ) -> (Mm, Marked) {
        let size = self.sheet.chart_label;
        let em = size.mm();
        let bracket = cap_height(Face::Bold, size) / 2.0 + em * (BRACKET / 2.0);
        let wide = self.shaper.width(Face::Bold, mark, size) + em * INSIDE;
        let room = em * ROUND;
        let (sign, edge) = match way.side {
            Side::Left => (-1.0, view.x(row.left.max(view.shown.left))),
            Side::Right => (1.0, view.x(row.right.min(view.shown.right))),
        };
        let near = edge + em * (CLOSE * sign);
        let area = |x: Mm, y: Mm| {
            let (left, right) = if way.side == Side::Left { (x - wide, x) } else { (x, x + wide) };
            Extent { left, right, top: y - bracket, bottom: y + bracket }
        };
        // Where the mark is clear at this height. Each turn leaves one obstacle behind.
        let clear_at = |y: Mm| {
            let mut x = near;
            for _ in 0..=taken.count() {
                let Some(other) = taken.met_by(&area(x, y), room) else { break };
                let gap = room * 1.01;
                x = if way.side == Side::Left { other.left - gap } else { other.right + gap };
            }
            x
        };
        let from = if way.side == Side::Left { frame.left } else { frame.right };
        let leader = |at: Point| {
            let bends = if at.y == way.y { at.x } else { edge + em * (CLOSE * sign * 0.4) };
            [Point { x: from, y: way.y }, Point { x: bends, y: way.y }, at]
        };
        // A little higher or lower where that is much nearer to the body, or where the leader would meet something.
        let step = bracket * 2.0 + room * 1.01;
        let mut best: Option<(Mm, Mm, Point)> = None;
        for steps in STEPS {
            // Places further off cost more from the outset.
            let bent = em * (BEND * steps.abs());
            if best.is_some_and(|(least, ..)| least <= bent) {
                break;
            }
            let y = way.y + step * steps;
            let at = Point { x: clear_at(y), y };
            let meets = if taken.meets(&leader(at), edge) { MEETS } else { Mm::ZERO };
            let dislike = (at.x - near).abs() + bent + meets;
            if best.is_none_or(|(least, ..)| dislike < least) {
                best = Some((dislike, meets, at));
            }
        }
        let (crossed, at) =
            best.map_or((MEETS, Point { x: near, y: way.y }), |(_, crossed, at)| (crossed, at));
        let (leader, area) = (leader(at), area(at.x, at.y));
        let marked =
            Marked { frame: *frame, mark: mark.to_owned(), size, side: way.side, leader, bracket, area };
        (crossed, marked)
    }
}

impl Marked {
    /// Seen from a point to the left of and above the one that it was seen from, by so much.
    pub fn shift(&mut self, by: Point) {
        self.frame = self.frame.moved(by);
        self.area = self.area.moved(by);
        for point in &mut self.leader {
            *point = Point { x: point.x + by.x, y: point.y + by.y };
        }
    }

    /// Whether its leader runs through something.
    pub fn runs_through(&self, area: &Extent) -> bool {
        let [from, bend, at] = self.leader;
        let level = Extent::round(&[from, bend]).grown(LINE);
        level.meets(area) || on_way([bend, bend, at]).any(|point| area.holds(point))
    }

    /// The boxes of the strokes of its leader outside its row.
    fn outside(&self, row: &ChartRow, view: &View) -> [Extent; 2] {
        let [_, bend, at] = self.leader;
        let edge = match self.side {
            Side::Left => view.x(row.left.max(view.shown.left)),
            Side::Right => view.x(row.right.min(view.shown.right)),
        };
        let around = |a: Point, b: Point| {
            let Extent { left, right, top, bottom } = Extent::round(&[a, b]);
            Extent { left, right, top: top - LINE, bottom: bottom + LINE }
        };
        [around(Point { x: edge, ..bend }, bend), around(bend, at)]
    }
}

/// The orders in which marks may be placed: from the top down with the outer ones of a row first, or else.
fn orders<'p>(pairs: &'p [Pair]) -> impl Iterator<Item = Vec<&'p Pair<'p>>> {
    let by_rows = |upwards: bool, inner_first: bool| {
        let mut rows: Vec<Vec<&Pair>> = pairs
            .chunk_by(|a, b| a.row.number == b.row.number)
            .map(|row| if inner_first { row.iter().rev().collect() } else { row.iter().collect() })
            .collect();
        if upwards {
            rows.reverse();
        }
        rows.concat()
    };
    [(false, false), (true, false), (false, true), (true, true)]
        .into_iter()
        .map(move |(upwards, inner_first)| by_rows(upwards, inner_first))
}

/// Pairs of stacks in a view with the marks of their anchors, from the top down, outer ones first.
fn pairs<'c>(chart: &'c Chart, view: &View) -> Vec<(&'c ChartAnchor, String)> {
    let mut pairs: Vec<(&ChartAnchor, String)> = Vec::new();
    for anchor in chart.anchors.iter().filter(|a| is_whole(a, &view.shown)) {
        match pairs.iter_mut().find(|(other, _)| other.at.distance(anchor.at).0 < 1e-6) {
            Some((_, mark)) => {
                mark.push_str(", ");
                mark.push_str(&anchor.mark);
            }
            None => pairs.push((anchor, anchor.mark.clone())),
        }
    }
    let middle = (view.shown.left + view.shown.right) / 2.0;
    // By rows: beads of several lengths put pairs of one row at several heights.
    let row = |anchor: &ChartAnchor| row_of(chart, anchor).map_or(anchor.at.y, |row| row.top);
    // In thousandths, so that it decides nothing how places were summed.
    let thousandths = |length: Mm| (length.0 * 1000.0).round() as i64;
    pairs.sort_by_key(|(anchor, _)| (thousandths(row(anchor)), -thousandths((anchor.at.x - middle).abs())));
    pairs
}

/// The row that a pair stands in.
fn row_of<'c>(chart: &'c Chart, anchor: &ChartAnchor) -> Option<&'c ChartRow> {
    chart.rows.iter().find(|row| row.top <= anchor.at.y && anchor.at.y <= row.bottom)
}

/// Whether a pair is shown whole: parts share so much that each pair is whole on one of them.
fn is_whole(anchor: &ChartAnchor, shown: &Extent) -> bool {
    let (across, down) = (anchor.width / 2.0 - SLACK, anchor.height / 2.0 - SLACK);
    shown.holds(Point { x: anchor.at.x - across, y: anchor.at.y - down })
        && shown.holds(Point { x: anchor.at.x + across, y: anchor.at.y + down })
}

fn frame(anchor: &ChartAnchor, view: &View) -> Extent {
    let (across, down) = (anchor.width / 2.0, anchor.height / 2.0);
    Extent {
        left: view.x(anchor.at.x - across),
        right: view.x(anchor.at.x + across),
        top: view.y(anchor.at.y - down),
        bottom: view.y(anchor.at.y + down),
    }
}

/// A leader runs along the upper or the lower edge of its row, or where all its beads meet, to either side: no letter
/// stands there.
fn ways(row: &ChartRow, frame: &Extent, view: &View) -> impl Iterator<Item = Way> {
    let edges = [frame.top, frame.bottom].map(|y| (y, Mm::ZERO));
    let joints: Vec<(Mm, Mm)> = row.joints.iter().map(|y| (view.y(*y), AT_JOINT)).collect();
    let heights = edges.into_iter().chain(joints);
    heights.flat_map(|(y, dislike)| [Side::Left, Side::Right].map(|side| Way { side, y, dislike }))
}

/// What speaks against a mark: its leader's length, and what that runs through.
fn against(one: &Marked, frames: &[Extent], others: &[Marked]) -> Mm {
    let [from, bend, at] = one.leader;
    let (left, right) = (from.x.min(bend.x).min(at.x), from.x.max(bend.x).max(at.x));
    let y = from.y;
    let through = |frame: &&Extent| {
        let inside = frame.top - APART < y && y < frame.bottom + APART;
        **frame != one.frame && inside && frame.left < right && left < frame.right
    };
    let along = |other: &&Marked| {
        let [a, b, c] = other.leader;
        (a.y - y).abs() < APART && a.x.min(b.x).min(c.x) < right && left < a.x.max(b.x).max(c.x)
    };
    let over = |other: &&Marked| {
        let mark = &other.area;
        mark.left < right && left < mark.right && mark.top < y && y < mark.bottom
    };
    let edge = |frame: &Extent| (frame.top - y).abs() < APART || (frame.bottom - y).abs() < APART;
    let frame = |frame: &Extent| if edge(frame) { ALONG_FRAME } else { THROUGH_FRAME };
    let frames: Mm = frames.iter().filter(through).map(frame).sum();
    let leaders = others.iter().filter(|other| along(other) || over(other)).count() as f64;
    right - left + frames + ALONG_LEADER * leaders
}
