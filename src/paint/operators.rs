//! From this program's types to printpdf's: numbers, colours, operators. Nothing else converts.

use crate::colour::Colour;
use crate::units::{Mm, Pt};
use printpdf::{Color, DictItem, ExternalStream, ExternalXObject, Op, Rgb, XObject};
use std::collections::BTreeMap;

/// A number as it stands in the file: two decimals of a point are 3.5 µm, finer than any printer.
pub(super) fn round(value: f64) -> f32 {
    // Adding zero turns −0 into 0, which would be written as `-0`.
    ((value * 100.0).round() / 100.0 + 0.0) as f32
}

/// Millimetres as points, unrounded.
pub(super) fn points(length: Mm) -> f64 {
    length.pt().0
}

/// A length in printpdf's points, rounded.
pub(super) fn pt(length: Pt) -> printpdf::Pt {
    printpdf::Pt(round(length.0))
}

/// A colour in printpdf's terms. Three decimals are enough to find each of the 256 steps again.
pub(super) fn rgb(colour: Colour) -> Color {
    let channel = |c: u8| (f64::from(c) / 255.0 * 1000.0).round() as f32 / 1000.0;
    Color::Rgb(Rgb { r: channel(colour.r), g: channel(colour.g), b: channel(colour.b), icc_profile: None })
}

/// An operator that printpdf has no name of its own for, with rounded numbers.
pub(super) fn plain(key: &str, numbers: &[f64]) -> Op {
    Op::Unknown { key: key.to_owned(), value: numbers.iter().map(|n| DictItem::Real(round(*n))).collect() }
}

/// A name.
pub(super) fn name_of(name: &str) -> DictItem {
    DictItem::Name(name.as_bytes().to_vec())
}

/// A dictionary.
pub(super) fn dict<const N: usize>(entries: [(&str, DictItem); N]) -> DictItem {
    DictItem::Dict { map: map(entries) }
}

/// A dictionary's entries.
pub(super) fn map<const N: usize>(entries: [(&str, DictItem); N]) -> BTreeMap<String, DictItem> {
    entries.into_iter().map(|(k, v)| (k.to_owned(), v)).collect()
}

/// An array of rounded numbers.
pub(super) fn numbers(values: &[f64]) -> DictItem {
    DictItem::Array(values.iter().map(|v| DictItem::Real(round(*v))).collect())
}

/// A form or picture with its own dictionary and bytes. Streams are deflated on saving.
pub(super) fn external(dict: BTreeMap<String, DictItem>, content: Vec<u8>) -> XObject {
    let stream = ExternalStream { dict, content, compress: false };
    XObject::External(ExternalXObject { stream, width: None, height: None, dpi: None })
}

/// Text of a content stream written by hand: operators separated by spaces, numbers rounded.
#[derive(Default)]
pub(super) struct Script(String);

impl Script {
    /// Adds an operator with its numbers.
    pub(super) fn op(&mut self, key: &str, numbers: &[f64]) -> &mut Script {
        for n in numbers {
            self.number(*n, 2);
        }
        self.word(key)
    }
    /// Adds a number with so many decimals at most, and a space.
    pub(super) fn number(&mut self, value: f64, decimals: u32) -> &mut Script {
        let unit = 10u64.pow(decimals);
        let whole = (value * unit as f64).round() as i64;
        if whole < 0 {
            self.0.push('-');
        }
        let (before, mut after) = (whole.unsigned_abs() / unit, whole.unsigned_abs() % unit);
        self.digits(before, 1);
        if after > 0 {
            let mut places = decimals;
            while after % 10 == 0 {
                after /= 10;
                places -= 1;
            }
            self.0.push('.');
            self.digits(after, places);
        }
        self.0.push(' ');
        self
    }
    /// Adds a whole number, with noughts before it up to a number of digits.
    fn digits(&mut self, value: u64, least: u32) {
        let mut unit = 10u64.pow(least.saturating_sub(1));
        while value / unit >= 10 {
            unit *= 10;
        }
        while unit > 0 {
            self.0.push(char::from(b'0' + (value / unit % 10) as u8));
            unit /= 10;
        }
    }
    /// Adds a word as it is.
    pub(super) fn word(&mut self, word: &str) -> &mut Script {
        self.0.push_str(word);
        self.0.push('\n');
        self
    }
    /// Sets the colour to fill with.
    pub(super) fn fill(&mut self, colour: Colour) -> &mut Script {
        self.paint(colour, "rg")
    }
    /// Sets the colour to stroke with.
    pub(super) fn stroke(&mut self, colour: Colour) -> &mut Script {
        self.paint(colour, "RG")
    }
    fn paint(&mut self, colour: Colour, key: &str) -> &mut Script {
        for c in [colour.r, colour.g, colour.b] {
            let level = (f64::from(c) / 255.0 * 1000.0).round() / 1000.0;
            self.0.push_str(&format!("{level} "));
        }
        self.word(key)
    }
    /// All of it as one operation: printpdf writes the name of an operator that it does not know as it
    /// stands, and would take several times as long over each operator by itself.
    pub(super) fn operation(mut self) -> Op {
        self.0.pop();
        Op::Unknown { key: self.0, value: Vec::new() }
    }
    /// The stream's bytes.
    pub(super) fn bytes(self) -> Vec<u8> {
        self.0.into_bytes()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_two_decimals_and_no_negative_zero() {
        assert_eq!(round(1.234_567).to_string(), "1.23");
        assert_eq!(round(-0.001).to_string(), "0");
        assert_eq!(round(841.889_76).to_string(), "841.89");
    }

    #[test]
    fn scripts_write_numbers_as_they_are_rounded() {
        for value in [0.0, -0.001, 0.05, -0.5, 1.999, 10.0, 99.995, -100.1, 841.889_76, 1190.551] {
            let mut script = Script::default();
            script.op("w", &[value]);
            assert_eq!(script.0, format!("{} w\n", round(value)));
        }
        let mut script = Script::default();
        script.number(-0.866_03, 4).number(0.000_049, 4).number(12.000_5, 4);
        assert_eq!(script.0, "-0.866 0 12.0005 ");
    }

    #[test]
    fn all_256_steps_of_a_channel_are_found_again() {
        for step in 0..=255u8 {
            let Color::Rgb(c) = rgb(Colour::new(step, 0, 0)) else { panic!("not RGB") };
            assert_eq!((c.r * 255.0).round() as u8, step);
        }
    }
}
