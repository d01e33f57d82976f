//! Charts as they are printed: letters that can be read, body and fringe apart, and nothing over a letter.

use crate::layout::probe::{Area, area, pages, words};
use crate::support::{cases, made};
use fringebook::booklet::{BenchEarring, Booklet, Edition, SectionName, Wording, bench, compose};
use fringebook::design::{Design, Paper};
use fringebook::drawn::{BeadLook, Face, Segment, Shape};
use fringebook::layout::{
    Artifact, Bead, DisplayList, Glyphs, Item, Layer, Node, NodeId, Page, Paint, Role, Standing, face_bytes,
};
use fringebook::stitch::stitch;
use fringebook::tally::tally;
use fringebook::units::Point;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::borrow::Cow;
use std::collections::BTreeMap;

fn edition(paper: Paper, grey: bool, large_print: bool) -> Edition {
    Edition {
        paper,
        grey,
        large_print,
        tablet: false,
        stamp: None,
        digest: String::new(),
        digest_parts: Vec::new(),
        before: None,
    }
}

/// The pages with the chart alone.
fn chart(design: &Design, edition: &Edition) -> DisplayList {
    let mut wording = Wording::built_in("en").expect("English is built in");
    wording.language.order = Cow::Borrowed(&[SectionName::Chart]);
    let work = stitch(design);
    let tally = tally(design, &work);
    pages(&compose(design, &work, &tally, &wording, edition).expect("composed"))
}

fn beads(page: &Page) -> impl Iterator<Item = &Bead> {
    page.items.iter().filter_map(|i| if let Paint::Bead(b) = &i.paint { Some(b) } else { None })
}

fn glyphs_of(page: &Page) -> impl Iterator<Item = &Glyphs> {
    page.items.iter().filter_map(|i| if let Paint::Glyphs(g) = &i.paint { Some(g) } else { None })
}

/// The box of each glyph's ink, with what it stands for.
fn inked(glyphs: &Glyphs) -> Vec<(String, Area)> {
    let font = ttf_parser::Face::parse(face_bytes(glyphs.face), 0).expect("a font");
    let em = glyphs.size.mm().0;
    let unit = em / f64::from(font.units_per_em());
    let mut x = glyphs.at.x.0;
    let mut found = Vec::new();
    for glyph in &glyphs.glyphs {
        if let Some(ink) = font.glyph_bounding_box(ttf_parser::GlyphId(glyph.id)) {
            let across = |at: i16| x + f64::from(at) * unit;
            let down = |at: i16| glyphs.at.y.0 - f64::from(at) * unit;
            let box_of = Area {
                left: across(ink.x_min),
                right: across(ink.x_max),
                top: down(ink.y_max),
                bottom: down(ink.y_min),
            };
            found.push((glyph.text.to_string(), box_of));
        }
        x += glyph.advance / 1000.0 * em;
    }
    found
}

/// The letters on the beads of a chart.
fn letters(page: &Page) -> Vec<(String, Area)> {
    let on_beads = page.items.iter().filter(|i| i.layer == Some(Layer::Letters));
    let glyphs = on_beads.filter_map(|i| if let Paint::Glyphs(g) = &i.paint { Some(g) } else { None });
    glyphs.flat_map(inked).collect()
}

/// A line, bracket or frame: the boxes of its straight strokes.
#[derive(Debug)]
struct Line {
    strokes: Vec<Area>,
}

/// Lines and frames of a layer, as wide as they are stroked.
fn lines(page: &Page, layer: Layer) -> Vec<Line> {
    let of_layer = page.items.iter().filter(|i| i.layer == Some(layer));
    let paths = of_layer.filter_map(|i| if let Paint::Path(p) = &i.paint { Some(p) } else { None });
    paths
        .map(|path| {
            let half = path.stroke.as_ref().map_or(0.0, |s| s.width.0) / 2.0;
            let mut points = Vec::new();
            for segment in &path.segments {
                match segment {
                    Segment::Move(p) | Segment::Line(p) | Segment::Curve(_, _, p) => points.push(*p),
                    Segment::Close => points.extend(points.first().copied()),
                }
            }
            Line { strokes: points.windows(2).flat_map(|pair| stroke([pair[0], pair[1]], half)).collect() }
        })
        .collect()
}

/// The box of an upright or level stroke; short boxes along a slanting one.
fn stroke([a, b]: [Point; 2], half: f64) -> Vec<Area> {
    let slants = (a.x - b.x).abs().0 > 1e-6 && (a.y - b.y).abs().0 > 1e-6;
    let pieces = if slants { 40 } else { 1 };
    let at = |i: u32| {
        let share = f64::from(i) / f64::from(pieces);
        (a.x.0 + (b.x.0 - a.x.0) * share, a.y.0 + (b.y.0 - a.y.0) * share)
    };
    let piece = |i: u32| {
        let ((ax, ay), (bx, by)) = (at(i), at(i + 1));
        Area {
            left: ax.min(bx) - half,
            right: ax.max(bx) + half,
            top: ay.min(by) - half,
            bottom: ay.max(by) + half,
        }
    };
    (0..pieces).map(piece).collect()
}

/// Whether everything can be read: letters at 8 pt, all else at 7 pt, and in large print at 16 pt.
fn small(list: &DisplayList, large: bool) -> Result<(), String> {
    let (least, least_letter) = if large { (16.0, 16.0) } else { (7.0, 8.0) };
    for (number, page) in list.pages.iter().enumerate() {
        for glyphs in glyphs_of(page) {
            let on_bead = glyphs.face == Face::Letters;
            if glyphs.size.0 < if on_bead { least_letter } else { least } - 1e-6 {
                return Err(format!("page {number}: “{}” at {:?}", words(glyphs), glyphs.size));
            }
        }
    }
    Ok(())
}

/// What is wrong with the pages of a chart that any reader may see, if anything is.
fn wrong(list: &DisplayList, large: bool) -> Result<(), String> {
    small(list, large)?;
    for (number, page) in list.pages.iter().enumerate() {
        let letters = letters(page);
        for bar in lines(page, Layer::Grid) {
            if let Some((letter, at)) = letters.iter().find(|(_, at)| runs_through(&bar, at)) {
                return Err(format!("page {number}: {bar:?} runs through {letter} at {at:?}"));
            }
        }
        marks_are_clear(page, &letters).map_err(|what| format!("page {number}: {what}"))?;
        on_its_bead(page, &letters).map_err(|what| format!("page {number}: {what}"))?;
    }
    Ok(())
}

/// Frames, leaders and brackets run through no letter; marks lie on nothing, and nothing lies on them.
fn marks_are_clear(page: &Page, letters: &[(String, Area)]) -> Result<(), String> {
    let drawn = lines(page, Layer::Marks);
    for line in &drawn {
        if let Some((letter, at)) = letters.iter().find(|(_, at)| runs_through(line, at)) {
            return Err(format!("{line:?} runs through {letter} at {at:?}"));
        }
    }
    let texts: Vec<(bool, &Glyphs)> = page
        .items
        .iter()
        .filter_map(|i| match &i.paint {
            Paint::Glyphs(g) if i.layer != Some(Layer::Letters) => Some((i.layer == Some(Layer::Marks), g)),
            _ => None,
        })
        .collect();
    for (index, (_, mark)) in texts.iter().enumerate().filter(|(_, (is_mark, _))| *is_mark) {
        let own = area_of(mark);
        for (other, (_, text)) in texts.iter().enumerate() {
            if other != index && area_of(text).meets(&own) {
                return Err(format!("mark {} and “{}” meet", words(mark), words(text)));
            }
        }
        if let Some((letter, _)) = letters.iter().find(|(_, at)| at.meets(&own)) {
            return Err(format!("mark {} and letter {letter} meet", words(mark)));
        }
        if beads(page).any(|bead| area(&item_of(bead)).meets(&own)) {
            return Err(format!("mark {} lies on a bead", words(mark)));
        }
        if let Some(line) = drawn.iter().find(|line| runs_through(line, &own)) {
            return Err(format!("{line:?} runs through mark {}", words(mark)));
        }
    }
    Ok(())
}

/// Whether a line or frame has ink where something stands: a frame has none inside.
fn runs_through(line: &Line, at: &Area) -> bool {
    line.strokes.iter().any(|stroke| stroke.meets(at))
}

fn item_of(bead: &Bead) -> Item {
    let standing = Standing::Artifact(Artifact::Layout);
    Item { standing, layer: None, paint: Paint::Bead(bead.clone()) }
}

/// A letter stands on its own bead: the last that is painted under any of its ink is the one whose middle is nearest.
fn on_its_bead(page: &Page, letters: &[(String, Area)]) -> Result<(), String> {
    // Beads near a place, so that not every letter is held against every bead.
    let mut near: BTreeMap<(i64, i64), Vec<(usize, &Bead)>> = BTreeMap::new();
    let cell = |x: f64, y: f64| ((x / 20.0).floor() as i64, (y / 20.0).floor() as i64);
    for (order, bead) in beads(page).enumerate() {
        let (x, y) = cell(bead.centre.x.0, bead.centre.y.0);
        for (dx, dy) in (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (dx, dy))) {
            near.entry((x + dx, y + dy)).or_default().push((order, bead));
        }
    }
    for (letter, at) in letters {
        let (x, y) = (f64::midpoint(at.left, at.right), f64::midpoint(at.top, at.bottom));
        // A neighbour's very edge may touch it: loops and their row lie close.
        let edge = (at.bottom - at.top) * 0.04;
        let at = &Area {
            left: at.left + edge,
            right: at.right - edge,
            top: at.top + edge,
            bottom: at.bottom - edge,
        };
        let away = |bead: &Bead| (bead.centre.x.0 - x).hypot(bead.centre.y.0 - y);
        let covers = |bead: &&(usize, &Bead)| covers(bead.1, at);
        let Some(beads) = near.get(&cell(x, y)) else { return Err(format!("{letter} stands on no bead")) };
        let own = beads.iter().min_by(|a, b| away(a.1).total_cmp(&away(b.1)));
        let over = beads.iter().filter(covers).max_by_key(|(order, _)| *order);
        if let (Some(own), Some(over)) = (own, over)
            && own.0 < over.0
        {
            return Err(format!("{:?} covers {letter} at {at:?}", over.1));
        }
    }
    Ok(())
}

/// Whether an upright bead reaches over a place: a rounded one has no corners.
fn covers(bead: &Bead, at: &Area) -> bool {
    if bead.turned.to_radians().sin().abs() >= 0.1 {
        return false;
    }
    let (w, h) = (bead.width.0 / 2.0, bead.length.0 / 2.0);
    let (cx, cy) = (bead.centre.x.0, bead.centre.y.0);
    let boxed = Area { left: cx - w, right: cx + w, top: cy - h, bottom: cy + h };
    if bead.shape != Shape::Round {
        return boxed.meets(at);
    }
    // The point of the place that is nearest to the bead's middle.
    let (x, y) = (cx.clamp(at.left, at.right), cy.clamp(at.top, at.bottom));
    ((x - cx) / w).hypot((y - cy) / h) < 1.0
}

/// How body and fringe stand to each other, and the numbers of the strands between them, in each part of a chart.
fn fringe_is_apart(list: &DisplayList) -> Result<(), String> {
    for page in &list.pages {
        let mut parts: BTreeMap<NodeId, (Vec<&Glyphs>, Vec<&Bead>)> = BTreeMap::new();
        for item in &page.items {
            let Standing::Content(mut node) = item.standing else { continue };
            // A number is a link of its own within the chart, or a stretch where it leads nowhere.
            while let (Role::Link | Role::Span, Some(above)) =
                (&list.nodes[node.0].role, list.nodes[node.0].parent)
            {
                node = above;
            }
            match &item.paint {
                Paint::Bead(bead) => parts.entry(node).or_default().1.push(bead),
                Paint::Glyphs(g) if g.face == Face::Bold && words(g).chars().all(|c| c.is_ascii_digit()) => {
                    parts.entry(node).or_default().0.push(g);
                }
                _ => {}
            }
        }
        for (numbers, beads) in parts.values() {
            numbers_stand_apart(numbers, beads)?;
        }
    }
    Ok(())
}

fn numbers_stand_apart(numbers: &[&Glyphs], beads: &[&Bead]) -> Result<(), String> {
    let Some(first) = numbers.first() else { return Ok(()) };
    let line = first.at.y.0;
    for (i, number) in numbers.iter().enumerate() {
        if (number.at.y.0 - line).abs() > 1e-6 {
            return Err(format!("{} stands at {:?}, not at {line}", words(number), number.at));
        }
        let own = area_of(number);
        if let Some(other) = numbers[i + 1..].iter().find(|other| area_of(other).meets(&own)) {
            return Err(format!("{} and {} meet", words(number), words(other)));
        }
    }
    let cap = first.size.mm().0 * 0.6;
    let between = |bead: &&&Bead| {
        let half = bead.length.0 / 2.0;
        bead.centre.y.0 - half < line - 0.05 && bead.centre.y.0 + half > line - cap
    };
    // Every number has beads below it, and every part some that no part before it shows.
    for number in numbers {
        let own = area_of(number);
        let middle = f64::midpoint(own.left, own.right);
        if !beads.iter().any(|bead| (bead.centre.x.0 - middle).abs() < bead.width.0) {
            return Err(format!("{} stands over no bead", words(number)));
        }
    }
    if !beads.iter().any(|bead| bead.look == BeadLook::Flat) {
        return Err(format!("nothing is new over {line}"));
    }
    match beads.iter().find(between) {
        Some(bead) => Err(format!("{bead:?} stands among the numbers of the strands at {line}")),
        None => Ok(()),
    }
}

fn area_of(glyphs: &Glyphs) -> Area {
    crate::layout::probe::text_area(glyphs)
}

/// The marks of anchors that stand on no page.
fn lacking(list: &DisplayList, anchors: usize) -> Vec<String> {
    const ONES: [&str; 10] = ["", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix"];
    const TENS: [&str; 4] = ["", "x", "xx", "xxx"];
    let on_page = |page: &Page| -> Vec<String> {
        let marks = page.items.iter().filter(|i| i.layer == Some(Layer::Marks));
        let glyphs =
            marks.filter_map(|i| if let Paint::Glyphs(g) = &i.paint { Some(words(g)) } else { None });
        glyphs.flat_map(|text| text.split(", ").map(str::to_owned).collect::<Vec<_>>()).collect()
    };
    let found: Vec<String> = list.pages.iter().flat_map(on_page).collect();
    let marks = (1..=anchors.min(39)).map(|n| format!("{}{}", TENS[n / 10], ONES[n % 10]));
    marks.filter(|mark| !found.contains(mark)).collect()
}

fn check(design: &Design, edition: &Edition) {
    let list = chart(design, edition);
    let name =
        format!("{} {:?} grey {} large {}", design.slug, edition.paper, edition.grey, edition.large_print);
    wrong(&list, edition.large_print).unwrap_or_else(|what| panic!("{name}: {what}"));
    fringe_is_apart(&list).unwrap_or_else(|what| panic!("{name}: {what}"));
    let lacking = lacking(&list, stitch(design).anchors.len());
    assert!(lacking.is_empty(), "{name}: {lacking:?}");
}

#[test]
fn letters_can_be_read_in_every_edition_of_every_demo() {
    for design in made::demos() {
        for paper in [Paper::A4, Paper::Letter] {
            for (grey, large) in [(false, false), (true, false), (false, true)] {
                check(&design, &edition(paper, grey, large));
            }
        }
    }
}

#[test]
fn nothing_in_any_booklet_is_small() {
    let wording = Wording::built_in("de").expect("German is built in");
    for design in made::demos() {
        let work = stitch(&design);
        let tally = tally(&design, &work);
        for (paper, grey, large) in [
            (Paper::A4, false, false),
            (Paper::Letter, true, false),
            (Paper::A4, false, true),
            (Paper::Letter, true, true),
        ] {
            let edition = edition(paper, grey, large);
            let list = pages(&compose(&design, &work, &tally, &wording, &edition).expect("composed"));
            small(&list, large).unwrap_or_else(|what| panic!("{} {edition:?}: {what}", design.slug));
        }
    }
}

#[test]
fn letters_can_be_read_in_bodies_of_every_shape() {
    for (_, design) in crate::shapes::designs() {
        check(&design, &edition(Paper::A4, false, false));
        check(&design.mirrored(), &edition(Paper::Letter, false, true));
    }
}

#[test]
fn bench_copies_have_letters_as_large() {
    let wording = Wording::built_in("en").expect("English is built in");
    for design in made::demos() {
        let work = stitch(&design);
        let tally = tally(&design, &work);
        let earring = BenchEarring { number: 1, design: &design, work: &work, tally: &tally };
        for large in [false, true] {
            let made: Booklet =
                bench(&[earring], &wording, &edition(Paper::A4, false, large), None).expect("composed");
            let list = pages(&made);
            wrong(&list, large).unwrap_or_else(|what| panic!("{} large {large}: {what}", design.slug));
        }
    }
}

// Always the same designs. A leader runs through another's mark only where no order of placing the marks leaves it a way.
proptest! {
    #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(3), ..cases(40) })]

    #[test]
    fn letters_can_be_read_in_any_design(
        plan in made::plans_of(2..=60), grey in any::<bool>(), large in any::<bool>(), letter in any::<bool>(),
    ) {
        let design = made::design(&plan);
        let paper = if letter { Paper::Letter } else { Paper::A4 };
        for design in [&design, &design.mirrored()] {
            let list = chart(design, &edition(paper, grey, large));
            prop_assert_eq!(wrong(&list, large), Ok(()));
            prop_assert_eq!(fringe_is_apart(&list), Ok(()));
            prop_assert_eq!(lacking(&list, stitch(design).anchors.len()), Vec::<String>::new());
        }
    }
}

/// Where one page cannot show the whole earring with letters of full size, its picture comes first.
#[test]
fn a_picture_comes_first_where_one_page_does_not_hold_the_chart() {
    let mut seen = [0, 0];
    for design in made::demos() {
        let list = chart(&design, &edition(Paper::A4, false, false));
        let lettered: Vec<bool> = list.pages.iter().map(|page| !letters(page).is_empty()).collect();
        let work = stitch(&design);
        match lettered[..] {
            [true] => seen[0] += 1,
            [false, true, true, ..] => {
                // The picture shows every bead, and so do the charts that follow.
                let flat = |page: &Page| beads(page).filter(|b| b.look == BeadLook::Flat).count();
                assert_eq!(beads(&list.pages[0]).count(), work.fabric.beads.len(), "{}", design.slug);
                let charted: usize = list.pages[1..].iter().map(flat).sum();
                // Each page of a chart has a legend, whose beads are flat too.
                assert!(charted >= work.fabric.beads.len(), "{}", design.slug);
                seen[1] += 1;
            }
            _ => panic!("{}: {lettered:?}", design.slug),
        }
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// Body and fringe are read one after the other, in the section of the charts, wherever the fringe's chart stands.
#[test]
fn the_charts_are_read_together() {
    let wording = Wording::built_in("en").expect("English is built in");
    let mut elsewhere = 0;
    for design in made::demos() {
        let work = stitch(&design);
        let tally = tally(&design, &work);
        let edition = edition(Paper::A4, false, false);
        let list = pages(&compose(&design, &work, &tally, &wording, &edition).expect("composed"));
        let section_of = |mut node: NodeId| {
            while let Some(above) = list.nodes[node.0].parent.filter(|above| above.0 > 0) {
                node = above;
            }
            node
        };
        let figure = |what: &str| {
            let begins = |node: &Node| matches!(&node.role, Role::Figure { alt } if alt.starts_with(what));
            list.nodes.iter().position(begins).map(NodeId)
        };
        let (body, fringe) = (figure("Colour chart of the body"), figure("Colour chart of the fringe"));
        let Some((body, fringe)) = body.zip(fringe) else { continue };
        assert_eq!(section_of(body), section_of(fringe), "{}", design.slug);
        let page_of = |figure: NodeId| {
            let shows = |page: &Page| page.items.iter().any(|i| i.standing == Standing::Content(figure));
            list.pages.iter().position(shows)
        };
        elsewhere += usize::from(page_of(fringe) > page_of(body).map(|page| page + 1));
    }
    assert!(elsewhere > 0, "no fringe's chart stands behind another section");
}

/// A chart is as large as its page allows: it reaches from side to side, or from its top to the legend.
#[test]
fn even_a_tiny_design_fills_its_page() {
    for plan_of in [2usize, 3] {
        let rows = ["    A B A\n", "    A B\n"][3 - plan_of];
        let text = format!(
            "title: Tiny\ncolours: {{A: ink, B: mist}}\nbody:\n  picture: |\n{rows}fringe:\n  strands: [{}]\nhang: thread guard\n",
            ["3A 1B"; 3][..plan_of].join(", ")
        );
        let files = [
            ("tiny.yaml", text.as_str()),
            ("palette.yaml", crate::maker::PALETTE),
            ("studio.yaml", crate::maker::STUDIO),
        ];
        let design = fringebook::design::read_texts(&files, &fringebook::design::Wishes::default());
        let list = chart(&design.design.expect("a design"), &edition(Paper::A4, false, false));
        let page = &list.pages[0];
        assert_eq!(list.pages.len(), 1);
        // The legend's beads are small.
        let large = || beads(page).filter(|b| b.width.0 > 10.0).map(|b| area(&item_of(b)));
        let (top, bottom) =
            (large().map(|a| a.top).fold(f64::MAX, f64::min), large().map(|a| a.bottom).fold(0.0, f64::max));
        assert!(bottom - top > 130.0, "{plan_of} stacks: {top} to {bottom}");
    }
}
