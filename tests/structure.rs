//! The stages stand in one order, and none imports from above.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The stages in the order of the data; each may import those before it.
const STAGES: [&str; 7] = ["design", "stitch", "tally", "booklet", "layout", "paint", "cli"];
/// What every stage may import.
const GROUND: [&str; 3] = ["units", "colour", "diagnostic"];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// What runs before the crate is built, beside what it makes: no part of the crate.
fn build_script() -> PathBuf {
    root().join("src/booklet/wording/build.rs")
}

/// Every Rust file below a folder, with its text.
fn rust_files(folder: &Path) -> BTreeMap<PathBuf, String> {
    let mut files = BTreeMap::new();
    for entry in fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("the folder can be read").path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            let text = fs::read_to_string(&path).expect("source is text");
            files.insert(path, text);
        }
    }
    files
}

/// The top-level modules of this crate that a text names.
fn modules_named(text: &str) -> Vec<String> {
    let code = text.lines().filter(|l| !l.trim_start().starts_with("//"));
    let mut named = Vec::new();
    for line in code {
        for (at, _) in line.match_indices("crate::") {
            let rest = &line[at + "crate::".len()..];
            let name: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            named.push(name);
        }
    }
    named
}

/// Imports that the order of the stages forbids, as `file names stage`.
fn forbidden(stage: &str, files: &BTreeMap<PathBuf, String>) -> Vec<String> {
    let place = STAGES.iter().position(|s| *s == stage);
    let allowed = |name: &str| {
        GROUND.contains(&name)
            || name == stage
            || match (place, STAGES.iter().position(|s| *s == name)) {
                (Some(here), Some(there)) => there < here,
                _ => false,
            }
    };
    let mut found = Vec::new();
    for (path, text) in files {
        for name in modules_named(text) {
            if (STAGES.contains(&name.as_str()) || GROUND.contains(&name.as_str())) && !allowed(&name) {
                found.push(format!("{} names {name}", path.display()));
            }
        }
    }
    found
}

#[test]
fn no_stage_imports_from_above() {
    let mut found = Vec::new();
    for stage in STAGES.iter().chain(&GROUND) {
        let files = rust_files(&root().join("src").join(stage));
        assert!(!files.is_empty(), "src/{stage} holds no code");
        found.extend(forbidden(stage, &files));
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn an_import_from_above_would_be_found() {
    let files = BTreeMap::from([(PathBuf::from("x.rs"), "use crate::layout::Page;".to_owned())]);
    assert_eq!(forbidden("stitch", &files), ["x.rs names layout"]);
    assert!(forbidden("paint", &files).is_empty());
}

#[test]
fn only_paint_names_the_pdf_crates_and_only_design_the_yaml_crate() {
    for (path, text) in rust_files(&root().join("src")) {
        let inside = |folder: &str| path.starts_with(root().join("src").join(folder));
        let code = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
        if !inside("paint") {
            assert!(!code.contains("printpdf::") && !code.contains("lopdf::"), "{}", path.display());
        }
        if !inside("design") && path != build_script() {
            assert!(!code.contains("serde_yaml::"), "{}", path.display());
        }
    }
}

#[test]
fn only_commands_and_design_touch_files() {
    for (path, text) in rust_files(&root().join("src")) {
        if path == build_script() {
            continue;
        }
        let relative = path.strip_prefix(root().join("src")).expect("below src").to_owned();
        let may = ["cli", "design"].iter().any(|f| relative.starts_with(f));
        let touches = ["std::fs", "fs::read", "fs::write", "File::open", "File::create"];
        assert!(may || !touches.iter().any(|t| text.contains(t)), "{}", relative.display());
    }
}

/// Files and folders of tests that no `mod` line of `tests/main.rs` names: they would never be run.
fn not_run(main: &str, names: &[String]) -> Vec<String> {
    let named = |name: &String| main.lines().any(|line| line == format!("mod {name};"));
    names.iter().filter(|name| !named(name)).cloned().collect()
}

#[test]
fn every_file_of_tests_is_run() {
    let mut names = Vec::new();
    for entry in fs::read_dir(root().join("tests")).expect("the folder of tests") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        if path.join("mod.rs").exists() || path.extension().is_some_and(|e| e == "rs") && name != "main" {
            names.push(name);
        }
    }
    let main = fs::read_to_string(root().join("tests/main.rs")).expect("tests/main.rs");
    assert!(names.len() > 20, "{names:?}");
    assert_eq!(not_run(&main, &names), Vec::<String>::new());
}

#[test]
fn a_forgotten_file_of_tests_would_be_found() {
    assert_eq!(not_run("mod remake;\nmod help;\n", &["help".to_owned(), "fit".to_owned()]), ["fit"]);
}

#[test]
fn paths_named_in_the_developers_guide_exist() {
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let mut checked = 0;
    for word in guide.split('`').skip(1).step_by(2) {
        let is_path = ["src/", "tests/", "templates/", "fonts/", ".ci/", "demo-designs/"];
        if is_path.iter().any(|p| word.starts_with(p)) && !word.contains(['{', ' ', '…']) {
            assert!(root().join(word).exists(), "DEVELOPERS.md names {word}, which is not there");
            checked += 1;
        }
    }
    assert!(checked > 10, "the guide names only {checked} paths");
}
