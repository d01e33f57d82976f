//! The demo designs read without errors, and say what they are meant to show.

use fringebook::booklet::Wording;
use fringebook::design::{Design, Hang, Tongue, Wishes, read};
use fringebook::diagnostic::{Look, Severity, render_all};
use std::collections::BTreeSet;
use std::path::Path;

fn demo(name: &str) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs").join(name);
    let reading = read(&path, &Wishes::default());
    let text = render_all(&reading.problems, Look::Plain);
    reading.design.unwrap_or_else(|| panic!("{text}"))
}

#[test]
fn every_demo_reads_without_errors() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs");
    let mut names = Vec::new();
    for entry in std::fs::read_dir(&folder).expect("the folder of demo designs") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        if name.ends_with(".yaml") && name != "palette.yaml" && name != "studio.yaml" {
            let reading = read(&path, &Wishes::default());
            assert!(reading.design.is_some(), "{}", render_all(&reading.problems, Look::Plain));
            names.push(name);
        }
    }
    assert!(names.len() >= 4, "{names:?}");
}

#[test]
fn heron_is_a_two_drop_triangle_with_a_pointed_mirrored_fringe() {
    let design = demo("heron-at-dusk.yaml");
    assert_eq!(design.body.drop, 2);
    assert_eq!(
        design.body.rows.iter().map(|r| r.stacks.len()).collect::<Vec<_>>(),
        (3..=17).rev().collect::<Vec<_>>()
    );
    let lengths: Vec<usize> = design.fringe.strands.iter().map(|s| s.beads.len()).collect();
    assert_eq!((lengths[0], lengths[8], lengths[16]), (20, 30, 20));
    assert!(lengths.iter().eq(lengths.iter().rev()));
    assert!(design.is_symmetrical());
    assert_eq!(design.colourways.len(), 2);
}

#[test]
fn a_discontinued_bead_is_replaced_and_told() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs/heron-at-dusk.yaml");
    let reading = read(&path, &Wishes::default());
    let design = reading.design.expect("a design");
    let letter = design.letters.iter().find(|l| l.replaces.is_some()).expect("a replaced bead");
    assert_eq!(design.palette.beads[letter.bead.0].key, "sedge");
    let told: Vec<_> = reading.problems.iter().map(|p| (p.severity, p.message.as_str())).collect();
    assert_eq!(told, [(Severity::Warning, "`reed` is discontinued; `sedge` is used in its place")]);
}

#[test]
fn the_others_show_single_drop_with_a_loop_and_three_drop_with_drops() {
    let pear = demo("pear-blossom.yaml");
    assert_eq!(pear.body.drop, 1);
    assert!(matches!(&pear.hangings[0].by, Hang::Loop(beads) if beads.len() == 14));
    let tide = demo("tide-line.yaml");
    assert_eq!(tide.body.drop, 3);
    assert!(!tide.is_symmetrical());
    for strand in &tide.fringe.strands {
        let last = *strand.beads.last().expect("a bead");
        assert_eq!(tide.bead(last).shape, fringebook::drawn::Shape::Drop);
    }
    assert_eq!(demo("waning-moon.yaml").body_thread.key, "white body");
}

#[test]
fn white_thread_is_anchored_in_the_pale_half() {
    let design = demo("waning-moon.yaml");
    let work = fringebook::stitch::stitch(&design);
    assert!(!work.anchors.is_empty());
    let (pale, dark) = (design.letter('A').expect("cream"), design.letter('E').expect("night"));
    let has = |letter| design.body.rows.iter().any(|r| r.stacks.iter().any(|s| s.0.contains(&letter)));
    assert!(has(pale) && has(dark), "both regions are there to choose from");
    for anchor in &work.anchors {
        for spot in anchor.stacks.iter().flat_map(|stack| &work.fabric[*stack].beads) {
            assert!(design.bead(work.fabric[*spot].letter).colour.lab().l > 80.0, "{anchor:?}");
        }
    }
}

/// Whatever a demo's booklet prints of the maker's texts is given in every language that is built in.
#[test]
fn every_demo_is_complete_in_every_language() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs");
    let mut titles = BTreeSet::new();
    for name in Wording::languages() {
        let tongue = Tongue { chain: wording_chain(name), written_in: "en".to_owned() };
        for entry in std::fs::read_dir(&folder).expect("the folder of demo designs") {
            let path = entry.expect("an entry").path();
            if path.ends_with("palette.yaml") || path.ends_with("studio.yaml") {
                continue;
            }
            let wishes = Wishes { language: Some(name.to_owned()), ..Wishes::default() };
            let design = read(&path, &wishes).design.expect("a design");
            assert_eq!(render_all(&design.not_given_in(&tongue), Look::Plain), "", "{name}");
            titles.insert(design.title.to_string());
        }
    }
    // Four languages of their own; American English is that of the British.
    assert_eq!(titles.len(), 4 * 9);
}

fn wording_chain(name: &str) -> Vec<String> {
    Wording::built_in(name).expect("a built-in language").chain()
}
