//! The second earring of a mirrored pair: its own chart, word chart and bead list.

use super::parts::heading;
use super::{chart, rows, strands};
use crate::booklet::book::Book;
use crate::booklet::words::Words;
use crate::booklet::{Block, ParagraphStyle, Section, Text, Word};
use crate::design::Pair;
use crate::stitch::stitch;
use minijinja::context;
use std::cell::OnceCell;

/// `None` where both earrings are alike.
pub(super) fn section(book: &Book) -> Option<Section> {
    if book.design.pair == Pair::Same || book.design.is_symmetrical() {
        return None;
    }
    let design = book.design.mirrored();
    let work = stitch(&design);
    let units = (design.studio.units, design.palette.currency.as_deref());
    let words = Words::new(book.words.wording(), units.0, units.1);
    let patterns = book.patterns.clone();
    // As many beads, grams and packs: what is counted is the same.
    let (tally, edition) = (book.tally, book.edition);
    let (design, work) = (&design, &work);
    let second = Book { earring: 2, design, work, tally, words, edition, patterns, steps: OnceCell::new() };

    let side = second.side_started(work.start);
    let intro = second.words.say(Word::SecondIntro, context! { side });
    let mut blocks = vec![Block::Paragraph { text: Text::marked(&intro), style: ParagraphStyle::Body }];
    let on_its_page = |fringe| [vec![Block::NewPage], fringe].concat();
    blocks.extend(chart::blocks(&second, on_its_page));
    blocks.push(Block::NewPage);
    blocks.push(heading(&second, Word::SecondRows));
    blocks.extend(rows::word_chart(&second));
    blocks.push(heading(&second, Word::SecondStrands));
    blocks
        .push(Block::Paragraph { text: Text::marked(&strands::begin(&second)), style: ParagraphStyle::Body });
    blocks.extend(strands::bead_list(&second));
    book.words.take_up(second.words.problems());
    Some(Section {
        name: "second".into(),
        title: book.words.fixed(Word::SecondTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    })
}
