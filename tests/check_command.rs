//! The command `check`: it finds whatever `make` would, at the value's own place.

use crate::maker::{DESIGN, Folder, PALETTE, STUDIO, err, out};

/// What `check` says of a design that `make` cannot make; both say the same.
fn told_by_both(folder: &Folder) -> String {
    let check = folder.run(&["check", "heron.yaml"]);
    let make = folder.run(&["make", "heron.yaml"]);
    assert_eq!((check.status.code(), make.status.code()), (Some(1), Some(1)), "{}", err(&check));
    assert_eq!(err(&check), err(&make));
    assert_eq!(out(&make), "");
    assert!(!folder.path("heron.pdf").exists());
    err(&check)
}

macro_rules! told {
    ($($name:ident: $folder:expr;)+) => { $(
        #[test]
        fn $name() {
            insta::assert_snapshot!(told_by_both(&$folder));
        }
    )+ };
}

fn heron() -> Folder {
    Folder::new().with("heron.yaml", DESIGN)
}

told! {
    a_character_of_the_title_in_no_font:
        heron().with("heron.yaml", &DESIGN.replace("Small Heron", "Small 鷺"));
    a_character_of_the_studio_file_not_one_of_a_comment_in_the_design: heron()
        .with("heron.yaml", &format!("# for 鷺, the heron\n{DESIGN}"))
        .with("studio.yaml", &STUDIO.replace("Hollow Reed", "鷺 Reed"));
    a_character_of_the_bead_that_is_used: heron()
        .with("palette.yaml", &PALETTE.replace("beads:", "beads:\n  snow: {name: 雪, colour: \"#ffffff\", shape: cylinder, size: 11/0}")
            .replace("name: Mist", "name: 雪 mist"));
    a_character_written_another_way: heron()
        .with("heron.yaml", &DESIGN.replace("Small Heron", "\"Small \\u9dfa\""));
    a_character_far_down_in_the_terms: heron()
        .with("studio.yaml", &format!("{STUDIO}terms: |\n  Please do not\n  copy this 鷺.\n\n  Thank you.\n"));
    an_unknown_language: heron().with("studio.yaml", &format!("{STUDIO}language: nl\n"));
    a_picture_cut_short: {
        let folder = heron().with("studio.yaml", &format!("{STUDIO}logo: {{file: logo.png, shows: a reed}}\n"));
        let mut png = Vec::new();
        let image = image::RgbImage::from_fn(40, 40, |x, y| image::Rgb([x as u8 * 5, y as u8 * 5, (x * y) as u8]));
        image.write_to(&mut std::io::Cursor::new(&mut png), image::ImageFormat::Png).expect("a picture");
        std::fs::write(folder.path("logo.png"), &png[..png.len() / 2]).expect("written");
        folder
    };
}

#[test]
fn a_design_that_can_be_made_leaves_no_booklet_behind() {
    let folder = heron();
    let check = folder.run(&["check", "heron.yaml", "--language", "en-US"]);
    assert_eq!((out(&check).as_str(), err(&check).as_str()), ("heron.yaml: nothing to report\n", ""));
    assert!(!folder.path("heron.pdf").exists());
}

#[test]
fn a_language_asked_for_must_be_there() {
    let check = heron().run(&["check", "heron.yaml", "--language", "nl"]);
    assert_eq!(check.status.code(), Some(1));
    assert!(err(&check).contains("`nl`"), "{}", err(&check));
}

/// A device that never ends, and a file of which nothing but the size is looked at.
#[cfg(unix)]
#[test]
fn devices_and_huge_files_are_not_read() {
    let folder = heron().with("endless.yaml", &format!("palette: /dev/zero\nstudio: /dev/zero\n{DESIGN}"));
    let huge = std::fs::File::create(folder.path("huge.yaml")).expect("created");
    huge.set_len(3_000_000_000).expect("a file with nothing in it");
    let run = folder.run(&["check", "endless.yaml", "huge.yaml", "/dev/zero"]);
    assert_eq!(run.status.code(), Some(1));
    let told: Vec<String> = err(&run).lines().filter(|l| l.contains("error: ")).map(str::to_owned).collect();
    assert_eq!(
        told,
        [
            "endless.yaml:1:10: error: `/dev/zero` is no palette file, but a pipe, a socket or a device",
            "endless.yaml:2:9: error: `/dev/zero` is no studio file, but a pipe, a socket or a device",
            "error: `huge.yaml` is larger than 4 MB",
            "error: `/dev/zero` is no design file, but a pipe, a socket or a device",
        ]
    );
}

/// Pages and their fill, as `check --pages` prints them for each paper.
fn told_pages(folder: &Folder, more: &[&str]) -> Vec<(String, Vec<Option<u32>>)> {
    let args: Vec<&str> = ["check", "heron.yaml", "--pages"].iter().chain(more).copied().collect();
    let ran = folder.run(&args);
    assert_eq!((ran.status.code(), err(&ran).as_str()), (Some(0), ""));
    let mut booklets: Vec<(String, Vec<Option<u32>>)> = Vec::new();
    for line in out(&ran).lines() {
        if let Some((name, _)) = line.split_once(" pages") {
            booklets.push((name.to_owned(), Vec::new()));
        } else if let (Some(number), Some((_, pages))) =
            (line.split_whitespace().next().and_then(|word| word.parse::<usize>().ok()), booklets.last_mut())
        {
            assert_eq!(number, pages.len() + 1, "{line}");
            let filled =
                line.split_once('%').and_then(|(before, _)| before.split_whitespace().last()?.parse().ok());
            pages.push(filled);
        }
    }
    booklets
}

#[test]
fn how_full_pages_are_is_told_of_each_edition() {
    let folder = heron();
    let usual = told_pages(&folder, &["--paper", "both"]);
    let [(a4, pages), (letter, _)] = usual.as_slice() else { panic!("{usual:?}") };
    assert!(a4.starts_with("heron.yaml, a4: ") && letter.starts_with("heron.yaml, letter: "), "{usual:?}");
    assert_eq!(a4, &format!("heron.yaml, a4: {}", pages.len()));
    assert_eq!(pages[0], None, "the cover");
    let (last, others) = pages[1..].split_last().expect("pages");
    assert!(last.is_some_and(|fill| fill <= 100), "{pages:?}");
    assert!(others.iter().all(|fill| fill.is_some_and(|fill| (50..=100).contains(&fill))), "{pages:?}");
    let large = told_pages(&folder, &["--paper", "a4", "--large-print", "--grey", "--start", "right"]);
    assert!(large[0].1.len() > pages.len(), "{large:?}");
    assert!(!folder.path("heron.pdf").exists());
    let wrong = folder.run(&["check", "heron.yaml", "--pages", "--thread"]);
    assert_eq!(wrong.status.code(), Some(2));
}
