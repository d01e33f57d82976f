//! README tells the truth: its design file reads, its commands exist and run.

use fringebook::booklet::{TemplateFile, Templates};
use fringebook::design::{Wishes, read_texts};
use std::fs;
use std::path::Path;
use std::process::Command;

fn readme() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).expect("README.md")
}

/// The fenced blocks in one language.
fn blocks(text: &str, language: &str) -> Vec<String> {
    text.split("```")
        .skip(1)
        .step_by(2)
        .filter_map(|b| b.strip_prefix(&format!("{language}\n")))
        .map(str::to_owned)
        .collect()
}

#[test]
fn the_design_file_in_the_readme_reads_without_a_problem() {
    let palette = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs/palette.yaml"))
        .expect("the demo palette");
    let mut found = blocks(&readme(), "yaml");
    found.retain(|yaml| !yaml.starts_with("# words.yaml"));
    assert!(!found.is_empty(), "README shows a design file");
    for yaml in found {
        let files = [("readme.yaml", yaml.as_str()), ("palette.yaml", palette.as_str())];
        let reading = read_texts(&files, &Wishes::default());
        let messages: Vec<&str> = reading.problems.iter().map(|p| p.message.as_str()).collect();
        assert!(reading.design.is_some(), "{messages:?}");
    }
}

#[test]
fn the_templates_in_the_readme_read_without_a_problem() {
    let found = blocks(&readme(), "yaml");
    let words =
        found.iter().find(|yaml| yaml.starts_with("# words.yaml")).expect("README shows a words.yaml");
    let file = TemplateFile { name: "words.yaml".to_owned(), bytes: words.as_bytes().to_vec() };
    Templates::read(None, Some(file)).expect("they are right");
}

#[test]
fn every_command_in_the_readme_has_help_with_an_example() {
    let text = readme();
    let mut commands: Vec<&str> =
        text.split("`fringebook ").skip(1).filter_map(|rest| rest.split([' ', '`']).next()).collect();
    commands.sort_unstable();
    commands.dedup();
    assert!(commands.len() >= 7, "{commands:?}");
    for command in commands {
        let output = Command::new(env!("CARGO_BIN_EXE_fringebook"))
            .args([command, "--help"])
            .output()
            .expect("the program runs");
        let help = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(output.status.success() && help.contains("Example"), "{command}: {help}");
    }
}

#[test]
fn the_first_command_makes_a_booklet() {
    let line = blocks(&readme(), "sh").remove(0);
    let words: Vec<&str> = line.split_whitespace().collect();
    let after = words.iter().position(|w| *w == "--").expect("cargo run -- …") + 1;
    let folder = tempfile::tempdir().expect("a folder");
    let mut arguments: Vec<String> = words[after..].iter().map(|w| (*w).to_owned()).collect();
    let out = arguments.iter().position(|a| a == "--out").expect("--out") + 1;
    arguments[out] = folder.path().display().to_string();
    let output = Command::new(env!("CARGO_BIN_EXE_fringebook"))
        .args(&arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let made = fs::read_dir(folder.path()).expect("the folder").count();
    assert!(made >= 1, "nothing was made");
}
