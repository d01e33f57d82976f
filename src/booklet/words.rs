//! Saying things: fills the templates' texts with numbers, in the language's way of writing them.

use super::model::{Late, LatePiece};
use super::wording::{Filler, NBSP, Numbers, Stretch, Word, Wording};
use crate::design::{Date, UnitOrder};
use crate::diagnostic::{Problem, ranges};
use crate::units::Mm;
use minijinja::{Value, context};
use std::cell::RefCell;
use std::collections::BTreeSet;

/// The texts of one language, ready to be filled in.
pub(super) struct Words<'a> {
    wording: &'a Wording,
    filler: Filler<'a>,
    numbers: Numbers,
    problems: RefCell<Vec<Problem>>,
}

impl<'a> Words<'a> {
    /// Texts of a wording, with lengths in the order of `units` and prices in `currency`.
    pub(super) fn new(wording: &'a Wording, units: UnitOrder, currency: Option<&str>) -> Words<'a> {
        let numbers = Numbers::new(&wording.language, units, currency);
        let filler = Filler::new(wording, &numbers);
        Words { wording, filler, numbers, problems: RefCell::default() }
    }

    /// A text that has nothing to fill in.
    pub(super) fn fixed(&self, word: Word) -> String {
        self.say(word, Value::from(()))
    }

    /// A text, filled in. A template that cannot be filled is a problem, kept for [`Words::problems`].
    pub(super) fn say(&self, word: Word, values: Value) -> String {
        debug_assert_eq!(names_of(&values), word.values(), "{}", word.name());
        self.noted(self.filler.fill(word, values))
    }

    /// A text with values that layout puts in.
    pub(super) fn late<const N: usize>(&self, word: Word) -> Late<N> {
        debug_assert_eq!(word.values(), word.late(), "{}", word.name());
        let stretches = self.noted(self.filler.around_late_values(word));
        let pieces = stretches.into_iter().map(|stretch| match stretch {
            Stretch::Words(words) => LatePiece::Words(words),
            Stretch::Late(i) => LatePiece::Value(i),
        });
        Late(pieces.collect())
    }

    /// What could be said; a problem is kept, each once.
    fn noted<T: Default>(&self, said: Result<T, Problem>) -> T {
        said.unwrap_or_else(|problem| {
            self.take_up(vec![problem]);
            T::default()
        })
    }

    /// Takes up problems of texts said elsewhere, each once.
    pub(super) fn take_up(&self, others: Vec<Problem>) {
        let mut problems = self.problems.borrow_mut();
        for problem in others {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
    }

    /// The wording.
    pub(super) fn wording(&self) -> &'a Wording {
        self.wording
    }

    /// A whole number.
    pub(super) fn number(&self, n: usize) -> String {
        self.numbers.whole(n as f64)
    }

    /// A number with so many decimals.
    pub(super) fn decimals(&self, n: f64, places: usize) -> String {
        self.numbers.decimals(n, places)
    }

    /// A length of thread to cut, in both units.
    pub(super) fn cut(&self, length: Mm) -> String {
        self.numbers.cut(length.0)
    }

    /// What lengths of thread come to that are cut for both earrings, in both units.
    pub(super) fn cuts_for_both(&self, lengths: &[Mm]) -> String {
        self.numbers.cuts(lengths, 2)
    }

    /// A part of a length of thread, in the unit that comes first.
    pub(super) fn part(&self, length: Mm) -> String {
        self.numbers.part(length.0)
    }

    /// A short length, in the unit that comes first.
    pub(super) fn short(&self, length: Mm) -> String {
        self.numbers.short(length.0)
    }

    /// A text of the maker's: measures in it as the language writes them.
    pub(super) fn own(&self, text: &str) -> String {
        self.numbers.measures(text)
    }

    /// A date in words.
    pub(super) fn date(&self, date: Date) -> String {
        let month = self.wording.language.months.get(usize::from(date.month) - 1).map_or("", AsRef::as_ref);
        let said = self.filler.date(context! { day => date.day, month => month, year => date.year });
        self.noted(said).replace(' ', &NBSP.to_string())
    }

    /// `a, b and c`.
    pub(super) fn list(&self, items: &[String]) -> String {
        match items {
            [] => String::new(),
            [one] => one.clone(),
            [first @ .., last] => format!("{} {} {last}", first.join(", "), self.fixed(Word::NameAnd)),
        }
    }

    /// What could not be said.
    pub(super) fn problems(self) -> Vec<Problem> {
        self.problems.into_inner()
    }
}

/// The names of the values that a text is filled with, in their order.
fn names_of(values: &Value) -> Vec<String> {
    let mut names: Vec<String> =
        values.try_iter().map_or(Vec::new(), |keys| keys.map(|k| k.to_string()).collect());
    names.sort_unstable();
    names
}

/// Bead letters apart: `A B D C`.
pub(super) fn spaced(symbols: impl Iterator<Item = char>) -> String {
    symbols.map(String::from).collect::<Vec<_>>().join(&NBSP.to_string())
}

/// Numbers with neighbours drawn together: `1–3, 5`.
pub(super) fn number_ranges(numbers: &BTreeSet<usize>) -> String {
    ranges(numbers).join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn number_ranges_draw_runs_together() {
        assert_eq!(number_ranges(&[3, 1, 2, 5, 7, 8].into()), "1–3, 5, 7–8");
    }
}
