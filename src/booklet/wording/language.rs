//! How a language writes numbers and dates, and the order of the sections.

use super::origin::Origin;
use super::own::Notes;
use super::{SectionName, Wording};
use crate::design::{Kind, Node, Style, names_a_file};
use crate::diagnostic::{Place, Problem, did_you_mean, number_of, shown};
use std::borrow::Cow;

/// How a language writes numbers and the like.
#[derive(Clone, Debug, PartialEq)]
pub struct Language {
    /// BCP 47 tag: `en-GB`.
    pub tag: Cow<'static, str>,
    /// Its own name for itself.
    pub name: Cow<'static, str>,
    /// Another language of `templates/` that this one only differs from.
    pub base: Option<Cow<'static, str>>,
    /// Decimal mark.
    pub decimal: Cow<'static, str>,
    /// Between groups of three digits.
    pub thousands: Cow<'static, str>,
    /// Whether 0 takes the singular, as in French.
    pub zero_is_singular: bool,
    /// Between a number and the per cent sign; may be empty.
    pub before_percent: Cow<'static, str>,
    /// How a date is written, with `{{ day }}`, `{{ month }}`, `{{ year }}`.
    pub date: Cow<'static, str>,
    /// Names of the twelve months.
    pub months: Cow<'static, [Cow<'static, str>]>,
    /// The sections in their order.
    pub order: Cow<'static, [SectionName]>,
}

/// The values that a date is written from.
pub(super) const DATE: [&str; 3] = ["day", "month", "year"];

/// Longest name of a month, in characters (the longest built-in one has 10).
const LONGEST_MONTH: usize = 50;

/// The keys of a `language.yaml`.
const KEYS: [&str; 10] = [
    "tag",
    "name",
    "base",
    "decimal",
    "thousands",
    "zero_is_singular",
    "before_percent",
    "date",
    "months",
    "order",
];

/// A value with its place in the maker's file.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Given<T> {
    pub(super) value: T,
    pub(super) place: Place,
}

/// A section in the order of a maker's own `language.yaml`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OrderEntry {
    /// As it is written.
    pub(super) name: Given<String>,
    /// The built-in section; `None` for a file with one of the maker's own.
    pub(super) section: Option<SectionName>,
}

/// What a maker's own `language.yaml` says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OwnLanguage {
    pub(super) tag: Option<Given<String>>,
    name: Option<Given<String>>,
    pub(super) base: Option<Given<String>>,
    decimal: Option<Given<String>>,
    thousands: Option<Given<String>>,
    zero_is_singular: Option<bool>,
    before_percent: Option<Given<String>>,
    date: Option<Given<String>>,
    pub(super) date_origin: Option<Origin>,
    months: Option<Vec<String>>,
    pub(super) order: Option<Given<Vec<OrderEntry>>>,
}

impl OwnLanguage {
    /// Nothing of the maker's own.
    pub(super) const NOTHING: OwnLanguage = OwnLanguage {
        tag: None,
        name: None,
        base: None,
        decimal: None,
        thousands: None,
        zero_is_singular: None,
        before_percent: None,
        date: None,
        date_origin: None,
        months: None,
        order: None,
    };

    /// What the tree of a `language.yaml` says; what is wrong is noted.
    pub(super) fn read(root: &Node, notes: &mut Notes) -> OwnLanguage {
        let mut own = OwnLanguage::NOTHING;
        for (key, value) in root.entries() {
            match key.text() {
                "tag" => own.tag = notes.text(key, value).filter(|tag| notes.tag(tag)),
                "name" => own.name = notes.text(key, value),
                "base" => own.base = notes.text(key, value).filter(|base| notes.base(base)),
                "decimal" => own.decimal = notes.mark(key, value, false),
                "thousands" => own.thousands = notes.mark(key, value, true),
                "before_percent" => own.before_percent = notes.mark(key, value, true),
                "zero_is_singular" => own.zero_is_singular = notes.yes_or_no(value),
                "date" => {
                    let origin = Origin::of(&notes.source, value);
                    own.date =
                        notes.text(key, value).filter(|text| notes.code("date", &text.value, &DATE, &origin));
                    own.date_origin = Some(origin);
                }
                "months" => own.months = notes.months(value),
                "order" => own.order = notes.order(value),
                other => notes.error(
                    key,
                    format!("`{}` is not a key that can stand here", shown(other)),
                    did_you_mean(other, &KEYS, "the keys here are"),
                ),
            }
        }
        own
    }

    /// Changes a built-in language to what the maker says.
    ///
    /// # Errors
    /// When a number could then be read in two ways.
    pub(super) fn change(&self, language: &mut Language) -> Result<(), Problem> {
        for (to, given) in [
            (&mut language.tag, &self.tag),
            (&mut language.name, &self.name),
            (&mut language.decimal, &self.decimal),
            (&mut language.thousands, &self.thousands),
            (&mut language.before_percent, &self.before_percent),
            (&mut language.date, &self.date),
        ] {
            if let Some(given) = given {
                *to = Cow::Owned(given.value.clone());
            }
        }
        if let Some(singular) = self.zero_is_singular {
            language.zero_is_singular = singular;
        }
        if let Some(months) = &self.months {
            language.months = months.iter().cloned().map(Cow::Owned).collect();
        }
        if let Some(order) = &self.order {
            language.order = order.value.iter().filter_map(|entry| entry.section).collect();
        }
        match [&self.decimal, &self.thousands].into_iter().flatten().next() {
            Some(given) if language.decimal == language.thousands => Err(Problem::error(format!(
                "decimals and thousands would both be marked with `{}`",
                language.decimal
            ))
            .at(given.place.clone())
            .hint("give both, as in `decimal: \",\"` and `thousands: \".\"`")),
            _ => Ok(()),
        }
    }
}

impl Notes {
    /// A language's tag is what PDF readers choose the voice by.
    fn tag(&mut self, given: &Given<String>) -> bool {
        let mut parts = given.value.split('-');
        // A language's code has 2 or 3 letters (ISO 639), each part more 1 to 8 letters and digits (BCP 47, 2.1).
        let first = parts
            .next()
            .is_some_and(|p| (2..=3).contains(&p.len()) && p.bytes().all(|b| b.is_ascii_alphabetic()));
        let good = first
            && parts.all(|p| (1..=8).contains(&p.len()) && p.bytes().all(|b| b.is_ascii_alphanumeric()));
        if !good {
            self.error_at(
                given.place.clone(),
                "this is not the tag of a language",
                "write the language and the country, as in `tag: en-GB` (BCP 47)",
            );
        }
        good
    }

    fn base(&mut self, given: &Given<String>) -> bool {
        let languages = Wording::languages();
        let known = languages.contains(&given.value.as_str());
        if !known {
            self.error_at(
                given.place.clone(),
                format!("`{}` is not a built-in language", shown(&given.value)),
                did_you_mean(&given.value, &languages, "there are"),
            );
        }
        known
    }

    /// A mark between digits.
    fn mark(&mut self, key: &Node, value: &Node, may_be_empty: bool) -> Option<Given<String>> {
        /// A space and a sign.
        const LONGEST_MARK: usize = 2;
        let text = if may_be_empty && value.style() == Style::Quoted && value.text().is_empty() {
            Given { value: String::new(), place: Place::new(&self.source, value.span.clone()) }
        } else {
            self.text_as_it_stands(key, value)?
        };
        let bad = |c: char| c.is_alphanumeric() || c.is_control() || c == '-' || c == '−';
        if text.value.contains(bad) || text.value.chars().count() > LONGEST_MARK {
            self.error_at(
                text.place,
                format!("`{}` must be a mark, not letters or digits", key.text()),
                "as in `decimal: \",\"`",
            );
            return None;
        }
        Some(text)
    }

    fn yes_or_no(&mut self, value: &Node) -> Option<bool> {
        match value.text() {
            "true" | "yes" => Some(true),
            "false" | "no" => Some(false),
            _ => {
                self.error(
                    value,
                    "`zero_is_singular` must be `yes` or `no`",
                    "it is `yes` where one says 0 bead, as in French",
                );
                None
            }
        }
    }

    /// The texts of a list; noted when it is none, or one of them is none.
    fn list(&mut self, key: &str, value: &Node, example: &str) -> Option<Vec<Given<String>>> {
        if !matches!(value.kind, Kind::List(_)) {
            self.error(value, format!("`{key}` must be a list"), example);
            return None;
        }
        let mut texts: Vec<Given<String>> = Vec::new();
        let mut good = true;
        for item in value.items() {
            let text = item.text().trim();
            let place = Place::new(&self.source, item.span.clone());
            if text.is_empty() {
                self.error_at(place, format!("nothing that can stand in `{key}` stands here"), example);
                good = false;
            } else if texts.iter().any(|t| t.value == text) {
                self.error_at(
                    place,
                    format!("`{}` stands in `{key}` twice", shown(text)),
                    "keep one of the two",
                );
                good = false;
            } else {
                texts.push(Given { value: text.to_owned(), place });
            }
        }
        good.then_some(texts)
    }

    fn months(&mut self, value: &Node) -> Option<Vec<String>> {
        const HINT: &str =
            "name all twelve, from January to December, or remove the key to keep the built-in ones";
        let months = self.list("months", value, HINT)?;
        if let Some(long) = months.iter().find(|month| month.value.chars().count() > LONGEST_MONTH) {
            let message = format!("the name of this month is longer than {LONGEST_MONTH} characters");
            self.error_at(
                long.place.clone(),
                message,
                "shorten it: it stands in a line at the foot of a page",
            );
            return None;
        }
        if months.len() != 12 {
            self.error(value, format!("`months` names {}, not 12", number_of(months.len(), "month")), HINT);
            return None;
        }
        Some(months.into_iter().map(|m| m.value).collect())
    }

    fn order(&mut self, value: &Node) -> Option<Given<Vec<OrderEntry>>> {
        const HINT: &str = "name the sections in their order, as in `order: [cover, materials, chart]`";
        let names = self.list("order", value, HINT)?;
        if names.is_empty() {
            self.error(value, "`order` names no section, so the booklet would have no page", HINT);
            return None;
        }
        let known: Vec<&str> = SectionName::names().collect();
        let mut sections = Vec::new();
        for name in &names {
            match SectionName::named(&name.value) {
                Some(section) => sections.push(OrderEntry { name: name.clone(), section: Some(section) }),
                None if names_a_file(&name.value) => {
                    sections.push(OrderEntry { name: name.clone(), section: None });
                }
                None => self.error_at(
                    name.place.clone(),
                    format!("`{}` is no section of a booklet", shown(&name.value)),
                    did_you_mean(&name.value, &known, "the sections are"),
                ),
            }
        }
        let place = Place::new(&self.source, value.span.clone());
        (sections.len() == names.len()).then_some(Given { value: sections, place })
    }
}
