//! Numbers, lengths, weights and prices as a language writes them.

use super::Language;
use crate::design::UnitOrder;
use crate::units::{MM_PER_INCH, Mm};

/// No-break space: keeps a number and its unit on one line.
pub(in crate::booklet) const NBSP: char = '\u{a0}';

/// How numbers and units are written.
#[derive(Clone, Debug)]
pub(in crate::booklet) struct Numbers {
    language: Language,
    units: UnitOrder,
    currency: String,
}

impl Numbers {
    /// As a language writes them, with lengths in the order of `units` and prices in `currency`.
    pub(in crate::booklet) fn new(language: &Language, units: UnitOrder, currency: Option<&str>) -> Numbers {
        Numbers { language: language.clone(), units, currency: currency.unwrap_or_default().to_owned() }
    }

    /// A whole number.
    pub(in crate::booklet) fn whole(&self, n: f64) -> String {
        let digits = format!("{:.0}", n.abs());
        let out = self.grouped(&digits);
        if n < 0.0 && digits != "0" { format!("−{out}") } else { out }
    }

    /// A number with so many decimals.
    pub(in crate::booklet) fn decimals(&self, n: f64, places: usize) -> String {
        let written = format!("{n:.places$}");
        let (sign, digits) = written.strip_prefix('-').map_or(("", written.as_str()), |digits| ("-", digits));
        match digits.split_once('.') {
            Some((whole, part)) => format!("{sign}{}{}{part}", self.grouped(whole), self.language.decimal),
            None => format!("{sign}{}", self.grouped(digits)),
        }
    }

    /// Digits in groups of three. Where a space parts these, four stand together (SI Brochure, 9th edition, 5.4.4).
    fn grouped(&self, digits: &str) -> String {
        let mark = self.language.thousands.as_ref();
        let spaced = mark.trim().is_empty();
        if spaced && digits.len() <= 4 {
            return digits.to_owned();
        }
        let mut out = String::new();
        for (i, c) in digits.chars().enumerate() {
            let left = digits.len() - i;
            if i > 0 && left.is_multiple_of(3) {
                out.push_str(mark);
            }
            out.push(c);
        }
        out
    }

    fn pair(&self, metric: String, imperial: String) -> String {
        match self.units {
            UnitOrder::Metric => format!("{metric} ({imperial})"),
            UnitOrder::Imperial => format!("{imperial} ({metric})"),
        }
    }

    /// A length in both units.
    pub(super) fn length(&self, mm: f64) -> String {
        self.pair(
            format!("{}{NBSP}mm", self.whole(mm)),
            format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 2)),
        )
    }

    /// A short length, in the unit that comes first.
    pub(in crate::booklet) fn short(&self, mm: f64) -> String {
        match self.units {
            UnitOrder::Metric => format!("{}{NBSP}mm", self.whole(mm)),
            UnitOrder::Imperial => format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 2)),
        }
    }

    /// A part of a length of thread, in the unit that comes first.
    pub(in crate::booklet) fn part(&self, mm: f64) -> String {
        match self.units {
            UnitOrder::Metric => format!("{}{NBSP}cm", self.decimals(mm / 10.0, 1)),
            UnitOrder::Imperial => format!("{}{NBSP}in", self.decimals(mm / MM_PER_INCH, 1)),
        }
    }

    /// A length of thread to cut, in both units.
    pub(in crate::booklet) fn cut(&self, mm: f64) -> String {
        let cm = mm / 10.0;
        let metric = self.decimals(cm, usize::from((cm - cm.round()).abs() > 1e-6));
        self.pair(format!("{metric}{NBSP}cm"), feet_and_inches(inches_to_cut(Mm(mm))))
    }

    /// What lengths to cut come to, each of them cut so many times: in both units the sum of what is printed of each.
    pub(in crate::booklet) fn cuts(&self, lengths: &[Mm], times: usize) -> String {
        let cm = lengths.iter().copied().sum::<Mm>().0 * times as f64 / 10.0;
        let metric = self.decimals(cm, usize::from((cm - cm.round()).abs() > 1e-6));
        let inches: f64 = lengths.iter().map(|length| inches_to_cut(*length)).sum();
        self.pair(format!("{metric}{NBSP}cm"), feet_and_inches(inches * times as f64))
    }

    /// A length in millimetres only.
    pub(super) fn millimetres(&self, mm: f64) -> String {
        let places = usize::from((mm - mm.round()).abs() > 0.049);
        format!("{}{NBSP}mm", self.decimals(mm, places))
    }

    /// A weight.
    pub(super) fn grams(&self, grams: f64) -> String {
        format!("{}{NBSP}g", self.decimals(grams, 1))
    }

    /// A price.
    pub(super) fn money(&self, amount: f64) -> String {
        let amount = self.decimals(amount, 2);
        if self.currency.is_empty() { amount } else { format!("{amount}{NBSP}{}", self.currency) }
    }

    /// A maker's text with the measures in it written as the language writes numbers: `2.8 mm` as `2,8 mm`. Other
    /// numbers stay as they are written: they may be names (`1.10`).
    pub(in crate::booklet) fn measures(&self, text: &str) -> String {
        if self.language.decimal == "." {
            return text.to_owned();
        }
        let mut out = String::with_capacity(text.len());
        let mut rest = text;
        while let Some(at) = rest.find('.') {
            let (before, after) = (&rest[..at], &rest[at + 1..]);
            let mark =
                before.ends_with(|c: char| c.is_ascii_digit()) && begins_with_decimals_of_a_measure(after);
            out.push_str(before);
            out.push_str(if mark { &self.language.decimal } else { "." });
            rest = after;
        }
        out + rest
    }

    /// A share.
    pub(super) fn percent(&self, share: f64) -> String {
        format!("{}{}%", self.whole(share * 100.0), self.language.before_percent)
    }

    /// Whether a count takes the singular.
    pub(super) fn is_singular(&self, count: f64) -> bool {
        (count - 1.0).abs() < 1e-9 || (self.language.zero_is_singular && count.abs() < 1e-9)
    }
}

/// Whether digits stand here and a unit of length or weight behind them.
fn begins_with_decimals_of_a_measure(text: &str) -> bool {
    let behind = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let word = behind.trim_start_matches([' ', NBSP]);
    let unit = word.split(|c: char| !c.is_alphabetic()).next().unwrap_or("");
    behind.len() < text.len() && matches!(unit, "mm" | "cm" | "m" | "in" | "ft" | "g" | "kg" | "oz" | "lb")
}

/// Thread in whole inches: rounded up to a quarter foot (3 in), a tail below one foot to the nearest inch.
fn inches_to_cut(length: Mm) -> f64 {
    if length.inches() < 12.0 {
        return length.inches().round();
    }
    // The small allowance keeps a length that is a quarter foot to the hundredth from being rounded up again.
    (length.inches() / 3.0 - 0.01).ceil() * 3.0
}

/// Inches in feet and inches.
fn feet_and_inches(inches: f64) -> String {
    if inches < 11.5 {
        return format!("{inches:.0}{NBSP}in");
    }
    let (feet, rest) = ((inches / 12.0).floor(), inches % 12.0);
    if rest < 0.5 {
        format!("{feet:.0}{NBSP}ft")
    } else {
        format!("{feet:.0}{NBSP}ft{NBSP}{rest:.0}{NBSP}in")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::booklet::Wording;

    #[test]
    fn measures_in_a_makers_text_take_the_mark_of_the_language() {
        let numbers = |name: &str| {
            Numbers::new(&Wording::built_in(name).expect("built in").language, UnitOrder::Metric, None)
        };
        let german = numbers("de");
        assert_eq!(german.measures("Ring 5.5 mm, 0.25\u{a0}g"), "Ring 5,5 mm, 0,25\u{a0}g");
        assert_eq!(german.measures("2.8mm"), "2,8mm");
        // A name, a date, a sentence and a number of parts are no measures.
        for kept in ["Version 1.10", "3.5.2026", "Nr. 5. mm", "1.5 mmol", "11/0", "."] {
            assert_eq!(german.measures(kept), kept);
        }
        assert_eq!(numbers("en").measures("5.5 mm"), "5.5 mm");
    }

    #[test]
    fn lengths_come_in_both_units_in_the_order_asked_for() {
        let language = Wording::built_in("en").expect("built in").language;
        let metric = Numbers::new(&language, UnitOrder::Metric, Some("EUR"));
        let imperial = Numbers { units: UnitOrder::Imperial, ..metric.clone() };
        assert_eq!(metric.length(25.4), "25\u{a0}mm (1.00\u{a0}in)");
        assert_eq!(imperial.length(25.4), "1.00\u{a0}in (25\u{a0}mm)");
        // 1,250 mm are 49.2 in: rounded up to 51 in, a quarter foot.
        assert_eq!(metric.cut(1250.0), "125\u{a0}cm (4\u{a0}ft\u{a0}3\u{a0}in)");
        // Both earrings take what two lengths of one come to.
        assert_eq!(metric.cut(1150.0), "115\u{a0}cm (4\u{a0}ft)");
        assert_eq!(metric.cuts(&[Mm(1150.0)], 2), "230\u{a0}cm (8\u{a0}ft)");
        assert_eq!(metric.cuts(&[Mm(1150.0), Mm(100.0)], 1), "125\u{a0}cm (4\u{a0}ft\u{a0}4\u{a0}in)");
        assert_eq!(metric.cut(100.0), "10\u{a0}cm (4\u{a0}in)");
        assert_eq!(metric.cut(304.8), "30.5\u{a0}cm (1\u{a0}ft)");
        assert_eq!(metric.whole(1456.0), "1,456");
        assert_eq!(metric.whole(999.6), "1,000");
        assert_eq!(metric.cut(10_740.0), "1,074\u{a0}cm (35\u{a0}ft\u{a0}3\u{a0}in)");
        // Spaces part five digits and more.
        let spanish = Wording::built_in("es").expect("built in").language;
        let spanish = Numbers::new(&spanish, UnitOrder::Metric, None);
        assert_eq!(spanish.whole(1074.0), "1074");
        assert_eq!(spanish.decimals(12_345.5, 1), format!("12{}345,5", spanish.language.thousands));
    }
}
