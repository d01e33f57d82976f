//! Finishing: ear wire, tails, the second earring, care.

use crate::booklet::book::Book;
use crate::booklet::{Block, CalloutKind, ParagraphStyle, Section, Text};
use crate::design::{Pair, Word};
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let start = book.work.start;
    let second = match book.design.pair {
        Pair::Same => words.fixed(Word::FinishingSecondSame),
        Pair::Mirrored if book.design.is_symmetrical() => words.fixed(Word::FinishingSecondSymmetrical),
        Pair::Mirrored => words.say(
            Word::FinishingSecondMirrored,
            context! { side => book.side(start.other()), other => book.side(start) },
        ),
    };
    let ear_wire = words.say(Word::FinishingEarWireText, context! { hang => book.hang_name() });
    let mut blocks = Vec::new();
    for (title, text) in [
        (Word::FinishingEarWire, ear_wire),
        (Word::FinishingTails, words.fixed(Word::FinishingTailsText)),
        (Word::FinishingSecond, second),
    ] {
        blocks.push(heading(book, title));
        blocks.push(paragraph(&text));
    }
    blocks.push(Block::Callout {
        kind: CalloutKind::Check,
        title: Text::plain(words.fixed(Word::StepsCheckTitle)),
        blocks: vec![paragraph(&words.fixed(Word::FinishingCompare))],
    });
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

fn heading(book: &Book, word: Word) -> Block {
    Block::Heading { level: 2, text: Text::plain(book.words.fixed(word)) }
}

fn paragraph(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Body }
}
