//! Objects in the text that stands in the file, for those that come by the hundred: the elements of the
//! structure tree and the gradients of beads. As trees of lopdf's objects they took eight times as long.

use super::operators::write_number;
use lopdf::ObjectId;

/// An object's text while it is being written.
#[derive(Default)]
pub(super) struct Written(Vec<u8>);

impl Written {
    /// Whether nothing has been added.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// Adds text as it is: brackets, names and what needs no escape.
    pub(super) fn raw(&mut self, text: &str) -> &mut Written {
        self.0.extend_from_slice(text.as_bytes());
        self
    }
    /// Adds what another holds.
    pub(super) fn append(&mut self, other: &Written) -> &mut Written {
        self.0.extend_from_slice(&other.0);
        self
    }
    /// Adds a reference to another object.
    pub(super) fn reference(&mut self, id: ObjectId) -> &mut Written {
        self.number::<0>(f64::from(id.0)).number::<0>(f64::from(id.1)).raw(" R")
    }
    /// Adds a whole number.
    pub(super) fn integer(&mut self, value: usize) -> &mut Written {
        self.number::<0>(value as f64)
    }
    /// Adds a number with so many decimals at most.
    pub(super) fn number<const DECIMALS: u32>(&mut self, value: f64) -> &mut Written {
        // Numbers need a space before them, except where a bracket stands there.
        if !matches!(self.0.last(), None | Some(b'[' | b'>' | b')')) {
            self.0.push(b' ');
        }
        write_number::<DECIMALS>(&mut self.0, value);
        self
    }
    /// Adds a text string: as it is where every character is ASCII, else UTF-16 (ISO 32000-1, 7.9.2.2).
    pub(super) fn words(&mut self, words: &str) -> &mut Written {
        if words.bytes().all(|b| (0x20..0x7f).contains(&b)) {
            self.0.push(b'(');
            for byte in words.bytes() {
                if matches!(byte, b'(' | b')' | b'\\') {
                    self.0.push(b'\\');
                }
                self.0.push(byte);
            }
            self.0.push(b')');
        } else {
            self.raw("<FEFF");
            for unit in words.encode_utf16() {
                self.raw(&format!("{unit:04X}"));
            }
            self.0.push(b'>');
        }
        self
    }
    /// All of it, with a space after it.
    pub(super) fn bytes(mut self) -> Vec<u8> {
        self.0.push(b' ');
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn objects_are_written_as_the_format_asks() {
        let mut written = Written::default();
        written
            .raw("<</S/P/K[")
            .integer(3)
            .reference((12, 0))
            .raw("]/BBox[")
            .number::<2>(1.5)
            .number::<2>(-2.25);
        written.raw("]/Alt").words("a (b) \\").raw("/T").words("Größe").raw(">>");
        assert_eq!(
            written.bytes(),
            b"<</S/P/K[3 12 0 R]/BBox[1.5 -2.25]/Alt(a \\(b\\) \\\\)/T<FEFF0047007200F600DF0065>>> "
        );
    }
}
