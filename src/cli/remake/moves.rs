//! The pictures of a step's moves go with the file that moves: as many of them as the step has moves now.

use super::super::digest::{self, MADE_PAGES};
use super::super::existing::Existing;
use super::super::names;
use super::super::pipeline::{self, Desk};
use super::super::settings::{PictureSettings, Settings, Shows};
use super::find::{Design, Found};
use crate::booklet;
use std::collections::BTreeSet;

/// What there should be of the moves of steps.
#[derive(Debug, Default)]
pub(super) struct Moves {
    /// The settings of pictures that are there, or should be.
    pub(super) wanted: BTreeSet<Settings>,
    /// Those of pictures that show a move which its step no longer has.
    pub(super) gone: BTreeSet<Settings>,
}

/// The pictures that go with the files that move among some editions of a design. What is known of a step from a file
/// that is current is not worked out again.
pub(super) fn of(desk: &Desk, found: &Found, design: &Design, editions: &BTreeSet<Settings>) -> Moves {
    let mut moves = Moves::default();
    for moving in editions {
        let Some(picture @ PictureSettings { shows: Shows::Moves { step, .. }, .. }) = &moving.picture else {
            continue;
        };
        // A step that has no moves at all is told with the file itself.
        let Some(count) = count(desk, found, design, moving, *step) else { continue };
        let after = |done| {
            let picture = PictureSettings { shows: Shows::Move { step: *step, done }, ..picture.clone() };
            Settings { picture: Some(picture), ..moving.clone() }
        };
        moves.wanted.extend((0..count).map(after));
        moves.gone.extend(editions.iter().filter(|other| is_beyond(other, count, after)).cloned());
    }
    // Of two files that move at another pace both have the same pictures.
    moves.gone.retain(|settings| !moves.wanted.contains(settings));
    moves
}

/// Whether an edition is the picture of a move beyond so many.
fn is_beyond(other: &Settings, count: usize, after: impl Fn(usize) -> Settings) -> bool {
    match other.picture {
        Some(PictureSettings { shows: Shows::Move { done, .. }, .. }) => {
            done >= count && *other == after(done)
        }
        _ => false,
    }
}

/// How many pictures a step's moves have now; `None` where it has none, or the design cannot be read.
fn count(desk: &Desk, found: &Found, design: &Design, moving: &Settings, step: usize) -> Option<usize> {
    let glanced = desk.glance(&design.path, moving).design?;
    let inputs = desk.inputs(&glanced, moving).ok()?;
    let path = design.out.join(names::file_name(&glanced.slug, moving));
    if let Some(Existing::Ours(made)) = found.booklets.get(&path)
        && made.digest == inputs.digest
        && let Some(count) = digest::part(&made.parts, MADE_PAGES).and_then(|count| count.parse().ok())
    {
        return Some(count);
    }
    let of = pipeline::stitched(glanced, Vec::new());
    let telling = desk.telling(&of, moving).ok()?;
    let count = booklet::moves_of_step((&of.design, &of.work, &telling), step, (None, 0.0)).len();
    Some(count).filter(|count| *count > 0)
}
