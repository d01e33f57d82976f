//! Mutated files: nothing panics, hangs, takes long, or is refused without a word.
//!
//! Some thousands are tried whenever the tests run, the same ones each time. More of them, new ones or one
//! again, by hand (a million takes some minutes in the release profile):
//!
//! ```sh
//! FRINGEBOOK_FUZZ=1000000 cargo test --release --test all fuzz:: -- --nocapture
//! FRINGEBOOK_FUZZ=1 FRINGEBOOK_FUZZ_FROM=734512 cargo test --test all fuzz::
//! ```
//!
//! * `chance`: numbers from a seed; `seeds`: the files that are mutated; `text`: how;
//! * `input`: the files of one trial; `trial`: what is done with them; `search`: many, on all processors.

mod chance;
mod input;
mod search;
mod seeds;
mod text;
mod trial;

use input::{Input, Kind};
use search::{Found, search};
use std::time::Instant;
use trial::{Came, through_all};

/// Inputs when nobody asks for more.
const INPUTS: u64 = 2_000;

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
        "{count} inputs from {from} in {:.0?}; slowest {} with {:.1?}",
        begun.elapsed(),
        slowest.0,
        slowest.1
    );
    for ((kind, how_far), times) in &came {
        println!("  {kind:?} {how_far:?}: {times}");
    }
    let told: Vec<String> = wrong.iter().map(|(number, what)| format!("{number}: {what}")).collect();
    assert!(wrong.is_empty(), "{} inputs went wrong:\n{}", wrong.len(), told.join("\n"));
    if count >= INPUTS {
        // The mutations are neither too gentle nor too harsh.
        let all = |wanted: Came| came.iter().filter(|((_, c), _)| *c == wanted).map(|(_, n)| n).sum::<u64>();
        assert!(
            all(Came::Refused) > count / 5
                && all(Came::Read) > count / 10
                && all(Came::Painted) > count / 200
        );
    }
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
        let input = Input { number: 0, kind: Kind::Design, painted: true, files };
        assert_eq!(through_all(&input), Ok(Came::Painted), "{}", set.design);
    }
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
