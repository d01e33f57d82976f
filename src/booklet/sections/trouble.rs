//! What to do when something goes wrong, in the trade's usual words (common practice, no source).

use super::parts::{heading, paragraph};
use crate::booklet::Section;
use crate::booklet::Word;
use crate::booklet::book::Book;
use minijinja::context;

/// What may happen, and what then helps.
const TROUBLES: [(Word, Word); 6] = [
    (Word::TroubleBead, Word::TroubleBeadText),
    (Word::TroubleRow, Word::TroubleRowText),
    (Word::TroubleStrand, Word::TroubleStrandText),
    (Word::TroubleRunsOut, Word::TroubleRunsOutText),
    (Word::TroubleKnots, Word::TroubleKnotsText),
    (Word::TroubleGaps, Word::TroubleGapsText),
];

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut blocks = Vec::new();
    for (title, text) in TROUBLES {
        blocks.push(heading(book, title));
        let single = book.work.is_one_row();
        let told = match text {
            Word::TroubleRowText | Word::TroubleRunsOutText => words.say(text, context! { single }),
            _ => words.fixed(text),
        };
        blocks.push(paragraph(&told));
    }
    Section {
        name: "trouble".into(),
        title: words.fixed(Word::TroubleTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}
