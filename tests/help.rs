//! What each command says of itself.

use crate::catalogue::Catalogue;

/// Every command; a new one is added here and gets its snapshot.
const COMMANDS: [&str; 10] =
    ["make", "bench", "picture", "cards", "remake", "check", "count", "match", "new", "completions"];

#[test]
fn each_command_explains_itself_with_an_example() {
    let catalogue = Catalogue::new();
    insta::assert_snapshot!("help", catalogue.run(&["--help"]).well().out);
    for command in COMMANDS {
        let ran = catalogue.run(&[command, "--help"]);
        assert!(ran.well().out.contains(&format!("  fringebook {command} ")), "{command} shows an example");
        insta::assert_snapshot!(format!("help_{command}"), ran.out);
    }
}

#[test]
fn every_command_of_the_overview_is_explained() {
    let catalogue = Catalogue::new();
    let overview = catalogue.run(&["--help"]).out;
    let listed: Vec<&str> = overview
        .lines()
        .skip_while(|line| *line != "Commands:")
        .skip(1)
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert_eq!(listed, COMMANDS);
}

#[test]
fn completions_are_written_for_every_shell() {
    let catalogue = Catalogue::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = &catalogue.run(&["completions", shell]).well().out.clone();
        assert!(script.contains("fringebook") && script.contains("remake"), "{shell}");
    }
}
