//! A catalogue in a folder of its own, built for one test, and the program run in it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::SystemTime;
use tempfile::TempDir;

/// A folder with a palette and a studio file.
pub struct Catalogue {
    folder: TempDir,
}

/// What a run of the program came to.
#[derive(Debug)]
pub struct Ran {
    /// Exit status; `None` when it was killed.
    pub status: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// What a file was at some moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    pub bytes: Vec<u8>,
    pub modified: SystemTime,
}

pub const PALETTE: &str = "\
# What is on the shelf.
currency: EUR
beads:
  ink:   {name: Ink, colour: \"#1b1c20\", code: QF-010, shape: cylinder, size: 11/0, hole: 1 mm, pack: {grams: 5, price: 2.90}, stock: 12}
  mist:  {name: Mist, colour: \"#d9dfe0\", code: QF-022, shape: cylinder, size: 11/0, hole: 1 mm, pack: {grams: 5, price: 2.90}}
  reed:  {name: Reed, colour: \"#6f7f45\", code: QF-031, shape: cylinder, size: 11/0, hole: 1 mm, pack: {grams: 5, price: 3.10}}
  ember: {name: Ember, colour: \"#c2552d\", code: QF-047, shape: cylinder, size: 11/0, hole: 1 mm, pack: {grams: 5, price: 3.40}}
  slate: {name: Slate, colour: \"#4a5a6a\", code: QF-050, shape: cylinder, size: 11/0, hole: 1 mm, pack: {grams: 5, price: 3.00}}
threads:
  body:   {name: braided thread 6 lb, colour: \"#ffffff\", diameter: 0.15 mm}
  fringe: {name: beading nylon size D, colour: \"#ffffff\", diameter: 0.25 mm, stretch first: true}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1}
  ear wire: {name: lever-back ear wire, kind: lever back, per earring: 1}
tools: [beading needle size 12, scissors]
";

pub const STUDIO: &str = "\
name: Hollow Reed Studio
web: https://hollow-reed.example
copyright: © Hollow Reed Studio
paper: a4
language: en
";

/// A small design in three beads of the palette.
pub fn design(title: &str, beads: [&str; 3]) -> String {
    let [a, b, c] = beads;
    format!(
        "\
title: {title}
summary: A small triangle over a short fringe.
edition: 1
colours: {{A: {a}, B: {b}, C: {c}}}
body:
  stitch: brick
  drop: 1
  picture: |
    ..A B A
    .A B B A
    A B C B A
fringe:
  strands:
    - 6A 2B 1C
    - 7A 2B 1C
    - 8A 2B 1C
    - 7A 2B 1C
    - 6A 2B 1C
hang: thread guard
"
    )
}

impl Catalogue {
    /// A palette, a studio file, and no design.
    pub fn new() -> Catalogue {
        let catalogue = Catalogue { folder: tempfile::tempdir().expect("a temporary folder") };
        catalogue.write("palette.yaml", PALETTE);
        catalogue.write("studio.yaml", STUDIO);
        catalogue
    }

    /// With one design, `heron.yaml`, in ink, mist and reed.
    pub fn with_heron() -> Catalogue {
        let catalogue = Catalogue::new();
        catalogue.write("heron.yaml", design("Heron", ["ink", "mist", "reed"]));
        catalogue
    }

    /// With so many designs, `design-01.yaml` and on; ember is in numbers 2, 5 and 11 alone.
    pub fn with_designs(count: usize) -> Catalogue {
        let catalogue = Catalogue::new();
        for n in 1..=count {
            let third = if [2, 5, 11].contains(&n) { "ember" } else { "reed" };
            let text = design(&format!("Design {n}"), ["ink", "mist", third]);
            catalogue.write(&format!("design-{n:02}.yaml"), text);
        }
        catalogue
    }

    /// A path in the folder.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file, with the folders that it needs.
    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder made");
        fs::write(path, text).expect("a file written");
    }

    /// What `check` and `make` say of the design `heron.yaml`, both the same; nothing is written.
    #[track_caller]
    pub fn refused(&self) -> String {
        let checked = self.run(&["check", "heron.yaml"]);
        checked.ended(1);
        let made = self.run(&["make", "heron.yaml"]);
        made.ended(1);
        assert_eq!(checked.err, made.err);
        assert!(!self.path("heron.pdf").exists());
        made.err
    }

    /// Writes a file again with one text in place of another, which must be there.
    pub fn edit(&self, name: &str, old: &str, new: &str) {
        let text = fs::read_to_string(self.path(name)).expect("a text file");
        assert!(text.contains(old), "{name} holds no {old:?}");
        self.write(name, text.replace(old, new));
    }

    /// A file's bytes.
    pub fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    /// A file's text.
    pub fn text(&self, name: &str) -> String {
        String::from_utf8(self.bytes(name)).expect("a text file")
    }

    /// Names of all files in the folder and below, in order.
    pub fn names(&self) -> Vec<String> {
        self.seen("").into_keys().collect()
    }

    /// All files whose names end so, by name.
    pub fn seen(&self, ending: &str) -> BTreeMap<String, Seen> {
        let mut seen = BTreeMap::new();
        gather(self.folder.path(), self.folder.path(), ending, &mut seen);
        seen
    }

    /// The program, ready to run in the folder, without the settings of whoever runs the tests.
    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_fringebook"));
        command.args(args).current_dir(self.folder.path()).stdin(Stdio::null());
        for name in ["SOURCE_DATE_EPOCH", "NO_COLOR", "COLUMNS"] {
            command.env_remove(name);
        }
        command
    }

    /// Runs the program in the folder.
    pub fn run(&self, args: &[&str]) -> Ran {
        ran(&mut self.command(args))
    }
}

/// Runs a command to its end.
pub fn ran(command: &mut Command) -> Ran {
    let output = command.output().expect("the program runs");
    Ran {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).expect("standard output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("standard error is UTF-8"),
    }
}

fn gather(root: &Path, folder: &Path, ending: &str, seen: &mut BTreeMap<String, Seen>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            gather(root, &path, ending, seen);
        } else if path.to_string_lossy().ends_with(ending) {
            let name = path.strip_prefix(root).expect("below the root").to_string_lossy().into_owned();
            let bytes = fs::read(&path).expect("a file");
            let modified = fs::metadata(&path).and_then(|m| m.modified()).expect("its time");
            seen.insert(name, Seen { bytes, modified });
        }
    }
}

impl Ran {
    /// Everything asked for was done, and nothing was said on standard error.
    #[track_caller]
    pub fn well(&self) -> &Ran {
        assert_eq!((self.status, self.err.as_str()), (Some(0), ""), "{self:#?}");
        self
    }

    /// It ended with this status.
    #[track_caller]
    pub fn ended(&self, status: i32) -> &Ran {
        assert_eq!(self.status, Some(status), "{self:#?}");
        self
    }

    /// The last line of standard output.
    pub fn last_line(&self) -> &str {
        self.out.lines().last().unwrap_or("")
    }

    /// The rows of the report that say `made` (or another word), each with its words apart from the name.
    pub fn rows(&self, word: &str) -> Vec<(String, String)> {
        self.out
            .lines()
            .filter_map(|line| {
                let (name, rest) = line.split_once("  ")?;
                let rest = rest.trim_start().strip_prefix(word)?;
                let why: Vec<&str> = rest.split_whitespace().skip(2).collect();
                Some((name.trim().to_owned(), why.join(" ")))
            })
            .collect()
    }
}
