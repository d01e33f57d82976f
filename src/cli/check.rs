//! `check`: problems and advice, without a booklet that stays.

use super::commands::Ending;
use super::crew::each_in_hand;
use super::editions::{PaperWish, on_each_paper};
use super::fills;
use super::history::Before;
use super::make::designs_among;
use super::pipeline::{self, Desk};
use super::settings::{PaperName, Settings, SideName};
use super::table::{Align, Table};
use super::tablet::{self, Beside};
use super::{say, templates, thread};
use crate::booklet::Telling;
use crate::diagnostic::{self, Problem, Severity};
use clap::Args;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What `check` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook check heron.yaml
  fringebook check catalogue/*.yaml
  fringebook check heron.yaml --colourway River
  fringebook check heron.yaml --pages --paper both --large-print
  fringebook check heron.yaml --steps
  fringebook check heron.yaml --thread > heron-thread.json")]
pub(super) struct CheckArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// In this colourway of the design
    #[arg(long, value_name = "NAME")]
    colourway: Option<String>,
    /// Give a letter another bead of the palette, for this time only; may be given several times
    #[arg(long = "colour", value_name = "LETTER=BEAD")]
    colours: Vec<String>,
    /// Begin row 1 at this side
    #[arg(long, value_enum, hide_possible_values = true, value_name = "left|right")]
    start: Option<SideName>,
    /// The paper; otherwise the studio file says
    #[arg(long, value_enum, hide_possible_values = true, value_name = "a4|letter|both")]
    paper: Option<PaperWish>,
    /// Large print
    #[arg(long)]
    large_print: bool,
    /// Charts that can be read without colour
    #[arg(long)]
    grey: bool,
    /// To be read on a tablet
    #[arg(long)]
    tablet: bool,
    /// The language of the booklet; otherwise the studio file says
    #[arg(long, value_name = "LANGUAGE")]
    language: Option<String>,
    /// Take wording and section order from this folder
    #[arg(long, value_name = "FOLDER")]
    templates: Option<PathBuf>,
    /// Treat warnings as errors in the exit status
    #[arg(long)]
    strict: bool,
    /// Print the way of the thread of one design, move by move, as JSON
    #[arg(long)]
    thread: bool,
    /// Print how full each page of the booklet is
    #[arg(long, conflicts_with = "thread")]
    pages: bool,
    /// Print what a design file calls the steps, for `film:` and `photos:`
    #[arg(long, conflicts_with = "thread")]
    steps: bool,
}

/// Checks the designs, and says of each in a line how it stands.
pub(super) fn run(args: &CheckArgs) -> Ending {
    let beside = Beside { fold: false, paper: args.paper.is_some(), large_print: args.large_print };
    if let Err(wrong) = tablet::refused(args.tablet, beside) {
        return wrong;
    }
    let settings = Settings {
        colourway: args.colourway.clone(),
        colours: args.colours.clone(),
        start: args.start,
        large_print: args.large_print,
        grey: args.grey,
        tablet: args.tablet,
        language: args.language.clone(),
        ..Settings::plain(PaperName::A4, false)
    };
    let designs = match designs_among(&args.designs) {
        Ok(designs) => designs,
        Err(wrong) => return wrong,
    };
    let desk = match templates::desk(args.templates.as_deref()) {
        Ok(desk) => desk,
        Err(wrong) => return wrong,
    };
    if args.thread {
        return match designs.as_slice() {
            [path] => print_thread(&desk, path, &settings),
            _ => {
                let problem = Problem::error("`--thread` prints the thread of one design")
                    .hint("name one design file with it");
                say::problems(&[problem]);
                Ending::WrongUse
            }
        };
    }
    let checked = each_in_hand(&designs, |_, path| check(&desk, path, &settings, args));
    let mut ending = Ending::Done;
    for (path, (problems, tables)) in designs.iter().zip(&checked) {
        say::problems(problems);
        tables.iter().for_each(|table| say::result(table));
        let stands = match diagnostic::summary(problems) {
            nothing if nothing.is_empty() => "nothing to report".to_owned(),
            some => some,
        };
        say::result(&format!("{}: {stands}", path.display()));
        let limit = if args.strict { Severity::Warning } else { Severity::Error };
        if problems.iter().any(|p| p.severity >= limit) {
            ending = Ending::NotAll;
        }
    }
    ending
}

/// Prints the way of a design's thread; what is to be told of the design goes where problems go.
fn print_thread(desk: &Desk, path: &Path, settings: &Settings) -> Ending {
    let reading = desk.read(path, settings);
    let Some(design) = reading.design else {
        say::problems(&reading.problems);
        return Ending::NotAll;
    };
    let stitched = pipeline::stitched(design, reading.problems);
    say::problems(&stitched.problems);
    match desk.telling(&stitched, settings) {
        Ok(telling) => {
            say::result(&thread::json(&stitched.work, &telling));
            Ending::Done
        }
        Err(problems) => {
            say::problems(&problems);
            Ending::NotAll
        }
    }
}

/// Everything to tell of a design, and the tables that are asked for: its steps, and how full its pages are. Its booklet is set and painted
/// as `make` does it, and let go: whatever would stop it from being made is found here too.
fn check(desk: &Desk, path: &Path, settings: &Settings, args: &CheckArgs) -> (Vec<Problem>, Vec<String>) {
    let reading = desk.read(path, settings);
    let Some(design) = reading.design else { return (reading.problems, Vec::new()) };
    let not_given = desk.tongue(&design).map(|tongue| design.not_given_in(&tongue)).unwrap_or_default();
    let stitched = pipeline::stitched(design, reading.problems);
    let (mut stops, mut tables) = (Vec::new(), Vec::new());
    if args.steps {
        match desk.telling(&stitched, settings) {
            Ok(telling) => tables.push(steps(path, &telling)),
            Err(problems) => stops.extend(problems),
        }
    }
    for settings in on_each_paper(&stitched.design, settings, args.paper) {
        let laid = desk.laid(&stitched, &settings, &Before::default()).and_then(|laid| {
            tables.extend(args.pages.then(|| fills::told(path, &settings, &laid.list)));
            pipeline::painted(laid, &stitched, &BTreeSet::new())
        });
        stops.extend(laid.map_or_else(|stops| stops, |made| made.advice));
    }
    let mut problems = stitched.problems;
    problems.extend(not_given);
    // What keeps one paper from being made keeps the other and its tables too.
    for problem in stops {
        if !problems.contains(&problem) {
            problems.push(problem);
        }
    }
    (problems, tables)
}

/// A table of the steps under a line that says whose they are.
fn steps(path: &Path, telling: &Telling) -> String {
    let mut table = Table::new(&[("step", Align::Right), ("called", Align::Left), ("title", Align::Left)]);
    for (index, (name, title)) in telling.names().enumerate() {
        table.row(vec![(index + 1).to_string(), name, title.to_owned()]);
    }
    format!("{}\n{}", path.display(), table.lines())
}
