//! `make`: one booklet for each design.

use super::commands::Ending;
use super::crew::each_in_hand;
use super::editions::{EditionArgs, SheetArgs, on_each_paper};
use super::existing::{self, Existing};
use super::history::Before;
use super::kinds::{Kind, kind_at};
use super::pipeline::{self, Desk, Made, Stitched};
use super::settings::{PictureSettings, Settings, Shows};
use super::tablet::{self, Beside};
use super::ticks::Ticked;
use super::write::Elsewhere;
use super::{names, say, templates, ticks, write};
use crate::design::{Design, Reading};
use crate::diagnostic::Problem;
use clap::Args;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// What `make` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook make heron.yaml
  fringebook make heron.yaml orchard.yaml --paper both --out booklets
  fringebook make heron.yaml --colourway River --for \"Order 1042\"
  fringebook make heron.yaml --fold                   a booklet to fold and staple at home
  fringebook make heron.yaml --tablet                 one to read on a tablet beside the work

The booklet of heron.yaml is heron.pdf; whatever is asked for on top is added to its name, as in
heron-river-for-order-1042.pdf.")]
pub(super) struct MakeArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    #[command(flatten)]
    sheet: SheetArgs,
    #[command(flatten)]
    edition: EditionArgs,
    /// Pages of half the paper's size, two on each side of a sheet: print on both sides, lay the sheets
    /// on one another, fold and staple
    #[arg(long)]
    fold: bool,
    /// Mark the fold at the edges of the sheets
    #[arg(long, requires = "fold")]
    fold_marks: bool,
    /// To be read on a tablet: a row, strand or step a screen, in large letters, with links to go on by
    #[arg(long)]
    tablet: bool,
}

/// One file to be made.
struct Job {
    /// Its design, by its place among the ways in which one file is made.
    way: usize,
    /// Which booklet it is, in words.
    told: String,
    /// Its settings.
    settings: Settings,
    /// Where it goes.
    path: PathBuf,
}

/// Makes the booklets.
pub(super) fn run(args: &MakeArgs) -> Ending {
    let (paper, large_print) = (args.sheet.paper.is_some(), args.sheet.large_print);
    if let Err(wrong) = tablet::refused(args.tablet, Beside { fold: args.fold, paper, large_print }) {
        return wrong;
    }
    let settings = args.edition.settings(args.sheet.settings());
    let settings = Settings { fold: args.fold, fold_marks: args.fold_marks, tablet: args.tablet, ..settings };
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}

/// Reads every design, sets every file that follows from the settings, and reports. Nothing is written
/// before the names of all files are known.
pub(super) fn make_all(
    designs: &[PathBuf],
    sheet: &SheetArgs,
    settings: &Settings,
    each_colourway: bool,
) -> Ending {
    let desk = match templates::desk(sheet.templates.as_deref()) {
        Ok(desk) => desk,
        Err(wrong) => return wrong,
    };
    let making = Making { desk, sheet, settings, each_colourway };
    let designs = match designs_among(designs) {
        Ok(designs) => designs,
        Err(wrong) => return wrong,
    };
    match designs.as_slice() {
        [path] => {
            let mut draft = making.draft(path, making.desk.read(path, settings));
            if is_twice(&draft.jobs) {
                return Ending::WrongUse;
            }
            let mut report = Report::default();
            report.add(0, making.make(&mut draft));
            report.ending()
        }
        // A catalogue would fill the memory, so its designs are read again when their turn comes: that is
        // a fortieth of what is done then.
        _ => {
            let glanced = each(&designs, |path| making.draft(path, making.desk.glance(path, settings)).jobs);
            if is_twice(&glanced.into_iter().flatten().collect::<Vec<_>>()) {
                return Ending::WrongUse;
            }
            let report = Mutex::new(Report::default());
            each_in_hand(&designs, |at, path| {
                let made = making.make(&mut making.draft(path, making.desk.read(path, settings)));
                report.lock().unwrap_or_else(PoisonError::into_inner).add(at, made);
            });
            report.into_inner().unwrap_or_else(PoisonError::into_inner).ending()
        }
    }
}

/// What all files of a run share.
struct Making<'a> {
    desk: Desk,
    sheet: &'a SheetArgs,
    settings: &'a Settings,
    each_colourway: bool,
}

/// A design as read, in each way in which it is to be made, and the files that are to be.
struct Draft {
    ways: Vec<Design>,
    jobs: Vec<Job>,
    problems: Vec<Problem>,
}

/// What to say of a file and which ticks it could not keep, or why it could not be made.
type FileMade = Result<(String, Vec<Problem>), Vec<Problem>>;

/// What came of one design.
struct Outcome {
    /// Whether it could be read.
    read: bool,
    /// Problems of reading and advice.
    problems: Vec<Problem>,
    /// What came of each file.
    files: Vec<FileMade>,
}

impl Making<'_> {
    fn draft(&self, path: &Path, reading: Reading) -> Draft {
        let ways = match reading.design {
            Some(design) if self.each_colourway => in_each_colourway(design),
            other => other.into_iter().collect(),
        };
        let folder = self.sheet.out.as_deref().or_else(|| path.parent()).unwrap_or(Path::new(""));
        let mut jobs = Vec::new();
        for (way, design) in ways.iter().enumerate() {
            let settings = Settings { colourway: design.colourway.clone(), ..self.settings.clone() };
            for settings in on_each_paper(design, &settings, self.sheet.paper) {
                let path = folder.join(names::file_name(&design.slug, &settings));
                jobs.push(Job { way, told: settings.told(&design.slug), settings, path });
            }
        }
        Draft { ways, jobs, problems: reading.problems }
    }

    /// Stitches a design and writes its files.
    fn make(&self, draft: &mut Draft) -> Outcome {
        let read = !draft.ways.is_empty();
        let ways: Vec<Stitched> =
            draft.ways.drain(..).map(|design| pipeline::stitched(design, Vec::new())).collect();
        let problems = once(&draft.problems, ways.iter().flat_map(|way| &way.problems));
        let files = each(&draft.jobs, |job| self.files(&ways[job.way], job));
        Outcome { read, problems, files: files.into_iter().flatten().collect() }
    }

    /// Makes a file, and those that come with it: a step's moves as pictures of their own.
    fn files(&self, of: &Stitched, job: &Job) -> Vec<FileMade> {
        let replace = self.sheet.replace;
        let (pages, first) = match finish(&self.desk, of, job, replace) {
            Ok((pages, told, lost)) => (pages, Ok((told, lost))),
            Err(problems) => return vec![Err(problems)],
        };
        let Some(picture @ PictureSettings { shows: Shows::Moves { step, .. }, .. }) = &job.settings.picture
        else {
            return vec![first];
        };
        let folder = job.path.parent().unwrap_or(Path::new(""));
        let moves = (0..pages).map(|done| {
            let picture = PictureSettings { shows: Shows::Move { step: *step, done }, ..picture.clone() };
            let settings = Settings { picture: Some(picture), ..job.settings.clone() };
            let path = folder.join(names::file_name(&of.design.slug, &settings));
            let job = Job { way: job.way, told: settings.told(&of.design.slug), settings, path };
            finish(&self.desk, of, &job, replace).map(|(_, told, lost)| (told, lost))
        });
        std::iter::once(first).chain(moves).collect()
    }
}

/// Says what came of the designs, in their order, as soon as all before are done.
#[derive(Default)]
struct Report {
    next: usize,
    waiting: BTreeMap<usize, Outcome>,
    /// What kept a file from being made, or is to be told of it. It holds for others too, as on another paper, and is said
    /// once.
    said: Vec<Problem>,
    failed: bool,
}

impl Report {
    fn add(&mut self, at: usize, outcome: Outcome) {
        self.waiting.insert(at, outcome);
        while let Some(outcome) = self.waiting.remove(&self.next) {
            self.next += 1;
            self.say(outcome);
        }
    }

    fn say(&mut self, outcome: Outcome) {
        self.failed |= !outcome.read;
        say::problems(&outcome.problems);
        for file in outcome.files {
            match file {
                Ok((line, told)) => {
                    say::result(&line);
                    self.say_new(told);
                }
                Err(problems) => {
                    self.failed = true;
                    self.say_new(problems);
                }
            }
        }
    }

    fn say_new(&mut self, problems: Vec<Problem>) {
        let new: Vec<Problem> = problems.into_iter().filter(|p| !self.said.contains(p)).collect();
        say::problems(&new);
        self.said.extend(new);
    }

    fn ending(&self) -> Ending {
        if self.failed { Ending::NotAll } else { Ending::Done }
    }
}

/// What comes of every item, worked on by all processors; a single item does not pay for waking them.
fn each<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync + Send) -> Vec<R> {
    match items {
        [only] => vec![work(only)],
        _ => items.par_iter().map(work).collect(),
    }
}

/// Whether two files would have the same name; this is said.
fn is_twice(jobs: &[Job]) -> bool {
    let Some((first, second)) = names::collision(jobs.iter().map(|job| job.path.as_path())) else {
        return false;
    };
    say::problem(&twice(&jobs[second].path, &jobs[first].told, &jobs[second].told));
    true
}

/// What to say where two files of one run would have the same name.
fn twice(path: &Path, first: &str, second: &str) -> Problem {
    let path = path.display();
    let elsewhere = "or make them into different folders with --out";
    if first == second {
        return Problem::error(format!("{path} would be written twice"))
            .hint(format!("give the designs different file names, {elsewhere}"));
    }
    Problem::error(format!("{path} would be the booklet of {first} as well as of {second}"))
        .hint(format!("give one of the two another name, {elsewhere}"))
}

/// The designs among some files. A shell's `*.yaml` brings palette and studio files along: they are passed over.
///
/// # Errors
/// When there is no design among them.
pub(super) fn designs_among(files: &[PathBuf]) -> Result<Vec<&PathBuf>, Ending> {
    let (designs, others): (Vec<_>, Vec<_>) = files
        .iter()
        .map(|path| (path, kind_at(path).unwrap_or(Kind::Unknown)))
        .partition(|(_, kind)| !matches!(kind, Kind::Palette | Kind::Studio));
    if !designs.is_empty() {
        return Ok(designs.into_iter().map(|(path, _)| path).collect());
    }
    for (path, kind) in others {
        let what = if kind == Kind::Palette { "a palette" } else { "a studio file" };
        say::problem(
            &Problem::error(format!("{} is {what}, not a design", path.display()))
                .hint("give the design that uses it; `fringebook remake FOLDER` finds all that do"),
        );
    }
    Err(Ending::WrongUse)
}

/// The design as written, then in each of its colourways.
fn in_each_colourway(design: Design) -> Vec<Design> {
    let named: Vec<Design> = design.colourways.iter().filter_map(|c| design.in_colourway(&c.key)).collect();
    std::iter::once(design).chain(named).collect()
}

/// Problems of reading and of several colourways, each said once.
fn once<'a>(first: &'a [Problem], more: impl Iterator<Item = &'a Problem>) -> Vec<Problem> {
    let mut said: Vec<Problem> = Vec::new();
    for problem in first.iter().chain(more) {
        if !said.contains(problem) {
            said.push(problem.clone());
        }
    }
    said
}

/// Makes one file, and says of how many pages.
fn finish(
    desk: &Desk,
    of: &Stitched,
    job: &Job,
    replace: bool,
) -> Result<(usize, String, Vec<Problem>), Vec<Problem>> {
    let mut ticked = Ticked::new();
    let stands = if replace { existing::look(&job.path) } else { existing::look_closely(&job.path) };
    if !replace {
        match &stands {
            Existing::Nothing => {}
            Existing::Foreign => return Err(vec![existing::foreign(&job.path)]),
            Existing::Ours(made) | Existing::Damaged(made) => {
                let edition = existing::another_edition(&job.path, made, &of.design.slug, &job.settings);
                if let Some(other) = edition.or_else(|| existing::another_design(&job.path, made, &of.design))
                {
                    return Err(vec![other]);
                }
            }
        }
        if let Existing::Ours(made) = &stands
            && job.settings.bench.is_some()
        {
            // Ticks are kept for as long as what they stand beside has not changed.
            let inputs = desk.inputs(&of.design, &job.settings).map_err(|p| vec![p])?;
            if made.digest == inputs.digest {
                return Ok((0, format!("{}  current, left as it is", job.path.display()), Vec::new()));
            }
        }
        if !matches!(stands, Existing::Nothing) {
            ticked = ticks::on(&job.path, &job.settings).map_err(|p| vec![p])?;
        }
    }
    let before = Before::of(&stands, ticked);
    let Made { bytes, pages, carried, mut advice, .. } = desk.set(of, &job.settings, &before)?;
    write::whole(&job.path, &bytes).map_err(|e| vec![e.problem(Elsewhere::Out)])?;
    advice.extend(carried.problem(&job.path));
    let line = [Some(line(&job.path, &job.settings, pages, bytes.len())), carried.told()];
    let told = line.into_iter().flatten().collect::<Vec<_>>().join("  ");
    Ok((pages, told, advice))
}

/// `heron.pdf  12 pages  96 kB`, or of a picture `heron-pair.png  2000 pixels  840 kB`
fn line(path: &Path, settings: &Settings, pages: usize, bytes: usize) -> String {
    let made = match &settings.picture {
        Some(PictureSettings { shows: Shows::Moves { .. }, .. }) => format!("{pages} pictures"),
        Some(picture) => picture.pixels.map_or("SVG".to_owned(), |pixels| format!("{pixels} pixels")),
        None if settings.fold => match pages / 2 {
            1 => "1 sheet, printed on both sides and turned over the short edge".to_owned(),
            sheets => format!("{sheets} sheets, printed on both sides and turned over the short edge"),
        },
        None if pages == 1 => "1 page".to_owned(),
        None => format!("{pages} pages"),
    };
    format!("{}  {made}  {} kB", path.display(), bytes.div_ceil(1000))
}
