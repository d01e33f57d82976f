//! A maker's folder for tests: a palette, a studio and designs, in a temporary folder of their own.

use fringebook::design::{Design, Wishes};
use fringebook::diagnostic::Problem;
use fringebook::stitch::{Work, stitch};
use fringebook::tally::{Tally, advise, tally};
use std::path::PathBuf;
use std::process::{Command, Output};

/// Beads far apart in colour, so that a test sees only what it asks for.
pub const PALETTE: &str = r##"currency: EUR
needle: 0.40 mm
beads:
  ink:    {name: Ink black, colour: "#1b1c20", code: QF-010, shape: cylinder, size: 11/0, pack: {grams: 5, price: 2.90}, stock: 1.5}
  # Bought at the winter fair.
  mist:   {name: Mist, colour: "#c9d3d8", code: QF-022, shape: cylinder, size: 11/0, pack: {grams: 5, price: 3.10}}
  ember:
    name: Ember
    colour: "#d2452b"
    shape: cylinder
    size: 11/0
    pack: {grams: 5, price: 3.40}
  frost:  {name: Frost, colour: "#dfe8ec", shape: cylinder, size: 11/0, pack: {grams: 5, price: 3.20}}
  pearl:  {name: Pearl, colour: "#cad4d9", shape: round, size: 11/0}
threads:
  body:   {name: braided thread 6 lb, colour: "#ffffff", diameter: 0.12 mm, spool: {length: 45 m, price: 6.50}}
  fringe: {name: beading nylon, colour: "#b8c2c8", diameter: 0.15 mm, stretch first: true, spool: {length: 100 m, price: 4.20}, stock: 12 m}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1, price: 0.20, stock: 3}
  ear wire: {name: lever-back ear wire, per earring: 1, price: 0.55}
tools: [scissors]
"##;

/// Who sells it.
pub const STUDIO: &str = "name: Studio Hollow Reed\nweb: https://hollow-reed.example\n";

/// A small design that gives no advice but what a test puts into it: 14 beads of the body, 21 of the
/// fringe; A 23, B 8, C 4.
pub const DESIGN: &str = r"title: Small Heron
summary: For tests.
edition: 1
colours: {A: ink, B: mist, C: ember}
body:
  stitch: brick
  drop: 1
  picture: |
    ..A A A
    .A B B A
    A B A B A
fringe:
  mirror: true
  strands:
    - 3A 1C
    - 3A 1C
    - 3A 2B
pair: same
hang: thread guard
";

/// A temporary folder with files in it.
pub struct Folder {
    dir: tempfile::TempDir,
}

/// A design read, stitched and counted.
pub struct Counted {
    pub design: Design,
    pub work: Work,
    pub tally: Tally,
}

impl Folder {
    /// With the palette and the studio.
    pub fn new() -> Folder {
        let folder = Folder { dir: tempfile::tempdir().expect("a temporary folder") };
        folder.with("palette.yaml", PALETTE).with("studio.yaml", STUDIO)
    }

    /// With one more file, or another text in it.
    pub fn with(self, name: &str, text: &str) -> Folder {
        std::fs::write(self.path(name), text).expect("a file in the temporary folder");
        self
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("a file that is there")
    }

    /// Reads, stitches and counts a design that is right.
    pub fn count(&self, name: &str) -> Counted {
        let reading = fringebook::design::read(&self.path(name), &Wishes::default());
        let Some(design) = reading.design else {
            let told: Vec<&String> = reading.problems.iter().map(|p| &p.message).collect();
            panic!("{name} is not right: {told:#?}");
        };
        let work = stitch(&design);
        let tally = tally(&design, &work);
        Counted { design, work, tally }
    }

    /// Runs the program in the folder, as from a shell without a terminal.
    pub fn run(&self, words: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_fringebook"))
            .args(words)
            .current_dir(self.dir.path())
            .env_remove("NO_COLOR")
            .output()
            .expect("the program starts")
    }
}

impl Counted {
    /// The advice, each as line (0 where it has no place), message and hint.
    pub fn advice(&self) -> Vec<(usize, String, String)> {
        advise(&self.design, &self.work, &self.tally).iter().map(told).collect()
    }
}

fn told(problem: &Problem) -> (usize, String, String) {
    let line = problem
        .place
        .as_ref()
        .map_or(0, |place| place.source.text[..place.span.start].bytes().filter(|b| *b == b'\n').count() + 1);
    (line, problem.message.clone(), problem.hint.clone())
}

/// Standard output as text.
pub fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("text")
}

/// Standard error as text.
pub fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("text")
}
