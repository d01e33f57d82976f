//! Bodies of every shape: worked examples, and what must hold for all.

use super::mirror::{difference, mirrored};
use super::random::{LETTERS, shape};
use super::sample::{Sample, text};
use crate::design::{Hanging, Side, StackPlace};
use crate::stitch::ground::Ground;
use crate::stitch::room::Room;
use crate::stitch::*;
use crate::units::Mm;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// What is picked up in each row, a blank between pick-ups.
fn picked(work: &Work) -> Vec<String> {
    let letters =
        |beads: &[Spot]| text(&beads.iter().map(|spot| work.fabric[*spot].letter).collect::<Vec<_>>());
    let row = |row: &RowWork| {
        let of_row = work.body.moves.iter().filter(|made| made.phase == Phase::Section(row.section));
        let strung = of_row.filter(|made| matches!(made.kind, MoveKind::String { .. }));
        let pick_ups: Vec<String> = strung.map(|made| letters(&made.beads)).collect();
        format!("{:?}: {}", row.from, pick_ups.join(" "))
    };
    work.rows.iter().map(row).collect()
}

/// The moves of a row: what the hand does, with the numbers of stacks from the left.
fn hand(work: &Work, row: usize) -> Vec<String> {
    let section = work.rows[row].section;
    let stack = |pass: &Pass| {
        let way = if pass.way == Way::Up { "up" } else { "down" };
        format!("{way} {}.{}", work.fabric.row_number(pass.stack), work.fabric[pass.stack].place + 1)
    };
    let of_row = work.body.moves.iter().filter(|made| made.phase == Phase::Section(section));
    let said = of_row.map(|made| match &made.kind {
        MoveKind::String { through } => {
            format!("string {}", through.iter().map(stack).collect::<Vec<_>>().join(", "))
        }
        MoveKind::Pass(pass) => stack(pass),
        MoveKind::UnderBridge { bridge } => {
            let left = work.fabric[*bridge].stacks[0];
            format!("under {}.{}", work.fabric.row_number(left), work.fabric[left].place + 1)
        }
        other => format!("{other:?}"),
    });
    said.collect()
}

#[test]
fn widening_rows_overhang_at_both_ends() {
    // Worked out by hand: foundation AB, row 2 CDE, row 3 FGHI.
    let work = Sample::of_shape(&[(2, "A B"), (1, "C D E"), (0, "F G H I")], &[]).stitch();
    assert_eq!(picked(&work), ["Left: AB", "Right: ED C", "Left: FG H I"]);
    // Stack 1 overhangs; it and stack 2 hang on the only bridge, and so does the last stack.
    let second = ["string up 2.3, down 2.2", "under 1.1", "up 2.2", "down 2.3", "up 2.2"];
    assert_eq!(hand(&work, 1), [&second[..], &["string down 2.1", "under 1.1", "up 2.1"]].concat());
    let third = ["string up 3.1, down 3.2", "under 2.1", "up 3.2", "down 3.1", "up 3.2"];
    let added = ["string down 3.3", "under 2.2", "up 3.3", "string down 3.4", "under 2.2", "up 3.4"];
    assert_eq!(hand(&work, 2), [&third[..], &added].concat());
}

#[test]
fn rows_below_are_worked_turned_after_the_hanging() {
    // Two-drop: foundation ABC over abc, one row above (DE over de), one below (FG over fg); N stands for a and so on.
    let work = Sample::of_shape(&[(0, "AN BO CP"), (1, "DQ ER")], &[(1, "FS GT")]);
    // a A B b c C; e E D d; F f g G.
    assert_eq!(picked(&work.stitch()), ["Left: NABO PC", "Right: REDQ", "Left: FSTG"]);
    let work = work.stitch();
    let hanging = work.body.moves.iter().rposition(|made| matches!(made.phase, Phase::Hanging(_)));
    let third = work.body.moves.iter().position(|made| made.phase == Phase::Section(work.rows[2].section));
    assert!(hanging < third, "the hanging comes before the rows below");
    // Down beside the left edge, then as a narrower row, turned.
    let down = ["down 2.2", "down 1.2"];
    let worked = ["string down 3.1, up 3.2", "under 1.2", "down 3.2", "up 3.1", "down 3.2"];
    let moves = hand(&work, 2);
    let (way, row) = moves.split_at(moves.len() - worked.len());
    assert_eq!((way, row), (&down.map(str::to_owned)[..], &worked.map(str::to_owned)[..]));
}

#[test]
fn an_upright_panel_leans_to_and_fro() {
    // Foundation AB over ab at column 1, CD over cd at 0, EF over ef at 1; here N stands for a, O for b and so on.
    let rows = [(1, "AN BO"), (0, "CP DQ"), (1, "ER FS")];
    let work = Sample::of_shape(&rows, &[]).stitch();
    // A a b B, d D C c, e E F f.
    assert_eq!(picked(&work), ["Left: ANOB", "Right: QDCP", "Left: REFS"]);
    let manners: Vec<Manner> = work.fabric.of_kind(SectionKind::Row).map(|(_, row)| row.manner).collect();
    assert_eq!(manners, [Manner::Ladder, Manner::Narrower, Manner::Narrower]);
    // Narrower at the start and wider at the end.
    let lies = work.fabric.of_kind(SectionKind::Row).filter_map(|(_, row)| row.lies);
    assert_eq!(lies.map(|lies| (lies.starts, lies.ends)).collect::<Vec<_>>(), [(-1, 1), (-1, 1)]);
}

#[test]
fn a_row_further_in_is_walked_to() {
    // Two stacks in at the start: the thread goes down the second stack and up the third.
    // It starts from the right. One stack further in than half a stack:
    let work = Sample::of_shape(&[(0, "A A A A A A"), (1, "B B B B")], &[]).stitch();
    // One stack in is at the wrong edge there; one more brings it out right.
    assert_eq!(hand(&work, 1)[..3], ["down 1.5", "up 1.4", "string up 2.4, down 2.3"]);
    // Along the row that is finished, however many lie under it.
    let work = Sample::of_shape(&[(0, "A A A A A A A A"), (1, "B B B B B B B"), (6, "C C")], &[]).stitch();
    assert_eq!(hand(&work, 2)[..3], ["down 2.2", "up 2.3", "string up 3.1, down 3.2"]);
    // But not through a full hole where another way is open.
    let mut sample = Sample::of_shape(&[(0, "A A A A A A A A"), (1, "A A B A A A A"), (6, "C C")], &[]);
    sample.beads[1].hole = Mm(0.3);
    let round = ["down 2.2", "down 1.3", "up 1.4", "up 2.4", "string up 3.1, down 3.2"];
    assert_eq!(hand(&sample.stitch(), 2)[..5], round);
    let work = Sample::of_shape(&[(0, "A A A A A A A"), (1, "B B B B")], &[]).stitch();
    // Two in: down and up.
    assert_eq!(hand(&work, 1)[..3], ["down 1.6", "up 1.5", "string up 2.4, down 2.3"]);
}

#[test]
fn stacks_further_out_are_laddered_on() {
    let work = Sample::of_shape(&[(4, "A A A"), (1, "B B B B B B")], &[]).stitch();
    // At the end, which is the left: two hang, the third shares the last bridge, and one more is laddered on.
    assert_eq!(work.rows[1].from, Side::Right);
    let row = &work.fabric[work.rows[1].section];
    let lies = row.lies.expect("it lies on the foundation");
    assert_eq!((lies.starts, lies.ends, lies.built_out()), (3, 3, [1, 1]));
    let strung: Vec<String> = hand(&work, 1).into_iter().filter(|said| said.starts_with("string")).collect();
    let wanted =
        ["string up 2.5, down 2.4", "string up 2.6", "string down 2.3", "string down 2.2", "string down 2.1"];
    assert_eq!(strung, wanted);
    let last = work.body.moves.iter().rfind(|made| made.phase == Phase::Section(work.rows[1].section));
    let ends = Pass { stack: row.stacks[0], way: Way::Up };
    assert_eq!(last.map(|made| made.kind.clone()), Some(MoveKind::Pass(ends)), "ready for the next row");
}

#[test]
fn a_second_strand_on_a_stack_hangs_round_the_bridge_beside_it() {
    let mut sample = Sample::of_shape(&[(0, "A A A"), (1, "B B")], &[]).with_strands(2);
    let second = StackPlace { row: 0, stack: 0 };
    sample.strands[1].hangs_on = second;
    let work = sample.stitch();
    let strands: Vec<SectionId> = work.fabric.of_kind(SectionKind::Strand).map(|(id, _)| id).collect();
    let of_second: Vec<&Move> =
        work.fringe.moves.iter().filter(|made| made.phase == Phase::Section(strands[1])).collect();
    let [hook, down, ..] = of_second[..] else { panic!("{of_second:?}") };
    let MoveKind::UnderBridge { bridge } = hook.kind else { panic!("{hook:?}") };
    let Bridge { stacks, edge } = work.fabric[bridge];
    let foundation = &work.fabric[work.rows[0].section].stacks;
    assert_eq!((stacks, edge), ([foundation[0], foundation[1]], Way::Up));
    assert_eq!(down.kind, MoveKind::Pass(Pass { stack: foundation[0], way: Way::Down }));
}

/// Beads of bodies with a closed formula, in single-drop work.
#[test]
fn bodies_have_as_many_beads_as_their_formulas_say() {
    let row = |stacks: usize| "A ".repeat(stacks);
    let count = |above: &[(usize, usize)], below: &[(usize, usize)]| {
        let written: Vec<(usize, String)> =
            above.iter().chain(below).map(|(lead, stacks)| (*lead, row(*stacks))).collect();
        let drawn: Vec<(usize, &str)> = written.iter().map(|(lead, row)| (*lead, row.as_str())).collect();
        let (above, below) = drawn.split_at(above.len());
        let work = Sample::of_shape(above, below).stitch();
        let strung: usize = work.rows.iter().map(|row| row.pick_ups.len()).sum();
        assert_eq!(strung, work.fabric.beads.len());
        strung
    };
    for n in 2..9 {
        // A diamond: 1 + 2 + … + n and back to 1, which is n².
        let above: Vec<(usize, usize)> = (0..n).map(|i| (i, n - i)).collect();
        let below: Vec<(usize, usize)> = (1..n).map(|i| (i, n - i)).collect();
        assert_eq!(count(&above, &below), n * n);
        // A trapezium that narrows by one k times: (k + 1) n − k (k + 1) / 2.
        let k = n / 2;
        let rows: Vec<(usize, usize)> = (0..=k).map(|i| (i, n - i)).collect();
        assert_eq!(count(&rows, &[]), (k + 1) * n - k * (k + 1) / 2);
        // A hexagon of side n: rows n, …, 2n − 1, …, n, which are 3n² − 3n + 1 (the hexagonal numbers with a centre).
        let above: Vec<(usize, usize)> = (0..n).map(|i| (i, 2 * n - 1 - i)).collect();
        let below: Vec<(usize, usize)> = (1..n).map(|i| (i, 2 * n - 1 - i)).collect();
        assert_eq!(count(&above, &below), 3 * n * n - 3 * n + 1);
        // An upright panel: rows of one width.
        let rows: Vec<(usize, usize)> = (0..7).map(|i| ((i + 1) % 2, n)).collect();
        assert_eq!(count(&rows, &[]), 7 * n);
    }
}

fn paths(work: &Work) -> [&ThreadPath; 3] {
    [&work.body, &work.tail, &work.fringe]
}

/// What is wrong with how beads are strung and stacks attached: each bead once; each stack by a bridge that an earlier
/// move has laid, or linked to a neighbour at both edges.
fn badly_strung(work: &Work) -> Option<String> {
    let mut strung: BTreeMap<Spot, usize> = BTreeMap::new();
    let mut laid: BTreeSet<BridgeId> = BTreeSet::new();
    for made in paths(work).iter().flat_map(|path| &path.moves) {
        match &made.kind {
            MoveKind::String { .. } => {
                made.beads.iter().for_each(|bead| *strung.entry(*bead).or_default() += 1)
            }
            MoveKind::UnderBridge { bridge } if !laid.contains(bridge) => {
                return Some(format!("no bridge: {made:?}"));
            }
            MoveKind::Pass(_) if made.beads.iter().any(|bead| !strung.contains_key(bead)) => {
                return Some(format!("through what is not strung yet: {made:?}"));
            }
            _ => {}
        }
        laid.extend(&made.lays);
    }
    if strung.len() != work.fabric.beads.len() || strung.values().any(|times| *times != 1) {
        return Some("a bead is strung twice or not at all".to_owned());
    }
    let hung = work.body.moves.windows(2).filter_map(|pair| match (&pair[0].kind, &pair[1].kind) {
        // Thread that turns round a bridge of the same row holds nothing.
        (MoveKind::UnderBridge { bridge }, MoveKind::Pass(pass)) => {
            let on = work.fabric[work.fabric[*bridge].stacks[0]].section;
            Some(pass.stack).filter(|stack| work.fabric[*stack].section != on)
        }
        _ => None,
    });
    let hung: BTreeSet<StackId> = hung.collect();
    // Of the first two stacks of a row one hangs, and every other one that is not built on.
    for (_, row) in work.fabric.of_kind(SectionKind::Row) {
        let Some(lies) = row.lies else { continue };
        let over = row.stacks.len() - lies.built_out().iter().sum::<usize>();
        let hang = row.stacks.iter().filter(|stack| hung.contains(stack)).count();
        if hang != over.max(2) - 1 {
            return Some(format!("{hang} stacks of row {} hang, which is loose", row.number));
        }
    }
    let mut linked: BTreeMap<StackId, BTreeSet<Way>> = BTreeMap::new();
    for bridge in laid.iter().map(|bridge| work.fabric[*bridge]) {
        for stack in bridge.stacks {
            linked.entry(stack).or_default().insert(bridge.edge);
        }
    }
    let loose = work
        .fabric
        .named_stacks()
        .find(|(id, _)| !hung.contains(id) && linked.get(id).is_none_or(|edges| edges.len() < 2));
    loose.map(|(id, stack)| format!("row {} stack {} is loose", work.fabric.row_number(id), stack.place + 1))
}

/// Where thread breaks or lies across a bead's face: between two moves it goes from a hole's end along an edge to the
/// same end, to a neighbour's or to one that touches it, or under a bridge.
fn thread_astray(work: &Work) -> Option<String> {
    let stack = work.geometry.stack_width.0;
    for path in paths(work) {
        for pair in path.moves.windows(2) {
            let [before, made] = pair else { continue };
            if matches!(made.kind, MoveKind::LeaveTail { .. }) {
                continue;
            }
            if before.points.last() != made.points.first() {
                return Some(format!("a break before {made:?}"));
            }
            // Guard, loop and wraps have ways of their own.
            let own = |m: &Move| match m.kind {
                MoveKind::ThroughGuard { .. } | MoveKind::ThroughLoop { .. } | MoveKind::Wrap { .. } => true,
                MoveKind::String { .. } => matches!(m.phase, Phase::Hanging(_)),
                _ => false,
            };
            // The only stack of a row is strung down: its thread lies beside it.
            let alone = matches!(made.phase, Phase::Section(row) if work.fabric[row].stacks.len() == 1)
                && matches!(made.kind, MoveKind::String { .. });
            if own(made) || own(before) || alone {
                continue;
            }
            let through = match &made.kind {
                MoveKind::Pass(pass) => vec![*pass],
                MoveKind::String { through } => through.clone(),
                // From where the thread comes out it goes along the same edge to the bridge.
                MoveKind::UnderBridge { .. } => {
                    let [from, to] = made.points[..] else { continue };
                    if from.distance(to).0 > stack + 1e-6 || (from.y - to.y).abs().0 > 1e-6 {
                        return Some(format!("across a face: {made:?}"));
                    }
                    continue;
                }
                _ => continue,
            };
            let mut from = made.points[0];
            // A stack alone in its row: from one end of it along its outside to what touches the other.
            if let (MoveKind::Pass(out), [on, ..]) = (&before.kind, &through[..])
                && work.fabric[work.fabric[out.stack].section].stacks.len() == 1
                && out.stack != on.stack
                && out.way == on.way.back()
            {
                from = work.fabric[out.stack].end(on.way);
            }
            for Pass { stack: id, way } in through {
                let (entry, exit) = (work.fabric[id].end(way.back()), work.fabric[id].end(way));
                if from.distance(entry).0 > stack + 1e-6 || (from.y - entry.y).abs().0 > 1e-6 {
                    return Some(format!("across a face: {made:?}"));
                }
                from = exit;
            }
        }
    }
    None
}

/// Where the thread goes straight back through the stack that it has just come out of, with nothing between: the needle
/// would pull out the pass before.
fn taken_back(work: &Work) -> Option<String> {
    let passed = |made: &Move| match &made.kind {
        MoveKind::Pass(pass) => Some((*pass, *pass)),
        MoveKind::String { through } => Some((*through.first()?, *through.last()?)),
        _ => None,
    };
    let moves = paths(work).into_iter().flat_map(|path| path.moves.windows(2));
    let mut pairs = moves.filter_map(|pair| Some((passed(&pair[0])?.1, passed(&pair[1])?.0, &pair[1])));
    let back = pairs.find(|(from, to, _)| from.stack == to.stack && from.way == to.way.back())?;
    Some(format!("straight back: {:?}", back.2))
}

/// The body turned upside down: rows above the foundation lie below it, and those below above.
fn turned(sample: &Sample) -> Sample {
    let mut turned = sample.clone();
    let (above, below) = turned.body.rows[1..].split_at(sample.body.above - 1);
    let rows = [&turned.body.rows[..1], below, above].concat();
    turned.body.above = 1 + below.len();
    turned.body.rows = rows;
    // Of the foundation only what is counted from its edges matters here: its beads stay.
    for stack in turned.body.rows[1..].iter_mut().flat_map(|row| &mut row.stacks) {
        stack.0.reverse();
    }
    turned
}

/// Length of all rows, and the same by following their moves over a grid of half stacks and heights of rows, without
/// any point of the path.
fn lengths_of_rows(sample: &Sample, work: &Work) -> (f64, f64) {
    let (w, h) = (sample.beads[0].width.0, sample.beads[0].length.0 * sample.body.drop as f64);
    let least = sample.body.rows.iter().map(|row| row.lead).min().unwrap_or(0);
    let height = |row: usize| match row {
        row if row < sample.body.above => sample.body.above - 1 - row,
        row => row,
    };
    let at = |stack: StackId, end: Way| {
        let row = work.fabric[work.fabric[stack].section].source;
        let x = (sample.body.rows[row].lead - least + 2 * work.fabric[stack].place + 1) as f64 * w / 2.0;
        (x, (height(row) + usize::from(end == Way::Down)) as f64 * h)
    };
    let (mut rows, mut on_grid) = (0.0, 0.0);
    let mut from: Option<(f64, f64)> = None;
    for made in &work.body.moves {
        let through: Vec<(f64, f64)> = match &made.kind {
            MoveKind::Pass(pass) => vec![at(pass.stack, pass.way.back()), at(pass.stack, pass.way)],
            MoveKind::String { through } if !through.is_empty() => through
                .iter()
                .flat_map(|pass| [at(pass.stack, pass.way.back()), at(pass.stack, pass.way)])
                .collect(),
            MoveKind::UnderBridge { bridge } => {
                let Bridge { stacks: [left, right], edge } = work.fabric[*bridge];
                vec![(f64::midpoint(at(left, edge).0, at(right, edge).0), at(left, edge).1)]
            }
            _ => {
                from = made.points.last().map(|point| (point.x.0, point.y.0));
                continue;
            }
        };
        let mut length = 0.0;
        for to in through {
            length += from.map_or(0.0, |(x, y)| (to.0 - x).hypot(to.1 - y));
            from = Some(to);
        }
        if matches!(made.phase, Phase::Section(_)) {
            rows += made.length().0;
            on_grid += length;
        }
    }
    (rows, on_grid)
}

/// A pass through a full hole on the way to a row or a place to hang, though some way there leads round all full ones.
fn needlessly_full(sample: &Sample, work: &Work) -> Option<String> {
    let needs = sample.needs();
    let ground = Ground::of(&needs);
    let mut room = Room::of(&ground, &needs);
    let mut strung: BTreeSet<StackId> = BTreeSet::new();
    let mut standing: Option<Pass> = None;
    let moves = &work.body.moves;
    let mut index = 0;
    while let Some(made) = moves.get(index) {
        // Passes up to the first pick-up of a row, or to a guard or loop.
        let begins = index == 0 || moves[index - 1].phase != made.phase;
        let way: Vec<Pass> = moves[index..]
            .iter()
            .map_while(|made| match made.kind {
                MoveKind::Pass(pass) if begins => Some(pass),
                _ => None,
            })
            .collect();
        if let (Some(from), Some(&to)) = (standing, way.last())
            && !matches!(made.phase, Phase::Ending(_) | Phase::Beginning(_))
            && way.iter().any(|pass| !room.takes(pass.stack, ThreadUse::Body))
        {
            let open = |stack: StackId| strung.contains(&stack) && room.takes(stack, ThreadUse::Body);
            if leads(work, from, to, open) {
                return Some(format!("full on the way {way:?} from {from:?}"));
            }
        }
        let passes = match &made.kind {
            MoveKind::Pass(pass) => vec![*pass],
            MoveKind::String { through } => through.clone(),
            _ => Vec::new(),
        };
        strung.extend(passes.iter().map(|pass| pass.stack));
        passes.iter().for_each(|pass| room.pass(pass.stack, ThreadUse::Body));
        standing = match made.kind {
            MoveKind::CutTail { .. } | MoveKind::LeaveTail { .. } => None,
            _ => passes.last().copied(),
        };
        index += 1;
    }
    None
}

/// Whether a thread that has come out of a stack can come out of another, through open stacks alone: by the places of
/// their holes' ends.
fn leads(work: &Work, from: Pass, to: Pass, open: impl Fn(StackId) -> bool) -> bool {
    let stack_width = work.geometry.stack_width.0;
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
    let mut seen = BTreeSet::from([from]);
    let mut ahead = vec![from];
    while let Some(at) = ahead.pop() {
        if at == to {
            return true;
        }
        let end = work.fabric[at.stack].end(at.way);
        for (stack, lying) in work.fabric.named_stacks().filter(|(stack, _)| open(*stack)) {
            let aside = (lying.upper.x - end.x).abs().0;
            let onward = near(lying.end(at.way.back()).y.0, end.y.0) && near(aside, stack_width / 2.0);
            let beside = near(lying.end(at.way).y.0, end.y.0) && near(aside, stack_width);
            let next = [onward.then_some(at.way), beside.then_some(at.way.back())];
            for way in next.into_iter().flatten() {
                if seen.insert(Pass { stack, way }) {
                    ahead.push(Pass { stack, way });
                }
            }
        }
    }
    false
}

/// The checks see what is broken.
#[test]
fn broken_rules_are_noticed() {
    let good =
        || Sample::of_shape(&[(1, "A A A A"), (0, "B B B B B"), (1, "C C C C")], &[(2, "D D D")]).stitch();
    assert_eq!((badly_strung(&good()), thread_astray(&good())), (None, None));
    let second = |work: &Work| {
        let of_row = |made: &Move| made.phase == Phase::Section(work.rows[1].section);
        let first = work.body.moves.iter().position(of_row).expect("a row");
        (first, work.body.moves.iter().rposition(of_row).expect("a row"))
    };
    // A pick-up left out; one made twice; a bridge that nothing laid; a stack that is only pushed on.
    let mut work = good();
    let (first, _) = second(&work);
    work.body.moves.remove(first);
    assert!(badly_strung(&work).is_some_and(|told| told.contains("not strung yet")));
    let mut work = good();
    let again = work.body.moves[first].clone();
    work.body.moves.insert(first, again);
    assert!(badly_strung(&work).is_some_and(|told| told.contains("strung twice or not at all")));
    let mut work = good();
    work.body.moves[..first].iter_mut().for_each(|made| made.lays.clear());
    assert!(badly_strung(&work).is_some_and(|told| told.contains("no bridge")));
    let mut work = good();
    let top = work.rows[2].section;
    work.body
        .moves
        .retain(|m| m.phase != Phase::Section(top) || !matches!(m.kind, MoveKind::UnderBridge { .. }));
    assert!(badly_strung(&work).is_some_and(|told| told.contains("loose")), "{:?}", badly_strung(&work));
    // A pass left out leaves a break, and a pass through a stack further on crosses faces.
    let mut work = good();
    let (_, last) = second(&work);
    work.body.moves.remove(last);
    assert!(thread_astray(&work).is_some_and(|told| told.contains("a break")));
    let mut work = good();
    let row = &work.fabric[work.rows[1].section];
    let far = row.stacks[if row.from == Side::Left { 0 } else { row.stacks.len() - 1 }];
    let moved = Pass { stack: far, way: Way::Up };
    let points = vec![work.body.moves[last].points[0], work.fabric[far].lower, work.fabric[far].upper];
    work.body.moves[last].kind = MoveKind::Pass(moved);
    work.body.moves[last].points = points;
    assert!(
        thread_astray(&work).is_some_and(|told| told.contains("across a face")),
        "{:?}",
        thread_astray(&work)
    );
}

proptest! {
    #![proptest_config(super::cases(160))]

    #[test]
    fn every_bead_is_strung_once_and_every_stack_attached(sample in shape()) {
        prop_assert_eq!(badly_strung(&sample.stitch()), None);
    }

    #[test]
    fn thread_lies_along_edges_and_never_across_a_face(sample in shape()) {
        prop_assert_eq!(thread_astray(&sample.stitch()), None);
    }

    #[test]
    fn no_thread_is_taken_back_through_the_stack_it_has_come_out_of(sample in shape()) {
        prop_assert_eq!(taken_back(&sample.stitch()), None);
    }

    #[test]
    fn starting_from_the_right_is_the_mirror_image(sample in shape()) {
        prop_assert_eq!(difference(&sample.stitch(), &mirrored(&sample).stitch()), None);
        let twice = mirrored(&mirrored(&sample));
        prop_assert_eq!(twice.stitch(), sample.stitch());
    }

    #[test]
    fn words_expand_to_the_pick_ups(sample in shape()) {
        let work = sample.stitch();
        prop_assert_eq!(work.rows.len(), sample.body.rows.len());
        for row in &work.rows {
            let picked: Vec<_> = row.pick_ups.iter().map(|spot| work.fabric[*spot].letter).collect();
            let mut said = row.starts_with.clone();
            for run in &row.then {
                (0..run.count).for_each(|_| said.extend(&run.beads));
            }
            prop_assert_eq!(picked, said);
        }
        let sides: Vec<Side> = work.rows.iter().map(|row| row.from).collect();
        prop_assert!(sides.windows(2).all(|pair| pair[0] == pair[1].other()), "sides alternate");
    }

    #[test]
    fn rows_below_are_those_above_turned_upside_down(sample in shape()) {
        // Only the rows on one side of the foundation, once above and once below it.
        let mut above = sample.clone();
        above.body.rows.truncate(sample.body.above);
        above.hangings = vec![Hanging::guard()];
        let below = turned(&above);
        prop_assert_eq!(turned(&below).stitch(), above.stitch());
        let (above, below) = (above.stitch(), below.stitch());
        for row in 1..above.rows.len() {
            prop_assert_eq!(&above.rows[row].starts_with, &below.rows[row].starts_with);
            prop_assert_eq!(&above.rows[row].then, &below.rows[row].then);
            let moves = |work: &Work| -> Vec<String> {
                let moves = hand(work, row);
                // The first one below is come down to.
                let first = moves.iter().position(|said| row == 1 && said.starts_with("string")).unwrap_or(0);
                moves[first..].to_vec()
            };
            let turned: Vec<String> = moves(&below)
                .iter()
                .map(|said| said.replace("up ", "↑ ").replace("down ", "up ").replace("↑ ", "down "))
                .collect();
            prop_assert_eq!(moves(&above), turned, "row {}", row + 1);
        }
    }

    #[test]
    fn rows_are_as_long_as_their_way_on_a_grid(sample in shape()) {
        let work = sample.stitch();
        let (rows, on_grid) = lengths_of_rows(&sample, &work);
        prop_assert!((rows - on_grid).abs() < 1e-6, "{} is not {}", rows, on_grid);
    }

    #[test]
    fn no_thread_goes_through_a_full_hole_while_another_way_is_open(sample in shape(), holes in vec(3u32..9, LETTERS)) {
        let mut sample = sample;
        for (bead, hole) in sample.beads.iter_mut().zip(holes) {
            bead.hole = Mm(f64::from(hole) / 10.0);
        }
        prop_assert_eq!(needlessly_full(&sample, &sample.stitch()), None);
    }

    #[test]
    fn lengths_equal_a_formula(sample in shape()) {
        let work = sample.stitch();
        let (w, h) = (sample.beads[0].width.0, sample.beads[0].length.0 * sample.body.drop as f64);
        for row in work.rows.iter().skip(1) {
            let section = &work.fabric[row.section];
            let lies = section.lies.expect("it lies on a row");
            let of_row: Vec<&Move> = work.body.moves.iter().filter(|m| m.phase == Phase::Section(row.section)).collect();
            let first = of_row.iter().position(|m| matches!(m.kind, MoveKind::String { .. })).expect("beads");
            let sum: f64 = of_row[first..].iter().filter(|m| !matches!(m.manner, Manner::BuiltOut | Manner::BuiltOutEnd)).map(|m| m.length().0).sum();
            let [before, after] = lies.built_out();
            let hung = section.stacks.len() - before - after;
            if hung == 1 || before + after > 0 {
                continue;
            }
            // A start of two stacks is five passes and three and a half stacks of edge; each further stack two and one. A
            // last stack that overhangs is a stack away from its bridge, there and back.
            let overhangs = if lies.ends > 0 { 2.0 * w } else { 0.0 };
            let formula = (2 * hung + 1) as f64 * h + (hung as f64 + 1.5) * w + overhangs;
            prop_assert!((sum - formula).abs() < 1e-6, "{} is {}, not {}", row.number, sum, formula);
        }
    }
}
