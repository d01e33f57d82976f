//! The ledger of what a file claims to be: what is said to be enforced names the files that do it and the
//! tests that hold it.

use crate::fixture::everything;
use fringebook::paint::claims::{CLAIMS, Claim, Met};
use fringebook::paint::{Times, pdf};
use std::path::{Path, PathBuf};

fn enforced() -> impl Iterator<Item = (&'static Claim, &'static [&'static str], &'static [&'static str])> {
    CLAIMS.iter().filter_map(|claim| match claim.met {
        Met::Enforced { by, tests } => Some((claim, by, tests)),
        Met::CallersDuty | Met::NotClaimed => None,
    })
}

#[test]
fn every_claim_has_its_clause_and_note() {
    for claim in CLAIMS {
        assert!(claim.clause.starts_with("ISO "), "{claim:?}");
        assert!(!claim.asks.is_empty() && !claim.note.is_empty(), "{claim:?}");
    }
}

#[test]
fn what_is_enforced_names_files_of_the_painter() {
    let painter = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/paint");
    for (claim, by, _) in enforced() {
        assert!(!by.is_empty(), "{claim:?}");
        for name in by {
            let there =
                [format!("{name}.rs"), format!("{name}/mod.rs")].iter().any(|f| painter.join(f).is_file());
            assert!(there, "{name} of {claim:?}");
        }
    }
}

#[test]
fn what_is_enforced_is_held_by_tests_that_there_are() {
    for (claim, _, tests) in enforced() {
        assert!(!tests.is_empty(), "{claim:?}");
        for test in tests {
            assert!(is_there(test), "{test} of {claim:?}");
        }
    }
}

/// Whether a file has a test, or a Python file beside the outside checks that function.
fn is_there(test: &str) -> bool {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let Some((file, name)) = test.split_once("::") else { return false };
    let rust = [format!("tests/{file}.rs"), format!("src/{file}.rs")];
    let read = |path: PathBuf| std::fs::read_to_string(path).unwrap_or_default();
    let has = |text: String| {
        text.contains(&format!("#[test]\n    fn {name}()")) || text.contains(&format!("#[test]\nfn {name}()"))
    };
    rust.iter().any(|path| has(read(home.join(path))))
        || read(home.join(format!("tests/{file}.py"))).contains(&format!("def {name}("))
}

#[test]
fn a_file_names_the_version_of_printpdf_that_wrote_it() {
    let bytes = pdf(&everything(), &Times::default()).expect("paints");
    let manifest = include_str!("../Cargo.toml");
    let (_, pinned) = manifest.split_once("printpdf = { version = \"=").expect("a version of its own");
    let version = pinned.split('"').next().expect("a version");
    let wanted = format!(
        "<pdf:Producer>fringebook {} with printpdf {version}</pdf:Producer>",
        env!("CARGO_PKG_VERSION")
    );
    assert!(String::from_utf8_lossy(&bytes).contains(&wanted), "{wanted}");
}
