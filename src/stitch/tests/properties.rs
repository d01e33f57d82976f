//! What must hold for every earring, tried on random bodies and fringes.

use super::mirror::{difference, mirrored};
use super::random::{LETTERS, body, earring};
use super::sample::{Sample, letter, strand};
use crate::design::LetterId;
use crate::drawn::Shape;
use crate::stitch::*;
use crate::units::{Mm, Point};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

fn paths(work: &Work) -> [&ThreadPath; 3] {
    [&work.body, &work.tail, &work.fringe]
}

fn length(moves: &[Move], wanted: impl Fn(Phase) -> bool) -> f64 {
    moves.iter().filter(|m| wanted(m.phase)).map(|m| m.length().0).sum()
}

/// Thread in the rows of a body by counting passes and steps, without following it.
fn rows_by_formula(sample: &Sample) -> f64 {
    let (w, l) = (sample.beads[0].width.0, sample.beads[0].length.0);
    let h = l * sample.body.drop as f64;
    sample
        .body
        .rows
        .iter()
        .enumerate()
        .map(|(row, stacks)| {
            let m = stacks.stacks.len() as f64;
            match (row, stacks.stacks.len()) {
                // Each stack once, the first two twice, each later one with the one before it.
                (0, _) => (3.0 * m - 2.0) * h + (3.0 * m - 3.0) * w,
                (_, 1) => 2.0 * h + h.hypot(w / 2.0),
                // Half a step up, three steps to and fro, and one to each later stack.
                _ => (2.0 * m + 1.0) * h + (m + 1.5) * w,
            }
        })
        .sum()
}

/// Thread in the strands, likewise.
fn strands_by_formula(sample: &Sample) -> f64 {
    let (w, l) = (sample.beads[0].width.0, sample.beads[0].length.0);
    let h = l * sample.body.drop as f64;
    let strands = &sample.strands;
    let beads: usize = strands.iter().map(|s| 2 * s.beads.len() - s.turn).sum();
    beads as f64 * l + strands.len() as f64 * 2.0 * h + (strands.len() as f64 - 1.0) * w
}

fn is_section(phase: Phase) -> bool {
    matches!(phase, Phase::Section(_))
}

fn is_row(work: &Work, phase: Phase) -> bool {
    matches!(phase, Phase::Section(section) if work.fabric[section].kind == SectionKind::Row)
}

proptest! {
    #![proptest_config(super::cases(96))]

    #[test]
    fn every_bead_is_strung_exactly_once(sample in earring()) {
        let work = sample.stitch();
        let mut strung: BTreeMap<Spot, usize> = BTreeMap::new();
        for made in paths(&work).iter().flat_map(|p| &p.moves) {
            if let MoveKind::String { .. } = &made.kind {
                made.beads.iter().for_each(|&b| *strung.entry(b).or_default() += 1);
            }
        }
        let in_body: usize = sample.body.rows.iter().map(|r| r.stacks.len() * sample.body.drop).sum();
        let in_strands: usize = sample.strands.iter().map(|s| s.beads.len()).sum();
        let in_loop: usize = sample.hangings.iter().map(|hanging| hanging.by.loop_beads().len()).sum();
        prop_assert_eq!(strung.len(), in_body + in_strands + in_loop);
        prop_assert!(strung.values().all(|&times| times == 1));
        let lying: Vec<Spot> = work.fabric.beads.iter().map(|l| l.spot).collect();
        prop_assert_eq!(lying.len(), strung.len());
        prop_assert!(lying.iter().all(|spot| strung.contains_key(spot)));
    }

    #[test]
    fn the_path_is_unbroken(sample in earring()) {
        let work = sample.stitch();
        for path in paths(&work) {
            for length in path.lengths() {
                for pair in length.windows(2) {
                    prop_assert_eq!(pair[0].points.last(), pair[1].points.first());
                }
                let cuts = length.iter().filter(|m| matches!(m.kind, MoveKind::CutTail { .. })).count();
                prop_assert_eq!(cuts, 1);
                let ends = matches!(length[length.len() - 1].kind, MoveKind::CutTail { .. });
                prop_assert!(ends);
            }
        }
        prop_assert_eq!(work.body.moves[0].points[0], work.tail.moves[0].points[0]);
    }

    #[test]
    fn no_thread_lies_bare_for_more_than_a_stack(sample in earring()) {
        let work = sample.stitch();
        let stack = work.geometry.stack_width.0 + 1e-6;
        for pair in paths(&work).iter().flat_map(|p| p.moves.windows(2)) {
            let (MoveKind::Pass(out), MoveKind::Pass(_)) = (&pair[0].kind, &pair[1].kind) else { continue };
            // Beside a stack alone in its row it lies as long as that is.
            let out = &work.fabric[out.stack];
            let alone = work.fabric[out.section].stacks.len() == 1;
            let most = if alone { stack.max((out.lower.y - out.upper.y).0.hypot(stack / 2.0)) } else { stack };
            if let [from, to, _] = &pair[1].points[..] {
                prop_assert!(from.distance(*to).0 <= most, "{:?}", pair);
            }
        }
    }

    #[test]
    fn a_bridge_is_there_because_an_earlier_move_laid_it(sample in earring()) {
        let work = sample.stitch();
        let mut laid: BTreeSet<BridgeId> = BTreeSet::new();
        for made in paths(&work).iter().flat_map(|p| &p.moves) {
            if let MoveKind::UnderBridge { bridge } = made.kind {
                prop_assert!(laid.contains(&bridge), "{:?}", made);
                // It faces what is to hang on it, and the thread goes under its middle.
                let Bridge { stacks: [left, right], edge } = work.fabric[bridge];
                let (left, right) = (work.fabric[left].end(edge), work.fabric[right].end(edge));
                let under = made.points.last().expect("a point");
                prop_assert!((under.x.0 - (left.x.0 + right.x.0) / 2.0).abs() < 1e-6 && under.y == left.y);
            }
            laid.extend(&made.lays);
        }
        prop_assert_eq!(laid.len(), work.fabric.bridges.len());
        // A row of one stack hangs too, and every other stack hangs by itself or with its row's first.
        let in_rows = paths(&work)[0].moves.iter().filter(|m| is_row(&work, m.phase));
        let hung = in_rows.filter(|m| matches!(m.kind, MoveKind::UnderBridge { .. })).count();
        let stacks = |row: &RowWork| work.fabric[row.section].stacks.len();
        let expected: usize = work.rows.iter().skip(1).map(|row| stacks(row).max(2) - 1).sum();
        prop_assert_eq!(hung, expected);
    }

    #[test]
    fn passes_run_through_the_holes_of_their_beads(sample in earring()) {
        let work = sample.stitch();
        let half = sample.beads[0].length / 2.0;
        for made in paths(&work).iter().flat_map(|p| &p.moves) {
            if let MoveKind::Pass(Pass { stack, way }) = made.kind {
                let beads = &work.fabric[stack].beads;
                let centre = |level: usize| work.fabric[beads[level]].centre;
                let (top, bottom) = (centre(0), centre(sample.body.drop - 1));
                let passed: Vec<Spot> = match way {
                    Way::Down => beads.clone(),
                    Way::Up => beads.iter().rev().copied().collect(),
                };
                prop_assert_eq!(&passed, &made.beads);
                let ends = [
                    Point { x: top.x, y: top.y - half },
                    Point { x: bottom.x, y: bottom.y + half },
                ];
                let (entry, exit) = match way { Way::Down => (ends[0], ends[1]), Way::Up => (ends[1], ends[0]) };
                let last = made.points.len() - 1;
                prop_assert!(made.points[last].distance(exit).0 < 1e-6);
                prop_assert!(made.points[last - 1].distance(entry).0 < 1e-6);
            }
        }
    }

    #[test]
    fn every_stack_is_passed_at_least_twice(sample in earring()) {
        let work = sample.stitch();
        let passes = passes_while(&work, |p| is_row(&work, p));
        for (spot, [body, fringe]) in passes {
            prop_assert_eq!(fringe, 0);
            prop_assert!(work.fabric[spot].stack.is_none() || body >= 2, "{:?} {}", spot, body);
        }
        let at_all = super::super::passes(&work);
        prop_assert!(at_all.values().all(|[body, fringe]| body + fringe >= 1));
    }

    #[test]
    fn lengths_equal_an_independent_sum(sample in earring()) {
        let work = sample.stitch();
        let rows = length(&work.body.moves, |p| is_row(&work, p));
        prop_assert!((rows - rows_by_formula(&sample)).abs() < 1e-6, "{} {}", rows, rows_by_formula(&sample));
        let strands = length(&work.fringe.moves, is_section);
        // And the step from where the thread was begun to the first foundation stack.
        let first = work.fringe.moves.iter().find(|m| is_section(m.phase));
        let step = first.map_or(0.0, |m| m.points[0].distance(m.points[m.points.len() - 2]).0);
        let formula = strands_by_formula(&sample) + step;
        prop_assert!((strands - formula).abs() < 1e-6, "{} {}", strands, formula);
        let cut: f64 = work.cuts.iter().map(|c| c.path.0).sum();
        let hanging = length(&work.body.moves, |p| matches!(p, Phase::Hanging(_)));
        let travel = length(&work.fringe.moves, |p| p == Phase::Travel);
        prop_assert!((cut - rows_by_formula(&sample) - formula - hanging - travel).abs() < 1e-6);
    }

    #[test]
    fn runs_expand_to_the_pick_ups(sample in earring()) {
        let work = sample.stitch();
        let letters: BTreeMap<Spot, LetterId> = work.fabric.beads.iter().map(|l| (l.spot, l.letter)).collect();
        for row in &work.rows {
            let picked: Vec<LetterId> = row.pick_ups.iter().map(|s| letters[s]).collect();
            let mut said = row.starts_with.clone();
            for run in &row.then {
                (0..run.count).for_each(|_| said.extend(&run.beads));
            }
            prop_assert_eq!(picked, said);
            prop_assert!(row.then.windows(2).all(|runs| runs[0].beads != runs[1].beads));
        }
        for (strand, written) in work.strands.iter().zip(&sample.strands) {
            let said: Vec<LetterId> = strand.runs.iter().chain(&strand.turn)
                .flat_map(|run| std::iter::repeat_n(run.letter, run.count)).collect();
            prop_assert_eq!(&said, &written.beads);
            prop_assert_eq!(strand.turn.iter().map(|r| r.count).sum::<usize>(), written.turn);
        }
        prop_assert_eq!(work.strands.len(), sample.strands.len());
    }

    #[test]
    fn starting_from_the_right_is_the_mirror_image(sample in earring()) {
        prop_assert_eq!(difference(&sample.stitch(), &mirrored(&sample).stitch()), None);
    }

    #[test]
    fn excerpts_are_parts_of_the_path(sample in earring()) {
        let work = sample.stitch();
        let excerpts = excerpts(&work);
        for excerpt in &excerpts {
            prop_assert!(!excerpt.moves.is_empty());
            prop_assert!(excerpt.moves.end <= work.path(excerpt.shown.thread).moves.len());
        }
        let path = |excerpt: &Excerpt| work.path_of(excerpt).moves.as_ptr();
        for pair in excerpts.windows(2).filter(|pair| path(&pair[0]) == path(&pair[1])) {
            prop_assert!(pair[0].moves.end <= pair[1].moves.start, "in working order");
        }
        let strung = |shown| excerpts.iter().find(|e| e.shown == shown).map(|e| {
            work.path(e.shown.thread).moves[e.moves.clone()].iter().filter(|m| matches!(m.kind, MoveKind::String { .. })).count()
        });
        prop_assert_eq!(strung(Shown::body(Manner::Ladder)), Some(1));
        prop_assert_eq!(strung(Shown::fringe(Manner::Strand)), Some(1));
        prop_assert_eq!(strung(Shown::fringe(Manner::End)), Some(0));
        let begins = [Manner::Narrower, Manner::Alone].map(|manner| strung(Shown::body(manner)));
        prop_assert_eq!(begins.iter().any(Option::is_some), work.rows.len() > 1);
        let third_stack = work.rows.len() > 1 && work.fabric[work.rows[1].section].stacks.len() > 2;
        prop_assert_eq!(strung(Shown::body(Manner::Onward)).is_some(), third_stack);
    }

    #[test]
    fn anchors_are_reached_and_wrapped_twice(sample in earring()) {
        let work = sample.stitch();
        // Each length begins and ends at one.
        prop_assert_eq!(work.anchors.len(), 2 * work.cuts.len());
        let top = work.rows.len() - 1;
        for (index, anchor) in work.anchors.iter().enumerate() {
            let [left, right] = anchor.stacks.map(|stack| &work.fabric[stack]);
            prop_assert!(left.section == right.section && left.place + 1 == right.place);
            // A length that ends early has only the rows worked so far.
            let ends = anchor.join.is_none();
            prop_assert!(!ends || top < 2 || (1..top).contains(&left.line), "{:?} of {}", anchor, top);
            prop_assert!(top != 1 || left.line == 0);
            let wraps = paths(&work).iter().flat_map(|p| &p.moves)
                .filter(|m| matches!(m.kind, MoveKind::Wrap { anchor } if anchor == index)).count();
            prop_assert_eq!(wraps, 2);
        }
    }

    #[test]
    fn the_plan_covers_the_path(sample in earring(), span in 4u32..40) {
        let mut sample = sample;
        sample.allowances.arm_span = Mm(f64::from(span) * 50.0);
        let work = sample.stitch();
        let sum = |thread, of: fn(&Cut) -> Mm| work.cuts.iter().filter(|c| c.thread == thread).map(of).sum::<Mm>().0;
        let anchored = |p| matches!(p, Phase::Ending(_) | Phase::Beginning(_));
        let body = length(&work.body.moves, |p| !anchored(p));
        prop_assert!((sum(ThreadUse::Body, |c| c.path) - body).abs() < 1e-6);
        let fringe = length(&work.fringe.moves, |p| !anchored(p));
        prop_assert!((sum(ThreadUse::Fringe, |c| c.path) - fringe).abs() < 1e-6);
        let rows_from = |cut: &Cut| match cut.joins_at { Phase::Section(row) => work.fabric[row].number - 1, _ => usize::MAX };
        for (i, cut) in work.cuts.iter().enumerate() {
            let parts = (cut.path + cut.tails + cut.anchors + cut.handling).0;
            prop_assert!(cut.cut.0 >= parts - 1e-6 && cut.cut.0 < parts + 50.0);
            prop_assert!((cut.cut.0 / 50.0).fract() == 0.0);
            // Longer than the span only when it is a single row or strand.
            if cut.cut > sample.allowances.arm_span && cut.thread == ThreadUse::Body {
                let next = work.cuts.get(i + 1).filter(|n| n.thread == ThreadUse::Body);
                prop_assert_eq!(next.map_or(work.rows.len(), rows_from) - rows_from(cut), 1);
            }
        }
    }

    #[test]
    fn beads_of_a_body_never_overlap(mut sample in body(), sizes in proptest::collection::vec((8u32..40, 8u32..40), LETTERS)) {
        for (bead, (width, length)) in sample.beads.iter_mut().zip(sizes) {
            bead.width = Mm(f64::from(width) / 10.0);
            bead.length = Mm(f64::from(length) / 10.0);
        }
        let work = sample.stitch();
        let lying = &work.fabric.beads;
        let half = |l: &Lying| {
            let bead = &sample.beads[l.letter.0];
            (bead.width.0 / 2.0, bead.length.0 / 2.0)
        };
        for (i, one) in lying.iter().enumerate() {
            // Those strung long after lie in rows further up.
            for other in lying[i + 1..].iter().take(260) {
                let ((w1, l1), (w2, l2)) = (half(one), half(other));
                let apart_x = (one.centre.x - other.centre.x).abs().0 >= w1 + w2 - 1e-6;
                let apart_y = (one.centre.y - other.centre.y).abs().0 >= l1 + l2 - 1e-6;
                prop_assert!(apart_x || apart_y, "{:?} {:?}", one, other);
            }
        }
    }
}

#[test]
fn a_drop_at_the_end_hangs_by_its_upper_end() {
    let mut sample = Sample::plain(2, 3, 2);
    sample.beads[1].shape = Shape::Drop;
    sample.beads[1].length = Mm(6.0);
    sample.strands = (0..3).map(|_| strand(vec![letter('A'), letter('A'), letter('B')], 1)).collect();
    let work = sample.stitch();
    assert!((work.strands[0].length.0 - 8.6).abs() < 1e-9);
    let depth = work.fringe.moves.iter().find_map(|m| match m.kind {
        MoveKind::ReturnUp { strand } if strand == work.strands[0].section => Some(m.length().0),
        _ => None,
    });
    assert!((depth.expect("a strand returns") - (2.6 + 0.8)).abs() < 1e-9);
}
