//! Interrupted at any moment, a full disk, a folder that takes no writing, two runs at once: every
//! booklet on disk is whole, old or new, and the message says what happened.

#![cfg(unix)]

use crate::catalogue::{Catalogue, Ran, design, ran};
use std::collections::BTreeMap;
use std::os::unix::process::ExitStatusExt;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// How many times a run is killed, where somebody asks for more than a few.
fn kills_asked_for() -> Option<u64> {
    std::env::var("FRINGEBOOK_KILLS").ok().and_then(|n| n.parse().ok())
}

/// Kills when nobody asks.
const KILLS: u64 = 6;

/// Designs in the catalogue that is killed: enough that a kill between the first and the last is likely.
const DESIGNS: usize = 8;

/// Both colours of the bead that all designs use, in turn.
const INKS: [&str; 2] = ["#1b1c20", "#30343c"];

fn bytes_of(catalogue: &Catalogue) -> BTreeMap<String, Vec<u8>> {
    catalogue.seen(".pdf").into_iter().map(|(name, seen)| (name, seen.bytes)).collect()
}

/// Files that a run has begun and not put in place.
fn unfinished(catalogue: &Catalogue) -> Vec<String> {
    let entries = std::fs::read_dir(catalogue.path("")).expect("the folder");
    let names = entries.map(|e| e.expect("an entry").file_name().to_string_lossy().into_owned());
    names.filter(|name| name.ends_with(".part")).collect()
}

/// Waits until a run is writing a booklet, or has ended.
fn wait_for_writing(catalogue: &Catalogue, child: &mut Child) {
    let left_by_others = unfinished(catalogue);
    while unfinished(catalogue).iter().all(|name| left_by_others.contains(name))
        && child.try_wait().expect("its status").is_none()
    {
        thread::sleep(Duration::from_micros(50));
    }
}

#[test]
fn killed_at_any_moment_every_booklet_is_old_or_new_and_the_next_run_finishes() {
    let catalogue = Catalogue::with_designs(DESIGNS);
    catalogue.run(&["remake", "."]).ended(0);
    let old = bytes_of(&catalogue);
    catalogue.edit("palette.yaml", INKS[0], INKS[1]);
    let began = Instant::now();
    catalogue.run(&["remake", "."]).ended(0);
    let whole_run = began.elapsed();
    let new = bytes_of(&catalogue);
    assert_eq!(old.len(), DESIGNS);

    let mut colour = 1;
    let mut length = whole_run;
    let (mut killed, mut between, mut writing) = (0, 0, 0);
    let kills = kills_asked_for().unwrap_or(KILLS);
    for kill in 0..kills {
        catalogue.edit("palette.yaml", INKS[colour], INKS[1 - colour]);
        colour = 1 - colour;
        let mut child = catalogue
            .command(&["remake", "."])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("it runs");
        if kill % 4 == 3 {
            wait_for_writing(&catalogue, &mut child);
        } else {
            // Knuth's multiplicative hash spreads the moments evenly over the length of a whole run.
            let share = (kill + 1).wrapping_mul(2_654_435_761) % 1000;
            thread::sleep(length.mul_f64(share as f64 / 1000.0));
        }
        child.kill().expect("killed");
        let status = child.wait().expect("ended");
        let was_killed = status.signal() == Some(9);
        // Runs are longer or shorter with whatever else the machine does.
        length = length.mul_f64(if was_killed { 1.05 } else { 0.8 });
        let now = bytes_of(&catalogue);
        assert_eq!(now.len(), DESIGNS, "after kill {kill}");
        for (name, bytes) in &now {
            assert!(
                *bytes == old[name] || *bytes == new[name],
                "{name} is neither old nor new after kill {kill}"
            );
        }
        killed += u64::from(was_killed);
        between += u64::from(was_killed && now != old && now != new);
        writing += u64::from(!unfinished(&catalogue).is_empty());
    }
    println!(
        "{kills} kills: {killed} before the end, {between} between booklets, {writing} while one was written"
    );
    assert!(between > 0, "no kill fell between the first booklet and the last");
    assert!(writing > 0 || kills < 100, "no kill fell while a booklet was written");

    catalogue.run(&["remake", "."]).ended(0);
    assert_eq!(bytes_of(&catalogue), if colour == 0 { old } else { new });
    assert_eq!(unfinished(&catalogue), Vec::<String>::new());
}

#[test]
fn a_polite_stop_leaves_no_unfinished_file() {
    let catalogue = Catalogue::with_designs(DESIGNS);
    catalogue.run(&["remake", "."]).ended(0);
    catalogue.edit("palette.yaml", INKS[0], INKS[1]);
    let mut child = catalogue
        .command(&["remake", "."])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it runs");
    wait_for_writing(&catalogue, &mut child);
    let id = child.id().to_string();
    assert!(Command::new("kill").args(["-TERM", &id]).status().expect("kill runs").success());
    let output = child.wait_with_output().expect("ended");
    assert_eq!(output.status.code(), Some(130));
    assert_eq!(
        String::from_utf8_lossy(&output.stderr),
        "stopped; nothing is half written, and the same command finishes the rest\n"
    );
    assert_eq!(unfinished(&catalogue), Vec::<String>::new());
    catalogue.run(&["remake", "."]).ended(0);
}

#[test]
fn two_runs_at_once_both_finish_and_every_booklet_is_whole() {
    let catalogue = Catalogue::with_designs(DESIGNS);
    let runs: Vec<Ran> = thread::scope(|scope| {
        let handles: Vec<_> = (0..3).map(|_| scope.spawn(|| catalogue.run(&["remake", "."]))).collect();
        handles.into_iter().map(|h| h.join().expect("no panic")).collect()
    });
    for run in &runs {
        run.well();
    }
    let together = bytes_of(&catalogue);
    let alone = Catalogue::with_designs(DESIGNS);
    alone.run(&["remake", "."]).ended(0);
    assert_eq!(together, bytes_of(&alone));
    assert_eq!(catalogue.names().len(), 2 * DESIGNS + 2);
}

#[test]
fn a_full_disk_is_said_and_the_old_booklet_stands() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    let before = catalogue.seen(".pdf");
    catalogue.edit("heron.yaml", "edition: 1", "edition: 2");
    // A limit on the size of files stands in for the full disk: the same write fails half-way.
    let program = env!("CARGO_BIN_EXE_fringebook");
    // It also kills whoever does not listen to its signal.
    let script = format!("ulimit -f 8; exec '{program}' make heron.yaml");
    let mut command = Command::new("bash");
    command.args(["-c", &script]).current_dir(catalogue.path("")).stdin(Stdio::null());
    let limited = ran(&mut command);
    assert_eq!(
        limited.ended(1).err,
        "\
error: cannot write heron.pdf: the file would be larger than the system lets you write
  what to do: raise the limit and run the same command again; what stood there before is untouched

"
    );
    assert_eq!(catalogue.seen(".pdf"), before);
    assert_eq!(catalogue.names(), ["heron.pdf", "heron.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn a_pipe_and_a_link_to_nowhere_in_place_of_a_booklet_are_said_and_stay() {
    use std::os::unix::fs::symlink;
    let catalogue = Catalogue::with_heron();
    let path = catalogue.path("heron.pdf");
    let refused = |why: &str, hint: &str| {
        let before = std::fs::symlink_metadata(&path).expect("there");
        let told = format!("error: cannot write heron.pdf: {why}\n  what to do: {hint}\n\n");
        for words in [&["make", "heron.yaml"][..], &["make", "heron.yaml", "--replace"], &["remake", "."]] {
            assert_eq!(catalogue.run(words).ended(1).err, told, "{words:?}");
        }
        let after = std::fs::symlink_metadata(&path).expect("there still");
        assert_eq!((before.file_type(), before.len()), (after.file_type(), after.len()));
        std::fs::remove_file(&path).expect("removed");
    };
    let no_file = "what stands there is no file, but a pipe, a socket or a device";
    let remove = "remove or rename it, or write elsewhere with --out FOLDER";
    assert!(Command::new("mkfifo").arg(&path).status().expect("mkfifo runs").success());
    refused(no_file, remove);
    // Not a link to a device: a program that fails this test might replace it.
    let pipe = catalogue.path("pipe");
    assert!(Command::new("mkfifo").arg(&pipe).status().expect("mkfifo runs").success());
    symlink(&pipe, &path).expect("linked");
    refused(no_file, remove);
    std::fs::remove_file(&pipe).expect("still there");
    symlink("/nowhere/heron.pdf", &path).expect("linked");
    refused(
        "heron.pdf is a link to /nowhere/heron.pdf, which is not there",
        "bring back what it leads to, or remove the link, or write elsewhere with --out FOLDER",
    );
    assert_eq!(catalogue.names(), ["heron.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn a_folder_that_takes_no_writing_is_said() {
    let catalogue = Catalogue::with_heron();
    // The kernel's own folder of processes takes no files from anybody, root included.
    if !std::path::Path::new("/proc/self").exists() {
        eprintln!("skipped: this system has no /proc");
        return;
    }
    let ran = catalogue.run(&["make", "heron.yaml", "--out", "/proc"]);
    assert!(ran.ended(1).err.starts_with("error: cannot write /proc/heron.pdf: "), "{}", ran.err);
    assert_eq!(catalogue.names(), ["heron.yaml", "palette.yaml", "studio.yaml"]);
}

#[test]
fn a_file_in_place_of_the_folder_and_a_folder_in_place_of_the_file_are_said() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("books", "a letter");
    let ran = catalogue.run(&["make", "heron.yaml", "--out", "books"]);
    assert_eq!(
        ran.ended(1).err,
        "\
error: cannot write books/heron.pdf: books is a file, not a folder
  what to do: give a folder to --out

"
    );
    assert_eq!(catalogue.bytes("books"), b"a letter");

    catalogue.write("heron.pdf/keep.txt", "mine");
    let ran = catalogue.run(&["make", "heron.yaml"]);
    assert_eq!(
        ran.ended(1).err,
        "\
error: cannot write heron.pdf: a folder of that name is in the way
  what to do: rename the folder, or write elsewhere with --out FOLDER

"
    );
    assert_eq!(catalogue.bytes("heron.pdf/keep.txt"), b"mine");
}

#[test]
fn what_a_killed_run_left_is_swept_away_by_make_too() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("books/.fringebook-k2J8sd01.part", "half a booklet");
    catalogue.write("orchard.yaml", design("Orchard", ["ink", "mist", "slate"]));
    catalogue.run(&["make", "orchard.yaml", "--out", "books"]).ended(0);
    assert_eq!(
        catalogue.names(),
        ["books/orchard.pdf", "heron.yaml", "orchard.yaml", "palette.yaml", "studio.yaml"]
    );
    // And by whatever else writes.
    catalogue.write(".fringebook-k2J8sd02.part", "half a palette");
    catalogue.run(&["match", "heron.yaml", "--bead", "mist", "--write"]).well();
    assert!(!catalogue.path(".fringebook-k2J8sd02.part").exists());
    catalogue.write(".fringebook-k2J8sd03.part", "half a design");
    catalogue.run(&["new", "Wren"]).well();
    assert!(!catalogue.path(".fringebook-k2J8sd03.part").exists());
}
