//! Diagrams in words: caption and alternative text of each, from the moves that it shows.

use super::book::{Book, RUN_SEPARATOR};
use super::drawing::{self, Diagram, DiagramMove, diagrams};
use super::{Figure, NumberedMove, Text};
use crate::booklet::Word;
use crate::design::LetterId;
use crate::stitch::{BeadRun, BridgeId, Manner, Move, MoveKind, Pass, SectionId, Shown, ThreadUse, Way};
use minijinja::context;

/// The design's diagrams with their captions, each with what it shows. The first wraps are drawn large as well.
pub(super) fn figures(book: &Book) -> Vec<(Shown, Figure)> {
    let mut figures = Vec::new();
    let mut enlarged = false;
    for diagram in diagrams(book.design, book.work) {
        let shown = diagram.shown;
        let wrapped = diagram.moves.iter().find_map(|made| match made.kind {
            MoveKind::Wrap { anchor } if !diagram.is_way => Some(anchor),
            _ => None,
        });
        let is_wrap = |made: &&DiagramMove| matches!(made.kind, MoveKind::Wrap { .. });
        let numbers: Vec<usize> = diagram.moves.iter().filter(is_wrap).map(|made| made.number).collect();
        figures.push((shown, figure(book, diagram)));
        if let Some(anchor) = wrapped.filter(|_| !enlarged) {
            figures.extend(wraps(book, anchor, &numbers).map(|figure| (shown, figure)));
            enlarged = true;
        }
    }
    figures
}

/// The wraps round a pair of stacks, large, from the front and from behind, with the numbers that they have as moves.
fn wraps(book: &Book, anchor: usize, numbers: &[usize]) -> Option<Figure> {
    let drawing = drawing::wraps(book.design, book.work, anchor, numbers)?;
    let (caption, alt) = (book.words.fixed(Word::DiagramWraps), book.words.fixed(Word::DiagramWrapsAlt));
    Some(Figure { drawing, moves: Vec::new(), caption: Text::marked(&caption), alt })
}

fn figure(book: &Book, diagram: Diagram) -> Figure {
    if diagram.is_way {
        return way(book, diagram);
    }
    let words = &book.words;
    // Along an edge the bead list names rows, and counts from the left.
    let at_edge = diagram.shown.manner == Manner::Strand && !book.design.hangs_on_its_foundation();
    let counts = counts_from_its_start(diagram.shown.manner) && !at_edge;
    let home = counts.then(|| home_row(book, &diagram.moves)).flatten();
    let moves: Vec<NumberedMove> = diagram
        .moves
        .iter()
        .map(|m| NumberedMove {
            number: m.number,
            what: Text::marked(&what(book, &m.kind, &m.letters, home)),
        })
        .collect();
    // Stacks are counted from the left, but in a row by itself as they are worked.
    let from_left = |made: &DiagramMove| match made.kind {
        MoveKind::Pass(pass) => {
            book.work.fabric.stack_number(pass.stack) == book.work.fabric[pass.stack].place + 1
        }
        _ => true,
    };
    let counted = match home {
        None => Some(Word::DiagramFromLeft),
        Some(_) if diagram.moves.iter().all(from_left) => None,
        Some(_) => Some(Word::DiagramAsWorked),
    };
    let caption = counted.map_or(Text::default(), |counted| Text::plain(words.fixed(counted)));
    let told = moves.iter().map(|m| context! { number => m.number, what => m.what.words() });
    let told = words.say(Word::DiagramMoves, context! { moves => told.collect::<Vec<_>>() });
    let read = format!("{told} {}", caption.words());
    // Read aloud, the dots between runs are no pause.
    let read = read.trim_end().replace(RUN_SEPARATOR, ", ");
    let alt =
        words.say(Word::DiagramAlt, context! { title => words.fixed(title(diagram.shown)), moves => read });
    Figure { drawing: diagram.drawing, moves, caption, alt }
}

/// An outline with a way, whose moves stand in its caption.
fn way(book: &Book, diagram: Diagram) -> Figure {
    let words = &book.words;
    let moves = said(book, diagram.moves.iter().map(|made| &made.kind));
    // Moves of the step that come before it have numbers in another figure.
    let after = diagram.moves.first().map_or(0, |made| made.number - 1);
    let text = Text::marked(&words.say(Word::DiagramWay, context! { way => moves.as_str(), after }));
    let title = words.fixed(Word::DiagramWayTitle);
    let alt = words.say(Word::DiagramAlt, context! { title, moves });
    Figure { drawing: diagram.drawing, moves: Vec::new(), caption: text, alt }
}

/// Moves that pick up nothing in words, one after another: `down stack 2 of row 3, up stack 3 of row 3`, counted from
/// the left.
fn said<'m>(book: &Book, moves: impl Iterator<Item = &'m MoveKind>) -> String {
    format!("{} {}", passes(book, moves), book.words.fixed(Word::DiagramFromLeft))
}

/// Moves of any kind likewise.
pub(super) fn told<'m>(book: &Book, moves: impl Iterator<Item = &'m Move>) -> String {
    format!("{} {}", passed(book, moves), book.words.fixed(Word::DiagramFromLeft))
}

/// The same without saying from where stacks are counted.
pub(super) fn passed<'m>(book: &Book, moves: impl Iterator<Item = &'m Move>) -> String {
    let one = |made: &Move| {
        match made.kind {
            MoveKind::String { .. } => {
                let letters: Vec<LetterId> =
                    made.beads.iter().map(|bead| book.work.fabric[*bead].letter).collect();
                what(book, &made.kind, &letters, None)
            }
            // Which one, no figure need show.
            MoveKind::UnderBridge { bridge } => bridge_by_name(book, bridge),
            _ => what(book, &made.kind, &[], None),
        }
    };
    moves.map(one).collect::<Vec<_>>().join(", ")
}

/// The same without saying from where stacks are counted.
pub(super) fn passes<'m>(book: &Book, moves: impl Iterator<Item = &'m MoveKind>) -> String {
    moves.map(|kind| what(book, kind, &[], None)).collect::<Vec<_>>().join(", ")
}

fn title(shown: Shown) -> Word {
    match (shown.manner, shown.time > 1, shown.thread) {
        (Manner::Ladder, ..) => Word::DiagramFirstLadderStacks,
        (Manner::LadderOn, ..) => Word::DiagramAddLadderStack,
        (Manner::Narrower | Manner::Alone, false, _) => Word::DiagramStartRow,
        (Manner::Narrower | Manner::Alone, true, _) => Word::DiagramStartNextRow,
        (Manner::Wider, false, _) => Word::DiagramWider,
        (Manner::Wider, true, _) => Word::DiagramWiderAgain,
        (Manner::WalkIn, ..) => Word::DiagramWalkIn,
        (Manner::Turned, ..) => Word::DiagramTurned,
        (Manner::WiderEnd, ..) => Word::DiagramWiderEnd,
        (Manner::BuiltOut | Manner::BuiltOutEnd, ..) => Word::DiagramBuiltOut,
        (Manner::Onward, ..) => Word::DiagramAddStack,
        (Manner::OnwardBelow, ..) => Word::DiagramAddStackBelow,
        (Manner::Hanging, false, _) => Word::DiagramHanging,
        (Manner::Hanging, true, _) => Word::DiagramHangingAgain,
        (Manner::Begin, ..) => Word::DiagramDownToFringe,
        (Manner::Strand, false, _) => Word::DiagramStrand,
        (Manner::Strand, true, _) => Word::DiagramNextStrand,
        (Manner::End, _, ThreadUse::Body) => Word::DiagramAnchoring,
        (Manner::Tail, ..) => Word::DiagramTailAway,
        (Manner::JoinEnd, ..) => Word::DiagramJoinEnd,
        (Manner::JoinBegin, ..) => Word::DiagramJoinBegin,
        (Manner::End, _, ThreadUse::Fringe) => Word::DiagramLastTail,
    }
}

/// Whether a diagram shows a row being worked, where stacks count from the side the row starts; elsewhere
/// the thread runs through several rows, and stacks count from the left in all of them.
fn counts_from_its_start(manner: Manner) -> bool {
    match manner {
        Manner::Ladder
        | Manner::LadderOn
        | Manner::Narrower
        | Manner::Wider
        | Manner::WiderEnd
        | Manner::BuiltOut
        | Manner::BuiltOutEnd
        | Manner::Alone
        | Manner::Onward
        | Manner::OnwardBelow
        | Manner::Strand => true,
        Manner::WalkIn
        | Manner::Turned
        | Manner::Hanging
        | Manner::Begin
        | Manner::End
        | Manner::JoinEnd
        | Manner::JoinBegin
        | Manner::Tail => false,
    }
}

/// The one row that all passes of a diagram run through; `None` when there are several, or stacks are built on before
/// those that it begins with, so that its first stack is not the first that is worked.
fn home_row(book: &Book, moves: &[DiagramMove]) -> Option<SectionId> {
    let mut rows: Vec<SectionId> = moves
        .iter()
        .filter_map(|m| match m.kind {
            MoveKind::Pass(pass) => Some(book.work.fabric[pass.stack].section),
            _ => None,
        })
        .collect();
    rows.dedup();
    let begins_with_its_first = |row: SectionId| book.work.fabric.built_out(row)[0] == 0;
    match rows[..] {
        [row] => Some(row).filter(|row| begins_with_its_first(*row)),
        _ => None,
    }
}

fn what(book: &Book, kind: &MoveKind, letters: &[LetterId], home: Option<SectionId>) -> String {
    let words = &book.words;
    match kind {
        MoveKind::LeaveTail { .. } => words.fixed(Word::DiagramTail),
        MoveKind::String { .. } => {
            let runs: Vec<BeadRun> = letters
                .chunk_by(|a, b| a == b)
                .map(|run| BeadRun { count: run.len(), letter: run[0] })
                .collect();
            // Long pick-ups, strands and loops, are read more easily as runs.
            let beads = if letters.len() > 2 * book.design.body.drop {
                book.bead_runs(&runs)
            } else {
                book.spaced(letters)
            };
            words.say(Word::DiagramString, context! { beads => beads })
        }
        MoveKind::Pass(passed) => pass(book, *passed, home),
        MoveKind::UnderBridge { .. } => words.fixed(Word::DiagramBridge),
        MoveKind::ThroughGuard { .. } => words.fixed(Word::DiagramGuard),
        MoveKind::ThroughLoop { .. } => words.fixed(Word::DiagramLoop),
        MoveKind::ReturnUp { strand } => {
            let picot = book.design.fringe.strands[book.work.fabric[*strand].source].turn > 1;
            words.fixed(if picot { Word::DiagramReturnPicot } else { Word::DiagramReturn })
        }
        MoveKind::Wrap { .. } => words.fixed(Word::DiagramWrap),
        MoveKind::CutTail { .. } => words.fixed(Word::DiagramCut),
    }
}

/// A bridge by the stacks that it joins.
fn bridge_by_name(book: &Book, bridge: BridgeId) -> String {
    let fabric = &book.work.fabric;
    let [first, second] = fabric[bridge].stacks;
    let (row, lower) = (fabric.row_number(first), fabric[bridge].edge == Way::Down);
    let [first, second] = [first, second].map(|stack| fabric[stack].place + 1);
    book.words.say(Word::DiagramBridgeRow, context! { first, second, row, lower })
}

fn pass(book: &Book, pass: Pass, home: Option<SectionId>) -> String {
    let (words, fabric) = (&book.words, &book.work.fabric);
    let Pass { stack, way } = pass;
    let way = words.fixed(match way {
        Way::Up => Word::NameUp,
        Way::Down => Word::NameDown,
    });
    if home.is_some() {
        return words.say(Word::DiagramPass, context! { way => way, number => fabric.stack_number(stack) });
    }
    words.say(
        Word::DiagramPassRow,
        context! { way => way, number => fabric[stack].place + 1, row => fabric.row_number(stack) },
    )
}
