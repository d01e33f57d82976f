//! Text of an SVG file: numbers, paths and attributes.

use crate::colour::Colour;
use crate::drawn::Segment;
use std::fmt::Write;

/// A number with two decimals at most: a two-hundredth of a point is 2 µm.
pub(super) fn number(value: f64) -> String {
    decimals(value, 2)
}

/// A number with so many decimals at most.
pub(super) fn decimals(value: f64, most: usize) -> String {
    let text = format!("{value:.most$}");
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// The pieces of a path as the attribute `d` says them.
pub(super) fn path<'s>(segments: impl IntoIterator<Item = &'s Segment<(f64, f64)>>) -> String {
    let mut d = String::new();
    for segment in segments {
        d.push(match segment {
            Segment::Move(_) => 'M',
            Segment::Line(_) => 'L',
            Segment::Curve(..) => 'C',
            Segment::Close => 'Z',
        });
        for (i, (x, y)) in segment.points().enumerate() {
            let space = if i == 0 { "" } else { " " };
            let _ = write!(d, "{space}{} {}", number(x), number(y));
        }
    }
    d
}

/// A transformation by a matrix `[a b c d e f]`: the turning part keeps four decimals.
pub(super) fn matrix(values: [f64; 6]) -> String {
    let turning = values[..4].iter().map(|v| decimals(*v, 4));
    let moving = values[4..].iter().map(|v| number(*v));
    format!("matrix({})", turning.chain(moving).collect::<Vec<_>>().join(" "))
}

/// A colour.
pub(super) fn hex(colour: Colour) -> String {
    colour.hex()
}

/// Words with what means something to XML written otherwise.
pub(super) fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        assert_eq!(number(1.0), "1");
        assert_eq!(number(100.0), "100");
        assert_eq!(number(0.126), "0.13");
        assert_eq!(number(-0.001), "0");
        assert_eq!(number(10.50), "10.5");
        assert_eq!(decimals(0.12346, 4), "0.1235");
    }

    #[test]
    fn paths_say_what_their_pieces_are() {
        let pieces = [
            Segment::Move((0.0, 1.0)),
            Segment::Line((2.5, 1.0)),
            Segment::Curve((3.0, 1.0), (3.0, 2.0), (2.0, 2.0)),
            Segment::Close,
        ];
        assert_eq!(path(&pieces), "M0 1L2.5 1C3 1 3 2 2 2Z");
    }

    #[test]
    fn words_cannot_end_what_holds_them() {
        assert_eq!(escaped("a < \"b\" & c"), "a &lt; &quot;b&quot; &amp; c");
    }
}
