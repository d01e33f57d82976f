//! From this program's types to printpdf's: numbers, colours, operators. Nothing else converts.

use crate::colour::Colour;
use crate::units::Mm;
use printpdf::{DictItem, ExternalStream, ExternalXObject, XObject};
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

/// A form or image with its own dictionary and bytes. Streams are deflated on saving.
pub(super) fn external(dict: BTreeMap<String, DictItem>, content: Vec<u8>) -> XObject {
    let stream = ExternalStream { dict, content, compress: false };
    XObject::External(ExternalXObject { stream, width: None, height: None, dpi: None })
}

/// Adds a number with so many decimals at most to some text.
pub(super) fn write_number<const DECIMALS: u32>(out: &mut Vec<u8>, value: f64) {
    if value == 0.0 {
        // Every third number of a booklet.
        out.push(b'0');
        return;
    }
    let scaled = value * const { 10u64.pow(DECIMALS) } as f64;
    // To the nearest; the standard library's way calls a function on processors without one of their own.
    let whole = (scaled + 0.5f64.copysign(scaled)) as i64;
    // The longest: a sign, twenty digits, a point.
    let mut text = [0; 22];
    let mut at = text.len();
    let mut put = |byte: u8| {
        at -= 1;
        text[at] = byte;
    };
    // From the last digit to the first; noughts at the end of the decimals are left out.
    let mut left = whole.unsigned_abs();
    let mut decimals = false;
    for _ in 0..DECIMALS {
        let digit = (left % 10) as u8;
        left /= 10;
        if decimals || digit != 0 {
            put(b'0' + digit);
            decimals = true;
        }
    }
    if decimals {
        put(b'.');
    }
    loop {
        put(b'0' + (left % 10) as u8);
        left /= 10;
        if left == 0 {
            break;
        }
    }
    if whole < 0 {
        put(b'-');
    }
    out.extend_from_slice(&text[at..]);
}

const HEXADECIMAL: &[u8; 16] = b"0123456789ABCDEF";

/// Glyphs of one font on a line: strings of numbers with two bytes each, and offsets in thousandths of
/// the size between them (ISO 32000-1, 9.4.3). The last string is open.
#[derive(Default)]
pub(super) struct Shown(Vec<u8>);

impl Shown {
    /// Makes room for so many glyphs.
    pub(super) fn reserve(&mut self, glyphs: usize) {
        // Four digits each, and now and then an offset.
        self.0.reserve(glyphs * 6);
    }
    /// Adds a glyph by its number in the font.
    pub(super) fn glyph(&mut self, number: u16) {
        if self.0.is_empty() {
            self.0.push(b'<');
        }
        self.0.extend([12, 8, 4, 0].map(|shift| HEXADECIMAL[usize::from(number >> shift & 15)]));
    }
    /// Moves the next glyph back by a whole number of thousandths.
    pub(super) fn offset(&mut self, thousandths: f64) {
        self.0.extend_from_slice(b"> ");
        write_number::<0>(&mut self.0, thousandths);
        self.0.push(b'<');
    }
    /// Whether there is no glyph yet.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Text of a content stream written by hand: operators separated by spaces, numbers rounded.
#[derive(Default)]
pub(super) struct Script(Vec<u8>);

impl Script {
    /// An empty one with room for so many bytes.
    pub(super) fn with_room(bytes: usize) -> Script {
        Script(Vec::with_capacity(bytes))
    }
    /// Adds an operator with its numbers.
    pub(super) fn op(&mut self, key: &str, numbers: &[f64]) -> &mut Script {
        for n in numbers {
            self.number::<2>(*n);
        }
        self.word(key)
    }
    /// Moves the origin by so much.
    pub(super) fn moved(&mut self, x: f64, y: f64) -> &mut Script {
        self.0.extend_from_slice(b"1 0 0 1 ");
        self.op("cm", &[x, y])
    }
    /// Adds a number with so many decimals at most, and a space.
    pub(super) fn number<const DECIMALS: u32>(&mut self, value: f64) -> &mut Script {
        write_number::<DECIMALS>(&mut self.0, value);
        self.0.push(b' ');
        self
    }
    /// Adds a word as it is.
    pub(super) fn word(&mut self, word: &str) -> &mut Script {
        self.0.extend_from_slice(word.as_bytes());
        self.0.push(b'\n');
        self
    }
    /// Adds a name, and a space.
    pub(super) fn name(&mut self, name: &str) -> &mut Script {
        self.0.push(b'/');
        self.0.extend_from_slice(name.as_bytes());
        self.0.push(b' ');
        self
    }
    /// Shows glyphs.
    pub(super) fn show(&mut self, glyphs: Shown) -> &mut Script {
        self.0.push(b'[');
        self.0.extend_from_slice(&glyphs.0);
        self.word(">] TJ")
    }
    /// Sets the dashes of lines, from the first one's start.
    pub(super) fn dash(&mut self, lengths: &[f32]) -> &mut Script {
        self.0.push(b'[');
        for length in lengths {
            self.number::<2>(f64::from(*length));
        }
        // No space before the bracket.
        self.0.truncate(self.0.trim_ascii_end().len());
        self.word("] 0 d")
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
        // Three decimals are enough to find each of the 256 steps again.
        for c in [colour.r, colour.g, colour.b] {
            self.number::<3>(f64::from(c) / 255.0);
        }
        self.word(key)
    }
    /// The stream's bytes.
    pub(super) fn bytes(self) -> Vec<u8> {
        self.0
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

    fn text(script: Script) -> String {
        String::from_utf8(script.bytes()).expect("text")
    }

    #[test]
    fn scripts_write_numbers_as_they_are_rounded() {
        for value in [0.0, -0.001, 0.05, -0.5, 1.999, 10.0, 99.995, -100.1, 841.889_76, 1190.551] {
            let mut script = Script::default();
            script.op("w", &[value]);
            assert_eq!(text(script), format!("{} w\n", round(value)));
        }
        let mut script = Script::default();
        script.number::<4>(-0.866_03).number::<4>(0.000_049).number::<4>(12.000_5).number::<0>(-12.4);
        assert_eq!(text(script), "-0.866 0 12.0005 -12 ");
    }

    #[test]
    fn no_number_is_too_long() {
        let mut script = Script::default();
        script.number::<0>(f64::MAX).number::<2>(f64::MIN);
        assert_eq!(text(script), "9223372036854775807 -92233720368547758.08 ");
    }

    #[test]
    fn glyphs_stand_in_strings_with_offsets_between() {
        let mut shown = Shown::default();
        shown.glyph(0x1a);
        shown.glyph(0xbcde);
        shown.offset(-12.0);
        shown.glyph(3);
        let mut script = Script::default();
        script.show(shown).dash(&[]).dash(&[3.0, 0.5]);
        assert_eq!(text(script), "[<001ABCDE> -12<0003>] TJ\n[] 0 d\n[3 0.5] 0 d\n");
    }

    #[test]
    fn all_256_steps_of_a_channel_are_found_again() {
        for step in 0..=255u8 {
            let mut script = Script::default();
            script.fill(Colour::new(step, 0, 255));
            let text = text(script);
            let level: f64 = text.split(' ').next().and_then(|l| l.parse().ok()).expect("a number");
            assert_eq!((level * 255.0).round() as u8, step);
            assert!(text.ends_with(" 0 1 rg\n"), "{text}");
        }
    }
}
