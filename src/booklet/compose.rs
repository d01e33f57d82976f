//! Composing: the template's sections in order, filled from the design, its path and its tally.

use super::book::{Book, Edition};
use super::sections::{self};
use super::words::Words;
use super::{Booklet, Meta, PageWords, Setting, grey};
use crate::booklet::{Word, Wording};
use crate::design::Design;
use crate::diagnostic::Problem;
use crate::stitch::Work;
use crate::tally::Tally;

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
    let order = &wording.language.order;
    let list: Vec<_> = order.iter().filter_map(|name| sections::section(*name, &book)).collect();
    if list.is_empty() {
        let problem = Problem::error(format!("`{}` calls for none of the sections in `order`", design.slug))
            .hint("name one that every design has, as in `order: [cover, materials, chart]`");
        return Err(vec![match wording.order_place() {
            Some(place) => problem.at(place.clone()),
            None => problem,
        }]);
    }
    let problems = sections::steps::unknown_names(&book);
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
    Book { design, work, tally, words, edition, patterns }
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
            bench,
        },
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

fn page_words(words: &Words) -> PageWords {
    PageWords {
        page_of: words.late(Word::PagePageOf),
        cover: words.fixed(Word::PageCover),
        back: words.fixed(Word::PageBack),
        continued: words.fixed(Word::PageContinued),
        chart_part: words.late(Word::PageChartPart),
        layer_letters: words.fixed(Word::PageLayerLetters),
        layer_marks: words.fixed(Word::PageLayerMarks),
        layer_grid: words.fixed(Word::PageLayerGrid),
        row: words.late(Word::PageRow),
        from_left: words.fixed(Word::NameFromLeft),
        from_right: words.fixed(Word::NameFromRight),
        strand: words.late(Word::PageStrand),
    }
}
