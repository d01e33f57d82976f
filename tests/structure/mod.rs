//! The stages stand in one order, and none imports from above.

mod paths;

use paths::{Named, names, paths};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The rooms of the crate from the ground up; each may import those before it. The ground floor comes first, then
/// the stages in the order of the data.
const ROOMS: [&str; 15] = [
    "units",
    "holes",
    "colour",
    "diagnostic",
    "images",
    "fonts",
    "drawn",
    "design",
    "stitch",
    "tally",
    "booklet",
    "layout",
    "paint",
    "screen",
    "cli",
];

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

/// The module that a file of a room holds.
fn module_of(path: &Path) -> Vec<String> {
    let inside = path.strip_prefix(root().join("src")).unwrap_or(path).with_extension("");
    let mut module: Vec<String> =
        inside.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    module.pop_if(|last| last == "mod");
    module
}

/// What the order of the rooms forbids in the files of one of them, as `file names room`.
fn forbidden(room: &str, files: &BTreeMap<PathBuf, String>) -> Vec<String> {
    let place = |name: &str| ROOMS.iter().position(|r| *r == name);
    let mut found = Vec::new();
    for (path, text) in files {
        for named in paths(&module_of(path), text) {
            let Some(there) = named.room().filter(|there| *there != room) else { continue };
            if there == "*" || place(there) > place(room) {
                found.push(format!("{} names {there}", path.display()));
            } else if named.handed_on && place(there).is_some() {
                found.push(format!("{} hands on what is {there}'s", path.display()));
            }
        }
    }
    found
}

#[test]
fn no_room_imports_from_above_or_hands_on_what_is_anothers() {
    let mut found = Vec::new();
    for room in ROOMS {
        let files = rust_files(&root().join("src").join(room));
        assert!(!files.is_empty(), "src/{room} holds no code");
        found.extend(forbidden(room, &files));
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn every_room_has_its_place_in_the_order() {
    for entry in fs::read_dir(root().join("src")).expect("the folder of the crate") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        assert!(path.is_file() || ROOMS.contains(&name.as_str()), "src/{name} has no place in the order");
    }
}

/// What a file of `src/design/yaml/` names of the rest of its stage, but for where files come from and how much
/// they may ask for.
fn rules_named(path: &Path, text: &str) -> Vec<String> {
    let beside = |named: &Named| match &named.names[..] {
        [root, design, name, ..] if root == "crate" && design == "design" => Some(name.clone()),
        _ => None,
    };
    let named = paths(&module_of(path), text);
    named.iter().filter_map(beside).filter(|n| !["yaml", "shelf", "bounds"].contains(&n.as_str())).collect()
}

#[test]
fn what_reads_yaml_knows_no_rules_of_the_files() {
    for (path, text) in rust_files(&root().join("src/design/yaml")) {
        assert_eq!(rules_named(&path, &text), Vec::<String>::new(), "{}", path.display());
    }
    let path = root().join("src/design/yaml/check.rs");
    assert_eq!(rules_named(&path, "use super::super::{palette::PaletteRead, bounds};"), ["palette"]);
    assert_eq!(rules_named(&path, "use crate::design::{yaml::Node, *};"), ["*"]);
}

/// What is forbidden in a file of stitches that holds this code.
fn forbidden_in_stitch(code: &str) -> Vec<String> {
    let path = root().join("src/stitch/brick.rs");
    let told = forbidden("stitch", &BTreeMap::from([(path.clone(), code.to_owned())]));
    told.iter().map(|line| line.replace(&format!("{} ", path.display()), "")).collect()
}

#[test]
fn an_import_from_above_would_be_found() {
    let found = [
        ("use crate::layout::Page;", "names layout"),
        ("use crate::{units::Mm, layout::Page};", "names layout"),
        (
            "use crate::{\n    design::{Side, Row},\n    paint::{claims::{CLAIMS, Met}, pdf},\n};",
            "names paint",
        ),
        ("use crate::{layout};", "names layout"),
        ("use crate::{layout::{self as pages}};", "names layout"),
        ("use {crate::cli as commands, std::fmt};", "names cli"),
        ("use ::{std::fmt, crate::tally::Tally};", "names tally"),
        ("pub use crate::booklet::*;", "names booklet"),
        ("pub(crate) use crate::{booklet::Text};", "names booklet"),
        ("fn f() -> usize { crate::layout::pages() }", "names layout"),
        ("fn f(x: &dyn crate :: layout :: Set) {}", "names layout"),
        ("fn f() { g::<Vec<crate::tally::Tally>>('{') }", "names tally"),
        ("fn f<'a>(x: &'a str) { use crate::paint::pdf; }", "names paint"),
        ("macro_rules! m { () => { $crate::cli::run() } }", "names cli"),
        ("use super::super::layout::Page;", "names layout"),
        ("use super::{needle, super::layout::{Page}};", "names layout"),
        ("mod tests { use super::super::super::layout::Page; }", "names layout"),
        ("use crate::*;", "names *"),
        ("use crate as all;", "names *"),
        ("use crate::{self as all};", "names *"),
        ("use crate::{*};", "names *"),
        ("pub use crate::design::Side;", "hands on what is design's"),
        ("pub(super) use crate::{design::{Side as Edge}};", "hands on what is design's"),
    ];
    for (code, told) in found {
        assert!(forbidden_in_stitch(code).iter().any(|line| line == told), "{code}");
    }
}

#[test]
fn an_import_from_below_or_beside_is_left_alone() {
    let left_alone = [
        "use crate::{units::{Mm, Point}, design::{Side, Row}, stitch::ladder};",
        "pub use crate::stitch::{ladder, needle};",
        "pub use super::{ladder, needle::{self, Needle}};",
        "mod tests { use super::super::layout::Page; }",
        "use std::{fmt, collections::BTreeMap};\nuse other::layout::Page;",
        "// use crate::layout::Page;\n/* crate::paint /* crate::paint */ crate::paint */",
        "const A: &str = \"use crate::layout::Page \\\" crate::cli\";",
        "const A: &str = r#\"use crate::layout::Page \" crate::cli\"#; const B: char = '\"'; const C: char = '\\'';",
        "pub(in crate::stitch) fn f() {}",
    ];
    for code in left_alone {
        assert_eq!(forbidden_in_stitch(code), Vec::<String>::new(), "{code}");
    }
}

#[test]
fn only_paint_names_the_pdf_crates_and_only_design_the_yaml_crates() {
    for (path, text) in rust_files(&root().join("src")) {
        let inside = |folder: &str| path.starts_with(root().join("src").join(folder));
        if !inside("paint") {
            assert!(!names(&text, "printpdf") && !names(&text, "lopdf"), "{}", path.display());
        }
        if !inside("design") && path != build_script() {
            assert!(!names(&text, "serde_yaml") && !names(&text, "saphyr_parser"), "{}", path.display());
        }
    }
}

/// Whether code reads or writes files.
fn touches_files(code: &str) -> bool {
    let touches = |named: &Named| {
        let names: Vec<&str> = named.names.iter().map(String::as_str).collect();
        matches!(names[..], ["std", "fs", ..] | ["fs", ..] | ["File", "open" | "create", ..])
    };
    paths(&[], code).iter().any(touches)
}

#[test]
fn only_commands_and_design_touch_files() {
    for (path, text) in rust_files(&root().join("src")) {
        if path == build_script() {
            continue;
        }
        let relative = path.strip_prefix(root().join("src")).expect("below src").to_owned();
        let may = ["cli", "design"].iter().any(|f| relative.starts_with(f));
        assert!(may || !touches_files(&text), "{}", relative.display());
    }
}

#[test]
fn a_touched_file_would_be_found() {
    for code in [
        "use std::{fmt, fs};",
        "use std::{fs::{self, File}};",
        "fn f() { std::fs::read(\"a\"); }",
        "fn f() { File::open(\"a\"); }",
    ] {
        assert!(touches_files(code), "{code}");
    }
    assert!(!touches_files("use std::{fmt, path::Path};"));
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
