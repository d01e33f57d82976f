//! Every crate that goes into the program may be given away with it.

use serde_json::Value;
use std::process::Command;

/// Licences that ask for no more than their text to be passed on.
const FREE: [&str; 15] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "CC0-1.0",
    "Unlicense",
    "Unicode-3.0",
    "Unicode-DFS-2016",
    "BSL-1.0",
    // Of an encoder that only tests use.
    "IJG",
];

/// Whether an SPDX expression can be met with free licences alone.
fn is_free(expression: &str) -> bool {
    let plain = expression.replace(['(', ')'], "").replace('/', " OR ");
    let free = |l: &str| FREE.contains(&l.trim());
    // `A AND (B OR C)` without its brackets reads as `A AND B OR C`: every part joined by AND is asked for.
    plain.split(" AND ").all(|part| part.split(" OR ").any(free))
}

/// The platform this runs on, as rustc names it: crates of others are not in the program.
fn host() -> String {
    let output = Command::new("rustc").arg("-vV").output().expect("rustc runs");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let line = text.lines().find_map(|l| l.strip_prefix("host: "));
    line.expect("rustc names its host").to_owned()
}

#[test]
fn every_crate_is_under_a_free_licence() {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--filter-platform", &host()])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: Value = serde_json::from_slice(&output.stdout).expect("cargo metadata");
    let packages = metadata["packages"].as_array().expect("packages");
    assert!(packages.len() > 50, "{} crates", packages.len());
    let unfree: Vec<String> = packages
        .iter()
        .filter(|p| !p["license"].as_str().is_some_and(is_free))
        .map(|p| format!("{}: {}", p["name"], p["license"]))
        .collect();
    assert!(unfree.is_empty(), "{unfree:#?}");
}

#[test]
fn a_licence_with_strings_attached_would_be_found() {
    assert!(is_free("MIT OR Apache-2.0") && is_free("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(!is_free("GPL-3.0-only") && !is_free("MIT AND MPL-2.0"));
}
