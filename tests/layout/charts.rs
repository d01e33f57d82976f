//! Charts: every bead once, letters that can be read, parts that cover the whole.

use super::probe::{area, pages, words};
use crate::support::booklets::{booklet, chart, para, section, setting};
use fringebook::booklet::{Block, Chart, ChartTicks, Setting};
use fringebook::design::Paper;
use fringebook::drawn::BeadLook;
use fringebook::layout::{Bead, DisplayList, Item, Layer, Page, Paint, Role};
use fringebook::units::Mm;

fn set(chart: Chart, large_print: bool) -> DisplayList {
    let mut setting = setting(Paper::A4);
    setting.large_print = large_print;
    let chart = Chart { legend: Vec::new(), ..chart };
    pages(&booklet(setting, vec![section("one", "One", vec![para("Before."), Block::Chart(chart)])]))
}

fn beads(page: &Page) -> impl Iterator<Item = &Bead> {
    page.items.iter().filter_map(|i| if let Paint::Bead(b) = &i.paint { Some(b) } else { None })
}

fn letters(page: &Page) -> usize {
    page.items
        .iter()
        .filter(|i| i.layer == Some(Layer::Letters))
        .filter_map(|i| if let Paint::Glyphs(g) = &i.paint { Some(g.glyphs.len()) } else { None })
        .sum()
}

#[test]
fn every_bead_is_flat_once_and_carries_its_letter() {
    for (stacks, strand, large) in
        [(9, 10, false), (17, 25, false), (90, 40, false), (60, 120, false), (17, 25, true), (30, 8, true)]
    {
        let whole = chart(stacks, strand);
        let mut expected: Vec<_> = whole.beads.iter().map(|b| b.colour).collect();
        let list = set(whole, large);
        let mut flat: Vec<_> = list
            .pages
            .iter()
            .flat_map(beads)
            .filter(|b| b.look == BeadLook::Flat)
            .map(|b| b.colour)
            .collect();
        expected.sort_unstable();
        flat.sort_unstable();
        assert_eq!(flat.len(), expected.len(), "{stacks} stacks, {strand} beads");
        assert_eq!(flat, expected, "{stacks} stacks, {strand} beads");
        for page in &list.pages {
            assert_eq!(letters(page), beads(page).count());
            for item in page.items.iter().filter(|i| i.layer == Some(Layer::Letters)) {
                let Paint::Glyphs(g) = &item.paint else { continue };
                let least = if large { 16.0 } else { 8.0 };
                assert!(g.size.0 >= least - 1e-9, "{stacks} stacks, {strand} beads: {:?}", g.size);
            }
        }
    }
}

#[test]
fn a_chart_too_large_for_a_page_is_split_with_overlap_a_map_and_an_alternative_for_each_part() {
    let list = set(chart(90, 40), false);
    let parts: Vec<&str> = list
        .nodes
        .iter()
        .filter_map(|n| if let Role::Figure { alt } = &n.role { Some(alt.as_str()) } else { None })
        .collect();
    assert!(parts.len() > 1);
    for (i, alt) in parts.iter().enumerate() {
        assert_eq!(*alt, format!("Colour chart (Part {} of {})", i + 1, parts.len()));
    }
    let repeated = list.pages.iter().flat_map(beads).filter(|b| b.look == BeadLook::Faded).count();
    assert!(repeated > 0, "parts share rows or stacks");
    let said = list
        .pages
        .iter()
        .flat_map(|p| &p.items)
        .filter(|i| matches!(&i.paint, Paint::Glyphs(g) if words(g).starts_with("Part ")))
        .count();
    assert_eq!(said, parts.len());
}

#[test]
fn no_part_of_a_split_chart_runs_off_its_page() {
    for (stacks, large) in [(17, true), (40, true), (90, false)] {
        for page in &set(chart(stacks, 12), large).pages {
            for item in &page.items {
                let area = area(item);
                assert!(area.left > 0.0 && area.right < page.size.width.0, "{stacks} stacks: {item:?}");
                assert!(area.top > 0.0 && area.bottom < page.size.height.0, "{stacks} stacks: {item:?}");
            }
        }
    }
}

#[test]
fn large_print_has_cells_of_seven_millimetres() {
    for stacks in [5, 17, 40] {
        let list = set(chart(stacks, 12), true);
        let least =
            list.pages.iter().flat_map(beads).map(|b| b.width.0.min(b.length.0)).fold(f64::MAX, f64::min);
        assert!(least >= 7.0 - 1e-6, "{stacks} stacks: {least}");
    }
}

#[test]
fn proportions_are_kept() {
    for page in &set(chart(21, 12), false).pages {
        for bead in beads(page) {
            assert!((bead.width.0 / bead.length.0 - 1.6 / 1.3).abs() < 1e-9);
        }
    }
}

#[test]
fn row_numbers_stand_on_the_side_where_the_row_starts() {
    let list = set(chart(9, 6), false);
    let page = &list.pages[0];
    let middle = page.size.width.0 / 2.0;
    for row in 1..=7 {
        let (text, left) =
            if row % 2 == 1 { (format!("{row} →"), true) } else { (format!("← {row}"), false) };
        let at = page
            .items
            .iter()
            .find_map(|i| match &i.paint {
                Paint::Glyphs(g) if words(g) == text => Some(g.at.x.0),
                _ => None,
            })
            .unwrap_or_else(|| panic!("no {text}"));
        assert_eq!(at < middle, left, "{text}");
    }
}

/// The chart with a box for every row and strand.
fn ticked(mut chart: Chart) -> Chart {
    chart.ticks = Some(ChartTicks {
        rows: chart.rows.iter().map(|row| (row.number, format!("row-{}", row.number))).collect(),
        strands: chart.strands.iter().map(|s| (s.number, format!("strand-{}", s.number))).collect(),
    });
    chart
}

#[test]
fn boxes_to_tick_have_names_of_their_own() {
    let ticked = ticked(chart(40, 80));
    let blocks = vec![Block::Chart(ticked.clone()), Block::Chart(ticked)];
    let list = pages(&booklet(setting(Paper::A4), vec![section("one", "One", blocks)]));
    let mut names: Vec<&str> = list.pages.iter().flat_map(|p| &p.ticks).map(|t| t.name.as_str()).collect();
    let all = names.len();
    assert!(all >= 2 * 38, "{all}");
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
}

#[test]
fn boxes_on_bench_copies_are_large_enough_for_a_pen() {
    for (stacks, beads, large_print) in [(40, 80, false), (9, 6, true)] {
        let ticked = ticked(chart(stacks, beads));
        let bench = Setting { bench: true, large_print, ..setting(Paper::A4) };
        let list = pages(&booklet(bench, vec![section("one", "One", vec![Block::Chart(ticked)])]));
        let ticks: Vec<_> = list.pages.iter().flat_map(|p| &p.ticks).collect();
        let of_strands: Vec<_> = ticks.iter().filter(|t| t.name.contains("strand")).collect();
        assert_eq!(!of_strands.is_empty(), large_print, "{stacks}");
        assert!(of_strands.iter().all(|t| t.side.0 >= 5.0), "{of_strands:?}");
    }
}

#[test]
fn small_charts_stand_side_by_side_and_drop_letters_too_small_to_read() {
    let small = |height| Block::Chart(Chart { max_height: Some(Mm(height)), ..chart(9, 12) });
    let list = pages(&booklet(
        setting(Paper::A4),
        vec![section("one", "One", vec![small(30.0), small(30.0), small(90.0)])],
    ));
    let page = &list.pages[0];
    assert_eq!(list.pages.len(), 1);
    let mut tops: Vec<i64> = list
        .nodes
        .iter()
        .enumerate()
        .filter(|(_, n)| n.role == Role::Figure { alt: "Colour chart".into() })
        .map(|(id, _)| {
            let top = page
                .items
                .iter()
                .filter(|i| {
                    i.standing == fringebook::layout::Standing::Content(fringebook::layout::NodeId(id))
                })
                .map(|i| super::probe::area(i).top)
                .fold(f64::MAX, f64::min);
            (top * 10.0).round() as i64
        })
        .collect();
    assert_eq!(tops.len(), 3);
    tops.dedup();
    assert_eq!(tops.len(), 1, "side by side: {tops:?}");
    let lettered = letters(page);
    assert_eq!(lettered, chart(9, 12).beads.len(), "only the largest of the three has letters");
}

#[test]
fn numbers_stand_beside_beads_even_where_wide_drops_hang() {
    for mut whole in [chart(15, 12), ticked(chart(15, 12))] {
        whole.anchors.clear();
        for strand in &mut whole.strands {
            let last = whole.beads.iter_mut().rfind(|b| b.centre.x == strand.x).expect("a bead");
            let grown = Mm(1.4);
            (last.width, last.length) = (Mm(2.9), last.length + grown);
            last.shape = fringebook::drawn::Shape::Drop;
            last.centre.y += grown / 2.0;
            strand.bottom += grown;
        }
        let list = set(whole, false);
        for page in &list.pages {
            let areas: Vec<_> = page
                .items
                .iter()
                .filter(|i| matches!(i.paint, Paint::Bead(_)))
                .map(super::probe::area)
                .collect();
            for item in page.items.iter().filter(|i| i.layer != Some(Layer::Letters)) {
                let Paint::Glyphs(g) = &item.paint else { continue };
                let a = super::probe::text_area(g);
                assert!(!areas.iter().any(|b| a.meets(b)), "“{}” {a:?}", words(g));
            }
            for tick in &page.ticks {
                let (left, top) = (tick.at.x.0, tick.at.y.0);
                let a =
                    super::probe::Area { left, top, right: left + tick.side.0, bottom: top + tick.side.0 };
                assert!(!areas.iter().any(|b| a.meets(b)), "{} {a:?}", tick.name);
            }
        }
    }
}

#[test]
fn marks_of_anchors_stand_clear_of_beads_and_of_other_text() {
    for (stacks, large) in [(9, false), (17, false), (9, true), (17, true)] {
        let mut marked = chart(stacks, 10);
        marked.anchors[0].mark = "iii".into();
        let list = set(marked, large);
        let is_mark = |i: &&Item| matches!(&i.paint, Paint::Glyphs(g) if words(g) == "iii");
        let page = list.pages.iter().find(|p| p.items.iter().any(|i| is_mark(&i))).expect("a mark");
        let mark = area(page.items.iter().find(is_mark).expect("a mark"));
        let others = page.items.iter().filter(|i| match &i.paint {
            Paint::Bead(_) => true,
            Paint::Glyphs(g) => words(g) != "iii",
            Paint::Path(_) | Paint::Image(_) => false,
        });
        for other in others.map(area) {
            assert!(!mark.meets(&other), "{stacks} {large}: {mark:?} {other:?}");
        }
    }
}

#[test]
fn a_chart_as_wide_as_its_column_is_split_into_bands_only() {
    // With boxes at both sides it just fits across Letter paper in large print.
    let ticked = ticked(Chart { anchors: Vec::new(), ..chart(17, 25) });
    let bench = Setting { bench: true, large_print: true, ..setting(Paper::Letter) };
    let list = pages(&booklet(bench, vec![section("one", "One", vec![Block::Chart(ticked)])]));
    let beside =
        |page: &Page, at: &Bead| beads(page).filter(|b| (b.centre.y - at.centre.y).0.abs() < 0.01).count();
    let widest = |page: &Page| beads(page).map(|b| beside(page, b)).max();
    let rows: Vec<usize> = list.pages.iter().filter_map(widest).collect();
    // Split across, no page would hold more than half of the foundation row.
    assert!(rows.len() > 1 && rows[1..].iter().all(|&n| n > 10) && rows.last() == Some(&17), "{rows:?}");
}
