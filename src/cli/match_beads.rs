//! `match`: nearest beads of the palette for discontinued ones, for a bead, or for a colour.

use super::commands::Ending;
use super::edited::edited;
use super::say;
use super::swatch::Shades;
use super::table::{Align, Table};
use crate::colour::Colour;
use crate::design::palette_edit::set_replaced_by;
use crate::design::{self, Bead, BeadId, Design, Palette, Wishes};
use crate::diagnostic::{Problem, did_you_mean};
use crate::tally::{self, Nearest};
use clap::Args;
use std::path::{Path, PathBuf};

/// What `match` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook match heron.yaml
  fringebook match heron.yaml --bead mist
  fringebook match heron.yaml --colour \"#7a8f6a\"
  fringebook match heron.yaml --bead mist --write

Only beads of the same shape and size are proposed. The difference is CIEDE2000: about 1 is just
visible side by side; under 8, two beads are hard to tell apart on one chart.
Nothing is written without --write, which notes the replacement in the palette file.")]
pub(super) struct MatchArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// Find beads for this one, by its name in the palette file
    #[arg(long, value_name = "BEAD")]
    bead: Vec<String>,
    /// Find beads for this colour
    #[arg(long, value_name = "COLOUR", value_parser = colour)]
    colour: Option<Colour>,
    /// How many to propose
    #[arg(long, value_name = "N", default_value_t = 3, value_parser = clap::value_parser!(u16).range(1..))]
    best: u16,
    /// Write the nearest one into the palette file as the replacement
    #[arg(long, requires = "bead", conflicts_with = "colour")]
    write: bool,
    /// Write this one in place of the nearest
    #[arg(long, value_name = "BEAD", requires = "write")]
    by: Option<String>,
}

fn colour(text: &str) -> Result<Colour, String> {
    let wrong = || "write a colour as in \"#7a8f6a\", in quotation marks".to_owned();
    Colour::from_hex(text).ok_or_else(wrong)
}

/// A palette with the designs that use it.
struct Shared {
    palette: Palette,
    designs: Vec<Design>,
}

/// One question to the palette.
struct Wanted {
    heading: String,
    like: BeadId,
    colour: Colour,
    /// Whether `like` may be its own answer.
    like_counts: bool,
}

/// Proposes, and writes if told to.
pub(super) fn run(args: &MatchArgs) -> Ending {
    let (shared, mut all) = read(&args.designs);
    if let Some(problem) = unknown_bead(&args.bead, &shared) {
        say::problem(&problem);
        return if all { Ending::WrongUse } else { Ending::NotAll };
    }
    let shades = Shades::of_standard_output();
    let mut text = Vec::new();
    for with in &shared {
        for wanted in wanted(args, with) {
            text.push(proposal(with, &wanted, usize::from(args.best), shades));
        }
    }
    if text.is_empty() && !shared.is_empty() {
        text.push("No bead of these designs is discontinued.\n".to_owned());
    }
    if say::result_bytes(text.join("\n").as_bytes()) != Ending::Done {
        return Ending::NotAll;
    }
    if args.write {
        for with in &shared {
            all &= note_replacements(args, with);
        }
    }
    if all { Ending::Done } else { Ending::NotAll }
}

/// Reads the designs, those of one palette together; and whether all could be read.
fn read(paths: &[PathBuf]) -> (Vec<Shared>, bool) {
    let mut shared: Vec<Shared> = Vec::new();
    let mut all = true;
    for path in paths {
        let reading = design::read(path, &Wishes::default());
        let Some(design) = reading.design else {
            say::problems(&reading.problems);
            all = false;
            continue;
        };
        match shared.iter_mut().find(|with| with.palette == design.palette) {
            Some(with) => with.designs.push(design),
            None => shared.push(Shared { palette: design.palette.clone(), designs: vec![design] }),
        }
    }
    (shared, all)
}

fn unknown_bead(asked: &[String], shared: &[Shared]) -> Option<Problem> {
    let known: Vec<&str> =
        shared.iter().flat_map(|with| with.palette.beads.iter().map(|bead| bead.key.as_str())).collect();
    let unknown = asked.iter().find(|key| !shared.is_empty() && !known.contains(&key.as_str()))?;
    Some(Problem::error(format!("the palette has no bead `{unknown}`")).hint(did_you_mean(
        unknown,
        &known,
        "the beads are",
    )))
}

fn index_of(palette: &Palette, key: &str) -> Option<BeadId> {
    palette.beads.iter().position(|bead| bead.key == key).map(BeadId)
}

/// The questions that follow from what `match` is told.
fn wanted(args: &MatchArgs, with: &Shared) -> Vec<Wanted> {
    let bead = |id: BeadId| &with.palette.beads[id.0];
    let asked: Vec<BeadId> = if args.bead.is_empty() {
        with.discontinued()
    } else {
        args.bead.iter().filter_map(|key| index_of(&with.palette, key)).collect()
    };
    match args.colour {
        None => asked
            .iter()
            .map(|id| Wanted {
                heading: with.heading(*id),
                like: *id,
                colour: bead(*id).colour,
                like_counts: false,
            })
            .collect(),
        Some(colour) => {
            let like = if args.bead.is_empty() { with.kinds() } else { asked };
            like.iter()
                .map(|id| Wanted {
                    heading: format!("{colour} among {}", kind(bead(*id))),
                    like: *id,
                    colour,
                    like_counts: true,
                })
                .collect()
        }
    }
}

impl Shared {
    /// Discontinued beads that the designs name, in the order of the palette.
    fn discontinued(&self) -> Vec<BeadId> {
        let named = |design: &Design, id: BeadId| {
            let changed = design.colourways.iter().flat_map(|c| c.changes.iter().map(|(_, letter)| letter));
            design.letters.iter().chain(changed).any(|letter| letter.replaces == Some(id))
        };
        (0..self.palette.beads.len())
            .map(BeadId)
            .filter(|id| self.designs.iter().any(|design| named(design, *id)))
            .collect()
    }

    /// One bead of each shape and size that the designs use.
    fn kinds(&self) -> Vec<BeadId> {
        let mut kinds: Vec<BeadId> = Vec::new();
        let beads = &self.palette.beads;
        for letter in self.designs.iter().flat_map(|design| &design.letters) {
            if !kinds.iter().any(|k| tally::interchangeable(&beads[k.0], &beads[letter.bead.0])) {
                kinds.push(letter.bead);
            }
        }
        kinds
    }

    /// `Mist (mist, #c9d3d8), cylinder 11/0, now replaced by frost`
    fn heading(&self, id: BeadId) -> String {
        let bead = &self.palette.beads[id.0];
        let now = bead.replaced_by.as_ref().map_or(String::new(), |by| format!(", now replaced by {by}"));
        format!("{} ({}, {}), {}{now}", bead.name, bead.key, bead.colour, kind(bead))
    }
}

/// `cylinder 11/0`, or `cylinder 1.6 × 1.3 mm` where the palette gives no size.
fn kind(bead: &Bead) -> String {
    let shape = format!("{:?}", bead.shape).to_lowercase();
    match &bead.size {
        Some(size) => format!("{shape} {size}"),
        None => format!("{shape} {} × {} mm", bead.width.0, bead.length.0),
    }
}

fn candidates(palette: &Palette, wanted: &Wanted) -> Vec<Nearest> {
    let like = &palette.beads[wanted.like.0];
    let mut found = tally::nearest(palette, like, wanted.colour);
    found.retain(|near| wanted.like_counts || near.bead != wanted.like);
    found
}

fn proposal(with: &Shared, wanted: &Wanted, best: usize, shades: Shades) -> String {
    let palette = &with.palette;
    let near = candidates(palette, wanted);
    let heading = format!("{}{}\n", shades.patch(wanted.colour), wanted.heading);
    if near.is_empty() {
        return format!("{heading}  no other bead of this shape and size\n");
    }
    let mut table = Table::new(&[
        ("difference", Align::Right),
        ("bead", Align::Left),
        ("name", Align::Left),
        ("colour", Align::Left),
        ("code", Align::Left),
        ("in stock", Align::Right),
    ]);
    let shown = &near[..near.len().min(best)];
    for near in shown {
        let bead = &palette.beads[near.bead.0];
        table.row(vec![
            format!("{:.1}", near.difference),
            bead.key.clone(),
            bead.name.to_string(),
            bead.colour.hex(),
            bead.code.clone().unwrap_or_default(),
            bead.stock.map(|g| format!("{:.2} g", g.0)).unwrap_or_default(),
        ]);
    }
    let blank = " ".repeat(if shades == Shades::None { 0 } else { 6 });
    let patches = shown.iter().map(|near| shades.patch(palette.beads[near.bead.0].colour));
    let lines = table.lines();
    std::iter::once(blank)
        .chain(patches)
        .zip(lines.lines())
        .fold(heading, |text, (patch, line)| format!("{text}  {patch}{line}\n"))
}

/// Writes the replacements of the beads asked for into the palette's file; whether all went well.
fn note_replacements(args: &MatchArgs, with: &Shared) -> bool {
    let palette = &with.palette;
    let asked: Vec<BeadId> = args.bead.iter().filter_map(|key| index_of(palette, key)).collect();
    let Some(first) = asked.first() else {
        return true;
    };
    let name = &palette.beads[first.0].place.source.name;
    match replaced(args, palette, name, &asked) {
        Ok(written) => {
            written.iter().for_each(|line| say::result(line));
            true
        }
        // The file keeps its old text: half of what was asked for would be hard to see.
        Err(problem) => {
            say::problem(&problem);
            false
        }
    }
}

/// Edits the palette's file as it stands now; one line for each replacement written.
fn replaced(
    args: &MatchArgs,
    palette: &Palette,
    name: &str,
    asked: &[BeadId],
) -> Result<Vec<String>, Problem> {
    let mut written = Vec::new();
    edited(Path::new(name), |text| {
        let mut text = text.to_owned();
        for id in asked {
            let bead = &palette.beads[id.0];
            let by = replacement(args, palette, *id)?;
            text = set_replaced_by(&text, &bead.key, &by)?;
            written.push(format!("{name}: {} is replaced by {by}", bead.key));
        }
        Ok(Some(text))
    })?;
    Ok(written)
}

/// The key of the bead that is to replace another.
fn replacement(args: &MatchArgs, palette: &Palette, id: BeadId) -> Result<String, Problem> {
    let bead = &palette.beads[id.0];
    let wanted = Wanted { heading: String::new(), like: id, colour: bead.colour, like_counts: false };
    let near = candidates(palette, &wanted);
    let keys: Vec<&str> = near.iter().map(|near| palette.beads[near.bead.0].key.as_str()).collect();
    match &args.by {
        None => keys.first().map(|key| (*key).to_owned()).ok_or_else(|| {
            Problem::error(format!("the palette has no other bead like `{}`: {}", bead.key, kind(bead)))
                .at(bead.place.clone())
                .hint("add one to the palette first")
        }),
        Some(by) if keys.contains(&by.as_str()) => Ok(by.clone()),
        Some(by) => Err(Problem::error(format!("`{by}` cannot replace `{}`: {}", bead.key, kind(bead)))
            .at(bead.place.clone())
            .hint(did_you_mean(by, &keys, "what can:"))),
    }
}
