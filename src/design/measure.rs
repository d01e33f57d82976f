//! Lengths, weights, shares, colours and dates as a maker writes them.

use super::bounds::Lengths;
use super::model::{Date, EarWire, Paper, Skill, UnitOrder};
use super::shine;
use super::yaml::{Check, Field, Node, scalar};
use crate::colour::Colour;
use crate::diagnostic::{shown, thousands};
use crate::drawn::{Shape, Shine};
use crate::units::{MM_PER_INCH, Mm};
use serde::{Deserialize, Deserializer};

/// Units a length may carry, with their millimetres.
const UNITS: [(&str, f64); 5] =
    [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", MM_PER_INCH), ("ft", 12.0 * MM_PER_INCH)];
/// Largest number that makes sense for a price, a pack or a count a gram.
const LARGEST: f64 = 1_000_000.0;
/// Smallest number above zero that makes sense for a pack or a count a gram: a bead of a kilogram.
const SMALLEST: f64 = 0.001;

/// A length above zero, with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Length(pub Mm);

impl Length {
    fn parse(text: &str) -> Option<Length> {
        let (number, unit) = split(text)?;
        let (_, factor) = UNITS.iter().find(|(name, _)| *name == unit)?;
        let length = number * factor;
        (length > 0.0 && length.is_finite()).then_some(Length(Mm(length)))
    }
}

/// The number that a length begins with, and what follows it.
fn split(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).filter(|&i| i > 0)?;
    Some((text[..end].parse().ok()?, text[end..].trim()))
}

/// The same number in every unit, as it would be written.
fn in_every_unit(text: &str) -> impl Iterator<Item = (Mm, String)> {
    let number = split(text).map(|(number, _)| number);
    UNITS
        .into_iter()
        .filter_map(move |(unit, factor)| number.map(|n| (Mm(n * factor), format!("{n} {unit}"))))
}

/// A length for messages, in millimetres or metres.
fn in_words(length: Mm) -> String {
    if length.0 >= 1000.0 {
        format!("{} m", thousands((length.0 / 1000.0) as usize))
    } else {
        format!("{} mm", length.0)
    }
}

impl Check<'_> {
    /// The length of a key that may be left out; notes one that cannot be meant, and asks about its unit.
    pub fn length(&mut self, field: &Field<Length>, node: &Node, key: &str, of: &Lengths) -> Option<Mm> {
        let length = self.take(field, node, key)?.0;
        self.meant(length, node, key, of)
    }

    /// A length under a key; notes one that cannot be meant, and asks about its unit.
    pub fn meant(&mut self, length: Mm, node: &Node, key: &str, of: &Lengths) -> Option<Mm> {
        let fits = |length: Mm| of.least.0 <= length.0 && length.0 <= of.most.0;
        if fits(length) {
            return Some(length);
        }
        let value = node.get(key);
        let message = format!(
            "`{key}` is {}; {} measures {} to {}",
            shown(value.text().trim()),
            of.of,
            in_words(of.least),
            in_words(of.most)
        );
        let hint = match in_every_unit(value.text()).find(|(meant, _)| fits(*meant)) {
            Some((_, meant)) => format!("is the unit right? perhaps `{meant}` is meant"),
            None => "are number and unit (mm, cm, m, in or ft) right?".to_owned(),
        };
        self.error(value.span.clone(), message, hint);
        None
    }
}

/// A number that is clearly above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Positive(pub f64);

/// A number of zero or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct NotNegative(pub f64);

/// A whole number from 1 to a million.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Whole(pub u32);

/// A share: `10 %` is 0.10.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Share(pub f64);

/// Where the holes of a thread guard are: `4.0 mm apart`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Apart(pub Mm);

/// Yes or no.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct YesNo(pub bool);

/// A colour as `#rrggbb`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hex(pub Colour);

/// Papers: `a4`, `letter` or `both`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Papers(pub Vec<Paper>);

fn number(text: &str) -> Option<f64> {
    text.parse::<f64>().ok().filter(|n| n.is_finite() && n.abs() <= LARGEST)
}

/// The words of a choice, with what each stands for.
fn one_of<T: Copy>(text: &str, choices: &[(&str, T)]) -> Option<T> {
    let text = text.to_lowercase();
    choices.iter().find(|(word, _)| *word == text).map(|(_, choice)| *choice)
}

macro_rules! read_as {
    ($($name:ident, $wanted:literal, |$text:ident| $read:expr;)+) => { $(
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                scalar(deserializer, $wanted, |text| {
                    let $text = text.trim();
                    $read
                })
            }
        }
    )+ };
}

read_as! {
    Length, "a length above zero with its unit (mm, cm, m, in or ft), as in `1.6 mm`", |t| Length::parse(t);
    Positive, "a number from 0.001 to 1,000,000", |t| number(t).filter(|n| *n >= SMALLEST).map(Positive);
    NotNegative, "a number, zero or more (at most 1,000,000)", |t| number(t).filter(|n| *n >= 0.0).map(NotNegative);
    Whole, "a whole number from 1 to 1,000,000",
        |t| t.parse().ok().filter(|n| (1..=1_000_000).contains(n)).map(Whole);
    Share, "a share from 0 % to 100 %, as in `10 %`",
        |t| t.strip_suffix('%')?.trim().parse::<f64>().ok().filter(|n| (0.0..=100.0).contains(n)).map(|n| Share(n / 100.0));
    Apart, "a distance with its unit, as in `4.0 mm apart`",
        |t| Length::parse(t.trim_end_matches("apart")).map(|l| Apart(l.0));
    YesNo, "`true` or `false`",
        |t| one_of(t, &[("true", YesNo(true)), ("false", YesNo(false)), ("yes", YesNo(true)), ("no", YesNo(false))]);
    Hex, "a colour in quotes, `\"#\"` and six digits from 0 to f, as in `\"#1b1c20\"`", |t| Colour::from_hex(t).map(Hex);
    Papers, "`a4`, `letter`, `both`, `a5` or `half letter`",
        |t| one_of(t, &[
            ("a4", &[Paper::A4][..]), ("letter", &[Paper::Letter]), ("both", &[Paper::A4, Paper::Letter]),
            ("a5", &[Paper::A5]), ("half letter", &[Paper::HalfLetter]),
        ])
            .map(|papers| Papers(papers.to_vec()));
    ShapeWord, "`cylinder`, `round`, `drop`, `bugle`, `faceted` or `cube`",
        |t| one_of(t, &[
            ("cylinder", Shape::Cylinder), ("round", Shape::Round), ("drop", Shape::Drop),
            ("bugle", Shape::Bugle), ("faceted", Shape::Faceted), ("cube", Shape::Cube),
        ]).map(ShapeWord);
    ShineWords, "`opaque`, `transparent`, `lined` or `metallic`, and `glossy`, `matte`, `lustre` or `pearl`, as in `transparent matte`",
        |t| shine::named(t).map(ShineWords);
    SkillWord, "`basic`, `easy`, `intermediate` or `complex`",
        |t| one_of(t, &[
            ("basic", Skill::Basic), ("easy", Skill::Easy),
            ("intermediate", Skill::Intermediate), ("complex", Skill::Complex),
        ]).map(SkillWord);
    WireWord, "`hook`, `lever back`, `stud` or `hoop`",
        |t| one_of(t, &[
            ("hook", EarWire::Hook), ("lever back", EarWire::LeverBack),
            ("stud", EarWire::Stud), ("hoop", EarWire::Hoop),
        ]).map(WireWord);
    UnitWord, "`metric` or `imperial`",
        |t| one_of(t, &[("metric", UnitOrder::Metric), ("imperial", UnitOrder::Imperial)]).map(UnitWord);
    Day, "a day of the calendar as year, month and day, as in `2026-03-21`", |t| day(t).map(Day);
}

/// A shape by its word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ShapeWord(pub Shape);

/// What light does to a bead, by its words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ShineWords(pub Shine);

/// A skill level by its word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SkillWord(pub Skill);

/// A kind of ear wire by its word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WireWord(pub EarWire);

/// The units that come first, by their word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct UnitWord(pub UnitOrder);

/// A day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Day(pub Date);

fn day(text: &str) -> Option<Date> {
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let digits = |part: &str, n: usize| part.len() == n && part.bytes().all(|b| b.is_ascii_digit());
    if parts.next().is_some() || !digits(year, 4) || !digits(month, 2) || !digits(day, 2) {
        return None;
    }
    let date = Date { year: year.parse().ok()?, month: month.parse().ok()?, day: day.parse().ok()? };
    let leap = date.year % 4 == 0 && (date.year % 100 != 0 || date.year % 400 == 0);
    let days = match date.month {
        4 | 6 | 9 | 11 => 30,
        2 => 28 + u8::from(leap),
        1..=12 => 31,
        _ => 0,
    };
    (date.year > 0 && (1..=days).contains(&date.day)).then_some(date)
}
