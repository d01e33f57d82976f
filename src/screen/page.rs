//! One page: its items in order.

use super::defs::Defs;
use super::images;
use super::text::{decimals, escaped, hex, matrix, number, path};
use crate::colour::{Colour, ink_on};
use crate::diagnostic::Problem;
use crate::drawn::Stroke;
use crate::layout::{Bead, BeadKind, Glyphs, Page, Paint, Path, PlacedImage};
use crate::units::{Mm, Point, Size};
use std::fmt::Write;

/// A page as an SVG file of its size, on white or on nothing; `title` says what it is, and `packet` (XMP) what it was
/// made of.
///
/// # Errors
/// When an image on it cannot be decoded.
pub fn page(page: &Page, white: bool, title: &str, packet: &str) -> Result<String, Problem> {
    let mut painter = Painter::default();
    painter.items(page)?;
    Ok(painter.file(page.size, white.then_some(Colour::WHITE), title, packet))
}

impl Painter {
    /// What is painted on a page.
    pub(super) fn items(&mut self, page: &Page) -> Result<(), Problem> {
        for item in &page.items {
            match &item.paint {
                Paint::Glyphs(glyphs) => self.glyphs(glyphs),
                Paint::Bead(bead) => self.bead(bead),
                Paint::Path(path) => self.path(path),
                Paint::Image(image) => self.image(image)?,
            }
        }
        self.end_beads();
        Ok(())
    }

    /// All that is painted so far as a file of a size.
    pub(super) fn file(self, size: Size, ground: Option<Colour>, title: &str, packet: &str) -> String {
        let (w, h) = (size.width, size.height);
        let ground =
            ground.map(|ground| format!("<rect width=\"100%\" height=\"100%\" fill=\"{}\"/>\n", hex(ground)));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{}mm\" height=\"{}mm\" viewBox=\"0 0 {} {}\">\n<title>{}</title>\n<metadata>{packet}</metadata>\n<defs>\n{}</defs>\n{}{}</svg>\n",
            number(w.0),
            number(h.0),
            points(w),
            points(h),
            escaped(title),
            self.defs.text(),
            ground.unwrap_or_default(),
            self.body
        )
    }
}

/// A length in the file's units.
pub(super) fn points(length: Mm) -> String {
    number(length.pt().0)
}

/// What paints pages on one file.
#[derive(Default)]
pub(super) struct Painter {
    defs: Defs,
    pub(super) body: String,
    /// Fill and ink of the beads whose group is open.
    beads: Option<(String, String)>,
}

impl Painter {
    fn bead(&mut self, bead: &Bead) {
        let name = self.defs.bead(&BeadKind::of(bead));
        let colours = (hex(bead.colour), hex(ink_on(bead.colour)));
        if self.beads.as_ref() != Some(&colours) {
            self.end_beads();
            let _ = writeln!(self.body, "<g fill=\"{}\" stroke=\"{}\">", colours.0, colours.1);
            self.beads = Some(colours);
        }
        let (x, y) = (points(bead.centre.x), points(bead.centre.y));
        let turned = match bead.turned {
            0.0 => String::new(),
            degrees => format!(" transform=\"rotate({} {x} {y})\"", decimals(degrees, 3)),
        };
        let _ = writeln!(self.body, "<use xlink:href=\"#{name}\" x=\"{x}\" y=\"{y}\"{turned}/>");
    }

    fn end_beads(&mut self) {
        if self.beads.take().is_some() {
            self.body.push_str("</g>\n");
        }
    }

    fn glyphs(&mut self, line: &Glyphs) {
        self.end_beads();
        let scale = line.size.0 / 1000.0;
        let mut along = 0.0;
        let mut uses = String::new();
        for glyph in &line.glyphs {
            if let Some(name) = self.defs.glyph(line.face, glyph.id) {
                let _ = write!(uses, "<use xlink:href=\"#{name}\" x=\"{}\"/>", number(along));
            }
            along += glyph.advance;
        }
        if uses.is_empty() {
            return;
        }
        let (x, y) = (line.at.x.pt().0, line.at.y.pt().0);
        let place = matrix([scale, 0.0, 0.0, scale, x, y]);
        if let Some((colour, width)) = line.halo {
            // The outline is stroked on both sides: half of the line shows beyond the glyph.
            let wide = number(2.0 * width.pt().0 / scale);
            let _ = writeln!(
                self.body,
                "<g transform=\"{place}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{wide}\" stroke-linejoin=\"round\" stroke-linecap=\"round\">{uses}</g>",
                hex(colour)
            );
        }
        let _ = writeln!(self.body, "<g transform=\"{place}\" fill=\"{}\">{uses}</g>", hex(line.colour));
    }

    fn path(&mut self, shown: &Path) {
        self.end_beads();
        let pieces: Vec<_> =
            shown.segments.iter().map(|s| s.map(|p: Point| (p.x.pt().0, p.y.pt().0))).collect();
        let fill = shown.fill.map_or("none".to_owned(), hex);
        let stroke = shown.stroke.as_ref().map(pen).unwrap_or_default();
        let _ = writeln!(self.body, "<path d=\"{}\" fill=\"{fill}\"{stroke}/>", path(&pieces));
    }

    fn image(&mut self, placed: &PlacedImage) -> Result<(), Problem> {
        self.end_beads();
        let Ok(plain) = placed.image.file.plain(placed.wanted()) else {
            return placed.image.problem().map_or(Ok(()), Err);
        };
        let (w, h) = (placed.size.width.pt().0, placed.size.height.pt().0);
        let (x, y) = (placed.at.x.pt().0, placed.at.y.pt().0);
        // The turn is told with y upwards and the foot as origin; here y runs down from the top.
        let [a, b, c, d, e, f] = placed.image.file.turn().matrix();
        let placing = [w * a, -h * b, -w * c, h * d, x + w * (c + e), y + h * (1.0 - d - f)];
        let _ = writeln!(
            self.body,
            "<image width=\"1\" height=\"1\" preserveAspectRatio=\"none\" transform=\"{}\" xlink:href=\"{}\"/>",
            matrix(placing),
            images::data(&plain)
        );
        Ok(())
    }
}

fn pen(stroke: &Stroke) -> String {
    let width = decimals(stroke.width.pt().0, 3);
    let mut out = format!(" stroke=\"{}\" stroke-width=\"{width}\"", hex(stroke.colour));
    if stroke.round {
        out.push_str(" stroke-linecap=\"round\" stroke-linejoin=\"round\"");
    } else {
        // As a PDF bounds its mitres where nothing else is said (ISO 32000-1, 8.4.3.5).
        out.push_str(" stroke-miterlimit=\"10\"");
    }
    if !stroke.dash.is_empty() {
        let dash: Vec<String> = stroke.dash.iter().map(|d| points(*d)).collect();
        let _ = write!(out, " stroke-dasharray=\"{}\"", dash.join(" "));
    }
    out
}
