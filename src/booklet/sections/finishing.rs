//! Finishing: ear wire, tails, the second earring, care.

use super::parts::{check, heading, paragraph};
use crate::booklet::book::Book;
use crate::booklet::drawing;
use crate::booklet::{Block, Figure, Section, Text, Word};
use crate::design::{EarWire, Finding, Pair};
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let start = book.work.start;
    let second = match book.design.pair {
        Pair::Same => words.fixed(Word::FinishingSecondSame),
        Pair::Mirrored if book.design.is_symmetrical() => words.fixed(Word::FinishingSecondSymmetrical),
        Pair::Mirrored => words.say(
            Word::FinishingSecondMirrored,
            context! { side => book.side(start.other()), section => words.fixed(Word::SecondTitle) },
        ),
    };
    let hang = book.hang_name();
    let (has_loop, of_wire) = (book.design.ear_wire().has_loop(), book.of_wire());
    let ear_wire = match (book.work.hangings.len(), has_loop) {
        (1, true) => words.say(Word::FinishingEarWireText, context! { hang, of_wire }),
        (1, false) => words.say(Word::FinishingHoopText, context! { hang }),
        _ => {
            // What is listed besides ear wires and guards joins them.
            let joins = |finding: &&Finding| finding.kind.is_none() && finding.holes.is_none();
            let parts = book.design.findings.iter().filter(joins);
            let parts: Vec<String> = parts.map(|finding| words.own(&finding.name)).collect();
            let parts = Some(words.list(&parts)).filter(|parts| !parts.is_empty());
            words.say(Word::FinishingEarWireSeveral, context! { hang, has_loop, of_wire, parts })
        }
    };
    let title = match book.design.ear_wire() {
        EarWire::Hook => Word::FinishingHook,
        EarWire::LeverBack => Word::FinishingLeverBack,
        EarWire::Stud => Word::FinishingStud,
        EarWire::Hoop => Word::FinishingHoop,
    };
    let mut blocks = Vec::new();
    for (title, text, shown) in [
        (title, ear_wire, opening(book)),
        (Word::FinishingTails, words.fixed(Word::FinishingTailsText), None),
        (Word::FinishingSecond, second, None),
    ] {
        let told = [heading(book, title), paragraph(&text)];
        match shown {
            Some(shown) => blocks.push(Block::Together(told.into_iter().chain([shown]).collect())),
            None => blocks.extend(told),
        }
    }
    blocks.push(check(book, &words.fixed(Word::FinishingCompare)));
    blocks.push(heading(book, Word::FinishingCare));
    blocks.push(paragraph(&words.fixed(Word::FinishingCareText)));
    Section {
        name: "finishing".into(),
        title: words.fixed(Word::FinishingTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}

/// How the loop of the ear wire is opened, or of the rings that join several places to hang; `None` where nothing has one.
fn opening(book: &Book) -> Option<Block> {
    let wire = book.design.ear_wire();
    let several = book.work.hangings.len() > 1;
    let wire = Some(wire).filter(|wire| wire.has_loop());
    (wire.is_some() || several).then(|| {
        Block::Figure(Figure {
            drawing: drawing::opening(wire),
            moves: Vec::new(),
            caption: Text::marked(&book.words.fixed(Word::FinishingOpening)),
            alt: book.words.fixed(Word::FinishingOpeningAlt),
        })
    })
}
