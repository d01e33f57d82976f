//! Lines of glyphs.

use super::Painter;
use super::Text;
use crate::colour::Colour;
use crate::drawn::Face;
use crate::layout::Glyphs;
use crate::paint::error::PaintError;
use crate::paint::faces::{FaceData, face};
use crate::paint::operators::{Shown, points, round};
use crate::paint::tags::Bounds;

impl Painter<'_> {
    pub(super) fn glyphs(&mut self, line: &Glyphs) -> Result<Bounds, PaintError> {
        let size = line.size.0;
        let (x, y) = self.place(line.at);
        let advance: f64 = line.glyphs.iter().map(|g| g.advance).sum();
        let length = advance * size / 1000.0;
        if let Some((colour, width)) = line.halo {
            self.halo(line, colour, points(width));
        }
        let data = face(line.face)?;
        let start = (round(x), round(y));
        // Text objects may not cross each other's colour: a colour change is allowed inside one.
        self.fill(line.colour);
        if !self.goes_on(line.face, round(size), start) {
            self.start_line(line.face, round(size), start);
        }
        self.gather(line, data)?;
        Ok(Bounds::of(&[(x, y - 0.3 * size), (x + length, y + size)]))
    }

    /// Whether a line can go on where the gathered one ends: same face, size and baseline, further on.
    pub(super) fn goes_on(&self, of: Face, size: f32, start: (f32, f32)) -> bool {
        self.text.as_ref().is_some_and(|t| {
            let pen = f64::from(t.start.0) + t.pen * f64::from(t.size) / 1000.0;
            t.face == of && t.size == size && t.start.1 == start.1 && f64::from(start.0) >= pen - 0.01
        })
    }

    pub(super) fn start_line(&mut self, of: Face, size: f32, start: (f32, f32)) {
        self.flush_line();
        let font_stays = self.text.as_ref().is_some_and(|t| t.face == of && t.size == size);
        if self.text.is_none() {
            self.script.word("BT");
        }
        if !font_stays {
            self.script.name(of.name()).op("Tf", &[f64::from(size)]);
        }
        // From the start of the line before; the first one from the page's corner.
        let (x, y) = self.text.as_ref().map_or((0.0, 0.0), |t| t.start);
        self.script.op("Td", &[f64::from(start.0 - x), f64::from(start.1 - y)]);
        self.text = Some(Text { face: of, size, start, pen: 0.0, line: Shown::default() });
    }

    /// Adds glyphs to the gathered line. Layout's advances are reproduced by offsets; what an offset
    /// loses in rounding goes into the next one, so that a line never drifts.
    pub(super) fn gather(&mut self, line: &Glyphs, data: &FaceData) -> Result<(), PaintError> {
        let (x, _) = self.place(line.at);
        let Some(text) = self.text.as_mut() else { return Ok(()) };
        let mut wanted = (x - f64::from(text.start.0)) * 1000.0 / f64::from(text.size).max(0.01);
        text.line.reserve(line.glyphs.len());
        let numbers = self.fonts.numbers(line.face);
        for glyph in &line.glyphs {
            // Whole thousandths of the size: at 10 pt half of one is 2 µm.
            let offset = (text.pen - wanted).round();
            if offset != 0.0 {
                if text.line.is_empty() {
                    // The rest that rounding the start of a line has left.
                    text.pen = wanted;
                } else {
                    text.line.offset(offset);
                    text.pen -= offset;
                }
            }
            let Some(&id) = numbers.get(usize::from(glyph.id)).filter(|id| **id != 0) else {
                let what = format!("glyph {} was not collected", glyph.id);
                return Err(PaintError::Reference { what });
            };
            text.line.glyph(id);
            text.pen += data.width(glyph.id);
            wanted += glyph.advance;
        }
        Ok(())
    }

    pub(super) fn flush_line(&mut self) {
        if let Some(text) = self.text.as_mut().filter(|t| !t.line.is_empty()) {
            self.script.show(std::mem::take(&mut text.line));
        }
    }

    pub(super) fn end_text(&mut self) {
        self.flush_line();
        if self.text.take().is_some() {
            self.script.word("ET");
        }
    }

    /// Strokes the glyphs' outlines behind them: as paths, so that no reader finds the words twice.
    pub(super) fn halo(&mut self, line: &Glyphs, colour: Colour, width: f64) {
        self.end_text();
        self.stroke_colour(colour);
        let (mut x, y) = self.place(line.at);
        for glyph in &line.glyphs {
            // The outline is stroked on both sides: half of the line shows beyond the glyph.
            let name = self.resources.halo(line.face, glyph.id, line.size.0, 2.0 * width).to_owned();
            self.show_at([1.0, 0.0, 0.0, 1.0, x, y], &name);
            x += glyph.advance * line.size.0 / 1000.0;
        }
    }
}
