//! House style: colours, fonts, cover, head and foot, order and sections of the maker's own.

mod booklet;
mod prose;
mod start;
mod told;

use crate::maker::{DESIGN, Folder, STUDIO, err, out};
use std::fs;
use std::path::{Path, PathBuf};

/// A file of the folders for tests.
pub fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(name)
}

/// A maker's folder with a design, and the test fonts beside it.
fn folder() -> Folder {
    let folder = Folder::new().with("small.yaml", DESIGN);
    for font in ["marsh-plain.ttf", "marsh-title.otf"] {
        fs::copy(file("fonts").join(font), folder.path(font)).expect("a test font");
    }
    folder
}

/// The same with a studio file that says more.
fn styled(more: &str) -> Folder {
    folder().with("studio.yaml", &format!("{STUDIO}{more}"))
}

/// What a run says on both ways, with its status.
fn said(folder: &Folder, words: &[&str]) -> (Option<i32>, String, String) {
    let run = folder.run(words);
    (run.status.code(), out(&run), err(&run))
}

/// What `check` tells of a studio file that says more.
fn checked(folder: &Folder) -> String {
    said(folder, &["check", "small.yaml"]).2
}
