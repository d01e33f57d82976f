//! Examples worked by hand: pick-ups, words, passes and lengths.

use super::sample::{Sample, text};
use crate::design::Side;
use crate::stitch::{
    Manner, MoveKind, Pass, Phase, RowWork, SectionKind, Shown, ThreadUse, Way, Work, excerpts, passes_while,
};
use crate::units::{MM_PER_INCH, Mm};

/// A two-drop body of 4, 3 and 2 stacks, every bead another letter.
fn small() -> Work {
    Sample::of_rows(&["AB CD EF GH", "IJ KL MN", "OP QR"]).stitch()
}

fn letters(row: &RowWork) -> String {
    let in_runs = row.then.iter().flat_map(|run| std::iter::repeat_n(&run.beads, run.count).flatten());
    text(&row.starts_with.iter().chain(in_runs).copied().collect::<Vec<_>>())
}

fn words(row: &RowWork) -> String {
    let runs: Vec<String> = row.then.iter().map(|r| format!("{} {}", r.count, text(&r.beads))).collect();
    format!("{:?}: {} then {}", row.from, text(&row.starts_with), runs.join(" · "))
}

fn path_length(work: &Work, kind: SectionKind) -> Mm {
    let moves = work.body.moves.iter().chain(&work.fringe.moves);
    moves.filter(|m| is_of(work, m.phase, kind)).map(|m| m.length()).sum()
}

fn is_of(work: &Work, phase: Phase, kind: SectionKind) -> bool {
    matches!(phase, Phase::Section(section) if work.fabric[section].kind == kind)
}

fn body_length(drop: usize) -> f64 {
    path_length(&Sample::plain(drop, 17, 3).stitch(), SectionKind::Row).0
}

fn fringe_length(beads: usize) -> f64 {
    let work = Sample::plain(2, 17, 3).with_strands(beads).stitch();
    path_length(&work, SectionKind::Strand).0
}

/// A thread as it is measured off: along the path with its tails and anchors, in feet.
fn feet(work: &Work, thread: ThreadUse) -> f64 {
    let cuts = work.cuts.iter().filter(|c| c.thread == thread);
    let measured: Mm = cuts.map(|c| c.path + c.tails + c.anchors).sum();
    measured.0 / (12.0 * MM_PER_INCH)
}

#[test]
fn beads_are_picked_up_in_the_order_strung() {
    let picked: Vec<String> = small().rows.iter().map(letters).collect();
    assert_eq!(picked, ["ABDCEFHG", "NMKLIJ", "POQR"]);
}

#[test]
fn rows_are_said_as_a_start_and_runs_of_stacks() {
    let said: Vec<String> = small().rows.iter().map(words).collect();
    assert_eq!(said, ["Left: ABDC then 1 EF · 1 HG", "Right: NMKL then 1 IJ", "Left: POQR then "]);
    let single = Sample::of_rows(&["A A B A A A B", "A A A A A B"]).stitch();
    let said: Vec<String> = single.rows.iter().map(words).collect();
    assert_eq!(said, ["Left: AA then 1 B · 3 A · 1 B", "Right: BA then 4 A"]);
}

#[test]
fn stacks_are_passed_as_counted_by_hand() {
    let work = small();
    let passes = passes_while(&work, |p| is_of(&work, p, SectionKind::Row));
    let of_row = |row: usize, stacks| -> Vec<usize> {
        (0..stacks)
            .map(|stack: usize| {
                let id = work.fabric[work.rows[row].section].stacks[stack];
                let level = |level: usize| passes[&work.fabric[id].beads[level]][0];
                assert_eq!(level(0), level(1), "both beads of a stack");
                level(0)
            })
            .collect()
    };
    assert_eq!(of_row(0, 4), [2, 3, 3, 2]);
    assert_eq!(of_row(1, 3), [2, 3, 2]);
    assert_eq!(of_row(2, 2), [2, 3]);
}

#[test]
fn paths_are_as_long_as_worked_out_by_hand() {
    // To the hundredth of a metre, for cylinder beads 11/0.
    assert_eq!(format!("{:.2}", body_length(2) / 1000.0), "1.18");
    assert_eq!(format!("{:.2}", body_length(1) / 1000.0), "0.75");
    assert_eq!(format!("{:.2}", fringe_length(25) / 1000.0), "1.20");
}

/// Common practice, no source: such a body is worked with 4 to 5 feet of thread, its fringe of
/// strands of 20 to 30 beads with about 4 feet.
///
/// Inside is taken as: the body's thread as it goes into the work, with tails, guard and anchors
/// but without the reserve for handling, is between 4 and 5 feet long. About 4 feet is taken as: to
/// the nearest foot the shortest fringe with its tails and anchors is 4 feet, and so is the
/// middling one as it lies in the work; with tails and anchors that is less than a foot longer.
#[test]
fn lengths_agree_with_common_practice() {
    let body = feet(&Sample::plain(2, 17, 3).stitch(), ThreadUse::Body);
    assert!((4.0..=5.0).contains(&body), "{body}");
    let fringe = |beads| feet(&Sample::plain(2, 17, 3).with_strands(beads).stitch(), ThreadUse::Fringe);
    assert_eq!(fringe(20).round(), 4.0);
    assert_eq!((fringe_length(25) / (12.0 * MM_PER_INCH)).round(), 4.0);
    assert!(fringe(25) < 5.0, "{}", fringe(25));
}

#[test]
fn the_foundation_starts_from_the_starting_side() {
    let mut sample = Sample::of_rows(&["AB CD EF GH", "IJ KL MN", "OP QR"]);
    sample.start = Side::Right;
    let said: Vec<String> = sample.stitch().rows.iter().map(words).collect();
    assert_eq!(said, ["Right: GHFE then 1 CD · 1 BA", "Left: JIKL then 1 MN", "Right: RQOP then "]);
}

#[test]
fn a_strand_is_passed_down_and_up_but_its_turn_once() {
    let mut sample = Sample::plain(2, 3, 2).with_strands(5);
    sample.strands[1].turn = 3;
    let work = sample.stitch();
    let passes = crate::stitch::passes(&work);
    let of_strand = |strand: usize| -> Vec<[usize; 2]> {
        work.fabric.beads_of(work.strands[strand].section).map(|lying| passes[&lying.spot]).collect()
    };
    assert_eq!(of_strand(0), [[0, 2], [0, 2], [0, 2], [0, 2], [0, 1]]);
    assert_eq!(of_strand(1), [[0, 2], [0, 2], [0, 1], [0, 1], [0, 1]]);
}

#[test]
fn excerpts_show_each_kind_of_work_from_its_first_move() {
    let work = Sample::plain(2, 5, 3).with_strands(5).stitch();
    let first = |shown: Shown| {
        let excerpt = excerpts(&work).into_iter().find(|e| e.shown == shown).expect("used");
        work.path(shown.thread).moves[excerpt.moves.start].kind.clone()
    };
    assert!(matches!(first(Shown::body(Manner::Ladder)), MoveKind::LeaveTail { .. }));
    assert!(matches!(first(Shown::body(Manner::LadderOn)), MoveKind::String { .. }));
    assert!(matches!(first(Shown::fringe(Manner::Begin)), MoveKind::LeaveTail { .. }));
    assert!(matches!(first(Shown::body(Manner::Hanging)), MoveKind::ThroughGuard { .. }));
    let foundation = &work.fabric[work.rows[0].section].stacks;
    let down = |stack: usize| MoveKind::Pass(Pass { stack: foundation[stack], way: Way::Down });
    let strand = Shown::fringe(Manner::Strand);
    assert_eq!((first(strand), first(strand.again())), (down(0), down(1)));
    assert_eq!(excerpts(&work).len(), 12);
}
