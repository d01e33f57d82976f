//! Pictures drawn at random: those that brick stitch can work are read, and of the others every row that it cannot is
//! told at its place.

use crate::account::{shaped, shapes};
use crate::maker::{PALETTE, STUDIO};
use crate::support::cases;
use fringebook::design::{Body, Reading, Wishes, read_texts};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// A row: half stacks to its first stack, and how many it has.
type Drawn = (usize, usize);

fn lines(rows: &[Drawn]) -> String {
    let line =
        |(lead, stacks): &Drawn| format!("    {}{}\n", ".".repeat(*lead), vec!["A"; *stacks].join(" "));
    rows.iter().map(line).collect()
}

/// A design of rows from the top to the foundation, and of others below it from there down.
fn read(above: &[Drawn], below: &[Drawn], fringe: &str) -> (String, Reading) {
    let mut text = format!("title: Drawn\ncolours: {{A: ink}}\nbody:\n  picture: |\n{}", lines(above));
    if !below.is_empty() {
        text += &format!("  below: |\n{}", lines(below));
    }
    text += fringe;
    let files = [("drawn.yaml", text.as_str()), ("palette.yaml", PALETTE), ("studio.yaml", STUDIO)];
    let reading = read_texts(&files, &Wishes::default());
    (text, reading)
}

/// Whether a row can be worked on another: a stack of it stands in the middle over a bridge, which lies where two
/// neighbours of the other meet.
fn can_be_worked(row: Drawn, on: Drawn) -> bool {
    let middles: BTreeSet<usize> = (0..row.1).map(|stack| row.0 + 2 * stack + 1).collect();
    (1..on.1).any(|bridge| middles.contains(&(on.0 + 2 * bridge)))
}

/// The stacks under which some half of a stack's width is bare, from left to right, of two above each other the lower
/// first: found by painting each line of stacks over the half stacks that it covers.
fn free_stacks(body: &Body) -> Vec<(usize, usize)> {
    // From the lowest line up: the rows below the foundation from the last, the foundation, those above it.
    let from_below: Vec<usize> = (body.above..body.rows.len()).rev().chain(0..body.above).collect();
    let mut covered: BTreeSet<usize> = BTreeSet::new();
    let mut free = Vec::new();
    for (height, row) in from_below.into_iter().enumerate() {
        let lead = body.rows[row].lead;
        for stack in 0..body.rows[row].stacks.len() {
            let half = lead + 2 * stack;
            if !covered.contains(&half) || !covered.contains(&(half + 1)) {
                free.push((half, height, (row, stack)));
            }
        }
        covered = (lead..lead + 2 * body.rows[row].stacks.len()).collect();
    }
    free.sort_unstable();
    free.into_iter().map(|(_, _, place)| place).collect()
}

fn row() -> impl Strategy<Value = Drawn> {
    (1usize..12, 1usize..7)
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn a_row_that_cannot_be_worked_is_told_at_its_row_and_column(
        above in proptest::collection::vec(row(), 0..3), foundation in (1usize..12, 2usize..9),
        below in proptest::collection::vec(row(), 0..3),
    ) {
        // From the foundation up and down, each with the line that it stands in: the picture begins in line 5.
        let foundation_line = 5 + above.len();
        let mut wrong = BTreeSet::new();
        for (side, rows) in [&above, &below].into_iter().enumerate() {
            let mut on = foundation;
            for (index, row) in rows.iter().enumerate() {
                if !can_be_worked(*row, on) {
                    let line = if side == 0 { foundation_line - 1 - index } else { foundation_line + 2 + index };
                    wrong.insert((line, 5 + row.0));
                }
                on = *row;
            }
        }
        let mut drawn = above.clone();
        drawn.reverse();
        drawn.push(foundation);
        let fringe = format!("fringe:\n  along: foundation\n  strands:\n{}", "    - 2A\n".repeat(foundation.1));
        let (text, reading) = read(&drawn, &below, &fringe);
        let mut told = BTreeSet::new();
        for problem in reading.problems.iter() {
            let place = problem.place.as_ref().expect("a place");
            let before = &text[..place.span.start];
            let line = before.matches('\n').count() + 1;
            told.insert((line, before.len() - before.rfind('\n').map_or(0, |at| at + 1) + 1));
            prop_assert!(!problem.hint.is_empty(), "{}", problem.message);
            prop_assert!(problem.message.starts_with("this row "), "{}", problem.message);
        }
        prop_assert_eq!(&told, &wrong, "{}", text);
        prop_assert_eq!(reading.design.is_some(), wrong.is_empty());
    }

    #[test]
    fn along_the_edge_a_strand_hangs_on_every_stack_with_half_of_its_lower_end_free(
        shape in shapes(), dice in proptest::collection::vec(any::<u8>(), 40),
    ) {
        // Along the edge, with as many strands as it takes.
        if let Some(design) = shaped(shape, &dice, 1800) {
            let hung: Vec<(usize, usize)> =
                design.fringe.strands.iter().map(|strand| (strand.hangs_on.row, strand.hangs_on.stack)).collect();
            prop_assert_eq!(hung, free_stacks(&design.body), "{:?}", design.body.rows.iter().map(|row| (row.lead, row.stacks.len())).collect::<Vec<_>>());
        }
    }

    #[test]
    fn the_edge_of_a_diamond_takes_two_strands_less_one_for_each_stack(stacks in 2usize..20, strands in 1usize..44) {
        let above: Vec<Drawn> = (0..stacks).rev().map(|index| (index, stacks - index)).collect();
        let below: Vec<Drawn> = (1..stacks).map(|index| (index, stacks - index)).collect();
        let edge = 2 * stacks - 1;
        for (count, good) in [(strands, strands == edge), (edge, true)] {
            let fringe = format!("fringe:\n  strands:\n{}", "    - 2A\n".repeat(count));
            let (_, reading) = read(&above, &below, &fringe);
            prop_assert_eq!(reading.design.is_some(), good);
            if !good {
                let told = &reading.problems[0].message;
                prop_assert!(told.ends_with(&format!("the edge takes {edge} strands")), "{}", told);
            }
        }
    }
}
