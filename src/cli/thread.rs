//! The way of the thread as JSON, for whoever wants to draw, film or check it.
//!
//! ```json
//! {"threads": [{"thread": "body", "length": 1, "moves": [
//!   {"move": "string", "section": "row 2", "manner": "narrower at the start",
//!    "beads": ["row 2, stack 3, bead 2", …], "points": [[x, y], …], "step": 4}, …]}, …]}
//! ```
//!
//! Threads are `body`, `starting tail` (the other end of the body thread, worked away last) and `fringe`; one that takes
//! several lengths stands here once for each. Moves are
//! `leave tail`, `string`, `pass`, `under bridge`, `through guard`, `through loop`, `return`, `wrap` and `cut`. A
//! section is a row, the loop or a strand as the booklet numbers them, else what is done: `hanging` (of
//! several `hanging 1` and so on), `beginning`, `travel`, `ending`, `tail`. `beads` are those that the thread passes through, in order: of a `string` those picked
//! up. Stacks count from the left, beads of a stack from the top, those of a strand from what it hangs on. `points`
//! are millimetres of the earring from its upper left corner, the first where the move before ended. `step` is the
//! printed step that tells the move.

use crate::booklet::Telling;
use crate::stitch::{Move, MoveKind, Phase, ThreadPath, Work};
use serde::Serialize;

#[derive(Serialize)]
struct Threads {
    threads: Vec<Thread>,
}

#[derive(Serialize)]
struct Thread {
    thread: &'static str,
    length: usize,
    moves: Vec<OneMove>,
}

#[derive(Serialize)]
struct OneMove {
    #[serde(rename = "move")]
    kind: &'static str,
    section: String,
    manner: &'static str,
    beads: Vec<String>,
    points: Vec<[f64; 2]>,
    step: Option<usize>,
}

/// The threads of an earring, with the steps that tell their moves.
pub(super) fn json(work: &Work, telling: &Telling) -> String {
    let threads = [("body", &work.body), ("starting tail", &work.tail), ("fringe", &work.fringe)];
    let lengths = |(thread, path): (&'static str, &ThreadPath)| -> Vec<Thread> {
        let length = |(index, moves): (usize, &[Move])| Thread {
            thread,
            length: index + 1,
            moves: moves.iter().map(|made| one_move(work, path, made, telling)).collect(),
        };
        path.lengths().enumerate().map(length).collect()
    };
    let threads = threads.into_iter().flat_map(lengths).collect();
    // Only maps with keys that are no text fail, and there are none.
    serde_json::to_string_pretty(&Threads { threads }).unwrap_or_default()
}

fn one_move(work: &Work, path: &ThreadPath, made: &Move, telling: &Telling) -> OneMove {
    OneMove {
        kind: kind(&made.kind),
        section: section(work, made.phase),
        manner: made.manner.name(),
        beads: made.beads.iter().map(|bead| work.fabric.address(*bead)).collect(),
        points: made.points.iter().map(|p| [rounded(p.x.0), rounded(p.y.0)]).collect(),
        step: telling.step(path.thread, made),
    }
}

fn kind(kind: &MoveKind) -> &'static str {
    match kind {
        MoveKind::LeaveTail { .. } => "leave tail",
        MoveKind::String { .. } => "string",
        MoveKind::Pass(_) => "pass",
        MoveKind::UnderBridge { .. } => "under bridge",
        MoveKind::ThroughGuard { .. } => "through guard",
        MoveKind::ThroughLoop { .. } => "through loop",
        MoveKind::ReturnUp { .. } => "return",
        MoveKind::Wrap { .. } => "wrap",
        MoveKind::CutTail { .. } => "cut",
    }
}

fn section(work: &Work, phase: Phase) -> String {
    match phase {
        Phase::Section(section) => work.fabric.name(section),
        Phase::Hanging(index) if work.hangings.len() > 1 => format!("hanging {}", index + 1),
        Phase::Hanging(_) => "hanging".to_owned(),
        Phase::Beginning(_) => "beginning".to_owned(),
        Phase::Travel => "travel".to_owned(),
        Phase::Ending(_) => "ending".to_owned(),
        Phase::Tail => "tail".to_owned(),
    }
}

/// To the micrometre.
fn rounded(millimetres: f64) -> f64 {
    (millimetres * 1000.0).round() / 1000.0 + 0.0
}
