//! Tablet editions: a row, strand or step a screen, everything large enough and within its page, and links on every page.

use crate::catalogue::Catalogue;
use crate::layout::probe::{Area, area, words};
use crate::support::{editions, made};
use fringebook::booklet::{self, Edition, Wording};
use fringebook::design::{Design, Paper};
use fringebook::drawn::Face;
use fringebook::layout::{DisplayList, NodeId, Page, Paint, Role, Standing, Target, lay_out};
use fringebook::stitch::{Work, stitch};
use fringebook::tally::tally;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

fn tablet(design: &Design, work: &Work, language: &str, grey: bool) -> DisplayList {
    let tally = tally(design, work);
    let wording = Wording::built_in(language).expect("it is built in");
    let edition = Edition { tablet: true, grey, ..editions::plain(Paper::A4) };
    let composed = booklet::compose(design, work, &tally, &wording, &edition).expect("composed");
    lay_out(&composed).unwrap_or_else(|missing| panic!("{}: {missing:?}", design.slug))
}

/// All demos as they are, begun at the other side, and mirrored.
fn designs() -> Vec<(Design, Work)> {
    let demos = made::demos();
    let right = demos.iter().map(|design| made::started_from_the_right(&design.slug));
    let mirrored = demos.iter().map(Design::mirrored);
    let all: Vec<Design> = right.chain(mirrored).collect();
    let all = demos.into_iter().chain(all);
    all.map(|design| (stitch(&design), design)).map(|(work, design)| (design, work)).collect()
}

/// The element above a node that is not a stretch or a link.
fn element(list: &DisplayList, mut node: NodeId) -> NodeId {
    while let (Role::Span | Role::Link, Some(above)) = (&list.nodes[node.0].role, list.nodes[node.0].parent) {
        node = above;
    }
    node
}

/// What each element of a page says, in its order.
fn said(list: &DisplayList, page: &Page) -> Vec<String> {
    let mut said: Vec<(NodeId, String)> = Vec::new();
    for item in &page.items {
        let (Standing::Content(node), Paint::Glyphs(glyphs)) = (item.standing, &item.paint) else { continue };
        let node = element(list, node);
        match said.iter_mut().find(|(other, _)| *other == node) {
            Some((_, text)) => {
                text.push(' ');
                text.push_str(&words(glyphs));
            }
            None => said.push((node, words(glyphs))),
        }
    }
    said.into_iter().map(|(_, text)| text).collect()
}

/// The beads that a screen says are picked up after a label, as letters: `3 A B` is `ABABAB`.
fn strung(said: &[String], label: &str) -> String {
    let mut letters = String::new();
    for text in said.iter().filter_map(|text| text.strip_prefix(label)) {
        let (mut count, mut run) = (1, String::new());
        for word in text.split_whitespace().chain(["1"]) {
            match word.parse::<usize>() {
                Ok(next) => {
                    letters.push_str(&run.repeat(count));
                    (count, run) = (next, String::new());
                }
                Err(_) => run.push_str(word),
            }
        }
    }
    letters
}

/// The pages on which bookmarks of level 2 lead to, by what these begin with.
fn screens(list: &DisplayList, first: &str) -> BTreeMap<String, usize> {
    let asked = list.bookmarks.iter().filter(|bookmark| bookmark.level == 2);
    let asked = asked.filter(|bookmark| bookmark.title.starts_with(first));
    asked.map(|bookmark| (bookmark.title.clone(), bookmark.page)).collect()
}

#[test]
fn every_row_loop_strand_and_step_has_a_screen_that_says_all_of_it() {
    for (design, work) in designs() {
        let list = tablet(&design, &work, "en", false);
        let name = &design.slug;
        let symbols = |letters: &[fringebook::design::LetterId]| design.symbols(letters);
        let mut taken = BTreeSet::new();
        for row in &work.rows {
            let title = format!("Row {}", row.number);
            let page = *screens(&list, &title).get(&title).unwrap_or_else(|| panic!("{name}: no {title}"));
            assert!(taken.insert(page), "{name}: {title} shares a page");
            let mut on: Vec<String> = said(&list, &list.pages[page]);
            for further in &list.pages[page + 1..] {
                let more = said(&list, further);
                if !more.iter().any(|text| text.starts_with(&format!("{title}, continued"))) {
                    break;
                }
                on.extend(more);
            }
            let letters: Vec<_> = row.pick_ups.iter().map(|spot| work.fabric[*spot].letter).collect();
            let told = format!("{}{}", strung(&on, "Start with "), strung(&on, "Then "));
            assert_eq!(told, symbols(&letters), "{name}: {title}");
        }
        let loops: Vec<_> = work.loops().collect();
        for (index, ring) in loops.iter().enumerate() {
            let title = if loops.len() > 1 { format!("Loop\u{a0}{}", index + 1) } else { "Loop".into() };
            let page = *screens(&list, &title).get(&title).unwrap_or_else(|| panic!("{name}: no {title}"));
            assert!(taken.insert(page), "{name}: {title} shares a page");
            let on = said(&list, &list.pages[page]);
            assert_eq!(strung(&on, "Pick up "), symbols(&work.loop_letters(*ring)), "{name}: {title}");
        }
        let mut strands = Vec::new();
        for (title, page) in screens(&list, "Strand") {
            if let Some(numbers) = title.strip_prefix("Strands ").or_else(|| title.strip_prefix("Strand ")) {
                assert!(taken.insert(page), "{name}: {title} shares a page");
                let ends: Vec<usize> = numbers.split('–').map(|n| n.parse().expect("a number")).collect();
                let (first, last) = (ends[0], ends[ends.len() - 1]);
                let on = said(&list, &list.pages[page]);
                let told = format!("{}{}", strung(&on, "From the body down "), strung(&on, "Turn "));
                for number in first..=last {
                    let strand =
                        work.strands.iter().find(|strand| strand.number == number).expect("a strand");
                    let runs = strand.runs.iter().chain(&strand.turn);
                    let own: String =
                        runs.map(|run| design.symbol(run.letter).to_string().repeat(run.count)).collect();
                    assert_eq!(told, own, "{name}: {title}");
                    strands.push(number);
                }
            }
        }
        strands.sort_unstable();
        assert_eq!(strands, (1..=work.strands.len()).collect::<Vec<_>>(), "{name}");
        let steps = list
            .bookmarks
            .iter()
            .filter(|b| b.level == 2 && b.title.starts_with(|c: char| c.is_ascii_digit()));
        let mut count = 0;
        for step in steps {
            assert!(taken.insert(step.page), "{name}: {} shares a page", step.title);
            count += 1;
        }
        assert!(count > 5, "{name}: {count} steps");
    }
}

#[test]
fn nothing_is_small_and_nothing_runs_over() {
    let demos = made::demos().len();
    designs().par_iter().enumerate().for_each(|(index, (design, work))| {
        // One language is enough for those that begin at the other side.
        let all = [("en", true), ("de", false), ("fr", false), ("es", false)];
        for (language, grey) in all.into_iter().take(if index < demos { 4 } else { 1 }) {
            let list = tablet(design, work, language, grey);
            let (top, foot) = (list.text_area.top.0, list.text_area.top.0 + list.text_area.height.0);
            for (index, page) in list.pages.iter().enumerate() {
                let name = format!("{} {language}, page {}", design.slug, index + 1);
                let size = (page.size.width.0, page.size.height.0);
                assert!((size.0 / size.1 - 4.0 / 3.0).abs() < 1e-9, "{name}: {size:?}");
                for item in &page.items {
                    let at = area(item);
                    assert!(at.left > -0.05 && at.right < size.0 + 0.05, "{name}: {at:?}");
                    assert!(at.top > -0.05 && at.bottom < size.1 + 0.05, "{name}: {at:?}");
                    let Standing::Content(node) = item.standing else { continue };
                    if let Paint::Glyphs(glyphs) = &item.paint {
                        let least = if glyphs.face == Face::Letters { 8.9 } else { 8.99 };
                        assert!(glyphs.size.0 > least, "{name}: “{}” at {:?}", words(glyphs), glyphs.size);
                    }
                    // The cover and the links at the foot have places of their own.
                    if page.running && list.nodes[node.0].role != Role::Link {
                        assert!(at.top > top - 0.6 && at.bottom < foot + 0.6, "{name}: {at:?} of {foot}");
                    }
                }
            }
        }
    });
}

/// What stands in the area of a link at the foot.
fn foot_links(page: &Page) -> BTreeMap<String, &Target> {
    let foot = page.size.height.0 - 12.5;
    let links = page.links.iter().filter(|link| link.at.y.0 > foot);
    links.map(|link| (link.alt.clone(), &link.target)).collect()
}

#[test]
fn every_screen_leads_on_back_to_the_contents_and_to_its_place_on_the_chart() {
    for (design, work) in designs() {
        let list = tablet(&design, &work, "en", false);
        let name = &design.slug;
        let last = list.pages.len() - 1;
        let contents = list.bookmarks.iter().find(|b| b.title == "At a glance").expect("contents").page;
        for (index, page) in list.pages.iter().enumerate() {
            let links = foot_links(page);
            let to = |words: &str| match links.get(words) {
                Some(Target::Page { page, .. }) => Some(*page),
                _ => None,
            };
            assert_eq!(to("← Back"), index.checked_sub(1), "{name} {index}");
            assert_eq!(to("Forward →"), Some(index + 1).filter(|_| index < last), "{name} {index}");
            assert_eq!(to("Contents"), Some(contents).filter(|page| *page != index), "{name} {index}");
            let chart = list.bookmarks.iter().find(|b| b.title == "Colour chart").expect("a chart").page;
            assert!(to("Chart").is_some() || index == chart, "{name} {index}");
            // No two of them lie over each other, and all can be met with a finger.
            let areas: Vec<Area> = page
                .links
                .iter()
                .filter(|link| link.at.y.0 > page.size.height.0 - 12.5)
                .map(|link| Area {
                    left: link.at.x.0,
                    right: (link.at.x + link.size.width).0,
                    top: link.at.y.0,
                    bottom: (link.at.y + link.size.height).0,
                })
                .collect();
            for (i, one) in areas.iter().enumerate() {
                assert!(one.right - one.left > 11.6 && one.bottom - one.top > 11.6, "{name}: {one:?}");
                assert!(!areas[i + 1..].iter().any(|other| other.meets(one)), "{name} {index}");
            }
        }
        // The chart of a row's screen is the page on which its number stands, of a strand's the one with its number.
        for row in &work.rows {
            let title = format!("Row {}", row.number);
            let page = screens(&list, &title)[&title];
            let Some(Target::Page { page: chart, .. }) = foot_links(&list.pages[page]).get("Chart").copied()
            else {
                panic!("{name}: {title} leads to no chart");
            };
            let arrows = [format!("{} →", row.number), format!("← {}", row.number)];
            let found = list.pages[*chart]
                .items
                .iter()
                .any(|item| matches!(&item.paint, Paint::Glyphs(glyphs) if arrows.contains(&words(glyphs))));
            assert!(found, "{name}: {title} leads to page {}", chart + 1);
        }
    }
}

#[test]
fn a_row_of_more_runs_than_a_screen_holds_goes_on_on_another() {
    let stacks = 150;
    let row: String = (0..stacks).map(|i| ["A ", "B ", "C "][(i * i + i / 7) % 3]).collect();
    let strands = vec!["3A 1B"; stacks].join(", ");
    let text = format!(
        "title: Wide\ncolours: {{A: ink, B: mist, C: ember}}\nbody:\n  picture: |\n    {row}\nfringe:\n  strands: [{strands}]\nhang: thread guard\n"
    );
    let files = [
        ("wide.yaml", text.as_str()),
        ("palette.yaml", crate::maker::PALETTE),
        ("studio.yaml", crate::maker::STUDIO),
    ];
    let read = fringebook::design::read_texts(&files, &fringebook::design::Wishes::default());
    let design = read.design.unwrap_or_else(|| panic!("{:?}", read.problems));
    let work = stitch(&design);
    let list = tablet(&design, &work, "en", false);
    let on: Vec<usize> = (0..list.pages.len())
        .filter(|page| said(&list, &list.pages[*page]).iter().any(|text| text.starts_with("Row 1")))
        .collect();
    let on: Vec<usize> = on.into_iter().filter(|page| list.pages[*page].section == "Word chart").collect();
    assert!(on.len() > 1, "{on:?}");
    let all: Vec<String> = on.iter().flat_map(|page| said(&list, &list.pages[*page])).collect();
    let told = format!("{}{}", strung(&all, "Start with "), strung(&all, "Then "));
    let letters: Vec<_> = work.rows[0].pick_ups.iter().map(|spot| work.fabric[*spot].letter).collect();
    assert_eq!(told, design.symbols(&letters));
}

#[test]
fn tablet_editions_are_made_remade_and_refused_where_they_make_no_sense() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["make", "heron.yaml", "--tablet"]);
    assert!(ran.well().out.starts_with("heron-tablet.pdf  "), "{}", ran.out);
    catalogue
        .run(&["make", "heron.yaml", "--tablet", "--grey", "--start", "right", "--language", "fr"])
        .ended(0);
    assert!(catalogue.bytes("heron-right-grey-fr-tablet.pdf").len() > 50_000);
    catalogue.edit("palette.yaml", "name: Mist", "name: Fog");
    let ran = catalogue.run(&["remake", "."]);
    assert!(ran.well().out.contains("heron-tablet.pdf "), "{}", ran.out);
    // The studio's paper and large print do not touch it.
    catalogue.edit("studio.yaml", "paper: a4", "paper: letter\nlarge print: true");
    let ran = catalogue.run(&["make", "heron.yaml", "--tablet"]);
    assert!(ran.well().out.starts_with("heron-tablet.pdf  "), "{}", ran.out);
    for (with, why) in [
        (&["--fold"][..], "nobody folds a screen"),
        (&["--paper", "a5"][..], "its pages are as large as a screen"),
        (&["--large-print"][..], "it is in large letters as it is"),
    ] {
        let asked = [&["make", "heron.yaml", "--tablet", "--out", "none"], with].concat();
        let ran = catalogue.run(&asked);
        assert!(ran.ended(2).err.contains(why), "{}", ran.err);
    }
    let ran = catalogue.run(&["bench", "heron.yaml", "--tablet"]);
    assert!(ran.ended(2).err.contains("its boxes can be ticked on a tablet as it is"), "{}", ran.err);
    let ran = catalogue.run(&["check", "heron.yaml", "--tablet", "--pages"]);
    assert!(ran.well().out.contains("heron.yaml, tablet: "), "{}", ran.out);
    assert!(!ran.out.contains("more than half empty"), "{}", ran.out);
}
