//! `completions`: scripts that let a shell finish the words of a command.

use super::commands::{Ending, Words};
use super::say;
use clap::{Args, CommandFactory};
use clap_complete::Shell;

/// What `completions` is told.
#[derive(Debug, Args)]
#[command(after_help = "Example:
  fringebook completions bash > ~/.local/share/bash-completion/completions/fringebook")]
pub(super) struct CompletionsArgs {
    /// The shell
    #[arg(value_name = "SHELL")]
    shell: Shell,
}

/// Writes the script to standard output.
pub(super) fn run(args: &CompletionsArgs) -> Ending {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Words::command(), "fringebook", &mut script);
    say::result_bytes(&script)
}
