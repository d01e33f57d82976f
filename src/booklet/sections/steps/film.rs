//! Where the film of a design stands beside its steps, and its photographs in them.

use super::names::{StepName, meant};
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing::{self, photograph};
use crate::booklet::{Block, Code, Figure, ParagraphStyle, RunStyle, Text, TextRun};
use crate::design::{Film, StepRef, clock};
use crate::diagnostic::{Problem, nearest, shown};
use minijinja::context;

/// What the maker shows of each step.
#[derive(Default)]
pub(super) struct Shows {
    /// When it begins in the film.
    pub(super) at: Option<u32>,
    /// Photographs.
    pub(super) photographs: Vec<Figure>,
}

/// What the maker shows of steps with these names, and every name that is none.
pub(super) fn shows(book: &Book, names: &[StepName]) -> (Vec<Shows>, Vec<Problem>) {
    let design = book.design;
    let mut shows: Vec<Shows> = names.iter().map(|_| Shows::default()).collect();
    let mut problems = Vec::new();
    let mut taken: Vec<(usize, &StepRef)> = Vec::new();
    let times = design.film.iter().flat_map(|film| &film.times);
    let mut in_place = Vec::new();
    for time in times {
        match meant(&time.step.name, names) {
            None => problems.push(unknown(&time.step, names)),
            Some((step, false)) => in_place.push((step, time)),
            Some((step, true)) => match taken.iter().find(|(other, _)| *other == step) {
                Some((_, before)) => problems.push(twice(&time.step, before, names[step])),
                None => {
                    taken.push((step, &time.step));
                    shows[step].at = Some(time.second());
                }
            },
        }
    }
    // A step that stands in for another has that one's time where it has none of its own.
    for (step, time) in in_place {
        shows[step].at.get_or_insert(time.second());
    }
    for (step, photographs) in &design.photographs.steps {
        match meant(&step.name, names) {
            None => problems.push(unknown(step, names)),
            Some((index, _)) => {
                let figures = photographs.iter().map(|one| photograph(one, book.words.own(&one.caption)));
                shows[index].photographs.extend(figures);
            }
        }
    }
    (shows, problems)
}

fn unknown(step: &StepRef, names: &[StepName]) -> Problem {
    let written: Vec<String> = names.iter().map(|name| name.written()).collect();
    let near = nearest(&step.name, written.iter().map(String::as_str));
    let near = near.map(|near| format!("did you mean `{near}`? ")).unwrap_or_default();
    let all = written.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    Problem::error(format!("no step is called `{}`", shown(&step.name)))
        .at(step.place.clone())
        .hint(format!("{near}the steps of this design are {all}"))
}

fn twice(step: &StepRef, before: &StepRef, name: StepName) -> Problem {
    let (here, there) = (shown(&step.name), shown(&before.name));
    Problem::error(format!("`{here}` is told in the same step as `{there}`"))
        .at(step.place.clone())
        .hint(format!("keep one of the two times: the step is `{}`", name.written()))
}

/// The film as a whole, for the head of the steps.
pub(super) fn whole(book: &Book) -> Option<Block> {
    let film = book.design.film.as_ref()?;
    let words = &book.words;
    if book.edition.tablet {
        return Some(link(film.address_at(0), words.fixed(Word::FilmWhole)));
    }
    let note = if film.times.is_empty() { Word::FilmNoteWhole } else { Word::FilmNote };
    code(film, 0, words.fixed(Word::FilmWhole), Text::plain(words.fixed(note)))
}

/// The film from a second on.
pub(super) fn from(book: &Book, second: u32) -> Option<Block> {
    let film = book.design.film.as_ref()?;
    let words = book.words.say(Word::FilmAt, context! { time => clock(second) });
    if book.edition.tablet {
        return Some(link(film.address_at(second), words));
    }
    code(film, second, words, Text::default())
}

/// On a screen there is nothing to point a camera at: the link alone.
fn link(address: String, words: String) -> Block {
    let text = Text(vec![TextRun { text: words, style: RunStyle::WebLink(address) }]);
    Block::Paragraph { text, style: ParagraphStyle::Body }
}

fn code(film: &Film, second: u32, words: String, note: Text) -> Option<Block> {
    let address = film.address_at(second);
    let drawing = drawing::code(&address)?;
    let words = Text(vec![TextRun { text: words, style: RunStyle::WebLink(address.clone()) }]);
    Some(Block::Code(Code { drawing, words, note, address }))
}
