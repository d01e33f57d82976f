//! From a stitched design to the bytes of a picture.

use super::digest::{MADE_PAGES, MADE_WARNINGS};
use super::missing;
use super::pipeline::{Made, Stitched, count};
use super::settings::{PictureSettings, Shows};
use super::ticks::Carried;
use crate::booklet::{self, Booklet, Edition, Shown, Wording};
use crate::colour::Colour;
use crate::diagnostic::{Problem, Severity};
use crate::layout::{self, Page};
use crate::paint;
use crate::screen;

/// The grounds that have names: paper, and slate.
const LIGHT: Colour = Colour::new(0xf6, 0xf4, 0xf0);
const DARK: Colour = Colour::new(0x26, 0x29, 0x2e);

/// Draws a picture. It carries what it was made of as a booklet does, at its beginning.
///
/// # Errors
/// Everything that keeps it from being made.
pub(super) fn picture(
    of: &Stitched,
    wording: &Wording,
    edition: &Edition,
    picture: &PictureSettings,
) -> Result<Made, Vec<Problem>> {
    let design = &of.design;
    let failed = |what: String| vec![Problem::error(format!("{}: {what}", design.slug))];
    let booklet = booklet::compose(design, &of.work, &of.tally, wording, edition)?;
    let page = page(of, &booklet, (wording, edition), picture)?;
    let mut meta = booklet.meta;
    meta.digest_parts.extend([
        (MADE_PAGES.to_owned(), "1".to_owned()),
        (MADE_WARNINGS.to_owned(), count(&of.problems, Severity::Warning).to_string()),
    ]);
    let packet = paint::picture_packet(&meta);
    let svg = screen::page(&page, &meta.title, &packet).map_err(|problem| vec![problem])?;
    let bytes = match picture.pixels {
        None => svg.into_bytes(),
        Some(across) => screen::png(&svg, across, &packet).map_err(|e| failed(e.to_string()))?,
    };
    Ok(Made { bytes, pages: 1, carried: Carried::default() })
}

fn page(
    of: &Stitched,
    booklet: &Booklet,
    (wording, edition): (&Wording, &Edition),
    picture: &PictureSettings,
) -> Result<Page, Vec<Problem>> {
    let design = &of.design;
    let shown = match picture.shows {
        Shows::Pair => Shown::Pair,
        Shows::Detail => Shown::Detail,
        Shows::Colours => Shown::Colours,
        Shows::Page(number) => {
            let mut list =
                layout::lay_out(booklet).map_err(|gone| missing::problems(&gone, design, wording))?;
            let pages = list.pages.len();
            if number > pages {
                let problem = Problem::error(format!("{}: there is no page {number}", design.slug))
                    .hint(format!("its booklet has the pages 1 to {pages}"));
                return Err(vec![problem]);
            }
            return Ok(list.pages.swap_remove(number - 1));
        }
    };
    let ground = match picture.ground.as_str() {
        "dark" => DARK,
        other => Colour::from_hex(other).unwrap_or(LIGHT),
    };
    let margin = f64::from(picture.margin) / 100.0;
    let plate = booklet::plate((design, &of.work, &of.tally), (wording, edition), shown, (ground, margin));
    layout::lay_out_plate(booklet, &plate).map_err(|gone| missing::problems(&gone, design, wording))
}
