//! The command line: which commands there are, and what they end with.

use super::{
    bench, cards, check, completions, count, interrupt, make, match_beads, new, picture, remake, say,
};
use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// How a command ended, when it was used rightly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ending {
    /// Everything asked for is done.
    Done,
    /// Something could not be made; the rest was.
    NotAll,
    /// The command was used wrongly, which showed only after its words were read.
    WrongUse,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> ExitCode {
        match ending {
            Ending::Done => ExitCode::SUCCESS,
            Ending::NotAll => ExitCode::from(1),
            Ending::WrongUse => ExitCode::from(2),
        }
    }
}

/// Sets printable pattern booklets for bead-stitched fringe earrings, each from one design file.
#[derive(Debug, Parser)]
#[command(
    name = "fringebook",
    version,
    max_term_width = 100,
    disable_help_subcommand = true,
    after_help = "Examples:
  fringebook new \"Heron at Dusk\"      begin a design
  fringebook make heron-at-dusk.yaml  set its booklet
  fringebook remake catalogue         bring every booklet in a folder up to date

Exit status: 0 done; 1 something could not be made (the rest was); 2 wrong usage."
)]
pub(super) struct Words {
    #[command(subcommand)]
    pub(super) command: Command,
}

/// What can be asked for.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Make a booklet (PDF) for each design
    Make(make::MakeArgs),
    /// Make bench copies: rows and strands with boxes to tick
    Bench(bench::BenchArgs),
    /// Make pictures for a listing: the pair, a detail, the colours, a page
    Picture(picture::PictureArgs),
    /// Make cards that a pair is sold on
    Cards(cards::CardArgs),
    /// Make every booklet of a folder again whose inputs have changed
    Remake(remake::RemakeArgs),
    /// Show problems and advice; make no PDF
    Check(check::CheckArgs),
    /// Count beads, grams, packs, thread and cost of several designs together
    Count(count::CountArgs),
    /// Find the nearest beads in the palette for discontinued ones, a bead or a colour
    Match(match_beads::MatchArgs),
    /// Write a commented design file to start from
    New(new::NewArgs),
    /// Write a completion script for a shell
    Completions(completions::CompletionsArgs),
}

/// Reads the words of the command line and does what they say.
#[must_use]
pub fn main() -> ExitCode {
    let words = match Words::try_parse() {
        Ok(words) => words,
        Err(stop) => {
            if stop.use_stderr() {
                // Repeats the user's words.
                say::message(stop.render().to_string().trim_end());
                return Ending::WrongUse.into();
            }
            // Help and version arrive here as well; a closed pipe behind them is nobody's problem.
            let _ = stop.print();
            return Ending::Done.into();
        }
    };
    interrupt::install();
    let ending = match words.command {
        Command::Make(args) => make::run(&args),
        Command::Bench(args) => bench::run(&args),
        Command::Picture(args) => picture::run(&args),
        Command::Cards(args) => cards::run(&args),
        Command::Remake(args) => remake::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Count(args) => count::run(&args),
        Command::Match(args) => match_beads::run(&args),
        Command::New(args) => new::run(&args),
        Command::Completions(args) => completions::run(&args),
    };
    ending.into()
}
