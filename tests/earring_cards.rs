//! Cards that a pair is sold on.

use crate::catalogue::Catalogue;
use crate::support::editions::plain;
use crate::support::made;
use fringebook::booklet::{Wording, earring_cards};
use fringebook::design::Paper;
use fringebook::layout::{DisplayList, Paint, Standing, lay_out};
use fringebook::stitch::stitch;
use fringebook::tally::tally;
use fringebook::units::Point;

/// Middles of the places to pierce on a page: of small circles, from left to right and down.
fn holes(list: &DisplayList, page: usize) -> Vec<Point> {
    let mut holes = Vec::new();
    for item in &list.pages[page].items {
        let Paint::Path(path) = &item.paint else { continue };
        // A circle is four curves between its first point and its end.
        if path.segments.len() == 6 {
            let points: Vec<Point> = path.segments.iter().flat_map(|segment| segment.points()).collect();
            let middle = |of: fn(&Point) -> f64| {
                let (low, high) =
                    points.iter().map(of).fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
                f64::midpoint(low, high)
            };
            holes.push(Point::new(middle(|p| p.x.0), middle(|p| p.y.0)));
        }
    }
    holes
}

#[test]
fn a_pair_hangs_on_its_card_without_touching() {
    let mut backs_below = 0;
    for design in made::demos() {
        let work = stitch(&design);
        let tally = tally(&design, &work);
        for (language, paper) in
            [("en", Paper::A4), ("de", Paper::Letter), ("fr", Paper::A4), ("es", Paper::Letter)]
        {
            let wording = Wording::built_in(language).expect("it is built in");
            let booklet = earring_cards(&design, &work, &tally, &wording, &plain(paper)).expect("cards");
            let list = lay_out(&booklet).expect("every glyph is there");
            assert_eq!(list.pages.len(), 2, "{}", design.slug);
            let holes = holes(&list, 0);
            assert!(holes.len() >= 2 && holes.len().is_multiple_of(2), "{}: {}", design.slug, holes.len());
            for pair in holes.chunks(2) {
                let apart = pair[1].x.0 - pair[0].x.0;
                // A few millimetres between the earrings, and they lie on the page.
                assert!((apart - tally.size.width.0 - 6.0).abs() < 1e-6 && pair[0].y == pair[1].y);
                let half = tally.size.width.0 / 2.0;
                assert!(pair[0].x.0 - half > 0.0 && pair[1].x.0 + half < list.pages[0].size.width.0);
                assert!(pair[0].y.0 + tally.size.drop.0 < list.pages[0].size.height.0);
            }
            // Nothing of the back is pierced: it stands below the places that pierce the front, unless the card has no
            // room to spare for that above its foot.
            let of_back = list.pages[1].items.iter().filter_map(|item| match (&item.standing, &item.paint) {
                (Standing::Content(_), Paint::Glyphs(glyphs)) => Some(glyphs.at.y.0),
                _ => None,
            });
            let mut lines: Vec<f64> = of_back.collect();
            lines.sort_by(f64::total_cmp);
            let spare = lines.windows(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max);
            let below = lines[0] > holes[0].y.0 + 2.0;
            assert!(below || spare < 24.0, "{} {language}: {spare}", design.slug);
            backs_below += usize::from(below);
            // One card of each sheet is told, the others repeat it.
            for page in &list.pages {
                let glyphs = |told: bool| {
                    let is = |standing: Standing| matches!(standing, Standing::Content(_)) == told;
                    page.items
                        .iter()
                        .filter(|i| is(i.standing) && matches!(i.paint, Paint::Glyphs(_)))
                        .count()
                };
                assert_eq!(glyphs(false), glyphs(true) * (holes.len() / 2 - 1), "{}", design.slug);
            }
        }
    }
    assert!(backs_below > 10, "{backs_below}");
}

#[test]
fn cards_are_made_and_remade() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["cards", "heron.yaml"]);
    assert!(ran.well().out.starts_with("heron-cards.pdf  2 pages  "), "{}", ran.out);
    catalogue.edit("studio.yaml", "name: Hollow Reed Studio", "name: Hollow Rush Studio");
    let ran = catalogue.run(&["remake", "."]);
    assert!(ran.well().out.contains("heron-cards.pdf  made") && ran.out.contains("studio"), "{}", ran.out);
}
