//! Making what is not current, in parallel.

use super::super::crew::each_in_hand;
use super::super::history::Before;
use super::super::pipeline::{self, Desk, Made};
use super::super::settings::Settings;
use super::super::ticks::{self, Carried, Ticked};
use super::super::write::{self, Elsewhere};
use super::RemakeArgs;
use super::plan::{Entry, Plan, Todo};
use crate::diagnostic::{Problem, Severity};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::{self, IsTerminal};
use std::path::Path;

/// What became of an entry.
#[derive(Debug)]
pub(super) struct Row {
    /// As the report calls it.
    pub(super) name: String,
    /// How it ended.
    pub(super) outcome: Outcome,
    /// Why it was made, or had to be.
    pub(super) why: Vec<String>,
    /// Its pages, where known.
    pub(super) pages: Option<usize>,
    /// Its warnings, where known.
    pub(super) warnings: Option<usize>,
    /// What to show the user.
    pub(super) problems: Vec<Problem>,
    /// Whether it shows a buyer something else than its edition did at first.
    pub(super) otherwise: bool,
}

/// How an entry ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// It was current.
    Current,
    /// It is made; in a dry run, it would be.
    Made,
    /// It is removed; in a dry run, it would be.
    Removed,
    /// It could not be made, or not be removed.
    Failed,
}

/// Makes every booklet that is to be made. In a dry run nothing is written.
pub(super) fn work(args: &RemakeArgs, desk: &Desk, plan: &Plan) -> Vec<Row> {
    if !args.dry_run {
        plan.untidy.iter().for_each(|folder| write::sweep(folder));
    }
    let to_make = plan.entries.iter().filter(|e| matches!(e.todo, Todo::Make { .. })).count();
    let bar = bar(if args.dry_run { 0 } else { to_make });
    let rows = each_in_hand(&plan.entries, |_, entry| {
        let row = row(args, desk, entry);
        if matches!(entry.todo, Todo::Make { .. }) {
            bar.inc(1);
        }
        row
    });
    bar.finish_and_clear();
    rows
}

/// Shown only on a terminal, and only when there is something to wait for.
fn bar(length: usize) -> ProgressBar {
    let hidden = length == 0 || !io::stderr().is_terminal();
    let target = if hidden { ProgressDrawTarget::hidden() } else { ProgressDrawTarget::stderr() };
    let bar = ProgressBar::with_draw_target(Some(length as u64), target);
    match ProgressStyle::with_template("{bar:30} {pos} of {len} booklets made") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

fn row(args: &RemakeArgs, desk: &Desk, entry: &Entry) -> Row {
    let row = |outcome, why: &[String]| Row {
        name: entry.name.clone(),
        outcome,
        why: why.to_vec(),
        pages: None,
        warnings: None,
        problems: Vec::new(),
        otherwise: entry.otherwise,
    };
    match &entry.todo {
        Todo::Nothing { pages, warnings } => {
            Row { pages: *pages, warnings: *warnings, ..row(Outcome::Current, &[]) }
        }
        Todo::Fail(problems) => {
            let why: Vec<String> = problems.first().map(|p| p.message.clone()).into_iter().collect();
            Row { problems: problems.clone(), ..row(Outcome::Failed, &why) }
        }
        Todo::Remove { path } => {
            let why = ["its step has no such move any longer".to_owned()];
            match if args.dry_run { Ok(()) } else { write::remove(path) } {
                Ok(()) => row(Outcome::Removed, &why),
                Err(problem) => Row { problems: vec![problem], ..row(Outcome::Failed, &why) },
            }
        }
        Todo::Make { why, .. } if args.dry_run => row(Outcome::Made, why),
        Todo::Make { design, settings, path, why } => match make(args, desk, design, settings, path) {
            Ok(done) => Row {
                pages: Some(done.pages),
                warnings: Some(done.warnings),
                problems: done.carried.problem(path).into_iter().chain(done.advice).collect(),
                otherwise: done.otherwise,
                ..row(Outcome::Made, &why.iter().cloned().chain(done.carried.told()).collect::<Vec<_>>())
            },
            Err(problems) => Row { problems, ..row(Outcome::Failed, why) },
        },
    }
}

/// What a booklet came to.
struct Done {
    pages: usize,
    warnings: usize,
    carried: Carried,
    otherwise: bool,
    advice: Vec<Problem>,
}

/// Reads the design again, for it may have been saved since the plan was made, and so may the booklet.
fn make(
    args: &RemakeArgs,
    desk: &Desk,
    design: &Path,
    settings: &Settings,
    path: &Path,
) -> Result<Done, Vec<Problem>> {
    let reading = desk.read(design, settings);
    let Some(design) = reading.design else { return Err(reading.problems) };
    let stitched = pipeline::stitched(design, reading.problems);
    let ticked = match ticks::on(path, settings) {
        Ok(ticked) => ticked,
        // What is to be replaced may be anything.
        Err(_) if args.replace => Ticked::new(),
        Err(problem) => return Err(vec![problem]),
    };
    let Made { bytes, pages, carried, otherwise, advice } =
        desk.set(&stitched, settings, &Before::at(path, ticked))?;
    write::whole(path, &bytes).map_err(|e| vec![e.problem(Elsewhere::Out)])?;
    let warnings = pipeline::count(&stitched.problems, Severity::Warning);
    Ok(Done { pages, warnings, carried, otherwise, advice })
}
