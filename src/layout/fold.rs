//! Pages two up on sheets, to be printed on both sides, laid on one another, folded in the middle and stapled there.

use super::fragment::{moved, shift};
use super::{Artifact, DisplayList, Item, Link, Page, Paint, Path, Standing, Target, TickBox};
use crate::colour::Colour;
use crate::drawn::{Segment, Stroke};
use crate::units::{Mm, Point, Size};

/// Length, width and colour of the marks that show where to fold.
const MARK: (Mm, Mm, Colour) = (Mm(5.0), Mm(0.15), Colour::new(0x80, 0x80, 0x80));

/// The two pages, from 0, on each side of each sheet: front and back of the outermost, then of the next, left page
/// before right one. `None` is left blank: sheets have four pages, and what is missing is missing at the end.
fn sides(pages: usize) -> Vec<[Option<usize>; 2]> {
    let all = pages.div_ceil(4) * 4;
    let page = |number: usize| (number < pages).then_some(number);
    (0..all / 2)
        .map(|side| {
            let (near, far) = (page(side), page(all - 1 - side));
            // On fronts the nearer page is the right one, on backs the left one.
            if side % 2 == 0 { [far, near] } else { [near, far] }
        })
        .collect()
}

/// A display list with its pages on sheets twice as wide. What belongs to what, and in which order it is read, stays as it
/// was; links and bookmarks lead to the sheets. `marks`: whether the fold is shown at the edges.
#[must_use]
pub fn folded(mut list: DisplayList, marks: bool) -> DisplayList {
    let sides = sides(list.pages.len());
    let mut place = vec![0; list.pages.len()];
    for (side, pages) in sides.iter().enumerate() {
        pages.iter().flatten().for_each(|page| place[*page] = side);
    }
    let mut pages: Vec<Option<Page>> = std::mem::take(&mut list.pages).into_iter().map(Some).collect();
    let single = pages
        .iter()
        .flatten()
        .map(|page| page.size)
        .next()
        .unwrap_or(Size { width: Mm(1.0), height: Mm(1.0) });
    list.pages = sides
        .iter()
        .map(|both| {
            let [left, right] = both.map(|page| page.and_then(|page| pages.get_mut(page)?.take()));
            sheet(single, [left, right], &place, marks)
        })
        .collect();
    for bookmark in &mut list.bookmarks {
        bookmark.page = place[bookmark.page];
    }
    list
}

/// One side of a sheet.
fn sheet(single: Size, pages: [Option<Page>; 2], place: &[usize], marks: bool) -> Page {
    let width = single.width * 2.0;
    let mut sheet = Page {
        size: Size { width, height: single.height },
        label: String::new(),
        section: String::new(),
        running: false,
        items: Vec::new(),
        links: Vec::new(),
        ticks: Vec::new(),
    };
    let mut labels = Vec::new();
    for (page, dx) in pages.into_iter().zip([Mm::ZERO, single.width]) {
        let Some(page) = page else { continue };
        labels.push(page.label);
        sheet.running |= page.running;
        if sheet.section.is_empty() {
            sheet.section = page.section;
        }
        sheet.items.extend(page.items.into_iter().map(|mut item| {
            shift(&mut item.paint, dx, Mm::ZERO);
            item
        }));
        let link = |link: Link| Link {
            at: moved(link.at, dx, Mm::ZERO),
            target: on_sheets(link.target, place),
            ..link
        };
        sheet.links.extend(page.links.into_iter().map(link));
        let tick = |tick: TickBox| TickBox { at: moved(tick.at, dx, Mm::ZERO), ..tick };
        sheet.ticks.extend(page.ticks.into_iter().map(tick));
    }
    sheet.label = labels.join(", ");
    if marks {
        sheet.items.extend(fold_marks(single));
    }
    sheet
}

fn on_sheets(target: Target, place: &[usize]) -> Target {
    match target {
        Target::Page { page, y } => Target::Page { page: place[page], y },
        web @ Target::Web(_) => web,
    }
}

/// Short lines at the upper and the lower edge, where the fold is.
fn fold_marks(single: Size) -> impl Iterator<Item = Item> {
    let (length, width, colour) = MARK;
    let x = single.width;
    [(Mm::ZERO, length), (single.height - length, single.height)].into_iter().map(move |(from, to)| Item {
        standing: Standing::Artifact(Artifact::Layout),
        layer: None,
        paint: Paint::Path(Path {
            segments: vec![Segment::Move(Point { x, y: from }), Segment::Line(Point { x, y: to })],
            fill: None,
            stroke: Some(Stroke { colour, width, dash: Vec::new(), round: false }),
        }),
    })
}

#[cfg(test)]
mod tests {
    use super::sides;

    /// The pages of a folded and stapled pile of sheets in the order in which a reader turns them: the right half of
    /// fronts from the outside in, each with its back, then the left halves from the inside out.
    fn read(sides: &[[Option<usize>; 2]]) -> Vec<Option<usize>> {
        let sheets: Vec<_> = sides.chunks(2).map(|sheet| (sheet[0], sheet[1])).collect();
        let inwards = sheets.iter().flat_map(|(front, back)| [front[1], back[0]]);
        let outwards = sheets.iter().rev().flat_map(|(front, back)| [back[1], front[0]]);
        inwards.chain(outwards).collect()
    }

    #[test]
    fn pages_follow_one_another_when_the_sheets_are_folded() {
        for pages in 1..=60 {
            let sides = sides(pages);
            assert_eq!(sides.len() % 2, 0, "{pages}");
            let order = read(&sides);
            assert_eq!(order.len(), pages.div_ceil(4) * 4);
            let expected = (0..order.len()).map(|page| (page < pages).then_some(page));
            assert!(order.into_iter().eq(expected), "{pages}");
        }
    }

    #[test]
    fn inner_sides_face_one_another() {
        // Eight pages on two sheets, as any book on imposition shows it: 8 1, 2 7, 6 3, 4 5.
        assert_eq!(
            sides(8),
            [[Some(7), Some(0)], [Some(1), Some(6)], [Some(5), Some(2)], [Some(3), Some(4)]]
        );
        assert_eq!(sides(6), [[None, Some(0)], [Some(1), None], [Some(5), Some(2)], [Some(3), Some(4)]]);
    }
}
