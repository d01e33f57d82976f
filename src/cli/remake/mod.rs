//! `remake`: brings every booklet of a catalogue up to date.
//!
//! [`find`] walks the folder, [`plan`] works out which booklets there should be and which of them are
//! current, [`work`] makes the others, [`report`] tells what happened and why, [`watch`] does it all
//! again whenever a file is saved.

mod find;
mod moves;
mod next;
mod plan;
mod report;
mod watch;
mod work;

use super::commands::Ending;
use super::editions::PaperWish;
use super::{say, templates};
use crate::diagnostic::Problem;
use clap::Args;
use std::path::PathBuf;

/// What `remake` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook remake catalogue
  fringebook remake catalogue --dry-run      only say what would be made, and why
  fringebook remake catalogue --watch        go on, and remake as files are saved
  fringebook remake catalogue --next-edition number designs on that a buyer would find changed

A booklet is current when nothing that goes into it has changed: its design, the palette entries
it uses, studio, templates, fonts, settings and the version of the program. Times of files do not
matter. Other editions that stand beside it (colourways, large print, bench copies …) are remade as
they were made; personal copies are left alone. No file is ever deleted, but the picture of a move
that its step no longer has.")]
pub(super) struct RemakeArgs {
    /// The folder of the catalogue
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
    /// The booklets are in this folder, in the same folders below it; otherwise beside their designs
    #[arg(long, value_name = "FOLDER")]
    out: Option<PathBuf>,
    /// The paper; otherwise the studio file says
    #[arg(long, value_enum, hide_possible_values = true, value_name = "a4|letter|both|a5|half-letter")]
    paper: Option<PaperWish>,
    /// Take wording and section order from this folder
    #[arg(long, value_name = "FOLDER")]
    templates: Option<PathBuf>,
    /// Say what would be made and why; write nothing
    #[arg(long)]
    dry_run: bool,
    /// Give designs whose booklets show a buyer something else than before their next edition: the
    /// design file says its number, and the booklet's last pages what has changed
    #[arg(long, conflicts_with = "watch")]
    next_edition: bool,
    /// Go on, and remake as files are saved
    #[arg(long, conflicts_with = "dry_run")]
    watch: bool,
    /// Replace even other editions of the same name, and files that fringebook has not made
    #[arg(long)]
    replace: bool,
}

/// Brings the catalogue up to date, once or for as long as it is watched.
pub(super) fn run(args: &RemakeArgs) -> Ending {
    if !args.folder.is_dir() {
        say::problem(
            &Problem::error(format!("{} is not a folder", args.folder.display()))
                .hint("give the folder of the catalogue; for single designs there is `fringebook make`"),
        );
        return Ending::WrongUse;
    }
    if args.watch { watch::run(args) } else { once(args).ending }
}

/// What one pass over the catalogue came to.
struct Pass {
    ending: Ending,
    /// Whether anything was made, failed, or was found to be gone.
    eventful: bool,
    /// The files that designs were read from, outside the catalogue's folder too.
    read: Vec<PathBuf>,
}

/// One pass: find, plan, make, report.
fn once(args: &RemakeArgs) -> Pass {
    let desk = match templates::desk(args.templates.as_deref()) {
        Ok(desk) => desk,
        Err(ending) => return Pass { ending, eventful: true, read: Vec::new() },
    };
    let found = find::find(&args.folder, args.out.as_deref());
    say::problems(&found.problems);
    let mut plan = plan::plan(args, &desk, &found);
    let mut next = Vec::new();
    let mut problems = Vec::new();
    if args.next_edition {
        (next, problems) = next::editions(args, &desk, &plan);
        say::problems(&problems);
        if !next.is_empty() && !args.dry_run {
            // What is written in the designs has changed: they are read anew.
            plan = plan::plan(args, &desk, &found);
        }
    }
    let rows = work::work(args, &desk, &plan);
    for row in &rows {
        say::problems(&row.problems);
    }
    let all_seen = found.problems.is_empty();
    let told = report::Report { rows: &rows, gone: &plan.gone, all_seen, dry_run: args.dry_run, next: &next };
    say::result(told.text().trim_end());
    let failed = told.failed() || !all_seen || !problems.is_empty();
    Pass {
        ending: if failed { Ending::NotAll } else { Ending::Done },
        eventful: told.eventful(),
        read: plan.read,
    }
}
