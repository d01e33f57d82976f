//! Finishing: ear wire, tails, the second earring, care.

use super::parts::{check, heading, paragraph};
use crate::booklet::Section;
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::design::Pair;
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
    let ear_wire = match book.work.hangings.len() {
        1 => words.say(Word::FinishingEarWireText, context! { hang }),
        _ => words.say(Word::FinishingEarWireSeveral, context! { hang }),
    };
    let mut blocks = Vec::new();
    for (title, text) in [
        (Word::FinishingEarWire, ear_wire),
        (Word::FinishingTails, words.fixed(Word::FinishingTailsText)),
        (Word::FinishingSecond, second),
    ] {
        blocks.push(heading(book, title));
        blocks.push(paragraph(&text));
    }
    blocks.push(check(book, &words.fixed(Word::FinishingCompare)));
    blocks.push(heading(book, Word::FinishingCare));
    blocks.push(paragraph(&words.fixed(Word::FinishingCareText)));
    Section {
        name: "finishing".into(),
        title: words.fixed(Word::FinishingTitle),
        new_page: true,
        listed: true,
        blocks,
    }
}
