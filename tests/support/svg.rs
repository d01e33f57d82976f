//! A drawing as SVG, to be looked at: drawn as booklets draw it.

use super::booklets::{booklet, setting};
use fringebook::booklet::Plate;
use fringebook::colour::Colour;
use fringebook::design::Paper;
use fringebook::drawn::Drawing;
use fringebook::layout::lay_out_plate;
use fringebook::screen;
use fringebook::units::Point;

/// The drawing at its natural size.
pub fn svg(drawing: &Drawing) -> String {
    let plate = Plate {
        drawing: drawing.clone(),
        at: Point::default(),
        shown: drawing.size,
        size: drawing.size,
        ground: Some(Colour::WHITE),
    };
    let page = lay_out_plate(&booklet(setting(Paper::A4), Vec::new()), &plate).expect("every glyph is there");
    screen::page(&page, true, "", "").expect("no image is on it")
}
