//! `check --thread`: the way of the thread as JSON.

use crate::maker::{err, out};
use fringebook::design::{self, Wishes};
use fringebook::stitch::stitch;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn demos() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs");
    let files = folder.read_dir().expect("a folder").map(|entry| entry.expect("an entry").path());
    let mut designs: Vec<PathBuf> =
        files.filter(|path| !path.ends_with("palette.yaml") && !path.ends_with("studio.yaml")).collect();
    designs.sort();
    designs
}

fn check(args: &[&str], designs: &[&Path]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fringebook"));
    command.arg("check").args(args).args(designs).output().expect("it runs")
}

fn text(value: &Value) -> &str {
    value.as_str().expect("a text")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

#[test]
fn it_tells_every_move_with_its_beads_its_points_and_its_step() {
    for path in demos() {
        let printed = check(&["--thread", "--language", "en"], &[&path]);
        let name = path.display();
        assert!(printed.status.success(), "{name}: {}", err(&printed));
        let json: Value = serde_json::from_str(&out(&printed)).expect("JSON");
        let threads = list(&json["threads"]);
        let names: Vec<&str> = threads.iter().map(|thread| text(&thread["thread"])).collect();
        assert_eq!(names, ["body", "starting tail", "fringe"]);
        let mut strung: BTreeMap<String, usize> = BTreeMap::new();
        let mut steps = Vec::new();
        for thread in threads {
            let moves = list(&thread["moves"]);
            for pair in moves.windows(2) {
                let (before, after) = (list(&pair[0]["points"]), list(&pair[1]["points"]));
                assert_eq!(before.last(), after.first(), "{name}: a break");
            }
            for made in moves {
                let step = made["step"].as_u64();
                assert!(step.is_some(), "{name}: no step tells {made}");
                steps.extend(step);
                let beads = list(&made["beads"]);
                match text(&made["move"]) {
                    "string" => beads.iter().for_each(|bead| {
                        *strung.entry(text(bead).to_owned()).or_default() += 1;
                    }),
                    "pass" | "return" | "through loop" => assert!(!beads.is_empty(), "{name}: {made}"),
                    "leave tail" | "cut" | "under bridge" | "through guard" | "wrap" => {
                        assert!(beads.is_empty(), "{name}: {made}");
                    }
                    other => panic!("{name}: `{other}` is no move"),
                }
                assert!(!text(&made["section"]).is_empty() && !text(&made["manner"]).is_empty());
            }
        }
        let reading = design::read(&path, &Wishes::default());
        let work = stitch(&reading.design.expect("a design"));
        assert_eq!(strung.len(), work.fabric.beads.len(), "{name}: each bead has an address of its own");
        assert!(strung.values().all(|times| *times == 1), "{name}: each is picked up once");
        // Every step but the first, which makes ready, tells some move.
        let last = steps.iter().max().copied().unwrap_or(0);
        let untold: Vec<u64> = (2..=last).filter(|step| !steps.contains(step)).collect();
        assert!(untold.is_empty(), "{name}: steps {untold:?} tell nothing");
    }
}

#[test]
fn rows_say_how_they_begin_and_beads_where_they_lie() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs/well-of-stars.yaml");
    let json: Value = serde_json::from_str(&out(&check(&["--thread"], &[&path]))).expect("JSON");
    let moves = list(&json["threads"][0]["moves"]);
    let first_of = |section: &str| {
        moves.iter().find(|made| made["section"] == section && made["move"] == "string").expect("a pick-up")
    };
    let second = first_of("row 2");
    assert_eq!(text(&second["manner"]), "narrower at the start");
    // From the right: the first stack from its lower bead up, the second from its upper bead down.
    let beads: Vec<&str> = list(&second["beads"]).iter().map(text).collect();
    let wanted = [
        "row 2, stack 8, bead 2",
        "row 2, stack 8, bead 1",
        "row 2, stack 7, bead 1",
        "row 2, stack 7, bead 2",
    ];
    assert_eq!(beads, wanted);
    assert_eq!(text(&first_of("row 8")["manner"]), "turned");
    let strand = list(&json["threads"][2]["moves"]).iter().find(|made| made["section"] == "strand 1");
    assert!(strand.is_some());
}

/// Of what is worked several times each names its own step: of two loops the second is told after the first.
#[test]
fn a_second_hanging_is_told_in_its_own_step() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs/reed-bed.yaml");
    let listed = out(&check(&["--steps", "--language", "en"], &[&path]));
    let number = |name: &str| -> u64 {
        let words = listed.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
        let mut found = words.filter(|words| words.join(" ").contains(name));
        let line = found.next().unwrap_or_else(|| panic!("{name}: {listed}"));
        line[0].trim_end_matches('.').parse().unwrap_or_else(|_| panic!("{line:?}"))
    };
    let json: Value = serde_json::from_str(&out(&check(&["--thread"], &[&path]))).expect("JSON");
    let steps = |section: &str| -> BTreeSet<u64> {
        let moves = list(&json["threads"]).iter().flat_map(|thread| list(&thread["moves"]));
        moves.filter(|made| made["section"] == section).filter_map(|made| made["step"].as_u64()).collect()
    };
    assert_eq!(steps("hanging 1"), BTreeSet::from([number("hanging")]));
    assert_eq!(steps("hanging 2"), BTreeSet::from([number("hanging next")]));
}

#[test]
fn it_prints_one_design_at_a_time() {
    let designs = demos();
    let printed = check(&["--thread"], &[&designs[0], &designs[1]]);
    assert_eq!(printed.status.code(), Some(2));
    assert_eq!(out(&printed), "");
    assert!(err(&printed).contains("`--thread` prints the thread of one design"), "{}", err(&printed));
}
