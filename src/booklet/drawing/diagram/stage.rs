//! The stage: where every bead, guard and loop of a diagram stands.

use super::columns::{Column, Columns, Hung};
use super::joins::quiet;
use super::lanes::Hanging;
use super::route::{Leg, Through, loop_first};
use super::whole::Whole;
use crate::booklet::drawing::earring::bead_of;
use crate::booklet::drawing::sketch::{Extent, bead_extent};
use crate::design::{Design, LetterId, Side};
use crate::drawn::{BeadLook, BeadMark, Shape};
use crate::stitch::{Carrier, SectionId, StackId, Work};
use crate::units::{Mm, Point};
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// A bead that is shown.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shown {
    pub(super) mark: BeadMark,
    pub(super) symbol: char,
    /// What is strung with it.
    pub(super) of: Strung,
    /// How much higher its letter stands, as a share of the bead's length, to leave room for wraps; negative
    /// for lower.
    pub(super) lift: f64,
}

/// What is strung by one move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Strung {
    /// A stack.
    Stack(StackId),
    /// A loop or a strand.
    Whole(SectionId),
}

/// The ends of a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hole {
    pub(super) x: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// A strand on the stage.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StrandHole {
    /// Stretches of hole from the top down, without the turning bead: two where beads are left out.
    pub(super) runs: Vec<Hole>,
    /// The turning bead or picot, in the order strung.
    pub(super) turn: Vec<BeadMark>,
}

/// Everything with its place.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stage {
    pub(super) beads: Vec<Shown>,
    pub(super) stacks: BTreeMap<StackId, Hole>,
    pub(super) strands: BTreeMap<SectionId, StrandHole>,
    /// Centres of the loop's beads from left to right, with their turn.
    pub(super) ring: Vec<BeadMark>,
    /// Feet of the thread guard and its rise.
    pub(super) guard: Option<(Point, Point, f64)>,
    /// Upper and lower edge of each line of stacks shown.
    pub(super) lines: BTreeMap<usize, (f64, f64)>,
    /// Where beads of a strand are left out.
    pub(super) breaks: Vec<Point>,
}

/// How much higher the letter of a wrapped stack's only bead stands, as a share of its length.
const LIFT_ALONE: f64 = 0.2;
/// How far the letters of a wrapped stack's first two beads stand away from their joint, as a share of their length.
const LIFT: f64 = 0.12;
/// Beads at the head of a strand that are shown before the rest is left out.
const HEAD: usize = 3;
/// Beads above the turning bead that are shown.
const FOOT: usize = 2;
/// Room for the mark that beads are left out.
const BREAK: f64 = 4.6;
/// Room between a strand and its turning bead, for the thread that goes round it.
const BEFORE_TURN: f64 = 2.6;
/// Part of a circle that a picot goes round.
const PICOT_ARC: f64 = 1.25 * PI;
/// Distance of a guard's feet apart, as a share of its rise, and the other way round.
const GUARD_RISE: f64 = 0.55;

/// Where guard or loop stand, before heights are known.
pub(super) fn hanging(whole: &Whole, columns: &Columns) -> Hanging {
    let Some(line) = whole.top_line() else { return Hanging::default() };
    let Some(carrier) = columns.carrier else { return Hanging { line, ..Hanging::default() } };
    let mut carriers: Vec<f64> =
        carrier.stacks.iter().filter_map(|stack| columns.stacks.get(stack)).map(|c| c.x).collect();
    carriers.sort_by(f64::total_cmp);
    let (Some(left), Some(right)) = (carriers.first(), carriers.last()) else {
        return Hanging { line, ..Hanging::default() };
    };
    let middle = f64::midpoint(*left, *right);
    let ring = ring(whole, carrier, columns.scale);
    match (ring.first(), ring.last()) {
        (Some(first), Some(last)) => {
            let width = ring.iter().map(|b| b.width.0).fold(f64::INFINITY, f64::min);
            Hanging { left: middle + first.centre.x.0, right: middle + last.centre.x.0, width, line }
        }
        _ => {
            let half = ((right - left) / 2.0).max(columns.scale * 1.2);
            Hanging { left: middle - half, right: middle + half, width: columns.scale * 1.3, line }
        }
    }
}

/// The loop's beads from left to right, relative to the middle between the stacks that carry it; none of a guard.
fn ring(whole: &Whole, carrier: Carrier, scale: f64) -> Vec<BeadMark> {
    let Whole { design, work, .. } = whole;
    let Some(ring) = carrier.ring else { return Vec::new() };
    let [one, other] = carrier.stacks.map(|stack| whole.middle(stack));
    let middle = f64::midpoint(one, other);
    let mut beads: Vec<BeadMark> = work
        .fabric
        .beads_of(ring)
        .map(|l| {
            let centre = Point::new((l.centre.x.0 - middle) * scale, l.centre.y.0 * scale);
            let mut mark = scaled(design, l.letter, scale, centre, BeadLook::Flat);
            mark.turned = l.turned;
            mark
        })
        .collect();
    if let (Some(first), Some(last)) = (beads.first(), beads.last())
        && first.centre.x.0 > last.centre.x.0
    {
        beads.reverse();
    }
    beads
}

fn scaled(design: &Design, letter: LetterId, scale: f64, centre: Point, look: BeadLook) -> BeadMark {
    let bead = bead_of(design, letter);
    BeadMark {
        centre,
        width: bead.width * scale,
        length: bead.length * scale,
        shape: bead.shape,
        colour: bead.colour,
        turned: 0.0,
        look,
    }
}

/// Sets everything in its place, with these heights of the spaces between rows.
pub(super) fn stage(
    whole: &Whole,
    columns: &Columns,
    legs: &[Leg],
    hanging: &Hanging,
    heights: &BTreeMap<usize, f64>,
) -> Stage {
    let mut stage = Stage::default();
    let Whole { design, work, .. } = whole;
    let height = |channel: usize| heights.get(&channel).copied().unwrap_or(quiet());
    rows(&mut stage, design, columns, &height);
    strands(&mut stage, whole, columns, legs, &height);
    raise(&mut stage, work, columns, legs);
    let top = stage.lines.get(&hanging.line).map(|r| r.0);
    let shows = |wanted: fn(&Through) -> bool| legs.iter().any(|l| wanted(&l.through));
    if let Some(top) = top {
        let foot = top - height(hanging.line + 1);
        if shows(|t| matches!(t, Through::Guard { .. })) {
            let rise = ((hanging.right - hanging.left) * GUARD_RISE).max(columns.scale * 3.0);
            let at = |x| Point::new(x, foot);
            stage.guard = Some((at(hanging.left), at(hanging.right), rise));
        }
        if columns.looped {
            loop_beads(&mut stage, whole, columns, hanging, foot);
        }
    }
    stage
}

/// Rows from the top down, their stacks and beads.
fn rows(stage: &mut Stage, design: &Design, columns: &Columns, height: &impl Fn(usize) -> f64) {
    let mut shown: BTreeMap<usize, Vec<(StackId, &Column)>> = BTreeMap::new();
    for (at, column) in &columns.stacks {
        shown.entry(column.line).or_default().push((*at, column));
    }
    let length = |letter: &LetterId| bead_of(design, *letter).length.0 * columns.scale;
    let mut y = 0.0;
    for (line, stacks) in shown.iter().rev() {
        let tall = stacks.iter().map(|(_, c)| c.letters.iter().map(length).sum::<f64>()).fold(0.0, f64::max);
        stage.lines.insert(*line, (y, y + tall));
        for (at, column) in stacks {
            let own: f64 = column.letters.iter().map(length).sum();
            let top = y + (tall - own) / 2.0;
            stage.stacks.insert(*at, Hole { x: column.x, top, bottom: top + own });
            let look = if column.faded { BeadLook::Faded } else { BeadLook::Flat };
            let mut at_y = top;
            for letter in &column.letters {
                let centre = Point::new(column.x, at_y + length(letter) / 2.0);
                let mark = scaled(design, *letter, columns.scale, centre, look);
                stage.show(design, Strung::Stack(*at), *letter, mark);
                at_y += length(letter);
            }
        }
        y += tall + height(*line);
    }
}

/// Moves the letters of wrapped stacks away from the wraps: those run over a single bead below its letter, or
/// over the joint of the first two beads.
fn raise(stage: &mut Stage, work: &Work, columns: &Columns, legs: &[Leg]) {
    let anchors = legs.iter().filter_map(|leg| match leg.through {
        Through::Wrap { anchor } => work.anchors.get(anchor),
        _ => None,
    });
    let wrapped: Vec<StackId> = anchors.flat_map(|a| a.stacks).collect();
    for at in wrapped {
        let Some(hole) = stage.stacks.get(&at).copied() else { continue };
        let single = columns.stacks.get(&at).is_some_and(|c| c.letters.len() == 1);
        let within = |b: &&mut Shown| {
            b.mark.centre.x.0 == hole.x && (hole.top..=hole.bottom).contains(&b.mark.centre.y.0)
        };
        let mut stack: Vec<&mut Shown> = stage.beads.iter_mut().filter(within).collect();
        stack.sort_by(|a, b| a.mark.centre.y.0.total_cmp(&b.mark.centre.y.0));
        let lifts = if single { [LIFT_ALONE, 0.0] } else { [LIFT, -LIFT] };
        for (shown, lift) in stack.into_iter().zip(lifts) {
            shown.lift = lift;
        }
    }
}

/// Strands below the line of stacks that they hang on, the middle of long ones left out.
fn strands(
    stage: &mut Stage,
    whole: &Whole,
    columns: &Columns,
    legs: &[Leg],
    height: &impl Fn(usize) -> f64,
) {
    let design = whole.design;
    for (id, Hung { x, line: hung_on, faded, .. }) in &columns.strands {
        let Some((_, edge)) = stage.lines.get(hung_on).copied() else { continue };
        let source = whole.work.fabric[*id].source;
        let Some(strand) = design.fringe.strands.get(source) else { continue };
        let look = if *faded { BeadLook::Faded } else { BeadLook::Flat };
        let turn = strand.turn.clamp(1, strand.beads.len().max(1));
        let (line, last) = strand.beads.split_at(strand.beads.len().saturating_sub(turn));
        // A picot takes more room: one bead less at both ends.
        let less = usize::from(turn > 1);
        let (head, foot) = (HEAD - less, FOOT - less);
        let (head, foot): (&[LetterId], &[LetterId]) = if line.len() > head + foot + 1 {
            (&line[..head], &line[line.len() - foot..])
        } else {
            (line, &[])
        };
        let mut y = edge + height(*hung_on);
        let mut runs = Vec::new();
        for (part, beads) in [head, foot].into_iter().enumerate() {
            if beads.is_empty() {
                continue;
            }
            if part == 1 {
                stage.breaks.push(Point::new(*x, y + BREAK / 2.0));
                y += BREAK;
            }
            let top = y;
            for letter in beads {
                let mut mark = scaled(design, *letter, columns.scale, Point::new(*x, y), look);
                let along = mark.length.0;
                mark.centre.y = Mm(y + along / 2.0);
                y += along;
                stage.show(design, Strung::Whole(*id), *letter, mark);
            }
            runs.push(Hole { x: *x, top, bottom: y });
        }
        if runs.is_empty() {
            runs.push(Hole { x: *x, top: y, bottom: y });
        }
        let worked = legs.iter().any(|l| l.through.hole() == Some(super::route::Hole::Strand(*id)));
        let before = if worked { BEFORE_TURN } else { BEFORE_TURN / 2.0 };
        let turn = turn_beads(design, last, columns.scale, Point::new(*x, y + before), look);
        for (letter, mark) in last.iter().zip(&turn) {
            stage.show(design, Strung::Whole(*id), *letter, mark.clone());
        }
        stage.strands.insert(*id, StrandHole { runs, turn });
    }
}

/// The turning bead below a point, or the beads of a picot round a circle below it from left to right.
fn turn_beads(
    design: &Design,
    letters: &[LetterId],
    scale: f64,
    top: Point,
    look: BeadLook,
) -> Vec<BeadMark> {
    if let [only] = letters {
        let mut mark = scaled(design, *only, scale, top, look);
        mark.centre.y = top.y + mark.length / 2.0;
        return vec![mark];
    }
    let along = |letter: &LetterId| {
        let bead = bead_of(design, *letter);
        // A drop's hole lies across.
        let hole = if bead.shape == Shape::Drop { bead.width } else { bead.length };
        hole.0 * scale + 0.8
    };
    let total: f64 = letters.iter().map(along).sum();
    let reach = letters.iter().map(|l| bead_of(design, *l).width.0 * scale / 2.0).fold(0.0, f64::max);
    // Neighbours touch at their inner corners.
    let radius = total / PICOT_ARC + reach;
    let centre = Point::new(top.x.0, top.y.0 + radius * 0.85 + reach * 0.5);
    let mut angle = -PICOT_ARC / 2.0;
    letters
        .iter()
        .map(|letter| {
            let share = along(letter) / total * PICOT_ARC;
            let here = angle + share / 2.0;
            angle += share;
            // From the lowest point: negative to the left.
            let at = Point::new(centre.x.0 + radius * here.sin(), centre.y.0 + radius * here.cos());
            let mut mark = scaled(design, *letter, scale, at, look);
            let upright = if mark.shape == Shape::Drop { 0.0 } else { 90.0 };
            mark.turned = upright - here.to_degrees();
            mark
        })
        .collect()
}

/// The loop, lifted so that its lowest beads clear the space below it.
fn loop_beads(stage: &mut Stage, whole: &Whole, columns: &Columns, hanging: &Hanging, foot: f64) {
    let Whole { design, work, .. } = whole;
    let Some((carrier, loops)) = columns.carrier.and_then(|carrier| Some((carrier, carrier.ring?))) else {
        return;
    };
    let mut ring = ring(whole, carrier, columns.scale);
    let Some(extent) = ring.iter().map(bead_extent).reduce(Extent::with) else { return };
    let middle = ring.first().map_or(0.0, |b| hanging.left - b.centre.x.0);
    for mark in &mut ring {
        mark.centre.x += Mm(middle);
        mark.centre.y += Mm(foot - extent.bottom);
    }
    let mut letters = work.loop_letters(loops);
    if loop_first(&work.fabric, loops) == Side::Right {
        letters.reverse();
    }
    for (letter, mark) in letters.iter().zip(&ring) {
        stage.show(design, Strung::Whole(loops), *letter, mark.clone());
    }
    stage.ring = ring;
}

impl Stage {
    fn show(&mut self, design: &Design, of: Strung, letter: LetterId, mark: BeadMark) {
        let symbol = design.letters[letter.0].symbol;
        self.beads.push(Shown { mark, symbol, of, lift: 0.0 });
    }
}
