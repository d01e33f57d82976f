//! What stands under a booklet's or picture's name already: one of ours, whole or damaged, or a file that is
//! somebody's and must not be lost.

use super::digest::{self, SETTINGS, SLUG};
use super::settings::Settings;
use crate::design::Design;
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

/// The largest file that is read whole to see whether it is a booklet of ours.
const LARGEST: u64 = 1 << 26;

/// What to do about a booklet of another edition or design.
const RENAME: &str = "rename it, write elsewhere with --out FOLDER, or replace it with --replace";

/// Looks at what stands under a name.
pub(super) fn look(path: &Path) -> Existing {
    match ends_of(path) {
        Ok((head, tail)) => match paint::digest_of(&head) {
            Some(digested) if ends(&head, &tail) => Existing::Ours(digested),
            Some(digested) => Existing::Damaged(digested),
            None => Existing::Foreign,
        },
        // A folder, a pipe or a name too long is said when the booklet is to be written.
        Err(e)
            if matches!(
                e.kind(),
                ErrorKind::NotFound
                    | ErrorKind::NotADirectory
                    | ErrorKind::IsADirectory
                    | ErrorKind::InvalidFilename
            ) =>
        {
            Existing::Nothing
        }
        Err(_) => Existing::Foreign,
    }
}

/// Whether a file of ours ends as one of its kind does.
fn ends(head: &[u8], tail: &[u8]) -> bool {
    let end: &[u8] = match head {
        [0x89, b'P', b'N', b'G', ..] => b"IEND",
        [b'<', ..] => b"</svg>",
        _ => b"%%EOF",
    };
    tail.windows(end.len()).any(|window| window == end)
}

/// Looks at what stands under a name, and where that does not say what it is, reads it whole: another
/// program may have saved a booklet of ours and put what it says of itself elsewhere.
pub(super) fn look_closely(path: &Path) -> Existing {
    match look(path) {
        Existing::Foreign => digest_elsewhere(path).map_or(Existing::Foreign, Existing::Ours),
        other => other,
    }
}

fn digest_elsewhere(path: &Path) -> Option<Digested> {
    let is = fs::metadata(path).ok()?;
    if !is.is_file() || is.len() > LARGEST {
        return None;
    }
    paint::digest_within(&fs::read(path).ok()?)
}

/// The beginning of a file, as far as it may say what it is, and its last bytes.
fn ends_of(path: &Path) -> io::Result<(Vec<u8>, Vec<u8>)> {
    let is = fs::metadata(path)?;
    if !is.is_file() {
        // Opening a pipe would wait for whoever writes into it.
        return Err(ErrorKind::IsADirectory.into());
    }
    let mut file = File::open(path)?;
    let length = is.len();
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

/// What to say of a booklet of ours that is another edition than the one to be made, be it of this design
/// or of another, although both have the same name. `None` where it is the same edition, older or not.
pub(super) fn another_edition(
    path: &Path,
    made: &Digested,
    slug: &str,
    settings: &Settings,
) -> Option<Problem> {
    let of = digest::part(&made.parts, SLUG);
    let made_as = digest::part(&made.parts, SETTINGS).and_then(Settings::from_recorded);
    if of == Some(slug) && made_as.as_ref().is_some_and(|made_as| made_as.is_same_edition(settings)) {
        return None;
    }
    let stands = match (of, made_as) {
        (Some(of), Some(made_as)) => format!("of {}", made_as.told(of)),
        // A later version's settings are not guessed at.
        (Some(of), None) => format!("of {of} with settings of another version"),
        (None, _) => "of an unknown design".to_owned(),
    };
    let message = format!(
        "{} is the booklet {stands}, not of {}, so it is left as it is",
        path.display(),
        settings.told(slug)
    );
    Some(Problem::error(message).hint(RENAME))
}

/// What to say of a booklet of ours that is of another design than the one to be made, although both files
/// have the same name. `None` where it may be the same design, changed or not.
pub(super) fn another_design(path: &Path, made: &Digested, design: &Design) -> Option<Problem> {
    digest::is_of_another_design(&made.parts, design).then(|| {
        let (path, slug) = (path.display(), &design.slug);
        Problem::error(format!(
            "{path} is the booklet of another design called {slug}, so it is left as it is"
        ))
        .hint(RENAME)
    })
}

/// What to say of a file that is not ours and so is not replaced.
pub(super) fn foreign(path: &Path) -> Problem {
    Problem::error(format!(
        "{} is there already and was not made by fringebook, so it is left as it is",
        path.display()
    ))
    .hint("move or rename it, write elsewhere with --out FOLDER, or replace it with --replace")
}
