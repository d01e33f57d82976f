//! A film of how the earring is made: its address, and when each step begins in it.

use super::address::{link_to, wrong_film};
use super::bounds::{LONGEST_FILM, MOST_ITEMS, text};
use super::files::FilmPart;
use super::phrase::Phrase;
use super::yaml::{Check, Field, Node};
use crate::diagnostic::{Place, shown, thousands};
use std::ops::Range;

/// Stands in an address for the seconds from the film's beginning (as RFC 6570 writes a value to be filled in).
pub(super) const SECONDS: &str = "{seconds}";

/// What is told of a time that cannot be read.
const TIME_HINT: &str =
    "write minutes and seconds as players show them, as in `4:10`, or `1:02:30` with hours";

/// A film of how the earring is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Film {
    /// Its address, which may hold a place for a time.
    pub address: Phrase,
    /// When each step begins in it, in the order of the file.
    pub times: Vec<FilmTime>,
}

/// When a step begins in a film.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmTime {
    /// The step.
    pub step: StepRef,
    /// The time as written: films in several languages may have several.
    pub at: Phrase,
}

/// A step that a file names. Which steps a booklet has is known once the path of the thread is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepRef {
    /// Its name as written.
    pub name: String,
    /// Where it is written.
    pub place: Place,
}

impl Film {
    /// The address that leads to a second of the film; to its beginning where it has no place for a time.
    #[must_use]
    pub fn address_at(&self, second: u32) -> String {
        link_to(&self.address.replace(SECONDS, &second.to_string()))
    }
}

impl FilmTime {
    /// Seconds from the beginning.
    #[must_use]
    pub fn second(&self) -> u32 {
        seconds(&self.at).unwrap_or_default()
    }
}

/// A time as players show it: `4:10`, `1:02:30`.
#[must_use]
pub fn clock(second: u32) -> String {
    let (hours, minutes, seconds) = (second / 3600, second / 60 % 60, second % 60);
    if hours > 0 { format!("{hours}:{minutes:02}:{seconds:02}") } else { format!("{minutes}:{seconds:02}") }
}

/// Reads a time. A whole number is seconds: that is what YAML 1.1 makes of `4:10` (its base 60), and with it a program
/// that reads and writes such files.
fn seconds(text: &str) -> Option<u32> {
    let parts: Vec<&str> = text.trim().split(':').collect();
    let is_part = |part: &&str| (1..=5).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
    if parts.len() > 3 || !parts.iter().all(is_part) {
        return None;
    }
    let numbers: Vec<u32> = parts.iter().filter_map(|part| part.parse().ok()).collect();
    let (first, rest) = numbers.split_first()?;
    // Only what stands first may be more than its next.
    if rest.iter().any(|number| *number >= 60) || parts.len() == 3 && parts[1].len() != 2 {
        return None;
    }
    if parts.len() > 1 && parts[parts.len() - 1].len() != 2 {
        return None;
    }
    Some(rest.iter().fold(*first, |sum, number| sum * 60 + number)).filter(|sum| *sum <= LONGEST_FILM)
}

/// Checks the film of a design.
pub(super) fn check(check: &mut Check<'_>, part: &FilmPart, node: &Node) -> Option<Film> {
    check.keys::<FilmPart>(node);
    let hint = "give the page of the film, as in `address: https://example.org/film`";
    let address = check.need_phrase(&part.address, node, "address", hint, text::ADDRESS);
    let given = node.get("address");
    let spans: Vec<Range<usize>> = match given.entries() {
        [] => vec![given.span.clone()],
        each => each.iter().map(|(_, value)| value.span.clone()).collect(),
    };
    let mut good = true;
    for (address, span) in address.iter().flat_map(Phrase::texts).zip(spans) {
        if let Some((message, hint)) = wrong_film(address) {
            check.error(span, message, hint);
            good = false;
        }
    }
    let times = match check.take(&part.times, node, "times") {
        Some(given) => {
            let mut times = Vec::new();
            for (i, ((name, field), (key, value))) in
                given.0.iter().zip(node.get("times").entries()).enumerate()
            {
                if i == MOST_ITEMS {
                    let message = format!(
                        "this film has {} times, and can have {MOST_ITEMS}",
                        thousands(given.0.len())
                    );
                    check.error(key.span.clone(), message, "leave some out");
                    break;
                }
                let what = format!("the time of `{}`", shown(name));
                let span = if value.text().is_empty() { &key.span } else { &value.span };
                let Some(at) = check
                    .item(field, span, &what)
                    .and_then(|at| check.one_or_each(at, value, &what, text::NAME))
                else {
                    good = false;
                    continue;
                };
                good &= readable(check, &at, value);
                let place = check.place(key.span.clone());
                times.push(FilmTime { step: StepRef { name: name.trim().to_owned(), place }, at });
            }
            times
        }
        None => {
            good &= matches!(part.times, Field::Missing);
            Vec::new()
        }
    };
    address.filter(|_| good).map(|address| Film { address, times })
}

/// Whether every text of a time can be read; noted where one cannot.
fn readable(check: &mut Check<'_>, at: &Phrase, node: &Node) -> bool {
    let spans: Vec<Range<usize>> = match node.entries() {
        [] => vec![node.span.clone()],
        each => each.iter().map(|(_, value)| value.span.clone()).collect(),
    };
    let mut good = true;
    for (text, span) in at.texts().zip(spans) {
        if seconds(text).is_none() {
            check.error(span, format!("`{}` is not a time in a film", shown(text)), TIME_HINT);
            good = false;
        }
    }
    good
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_players_show_them() {
        for (text, second) in [
            ("0:00", 0),
            ("1:42", 102),
            ("04:10", 250),
            ("75:00", 4500),
            ("1:02:30", 3750),
            ("12:00:00", 43_200),
            // What YAML 1.1 makes of `1:42`.
            ("102", 102),
            ("0", 0),
        ] {
            assert_eq!(seconds(text), Some(second), "{text}");
        }
        for text in
            ["", ":", "1:", ":42", "1:4", "1:60", "1:2:03", "1:60:00", "1:42.5", "-1:42", "1:42 min", "a"]
        {
            assert_eq!(seconds(text), None, "{text}");
        }
        assert_eq!((seconds("24:00:00"), seconds("24:00:01")), (Some(LONGEST_FILM), None));
        assert_eq!((seconds("99999:59:59"), seconds("999999999999")), (None, None));
    }

    #[test]
    fn times_are_shown_as_players_show_them() {
        for (second, shown) in [(0, "0:00"), (102, "1:42"), (250, "4:10"), (3750, "1:02:30")] {
            assert_eq!(clock(second), shown);
            assert_eq!(seconds(shown), Some(second));
        }
    }

    #[test]
    fn the_second_stands_where_the_address_has_a_place_for_it() {
        let film = |address: &str| Film { address: address.into(), times: Vec::new() };
        for (address, there) in [
            ("https://example.org/film#t={seconds}", "https://example.org/film#t=102"),
            ("http://example.org/?a={seconds}&b={seconds}", "http://example.org/?a=102&b=102"),
            ("example.org/film", "https://example.org/film"),
        ] {
            assert_eq!(film(address).address_at(102), there);
        }
    }
}
