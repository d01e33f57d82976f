//! What pages share: forms of beads, halos of glyphs, images. Named in order of first use.

use super::beads::{form, form_dict, trace};
use super::error::PaintError;
use super::images::{image, plain};
use super::operators::{Script, external};
use super::tags::Bounds;
use super::written::Written;
use crate::drawn::{Face, PATTERNS};
use crate::images::Plain;
use crate::layout::{Bead, BeadKind, PlacedImage, glyph_outline};
use printpdf::{XObject, XObjectId};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// A glyph's halo: face, glyph, size and width of the halo, both in hundredths of a point.
type Halo = (Face, u16, i64, i64);

/// Forms and images of a document.
#[derive(Default)]
pub(super) struct Resources {
    beads: BTreeMap<BeadKind, Rc<str>>,
    halos: BTreeMap<Halo, String>,
    /// Names of images by the address of their data, which `held` keeps alive.
    images: BTreeMap<usize, String>,
    made: BTreeMap<XObjectId, XObject>,
    /// Gradients of forms that have some, by the form's name.
    gradients: BTreeMap<String, Written>,
    /// The bead named last: most are like the one before.
    last: Option<(BeadKind, Rc<str>)>,
    held: BTreeMap<String, Arc<Plain>>,
}

/// All forms and images of a document.
pub(super) struct Made {
    /// Forms and images in printpdf's form.
    pub(super) forms: BTreeMap<XObjectId, XObject>,
    /// The gradients that forms name, by the form's name.
    pub(super) gradients: BTreeMap<String, Written>,
    /// Images by name: their data are not copied before they are written.
    pub(super) images: BTreeMap<String, Arc<Plain>>,
}

impl Resources {
    /// Name of a bead's form.
    ///
    /// # Errors
    /// When the bead asks for a pattern that there is not.
    pub(super) fn bead(&mut self, bead: &Bead) -> Result<Rc<str>, PaintError> {
        if let Some(number) = bead.pattern.filter(|n| *n >= PATTERNS) {
            return Err(PaintError::Pattern { number });
        }
        let kind = BeadKind::of(bead);
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
    pub(super) fn halo(&mut self, of: Face, glyph: u16, size: f64, width: f64) -> &str {
        let key = (of, glyph, (size * 100.0).round() as i64, (width * 100.0).round() as i64);
        if !self.halos.contains_key(&key) {
            let name = format!("H{}", self.halos.len());
            let made = halo(of, glyph, size, width);
            self.add(&name, made);
            self.halos.insert(key, name);
        }
        &self.halos[&key]
    }

    /// Name of an image.
    ///
    /// # Errors
    /// When it cannot be decoded.
    pub(super) fn image(&mut self, placed: &PlacedImage) -> Result<&str, PaintError> {
        let plain = plain(&placed.image, placed.wanted())?;
        let key = Arc::as_ptr(&plain) as usize;
        if !self.images.contains_key(&key) {
            let name = format!("P{}", self.images.len());
            self.add(&name, image(&plain));
            self.held.insert(name.clone(), plain);
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

/// Strokes a glyph's outline; its box reaches round the points that shape it, and round the pen.
fn halo(of: Face, glyph: u16, size: f64, width: f64) -> XObject {
    let scaled = |(x, y): (f64, f64)| (x * size / 1000.0, y * size / 1000.0);
    let outline: Vec<_> = glyph_outline(of, glyph).into_iter().map(|segment| segment.map(scaled)).collect();
    let mut bounds = Bounds::default();
    outline.iter().flat_map(|segment| segment.points()).for_each(|(x, y)| bounds.add(Bounds::of(&[(x, -y)])));
    let Some(sides) = bounds.grown(width).sides() else {
        return external(form_dict([0.0; 4]), Vec::new());
    };
    let mut script = Script::default();
    script.op("w", &[width]).word("1 j 1 J");
    trace(&mut script, &outline);
    script.word("S");
    external(form_dict(sides), script.bytes())
}
