//! Numbers of rows, strands and steps and marks of anchors lead from chart to words and back, and look as their words do.

use crate::support::{editions, made};
use fringebook::booklet::{self, BenchEarring, Wording};
use fringebook::design::{Design, Paper};
use fringebook::layout::{DisplayList, Item, NodeId, Page, Paint, Role, Standing, Target, lay_out};
use fringebook::stitch::{Work, stitch};
use fringebook::tally::tally;
use fringebook::units::Mm;
use std::collections::BTreeSet;

/// How far below the place that a link leads to its words stand at most, in millimetres: what is shown above them, and
/// their own height.
const NEAR: f64 = 18.0;

const ON_CHART: &str = "on the colour chart";
const IN_ROWS: &str = "in the word chart";
const IN_STRANDS: &str = "in the bead list";

fn booklet(design: &Design, work: &Work, large_print: bool) -> DisplayList {
    let tally = tally(design, work);
    let wording = Wording::built_in("en").expect("it is built in");
    let edition = booklet::Edition { large_print, ..editions::plain(Paper::A4) };
    let composed = booklet::compose(design, work, &tally, &wording, &edition).expect("composed");
    lay_out(&composed).expect("every glyph is there")
}

fn demo(slug: &str) -> Design {
    made::demos().into_iter().find(|design| design.slug == slug).expect("a demo")
}

fn said(item: &Item) -> Option<(String, Mm)> {
    match &item.paint {
        Paint::Glyphs(glyphs) => {
            Some((glyphs.glyphs.iter().map(|glyph| glyph.text.as_str()).collect(), glyphs.at.y))
        }
        _ => None,
    }
}

/// The words of a link; nothing else may be painted in it.
fn words_of(page: &Page, node: NodeId) -> String {
    let own = page.items.iter().filter(|item| item.standing == Standing::Content(node));
    let words: String = own.map(|item| said(item).expect("words alone").0).collect();
    words.trim().to_owned()
}

/// Whether words stand where a link leads.
fn stands_there(list: &DisplayList, target: &Target, words: &str) -> bool {
    let Target::Page { page, y } = target else { return false };
    let there = list.pages[*page].items.iter().filter_map(said);
    let mut near = there.filter(|(_, at)| *at >= *y && at.0 <= y.0 + NEAR);
    near.any(|(text, _)| text.split(|c: char| !c.is_alphanumeric()).any(|part| part == words))
}

#[derive(Default)]
struct Met {
    rows: BTreeSet<String>,
    strands: BTreeSet<String>,
    marks: BTreeSet<String>,
}

/// Follows every link that stands for a number or a mark.
fn follow(list: &DisplayList, name: &str) -> (Met, Met, BTreeSet<String>, BTreeSet<String>) {
    let (mut on_chart, mut in_words) = (Met::default(), Met::default());
    let (mut to_steps, mut from_steps) = (BTreeSet::new(), BTreeSet::new());
    for page in &list.pages {
        for link in &page.links {
            let words = words_of(page, link.node);
            assert_eq!(list.nodes[link.node.0].role, Role::Link, "{name}: {words}");
            let (first, leads) = link.alt.split_once(", ").unwrap_or((&link.alt, ""));
            let (what, number) = first.split_once(' ').unwrap_or(("", first));
            let parent = &list.nodes[list.nodes[link.node.0].parent.expect("a parent").0].role;
            match (what, leads) {
                ("Row", ON_CHART) => on_chart.rows.insert(number.to_owned()),
                ("Row", IN_ROWS) => in_words.rows.insert(number.to_owned()),
                ("Strand", ON_CHART) => on_chart.strands.insert(number.to_owned()),
                ("Strand", IN_STRANDS) => in_words.strands.insert(number.to_owned()),
                ("", ON_CHART) => on_chart.marks.insert(number.to_owned()),
                ("Step", "") => {
                    in_words.marks.extend(words.split(", ").map(str::to_owned));
                    to_steps.insert(number.to_owned())
                }
                _ => continue,
            };
            assert!(stands_there(list, &link.target, number), "{name}: `{words}` leads to {}", link.alt);
            if *parent == Role::Heading(2) {
                from_steps.insert(words);
            }
        }
    }
    (on_chart, in_words, to_steps, from_steps)
}

#[test]
fn rows_strands_steps_and_marks_lead_to_the_chart_and_back() {
    for design in made::demos() {
        for large_print in [false, true] {
            let work = stitch(&design);
            let list = booklet(&design, &work, large_print);
            let name = format!("{} {large_print}", design.slug);
            let (on_chart, in_words, to_steps, from_steps) = follow(&list, &name);
            let rows: BTreeSet<String> = work.rows.iter().map(|row| row.number.to_string()).collect();
            let strands: BTreeSet<String> = work.strands.iter().map(|s| s.number.to_string()).collect();
            assert_eq!((&on_chart.rows, &in_words.rows), (&rows, &rows), "{name}");
            // Every strand of the chart leads to the line that tells it, which leads back to its first.
            assert!(in_words.strands.is_subset(&on_chart.strands), "{name}");
            let from_chart = list.pages.iter().flat_map(|page| &page.links);
            let numbers = from_chart.filter(|link| link.alt.ends_with(IN_STRANDS)).count();
            assert!(numbers >= strands.len(), "{name}: {numbers}");
            let marks = on_chart.marks.len();
            assert_eq!(marks, work.anchors.len(), "{name}: {:?}", on_chart.marks);
            assert!(on_chart.marks.is_subset(&in_words.marks), "{name}: {:?}", in_words.marks);
            let steps = list.bookmarks.iter().filter(|bookmark| {
                bookmark.level == 2 && bookmark.title.starts_with(|c: char| c.is_ascii_digit())
            });
            assert_eq!(from_steps.len(), steps.count(), "{name}");
            assert!(to_steps.is_subset(&from_steps), "{name}: {to_steps:?}");
        }
    }
}

#[test]
fn numbers_and_marks_look_as_they_did() {
    let design = demo("heron-at-dusk");
    let list = booklet(&design, &stitch(&design), false);
    for page in &list.pages {
        for link in page.links.iter().filter(|link| link.alt.contains(", ")) {
            // No line lies under them.
            let foot = link.at.y + link.size.height;
            let lies = |item: &&Item| match &item.paint {
                Paint::Path(path) if item.layer.is_none() => {
                    let points: Vec<_> = path.segments.iter().flat_map(|s| s.points()).collect();
                    let inside = |y: Mm| y > link.at.y && y < foot;
                    let within = points
                        .iter()
                        .all(|p| inside(p.y) && p.x >= link.at.x && p.x <= link.at.x + link.size.width);
                    path.stroke.is_some() && within
                }
                _ => false,
            };
            assert_eq!(page.items.iter().filter(lies).count(), 0, "{}", link.alt);
        }
    }
}

#[test]
fn what_is_not_in_the_booklet_is_no_link() {
    use fringebook::booklet::SectionName;
    use std::borrow::Cow;
    let design = demo("heron-at-dusk");
    let work = stitch(&design);
    let mut wording = Wording::built_in("en").expect("it is built in");
    wording.language.order = Cow::Borrowed(&[SectionName::Rows, SectionName::Strands]);
    let composed =
        booklet::compose(&design, &work, &tally(&design, &work), &wording, &editions::plain(Paper::A4));
    let list = lay_out(&composed.expect("composed")).expect("every glyph is there");
    assert!(list.pages.iter().all(|page| page.links.is_empty()));
    assert!(list.nodes.iter().all(|node| node.role != Role::Link));
    let times = fringebook::paint::Times::of(None, Some(0));
    fringebook::paint::pdf(&list, &times).expect("it can be painted");
}

#[test]
fn bench_copies_have_boxes_and_no_such_links() {
    let design = demo("heron-at-dusk");
    let (work, wording) = (stitch(&design), Wording::built_in("en").expect("it is built in"));
    let tally = tally(&design, &work);
    let earring = BenchEarring { number: 1, design: &design, work: &work, tally: &tally };
    let copy = booklet::bench(&[earring], &wording, &editions::plain(Paper::A4), None).expect("composed");
    let list = lay_out(&copy).expect("every glyph is there");
    assert!(list.pages.iter().all(|page| page.links.is_empty()));
}
