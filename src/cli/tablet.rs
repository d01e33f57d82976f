//! What cannot be asked for together with a tablet edition.

use super::commands::Ending;
use super::say;
use crate::diagnostic::Problem;

/// What a command line asks for beside `--tablet`.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Beside {
    /// Sheets to fold.
    pub(super) fold: bool,
    /// A paper.
    pub(super) paper: bool,
    /// Large print.
    pub(super) large_print: bool,
}

/// Says why `--tablet` does not go with what else is asked for, if it does not.
///
/// # Errors
/// The ending of a command that was used wrongly.
pub(super) fn refused(tablet: bool, beside: Beside) -> Result<(), Ending> {
    let wrong = [
        (beside.fold, "--fold", "nobody folds a screen", "make the two one after the other"),
        (
            beside.paper,
            "--paper",
            "its pages are as large as a screen, whatever the paper",
            "leave `--paper` out",
        ),
        (
            beside.large_print,
            "--large-print",
            "it is in large letters as it is, and larger still when spread with two fingers",
            "leave `--large-print` out",
        ),
    ];
    let problems: Vec<Problem> = wrong
        .into_iter()
        .filter(|(asked, ..)| tablet && *asked)
        .map(|(_, option, why, hint)| {
            Problem::error(format!("a tablet edition cannot be made with `{option}`: {why}")).hint(hint)
        })
        .collect();
    if problems.is_empty() {
        return Ok(());
    }
    say::problems(&problems);
    Err(Ending::WrongUse)
}

/// Says that bench copies need no tablet edition, where one is asked for.
///
/// # Errors
/// The ending of a command that was used wrongly.
pub(super) fn no_bench_copy(tablet: bool) -> Result<(), Ending> {
    if !tablet {
        return Ok(());
    }
    say::problem(
        &Problem::error(
            "there is no tablet edition of a bench copy: its boxes can be ticked on a tablet as it is",
        )
        .hint("leave `--tablet` out; `fringebook make --tablet` makes the booklet for one"),
    );
    Err(Ending::WrongUse)
}
