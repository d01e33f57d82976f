//! Hanging: thread guards or closed loops of beads on the top row, mostly one.

use super::ground::Ground;
use super::needle::Needle;
use super::needs::Needs;
use super::strung::Strung;
use super::{
    Carrier, Fabric, Lying, Manner, MoveKind, Pass, Phase, Section, SectionId, SectionKind, Spot, StackId,
    Way,
};
use super::{practice, ring};
use crate::design::{Hang, Hanging, LetterId, Side};
use crate::units::{Mm, Point};
use std::f64::consts::PI;

/// Pieces in which the arch of a guard is followed.
const ARCH_PIECES: usize = 12;

/// Lays the beads of the loops, strung from the side `near`, and says what carries the earring: in working order,
/// which is from that side to the other.
pub(super) fn lay(fabric: &mut Fabric, ground: &Ground, needs: &Needs, near: Side) -> Vec<Carrier> {
    let mut carriers = Vec::with_capacity(needs.hangings.len());
    for hanging in in_order(needs, near) {
        let stacks = hung_on(ground, needs, hanging, near);
        let letters = hanging.by.loop_beads();
        let ring = (!letters.is_empty()).then(|| {
            let number = 1 + fabric.of_kind(SectionKind::Loop).count();
            let ends = loop_hole_ends(ground, needs, hanging, stacks, near);
            lay_loop(fabric, letters, &ends, number, near)
        });
        carriers.push(Carrier { stacks, ring });
    }
    carriers
}

/// What it hangs from, in the order worked.
fn in_order<'a>(needs: &Needs<'a>, near: Side) -> Vec<&'a Hanging> {
    let mut hangings: Vec<&Hanging> = needs.hangings.iter().collect();
    if near == Side::Right {
        hangings.reverse();
    }
    hangings
}

/// Lays the beads of one loop, whose holes end at some points.
fn lay_loop(
    fabric: &mut Fabric,
    letters: &[LetterId],
    ends: &[Point],
    number: usize,
    near: Side,
) -> SectionId {
    let section = SectionId(fabric.sections.len());
    let mut beads = Vec::with_capacity(letters.len());
    for (place, (&letter, ends)) in letters.iter().zip(ends.windows(2)).enumerate() {
        let (from, to) = (ends[0], ends[1]);
        let spot = Spot(fabric.beads.len());
        let centre = Point { x: (from.x + to.x) / 2.0, y: (from.y + to.y) / 2.0 };
        fabric.beads.push(Lying {
            spot,
            letter,
            centre,
            turned: turned(from, to),
            section,
            stack: None,
            place,
        });
        beads.push(spot);
    }
    fabric.sections.push(Section {
        kind: SectionKind::Loop,
        number,
        source: number - 1,
        from: near,
        manner: Manner::Hanging,
        stacks: Vec::new(),
        beads,
        hangs_on: None,
        lies: None,
    });
    section
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

/// Works every hanging, from the side `near`: from the upper end of its near stack, and back there; through the
/// guard or loop, down the other stack, across one row lower, and up; twice round.
pub(super) fn work(needle: &mut Needle, needs: &Needs, fabric: &Fabric, carriers: &[Carrier], near: Side) {
    for (index, (hanging, carrier)) in in_order(needs, near).into_iter().zip(carriers).enumerate() {
        needle.turn_to(Phase::Hanging(index), Manner::Hanging);
        work_one(needle, needs, fabric, (hanging, *carrier), near);
    }
}

fn work_one(
    needle: &mut Needle,
    needs: &Needs,
    fabric: &Fabric,
    (hanging, carrier): (&Hanging, Carrier),
    near: Side,
) {
    let ground = needle.ground;
    let [near_stack, far_stack] = carrier.stacks;
    needle.travel_to(|pass| pass == Pass { stack: near_stack, way: Way::Up });
    // Straight back up a single stack the needle would pull out the pass down it: the thread must go round.
    let across = across(ground, needle.worked().strung, (far_stack, near_stack), near)
        .filter(|steps| far_stack != near_stack || !steps.is_empty());
    let towards = near.other();
    let beads = || carrier.ring.map_or(Vec::new(), |ring| fabric[ring].beads.clone());
    for round in 0..practice::HANGING_ROUNDS {
        match hanging.by {
            Hang::ThreadGuard => {
                let channel = guard_channel(ground, carrier.stacks, needs.guard_holes, near);
                needle.make(MoveKind::ThroughGuard { towards }, Vec::new(), channel);
            }
            Hang::Loop(_) => {
                let ends = loop_hole_ends(ground, needs, hanging, carrier.stacks, near);
                match round {
                    0 => needle.string(beads(), ends),
                    _ => needle.make(MoveKind::ThroughLoop { towards }, beads(), ends),
                }
            }
        }
        needle.pass(far_stack, Way::Down);
        match &across {
            Some(across) => {
                across.iter().for_each(|&(stack, way)| needle.pass(stack, way));
                // Out of the wrong end beside the near stack: back through the same one.
                let beside = |at: &Pass| ground.neighbours(at.stack, near_stack).is_some();
                if let Some(at) = needle.out_of().filter(|at| at.way == Way::Up && beside(at)) {
                    needle.turn_back(at);
                }
                needle.pass(near_stack, Way::Up);
            }
            None => needle.travel_to(|pass| pass == Pass { stack: near_stack, way: Way::Up }),
        }
    }
}

/// The two stacks of the top row that carry the earring, from the side `near`: those where a loop ends are the outer
/// ones; a guard stands in the middle, on the pair whose distance comes nearest to that of its holes. A design may
/// name the pair.
fn hung_on(ground: &Ground, needs: &Needs, hanging: &Hanging, near: Side) -> [StackId; 2] {
    let top = ground.top_row();
    let stacks = ground.stacks(top);
    if let Some([left, right]) = hanging.on {
        let pair = [left, right].map(|stack| ground.counted_from(top, Side::Left, stack.clamp(1, stacks)));
        return if near == Side::Left { pair } else { [pair[1], pair[0]] };
    }
    let inwards = match hanging.by {
        Hang::Loop(_) => 0,
        Hang::ThreadGuard => {
            let off = |inwards: &usize| {
                let apart = ground.stack_width * (stacks - 1 - 2 * inwards) as f64;
                (apart - needs.guard_holes).abs()
            };
            (0..stacks.div_ceil(2)).min_by(|a, b| off(a).0.total_cmp(&off(b).0)).unwrap_or(0)
        }
    };
    [near, near.other()].map(|side| ground.counted_from(top, side, 1 + inwards))
}

/// The stacks through which the thread comes from the lower end of the far outer stack of the top
/// row to the lower end of the near one: those of the row below, down and up in turn, so that all of them carry.
/// `None` where that row does not reach from the one to the other: the thread goes the shortest way.
///
/// Rows below the foundation are not worked yet. Where nothing lies lower the stacks between the two are used; of an
/// odd number of them the thread comes out at the upper end of the last.
fn across(
    ground: &Ground,
    strung: &Strung,
    (far, near): (StackId, StackId),
    side: Side,
) -> Option<Vec<(StackId, Way)>> {
    if ground.top_row() == 0 {
        let ways = [Way::Up, Way::Down].into_iter().cycle();
        return Some(ground.between(far, near).into_iter().zip(ways).collect());
    }
    let below = |at: StackId| {
        let below = ground.touching(at, Way::Down).into_iter();
        below.filter(|stack| strung.contains(*stack)).collect::<Vec<_>>()
    };
    let outward = |at: StackId, side: Side| match side {
        Side::Left => below(at).first().copied(),
        Side::Right => below(at).last().copied(),
    };
    let place = |stack: StackId| ground.fabric[stack].place;
    let (first, last) = (outward(far, side.other())?, outward(near, side)?);
    let (row, first, last) = (ground.row_of(first), place(first), place(last));
    // The thread must come out at the near end going up, so an odd one out at the end is left out.
    let count = first.abs_diff(last).div_ceil(2) * 2;
    let stack = |i: usize| ground.row(row)[if first > last { first - i } else { first + i }];
    let ways = [Way::Down, Way::Up].into_iter().cycle();
    let steps: Vec<(StackId, Way)> = (0..count).map(stack).zip(ways).collect();
    let reaches = |last: &(StackId, Way)| below(near).contains(&last.0);
    steps.last().is_none_or(reaches).then_some(steps)
}

/// The channel of the thread guard, from the side `near` to the other: two legs and a half-round
/// arch, standing between the stacks that carry it.
fn guard_channel(ground: &Ground, pair: [StackId; 2], holes: Mm, near: Side) -> Vec<Point> {
    let (middle, _) = between(ground, pair);
    let radius = holes.0 / 2.0;
    let leg = holes.0 * practice::GUARD_LEG;
    let sign = match near {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    let foot = |sign: f64| Point::new(middle.x.0 + sign * radius, middle.y.0);
    let arch = (0..=ARCH_PIECES).map(|i| {
        let angle = PI * i as f64 / ARCH_PIECES as f64;
        Point::new(middle.x.0 + sign * radius * angle.cos(), middle.y.0 - leg - radius * angle.sin())
    });
    [foot(sign)].into_iter().chain(arch).chain([foot(-sign)]).collect()
}

/// The hole ends of the loop's beads in the order strung, from the side `near`.
///
/// The ring stands half a bead's width above the top row, so that its lowest beads touch no stack.
fn loop_hole_ends(
    ground: &Ground,
    needs: &Needs,
    hanging: &Hanging,
    stacks: [StackId; 2],
    near: Side,
) -> Vec<Point> {
    let beads = || hanging.by.loop_beads().iter().map(|&b| needs.bead(b));
    let widest = beads().fold(Mm::ZERO, |w, bead| w.max(bead.width));
    let lengths: Vec<Mm> = beads().map(|bead| bead.length).collect();
    let (middle, apart) = between(ground, stacks);
    let middle = Point { x: middle.x, y: middle.y - widest / 2.0 };
    ring::hole_ends(&lengths, middle, apart, near)
}

/// The middle between the upper ends of two stacks, and their distance.
fn between(ground: &Ground, pair: [StackId; 2]) -> (Point, Mm) {
    let [one, other] = pair.map(|stack| ground.hole_end(stack, Way::Up));
    let (left, right) = (one.x.min(other.x), one.x.max(other.x));
    (Point { x: (left + right) / 2.0, y: one.y }, right - left)
}
