//! Diagrams in words: caption and alternative text of each, from the moves that it shows.

use super::book::Book;
use super::drawing::{Diagram, DiagramMove, diagrams};
use super::{Figure, Text};
use crate::booklet::Word;
use crate::stitch::{BeadRun, ExcerptKind, MoveKind, StackAt, Way};
use minijinja::context;

/// The design's diagrams with their captions, each with the kind of move it shows.
pub(super) fn figures(book: &Book) -> Vec<(ExcerptKind, Figure)> {
    diagrams(book.design, book.work).into_iter().map(|d| (d.kind, figure(book, d))).collect()
}

fn figure(book: &Book, diagram: Diagram) -> Figure {
    let words = &book.words;
    let home = counts_from_its_start(diagram.kind).then(|| home_row(&diagram.moves)).flatten();
    let moves: Vec<minijinja::Value> =
        diagram.moves.iter().map(|m| context! { number => m.number, what => what(book, m, home) }).collect();
    let mut caption = words.say(Word::DiagramMoves, context! { moves => moves });
    if home.is_none() {
        caption = format!("{caption} {}", words.fixed(Word::DiagramFromLeft));
    }
    let text = Text::marked(&caption);
    let alt = words
        .say(Word::DiagramAlt, context! { title => words.fixed(title(diagram.kind)), moves => text.words() });
    Figure { drawing: diagram.drawing, caption: text, alt }
}

fn title(kind: ExcerptKind) -> Word {
    match kind {
        ExcerptKind::FirstLadderStacks => Word::DiagramFirstLadderStacks,
        ExcerptKind::AddLadderStack => Word::DiagramAddLadderStack,
        ExcerptKind::StartRow => Word::DiagramStartRow,
        ExcerptKind::AddStack => Word::DiagramAddStack,
        ExcerptKind::StartNextRow => Word::DiagramStartNextRow,
        ExcerptKind::Hanging => Word::DiagramHanging,
        ExcerptKind::Anchoring => Word::DiagramAnchoring,
        ExcerptKind::DownToFringe => Word::DiagramDownToFringe,
        ExcerptKind::Strand => Word::DiagramStrand,
        ExcerptKind::NextStrand => Word::DiagramNextStrand,
        ExcerptKind::LastTail => Word::DiagramLastTail,
    }
}

/// Whether a diagram shows a row being worked, where stacks count from the side the row starts; elsewhere
/// the thread runs through several rows, and stacks count from the left in all of them.
fn counts_from_its_start(kind: ExcerptKind) -> bool {
    match kind {
        ExcerptKind::FirstLadderStacks
        | ExcerptKind::AddLadderStack
        | ExcerptKind::StartRow
        | ExcerptKind::AddStack
        | ExcerptKind::StartNextRow
        | ExcerptKind::Strand
        | ExcerptKind::NextStrand => true,
        ExcerptKind::Hanging | ExcerptKind::Anchoring | ExcerptKind::DownToFringe | ExcerptKind::LastTail => {
            false
        }
    }
}

/// The one row that all passes of a diagram run through; `None` when there are several.
fn home_row(moves: &[DiagramMove]) -> Option<usize> {
    let mut rows: Vec<usize> = moves
        .iter()
        .filter_map(|m| match m.kind {
            MoveKind::Pass { stack, .. } => Some(stack.row),
            _ => None,
        })
        .collect();
    rows.dedup();
    match rows[..] {
        [row] => Some(row),
        _ => None,
    }
}

fn what(book: &Book, m: &DiagramMove, home: Option<usize>) -> String {
    let words = &book.words;
    match &m.kind {
        MoveKind::LeaveTail { .. } => words.fixed(Word::DiagramTail),
        MoveKind::String { .. } => {
            let runs: Vec<BeadRun> = m
                .letters
                .chunk_by(|a, b| a == b)
                .map(|run| BeadRun { count: run.len(), letter: run[0] })
                .collect();
            // Long pick-ups, strands and loops, are read more easily as runs.
            let beads = if m.letters.len() > 2 * book.design.body.drop {
                book.bead_runs(&runs)
            } else {
                book.spaced(&m.letters)
            };
            words.say(Word::DiagramString, context! { beads => beads })
        }
        MoveKind::Pass { stack, way } => pass(book, *stack, *way, home),
        MoveKind::UnderBridge { .. } => words.fixed(Word::DiagramBridge),
        MoveKind::ThroughGuard { .. } => words.fixed(Word::DiagramGuard),
        MoveKind::ThroughLoop { .. } => words.fixed(Word::DiagramLoop),
        MoveKind::ReturnUp { strand } => {
            let picot = book.design.fringe.strands[*strand].turn > 1;
            words.fixed(if picot { Word::DiagramReturnPicot } else { Word::DiagramReturn })
        }
        MoveKind::Wrap { .. } => words.fixed(Word::DiagramWrap),
        MoveKind::CutTail { .. } => words.fixed(Word::DiagramCut),
    }
}

fn pass(book: &Book, at: StackAt, way: Way, home: Option<usize>) -> String {
    let words = &book.words;
    let way = words.fixed(match way {
        Way::Up => Word::NameUp,
        Way::Down => Word::NameDown,
    });
    if home.is_some() {
        return words.say(Word::DiagramPass, context! { way => way, number => book.work.stack_number(at) });
    }
    words.say(Word::DiagramPassRow, context! { way => way, number => at.stack + 1, row => at.row + 1 })
}
