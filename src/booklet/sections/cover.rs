//! Cover: the finished pair, its size, and who sells the booklet.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing;
use crate::booklet::{Block, Cover, CoverArt, Section, Text};
use crate::design::Skill;
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let (design, words) = (book.design, &book.words);
    let rows = &design.body.rows;
    let (drop, widest, strands) = (book.drop_name(), design.widest(), design.fringe.strands.len());
    let alt = if design.is_plain() {
        let top = design.body.top_row().stacks.len();
        let values = context! { rows => rows.len(), drop, widest, top, strands };
        words.say(Word::CoverAlt, values)
    } else {
        let ladder = book.work.is_one_row();
        words.say(Word::CoverAltShape, context! { rows => rows.len(), drop, widest, strands, ladder })
    };
    let (art, alt) = match &design.photographs.cover {
        Some(photo) => {
            let shows = Some(photo.shows.to_string()).filter(|shows| !shows.is_empty());
            let alt = shows.unwrap_or_else(|| words.fixed(Word::CoverPhotoAlt));
            (CoverArt::Photo(photo.image.clone()), alt)
        }
        None => (CoverArt::Drawn(drawing::pair(design, book.work)), alt),
    };
    let cover = Cover {
        kind: words.fixed(Word::CoverKind),
        title: words.own(&design.title),
        colourway: design
            .colourway_name()
            .map(|name| words.say(Word::CoverColourway, context! { name => words.own(name) })),
        summary: Text::plain(words.own(&design.summary)),
        art,
        alt,
        facts: facts(book),
        studio: design.studio.name.clone(),
        web: design.studio.web.clone(),
        edition: edition_line(book),
        way: design.studio.cover,
        logo: design.studio.logo.as_ref().map(|logo| logo.image.clone()),
    };
    Section {
        name: "cover".into(),
        title: String::new(),
        new_page: true,
        faces: false,
        listed: false,
        blocks: vec![Block::Cover(cover)],
    }
}

/// `Edition 2, 3 May 2026`.
pub(in crate::booklet) fn edition_line(book: &Book) -> String {
    book.words.say(
        Word::PageEdition,
        context! { edition => book.design.edition, date => book.design.date.map(|d| book.words.date(d)) },
    )
}

/// The skill level's name.
fn skill(book: &Book) -> String {
    book.words.fixed(match book.design.skill {
        Skill::Basic => Word::NameBasic,
        Skill::Easy => Word::NameEasy,
        Skill::Intermediate => Word::NameIntermediate,
        Skill::Complex => Word::NameComplex,
    })
}

/// Label and value of each fact; the long ones first, so that they stand in one row.
fn facts(book: &Book) -> Vec<(String, String)> {
    let (words, tally) = (&book.words, book.tally);
    let hang = book.hang_name();
    let mut facts = vec![
        (
            words.fixed(Word::CoverSize),
            words.say(
                Word::CoverSizeText,
                context! { width => tally.size.width.0, drop => tally.size.drop.0 },
            ),
        ),
        (
            words.fixed(Word::CoverTechnique),
            words.say(
                Word::CoverTechniqueText,
                context! {
                    drop => book.drop_name(), strands => book.design.fringe.strands.len(),
                    ladder => book.work.is_one_row(),
                },
            ),
        ),
        (words.fixed(Word::CoverSkill), skill(book)),
        (
            words.fixed(Word::CoverBeads),
            words.say(Word::CoverBeadsText, context! { pair => tally.beads_pair, colours => book.colours() }),
        ),
        (words.fixed(Word::CoverHang), hang),
        (
            words.fixed(Word::CoverWeight),
            words.say(Word::CoverWeightText, context! { weight => tally.weight.0 }),
        ),
    ];
    if let Some(pace) = book.design.studio.beads_an_hour {
        // Whole hours: no two beaders are alike.
        let hours = (tally.beads_pair as f64 / f64::from(pace)).round().max(1.0) as usize;
        // With the skill: both say whom it is for.
        facts.insert(3, (words.fixed(Word::CoverTime), words.say(Word::CoverTimeText, context! { hours })));
    }
    facts.into_iter().map(|(label, value)| (label, as_fact(&value))).collect()
}

/// A value as it stands by itself: it begins with a capital.
fn as_fact(value: &str) -> String {
    let mut letters = value.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
