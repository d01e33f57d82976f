//! What stands under a booklet's name already: a booklet of ours, whole or damaged, or a file that is
//! somebody's and must not be lost.

use crate::diagnostic::Problem;
use crate::paint::{self, Digested};
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom};
use std::path::Path;

/// What stands under a name.
#[derive(Debug)]
pub(super) enum Existing {
    /// Nothing.
    Nothing,
    /// A booklet of ours.
    Ours(Digested),
    /// A booklet of ours that is cut short: copied badly, or written by something that died.
    Damaged(Digested),
    /// Something else.
    Foreign,
}

/// How far from its end a whole PDF says that it ends (ISO 32000-1, annex H, implementation note 18).
const END_WITHIN: u64 = 1024;

/// How much of a file is read at first: booklets say what they are at their beginning.
const HEAD: usize = 48 * 1024;
/// How much is read when that is not enough; beyond it no booklet says anything.
const FAR: u64 = 1 << 20;

/// Looks at what stands under a name.
pub(super) fn look(path: &Path) -> Existing {
    match ends_of(path) {
        Ok((head, tail)) => match paint::digest_of(&head) {
            Some(digested) if tail.windows(5).any(|w| w == b"%%EOF") => Existing::Ours(digested),
            Some(digested) => Existing::Damaged(digested),
            None => Existing::Foreign,
        },
        // A file or a folder that is in the way is said when the booklet is to be written.
        Err(e)
            if matches!(
                e.kind(),
                ErrorKind::NotFound | ErrorKind::NotADirectory | ErrorKind::IsADirectory
            ) =>
        {
            Existing::Nothing
        }
        Err(_) => Existing::Foreign,
    }
}

/// The beginning of a file, as far as it may say what it is, and its last bytes.
fn ends_of(path: &Path) -> io::Result<(Vec<u8>, Vec<u8>)> {
    let mut file = File::open(path)?;
    let length = file.metadata()?.len();
    let mut head = vec![0; usize::try_from(length).map_or(HEAD, |length| length.min(HEAD))];
    file.read_exact(&mut head)?;
    if length > HEAD as u64 && paint::digest_of(&head).is_none() {
        (&mut file).take(FAR).read_to_end(&mut head)?;
    }
    file.seek(SeekFrom::Start(length.saturating_sub(END_WITHIN)))?;
    let mut tail = Vec::new();
    file.read_to_end(&mut tail)?;
    Ok((head, tail))
}

/// Whether a booklet of ours has been saved again by somebody: with ticks, notes or highlights. Programs
/// append these and end the file a second time (ISO 32000-1, 7.5.6, incremental updates).
pub(super) fn is_written_in(path: &Path) -> bool {
    fs::read(path).is_ok_and(|bytes| bytes.windows(5).filter(|w| w == b"%%EOF").count() > 1)
}

/// What to say of a booklet that has been written in and so is not replaced.
pub(super) fn written_in(path: &Path) -> Problem {
    Problem::error(format!(
        "{} has been written in since it was made (ticks or notes), so it is left as it is",
        path.display()
    ))
    .hint("rename it to keep it, or replace it with --replace")
}

/// What to say of a file that is not ours and so is not replaced.
pub(super) fn foreign(path: &Path) -> Problem {
    Problem::error(format!(
        "{} is there already and was not made by fringebook, so it is left as it is",
        path.display()
    ))
    .hint("move or rename it, write elsewhere with --out FOLDER, or replace it with --replace")
}
