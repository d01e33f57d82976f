//! Filling in: a text's values put in by minijinja, within bounds of work and size.

use super::language::DATE;
use super::told::values_told;
use super::{Numbers, Origin, Word, Wording};
use crate::booklet::markup::{self, says_nothing};
use crate::diagnostic::{Problem, thousands};
use minijinja::{Environment, Error, ErrorKind, UndefinedBehavior, Value};
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::ops::Range;

/// What filling in one text may cost: an instruction costs one, 64 bytes of any text made cost one. The
/// dearest text of the demo booklets costs between 80 and 150.
const FUEL: u64 = 5_000;
/// Longest text once filled in, in bytes (the pick-ups of a row of 400 stacks take 9,000).
const LONGEST_SAID: usize = 30_000;
/// Longest date in words, in bytes: a month of 50 characters in any script with its day and year.
const LONGEST_DATE: usize = 300;
/// Longest text of a page's head or foot, in bytes: four lines, and one of them holds the date.
const LONGEST_OF_PAGE: usize = 400;
/// Texts up to this many bytes are taken as they are (the longest built-in one takes 700).
const USUAL: usize = 1_000;
/// How many bytes a maker's longer texts may make a booklet longer than the built-in ones would: 300 pages. Each
/// may be said for every row.
const MOST_LONGER: usize = 1_000_000;
/// Largest number that filters take; nothing in a booklet comes near.
const LARGEST: f64 = 1e9;
/// Most decimals that a number is given.
const MOST_DECIMALS: usize = 6;

/// Fills in the texts of one wording.
pub(in crate::booklet) struct Filler<'a> {
    wording: &'a Wording,
    /// Holds each template from the first time that it is said: steps say the same texts over and over.
    environment: RefCell<Environment<'a>>,
    /// The longest of the maker's own texts so far: it is why one that it stands in grows too long.
    longest: RefCell<Option<(usize, Template<'a>)>>,
    /// How many bytes longer the maker's texts have made the booklet, and the text that made it too long.
    longer: Cell<usize>,
    too_long_by: RefCell<Option<Problem>>,
}

/// A text to fill in.
#[derive(Clone, Copy)]
struct Template<'a> {
    name: &'static str,
    text: &'a str,
    /// Where it stands, when it is the maker's own.
    origin: Option<&'a Origin>,
}

impl<'a> Filler<'a> {
    /// For a wording, with numbers written so.
    pub(in crate::booklet) fn new(wording: &'a Wording, numbers: &Numbers) -> Filler<'a> {
        // Without the filters and functions that minijinja brings along: what a text may use is in `FILTERS`.
        let mut environment = Environment::empty();
        environment.set_undefined_behavior(UndefinedBehavior::Strict);
        environment.set_fuel(Some(FUEL));
        environment.set_debug(false);
        add_filters(&mut environment, numbers);
        Filler {
            wording,
            environment: RefCell::new(environment),
            longest: RefCell::default(),
            longer: Cell::default(),
            too_long_by: RefCell::default(),
        }
    }

    /// A text, filled in.
    ///
    /// # Errors
    /// When it cannot be filled in, located in the maker's file when it is his own.
    pub(in crate::booklet) fn fill(&self, word: Word, values: Value) -> Result<String, Problem> {
        let template = self.template(word);
        let has_code = template.text.contains(['{', '%']);
        let text = match template.origin {
            None if !has_code => return Ok(template.text.to_owned()),
            None => return self.filled(template, values),
            Some(_) if !has_code => {
                self.fits(template, template.text)?;
                template.text.to_owned()
            }
            Some(_) => self.filled(template, values.clone())?,
        };
        self.judge(template, &text, || self.built_in(word, values.clone()))?;
        Ok(text)
    }

    /// What the built-in text of a word comes to.
    fn built_in(&self, word: Word, values: Value) -> Result<String, Problem> {
        let text = self.wording.texts[word as usize];
        let template = Template { name: word.name(), text, origin: None };
        self.environment.borrow().render_str(text, values).map_err(|error| told(template, &error))
    }

    /// Whether a text of the maker's own can stand for the built-in one.
    fn judge(
        &self,
        template: Template<'a>,
        text: &str,
        built_in: impl Fn() -> Result<String, Problem>,
    ) -> Result<(), Problem> {
        if markup::has_silent_link(text) {
            let message = format!("a link in `{}` has no words", template.name);
            let hint = "write what is pressed in the brackets, as in `[the chart](#chart)`";
            return Err(located(template, &(0..0), message, hint));
        }
        // What needs no words of ours needs none of the maker's own.
        if says_nothing(text) && !says_nothing(&built_in()?) {
            return Err(comes_to_nothing(template));
        }
        if self.longest.borrow().is_none_or(|(length, _)| length < text.len()) {
            self.longest.replace(Some((text.len(), template)));
        }
        if text.len() > USUAL {
            let longer = text.len().saturating_sub(built_in()?.len());
            self.longer.set(self.longer.get() + longer);
        }
        if self.longer.get() <= MOST_LONGER {
            return Ok(());
        }
        let mut too_long_by = self.too_long_by.borrow_mut();
        let problem = too_long_by.get_or_insert_with(|| {
            let most = thousands(MOST_LONGER);
            let message = format!("these texts make the booklet more than {most} bytes longer");
            let hint = "shorten this one and others like it: some are said for every row";
            located(template, &(0..0), message, hint)
        });
        Err(problem.clone())
    }

    /// A date in words.
    ///
    /// # Errors
    /// As [`Filler::fill`].
    pub(in crate::booklet) fn date(&self, values: Value) -> Result<String, Problem> {
        let (text, origin) = (&*self.wording.language.date, self.wording.date.as_ref());
        let template = Template { name: "date", text, origin };
        let date = self.filled(template, values)?;
        if says_nothing(&date) { Err(comes_to_nothing(template)) } else { Ok(date) }
    }

    /// The stretches of a text, filled in: those between its late values, and each late value by its index.
    ///
    /// # Errors
    /// As [`Filler::fill`].
    pub(in crate::booklet) fn around_late_values(&self, word: Word) -> Result<Vec<Stretch>, Problem> {
        let template = self.template(word);
        let late = word.late();
        // Each prints its own name for now; only where a span says so is it taken for the value.
        let values = Value::from(late.iter().map(|name| (*name, *name)).collect::<BTreeMap<_, _>>());
        let (text, spans) = self.with_template(template, |t| t.render_with_spans(values))?;
        self.fits(template, &text)?;
        if says_nothing(&text) {
            return Err(comes_to_nothing(template));
        }
        let stretches = spans.iter().map(|span| {
            let code = &template.text[span.source_range()];
            match late.iter().position(|name| *name == code) {
                Some(i) if span.kind() == minijinja::OutputSpanKind::Expression => Stretch::Late(i),
                _ => Stretch::Words(text[span.output_range()].to_owned()),
            }
        });
        Ok(stretches.collect())
    }

    fn template(&self, word: Word) -> Template<'a> {
        let origin = self.wording.own.get(&word).map(|own| &own.origin);
        Template { name: word.name(), text: self.wording.text(word), origin }
    }

    fn filled(&self, template: Template<'a>, values: Value) -> Result<String, Problem> {
        let text = self.with_template(template, |t| t.render(values))?;
        self.fits(template, &text)?;
        Ok(text)
    }

    /// That a text is not too long.
    fn fits(&self, template: Template<'a>, text: &str) -> Result<(), Problem> {
        let most = match template.name {
            "date" => LONGEST_DATE,
            name if name.starts_with("page.") => LONGEST_OF_PAGE,
            _ => LONGEST_SAID,
        };
        if text.len() <= most {
            return Ok(());
        }
        let most = thousands(most);
        let message = format!("`{}` grows longer than {most} bytes when it is filled in", template.name);
        let hint = "nothing there is that long; take out what repeats or lengthens it";
        // A text that is built in grows by one of the maker's own that stands in it.
        let longest = self.longest.borrow().map(|(_, longest)| longest);
        let why = if template.origin.is_some() { template } else { longest.unwrap_or(template) };
        Err(located(why, &(0..0), message, hint))
    }

    fn with_template<T>(
        &self,
        template: Template<'a>,
        render: impl FnOnce(&minijinja::Template<'_, '_>) -> Result<T, Error>,
    ) -> Result<T, Problem> {
        let told = |error: Error| told(template, &error);
        if self.environment.borrow().get_template(template.name).is_err() {
            self.environment.borrow_mut().add_template(template.name, template.text).map_err(told)?;
        }
        let environment = self.environment.borrow();
        let ready = environment.get_template(template.name).map_err(told)?;
        render(&ready).map_err(told)
    }
}

/// A stretch of a text with values that are known only when the pages are set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::booklet) enum Stretch {
    /// Words that are known now.
    Words(String),
    /// One of the late values, by its index.
    Late(usize),
}

fn comes_to_nothing(template: Template<'_>) -> Problem {
    let message = format!("`{}` comes to nothing when it is filled in", template.name);
    let hint = "let it say something whatever its values are: it may be read aloud, or stand alone on a page";
    located(template, &(0..0), message, hint)
}

/// What minijinja says of a text, told to its maker.
fn told(template: Template<'_>, error: &Error) -> Problem {
    let name = template.name;
    let values = Word::named(name).map_or(&DATE[..], Word::values);
    let (message, hint) = match error.kind() {
        ErrorKind::OutOfFuel => (
            format!("`{name}` takes too much work to fill in"),
            "take out what repeats or lengthens it; the built-in texts cost less than a tenth of the most"
                .to_owned(),
        ),
        ErrorKind::UndefinedError => {
            (format!("`{name}` asks for something that is not there"), values_told(values))
        }
        _ => (
            format!(
                "`{name}` cannot be filled in: {}",
                error.detail().map_or_else(|| error.kind().to_string(), str::to_owned)
            ),
            "compare it with the same text of a built-in language".to_owned(),
        ),
    };
    located(template, &error.range().unwrap_or(0..0), message, &hint)
}

fn located(template: Template<'_>, part: &Range<usize>, message: String, hint: &str) -> Problem {
    let problem = Problem::error(message).hint(hint);
    match template.origin {
        Some(origin) if part.is_empty() => problem.at(origin.whole()),
        Some(origin) => problem.at(origin.part(template.text, part)),
        None => problem,
    }
}

fn add_filters(environment: &mut Environment<'_>, numbers: &Numbers) {
    let mut add = |name: &'static str, write: fn(&Numbers, f64) -> String| {
        let numbers = numbers.clone();
        environment.add_filter(name, move |x: f64| in_bounds(x).map(|x| write(&numbers, x)));
    };
    add("num", Numbers::whole);
    add("mm", Numbers::millimetres);
    add("length", Numbers::length);
    add("short", Numbers::short);
    add("part", Numbers::part);
    add("cut", Numbers::cut);
    add("grams", Numbers::grams);
    add("money", Numbers::money);
    add("percent", Numbers::percent);
    let n = numbers.clone();
    environment.add_filter("dec", move |x: f64, places: i64| match usize::try_from(places) {
        Ok(places) if places <= MOST_DECIMALS => in_bounds(x).map(|x| n.decimals(x, places)),
        _ => Err(wrong(format!("`dec` gives a number 0 to {MOST_DECIMALS} decimals"))),
    });
    let n = numbers.clone();
    environment.add_filter("plural", move |x: f64, one: String, many: String| {
        in_bounds(x).map(|x| if n.is_singular(x) { one } else { many })
    });
}

/// A number that can be written.
fn in_bounds(x: f64) -> Result<f64, Error> {
    if x.abs() <= LARGEST { Ok(x) } else { Err(wrong("this number is too large to be written".to_owned())) }
}

fn wrong(message: String) -> Error {
    Error::new(ErrorKind::InvalidOperation, message)
}
