//! The parts of a digest. A part holds exactly what a booklet shows or is computed from: stock, comments
//! and places in files are left out, and prices too where the booklet prints none.

use super::fields::{of_bead, of_design, of_finding, of_palette, of_studio, of_thread};
use super::value::{HASHED, hash};
use crate::cli::settings::Settings;
use crate::design::{BeadId, Design, Letter};
use crate::layout;
use crate::tally;
use std::collections::BTreeSet;
use std::fmt::Write;

/// The part that holds the program's version.
pub(super) const PROGRAM: &str = "program";
/// The part that holds the name of the design file, without folder and extension.
pub(in crate::cli) const SLUG: &str = "file";
/// The part that holds the settings, as recorded.
pub(in crate::cli) const SETTINGS: &str = "settings";
/// The part that holds the design itself.
pub(super) const DESIGN: &str = "design";
/// How many pages the booklet came to: told again by later runs, but no part of the digest.
pub(in crate::cli) const MADE_PAGES: &str = "made pages";
/// How many warnings there were: likewise.
pub(in crate::cli) const MADE_WARNINGS: &str = "made warnings";

/// What the edition showed when it was first made, and the one before it likewise.
pub(in crate::cli) const SHOWN: &str = "shown";
pub(in crate::cli) const SHOWN_BEFORE: &str = "shown before";
/// Whether it shows something else by now.
pub(in crate::cli) const SHOWN_OTHERWISE: &str = "shown otherwise";

/// Whether a part says what went in, rather than what came out.
pub(super) fn is_input(name: &str) -> bool {
    ![MADE_PAGES, MADE_WARNINGS, SHOWN, SHOWN_BEFORE, SHOWN_OTHERWISE].contains(&name)
}

/// The value of a part.
pub(in crate::cli) fn part<'a>(parts: &'a [(String, String)], name: &str) -> Option<&'a str> {
    parts.iter().find(|(n, _)| n == name).map(|(_, value)| value.as_str())
}

/// What goes into one booklet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cli) struct Inputs {
    /// The parts by name.
    pub(in crate::cli) parts: Vec<(String, String)>,
    /// The digest of them all, as hexadecimal.
    pub(in crate::cli) digest: String,
}

/// Everything that goes into a booklet of this design. `templates` is the hash of its wording.
pub(in crate::cli) fn parts_of(design: &Design, settings: &Settings, templates: &str) -> Inputs {
    let mut parts: Vec<(String, String)> = vec![
        (PROGRAM.to_owned(), env!("CARGO_PKG_VERSION").to_owned()),
        (SLUG.to_owned(), design.slug.clone()),
        (SETTINGS.to_owned(), settings.recorded()),
        (DESIGN.to_owned(), of_design(design)),
    ];
    let prices = tally::prices(design);
    let strung = tally::letters_strung(design);
    let bought: BTreeSet<BeadId> = design
        .letters
        .iter()
        .zip(strung)
        .filter(|(_, strung)| *strung)
        .map(|(letter, _)| letter.bead)
        .collect();
    let changed = design.colourways.iter().flat_map(|c| &c.changes).map(|(_, letter)| letter);
    let shown: BTreeSet<BeadId> = design.letters.iter().chain(changed).flat_map(beads_of).collect();
    for id in shown {
        let bead = &design.palette.beads[id.0];
        parts.push((format!("bead {}", bead.key), of_bead(bead, bought.contains(&id))));
    }
    parts.push(("thread of the body".to_owned(), of_thread(&design.body_thread, prices.cost)));
    parts.push(("thread of the fringe".to_owned(), of_thread(&design.fringe_thread, prices.cost)));
    for finding in &design.findings {
        parts.push((format!("finding {}", finding.key), of_finding(finding)));
    }
    parts.push(("palette".to_owned(), of_palette(&design.palette, prices.any())));
    parts.push(("studio".to_owned(), of_studio(&design.studio)));
    parts.push(("templates".to_owned(), format!("{HASHED}{templates}")));
    parts.push(("fonts".to_owned(), format!("{HASHED}{}", layout::FACES_HASH)));
    let digest = digest(&parts);
    Inputs { parts, digest }
}

/// Lengths stand before names and values, so that no two lists of parts read alike.
fn digest(parts: &[(String, String)]) -> String {
    let mut all = String::new();
    for (name, value) in parts {
        let _ = write!(all, "{}:{name}{}:{value}", name.len(), value.len());
    }
    hash(all.as_bytes())
}

fn beads_of(letter: &Letter) -> impl Iterator<Item = BeadId> {
    std::iter::once(letter.bead).chain(letter.replaces)
}

#[cfg(test)]
mod tests {
    use sha2::{Digest, Sha256};
    use std::fs;
    use std::path::{Path, PathBuf};

    #[test]
    fn the_hash_of_the_fonts_is_that_of_their_files() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fonts");
        let files = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
        let mut fonts: Vec<PathBuf> = files.filter(|f| f.extension().is_some_and(|e| e == "ttf")).collect();
        fonts.sort();
        assert_eq!(fonts.len(), crate::drawn::Face::ALL.len());
        let all: Vec<u8> = fonts.iter().flat_map(|font| fs::read(font).expect("a font")).collect();
        let hash: String = Sha256::digest(&all).iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hash, crate::layout::FACES_HASH);
    }
}
