//! Designs as stitched: the thread's whole way in a form that a person can follow.

use fringebook::design::{self, Design, Side, Wishes};
use fringebook::stitch::{
    self, Fabric, Manner, Move, MoveKind, Phase, SectionKind, Shown, Spot, ThreadPath, ThreadUse, Work,
};
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
fn written(fabric: &Fabric, path: &ThreadPath) -> String {
    let mut out = String::new();
    for made in &path.moves {
        let _ = writeln!(
            out,
            "{:14} {:5.2} mm  {}",
            phase(fabric, made.phase),
            made.length().0,
            hand(fabric, made)
        );
    }
    out
}

fn phase(fabric: &Fabric, phase: Phase) -> String {
    match phase {
        Phase::Section(section) => match fabric[section].kind {
            SectionKind::Row => format!("row {}", fabric[section].number),
            // From the left, whichever is worked first.
            SectionKind::Strand => format!("strand {}", fabric[section].source + 1),
            SectionKind::Loop => "loop".into(),
        },
        Phase::Beginning(anchor) => format!("begin, anchor {anchor}"),
        Phase::Ending(anchor) => format!("end, anchor {anchor}"),
        Phase::Hanging(_) => "hanging".into(),
        Phase::Travel => "travel".into(),
        Phase::Tail => "tail".into(),
    }
}

fn hand(fabric: &Fabric, made: &Move) -> String {
    let stack = |stack| format!("{}.{}", fabric.row_number(stack), fabric[stack].place + 1);
    match &made.kind {
        MoveKind::String { .. } => {
            made.beads.iter().map(|&bead| spot(fabric, bead)).collect::<Vec<_>>().join(" ")
        }
        MoveKind::Pass(pass) => format!("{:?} through {}", pass.way, stack(pass.stack)),
        MoveKind::UnderBridge { bridge } => format!("under bridge {}", stack(fabric[*bridge].stacks[0])),
        MoveKind::ReturnUp { strand } => format!("ReturnUp {{ strand: {} }}", fabric[*strand].source),
        other => format!("{other:?}"),
    }
}

fn spot(fabric: &Fabric, spot: Spot) -> String {
    let lying = &fabric[spot];
    let section = &fabric[lying.section];
    match (section.kind, lying.stack) {
        (SectionKind::Strand, _) => format!("strand.{}.{}", section.source + 1, lying.place + 1),
        (SectionKind::Row, Some(stack)) => {
            format!("{}.{}.{}", section.number, fabric[stack].place + 1, lying.place + 1)
        }
        _ => format!("loop.{}", lying.place + 1),
    }
}

fn shown(shown: Shown) -> &'static str {
    match (shown.manner, shown.thread, shown.time > 1) {
        (Manner::Ladder, ..) => "FirstLadderStacks",
        (Manner::LadderOn, ..) => "AddLadderStack",
        (Manner::Narrower | Manner::Alone, _, false) => "StartRow",
        (Manner::Narrower | Manner::Alone, _, true) => "StartNextRow",
        (Manner::Wider | Manner::WalkIn | Manner::Turned | Manner::WiderEnd, ..)
        | (Manner::BuiltOut | Manner::BuiltOutEnd | Manner::OnwardBelow, ..) => {
            unreachable!("not in a body that narrows")
        }
        (Manner::Onward, ..) => "AddStack",
        (Manner::Hanging, ..) => "Hanging",
        (Manner::Begin, ..) => "DownToFringe",
        (Manner::Strand, _, false) => "Strand",
        (Manner::Strand, _, true) => "NextStrand",
        (Manner::End, ThreadUse::Body, _) => "Anchoring",
        (Manner::Tail, ..) => "TailAway",
        (Manner::JoinEnd, ..) => "JoinEnd",
        (Manner::JoinBegin, ..) => "JoinBegin",
        (Manner::End, ThreadUse::Fringe, _) => "LastTail",
    }
}

fn all(work: &Work) -> String {
    let mut out = format!(
        "BODY\n{}TAIL\n{}FRINGE\n{}EXCERPTS\n",
        written(&work.fabric, &work.body),
        written(&work.fabric, &work.tail),
        written(&work.fabric, &work.fringe)
    );
    for excerpt in stitch::excerpts(work) {
        let stitch::Excerpt { shown: what, moves } = excerpt;
        let _ = writeln!(out, "{}: {:?} moves {moves:?}", shown(what), what.thread);
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
    let orders: Vec<usize> = work.strands.iter().map(|strand| strand.number).collect();
    assert_eq!(orders, [4, 3, 2, 1]);
}

#[test]
fn a_white_thread_is_anchored_in_the_pale_half() {
    let design = demo("waning-moon");
    let work = stitch::stitch(&design);
    assert_eq!(work.anchors.len(), 4);
    let fabric = &work.fabric;
    let lightness = |spot: Spot| design.bead(fabric[spot].letter).colour.lab().l;
    for anchor in &work.anchors {
        for spot in anchor.stacks.iter().flat_map(|stack| &fabric[*stack].beads) {
            let l = lightness(*spot);
            assert!(l > 70.0, "lightness {l} at {:?}", anchor.numbers(fabric));
        }
        assert!(anchor.is_close());
    }
    // The fringe ends below the dark half, and its thread goes out of its way.
    let foundation = &fabric[work.rows[0].section];
    let last = foundation.stacks[foundation.stacks.len() - 1];
    assert!(lightness(fabric[last].beads[0]) < 40.0);
}

#[test]
fn places_are_numbered_for_a_reader() {
    let work = stitch::stitch(&design_of(SMALL, &Wishes::default()));
    let fabric = &work.fabric;
    let stack = |row: usize, place: usize| fabric[work.rows[row].section].stacks[place];
    assert_eq!(fabric.stack_number(stack(0, 1)), 2, "row 1 starts from the left");
    assert_eq!(fabric.stack_number(stack(1, 0)), 3, "row 2 from the right");
    assert_eq!(fabric.address(fabric[stack(1, 0)].beads[1]), "row 2, stack 1, bead 2");
    let strand = work.strands.last().expect("a strand").section;
    assert_eq!(fabric.address(fabric[strand].beads[2]), "strand 4, bead 3");
    let (row, [left, right]) = work.anchors[0].numbers(fabric);
    assert_eq!(work.anchors[0].stacks, [stack(row - 1, left - 1), stack(row - 1, right - 1)]);
}
