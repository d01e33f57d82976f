//! `make`: one booklet for each design.

use super::commands::Ending;
use super::editions::{EditionArgs, SheetArgs, on_each_paper};
use super::existing::{self, Existing};
use super::kinds::{Kind, kind_at};
use super::pipeline::{self, Desk, Made, Stitched};
use super::settings::Settings;
use super::ticks::Ticked;
use super::write::Elsewhere;
use super::{names, say, ticks, write};
use crate::design::Design;
use crate::diagnostic::Problem;
use clap::Args;
use rayon::prelude::*;
use std::path::{Path, PathBuf};

/// What `make` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook make heron.yaml
  fringebook make heron.yaml orchard.yaml --paper both --out booklets
  fringebook make heron.yaml --colourway River --for \"Order 1042\"

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
}

/// One file to be made.
pub(super) struct Job {
    /// Index of its design among those stitched.
    pub(super) stitched: usize,
    /// Its settings.
    pub(super) settings: Settings,
    /// Where it goes.
    pub(super) path: PathBuf,
}

/// Makes the booklets.
pub(super) fn run(args: &MakeArgs) -> Ending {
    let settings = args.edition.settings(args.sheet.settings());
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}

/// Reads every design, sets every file that follows from the settings, and reports.
pub(super) fn make_all(
    designs: &[PathBuf],
    sheet: &SheetArgs,
    settings: &Settings,
    each_colourway: bool,
) -> Ending {
    let desk = Desk::new(sheet.templates.clone());
    let designs = match designs_among(designs) {
        Ok(designs) => designs,
        Err(wrong) => return wrong,
    };
    let readings = each(&designs, |path| {
        let reading = desk.read(path, settings);
        let Some(design) = reading.design else { return (Vec::new(), reading.problems) };
        let ways = if each_colourway { in_each_colourway(design) } else { vec![design] };
        let stitched = ways.into_iter().map(|d| pipeline::stitched(d, Vec::new())).collect();
        (stitched, reading.problems)
    });

    let mut failed = false;
    let mut all: Vec<Stitched> = Vec::new();
    let mut jobs: Vec<Job> = Vec::new();
    for (path, (ways, problems)) in designs.iter().zip(readings) {
        failed |= ways.is_empty();
        say::problems(&once(&problems, ways.iter().flat_map(|w| &w.problems)));
        let folder = sheet.out.as_deref().or_else(|| path.parent()).unwrap_or(Path::new(""));
        for way in ways {
            let settings = Settings { colourway: way.design.colourway.clone(), ..settings.clone() };
            for settings in on_each_paper(&way.design, &settings, sheet.paper) {
                let name = names::file_name(&way.design.slug, &settings);
                jobs.push(Job { stitched: all.len(), settings, path: folder.join(name) });
            }
            all.push(way);
        }
    }
    if let Some((first, second)) = names::collision(jobs.iter().map(|job| job.path.as_path())) {
        let told = |job: &Job| job.settings.told(&all[job.stitched].design.slug);
        say::problem(&twice(&jobs[second].path, &told(&jobs[first]), &told(&jobs[second])));
        return Ending::WrongUse;
    }

    let results = each(&jobs, |job| finish(&desk, &all[job.stitched], job, sheet.replace));
    // What keeps one paper from being made keeps the other too: it is said once.
    let mut said: Vec<Problem> = Vec::new();
    for result in results {
        match result {
            Ok((line, lost)) => {
                say::result(&line);
                say::problems(lost.as_slice());
            }
            Err(problems) => {
                failed = true;
                let new: Vec<Problem> = problems.into_iter().filter(|p| !said.contains(p)).collect();
                say::problems(&new);
                said.extend(new);
            }
        }
    }
    if failed { Ending::NotAll } else { Ending::Done }
}

/// What comes of every item, worked on by all processors; a single item does not pay for waking them.
fn each<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync + Send) -> Vec<R> {
    match items {
        [only] => vec![work(only)],
        _ => items.par_iter().map(work).collect(),
    }
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
    let named: Vec<Design> = design.colourways.iter().filter_map(|c| design.in_colourway(&c.name)).collect();
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

/// Makes one file. What to say of it, and which ticks it could not keep.
fn finish(
    desk: &Desk,
    of: &Stitched,
    job: &Job,
    replace: bool,
) -> Result<(String, Option<Problem>), Vec<Problem>> {
    let mut ticked = Ticked::new();
    if !replace {
        let stands = existing::look_closely(&job.path);
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
                return Ok((format!("{}  current, left as it is", job.path.display()), None));
            }
        }
        if !matches!(stands, Existing::Nothing) {
            ticked = ticks::on(&job.path, job.settings.bench.is_some()).map_err(|p| vec![p])?;
        }
    }
    let Made { bytes, pages, carried } = desk.set(of, &job.settings, &ticked)?;
    write::whole(&job.path, &bytes).map_err(|e| vec![e.problem(Elsewhere::Out)])?;
    let line = [Some(line(&job.path, pages, bytes.len())), carried.told()];
    Ok((line.into_iter().flatten().collect::<Vec<_>>().join("  "), carried.problem(&job.path)))
}

/// `heron.pdf  12 pages  96 kB`
fn line(path: &Path, pages: usize, bytes: usize) -> String {
    let pages = if pages == 1 { "1 page".to_owned() } else { format!("{pages} pages") };
    format!("{}  {pages}  {} kB", path.display(), bytes.div_ceil(1000))
}
