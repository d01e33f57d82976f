//! What to cut, and where lengths join.

use super::sample::Sample;
use crate::design::Side;
use crate::stitch::{Cut, Phase, ThreadUse, Work};
use crate::units::Mm;

fn cuts(work: &Work, thread: ThreadUse) -> Vec<&Cut> {
    work.cuts.iter().filter(|c| c.thread == thread).collect()
}

/// The section where a length begins.
fn joins_at(work: &Work, cut: &Cut) -> String {
    match cut.joins_at {
        Phase::Section(section) => work.fabric.name(section),
        other => format!("{other:?}"),
    }
}

#[test]
fn one_span_of_thread_is_one_length() {
    let work = Sample::plain(2, 17, 3).with_strands(20).stitch();
    let said: Vec<_> = work.cuts.iter().map(|c| (c.thread, c.number, joins_at(&work, c), c.cut.0)).collect();
    assert_eq!(
        said,
        [
            (ThreadUse::Body, 1, "row 1".to_owned(), 1650.0),
            (ThreadUse::Fringe, 1, "strand 1".to_owned(), 1350.0)
        ]
    );
    for cut in &work.cuts {
        assert_eq!(cut.tails, Mm(200.0));
        assert!((cut.handling.0 - cut.path.0 * 0.1).abs() < 1e-9);
        assert!(cut.anchors.0 > 20.0, "both anchors: {:?}", cut.anchors);
    }
}

#[test]
fn more_than_a_span_is_split_evenly_at_strands() {
    let mut sample = Sample::plain(2, 17, 3).with_strands(40);
    let work = sample.stitch();
    let lengths = cuts(&work, ThreadUse::Fringe);
    assert_eq!(lengths.iter().map(|c| c.number).collect::<Vec<_>>(), [1, 2]);
    assert!(lengths.iter().all(|c| c.cut <= Mm(1800.0)));
    assert!((lengths[0].cut - lengths[1].cut).abs() <= Mm(150.0), "{lengths:?}");
    assert_eq!(joins_at(&work, lengths[1]), "strand 10");
    assert!(lengths.iter().all(|c| c.tails == Mm(200.0) && c.anchors > Mm(20.0)));
    // Both ends of a length are anchored in places of their own: what is cut takes them as they are.
    let of = |index: usize, anchor: usize| -> Mm {
        let at = |p| matches!(p, Phase::Beginning(a) | Phase::Ending(a) if a == anchor);
        assert_eq!(work.anchors[anchor].thread, ThreadUse::Fringe, "{index}");
        work.fringe.moves.iter().filter(|m| at(m.phase)).map(|m| m.length()).sum()
    };
    assert!((lengths[0].anchors - of(0, 2) - of(0, 3)).abs() < Mm(1e-9));
    assert!((lengths[1].anchors - of(1, 4) - of(1, 5)).abs() < Mm(1e-9));
    let joins: Vec<bool> = work.anchors.iter().map(|anchor| anchor.join.is_some()).collect();
    assert_eq!(joins, [false, false, false, true, true, false]);
    // The new length comes out of the stack that the old one came out of.
    let moves = &work.fringe.moves;
    let ends = moves.iter().position(|m| m.phase == Phase::Ending(3)).expect("an end");
    let begins = moves.iter().rposition(|m| m.phase == Phase::Beginning(4)).expect("a beginning");
    assert_eq!(moves[ends - 1].points.last(), moves[begins].points.last());
    let places: Vec<_> = work.anchors.iter().map(|anchor| anchor.stacks).collect();
    assert!(places.iter().enumerate().all(|(i, pair)| !places[..i].contains(pair)), "each has its own");
    sample.start = Side::Right;
    let work = sample.stitch();
    let joins: Vec<String> = cuts(&work, ThreadUse::Fringe).iter().map(|cut| joins_at(&work, cut)).collect();
    assert_eq!(joins, ["strand 1", "strand 10"]);
}

#[test]
fn a_long_body_is_split_at_rows() {
    let work = Sample::plain(2, 40, 3).stitch();
    let lengths = cuts(&work, ThreadUse::Body);
    assert!(lengths.len() > 2);
    let joins: Vec<usize> = lengths
        .iter()
        .map(|c| match c.joins_at {
            Phase::Section(section) => work.fabric[section].number - 1,
            other => panic!("{other:?}"),
        })
        .collect();
    assert!(joins[0] == 0 && joins.windows(2).all(|j| j[0] < j[1]));
}

#[test]
fn the_makers_own_allowances_are_kept() {
    let mut sample = Sample::plain(1, 6, 3).with_strands(10);
    sample.allowances.tail = Mm(150.0);
    sample.allowances.handling = 0.0;
    let work = sample.stitch();
    assert!(work.cuts.iter().all(|c| c.tails == Mm(300.0) && c.handling == Mm(0.0)));
}

#[test]
fn a_row_longer_than_the_span_is_not_cut() {
    let mut sample = Sample::plain(3, 12, 10);
    sample.allowances.arm_span = Mm(100.0);
    assert_eq!(cuts(&sample.stitch(), ThreadUse::Body).len(), 3);
}
