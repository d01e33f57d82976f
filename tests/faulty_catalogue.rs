//! A catalogue with something wrong in it: what is wrong is named with its place, and all else is made.

use crate::catalogue::{Catalogue, Ran, design, ran};
use std::fs;
use std::process::Command;

/// The design of a heron as JSON.
fn as_json() -> String {
    let yaml = design("Heron", ["ink", "mist", "reed"]);
    let value: serde_json::Value = serde_yaml::from_str(&yaml).expect("YAML");
    serde_json::to_string_pretty(&value).expect("JSON")
}

/// With every line that begins with a key changed.
fn with_keys(change: impl Fn(&str) -> String) -> String {
    let yaml = design("Heron", ["ink", "mist", "reed"]);
    let line = |line: &str| match line.split_once(':') {
        Some((key, rest)) if !key.starts_with(' ') => format!("{}:{rest}\n", change(key)),
        _ => format!("{line}\n"),
    };
    yaml.lines().map(line).collect()
}

fn indented() -> String {
    design("Heron", ["ink", "mist", "reed"]).lines().map(|line| format!("  {line}\n")).collect()
}

#[test]
fn a_design_is_remade_however_its_keys_are_written_and_whatever_it_is_called() {
    for (name, text) in [
        ("heron.yaml", indented()),
        ("heron.yaml", with_keys(|key| format!("\"{key}\""))),
        ("heron.yml", with_keys(|key| format!("'{key}' "))),
        ("heron.yaml", as_json()),
        ("heron.json", as_json()),
        ("heron.JSON", as_json()),
    ] {
        let catalogue = Catalogue::new();
        catalogue.write(name, &text);
        // Files that belong to others.
        catalogue.write("package.json", "{\"name\": \"shop\", \"title\": \"Shop\"}");
        catalogue.write("notes.yaml", "shopping: bread\n");
        let first = catalogue.run(&["remake", "."]);
        assert_eq!(first.ended(0).last_line(), "1 booklet: 1 made, 0 current, 0 failed", "{text}");
        catalogue.edit("palette.yaml", "#1b1c20", "#202228");
        let again = catalogue.run(&["remake", "."]);
        assert_eq!(
            again.ended(0).rows("made"),
            [("heron.pdf".to_owned(), "bead ink: colour #1b1c20 → #202228".to_owned())],
            "{text}"
        );
    }
}

#[test]
fn a_design_under_any_name_that_make_takes_is_remade_once_it_has_a_booklet() {
    let catalogue = Catalogue::new();
    catalogue.write("heron.txt", design("Heron", ["ink", "mist", "reed"]));
    catalogue.write("notes.txt", "body: mine\n");
    catalogue.run(&["make", "heron.txt"]).ended(0);
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "1 booklet: 0 made, 1 current, 0 failed");
    catalogue.edit("heron.txt", "edition: 1", "edition: 2");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(0).last_line(), "1 booklet: 1 made, 0 current, 0 failed");
}

#[test]
fn a_ruined_design_fails_with_its_line_and_its_booklet_stands() {
    let text = design("Heron", ["ink", "mist", "reed"]);
    let wide: Vec<u8> = format!("\u{feff}{text}").encode_utf16().flat_map(u16::to_le_bytes).collect();
    let narrow: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    for (what, bytes, place) in [
        ("emptied", Vec::new(), "heron.yaml:1:1: error: "),
        ("blank", b"\n\n".to_vec(), "heron.yaml:1:1: error: "),
        ("cut off in its first word", b"tit".to_vec(), "heron.yaml:1:1: error: "),
        ("cut off in its title", b"title: Her".to_vec(), "heron.yaml:1:1: error: "),
        ("cut off in its body", text.as_bytes()[..150].to_vec(), "heron.yaml:"),
        ("zeros, as a crash leaves them", vec![0; 300], "heron.yaml:1:1: error: "),
        ("UTF-16", wide, "heron.yaml:1:1: error: this text is written in UTF-16, not in UTF-8\n"),
        ("UTF-16 without its mark", narrow, "heron.yaml:1:1: error: "),
        ("a palette", crate::catalogue::PALETTE.into(), "heron.yaml:2:1: error: "),
        ("something else", b"shopping: bread\n".to_vec(), "heron.yaml:1:1: error: "),
        ("JSON cut off", as_json().as_bytes()[..300].to_vec(), "heron.yaml:"),
    ] {
        let catalogue = Catalogue::with_designs(1);
        catalogue.write("heron.yaml", &text);
        catalogue.run(&["remake", "."]).ended(0);
        let before = catalogue.seen("heron.pdf");
        catalogue.write("heron.yaml", &bytes);
        catalogue.edit("palette.yaml", "#1b1c20", "#202228");
        let ran = catalogue.run(&["remake", "."]);
        assert_eq!(ran.ended(1).last_line(), "2 booklets: 1 made, 0 current, 1 failed", "{what}");
        assert!(ran.err.starts_with(place), "{what}: {}", ran.err);
        assert_eq!(ran.rows("failed").len(), 1, "{what}: {}", ran.out);
        assert!(ran.out.contains("\nheron.yaml     failed "), "{what}: {}", ran.out);
        assert!(!ran.out.contains("gone"), "{what}: {}", ran.out);
        assert_eq!(catalogue.seen("heron.pdf"), before, "{what}");
    }
}

#[test]
fn a_ruined_design_fails_before_it_ever_had_a_booklet() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("orchard.yaml", "");
    catalogue.write("wren.yml", "title: Wren\n");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(1).last_line(), "3 booklets: 1 made, 0 current, 2 failed");
    for named in ["orchard.yaml:1:1: error: ", "wren.yml:1:1: error: "] {
        assert!(ran.err.contains(named), "{named}{}", ran.err);
    }
}

/// A pipe that nobody writes into, and a device that never ends, neither keep it waiting nor fill the memory.
#[cfg(unix)]
#[test]
fn pipes_and_devices_in_a_catalogue_are_named_and_nothing_waits_for_them() {
    use std::os::unix::fs::symlink;
    let catalogue = Catalogue::with_heron();
    for name in ["pipe.yaml", "heron.pdf", "pipe.json", "notes.txt", ".fringebook-a.part"] {
        assert!(Command::new("mkfifo").arg(catalogue.path(name)).status().expect("mkfifo runs").success());
    }
    symlink("/dev/zero", catalogue.path("device.yaml")).expect("linked");
    symlink("/dev/zero", catalogue.path("device.pdf")).expect("linked");
    symlink("nowhere.yaml", catalogue.path("lost.yaml")).expect("linked");
    symlink(".", catalogue.path("round.yaml")).expect("linked");
    let ran = catalogue.run(&["remake", "."]);
    assert_eq!(ran.ended(1).last_line(), "5 booklets: 0 made, 0 current, 5 failed", "{}", ran.err);
    for told in [
        "error: cannot write heron.pdf: what stands there is no file, but a pipe, a socket or a device",
        "error: `pipe.yaml` is no design file, but a pipe, a socket or a device",
        "error: `device.yaml` is no design file, but a pipe, a socket or a device",
        "error: there is no design file `lost.yaml`",
        "error: `round.yaml` is a folder, not a design file",
    ] {
        assert!(ran.err.contains(told), "{told}: {}", ran.err);
    }
}

/// Everything at once, in a catalogue of so many designs; a hundredth of them, and no fewer than three, are broken.
fn with_faults(count: usize) {
    let catalogue = Catalogue::new();
    let broken = (count / 100).max(3);
    // Files without fault first, then the broken ones.
    let mut named = Vec::new();
    for n in 0..count {
        let text = design(&format!("Design {n}"), ["ink", "mist", "reed"]);
        let name = format!("part-{}/design-{n:04}.yaml", n % 7);
        let text = match n {
            n if n >= broken => text,
            n if n % 3 == 0 => {
                named.push(format!("{name}:4:31: error: "));
                text.replace("C: reed", "C: rede")
            }
            n if n % 3 == 1 => {
                named.push(format!("{name}:14:11: error: "));
                text.replace("6A 2B 1C", "6A 2Q 1C")
            }
            _ => {
                named.push(format!("{name}:1:1: error: "));
                String::new()
            }
        };
        catalogue.write(&name, text);
    }
    // One booklet stands under a name that somebody's letter has.
    let foreign = format!("part-{}/design-{:04}.pdf", (count - 1) % 7, count - 1);
    catalogue.write(&foreign, "%PDF-1.4 a letter\n%%EOF\n");
    catalogue.write("shut/wren.yaml", design("Wren", ["ink", "mist", "reed"]));
    let shut = Shut::new(&catalogue, "shut");

    let ran = shut.run(&["remake", "."]);
    drop(shut);
    let made = count - broken - 1;
    assert_eq!(
        ran.ended(1).last_line(),
        format!("{count} booklets: {made} made, 0 current, {} failed", broken + 1),
        "{}",
        ran.err
    );
    for named in &named {
        assert!(ran.err.contains(named), "{named}: {}", ran.err);
    }
    assert!(ran.err.contains(&format!("error: {foreign} is there already and was not made by fringebook")));
    assert!(ran.err.contains("error: shut cannot be looked into: Permission denied"), "{}", ran.err);
    assert_eq!(ran.err.matches("error: ").count(), named.len() + 2, "{}", ran.err);
    assert_eq!(ran.rows("failed").len(), broken + 1);
    assert_eq!(catalogue.bytes(&foreign), b"%PDF-1.4 a letter\n%%EOF\n");
    assert_eq!(catalogue.seen(".pdf").len(), made + 1);

    // Put right, the rest is made and nothing else.
    fs::remove_file(catalogue.path(&foreign)).expect("removed");
    for n in 0..broken {
        let text = design(&format!("Design {n}"), ["ink", "mist", "reed"]);
        catalogue.write(&format!("part-{}/design-{n:04}.yaml", n % 7), text);
    }
    let ran = catalogue.run(&["remake", "."]);
    let rest = broken + 2;
    let all = count + 1;
    assert_eq!(
        ran.ended(0).last_line(),
        format!("{all} booklets: {rest} made, {} current, 0 failed", all - rest)
    );
}

/// A folder that may not be read, and the program run by somebody whom that stops: not by root.
struct Shut<'a> {
    catalogue: &'a Catalogue,
    folder: &'static str,
}

#[cfg(unix)]
mod shut {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    use std::os::unix::process::CommandExt;
    use std::path::Path;

    /// The user without any rights of most systems.
    const NOBODY: u32 = 65_534;

    impl<'a> Shut<'a> {
        pub fn new(catalogue: &'a Catalogue, folder: &'static str) -> Shut<'a> {
            let shut = Shut { catalogue, folder };
            shut.allow(0o000);
            shut
        }

        fn allow(&self, mode: u32) {
            fs::set_permissions(self.catalogue.path(self.folder), fs::Permissions::from_mode(mode))
                .expect("changed");
        }

        /// Runs the program so that the folder is shut to it.
        pub fn run(&self, words: &[&str]) -> Ran {
            let root = self.catalogue.path("");
            let mut command = self.catalogue.command(words);
            if fs::metadata(&root).expect("the folder").uid() == 0 {
                give(&root, NOBODY);
                command.uid(NOBODY).gid(NOBODY);
            }
            ran(&mut command)
        }
    }

    impl Drop for Shut<'_> {
        fn drop(&mut self) {
            self.allow(0o755);
        }
    }

    fn give(path: &Path, to: u32) {
        chown(path, Some(to), Some(to)).expect("root gives files away");
        if path.is_dir() {
            for entry in fs::read_dir(path).expect("a folder") {
                give(&entry.expect("an entry").path(), to);
            }
        }
    }
}

#[cfg(unix)]
#[test]
fn faults_stop_nothing_else_and_each_is_named_with_its_line() {
    with_faults(24);
}

/// `cargo test --release --test all faulty_catalogue::faults_in_a_thousand -- --ignored`
#[cfg(unix)]
#[test]
#[ignore = "a thousand designs take a while in a debug build"]
fn faults_in_a_thousand_designs() {
    with_faults(1000);
}
