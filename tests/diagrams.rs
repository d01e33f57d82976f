//! Step diagrams say what the path says, and can be read: numbers, lanes, letters and edges.

use crate::account::{shaped, shapes};
use crate::support::{cases, made, svg};
use fringebook::booklet::drawing::{Diagram, diagrams, moving, pair, ruler, silhouette};
use fringebook::colour::Colour;
use fringebook::design::{Design, Pair};
use fringebook::drawn::{BeadLook, BeadMark, Drawing, FADED, Face, LabelMark, Mark, PathMark, Segment};
use fringebook::stitch::{Manner, MoveKind, Pass, Shown, ThreadUse, Way, Work, excerpts, stitch};
use fringebook::units::{Mm, Point, Size};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Room that is high enough for a silhouette.
const PAGE: Mm = Mm(236.0);

/// Every demo design with its work and diagrams.
fn demos() -> Vec<(Design, Work, Vec<Diagram>)> {
    made::demos()
        .into_iter()
        .map(|design| {
            let work = stitch(&design);
            let diagrams = diagrams(&design, &work);
            (design, work, diagrams)
        })
        .collect()
}

fn each(check: impl Fn(&Design, &Work, &Diagram)) {
    let demos = demos();
    assert!(demos.len() >= 3, "the demo designs are missing");
    for (design, work, diagrams) in &demos {
        for diagram in diagrams {
            check(design, work, diagram);
        }
    }
}

fn labels(drawing: &Drawing) -> Vec<&LabelMark> {
    drawing.marks.iter().filter_map(|m| if let Mark::Label(l) = m { Some(l) } else { None }).collect()
}

fn beads(drawing: &Drawing) -> Vec<&BeadMark> {
    drawing.marks.iter().filter_map(|m| if let Mark::Bead(b) = m { Some(b) } else { None }).collect()
}

fn paths(drawing: &Drawing) -> Vec<&PathMark> {
    drawing.marks.iter().filter_map(|m| if let Mark::Path(p) = m { Some(p) } else { None }).collect()
}

fn numbers(drawing: &Drawing) -> Vec<&LabelMark> {
    labels(drawing).into_iter().filter(|l| l.face == Face::Bold).collect()
}

fn points(segments: &[Segment]) -> Vec<Point> {
    segments
        .iter()
        .flat_map(|s| match *s {
            Segment::Move(p) | Segment::Line(p) => vec![p],
            Segment::Curve(a, b, p) => vec![a, b, p],
            Segment::Close => vec![],
        })
        .collect()
}

#[test]
fn every_kind_of_work_of_the_demo_designs_has_a_diagram() {
    let mut seen: BTreeSet<Manner> = BTreeSet::new();
    for (design, work, diagrams) in demos() {
        let wanted: BTreeSet<Shown> = excerpts(&work).iter().map(|e| e.shown).collect();
        let drawn: BTreeSet<Shown> = diagrams.iter().map(|d| d.shown).collect();
        assert_eq!(drawn, wanted, "{}", design.slug);
        seen.extend(drawn.iter().map(|shown| shown.manner));
    }
    let common =
        [Manner::Ladder, Manner::Narrower, Manner::Onward, Manner::WiderEnd, Manner::Turned, Manner::Strand];
    assert!(common.iter().all(|manner| seen.contains(manner)), "{seen:?}");
}

#[test]
fn the_moves_of_a_diagram_are_a_part_of_the_path() {
    each(|design, work, diagram| {
        let path = match (diagram.shown.thread, diagram.shown.manner) {
            (ThreadUse::Body, Manner::Tail) => &work.tail.moves,
            (ThreadUse::Body, _) => &work.body.moves,
            (ThreadUse::Fringe, _) => &work.fringe.moves,
        };
        assert_eq!(diagram.moves.len(), diagram.range.len());
        for (shown, at) in diagram.moves.iter().zip(diagram.range.clone()) {
            assert_eq!(shown.at, at);
            assert_eq!(shown.kind, path[at].kind, "{} {:?}", design.slug, diagram.shown);
            assert_eq!(shown.phase, path[at].phase);
            let strung = match &path[at].kind {
                MoveKind::String { .. } => path[at].beads.len(),
                _ => 0,
            };
            assert_eq!(shown.letters.len(), strung);
        }
    });
}

#[test]
fn letters_picked_up_are_those_of_the_word_chart() {
    each(|design, work, diagram| {
        let Shown { manner, thread: ThreadUse::Body, .. } = diagram.shown else { return };
        // The row in which the thread ends is the one that is shown.
        let row = diagram.moves.iter().rev().find_map(|made| match &made.kind {
            MoveKind::Pass(pass) => Some(work.fabric.row_number(pass.stack)),
            _ => None,
        });
        let Some(row) = row.and_then(|number| work.rows.iter().find(|row| row.number == number)) else {
            return;
        };
        let [built_first, built_last] = work.fabric.built_out(row.section);
        let then: Vec<_> =
            row.then.iter().flat_map(|run| std::iter::repeat_n(&run.beads, run.count)).collect();
        let wanted = match manner {
            Manner::Ladder | Manner::Narrower | Manner::Wider | Manner::WalkIn | Manner::Turned => {
                &row.starts_with
            }
            Manner::LadderOn => then[0],
            Manner::BuiltOut => then[0],
            Manner::BuiltOutEnd => then[then.len() - built_last],
            Manner::Onward | Manner::OnwardBelow => then[built_first],
            _ => return,
        };
        let picked: Vec<_> = diagram.moves.iter().flat_map(|made| made.letters.clone()).collect();
        // A long way to where the row starts has a figure of its own.
        if picked.is_empty() && matches!(manner, Manner::Turned | Manner::WalkIn) {
            return;
        }
        assert_eq!(&picked, wanted, "{}: {manner:?} of row {}", design.slug, row.number);
    });
}

#[test]
fn each_number_is_drawn_once_and_stands_for_a_move() {
    each(|design, _, diagram| {
        let mut drawn: Vec<usize> =
            numbers(&diagram.drawing).iter().map(|l| l.text.parse().expect("a number")).collect();
        drawn.sort_unstable();
        let meant: Vec<usize> = diagram.moves.iter().map(|m| m.number).collect();
        // The outline with a way has its moves in the caption.
        let drawn = if diagram.is_way { &meant } else { &drawn };
        assert_eq!(drawn, &meant, "{} {:?}", design.slug, diagram.shown);
        let first = meant.first().copied().unwrap_or(1);
        assert_eq!(meant, (first..first + diagram.moves.len()).collect::<Vec<_>>());
    });
}

#[test]
fn drawings_hold_no_words() {
    each(|design, _, diagram| {
        for label in labels(&diagram.drawing) {
            let number = label.text.chars().all(|c| c.is_ascii_digit());
            let letter = design.letters.iter().any(|l| label.text == l.symbol.to_string());
            assert!(number || letter, "{:?}", label.text);
            assert!(label.size.0 >= 7.0);
        }
    });
}

/// Room of a number's disc: its radius is read from the picture, as the circle round the number.
fn disc(drawing: &Drawing, number: &LabelMark) -> f64 {
    paths(drawing)
        .iter()
        .filter(|p| p.fill.is_some())
        .filter_map(|p| {
            let at = points(&p.segments);
            let x = at.iter().map(|p| p.x.0).fold(f64::NEG_INFINITY, f64::max);
            let left = at.iter().map(|p| p.x.0).fold(f64::INFINITY, f64::min);
            let y = at.iter().map(|p| p.y.0).fold(f64::NEG_INFINITY, f64::max);
            let top = at.iter().map(|p| p.y.0).fold(f64::INFINITY, f64::min);
            let middle = Point::new(f64::midpoint(left, x), f64::midpoint(top, y));
            (middle.distance(number.at).0 < 0.01).then_some((x - left) / 2.0)
        })
        .fold(0.0, f64::max)
}

#[test]
fn numbers_stand_clear_of_beads_and_of_each_other() {
    each(|design, _, diagram| {
        let drawing = &diagram.drawing;
        let numbers = numbers(drawing);
        for (index, number) in numbers.iter().enumerate() {
            let radius = disc(drawing, number);
            assert!(radius > 1.2, "a disc round {}", number.text);
            let name = format!("{} {:?} {}", design.slug, diagram.shown, number.text);
            for bead in beads(drawing) {
                let away = outside(bead, number.at);
                assert!(away >= radius - 0.01, "{name} lies on a bead: {away}");
            }
            for other in &numbers[index + 1..] {
                let apart = number.at.distance(other.at).0;
                assert!(apart >= 2.0 * radius, "{name} and {} overlap: {apart}", other.text);
            }
        }
    });
}

/// How far a point lies outside a bead's box.
fn outside(bead: &BeadMark, at: Point) -> f64 {
    let (sin, cos) = bead.turned.to_radians().sin_cos();
    let (dx, dy) = (at.x.0 - bead.centre.x.0, at.y.0 - bead.centre.y.0);
    let (across, along) = (dx * cos + dy * sin, dy * cos - dx * sin);
    let x = (across.abs() - bead.width.0 / 2.0).max(0.0);
    let y = (along.abs() - bead.length.0 / 2.0).max(0.0);
    x.hypot(y)
}

/// The needle of a drawing, from its eye to its point.
fn needle(drawing: &Drawing) -> Option<(Point, Point)> {
    let is_needle = |path: &&PathMark| path.fill == Some(Colour::new(0xc9, 0xcc, 0xd2));
    let at = points(&paths(drawing).into_iter().find(is_needle)?.segments);
    let eye = *at.first()?;
    let tip = at.iter().copied().max_by(|a, b| a.distance(eye).0.total_cmp(&b.distance(eye).0))?;
    Some((eye, tip))
}

#[test]
fn needles_hide_no_letter() {
    let mut seen = 0;
    each(|design, _, diagram| {
        let Some((eye, tip)) = needle(&diagram.drawing) else { return };
        for step in 0..=20 {
            let share = f64::from(step) / 20.0;
            let at = Point::new(eye.x.0 + (tip.x.0 - eye.x.0) * share, eye.y.0 + (tip.y.0 - eye.y.0) * share);
            for letter in labels(&diagram.drawing).iter().filter(|l| l.face == Face::Letters) {
                let away = letter.at.distance(at).0;
                assert!(away > 1.3, "{} {:?}: {} under the needle", design.slug, diagram.shown, letter.text);
            }
        }
    });
    for (_, _, diagrams) in demos() {
        seen += diagrams.iter().filter(|diagram| needle(&diagram.drawing).is_some()).count();
    }
    assert!(seen > 60, "{seen} needles");
}

/// Upright dashed lines: thread in holes.
fn lanes(drawing: &Drawing) -> Vec<(Point, Point)> {
    paths(drawing)
        .iter()
        .filter(|p| p.stroke.as_ref().is_some_and(|s| !s.dash.is_empty()))
        .filter_map(|p| match p.segments[..] {
            [Segment::Move(a), Segment::Line(b)] if (a.x.0 - b.x.0).abs() < 1e-6 => Some((a, b)),
            _ => None,
        })
        .collect()
}

#[test]
fn lanes_in_a_shared_hole_stay_apart_and_clear_of_letters() {
    let mut shared = 0;
    for (design, _, diagrams) in demos() {
        for diagram in &diagrams {
            let lanes = lanes(&diagram.drawing);
            for (index, one) in lanes.iter().enumerate() {
                for other in &lanes[index + 1..] {
                    let low = one.0.y.0.min(one.1.y.0).max(other.0.y.0.min(other.1.y.0));
                    let high = one.0.y.0.max(one.1.y.0).min(other.0.y.0.max(other.1.y.0));
                    if high > low + 0.1 {
                        let apart = (one.0.x.0 - other.0.x.0).abs();
                        assert!(apart > 0.9, "{} {:?}: {apart}", design.slug, diagram.shown);
                        shared += usize::from(apart < 6.0);
                    }
                }
                for letter in labels(&diagram.drawing).iter().filter(|l| l.face == Face::Letters) {
                    let half = letter.size.mm().0 * 0.3;
                    let beside =
                        (one.0.y.0.min(one.1.y.0)..=one.0.y.0.max(one.1.y.0)).contains(&letter.at.y.0);
                    let away = (one.0.x.0 - letter.at.x.0).abs();
                    assert!(
                        !beside || away > half,
                        "{} {:?}: through {}",
                        design.slug,
                        diagram.shown,
                        letter.text
                    );
                }
            }
        }
    }
    assert!(shared >= 20, "holes are shared in these designs, found {shared}");
}

#[test]
fn letters_do_not_lie_on_one_another() {
    each(|_, _, diagram| {
        let labels = labels(&diagram.drawing);
        for (index, one) in labels.iter().enumerate() {
            for other in &labels[index + 1..] {
                let size = one.size.mm().0.max(other.size.mm().0);
                let (dx, dy) = ((one.at.x - other.at.x).abs().0, (one.at.y - other.at.y).abs().0);
                assert!(dx > size * 0.5 || dy > size * 0.7, "{} on {}", one.text, other.text);
            }
        }
    });
}

#[test]
fn letters_and_numbers_can_be_read_on_their_ground() {
    each(|design, _, diagram| {
        for letter in labels(&diagram.drawing).iter().filter(|l| l.face == Face::Letters) {
            let bead = beads(&diagram.drawing)
                .into_iter()
                .find(|b| outside(b, letter.at) == 0.0)
                .expect("a letter stands on a bead");
            let ground = match bead.look {
                BeadLook::Faded => bead.colour.mix(Colour::WHITE, FADED),
                _ => bead.colour,
            };
            let contrast = letter.colour.contrast(ground);
            assert!(contrast >= 4.5, "{} {:?} {}: {contrast}", design.slug, diagram.shown, letter.text);
        }
        for number in numbers(&diagram.drawing) {
            let disc = paths(&diagram.drawing)
                .iter()
                .filter(|p| points(&p.segments).iter().all(|q| q.distance(number.at).0 < 2.0))
                .find_map(|p| p.fill)
                .expect("a disc");
            assert!(number.colour.contrast(disc) >= 4.5);
        }
    });
}

fn inside(drawing: &Drawing) -> Result<(), String> {
    let Size { width, height } = drawing.size;
    let check = |p: Point, room: f64| {
        let fits = p.x.0 >= room - 0.01
            && p.y.0 >= room - 0.01
            && p.x.0 <= width.0 - room + 0.01
            && p.y.0 <= height.0 - room + 0.01;
        if fits { Ok(()) } else { Err(format!("{p:?} outside {width:?} × {height:?}")) }
    };
    for mark in &drawing.marks {
        match mark {
            Mark::Bead(bead) => {
                let (sin, cos) = bead.turned.to_radians().sin_cos();
                for (x, y) in [(0.5, 0.5), (-0.5, 0.5), (0.5, -0.5), (-0.5, -0.5)] {
                    let (x, y) = (bead.width.0 * x, bead.length.0 * y);
                    let corner =
                        Point::new(bead.centre.x.0 + x * cos - y * sin, bead.centre.y.0 + x * sin + y * cos);
                    check(corner, 0.0)?;
                }
            }
            Mark::Photograph(mark) => check(mark.at, 0.0)?,
            // It fades beyond what throws it.
            Mark::Shadow(_) => {}
            Mark::Path(path) => {
                let room = path.stroke.as_ref().map_or(0.0, |s| s.width.0 / 2.0);
                for point in points(&path.segments) {
                    check(point, room)?;
                }
            }
            Mark::Label(label) => check(label.at, label.size.mm().0 * 0.3)?,
        }
    }
    Ok(())
}

#[test]
fn all_marks_lie_inside_and_diagrams_fit_their_place() {
    each(|design, _, diagram| {
        let name = format!("{} {:?}", design.slug, diagram.shown);
        inside(&diagram.drawing).unwrap_or_else(|e| panic!("{name}: {e}"));
        let size = diagram.drawing.size;
        assert!(size.width.0 <= 85.0 && size.height.0 <= 70.0, "{name}: {size:?}");
    });
}

#[test]
fn thread_runs_through_a_stack_the_way_the_path_says() {
    let mut seen = 0;
    for (design, _, diagrams) in demos() {
        for diagram in diagrams.iter().filter(|diagram| !diagram.is_way) {
            let Some(MoveKind::Pass(Pass { way, .. })) = diagram.moves.last().map(|m| m.kind.clone()) else {
                continue;
            };
            let last = lanes(&diagram.drawing).into_iter().next_back().expect("a lane");
            let up = last.1.y.0 < last.0.y.0;
            assert_eq!(up, way == Way::Up, "{} {:?}", design.slug, diagram.shown);
            seen += 1;
        }
    }
    assert!(seen >= 20, "diagrams that end with a pass: {seen}");
}

#[test]
fn work_from_the_right_is_drawn_the_other_way_round() {
    for design in made::demos() {
        let other = made::started_from_the_right(&design.slug);
        // A ladder grows away from the side where it starts: what is there already is faded.
        let grows_right = |design: &Design| {
            let drawn = diagrams(design, &stitch(design));
            let adding = drawn.iter().find(|d| d.shown == Shown::body(Manner::LadderOn)).expect("a diagram");
            let furthest = |look| {
                let shown = beads(&adding.drawing).into_iter().filter(|b| b.look == look);
                shown.map(|b| b.centre.x.0).fold(0.0, f64::max)
            };
            furthest(BeadLook::Flat) > furthest(BeadLook::Faded)
        };
        assert!(grows_right(&design), "{}", design.slug);
        assert!(!grows_right(&other), "{}", design.slug);
    }
}

#[test]
fn the_earring_shows_every_bead_to_scale() {
    for (design, work, _) in demos() {
        let both = pair(&design, &work);
        inside(&both).expect("inside");
        let all = beads(&both);
        let drawn: f64 = all.iter().map(|b| b.width.0).sum();
        let real: f64 = work.fabric.beads.iter().map(|l| design.bead(l.letter).width.0).sum();
        assert!((drawn - 2.0 * real).abs() < 1e-6);
        assert_eq!(all.len(), 2 * work.fabric.beads.len());
        let (first, second) = all.split_at(work.fabric.beads.len());
        assert_eq!(first.len(), second.len());
        let (a, b) = (first[0], second[0]);
        let (c, d) = (first[first.len() - 1], second[second.len() - 1]);
        let way = (c.centre.x - a.centre.x).0 * (d.centre.x - b.centre.x).0;
        match design.pair {
            Pair::Same => assert!(way >= 0.0),
            Pair::Mirrored => assert!(way <= 0.0),
        }
        let right = first.iter().map(|b| b.centre.x.0).fold(0.0, f64::max);
        assert!(second.iter().all(|b| b.centre.x.0 > right), "the two lie side by side");
    }
}

#[test]
fn silhouette_and_ruler_are_true_to_size() {
    for (design, work, _) in demos() {
        let drawing = silhouette(&design, &work, false, PAGE);
        assert!(drawing.true_size);
        inside(&drawing).expect("inside");
        let (low, high) = work.geometry.bounds;
        let body: Vec<&BeadMark> = beads(&drawing);
        let left = body.iter().map(|b| b.centre.x.0).fold(f64::INFINITY, f64::min);
        let right = body.iter().map(|b| b.centre.x.0).fold(0.0, f64::max);
        let widest = body.iter().map(|b| b.width.0).fold(0.0, f64::max);
        assert!((right - left - (high.x - low.x).0).abs() <= widest + 1e-9);
        let lengths: Vec<f64> = paths(&drawing)
            .iter()
            .filter_map(|p| match p.segments[..] {
                [Segment::Move(a), Segment::Line(b)] if a.y == b.y => Some((b.x - a.x).0),
                _ => None,
            })
            .collect();
        assert!(lengths.iter().any(|l| (l - 100.0).abs() < 1e-9), "100 mm: {lengths:?}");
        // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
        assert!(lengths.iter().any(|l| (l - 101.6).abs() < 1e-9), "4 in: {lengths:?}");
    }
    let drawing = ruler(Mm(73.0), false);
    assert!(drawing.true_size);
    inside(&drawing).expect("inside");
    assert!(
        labels(&drawing).iter().any(|l| l.text == "80") && labels(&drawing).iter().any(|l| l.text == "3")
    );
    let x = |text: &str| labels(&drawing).iter().find(|l| l.text == text).map_or(f64::NAN, |l| l.at.x.0);
    assert!((x("40") - x("20") - 20.0).abs() < 1e-9);
}

/// The diagrams of an earring: one for everything that is to be shown, each within its drawing and with the numbers of its
/// moves.
fn drawn_whole(design: &Design, work: &Work) -> Result<Vec<Diagram>, TestCaseError> {
    let drawn = diagrams(design, work);
    let kinds: BTreeSet<Shown> = drawn.iter().map(|d| d.shown).collect();
    let wanted: BTreeSet<Shown> = excerpts(work).iter().map(|e| e.shown).collect();
    prop_assert_eq!(kinds, wanted);
    for diagram in &drawn {
        inside(&diagram.drawing).map_err(TestCaseError::fail)?;
        let mut numbers: Vec<usize> =
            numbers(&diagram.drawing).iter().filter_map(|l| l.text.parse().ok()).collect();
        numbers.sort_unstable();
        let meant: Vec<usize> = diagram.moves.iter().map(|m| m.number).collect();
        prop_assert!(diagram.is_way || numbers == meant, "{:?}: {:?}", diagram.shown, numbers);
    }
    Ok(drawn)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_design_can_be_drawn(plan in made::plans()) {
        let design = made::design(&plan);
        let work = stitch(&design);
        for drawing in [pair(&design, &work), silhouette(&design, &work, false, PAGE), ruler(work.geometry.longest_strand, false)] {
            inside(&drawing).map_err(TestCaseError::fail)?;
        }
        for diagram in &drawn_whole(&design, &work)? {
            let strung = diagram.moves.iter().any(|m| matches!(&m.kind, MoveKind::String { through } if !through.is_empty()));
            prop_assert!(!strung || beads(&diagram.drawing).iter().any(|b| b.look == BeadLook::Flat));
        }
    }
}

proptest! {
    #![proptest_config(cases(40))]

    #[test]
    fn any_shape_can_be_drawn(shape in shapes(), dice in proptest::collection::vec(any::<u8>(), 40)) {
        let Some(design) = shaped(shape, &dice, 1800) else { return Ok(()) };
        let work = stitch(&design);
        for drawing in [pair(&design, &work), silhouette(&design, &work, false, PAGE)] {
            inside(&drawing).map_err(TestCaseError::fail)?;
        }
        for diagram in &drawn_whole(&design, &work)? {
            for number in numbers(&diagram.drawing) {
                let radius = disc(&diagram.drawing, number);
                for bead in beads(&diagram.drawing) {
                    let away = outside(bead, number.at);
                    prop_assert!(away >= radius - 0.01, "{:?}: {} lies on a bead", diagram.shown, number.text);
                }
            }
        }
    }
}

/// Writes every drawing of the demo designs as SVG into the target folder.
#[test]
#[ignore = "writes pictures to be looked at"]
fn pictures_to_look_at() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("drawings");
    std::fs::create_dir_all(&folder).expect("a folder");
    for (design, work, diagrams) in demos() {
        let put = |name: String, drawing: &Drawing| {
            std::fs::write(folder.join(format!("{}-{name}.svg", design.slug)), svg::svg(drawing))
                .expect("written");
        };
        put("pair".into(), &pair(&design, &work));
        put("silhouette".into(), &silhouette(&design, &work, false, PAGE));
        put("ruler".into(), &ruler(work.geometry.longest_strand, false));
        for (index, diagram) in diagrams.iter().enumerate() {
            put(format!("{index:02}-{:?}", diagram.shown.manner), &diagram.drawing);
        }
    }
}

/// The starting tail comes out of the foundation, and may be wrapped at once in the row below.
#[test]
fn wraps_that_a_thread_begins_with_are_drawn() {
    let mut dice = vec![0; 40];
    (dice[4], dice[7], dice[9]) = (104, 13, 32);
    let design = shaped((1, 3, vec![(5, 6)], vec![(6, 0), (0, 0)]), &dice, 1800).expect("a design");
    let drawn = diagrams(&design, &stitch(&design));
    let tail = drawn.iter().find(|diagram| diagram.shown.manner == Manner::Tail).expect("a diagram");
    assert!(matches!(tail.moves[0].kind, MoveKind::Wrap { .. }), "{:?}", tail.moves[0]);
    let numbers: BTreeSet<&str> = numbers(&tail.drawing).iter().map(|label| label.text.as_str()).collect();
    assert!(numbers.contains("1") && numbers.contains("2"), "{numbers:?}");
}

/// The thread of each diagram move by move: beads are there from the move that picks them up, each number with its
/// own move, and the last picture is the diagram.
fn moves_one_by_one(design: &Design, work: &Work) -> Result<(), TestCaseError> {
    let (drawn, moving) = (diagrams(design, work), moving(design, work, |_| true));
    prop_assert_eq!(drawn.len(), moving.len());
    for (diagram, (shown, frames)) in drawn.iter().zip(&moving) {
        prop_assert_eq!(diagram.shown, *shown);
        let Some(last) = frames.last() else { return Err(TestCaseError::fail("no frames")) };
        if diagram.is_way {
            prop_assert_eq!((frames.len(), last), (1, &diagram.drawing));
            continue;
        }
        prop_assert_eq!(frames.len(), diagram.moves.len() + 1, "{:?}", shown);
        for (done, frame) in frames.iter().enumerate() {
            prop_assert_eq!(frame.size, last.size);
            inside(frame).map_err(TestCaseError::fail)?;
            let numbers: BTreeSet<usize> =
                numbers(frame).iter().filter_map(|l| l.text.parse().ok()).collect();
            let so_far = diagram.moves[..done].iter().map(|made| made.number);
            prop_assert_eq!(numbers, so_far.collect::<BTreeSet<_>>(), "{:?}", shown);
            // Each bead has its letter.
            let letters = labels(frame).iter().filter(|label| label.face == Face::Letters).count();
            prop_assert_eq!(letters, beads(frame).len());
        }
        for (made, pair) in diagram.moves.iter().zip(frames.windows(2)) {
            let new = beads(&pair[1]).len() - beads(&pair[0]).len();
            // The middle of a long strand is left out.
            let strand = matches!(shown.manner, Manner::Strand);
            prop_assert!(
                new == made.letters.len() || strand && new > 0 && new < made.letters.len(),
                "{shown:?}"
            );
        }
        let words = |drawing: &Drawing| labels(drawing).iter().map(|l| l.text.clone()).collect::<Vec<_>>();
        prop_assert_eq!(words(last), words(&diagram.drawing));
        prop_assert_eq!(last.marks.len(), diagram.drawing.marks.len());
    }
    Ok(())
}

#[test]
fn the_thread_of_the_demos_comes_move_by_move() {
    for (design, work, _) in demos() {
        moves_one_by_one(&design, &work).unwrap_or_else(|e| panic!("{}: {e}", design.slug));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_thread_of_any_design_comes_move_by_move(plan in made::plans()) {
        let design = made::design(&plan);
        moves_one_by_one(&design, &stitch(&design))?;
    }
}
