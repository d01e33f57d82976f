//! Objects in the text that stands in the file, for those that come by the hundred: the elements of the
//! structure tree and the gradients of beads. As trees of lopdf's objects they took eight times as long.

use lopdf::ObjectId;
use std::fmt::Write as _;

/// An object's text while it is being written.
#[derive(Default)]
pub(super) struct Written(String);

impl Written {
    /// Whether nothing has been added.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// Adds text as it is: brackets, names and what needs no escape.
    pub(super) fn raw(&mut self, text: &str) -> &mut Written {
        self.0.push_str(text);
        self
    }
    /// Adds what another holds.
    pub(super) fn append(&mut self, other: Written) -> &mut Written {
        self.raw(&other.0)
    }
    /// Adds a reference to another object.
    pub(super) fn reference(&mut self, id: ObjectId) -> &mut Written {
        self.space();
        // Writing to a string cannot fail.
        let _ = write!(self.0, "{} {} R", id.0, id.1);
        self
    }
    /// Adds a whole number.
    pub(super) fn integer(&mut self, value: usize) -> &mut Written {
        self.space();
        let _ = write!(self.0, "{value}");
        self
    }
    /// Adds a rounded number.
    pub(super) fn real(&mut self, value: f32) -> &mut Written {
        self.space();
        let _ = write!(self.0, "{value}");
        self
    }
    /// Adds a text string: as it is where every character is ASCII, else UTF-16 (ISO 32000-1, 7.9.2.2).
    pub(super) fn words(&mut self, words: &str) -> &mut Written {
        if words.bytes().all(|b| (0x20..0x7f).contains(&b)) {
            self.0.push('(');
            for c in words.chars() {
                if matches!(c, '(' | ')' | '\\') {
                    self.0.push('\\');
                }
                self.0.push(c);
            }
            self.0.push(')');
        } else {
            self.0.push_str("<FEFF");
            for unit in words.encode_utf16() {
                let _ = write!(self.0, "{unit:04X}");
            }
            self.0.push('>');
        }
        self
    }
    /// All of it, with a space after it.
    pub(super) fn bytes(mut self) -> Vec<u8> {
        self.0.push(' ');
        self.0.into_bytes()
    }
    /// Numbers need a space before them, except where a bracket stands there.
    fn space(&mut self) {
        if !self.0.ends_with(['[', '>', ')']) {
            self.0.push(' ');
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn objects_are_written_as_the_format_asks() {
        let mut written = Written::default();
        written.raw("<</S/P/K[").integer(3).reference((12, 0)).raw("]/BBox[").real(1.5).real(-2.25);
        written.raw("]/Alt").words("a (b) \\").raw("/T").words("Größe").raw(">>");
        assert_eq!(
            written.bytes(),
            b"<</S/P/K[3 12 0 R]/BBox[1.5 -2.25]/Alt(a \\(b\\) \\\\)/T<FEFF0047007200F600DF0065>>> "
        );
    }
}
