//! From a stitched design to the bytes of a picture.

use super::digest::{MADE_PAGES, MADE_WARNINGS};
use super::missing;
use super::pipeline::{Made, Stitched, count};
use super::settings::{PictureSettings, Shows};
use super::ticks::Carried;
use crate::booklet::{self, Booklet, Edition, Plate, Shown, Telling, Wording};
use crate::colour::Colour;
use crate::design::Design;
use crate::diagnostic::{Problem, Severity};
use crate::layout::{self, DisplayList, Page, Paint};
use crate::paint;
use crate::screen::{self, Animation};

/// The grounds that have names: paper, and slate. `none` has no colour.
const LIGHT: Colour = Colour::new(0xf6, 0xf4, 0xf0);
const DARK: Colour = Colour::new(0x26, 0x29, 0x2e);

/// Names of the sections of which a fan shows the page with most beads beside the cover.
const FANNED: [&str; 4] = ["chart", "steps", "rows", "strands"];

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
    let pictured = Pictured { of, booklet: &booklet, wording, edition, picture };
    let pages = pictured.pages()?;
    let mut meta = booklet.meta.clone();
    meta.digest_parts.extend([
        (MADE_PAGES.to_owned(), made_pages(picture, pages.len()).to_string()),
        (MADE_WARNINGS.to_owned(), count(&of.problems, Severity::Warning).to_string()),
    ]);
    let packet = paint::picture_packet(&meta);
    let svgs = if picture.shows == Shows::Fan {
        let front: Vec<&Page> = pages.iter().collect();
        screen::fan(&front, pictured.set(), &meta.title, &packet).map(|svg| vec![svg])
    } else {
        pages.iter().map(|page| screen::page(page, picture.has_ground(), &meta.title, &packet)).collect()
    };
    let svgs = svgs.map_err(|problem| vec![problem])?;
    let bytes = match (picture.shows, picture.pixels) {
        (Shows::Moves { each, .. }, Some(across)) => Animation { svgs: &svgs, across, each, packet: &packet }
            .png()
            .map_err(|e| failed(e.to_string()))?,
        (_, Some(across)) => screen::png(&svgs[0], across, &packet).map_err(|e| failed(e.to_string()))?,
        (_, None) => svgs.concat().into_bytes(),
    };
    Ok(Made { bytes, pages: pages.len(), carried: Carried::default(), otherwise: false, advice: Vec::new() })
}

/// What a picture says it shows: a file that moves has a picture for each move, any other is one.
fn made_pages(picture: &PictureSettings, shown: usize) -> usize {
    if matches!(picture.shows, Shows::Moves { .. }) { shown } else { 1 }
}

/// What a picture is made of.
struct Pictured<'a> {
    of: &'a Stitched,
    booklet: &'a Booklet,
    wording: &'a Wording,
    edition: &'a Edition,
    picture: &'a PictureSettings,
}

impl Pictured<'_> {
    /// What it shows: never nothing. Of a step's moves one page for each.
    fn pages(&self) -> Result<Vec<Page>, Vec<Problem>> {
        let Pictured { of, wording, edition, .. } = self;
        let shown = match self.picture.shows {
            Shows::Pair => Shown::Pair,
            Shows::Detail => Shown::Detail,
            Shows::Colours => Shown::Colours,
            Shows::Page(number) => return Ok(vec![self.page(number)?]),
            Shows::Fan => return self.fan(),
            Shows::Step(number) => {
                let telling = self.telling(number)?;
                let plate = booklet::step((&of.design, &of.work, &telling), number, self.set());
                let plate = plate.ok_or_else(|| self.no_diagram(&telling, number))?;
                return Ok(vec![self.plate(&plate)?]);
            }
            Shows::Moves { step, .. } => {
                return self.moves(step)?.iter().map(|plate| self.plate(plate)).collect();
            }
            Shows::Move { step, done } => {
                let moves = self.moves(step)?;
                let plate = moves.get(done).ok_or_else(|| {
                    let most = moves.len().saturating_sub(1);
                    self.wrong(
                        format!("step {step} has no move {done}"),
                        format!("its pictures are 0 to {most}"),
                    )
                })?;
                return Ok(vec![self.plate(plate)?]);
            }
        };
        let made = (&of.design, &of.work, &of.tally);
        Ok(vec![self.plate(&booklet::plate(made, (wording, edition), shown, self.set()))?])
    }

    /// The cover, then pages that show what is in the booklet, those that sell it best first.
    fn fan(&self) -> Result<Vec<Page>, Vec<Problem>> {
        let mut list = self.set_pages()?;
        let title =
            |name: &str| self.booklet.sections.iter().find(|s| s.name == name).map(|s| s.title.as_str());
        let shown = FANNED.into_iter().filter_map(title);
        let beads =
            |page: &Page| page.items.iter().filter(|item| matches!(item.paint, Paint::Bead(_))).count();
        let richest = |title: &str| {
            let of = list.pages.iter().enumerate().filter(|(_, page)| page.section == title);
            of.rev().max_by_key(|(_, page)| beads(page)).map(|(number, _)| number)
        };
        let mut numbers: Vec<usize> = std::iter::once(0).chain(shown.filter_map(richest)).collect();
        // A booklet of other sections shows what comes first in it.
        let more: Vec<usize> = (1..list.pages.len()).filter(|number| !numbers.contains(number)).collect();
        numbers.extend(more.into_iter().take(1 + FANNED.len() - numbers.len()));
        let pages = std::mem::take(&mut list.pages);
        let mut pages: Vec<Option<Page>> = pages.into_iter().map(Some).collect();
        Ok(numbers.into_iter().filter_map(|number| pages.get_mut(number)?.take()).collect())
    }

    /// Ground and margin.
    fn set(&self) -> (Option<Colour>, f64) {
        let ground = match self.picture.ground.as_str() {
            "dark" => Some(DARK),
            "light" => Some(LIGHT),
            other => Colour::from_hex(other),
        };
        (ground, f64::from(self.picture.margin) / 100.0)
    }

    fn plate(&self, plate: &Plate) -> Result<Page, Vec<Problem>> {
        layout::lay_out_plate(self.booklet, plate).map_err(|gone| self.missing(&gone))
    }

    fn set_pages(&self) -> Result<DisplayList, Vec<Problem>> {
        layout::lay_out(self.booklet).map_err(|gone| self.missing(&gone))
    }

    fn missing(&self, gone: &[layout::MissingGlyph]) -> Vec<Problem> {
        missing::problems(gone, self.design(), self.wording)
    }

    fn page(&self, number: usize) -> Result<Page, Vec<Problem>> {
        let mut list = self.set_pages()?;
        let pages = list.pages.len();
        if number > pages {
            let hint = format!("its booklet has the pages 1 to {pages}");
            return Err(self.wrong(format!("there is no page {number}"), hint));
        }
        Ok(list.pages.swap_remove(number - 1))
    }

    /// The booklet's steps, if it has so many.
    fn telling(&self, step: usize) -> Result<Telling, Vec<Problem>> {
        let Pictured { of, wording, edition, .. } = self;
        let telling = booklet::telling(&of.design, &of.work, &of.tally, wording, edition)?;
        let steps = telling.count();
        if (1..=steps).contains(&step) {
            return Ok(telling);
        }
        Err(self.wrong(format!("there is no step {step}"), format!("its booklet has the steps 1 to {steps}")))
    }

    fn moves(&self, step: usize) -> Result<Vec<Plate>, Vec<Problem>> {
        let telling = self.telling(step)?;
        let moves = booklet::moves_of_step((self.design(), &self.of.work, &telling), step, self.set());
        if moves.is_empty() { Err(self.no_diagram(&telling, step)) } else { Ok(moves) }
    }

    fn no_diagram(&self, telling: &Telling, step: usize) -> Vec<Problem> {
        let with: Vec<String> = telling
            .diagrams()
            .enumerate()
            .filter(|(_, shown)| !shown.is_empty())
            .map(|(index, _)| (index + 1).to_string())
            .collect();
        let hint = format!("the steps with diagrams are {}", with.join(", "));
        self.wrong(format!("step {step} has no diagram"), hint)
    }

    fn wrong(&self, what: String, hint: String) -> Vec<Problem> {
        vec![Problem::error(format!("{}: {what}", self.design().slug)).hint(hint)]
    }

    fn design(&self) -> &Design {
        &self.of.design
    }
}
