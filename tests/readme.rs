//! README tells the truth: its design file reads, its commands exist and run.

use fringebook::booklet::{TemplateFile, Templates};
use fringebook::design::{Texts, Wishes, read_from};
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
    found.retain(|yaml| !yaml.starts_with("# words.yaml") && !yaml.starts_with("# studio.yaml"));
    assert!(!found.is_empty(), "README shows a design file");
    // Keys alone go into the first of them, with pictures of the names that they give.
    let first = found[0].clone();
    let mut png = std::io::Cursor::new(Vec::new());
    image::RgbImage::new(3, 2).write_to(&mut png, image::ImageFormat::Png).expect("a picture");
    for yaml in found {
        let yaml = if yaml.starts_with("photos:") { format!("{first}{yaml}") } else { yaml };
        let named = yaml.split([' ', ',', '}']).filter(|word| word.ends_with(".jpg"));
        let pictures = named.map(|name| (name, png.get_ref().as_slice()));
        let texts = [("readme.yaml", yaml.as_bytes()), ("palette.yaml", palette.as_bytes())];
        let shelf = Texts::new(texts.into_iter().chain(pictures));
        let reading = read_from(&shelf, Path::new("readme.yaml"), &Wishes::default());
        let messages: Vec<&str> = reading.problems.iter().map(|p| p.message.as_str()).collect();
        assert!(reading.design.is_some(), "{messages:?}");
    }
}

#[test]
fn the_studio_file_in_the_readme_reads_without_a_problem() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let file = |name: &str| fs::read(root.join(name)).expect("a file of the repository");
    let found = blocks(&readme(), "yaml");
    let studio =
        found.iter().find(|yaml| yaml.starts_with("# studio.yaml")).expect("README shows a studio.yaml");
    let mut files = vec![
        ("heron.yaml", file("demo-designs/heron-at-dusk.yaml")),
        ("palette.yaml", file("demo-designs/palette.yaml")),
        ("studio.yaml", studio.clone().into_bytes()),
        ("welcome.md", b"# Welcome\n\nTo the lantern.\n".to_vec()),
        ("lantern.svg", file("tests/house-style/lantern.svg")),
        ("title.otf", file("tests/fonts/marsh-title.otf")),
    ];
    for font in ["text.ttf", "text-bold.ttf", "text-italic.ttf"] {
        files.push((font, file("tests/fonts/marsh-plain.ttf")));
    }
    let reading = read_from(&Texts::new(files), Path::new("heron.yaml"), &Wishes::default());
    let of_studio = |p: &&fringebook::diagnostic::Problem| {
        p.place.as_ref().is_some_and(|place| place.source.name == "studio.yaml")
    };
    assert_eq!(reading.problems.iter().filter(of_studio).map(|p| &p.message).collect::<Vec<_>>(), [""; 0]);
    assert!(reading.design.is_some(), "{:?}", reading.problems);
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
