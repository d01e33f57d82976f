//! What pages share: forms of beads, halos of glyphs, images. Named in order of first use.

use super::beads::{Kind, form, form_dict};
use super::error::PaintError;
use super::faces::face;
use super::images::image;
use super::operators::{Script, external, round};
use super::written::Written;
use crate::drawn::Face;
use crate::images::{Image, ImageFile};
use crate::layout::Bead;
use printpdf::{XObject, XObjectId};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;
use ttf_parser::{GlyphId, OutlineBuilder};

/// A glyph's halo: face, glyph, size and width of the halo, both in hundredths of a point.
type Halo = (Face, u16, i64, i64);

/// Forms and images of a document.
#[derive(Default)]
pub(super) struct Resources {
    beads: BTreeMap<Kind, Rc<str>>,
    halos: BTreeMap<Halo, String>,
    /// Names of images by the address of their file, which `held` keeps alive.
    images: BTreeMap<usize, String>,
    made: BTreeMap<XObjectId, XObject>,
    /// Gradients of forms that have some, by the form's name.
    gradients: BTreeMap<String, Written>,
    /// The bead named last: most are like the one before.
    last: Option<(Kind, Rc<str>)>,
    held: BTreeMap<String, Arc<ImageFile>>,
}

/// All forms and images of a document.
pub(super) struct Made {
    /// Forms and images in printpdf's form.
    pub(super) forms: BTreeMap<XObjectId, XObject>,
    /// The gradients that forms name, by the form's name.
    pub(super) gradients: BTreeMap<String, Written>,
    /// The files of images, by the image's name: their data are not copied before they are written.
    pub(super) images: BTreeMap<String, Arc<ImageFile>>,
}

impl Resources {
    /// Name of a bead's form.
    ///
    /// # Errors
    /// When the bead asks for a pattern that there is not.
    pub(super) fn bead(&mut self, bead: &Bead) -> Result<Rc<str>, PaintError> {
        let kind = Kind::of(bead)?;
        if let Some((last, name)) = &self.last
            && *last == kind
        {
            return Ok(Rc::clone(name));
        }
        let name = match self.beads.get(&kind) {
            Some(name) => Rc::clone(name),
            None => {
                let name: Rc<str> = format!("B{}", self.beads.len()).into();
                let (made, gradients) = form(&kind);
                self.add(&name, made);
                if !gradients.is_empty() {
                    self.gradients.insert((*name).to_owned(), gradients);
                }
                self.beads.insert(kind.clone(), Rc::clone(&name));
                name
            }
        };
        self.last = Some((kind, Rc::clone(&name)));
        Ok(name)
    }

    /// Name of the form that strokes a glyph's outline in the page's stroke colour, round its origin.
    ///
    /// # Errors
    /// When the face cannot be read.
    pub(super) fn halo(&mut self, of: Face, glyph: u16, size: f64, width: f64) -> Result<&str, PaintError> {
        let key = (of, glyph, (size * 100.0).round() as i64, (width * 100.0).round() as i64);
        if !self.halos.contains_key(&key) {
            let name = format!("H{}", self.halos.len());
            let made = halo(of, glyph, size, width)?;
            self.add(&name, made);
            self.halos.insert(key, name);
        }
        Ok(&self.halos[&key])
    }

    /// Name of an image.
    ///
    /// # Errors
    /// When it cannot be decoded.
    pub(super) fn image(&mut self, shown: &Image) -> Result<&str, PaintError> {
        let key = Arc::as_ptr(&shown.file) as usize;
        if !self.images.contains_key(&key) {
            let name = format!("P{}", self.images.len());
            let made = image(shown)?;
            self.add(&name, made);
            self.held.insert(name.clone(), Arc::clone(&shown.file));
            self.images.insert(key, name);
        }
        Ok(&self.images[&key])
    }

    /// Everything made.
    pub(super) fn finish(self) -> Made {
        Made { forms: self.made, gradients: self.gradients, images: self.held }
    }

    fn add(&mut self, name: &str, made: XObject) {
        self.made.insert(XObjectId(name.to_owned()), made);
    }
}

fn halo(of: Face, glyph: u16, size: f64, width: f64) -> Result<XObject, PaintError> {
    let font = &face(of)?.font;
    let scale = size / f64::from(font.units_per_em());
    let mut pen = Pen { script: Script::default(), scale, at: (0.0, 0.0) };
    pen.script.op("w", &[width]).word("1 j 1 J");
    let bounds = font.outline_glyph(GlyphId(glyph), &mut pen);
    pen.script.word("S");
    let edge = width;
    let bounds = bounds.map_or([0.0; 4], |b| {
        [
            f64::from(b.x_min) * scale - edge,
            f64::from(b.y_min) * scale - edge,
            f64::from(b.x_max) * scale + edge,
            f64::from(b.y_max) * scale + edge,
        ]
    });
    let empty = bounds.iter().all(|v| round(*v) == 0.0);
    let content = if empty { Vec::new() } else { pen.script.bytes() };
    Ok(external(form_dict(bounds), content))
}

/// Writes a glyph's outline as a path.
struct Pen {
    script: Script,
    scale: f64,
    at: (f64, f64),
}

impl Pen {
    fn scaled(&self, x: f32, y: f32) -> (f64, f64) {
        (f64::from(x) * self.scale, f64::from(y) * self.scale)
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.at = self.scaled(x, y);
        self.script.op("m", &[self.at.0, self.at.1]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.at = self.scaled(x, y);
        self.script.op("l", &[self.at.0, self.at.1]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        // A quadratic curve is the cubic one whose control points lie two thirds of the way.
        let (control, end) = (self.scaled(x1, y1), self.scaled(x, y));
        let towards = |from: (f64, f64)| {
            (from.0 + (control.0 - from.0) * 2.0 / 3.0, from.1 + (control.1 - from.1) * 2.0 / 3.0)
        };
        let (a, b) = (towards(self.at), towards(end));
        self.script.op("c", &[a.0, a.1, b.0, b.1, end.0, end.1]);
        self.at = end;
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (a, b, end) = (self.scaled(x1, y1), self.scaled(x2, y2), self.scaled(x, y));
        self.script.op("c", &[a.0, a.1, b.0, b.1, end.0, end.1]);
        self.at = end;
    }
    fn close(&mut self) {
        self.script.word("h");
    }
}
