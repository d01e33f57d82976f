//! Lines, polygons and curves, and the pens and colours that everything is painted with.

use super::Painter;
use crate::colour::Colour;
use crate::drawn::{Segment, Stroke};
use crate::layout::Path;
use crate::paint::operators::{Script, points, round};
use crate::paint::tags::Bounds;
use crate::units::{Mm, Point};

impl Painter<'_> {
    pub(super) fn path(&mut self, path: &Path) -> Bounds {
        self.end_text();
        if let Some(colour) = path.fill {
            self.fill(colour);
        }
        if let Some(stroke) = &path.stroke {
            self.pen(stroke);
        }
        let mut bounds = Bounds::default();
        let origin = self.origin_of(path);
        let mut script = std::mem::take(&mut self.script);
        if let Some((x, y)) = origin {
            script.word("q").moved(x, y);
        }
        let (left, bottom) = origin.unwrap_or_default();
        let mut corner = |script: &mut Script, at: &Point| {
            let (x, y) = self.place(*at);
            bounds.add(Bounds::of(&[(x, y)]));
            script.number::<2>(x - left).number::<2>(y - bottom);
        };
        for segment in &path.segments {
            let key = match segment {
                Segment::Move(p) => {
                    corner(&mut script, p);
                    "m"
                }
                Segment::Line(p) => {
                    corner(&mut script, p);
                    "l"
                }
                Segment::Curve(a, b, p) => {
                    [a, b, p].into_iter().for_each(|p| corner(&mut script, p));
                    "c"
                }
                Segment::Close => "h",
            };
            script.word(key);
        }
        let finish = match (path.fill.is_some(), path.stroke.is_some()) {
            (true, true) => "B",
            (true, false) => "f",
            (false, true) => "S",
            (false, false) => "n",
        };
        script.word(finish);
        if origin.is_some() {
            script.word("Q");
        }
        self.script = script;
        bounds.grown(path.stroke.as_ref().map_or(0.0, |s| points(s.width) / 2.0))
    }

    /// Where a path's own origin is put: discs and other rounded shapes come many times on a page, and
    /// drawn from their own first point they deflate to almost nothing. `None` for all other paths.
    pub(super) fn origin_of(&self, path: &Path) -> Option<(f64, f64)> {
        let curves = path.segments.iter().filter(|s| matches!(s, Segment::Curve(..))).count();
        match path.segments.first() {
            Some(Segment::Move(first)) if curves >= 4 => Some(self.place(*first)),
            _ => None,
        }
    }

    pub(super) fn pen(&mut self, stroke: &Stroke) {
        self.stroke_colour(stroke.colour);
        let width = round(points(stroke.width));
        if self.state.width != Some(width) {
            self.script.op("w", &[f64::from(width)]);
            self.state.width = Some(width);
        }
        if self.state.round != Some(stroke.round) {
            // Caps and joins (ISO 32000-1, 8.4.3.3 and 8.4.3.4): both round, or cut off and mitred.
            let both = if stroke.round { 1.0 } else { 0.0 };
            self.script.op("J", &[both]).op("j", &[both]);
            self.state.round = Some(stroke.round);
        }
        let dash: Vec<f32> = stroke.dash.iter().map(|d: &Mm| round(points(*d))).collect();
        if self.state.dash != dash {
            self.script.dash(&dash);
            self.state.dash = dash;
        }
    }

    pub(super) fn fill(&mut self, colour: Colour) {
        if self.state.fill != Some(colour) {
            self.flush_line();
            // What is gathered next starts where the pen stands, not where the shown line began.
            if self.text.is_some() {
                self.end_text();
            }
            self.script.fill(colour);
            self.state.fill = Some(colour);
        }
    }

    pub(super) fn stroke_colour(&mut self, colour: Colour) {
        if self.state.stroke != Some(colour) {
            self.script.stroke(colour);
            self.state.stroke = Some(colour);
        }
    }
}
