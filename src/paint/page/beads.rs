//! Beads and images, as forms placed on the page.

use super::Beads;
use super::Painter;
use crate::colour::ink_on;
use crate::drawn::BeadLook;
use crate::layout::{Bead, PlacedImage};
use crate::paint::error::PaintError;
use crate::paint::operators::{points, round};
use crate::paint::tags::Bounds;

impl Painter<'_> {
    pub(super) fn bead(&mut self, bead: &Bead) -> Result<Bounds, PaintError> {
        self.end_text();
        let name = self.resources.bead(bead)?;
        let upright = bead.turned == 0.0;
        if !upright {
            self.end_beads();
        }
        let (x, y) = self.place(bead.centre);
        let moved = upright.then(|| self.move_to_bead(x, y));
        match bead.look {
            BeadLook::Flat | BeadLook::Faded | BeadLook::Silhouette => self.fill(bead.colour),
            BeadLook::Lifelike(_) => {}
        }
        if bead.pattern.is_some() {
            self.stroke_colour(ink_on(bead.colour));
        }
        // Clockwise on the page is clockwise here too: both have their y axis flipped once.
        let (sin, cos) = if upright { (0.0, 1.0) } else { (-bead.turned).to_radians().sin_cos() };
        match moved {
            Some((dx, dy)) => {
                self.script.moved(dx, dy).name(&name).word("Do");
            }
            None => self.show_at([cos, sin, -sin, cos, x, y], &name),
        }
        let (w, h) = (points(bead.width) / 2.0, points(bead.length) / 2.0);
        let (dx, dy) = (w * cos.abs() + h * sin.abs(), w * sin.abs() + h * cos.abs());
        Ok(Bounds::of(&[(x - dx, y - dy), (x + dx, y + dy)]))
    }

    /// The move from the bead before to this one; opens a run where none is open.
    pub(super) fn move_to_bead(&mut self, x: f64, y: f64) -> (f64, f64) {
        if self.beads.is_none() {
            self.script.word("q");
        }
        let beads = self.beads.get_or_insert_with(|| Beads { at: (0.0, 0.0), before: self.state.clone() });
        // From where the rounded moves have led, so that roundings do not add up.
        let (dx, dy) = (f64::from(round(x - beads.at.0)), f64::from(round(y - beads.at.1)));
        beads.at = (beads.at.0 + dx, beads.at.1 + dy);
        (dx, dy)
    }

    pub(super) fn end_beads(&mut self) {
        if let Some(beads) = self.beads.take() {
            self.script.word("Q");
            self.state = beads.before;
        }
    }

    pub(super) fn image(&mut self, placed: &PlacedImage) -> Result<Bounds, PaintError> {
        self.end_text();
        let name = self.resources.image(placed)?.to_owned();
        let (w, h) = (points(placed.size.width), points(placed.size.height));
        let (x, y) = self.place(placed.at);
        let [a, b, c, d, e, f] = placed.image.file.turn().matrix();
        self.show_at([w * a, h * b, w * c, h * d, x + w * e, y - h + h * f], &name);
        Ok(Bounds::of(&[(x, y - h), (x + w, y)]))
    }

    /// Paints a form or image under a matrix. The turning part keeps four decimals: two would shear.
    pub(super) fn show_at(&mut self, matrix: [f64; 6], name: &str) {
        self.script.word("q");
        for turning in &matrix[..4] {
            self.script.number::<4>(*turning);
        }
        self.script.op("cm", &matrix[4..]).name(name).word("Do").word("Q");
    }
}
