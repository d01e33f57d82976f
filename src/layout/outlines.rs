//! Outlines of glyphs, for painters that draw them as paths.

use super::faces::{parsed, units};
use crate::drawn::{Face, Segment};
use ttf_parser::{GlyphId, OutlineBuilder};

/// The outline of a glyph, in thousandths of the size from its origin, y downwards; empty for one that draws
/// nothing.
#[must_use]
pub fn glyph_outline(face: Face, glyph: u16) -> Vec<Segment<(f64, f64)>> {
    let mut pen = Outline { scale: 1000.0 / units(face), at: (0.0, 0.0), segments: Vec::new() };
    if let Some(font) = parsed(face) {
        // A glyph without outline, as a space, leaves it empty.
        let _ = font.outline_glyph(GlyphId(glyph), &mut pen);
    }
    pen.segments
}

struct Outline {
    scale: f64,
    at: (f64, f64),
    segments: Vec<Segment<(f64, f64)>>,
}

impl Outline {
    fn scaled(&self, x: f32, y: f32) -> (f64, f64) {
        (f64::from(x) * self.scale, -f64::from(y) * self.scale)
    }

    fn go(&mut self, segment: Segment<(f64, f64)>) {
        self.at = segment.points().last().unwrap_or(self.at);
        self.segments.push(segment);
    }
}

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.go(Segment::Move(self.scaled(x, y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.go(Segment::Line(self.scaled(x, y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        // A quadratic curve is the cubic one whose control points lie two thirds of the way.
        let (control, end) = (self.scaled(x1, y1), self.scaled(x, y));
        let towards = |from: (f64, f64)| {
            (from.0 + (control.0 - from.0) * 2.0 / 3.0, from.1 + (control.1 - from.1) * 2.0 / 3.0)
        };
        self.go(Segment::Curve(towards(self.at), towards(end), end));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.go(Segment::Curve(self.scaled(x1, y1), self.scaled(x2, y2), self.scaled(x, y)));
    }
    fn close(&mut self) {
        self.go(Segment::Close);
    }
}
