//! Designs as stitched: the thread's whole way in a form that a person can follow.

use fringebook::design::{self, Design, Side, Wishes};
use fringebook::stitch::{self, Move, MoveKind, Phase, Spot, StackAt, ThreadPath, Work};
use std::fmt::Write;
use std::path::Path;

const PALETTE: &str = "\
beads:
  ink: {name: Ink, colour: \"#1b1c20\", shape: cylinder, size: 11/0}
  mist: {name: Mist, colour: \"#e6ebef\", shape: cylinder, size: 11/0}
  reed: {name: Reed, colour: \"#7c8a4f\", shape: cylinder, size: 11/0}
threads:
  body: {name: braided thread 6 lb, colour: \"#ffffff\", diameter: 0.15 mm}
  fringe: {name: beading nylon size D, colour: \"#ffffff\", diameter: 0.25 mm, stretch first: true}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1}
  ear wire: {name: lever-back ear wire, per earring: 1}
tools: [beading needle size 12, scissors]
";

const STUDIO: &str = "name: Studio\n";

const SMALL: &str = "\
title: Small
edition: 1
colours: {A: ink, B: mist, C: reed}
body:
  stitch: brick
  drop: 2
  picture: |
    ..A B
    ..A C
    .A B C
    .B B C
    A B C A
    B B C C
fringe:
  strands:
    - 2A 1B
    - 2A 2C 1B
    - 2A 2C 1B
    - 2A 1B
pair: same
hang: {loop: 8C}
";

fn design_of(text: &str, wishes: &Wishes) -> Design {
    let files = [("small.yaml", text), ("palette.yaml", PALETTE), ("studio.yaml", STUDIO)];
    let reading = design::read_texts(&files, wishes);
    reading.design.unwrap_or_else(|| panic!("{:?}", reading.problems))
}

fn demo(name: &str) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs").join(name).with_extension("yaml");
    let reading = design::read(&path, &Wishes::default());
    reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems))
}

/// A path, a line a move: what is worked, what the hand does, how much thread it takes.
fn written(path: &ThreadPath) -> String {
    let mut out = String::new();
    for made in &path.moves {
        let _ = writeln!(out, "{:14} {:5.2} mm  {}", phase(made.phase), made.length().0, hand(made));
    }
    out
}

fn phase(phase: Phase) -> String {
    match phase {
        Phase::Row(row) => format!("row {}", row + 1),
        Phase::Strand(strand) => format!("strand {}", strand + 1),
        Phase::Beginning(anchor) => format!("begin, anchor {anchor}"),
        Phase::Ending(anchor) => format!("end, anchor {anchor}"),
        Phase::Hanging => "hanging".into(),
        Phase::Travel => "travel".into(),
        Phase::Tail => "tail".into(),
    }
}

fn hand(made: &Move) -> String {
    match &made.kind {
        MoveKind::String { beads } => beads.iter().map(|&bead| spot(bead)).collect::<Vec<_>>().join(" "),
        MoveKind::Pass { stack: StackAt { row, stack }, way } => {
            format!("{way:?} through {}.{}", row + 1, stack + 1)
        }
        MoveKind::UnderBridge { row, bridge } => format!("under bridge {}.{}", row + 1, bridge + 1),
        other => format!("{other:?}"),
    }
}

fn spot(spot: Spot) -> String {
    match spot {
        Spot::Body { row, stack, level } => format!("{}.{}.{}", row + 1, stack + 1, level + 1),
        Spot::Loop { bead } => format!("loop.{}", bead + 1),
        Spot::Strand { strand, bead } => format!("strand.{}.{}", strand + 1, bead + 1),
    }
}

fn all(work: &Work) -> String {
    let mut out = format!(
        "BODY\n{}TAIL\n{}FRINGE\n{}EXCERPTS\n",
        written(&work.body),
        written(&work.tail),
        written(&work.fringe)
    );
    for excerpt in stitch::excerpts(work) {
        let _ = writeln!(out, "{:?}: {:?} moves {:?}", excerpt.kind, excerpt.thread, excerpt.moves);
    }
    out
}

#[test]
fn the_whole_way_of_the_thread() {
    insta::assert_snapshot!(all(&stitch::stitch(&design_of(SMALL, &Wishes::default()))));
}

#[test]
fn a_wish_for_the_right_turns_the_work_round() {
    let wishes = Wishes { start: Some(Side::Right), ..Wishes::default() };
    let work = stitch::stitch(&design_of(SMALL, &wishes));
    let sides: Vec<Side> = work.rows.iter().map(|row| row.from).collect();
    assert_eq!(sides, [Side::Right, Side::Left, Side::Right]);
    assert_eq!(work.fringe_from, Side::Right);
    let orders: Vec<usize> = work.strands.iter().map(|strand| strand.order).collect();
    assert_eq!(orders, [4, 3, 2, 1]);
}

#[test]
fn a_white_thread_is_anchored_in_the_pale_half() {
    let design = demo("waning-moon");
    let work = stitch::stitch(&design);
    assert_eq!(work.anchors.len(), 4);
    let lightness = |row: usize, stack: usize, level: usize| {
        design.bead(design.body.rows[row].stacks[stack].0[level]).colour.lab().l
    };
    for anchor in &work.anchors {
        for (stack, level) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
            let l = lightness(anchor.row, anchor.stack + stack, level);
            assert!(l > 70.0, "lightness {l} at {:?}", anchor.numbers());
        }
        assert!(anchor.is_close());
    }
    // The fringe ends below the dark half, and its thread goes out of its way.
    let foundation = design.body.rows[0].stacks.len();
    assert!(lightness(0, foundation - 1, 0) < 40.0);
}

#[test]
fn places_are_numbered_for_a_reader() {
    let work = stitch::stitch(&design_of(SMALL, &Wishes::default()));
    let from_left = StackAt { row: 0, stack: 1 };
    assert_eq!(work.stack_number(from_left), 2);
    let from_right = StackAt { row: 1, stack: 0 };
    assert_eq!(work.stack_number(from_right), 3);
    let (row, stacks) = work.anchors[0].numbers();
    assert_eq!((row, stacks[1]), (work.anchors[0].row + 1, work.anchors[0].stack + 2));
}
