//! Designs for tests of drawings: the demo designs, and designs made at random.

use fringebook::design::{Design, Side, Wishes, read, read_texts};
use proptest::prelude::*;
use std::fmt::Write;
use std::ops::RangeInclusive;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs")
}

fn read_or_tell(path: &Path, wishes: &Wishes) -> Design {
    let reading = read(path, wishes);
    match reading.design {
        Some(design) => design,
        None => panic!("{}: {:#?}", path.display(), reading.problems),
    }
}

/// The demo designs, by name.
pub fn demos() -> Vec<Design> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder())
        .expect("the demo designs")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|e| e == "yaml"))
        .filter(|path| !path.ends_with("palette.yaml") && !path.ends_with("studio.yaml"))
        .collect();
    files.sort();
    files.iter().map(|path| read_or_tell(path, &Wishes::default())).collect()
}

/// A demo design, worked from the right.
pub fn started_from_the_right(slug: &str) -> Design {
    let wishes = Wishes { start: Some(Side::Right), ..Wishes::default() };
    read_or_tell(&folder().join(format!("{slug}.yaml")), &wishes)
}

/// What a design made at random is like.
#[derive(Clone, Debug)]
pub struct Plan {
    drop: usize,
    foundation: usize,
    rows: usize,
    /// Beads of the loop; 0 for a thread guard.
    looped: usize,
    from_right: bool,
    turn: usize,
    /// Numbers that choose letters and strand lengths.
    dice: Vec<u8>,
}

/// Plans of small designs of every kind.
pub fn plans() -> impl Strategy<Value = Plan> {
    plans_of(2..=10)
}

/// Plans of designs whose foundation has so many stacks.
pub fn plans_of(stacks: RangeInclusive<usize>) -> impl Strategy<Value = Plan> {
    (
        1..=3_usize,
        stacks,
        0..=9_usize,
        prop_oneof![Just(0_usize), 6..=20_usize],
        any::<bool>(),
        prop_oneof![Just(1_usize), Just(3_usize)],
        proptest::collection::vec(any::<u8>(), 64),
    )
        .prop_map(|(drop, foundation, fewer, looped, from_right, turn, dice)| Plan {
            drop,
            foundation,
            rows: (foundation - fewer.min(foundation - 1)).max(2),
            looped,
            from_right,
            turn,
            dice,
        })
}

const PALETTE: &str = r##"
beads:
  ink: {name: Ink, colour: "#16171b", shape: cylinder, size: 11/0}
  snow: {name: Snow, colour: "#fbfbf7", shape: cylinder, size: 11/0}
  plum: {name: Plum, colour: "#7b1f4b", shape: round, size: 11/0}
  fine: {name: Fine, colour: "#c99a2e", shape: round, size: 15/0}
  drip: {name: Drip, colour: "#3c8f7d", shape: drop, width: 3.4 mm, length: 4.2 mm, hole: 0.9 mm, per gram: 25}
threads:
  body: {name: braided thread, colour: "#ffffff", diameter: 0.15 mm}
  fringe: {name: beading nylon, colour: "#222222", diameter: 0.20 mm}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1}
  ear wire: {name: ear wire, per earring: 1}
"##;

/// The design of a plan, written to files and read as a maker's would be.
pub fn design(plan: &Plan) -> Design {
    let mut dice = plan.dice.iter().cycle().copied();
    let mut pick = |letters: &str| {
        let at = dice.next().map_or(0, usize::from) % letters.len();
        letters.as_bytes()[at] as char
    };
    let mut text =
        String::from("title: Made at random\ncolours: {A: ink, B: snow, C: plum, D: fine, E: drip}\n");
    let side = if plan.from_right { "right" } else { "left" };
    let _ = write!(text, "start: {side}\nbody:\n  stitch: brick\n  drop: {}\n  picture: |\n", plan.drop);
    for row in (0..plan.rows).rev() {
        for _ in 0..plan.drop {
            let stacks: Vec<String> = (row..plan.foundation).map(|_| pick("ABCA").to_string()).collect();
            let _ = writeln!(text, "    {}{}", ".".repeat(row), stacks.join(" "));
        }
    }
    let _ = writeln!(text, "fringe:\n  turn: {}\n  strands:", plan.turn);
    for _ in 0..plan.foundation {
        let (one, two) = (pick("ABC"), pick("ABD"));
        let counts =
            (usize::from(pick("abcdefghij") as u8 - b'a') + 1, usize::from(pick("abcdef") as u8 - b'a') + 1);
        let last = if plan.turn == 1 { pick("ACE") } else { pick("AC") };
        let _ = writeln!(text, "    - {}{one} {}{two} {}{last}", counts.0, counts.1, plan.turn);
    }
    match plan.looped {
        0 => text.push_str("hang: thread guard\n"),
        beads => {
            let _ = writeln!(text, "hang: {{loop: {beads}D}}");
        }
    }
    let files = [("made.yaml", text.as_str()), ("palette.yaml", PALETTE), ("studio.yaml", "name: A bench\n")];
    let reading = read_texts(&files, &Wishes::default());
    match reading.design {
        Some(design) => design,
        None => panic!("{text}\n{:#?}", reading.problems.iter().map(|p| &p.message).collect::<Vec<_>>()),
    }
}
