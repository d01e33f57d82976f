//! The parts of a bead as text of its form: there y grows upwards.

use super::gradient;
use crate::drawn::{Part, Pen, Run, Segment, Tint};
use crate::paint::operators::Script;
use crate::paint::written::Written;

/// A form while it is being written. Its own colour is the fill colour of the page, its ink the page's stroke
/// colour.
#[derive(Default)]
pub(super) struct Form {
    pub script: Script,
    /// The gradients it names.
    pub gradients: Written,
    /// How many there are.
    named: usize,
}

impl Form {
    /// Adds parts, in order.
    pub(super) fn parts(&mut self, parts: &[Part]) {
        let mut rest = parts;
        while let [first, after @ ..] = rest {
            rest = after;
            match (first, after) {
                // One path filled and stroked is written once.
                (Part::Fill(path, tint), [Part::Stroke(line, pen), after @ ..]) if path == line => {
                    self.fill_with(*tint);
                    self.pen(pen);
                    trace(&mut self.script, path);
                    self.script.word("B");
                    rest = after;
                }
                (Part::Fill(path, tint), _) => {
                    self.fill_with(*tint);
                    trace(&mut self.script, path);
                    self.script.word("f");
                }
                (Part::Stroke(path, pen), _) => {
                    self.pen(pen);
                    trace(&mut self.script, path);
                    self.script.word("S");
                }
                (Part::Shade(area, shade), _) => {
                    let name = format!("S{}", self.named);
                    self.named += 1;
                    gradient::add(&mut self.gradients, &name, shade);
                    self.script.word("q");
                    trace(&mut self.script, area);
                    self.script.word("W n");
                    self.shade(&shade.run, &name);
                    self.script.word("Q");
                }
                (Part::Within(area, parts), _) => {
                    self.script.word("q");
                    area.iter().for_each(|path| trace(&mut self.script, path));
                    self.script.word("W* n");
                    self.parts(parts);
                    self.script.word("Q");
                }
            }
        }
    }

    fn shade(&mut self, run: &Run, name: &str) {
        if let Run::Ellipse { centre, axes, .. } = run {
            self.script.op("cm", &[axes.0, 0.0, 0.0, axes.1, centre.0, -centre.1]);
        }
        self.script.name(name).word("sh");
    }

    fn fill_with(&mut self, tint: Tint) {
        if let Tint::Fixed(colour) = tint {
            self.script.fill(colour);
        }
    }

    fn pen(&mut self, pen: &Pen) {
        if let Tint::Fixed(colour) = pen.tint {
            self.script.stroke(colour);
        }
        self.script.op("w", &[pen.width]);
        if pen.round {
            self.script.word("1 J");
        }
    }
}

/// Adds a path to a script, its y turned to grow upwards.
pub(in crate::paint) fn trace(script: &mut Script, path: &[Segment<(f64, f64)>]) {
    for segment in path {
        let key = match segment {
            Segment::Move(_) => "m",
            Segment::Line(_) => "l",
            Segment::Curve(..) => "c",
            Segment::Close => "h",
        };
        for (x, y) in segment.points() {
            script.number::<2>(x).number::<2>(-y);
        }
        script.word(key);
    }
}
