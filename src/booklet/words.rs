//! Saying things: fills the templates' texts with numbers, in the language's way of writing them.

use crate::booklet::{Language, Word, Wording};
use crate::design::{Date, UnitOrder};
use crate::diagnostic::{Problem, Severity, ranges};
use crate::units::{MM_PER_INCH, Mm};
use minijinja::{Environment, UndefinedBehavior, Value};
use std::cell::RefCell;
use std::collections::BTreeSet;

/// No-break space: keeps a number and its unit on one line.
pub(super) const NBSP: char = '\u{a0}';

/// The texts of one language, ready to be filled in.
pub(super) struct Words<'a> {
    wording: &'a Wording,
    /// Holds each template from the first time that it is said.
    environment: RefCell<Environment<'a>>,
    numbers: Numbers,
    problems: RefCell<Vec<Problem>>,
}

impl<'a> Words<'a> {
    /// Texts of a wording, with lengths in the order of `units` and prices in `currency`.
    pub(super) fn new(wording: &'a Wording, units: UnitOrder, currency: Option<&str>) -> Words<'a> {
        let mut environment = Environment::new();
        environment.set_undefined_behavior(UndefinedBehavior::Strict);
        let numbers = Numbers {
            language: wording.language.clone(),
            units,
            currency: currency.unwrap_or_default().to_owned(),
        };
        add_filters(&mut environment, &numbers);
        Words { wording, environment: RefCell::new(environment), numbers, problems: RefCell::default() }
    }

    /// A text that has nothing to fill in.
    pub(super) fn fixed(&self, word: Word) -> String {
        self.say(word, Value::from(()))
    }

    /// A text, filled in. A template that cannot be filled is a problem, kept for [`Words::problems`].
    pub(super) fn say(&self, word: Word, values: Value) -> String {
        let template = self.wording.text(word);
        if !template.contains(['{', '%']) {
            return template.to_owned();
        }
        match self.fill(word, template, values) {
            Ok(text) => text,
            Err(e) => {
                self.problems.borrow_mut().push(Problem {
                    severity: Severity::Error,
                    place: None,
                    message: format!("the text {} of the templates cannot be filled in: {e}", word.name()),
                    hint: "Compare it with the same text of a built-in language".into(),
                });
                String::new()
            }
        }
    }

    /// Steps say the same texts over and over: a template is taken apart once a booklet.
    fn fill(&self, word: Word, template: &'a str, values: Value) -> Result<String, minijinja::Error> {
        let known = self.environment.borrow().get_template(word.name()).is_ok();
        if !known {
            self.environment.borrow_mut().add_template(word.name(), template)?;
        }
        self.environment.borrow().get_template(word.name())?.render(values)
    }

    /// A text as it stands, for layout to fill in.
    pub(super) fn raw(&self, word: Word) -> String {
        self.wording.text(word).to_owned()
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

    /// A part of a length of thread, in the unit that comes first.
    pub(super) fn part(&self, length: Mm) -> String {
        self.numbers.part(length.0)
    }

    /// A short length, in the unit that comes first.
    pub(super) fn short(&self, length: Mm) -> String {
        self.numbers.short(length.0)
    }

    /// A date in words.
    pub(super) fn date(&self, date: Date) -> String {
        let language = &self.wording.language;
        let month = language.months.get(usize::from(date.month) - 1).map_or("", String::as_str);
        language
            .date
            .replace("{day}", &date.day.to_string())
            .replace("{month}", month)
            .replace("{year}", &date.year.to_string())
            .replace(' ', "\u{a0}")
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

/// Bead letters apart: `A B D C`.
pub(super) fn spaced(symbols: impl Iterator<Item = char>) -> String {
    symbols.map(String::from).collect::<Vec<_>>().join(&NBSP.to_string())
}

/// Numbers with neighbours drawn together: `1–3, 5`.
pub(super) fn number_ranges(numbers: &BTreeSet<usize>) -> String {
    ranges(numbers).join(", ")
}

/// How numbers and units are written.
#[derive(Clone)]
struct Numbers {
    language: Language,
    units: UnitOrder,
    currency: String,
}

impl Numbers {
    fn whole(&self, n: f64) -> String {
        let digits = format!("{:.0}", n.abs());
        let mut out = String::new();
        for (i, c) in digits.chars().enumerate() {
            let left = digits.len() - i;
            if i > 0 && left.is_multiple_of(3) {
                out.push_str(&self.language.thousands);
            }
            out.push(c);
        }
        if n < 0.0 && digits != "0" { format!("−{out}") } else { out }
    }

    fn decimals(&self, n: f64, places: usize) -> String {
        format!("{n:.places$}").replace('.', &self.language.decimal)
    }

    fn pair(&self, metric: String, imperial: String) -> String {
        match self.units {
            UnitOrder::Metric => format!("{metric} ({imperial})"),
            UnitOrder::Imperial => format!("{imperial} ({metric})"),
        }
    }

    fn length(&self, mm: f64) -> String {
        self.pair(
            format!("{}{NBSP}mm", self.whole(mm)),
            format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 2)),
        )
    }

    fn short(&self, mm: f64) -> String {
        match self.units {
            UnitOrder::Metric => format!("{}{NBSP}mm", self.whole(mm)),
            UnitOrder::Imperial => format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 2)),
        }
    }

    fn part(&self, mm: f64) -> String {
        match self.units {
            UnitOrder::Metric => format!("{}{NBSP}cm", self.decimals(mm / 10.0, 1)),
            UnitOrder::Imperial => format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 1)),
        }
    }

    fn cut(&self, mm: f64) -> String {
        let cm = mm / 10.0;
        let metric = self.decimals(cm, usize::from((cm - cm.round()).abs() > 1e-6));
        self.pair(format!("{metric}{NBSP}cm"), feet_and_inches(Mm(mm)))
    }
}

/// Thread in feet and inches: rounded up to a quarter foot (3 in), a tail below one foot to the nearest inch.
fn feet_and_inches(length: Mm) -> String {
    if length.inches() < 12.0 {
        return format!("{:.0}{NBSP}in", length.inches());
    }
    // The small allowance keeps a length that is a quarter foot to the hundredth from being rounded up again.
    let quarters = (length.inches() / 3.0 - 0.01).ceil();
    let inches = quarters * 3.0;
    let (feet, rest) = ((inches / 12.0).floor(), inches % 12.0);
    if rest < 0.5 {
        format!("{feet:.0}{NBSP}ft")
    } else {
        format!("{feet:.0}{NBSP}ft{NBSP}{rest:.0}{NBSP}in")
    }
}

fn add_filters(environment: &mut Environment<'_>, numbers: &Numbers) {
    let n = numbers.clone();
    environment.add_filter("num", move |x: f64| n.whole(x));
    let n = numbers.clone();
    environment.add_filter("dec", move |x: f64, places: usize| n.decimals(x, places));
    let n = numbers.clone();
    environment.add_filter("mm", move |x: f64| {
        let places = usize::from((x - x.round()).abs() > 0.049);
        format!("{}{NBSP}mm", n.decimals(x, places))
    });
    let n = numbers.clone();
    environment.add_filter("length", move |x: f64| n.length(x));
    let n = numbers.clone();
    environment.add_filter("short", move |x: f64| n.short(x));
    let n = numbers.clone();
    environment.add_filter("part", move |x: f64| n.part(x));
    let n = numbers.clone();
    environment.add_filter("cut", move |x: f64| n.cut(x));
    let n = numbers.clone();
    environment.add_filter("grams", move |x: f64| format!("{}{NBSP}g", n.decimals(x, 1)));
    let n = numbers.clone();
    environment.add_filter("money", move |x: f64| {
        let amount = n.decimals(x, 2);
        if n.currency.is_empty() { amount } else { format!("{amount}{NBSP}{}", n.currency) }
    });
    let n = numbers.clone();
    environment
        .add_filter("percent", move |x: f64| format!("{}{}%", n.whole(x * 100.0), n.language.before_percent));
    let zero_is_singular = numbers.language.zero_is_singular;
    environment.add_filter("plural", move |x: f64, one: String, many: String| {
        let singular = (x - 1.0).abs() < 1e-9 || (zero_is_singular && x.abs() < 1e-9);
        if singular { one } else { many }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use minijinja::context;

    fn english() -> Wording {
        Wording::built_in("en").expect("built in")
    }

    #[test]
    fn lengths_come_in_both_units_in_the_order_asked_for() {
        let wording = english();
        let metric =
            Numbers { language: wording.language.clone(), units: UnitOrder::Metric, currency: "EUR".into() };
        let imperial = Numbers { units: UnitOrder::Imperial, ..metric.clone() };
        assert_eq!(metric.length(25.4), "25\u{a0}mm (1.00\u{a0}in)");
        assert_eq!(imperial.length(25.4), "1.00\u{a0}in (25\u{a0}mm)");
        // 1,250 mm are 49.2 in: rounded up to 51 in, a quarter foot.
        assert_eq!(metric.cut(1250.0), "125\u{a0}cm (4\u{a0}ft\u{a0}3\u{a0}in)");
        assert_eq!(metric.cut(100.0), "10\u{a0}cm (4\u{a0}in)");
        assert_eq!(metric.cut(304.8), "30.5\u{a0}cm (1\u{a0}ft)");
        assert_eq!(metric.whole(1456.0), "1,456");
        assert_eq!(metric.whole(999.6), "1,000");
    }

    #[test]
    fn number_ranges_draw_runs_together() {
        assert_eq!(number_ranges(&[3, 1, 2, 5, 7, 8].into()), "1–3, 5, 7–8");
    }

    #[test]
    fn a_template_that_cannot_be_filled_is_a_problem_not_a_blank() {
        let wording = english();
        let words = Words::new(&wording, UnitOrder::Metric, None);
        assert_eq!(words.say(Word::CoverWeightText, context! { weigth => 2.0 }), "");
        let problems = words.problems();
        assert_eq!(problems.len(), 1);
        assert!(problems[0].message.contains("cover.weight_text"), "{}", problems[0].message);
    }
}
