//! The command `match`, as a maker uses it.

use crate::maker::{DESIGN, Folder, PALETTE, err, out};
use std::fs::File;
use std::thread;
use std::time::Duration;

/// The palette with `mist` discontinued in favour of `frost`, and one more bead like it.
fn discontinued() -> String {
    let cloud =
        "  cloud:  {name: Cloud, colour: \"#bcc9d0\", shape: cylinder, size: 11/0, stock: 4}\nthreads:";
    PALETTE.replace("code: QF-022,", "code: QF-022, replaced by: frost,").replace("threads:", cloud)
}

fn folder() -> Folder {
    Folder::new().with("palette.yaml", &discontinued()).with("heron.yaml", DESIGN)
}

#[test]
fn discontinued_beads_are_found_by_themselves_and_the_nearest_proposed() {
    let folder = folder();
    let run = folder.run(&["match", "heron.yaml"]);
    assert_eq!(
        out(&run),
        "\
Mist (mist, #c9d3d8), cylinder 11/0, now replaced by frost
  difference  bead   name   colour   in stock
         2.9  cloud  Cloud  #bcc9d0    4.00 g
         4.8  frost  Frost  #dfe8ec
        42.8  ember  Ember  #d2452b
"
    );
    assert_eq!(folder.text("palette.yaml"), discontinued(), "nothing is written unasked");
}

#[test]
fn beads_for_a_bead_or_a_colour() {
    let folder = folder();
    let told = |words: &[&str]| {
        let run = folder.run(&[&["match", "heron.yaml"], words].concat());
        assert_eq!(run.status.code(), Some(0), "{}", err(&run));
        out(&run)
    };
    assert_eq!(
        told(&["--bead", "ember", "--best", "1"]),
        "\
Ember (ember, #d2452b), cylinder 11/0
  difference  bead  name       colour   code    in stock
        42.1  ink   Ink black  #1b1c20  QF-010    1.50 g
"
    );
    // A discontinued bead is not proposed, near as it is.
    assert_eq!(
        told(&["--colour", "#c9d3d8", "--best", "2"]),
        "\
#c9d3d8 among cylinder 11/0
  difference  bead   name   colour   in stock
         2.9  cloud  Cloud  #bcc9d0    4.00 g
         4.8  frost  Frost  #dfe8ec
"
    );
    assert_eq!(
        told(&["--bead", "pearl"]),
        "Pearl (pearl, #cad4d9), round 11/0\n  no other bead of this shape and size\n"
    );
}

#[test]
fn nothing_is_discontinued() {
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let run = folder.run(&["match", "heron.yaml"]);
    assert_eq!(
        (run.status.code(), out(&run)),
        (Some(0), "No bead of these designs is discontinued.\n".to_owned())
    );
}

#[test]
fn a_replacement_is_written_and_all_else_stays_byte_for_byte() {
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let run = folder.run(&["match", "heron.yaml", "--bead", "mist", "--write"]);
    assert_eq!((run.status.code(), err(&run)), (Some(0), String::new()));
    assert!(out(&run).ends_with("palette.yaml: mist is replaced by frost\n"), "{}", out(&run));
    let after = folder.text("palette.yaml");
    let changed: Vec<(&str, &str)> = PALETTE.lines().zip(after.lines()).filter(|(a, b)| a != b).collect();
    let [(before, now)] = changed.as_slice() else { panic!("more than one line has changed: {changed:#?}") };
    assert!(before.starts_with("  mist: ") && now.contains("replaced by: frost"), "{now}");
    assert_eq!(now.replace("replaced by: frost, ", "").replace(", replaced by: frost", ""), *before);
    assert_eq!(after.lines().count(), PALETTE.lines().count());
    // The design takes it from there.
    let counted = folder.count("heron.yaml");
    assert_eq!(counted.design.palette.beads[counted.tally.beads[1].bead.0].key, "frost");
    assert!(counted.design.letters[1].replaces.is_some());
}

#[test]
fn another_than_the_nearest_may_be_written_if_it_fits() {
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let run = folder.run(&["match", "heron.yaml", "--bead", "mist", "--write", "--by", "ember"]);
    assert_eq!(run.status.code(), Some(0), "{}", err(&run));
    assert!(folder.text("palette.yaml").contains("replaced by: ember"));

    let folder = Folder::new().with("heron.yaml", DESIGN);
    let run = folder.run(&["match", "heron.yaml", "--bead", "mist", "--write", "--by", "pearl"]);
    assert_eq!(run.status.code(), Some(1));
    assert!(err(&run).contains("error: `pearl` cannot replace `mist`: cylinder 11/0"), "{}", err(&run));
    let run = folder.run(&["match", "heron.yaml", "--bead", "pearl", "--write"]);
    assert_eq!(run.status.code(), Some(1));
    assert!(
        err(&run).contains("error: the palette has no other bead like `pearl`: round 11/0"),
        "{}",
        err(&run)
    );
    assert_eq!(folder.text("palette.yaml"), PALETTE);
}

#[test]
fn wrong_words_are_wrong_usage_and_write_nothing() {
    let folder = folder();
    for (words, told) in [
        (&["match"][..], "required arguments"),
        (&["match", "heron.yaml", "--write"], "--bead"),
        (
            &["match", "heron.yaml", "--colour", "mist"],
            "write a colour as in \"#7a8f6a\", in quotation marks",
        ),
        (
            &["match", "heron.yaml", "--bead", "mits"],
            "error: the palette has no bead `mits`\n  what to do: did you mean `mist`?",
        ),
    ] {
        let run = folder.run(words);
        assert_eq!(run.status.code(), Some(2), "{words:?}");
        assert!(err(&run).contains(told), "{words:?}: {}", err(&run));
    }
    assert_eq!(folder.text("palette.yaml"), discontinued());
}

/// Several runs that each note another replacement: none undoes what another has written.
#[test]
fn edits_at_once_are_all_kept() {
    let beads = ["ink", "mist", "ember", "frost"];
    for round in 0..5 {
        let folder = Folder::new().with("heron.yaml", DESIGN);
        let one =
            |bead: &str| folder.run(&["match", "heron.yaml", "--bead", bead, "--write", "--by", "cloud"]);
        let folder = &folder;
        let palette = PALETTE.replace(
            "threads:",
            "  cloud:  {name: Cloud, colour: \"#bcc9d0\", shape: cylinder, size: 11/0}\nthreads:",
        );
        std::fs::write(folder.path("palette.yaml"), palette).expect("written");
        thread::scope(|scope| {
            let runs: Vec<_> = beads.iter().map(|bead| scope.spawn(|| one(bead))).collect();
            for run in runs {
                let run = run.join().expect("no panic");
                assert_eq!((run.status.code(), err(&run)), (Some(0), String::new()));
            }
        });
        let after = folder.text("palette.yaml");
        assert_eq!(after.matches("replaced by: cloud").count(), beads.len(), "round {round}:\n{after}");
    }
}

/// Whoever else has the palette in hand is waited for, and her edit is built upon.
#[cfg(unix)]
#[test]
fn an_edit_waits_for_the_one_before() {
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let in_hand = File::open(folder.path("")).expect("the folder");
    in_hand.lock().expect("locked");
    thread::scope(|scope| {
        let run = scope.spawn(|| folder.run(&["match", "heron.yaml", "--bead", "mist", "--write"]));
        // Long enough to be at the palette; were it not waiting, it would have written by then.
        thread::sleep(Duration::from_millis(800));
        assert_eq!(folder.text("palette.yaml"), PALETTE);
        let edited = PALETTE.replace("stock: 1.5", "stock: 6.5");
        std::fs::write(folder.path("palette.yaml"), edited).expect("written");
        drop(in_hand);
        assert_eq!(run.join().expect("no panic").status.code(), Some(0));
    });
    let after = folder.text("palette.yaml");
    assert!(after.contains("stock: 6.5") && after.contains("replaced by: frost"), "{after}");
}

#[cfg(unix)]
#[test]
fn a_palette_keeps_its_permissions() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let path = folder.path("palette.yaml");
    for wanted in [0o664, 0o600] {
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(wanted)).expect("changed");
        let run = folder.run(&["match", "heron.yaml", "--bead", "mist", "--write"]);
        assert_eq!(run.status.code(), Some(0), "{}", err(&run));
        let mode = std::fs::metadata(&path).expect("there").permissions().mode() & 0o777;
        assert_eq!(mode, wanted, "{mode:o} for {wanted:o}");
    }
}
