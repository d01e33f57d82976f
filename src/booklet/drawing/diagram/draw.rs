//! Diagrams of a design: one for each kind of move that it uses.

use super::columns::{Columns, columns};
use super::frames::frames;
use super::joins::joins;
use super::lanes::assign;
use super::numbers::placed;
use super::paint::{number, number_rows, paint};
use super::route::{Leg, Through, legs_of};
use super::stage::{Stage, hanging, stage};
use super::state::State;
use super::stretch::{Part, numbered_parts, parts};
use super::thread::{Thread, trace};
use super::way::way;
use super::whole::Whole;
use crate::booklet::drawing::sketch::{Extent, Sketch};
use crate::design::{Design, LetterId};
use crate::drawn::Drawing;
use crate::stitch::{Carrier, Excerpt, Fabric, Manner, Move, MoveKind, Pass, Phase, Shown, Work, excerpts};
use crate::units::{Mm, Point};
use rayon::prelude::*;
use std::ops::Range;

/// A diagram and what its numbers stand for.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagram {
    /// What it shows.
    pub shown: Shown,
    /// The part of that thread's path that is drawn.
    pub range: Range<usize>,
    /// Whether it is an outline of the earring with the way of the thread, and not drawn move by move.
    pub is_way: bool,
    /// The drawing. It holds no words: letters and numbers only.
    pub drawing: Drawing,
    /// What its numbers stand for, in order.
    pub moves: Vec<DiagramMove>,
}

/// A numbered move of a diagram.
#[derive(Clone, Debug, PartialEq)]
pub struct DiagramMove {
    /// Its number in the drawing: from 1 in the first of a step, and on from there.
    pub number: usize,
    /// Index of the move in the path of its thread.
    pub at: usize,
    /// What the hand does.
    pub kind: MoveKind,
    /// What is being worked.
    pub phase: Phase,
    /// Letters of the beads picked up, in the order strung; empty when none are.
    pub letters: Vec<LetterId>,
}

/// Widths of a stack in millimetres that are tried until the diagram fits.
const UNITS: [f64; 9] = [8.0, 7.4, 6.8, 6.2, 5.7, 5.2, 4.8, 4.4, 4.2];
/// Widest diagram.
const WIDEST: Mm = Mm(85.0);
/// Highest diagram.
const HIGHEST: Mm = Mm(70.0);
/// Space round a diagram.
pub(super) const MARGIN: Mm = Mm(0.8);

/// Draws a part of a thread's path; nothing of a part that is empty or lies outside the path.
fn draw(whole: &Whole, excerpt: &Excerpt, part: &Part) -> Option<Diagram> {
    let path = &whole.work.path_of(excerpt).moves;
    let Part { moves: range, is_way, numbered } = part.clone();
    let shown = path.get(range.clone()).filter(|part| !part.is_empty())?;
    let drawing = if is_way {
        way(whole, shown)
    } else {
        let legs = legs(whole, excerpt.shown, path, part);
        scene(whole, excerpt.shown, path, &legs).sketch.finish(MARGIN, false)
    };
    let moves = shown
        .iter()
        .enumerate()
        .map(|(index, one)| DiagramMove {
            number: numbered + index + 1,
            at: range.start + index,
            kind: one.kind.clone(),
            phase: one.phase,
            letters: letters(&whole.work.fabric, one),
        })
        .collect();
    Some(Diagram { shown: excerpt.shown, range, is_way, drawing, moves })
}

/// Everything of a diagram in its place.
pub(super) struct Scene {
    pub(super) columns: Columns,
    pub(super) stage: Stage,
    pub(super) thread: Thread,
    /// Where the number of each move stands.
    pub(super) numbers: Vec<(usize, Point)>,
    /// All of it, painted.
    pub(super) sketch: Sketch,
    /// The box round all of it but the numbers of rows.
    pub(super) around: Option<Extent>,
}

/// The largest scene that fits.
fn scene(whole: &Whole, shown: Shown, path: &[Move], legs: &[Leg]) -> Scene {
    let first = legs.iter().filter(|l| l.number.is_some()).map(|l| l.at).min().unwrap_or(0);
    let carrier = carrier(whole, path, legs);
    let state = State::before(whole, shown, first, legs);
    // Lanes are in proportion to the beads: found once, at the first size.
    let widest = columns(whole, &state, carrier, legs, UNITS[0]);
    let lanes = assign(&widest, legs, &hanging(whole, &widest));
    let of = |unit: f64| {
        let columns = columns(whole, &state, carrier, legs, unit);
        let hanging = hanging(whole, &columns);
        let offsets: Vec<f64> = lanes.iter().map(|lane| lane * unit / UNITS[0]).collect();
        let (joins, heights) = joins(&columns, legs, &offsets, &hanging);
        let stage = stage(whole, &columns, legs, &hanging, &heights);
        let thread = trace(whole.work, &stage, legs, &offsets, &joins);
        let sketch = paint(&columns, &stage, &thread, whole.accent);
        Scene { columns, stage, thread, numbers: Vec::new(), sketch, around: None }
    };
    let numbered = |mut scene: Scene| {
        let Scene { columns, stage, thread, numbers, sketch, around } = &mut scene;
        *numbers = placed(columns, stage, thread);
        number(sketch, thread, numbers, whole.accent);
        *around = sketch.extent();
        number_rows(sketch, whole, columns, stage, *around);
        scene
    };
    let fits = |scene: &Scene| scene.sketch.extent().is_none_or(fits);
    let [larger @ .., smallest] = UNITS;
    // Numbers take longest to place and seldom reach beyond the rest.
    let found = larger.into_iter().map(of).filter(fits).map(numbered).find(fits);
    found.unwrap_or_else(|| numbered(of(smallest)))
}

/// Draws a part of a path after each of its moves, as far as the thread has come then, all in one size; the first shows
/// what is there before. Of a way one drawing, with all of it.
fn steps_of(whole: &Whole, excerpt: &Excerpt, part: &Part) -> Vec<Drawing> {
    let path = &whole.work.path_of(excerpt).moves;
    let shown = path.get(part.moves.clone()).filter(|part| !part.is_empty());
    let Some(shown) = shown else { return Vec::new() };
    if part.is_way {
        return vec![way(whole, shown)];
    }
    let legs = legs(whole, excerpt.shown, path, part);
    frames(whole, &scene(whole, excerpt.shown, path, &legs), (part.numbered, shown))
}

/// The guard or loop that some legs are about.
fn carrier(whole: &Whole, path: &[Move], legs: &[Leg]) -> Option<Carrier> {
    legs.iter().find_map(|leg| match path.get(leg.at)?.phase {
        Phase::Hanging(index) => whole.work.hangings.get(index).copied(),
        Phase::Section(_) | Phase::Beginning(_) | Phase::Ending(_) | Phase::Travel | Phase::Tail => None,
    })
}

/// Whether a drawing that fills this box fits with its margin.
fn fits(extent: Extent) -> bool {
    let margins = MARGIN.0 * 2.0;
    extent.right - extent.left + margins <= WIDEST.0 && extent.bottom - extent.top + margins <= HIGHEST.0
}

/// The legs of a part of a path, after the last leg before it.
fn legs(whole: &Whole, shown: Shown, path: &[Move], part: &Part) -> Vec<Leg> {
    let range = &part.moves;
    let fabric = &whole.work.fabric;
    let of = |at: usize, number: Option<usize>| {
        path.get(at).map(|one| legs_of(fabric, one)).unwrap_or_default().into_iter().map(move |through| Leg {
            at,
            number,
            through,
        })
    };
    let own: Vec<Leg> =
        range.clone().flat_map(|at| of(at, Some(part.numbered + at - range.start + 1))).collect();
    // Where the thread comes from is shown if it lies in a line of stacks that is shown anyway, or if it is wrapped from
    // there or goes back along its outside.
    let before = match range.start.checked_sub(1) {
        Some(at) => of(at, None).next_back(),
        None if shown.manner == Manner::Tail => out_of_first(whole).map(|leg| Leg { at: 0, ..leg }),
        None => None,
    };
    let line = |leg: &Leg| leg.through.line(fabric);
    let shown = |leg: &Leg| line(leg).is_none_or(|there| own.iter().any(|leg| line(leg) == Some(there)));
    let wraps_first = own.first().is_some_and(|leg| matches!(leg.through, Through::Wrap { .. }));
    let round = |leg: &Leg| match (leg.through, own.first().map(|leg| leg.through)) {
        (Through::Stack(from), Some(Through::Stack(to))) => {
            from.way == to.way.back() && fabric[from.stack].section != fabric[to.stack].section
        }
        _ => false,
    };
    let before =
        before.filter(|leg| leg.through.hole().is_some() && (wraps_first || shown(leg) || round(leg)));
    before.into_iter().chain(own).collect()
}

/// The starting tail hangs out of the stack that was strung first.
fn out_of_first(whole: &Whole) -> Option<Leg> {
    let first = whole.work.body.moves.iter().find_map(|made| match &made.kind {
        MoveKind::String { through } => through.first().copied(),
        _ => None,
    })?;
    let through = Through::Stack(Pass { way: first.way.back(), ..first });
    Some(Leg { at: 0, number: None, through })
}

fn letters(fabric: &Fabric, one: &Move) -> Vec<LetterId> {
    match one.kind {
        MoveKind::String { .. } => one.beads.iter().map(|spot| fabric[*spot].letter).collect(),
        _ => Vec::new(),
    }
}

/// The thread of each diagram that is wanted by what it shows, move by move, in the order of [`diagrams`].
#[must_use]
pub fn moving(design: &Design, work: &Work, wanted: impl Fn(Shown) -> bool) -> Vec<(Shown, Vec<Drawing>)> {
    let whole = Whole::of(design, work);
    let of = |(excerpt, parts): (&Excerpt, Vec<Part>)| {
        let steps = parts.iter().map(|part| steps_of(&whole, excerpt, part));
        steps.filter(|steps| !steps.is_empty()).map(|steps| (excerpt.shown, steps)).collect::<Vec<_>>()
    };
    let excerpts = excerpts(work);
    let parts = numbered_parts(work, &excerpts);
    excerpts.iter().zip(parts).filter(|(excerpt, _)| wanted(excerpt.shown)).flat_map(of).collect()
}

/// What the figures of a design show, in working order: which part of the path, and whether it is a way that an
/// outline shows.
#[must_use]
pub fn figured(work: &Work) -> Vec<(Shown, Range<usize>, bool)> {
    let of = |excerpt: &Excerpt| {
        let shown = excerpt.shown;
        parts(work, excerpt).into_iter().map(move |part| (shown, part.moves, part.is_way))
    };
    excerpts(work).iter().flat_map(of).filter(|(_, moves, _)| !moves.is_empty()).collect()
}

/// The diagrams of a design, one for each kind of work that it uses, in working order; of a long way an outline comes
/// first. They know nothing of each other, so both processors draw some.
#[must_use]
pub fn diagrams(design: &Design, work: &Work) -> Vec<Diagram> {
    let whole = Whole::of(design, work);
    let excerpts = excerpts(work);
    let parts = numbered_parts(work, &excerpts);
    let drawn = excerpts.par_iter().zip(parts).map(|(excerpt, parts)| {
        parts.iter().filter_map(|part| draw(&whole, excerpt, part)).collect::<Vec<_>>()
    });
    drawn.collect::<Vec<_>>().into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::super::bezier::points;
    use super::super::joins::{Bend, Join};
    use super::super::stage::{Shown as StageBead, Strung};
    use super::super::thread::Sight;
    use super::*;
    use crate::design::{Wishes, read_texts};
    use crate::drawn::Segment;
    use crate::stitch::{Way, stitch};

    const PALETTE: &str = "\
beads: {ink: {name: Ink, colour: \"#1b1c20\", shape: cylinder, size: 11/0}}
threads:
  body: {name: braided thread, colour: \"#ffffff\", diameter: 0.15 mm}
  fringe: {name: beading nylon, colour: \"#ffffff\", diameter: 0.25 mm}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1}
  ear wire: {name: ear wire, per earring: 1}
";

    /// Rows that begin and end wider and narrower above and below the foundation.
    const SHAPE: &str = "\
title: Shape
colours: {A: ink}
body:
  picture: |
    ..A A A A
    .A A A A
    ..A A A A
  below: |
    .A A A A
    ..A A A
    .....A
fringe:
  along: lowest row
  strands: [2A]
hang: thread guard
";

    fn shape() -> (Design, Work) {
        let files = [("shape.yaml", SHAPE), ("palette.yaml", PALETTE), ("studio.yaml", "name: Studio\n")];
        let reading = read_texts(&files, &Wishes::default());
        let design = reading.design.unwrap_or_else(|| panic!("{:?}", reading.problems));
        let work = stitch(&design);
        (design, work)
    }

    fn traced(whole: &Whole, shown: Shown, path: &[Move], legs: &[Leg]) -> (Vec<Join>, Stage, Thread) {
        let first = legs.iter().filter(|l| l.number.is_some()).map(|l| l.at).min().unwrap_or(0);
        let carrier = carrier(whole, path, legs);
        let state = State::before(whole, shown, first, legs);
        let columns = columns(whole, &state, carrier, legs, UNITS[0]);
        let hanging = hanging(whole, &columns);
        let offsets = assign(&columns, legs, &hanging);
        let (joins, heights) = joins(&columns, legs, &offsets, &hanging);
        let stage = stage(whole, &columns, legs, &hanging, &heights);
        let thread = trace(whole.work, &stage, legs, &offsets, &joins);
        (joins, stage, thread)
    }

    /// Thread that goes round the tip of a body, where a stack is alone in its row, lies outside of its beads.
    #[test]
    fn thread_goes_round_a_tip_beside_it() {
        let (design, work) = shape();
        let whole = Whole::of(&design, &work);
        let mut shown: Vec<Manner> = Vec::new();
        for excerpt in excerpts(&work) {
            let path = &work.path_of(&excerpt).moves;
            for part in parts(&work, &excerpt).into_iter().filter(|part| !part.is_way) {
                let legs = legs(&whole, excerpt.shown, path, &part);
                let (joins, stage, thread) = traced(&whole, excerpt.shown, path, &legs);
                if joins.iter().all(|join| join.bend != Bend::Beside) {
                    continue;
                }
                shown.push(excerpt.shown.manner);
                let alone = |bead: &&StageBead| match bead.of {
                    Strung::Stack(id) => work.fabric[work.fabric[id].section].stacks.len() == 1,
                    Strung::Whole(_) => false,
                };
                let tip: Vec<&StageBead> = stage.beads.iter().filter(alone).collect();
                assert!(!tip.is_empty());
                let open = thread.runs.iter().filter(|run| run.sight == Sight::Open && run.number.is_some());
                for at in open.flat_map(|run| points(&run.line)) {
                    let over = |bead: &&&StageBead| {
                        let mark = &bead.mark;
                        (mark.centre.x - at.x).abs() < mark.width / 2.0 - Mm(0.1)
                            && (mark.centre.y - at.y).abs() < mark.length / 2.0 - Mm(0.1)
                    };
                    let found = tip.iter().find(over);
                    assert_eq!(found.map(|bead| bead.mark.centre), None, "{:?} at {at:?}", excerpt.shown);
                }
            }
        }
        assert_eq!(shown, [Manner::Alone, Manner::End]);
    }

    /// The thread under a bridge reaches a little way into the row of the bridge, over the edge along which it lies.
    #[test]
    fn a_hook_goes_round_its_own_bridge() {
        let (design, work) = shape();
        let whole = Whole::of(&design, &work);
        let mut edges: Vec<Way> = Vec::new();
        for excerpt in excerpts(&work) {
            let path = &work.path_of(&excerpt).moves;
            for part in parts(&work, &excerpt).into_iter().filter(|part| !part.is_way) {
                let legs = legs(&whole, excerpt.shown, path, &part);
                let (_, stage, thread) = traced(&whole, excerpt.shown, path, &legs);
                let bridges = legs.iter().filter_map(|leg| match leg.through {
                    Through::Bridge(bridge) => Some(bridge),
                    _ => None,
                });
                let hooks = thread.runs.iter().filter(|run| run.sight == Sight::Behind);
                for (bridge, hook) in bridges.zip(hooks) {
                    let (top, bottom) = stage.lines[&work.fabric[bridge.stacks[0]].line];
                    let turns = match hook.line.last() {
                        Some(Segment::Curve(.., at)) => at.y.0,
                        other => panic!("{other:?}"),
                    };
                    let into = if bridge.edge == Way::Up { turns - top } else { bottom - turns };
                    assert!((1.0..4.0).contains(&into), "{:?} {bridge:?}: {into}", excerpt.shown);
                    edges.push(bridge.edge);
                }
            }
        }
        for edge in [Way::Up, Way::Down] {
            assert!(edges.iter().filter(|at| **at == edge).count() >= 2, "{edges:?}");
        }
    }
}
