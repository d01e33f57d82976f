//! A plate: a page that shows a drawing, or a part of one, and nothing else.

use super::drawing::scaled;
use super::fragment::{Fragment, filled};
use super::setter::Setter;
use super::tree::Tree;
use super::{MissingGlyph, Page};
use crate::booklet::{Booklet, Plate};
use crate::units::{Mm, Point};

/// Sets a drawing on a page of its own: as large as the page takes the part to be shown, in its middle. `booklet`
/// says how colours are printed.
///
/// # Errors
/// Every character that no built-in font has.
pub fn lay_out_plate(booklet: &Booklet, plate: &Plate) -> Result<Page, Vec<MissingGlyph>> {
    let mut setter = Setter::new(booklet);
    let (page, shown) = (plate.size, plate.shown);
    let ground = plate.ground.map(|ground| setter.printed(ground));
    let scale = (page.width / shown.width).min(page.height / shown.height);
    let drawn = setter.drawing_on(ground, &plate.drawing, scale, Tree::ROOT);
    let corner = scaled(plate.at, scale);
    let middle = |room: Mm, taken: Mm| (room - taken * scale) / 2.0;
    let at = Point {
        x: middle(page.width, shown.width) - corner.x,
        y: middle(page.height, shown.height) - corner.y,
    };
    let mut piece = Fragment::default();
    if let Some(ground) = ground {
        piece.rule(filled(Mm(0.0), Mm(0.0), page.width, page.height, ground));
    }
    piece.absorb(drawn, at.x, at.y);
    setter.missing_glyphs()?;
    Ok(Page {
        size: page,
        label: String::new(),
        section: String::new(),
        running: false,
        items: piece.items,
        links: Vec::new(),
        ticks: Vec::new(),
    })
}
