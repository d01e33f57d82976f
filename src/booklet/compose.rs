//! Composing: the template's sections in order, filled from the design, its path and its tally.

use super::book::{Book, Edition};
use super::sections::{self, cover::edition_line};
use super::words::Words;
use super::{Booklet, Meta, PageWords, RunningLine, RunningPart, Setting, grey, order};
use crate::booklet::{Word, Wording};
use crate::design::{Design, Running, RunningPiece, RunningValue, pieces};
use crate::diagnostic::Problem;
use crate::stitch::Work;
use crate::tally::Tally;
use std::cell::OnceCell;

/// Composes a booklet.
///
/// # Errors
/// When a text of the wording cannot be filled in (a mistake in a user's own templates).
pub fn compose(
    design: &Design,
    work: &Work,
    tally: &Tally,
    wording: &Wording,
    edition: &Edition,
) -> Result<Booklet, Vec<Problem>> {
    let book = open(design, work, tally, wording, edition);
    let (list, mut problems) = order::sections_of(&book);
    if list.is_empty() && problems.is_empty() {
        let problem = Problem::error(format!("`{}` calls for none of the sections in `order`", design.slug))
            .hint("name one that every design has, as in `order: [cover, materials, chart]`");
        let own = design.studio.order.as_ref().map(|order| &order.place);
        return Err(vec![match own.or(wording.order_place()) {
            Some(place) => problem.at(place.clone()),
            None => problem,
        }]);
    }
    problems.extend(sections::steps::unknown_names(&book));
    finish(book, list, false, problems)
}

/// A book to be filled.
pub(super) fn open<'a>(
    design: &'a Design,
    work: &'a Work,
    tally: &'a Tally,
    wording: &'a Wording,
    edition: &'a Edition,
) -> Book<'a> {
    let words = Words::new(wording, design.studio.units, design.palette.currency.as_deref());
    let patterns =
        if edition.grey { grey::patterns(design, tally) } else { vec![None; design.letters.len()] };
    Book { earring: 1, design, work, tally, words, edition, patterns, steps: OnceCell::new() }
}

/// The booklet round its sections; `problems` are those of books whose sections stand in it too.
pub(super) fn finish(
    book: Book,
    sections: Vec<super::Section>,
    bench: bool,
    mut problems: Vec<Problem>,
) -> Result<Booklet, Vec<Problem>> {
    let (design, words, edition) = (book.design, &book.words, book.edition);
    let mut title = words.own(&design.title);
    if let Some(colourway) = design.colourway_name() {
        title = format!("{title}, {}", words.own(colourway));
    }
    // A title that is the file's name says nothing of the file.
    let whole = if bench { Word::BenchTitle } else { Word::CoverDocument };
    let told = words.say(whole, minijinja::context! { title => title.as_str() });
    if bench {
        title.clone_from(&told);
    }
    let booklet = Booklet {
        meta: Meta {
            title: told,
            author: design.studio.name.clone(),
            subject: words.own(&design.summary),
            keywords: vec![
                words.fixed(Word::PageKeywordEarring),
                words.fixed(Word::PageKeywordPattern),
                words.fixed(Word::NameBrick),
            ],
            language: words.wording().language.tag.clone().into_owned(),
            date: design.date,
            edition: design.edition,
            rights: words.own(&design.studio.copyright),
            digest: edition.digest.clone(),
            digest_parts: edition.digest_parts.clone(),
            stamp: edition.stamp.clone(),
        },
        setting: Setting {
            paper: edition.paper,
            large_print: edition.large_print,
            grey: edition.grey,
            accent: design.studio.accent,
            tint: design.studio.tint,
            fonts: design.studio.own_faces(),
            bench,
            tablet: edition.tablet,
        },
        head: design.studio.head.as_ref().map(|head| running_line(&book, head, &title)),
        foot: design.studio.foot.as_ref().map(|foot| running_line(&book, foot, &title)),
        running_title: title,
        foot_line: words.own(&design.studio.copyright),
        stamp: edition.stamp.clone(),
        words: page_words(words),
        sections,
    };
    for problem in book.words.problems() {
        if !problems.contains(&problem) {
            problems.push(problem);
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(booklet)
}

/// What the maker has at the head or foot of every page; what only layout knows is left to it.
fn running_line(book: &Book, running: &Running, title: &str) -> RunningLine {
    let studio = &book.design.studio;
    let part = |piece: RunningPiece| match piece {
        RunningPiece::Words(words) => RunningPart::Words(words),
        RunningPiece::Value(value) => match value {
            RunningValue::Title => RunningPart::Words(title.to_owned()),
            RunningValue::Section => RunningPart::Section,
            RunningValue::Studio => RunningPart::Words(studio.name.clone()),
            RunningValue::Web => RunningPart::Words(studio.web.clone()),
            RunningValue::Copyright => RunningPart::Words(book.words.own(&studio.copyright)),
            RunningValue::Edition => RunningPart::Words(edition_line(book)),
            RunningValue::Page => RunningPart::Page,
            RunningValue::Pages => RunningPart::Pages,
        },
    };
    // What cannot be taken apart was told when it was read.
    let parts = running.parts().map(|text| pieces(text).unwrap_or_default().into_iter().map(part).collect());
    RunningLine(parts)
}

fn page_words(words: &Words) -> PageWords {
    PageWords {
        page_of: words.late(Word::PagePageOf),
        cover: words.fixed(Word::PageCover),
        back: words.fixed(Word::PageBack),
        continued: words.fixed(Word::PageContinued),
        chart_part: words.late(Word::PageChartPart),
        chart_part_pale: words.late(Word::PageChartPartPale),
        layer_letters: words.fixed(Word::PageLayerLetters),
        layer_marks: words.fixed(Word::PageLayerMarks),
        layer_grid: words.fixed(Word::PageLayerGrid),
        row: words.late(Word::PageRow),
        from_left: words.fixed(Word::NameFromLeft),
        from_right: words.fixed(Word::NameFromRight),
        strand: words.late(Word::PageStrand),
        step: words.late(Word::PageStep),
        on_chart: words.fixed(Word::PageOnChart),
        in_rows: words.fixed(Word::PageInRows),
        in_strands: words.fixed(Word::PageInStrands),
        screen_links: [Word::TabletBack, Word::TabletContents, Word::TabletChart, Word::TabletForward]
            .map(|word| words.fixed(word)),
    }
}
