//! Booklets of bodies of every shape: composed, set and painted in every language.

use crate::account::diagrams;
use crate::maker::{PALETTE, STUDIO};
use fringebook::booklet::{self, BenchEarring, Block, Booklet, Edition, Wording};
use fringebook::design::{Design, Paper, Wishes, read_texts};
use fringebook::layout::lay_out;
use fringebook::paint::{self, Times};
use fringebook::stitch::{Manner, Work, stitch};
use fringebook::tally::{Tally, tally};
use fringebook::units::Mm;
use std::collections::BTreeSet;

const LANGUAGES: [&str; 5] = ["en", "en-US", "de", "fr", "es"];

/// Bodies and fringes, each with a name.
const SHAPES: [(&str, &str); 14] = [
    (
        "kite",
        "  picture: |\n    ......A B A\n    ...A B A B A B\n    A B A B A B A B A\n    ...B A B A B A\n    ....A B B B A\n    .....B A A B\nfringe:\n  strands: [4A 1B, 6A 1B, 6A 1B, 4A 1B]",
    ),
    (
        "diamond",
        "  picture: |\n    ..A\n    .A B\n    A B A\n  below: |\n    .A B\n    ..A\nfringe:\n  strands: [3A 1B, 4A 1B, 5A 1B, 4A 1B, 3A 1B]",
    ),
    ("leaning", "  picture: |\n    ..A B\n    .A B\n    A B\nfringe:\n  strands: [3A 1B, 3A 1B]"),
    (
        "narrow panel",
        "  picture: |\n    A B\n    .A B\n    A B\n    .B A\nfringe:\n  strands: [3A 1B, 3A 1B]",
    ),
    (
        "bar",
        "  picture: |\n    A B A B A B A\nfringe:\n  from: 2\n  to: 6\n  every: 2\n  strands: [3A 1B, none, 3A 1B]",
    ),
    ("bar of two", "  picture: |\n    A B\nfringe:\n  each: 2\n  strands: [3A 1B, 3A 1B, 4A 1B, 4A 1B]"),
    (
        "only below",
        "  picture: |\n    A B A B\n  below: |\n    .A B A\n    A B A B\n    .....A\nfringe:\n  along: lowest row\n  strands: [3A 1B]",
    ),
    (
        "wide below",
        "  picture: |\n    ...A B A\n    ..A B A B\n  below: |\n    .A B A B A\n    ..B A B A\n    .....B\nfringe:\n  along: foundation\n  strands: [3A 1B, 3A 1B, 3A 1B, 3A 1B]",
    ),
    (
        "two hangings",
        "  picture: |\n    A B A B B B A B A\n    .A B A B A B A B\nfringe:\n  strands: [3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B]",
    ),
    (
        "three hangings",
        "  picture: |\n    A B A B A B A B A B A B\nfringe:\n  every: 3\n  each: 2\n  strands: [3A 1B, 3A 1B, none, 4A 1B, 5A 1B, 5A 1B, 3A 1B, none]",
    ),
    (
        "from its foundation",
        "  picture: |\n    A B A B A B A\n  below: |\n    .A B A B A B\n    ..A B A B A\n    ...A B A B\nfringe:\n  along: lowest row\n  strands: [3A 1B, 3A 1B, 3A 1B, 3A 1B]",
    ),
    (
        "built out at both ends",
        "  picture: |\n    ...A B A\n    A B A B A B\n    .....A B\n  below: |\n    ......A\nfringe:\n  along: lowest row\n  strands: [3A 1B]",
    ),
    (
        "deep steps",
        "  picture: |\n    ........A\n    .......A B\n    A B A B A B A B A\n    .A B A B A B A B\n  below: |\n    A B A B A B A B A B\n    .......A B\nfringe:\n  along: foundation\n  strands: [none, 3A 1B, none, 3A 1B, none, 3A 1B, 3A 1B, none]",
    ),
    (
        "built out below",
        "  picture: |\n    .....A B\n  below: |\n    A B A B A B\nfringe:\n  along: edge\n  strands: [3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B, 3A 1B]",
    ),
];

/// Designs of all these shapes, each hung another way.
pub fn designs() -> impl Iterator<Item = (&'static str, Design)> {
    SHAPES.into_iter().enumerate().map(|(index, (name, shape))| {
        let hang = match name {
            "two hangings" => "[{thread guard: 1-3}, {loop: 2A 3B 2A, at: 6-8}]",
            "three hangings" => "[{thread guard: 1-3}, {loop: 2A 3B 2A, at: 6-8}, {thread guard: 10-12}]",
            "from its foundation" => "{loop: 9A, at: 3-5}",
            _ => ["thread guard", "{loop: 9A}", "{thread guard: 1-2}", "{loop: 9A, at: 1-2}"][index % 4],
        };
        (name, design(shape, 1 + index % 3, hang))
    })
}

fn design(shape: &str, drop: usize, hang: &str) -> Design {
    // Every line of a picture as many times as there are beads in a stack.
    let mut text = format!("title: Shape\nedition: 1\ncolours: {{A: ink, B: mist}}\nbody:\n  drop: {drop}\n");
    for line in shape.lines() {
        let drawn = line.starts_with("    ");
        (0..if drawn { drop } else { 1 }).for_each(|_| text += &format!("{line}\n"));
    }
    text += &format!("pair: mirrored\nhang: {hang}\n");
    let files = [("shape.yaml", text.as_str()), ("palette.yaml", PALETTE), ("studio.yaml", STUDIO)];
    let reading = read_texts(&files, &Wishes::default());
    reading.design.unwrap_or_else(|| panic!("{text}{:?}", reading.problems))
}

fn edition(large_print: bool) -> Edition {
    let (digest, digest_parts) = (String::new(), Vec::new());
    Edition {
        paper: Paper::A4,
        grey: large_print,
        large_print,
        tablet: false,
        stamp: None,
        digest,
        digest_parts,
        before: None,
    }
}

fn painted(name: &str, booklet: &Booklet, design: &Design) {
    let list = lay_out(booklet).unwrap_or_else(|missing| panic!("{name}: {missing:?}"));
    let times = Times::of(design.date, None);
    paint::pdf(&list, &times).unwrap_or_else(|e| panic!("{name}: {e}"));
}

fn worked(design: &Design) -> (Work, Tally) {
    let work = stitch(design);
    let tally = tally(design, &work);
    (work, tally)
}

#[test]
fn every_shape_becomes_a_booklet_and_a_bench_copy_in_every_language() {
    let mut manners: BTreeSet<Manner> = BTreeSet::new();
    for (name, design) in designs() {
        let (work, tally) = worked(&design);
        manners.extend(work.body.moves.iter().map(|made| made.manner));
        let mirrored = design.mirrored();
        let (second, second_tally) = worked(&mirrored);
        for language in LANGUAGES {
            let wording = Wording::built_in(language).expect("it is built in");
            for edition in [edition(false), edition(language == "de")] {
                let composed = booklet::compose(&design, &work, &tally, &wording, &edition);
                painted(name, &composed.unwrap_or_else(|e| panic!("{name}: {e:?}")), &design);
            }
            let earrings = [
                BenchEarring { number: 1, design: &design, work: &work, tally: &tally },
                BenchEarring { number: 2, design: &mirrored, work: &second, tally: &second_tally },
            ];
            let bench = booklet::bench(&earrings, &wording, &edition(false), None);
            painted(name, &bench.unwrap_or_else(|e| panic!("{name}: {e:?}")), &design);
        }
    }
    // The shapes above need all of them.
    let every = [
        Manner::Ladder,
        Manner::LadderOn,
        Manner::Narrower,
        Manner::Wider,
        Manner::WalkIn,
        Manner::Turned,
        Manner::Alone,
        Manner::Onward,
        Manner::OnwardBelow,
        Manner::WiderEnd,
        Manner::BuiltOut,
        Manner::BuiltOutEnd,
        Manner::Hanging,
        Manner::End,
    ];
    let missing: Vec<Manner> = every.into_iter().filter(|manner| !manners.contains(manner)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// The guards that it hangs by stand among what is bought, with what joins them, though only that is listed.
#[test]
fn guards_are_bought_whatever_else_a_design_lists() {
    let body = SHAPES[8].1;
    let bought = |findings: &str| -> Vec<(String, u32)> {
        let hang = format!("[{{thread guard: 1-3}}, {{thread guard: 6-8}}]\n{findings}");
        let findings = design(body, 1, &hang).findings;
        findings.into_iter().map(|finding| (finding.key, finding.per_earring)).collect()
    };
    let both = [("thread guard".to_owned(), 2), ("ear wire".to_owned(), 1)];
    assert_eq!(bought(""), both);
    assert_eq!(bought("findings: [ear wire]"), both);
    assert_eq!(bought("findings: [ear wire, thread guard]"), [both[1].clone(), both[0].clone()]);
}

/// A row a length: what would be listed hundreds of times is said once.
#[test]
fn a_body_in_hundreds_of_lengths_is_told_in_few_words() {
    let rows: String = (0..220).map(|row| format!("    {}A B A B A B\n", ["", "."][row % 2])).collect();
    let mut design =
        design(&format!("  picture: |\n{rows}fringe:\n  every: 5\n  strands: [2A, 2A]"), 1, "thread guard");
    design.allowances.arm_span = Mm(250.0);
    let (work, tally) = worked(&design);
    assert!(work.anchors.len() > 400, "{}", work.anchors.len());
    for language in LANGUAGES {
        let wording = Wording::built_in(language).expect("it is built in");
        let composed = booklet::compose(&design, &work, &tally, &wording, &edition(false));
        let composed = composed.unwrap_or_else(|e| panic!("{language}: {e:?}"));
        let longest = |name: &str| {
            let section = composed.sections.iter().find(|section| section.name == name).expect("a section");
            let paragraphs = section.blocks.iter().filter_map(|block| match block {
                Block::Paragraph { text, .. } => Some(text.words().len()),
                Block::Table(table) => table.rows[0].cells.iter().map(|cell| format!("{cell:?}").len()).max(),
                _ => None,
            });
            paragraphs.max().expect("texts")
        };
        assert!(longest("chart") < 700, "{language}: {}", longest("chart"));
        assert!(longest("materials") < 700, "{language}: {}", longest("materials"));
    }
}

#[test]
fn each_manner_that_a_path_meets_is_told_in_one_step_with_its_diagram() {
    let design = design(SHAPES[0].1, 2, "thread guard");
    let (work, tally) = worked(&design);
    let wording = Wording::built_in("en").expect("English is built in");
    let composed = booklet::compose(&design, &work, &tally, &wording, &edition(false)).expect("composed");
    let section = composed.sections.iter().find(|section| section.name == "steps").expect("steps");
    let steps = section.blocks.iter().filter_map(|block| match block {
        Block::Step(step) => Some((step.title.words(), diagrams(step).len())),
        _ => None,
    });
    let steps: Vec<(String, usize)> = steps.collect();
    for (title, figures) in [
        ("Row 2: starting wider", 1),
        ("Row 2: adding a stack", 1),
        ("Row 2: ending wider", 1),
        ("Row 3: from the other side", 1),
        ("Row 4: building out at its start", 1),
        ("Row 4: building out at its end", 1),
        ("Row 5: starting further in", 1),
        ("Row 6", 0),
    ] {
        assert!(steps.contains(&(title.to_owned(), figures)), "{title}: {steps:?}");
    }
}
