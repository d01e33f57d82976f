//! Pages chosen against every choice that there is.

use super::{Begins, Float, Line, Measure, Shown, Stretch, fit, height};
use crate::units::Mm;
use proptest::prelude::*;

const ROOM: Mm = Mm(100.0);

fn slab(height: u8, begins: Begins, tied: bool) -> Measure {
    let height = Mm(f64::from(height));
    Measure { height, least: height, before: Mm(4.0), after: Mm(3.0), tied, begins, ..Measure::default() }
}

/// A line that begins with a section; of every piece that is set in two ways, the second way is another height.
fn lines() -> impl Strategy<Value = Line> {
    let begins = prop_oneof![4 => Just(Begins::Nothing), 1 => Just(Begins::Part), 2 => Just(Begins::Section)];
    let piece = (5u8..70, begins, proptest::bool::weighted(0.2), proptest::option::weighted(0.3, 5u8..70));
    proptest::collection::vec(piece, 1..8).prop_map(|pieces| {
        let mut line = Line::default();
        for (index, (height, begins, tied, other)) in pieces.into_iter().enumerate() {
            let begins = if index == 0 { Begins::Section } else { begins };
            let mut starts = vec![line.slabs.len()];
            for height in [Some(height), other].into_iter().flatten() {
                line.slabs.push(slab(height, begins, tied && other.is_none()));
                starts.push(line.slabs.len());
            }
            if starts.len() > 2 {
                line.versions.push(starts);
            }
        }
        line
    })
}

fn floats() -> impl Strategy<Value = Vec<Float>> {
    let float = (10u8..60, 1usize..4, 0usize..8).prop_map(|(height, home, further)| Float {
        height: Mm(f64::from(height)),
        before: Mm(5.0),
        home,
        until: home + further,
        shown_with: None,
    });
    proptest::collection::vec(float, 0..3)
}

/// Every way through the line, each piece in one version.
fn paths(line: &Line) -> Vec<Vec<usize>> {
    let mut paths = vec![Vec::new()];
    let mut at = 0;
    while at < line.slabs.len() {
        let starts = line.versions.iter().find(|starts| starts[0] == at).map(Vec::as_slice);
        let (choices, next) = match starts {
            Some([starts @ .., end]) => (starts.to_vec(), *end),
            _ => (vec![at], at + 1),
        };
        let longer = |path: &Vec<usize>| {
            choices.iter().map(|choice| [path.as_slice(), &[*choice]].concat()).collect::<Vec<_>>()
        };
        paths = paths.iter().flat_map(longer).collect();
        at = next;
    }
    paths
}

fn whole(line: &Line, floats: &[Float], page: &Stretch) -> Mm {
    let float = |float: &usize| {
        let Float { height, before, .. } = floats[*float];
        Measure { height, least: height, before, after: before, ..Measure::default() }
    };
    let all: Vec<Measure> =
        page.slabs.iter().map(|slab| line.slabs[*slab]).chain(page.floats.iter().map(float)).collect();
    height(all.iter())
}

fn ends_section(line: &Line, path: &[usize], end: usize) -> bool {
    path.get(end).is_none_or(|slab| line.slabs[*slab].begins == Begins::Section)
}

/// Whether floats on a page stand no further from their own section than they may.
fn in_reach(line: &Line, floats: &[Float], path: &[usize], page: &Stretch, end: usize) -> bool {
    let begun = path[..end].iter().filter(|slab| line.slabs[**slab].begins == Begins::Section).count();
    page.floats.iter().all(|float| begun <= floats[*float].until)
}

/// Whether some choice of pages leaves none half empty but the last, and parts nothing that is tied.
fn can_be_full(line: &Line, floats: &[Float], path: &[usize], from: usize, left: &[usize]) -> bool {
    if from == path.len() && left.is_empty() {
        return true;
    }
    for to in from..=path.len() {
        let tied =
            to > from && to < path.len() && line.slabs[path[to - 1]].tied && !ends_section(line, path, to);
        for chosen in 0..1usize << left.len() {
            let floating = |yes: bool| move |(index, _): &(usize, &usize)| (chosen >> index & 1 == 1) == yes;
            let of = |yes| {
                left.iter().enumerate().filter(floating(yes)).map(|(_, float)| *float).collect::<Vec<_>>()
            };
            let page = Stretch { slabs: path[from..to].to_vec(), floats: of(true), empty: None };
            let nothing = page.slabs.is_empty() && (page.floats.is_empty() || from == 0);
            let astray = !page.floats.is_empty()
                && (to == 0 || !ends_section(line, path, to) || !in_reach(line, floats, path, &page, to));
            let height = whole(line, floats, &page);
            let is_last = to == path.len();
            let empty = !is_last && height < ROOM * 0.515;
            if nothing || astray || tied || height > ROOM || empty {
                continue;
            }
            if can_be_full(line, floats, path, to, &of(false)) {
                return true;
            }
        }
    }
    false
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_stands_once_in_order_on_pages_that_hold_it(line in lines(), floats in floats()) {
        let pages = fit(&line, &floats, ROOM);
        let path: Vec<usize> = pages.iter().flat_map(|page| page.slabs.clone()).collect();
        prop_assert!(paths(&line).contains(&path), "{path:?}");
        let mut placed: Vec<usize> = pages.iter().flat_map(|page| page.floats.clone()).collect();
        placed.sort_unstable();
        prop_assert!(placed.into_iter().eq(0..floats.len()));
        let mut end = 0;
        for page in &pages {
            end += page.slabs.len();
            prop_assert!(page.floats.is_empty() || ends_section(&line, &path, end));
            prop_assert!(in_reach(&line, &floats, &path, page, end));
            prop_assert!(whole(&line, &floats, page) <= ROOM + Mm(0.01));
        }
    }

    #[test]
    fn no_page_is_half_empty_where_none_must_be(line in lines(), floats in floats()) {
        let pages = fit(&line, &floats, ROOM);
        let left: Vec<usize> = (0..floats.len()).collect();
        if paths(&line).iter().any(|path| can_be_full(&line, &floats, path, 0, &left)) {
            prop_assert!(pages.iter().all(|page| page.empty.is_none()), "{pages:?}");
        }
    }
}

#[test]
fn a_section_that_faces_another_is_put_on_a_right_page() {
    // A page, then one section of a page and one that faces it; what floats fills the page that this takes.
    let section = |height: u8| slab(height, Begins::Section, false);
    let faces = Measure { faces: true, ..section(80) };
    let line = Line { slabs: vec![section(90), section(60), section(90), faces], versions: Vec::new() };
    let pages = fit(&line, &[], ROOM);
    assert_eq!(pages.len(), 4, "as it falls, the fourth page is a left one: {pages:?}");
    let float = Float { height: Mm(70.0), before: Mm(5.0), home: 2, until: 4, shown_with: None };
    let pages = fit(&line, &[float], ROOM);
    assert_eq!(pages.iter().position(|page| page.slabs.contains(&3)), Some(4), "{pages:?}");
}

#[test]
fn what_floats_faces_the_section_that_it_is_shown_with() {
    // A cover, a chart, its words, a list that another chart is shown with, and what the chart could fill.
    let section = |height: u8| slab(height, Begins::Section, false);
    let chart =
        |pages: &[Stretch]| pages.iter().position(|page| !page.floats.is_empty()).expect("it is placed");
    let list = |pages: &[Stretch], first| pages.iter().position(|page| page.slabs.contains(&first));
    let pages_of = |before: usize| {
        let covers = (0..before).map(|_| section(90));
        let slabs: Vec<Measure> =
            covers.chain([section(90), section(90), section(90), section(30), section(90)]).collect();
        let (first, next) = (before + 2, before + 3);
        let shown_with = Some(Shown::Facing { first, next });
        let float = Float { height: Mm(60.0), before: Mm(5.0), home: before + 1, until: next, shown_with };
        let pages = fit(&Line { slabs, versions: Vec::new() }, &[float], ROOM);
        let list = list(&pages, first).expect("it is there");
        (chart(&pages), list)
    };
    // Pages are counted from 0 here, and the first is a right one.
    let (chart, list) = pages_of(1);
    assert_eq!((chart.min(list) % 2, chart.abs_diff(list)), (1, 1), "{chart} {list}");
    // Where no choice makes them face each other, it still stands among the pages that belong together.
    let (chart, list) = pages_of(2);
    assert!(chart > 1 && chart <= list + 1, "{chart} {list}");
}

/// A ruler for a strand of half a metre is one; it must not take all other pages with it.
#[test]
fn what_is_higher_than_a_page_has_one_to_itself() {
    let high = Measure { height: Mm(250.0), least: Mm(250.0), ..Measure::default() };
    let slabs = vec![slab(40, Begins::Section, false), high, slab(30, Begins::Nothing, false)];
    let line = Line { slabs, versions: Vec::new() };
    let pages: Vec<Vec<usize>> = fit(&line, &[], ROOM).into_iter().map(|page| page.slabs).collect();
    assert_eq!(pages, [vec![0], vec![1], vec![2]]);
}
