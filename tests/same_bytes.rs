//! The same files give the same bytes: in every time zone, locale and working folder, on any number of
//! processors, whatever else the system says of itself. A few surroundings are tried each time;
//! `FRINGEBOOK_SURROUNDINGS=100` tries so many.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Surroundings when nobody asks for more.
const FEW: usize = 4;

/// How the surroundings are changed: each list has another length, so that all pairs come together.
const THREADS: [&str; 2] = ["1", "2"];
const ZONES: [&str; 5] = ["UTC", "Asia/Kolkata", "America/St_Johns", "Pacific/Kiritimati", "nowhere/at all"];
const LOCALES: [&str; 7] =
    ["C", "de_DE.UTF-8", "tr_TR.UTF-8", "ar_EG.UTF-8", "fr_CA.ISO-8859-1", "POSIX", "xx"];
const HOMES: [Option<&str>; 3] = [None, Some("/"), Some("/nowhere at all")];

/// A folder with the demo files, as deep below a temporary one as asked for.
fn demos_in(folder: &Path, depth: usize) -> (PathBuf, Vec<String>) {
    let own = (0..depth).fold(folder.join("designs of mine"), |path, n| path.join(format!("ébène {n}")));
    fs::create_dir_all(&own).expect("a folder");
    let mut designs = Vec::new();
    let demos = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs");
    for entry in fs::read_dir(demos).expect("the demo designs") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        fs::copy(&path, own.join(&name)).expect("copied");
        if !["palette.yaml", "studio.yaml"].contains(&name.as_str()) {
            designs.push(name);
        }
    }
    designs.sort();
    (own, designs)
}

/// All PDFs that come of the demo designs in surroundings of a number, by name.
fn made_in(number: usize) -> BTreeMap<String, Vec<u8>> {
    let folder = tempfile::tempdir().expect("a folder");
    let (own, mut designs) = demos_in(folder.path(), number % 3);
    let out = folder.path().join("out");
    // From the folder itself, from the root, or from elsewhere; the designs named in either order.
    let elsewhere = folder.path().join("elsewhere");
    fs::create_dir_all(&elsewhere).expect("a folder");
    let below = own.strip_prefix(folder.path()).expect("below").to_owned();
    let (working, before) = match number % 4 {
        0 => (own.clone(), PathBuf::new()),
        1 => (PathBuf::from("/"), own.clone()),
        2 => (elsewhere, Path::new("..").join(below)),
        _ => (folder.path().to_owned(), below),
    };
    if number % 2 == 1 {
        designs.reverse();
    }
    for words in [
        &["make", "--paper", "a4"][..],
        &["bench", "--paper", "letter"],
        &["make", "--grey", "--paper", "a4"],
    ] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_fringebook"));
        command.args(words).args(designs.iter().map(|name| before.join(name))).arg("--out").arg(&out);
        command.current_dir(&working).stdin(Stdio::null()).env_clear();
        command.env("RAYON_NUM_THREADS", THREADS[number % THREADS.len()]);
        command.env("TZ", ZONES[number % ZONES.len()]);
        command.env("LC_ALL", LOCALES[number % LOCALES.len()]).env("LANG", LOCALES[number % LOCALES.len()]);
        if let Some(home) = HOMES[number % HOMES.len()] {
            command.env("HOME", home).env("USER", "somebody").env("COLUMNS", number.to_string());
        }
        let output = command.output().expect("the program runs");
        assert!(output.status.success(), "{number}: {}", String::from_utf8_lossy(&output.stderr));
    }
    let made = fs::read_dir(&out).expect("booklets").map(|entry| {
        let path = entry.expect("an entry").path();
        (path.file_name().expect("a name").to_string_lossy().into_owned(), fs::read(path).expect("read"))
    });
    made.collect()
}

#[test]
fn the_same_files_give_the_same_bytes_in_all_surroundings() {
    let asked = std::env::var("FRINGEBOOK_SURROUNDINGS").ok();
    let count = asked.map_or(FEW, |n| n.parse().expect("a number of surroundings"));
    let first = made_in(0);
    assert!(
        first.len() >= 12 && first.values().all(|bytes| bytes.starts_with(b"%PDF")),
        "{:?}",
        first.keys()
    );
    for number in 1..count {
        let others = made_in(number);
        assert_eq!(first.keys().collect::<Vec<_>>(), others.keys().collect::<Vec<_>>());
        for (name, bytes) in &first {
            assert!(*bytes == others[name], "{name} differs in surroundings {number}");
        }
    }
    println!("{} files are the same in {count} surroundings", first.len());
}
