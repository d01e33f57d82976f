//! Mutated files: nothing panics, hangs, takes long, or is refused without a word.
//!
//! Designs, palettes, studio files, a maker's own templates, and pictures, a fifth of the inputs each. Some are
//! tried whenever the tests run, the same ones each time. More of them, new ones or one again, by hand (a
//! million takes about an hour in the release profile on two processors):
//!
//! ```sh
//! FRINGEBOOK_FUZZ=1000000 cargo test --release --test all fuzz:: -- --nocapture
//! FRINGEBOOK_FUZZ=1 FRINGEBOOK_FUZZ_FROM=734512 cargo test --test all fuzz::
//! ```
//!
//! What ends the program at once leaves the number of its input in `fringebook-fuzz-at-…`, in the folder for
//! temporary files.
//!
//! * `chance`: numbers from a seed; `input`: the files of one trial;
//! * `seeds`, `text`: design, palette and studio files, and how texts are changed; `templates`: texts and
//!   settings of a maker's own; `picture_seeds`, `png_file`, `jpeg_file`: pictures;
//! * `trial`: what is done with them; `embedded`: what a booklet would hold of a picture;
//!   `search`: many, on all processors.

mod chance;
mod embedded;
mod input;
mod jpeg_file;
mod picture_seeds;
mod png_file;
mod search;
mod seeds;
mod templates;
mod text;
mod trial;

use input::{Asked, Input, KINDS, Kind};
use search::{Found, search};
use std::time::Instant;
use trial::{Came, through_all};

/// Inputs when nobody asks for more.
const INPUTS: u64 = 500;

/// Most memory of a long search with two inputs at a time.
const MOST_MEMORY: u64 = 2_000_000_000;

fn asked_for(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).map_or(otherwise, |n| n.parse().unwrap_or_else(|_| panic!("{name}={n} is no number")))
}

#[test]
fn mutated_files_are_read_and_painted_or_refused_in_words() {
    let from = asked_for("FRINGEBOOK_FUZZ_FROM", 0);
    let count = asked_for("FRINGEBOOK_FUZZ", INPUTS);
    let begun = Instant::now();
    let Found { came, wrong, slowest } = search(from..from + count, through_all);
    println!(
        "{count} inputs from {from} in {:.0?}; slowest {} with {:.1?}; one again by FRINGEBOOK_FUZZ_FROM and its number",
        begun.elapsed(),
        slowest.0,
        slowest.1
    );
    // Kinds whose mutations are too gentle or too harsh.
    let mut ill_mixed = Vec::new();
    for kind in KINDS {
        let [refused, read, painted] =
            [Came::Refused, Came::Read, Came::Painted].map(|c| came.get(&(kind, c)).copied().unwrap_or(0));
        let wrong = wrong.values().filter(|told| told.starts_with(&format!("{kind:?}"))).count();
        let tried = refused + read + painted + wrong as u64;
        println!(
            "  {kind:?}: {tried} tried, {refused} refused, {} accepted, {painted} of them painted",
            read + painted
        );
        let gentle_or_harsh =
            tried < count / 7 || refused < tried / 5 || read + painted < tried / 10 || painted < tried / 200;
        if gentle_or_harsh {
            ill_mixed.push(kind);
        }
    }
    if asked_for("FRINGEBOOK_FUZZ", 0) > 0
        && let Some(most) = most_memory()
    {
        println!("  most memory at a time: {} MB", most / 1_000_000);
        assert!(most < MOST_MEMORY, "{most} bytes");
    }
    let told: Vec<String> = wrong.iter().map(|(number, what)| format!("{number}: {what}")).collect();
    assert!(
        wrong.is_empty(),
        "{} inputs went wrong; FRINGEBOOK_FUZZ=1 FRINGEBOOK_FUZZ_FROM=… tries one again:\n{}",
        wrong.len(),
        told.join("\n")
    );
    assert!(count < INPUTS || ill_mixed.is_empty(), "{ill_mixed:?}");
}

/// The most memory that this process has had at a time, where the system tells it.
fn most_memory() -> Option<u64> {
    let told = std::fs::read_to_string("/proc/self/status").ok()?;
    let most = told.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    most.trim().strip_suffix(" kB")?.trim().parse::<u64>().ok().map(|kb| kb * 1024)
}

#[test]
fn the_same_number_is_the_same_input() {
    for number in [0, 17, 4_000_000] {
        assert_eq!(Input::numbered(number).files, Input::numbered(number).files);
    }
    assert_ne!(Input::numbered(1).files, Input::numbered(2).files);
}

#[test]
fn every_seed_is_good() {
    for set in seeds::SETS {
        let files = [("d.yaml", set.design), ("palette.yaml", set.palette), ("studio.yaml", set.studio)];
        let files = files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).to_vec();
        let asked = Asked { set: 0, language: "en", bench: false, grey: false, large_print: false };
        let input = Input { number: 0, kind: Kind::Design, asked, painted: true, files };
        assert_eq!(through_all(&input), Ok(Came::Painted), "{}", set.design);
    }
}

#[test]
fn every_seed_of_a_picture_is_good() {
    for bytes in picture_seeds::PNGS.iter().chain(picture_seeds::JPEGS.iter()) {
        let file = fringebook::images::ImageFile::new(bytes.clone()).expect("a picture");
        assert_eq!(embedded::sound(&file), Ok(()), "{:?}", &bytes[..40]);
    }
    let whole = |bytes: &Vec<u8>| png_file::written(&png_file::chunks(bytes)) == *bytes;
    assert!(picture_seeds::PNGS.iter().all(whole));
    assert!(picture_seeds::JPEGS.iter().all(|bytes| jpeg_file::written(&jpeg_file::parts(bytes)) == *bytes));
}

#[test]
fn a_panic_and_a_wrong_answer_would_be_found() {
    let found = search(0..40, |input| match input.number {
        7 => panic!("at seven"),
        9 => Err("not as it must be".to_owned()),
        _ => Ok(Came::Refused),
    });
    assert_eq!(found.wrong.keys().copied().collect::<Vec<_>>(), [7, 9]);
    assert!(found.wrong[&7].contains("panic: at seven") && found.wrong[&9].contains("not as it must be"));
    let folder = std::env::temp_dir().join("fringebook-fuzz-7");
    assert_eq!(std::fs::read(folder.join("d.yaml")).expect("kept"), Input::numbered(7).files[0].1);
    for number in [7, 9] {
        std::fs::remove_dir_all(std::env::temp_dir().join(format!("fringebook-fuzz-{number}")))
            .expect("removed");
    }
}
