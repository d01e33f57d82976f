//! A folder of templates to start from changes nothing until something in it is changed.

use super::{folder, said};
use fringebook::booklet::Wording;
use std::fs;

#[test]
fn the_folder_to_start_from_makes_the_same_booklet_in_every_language() {
    for language in Wording::languages() {
        let folder = folder();
        let made = |more: &[&str]| {
            let words = [&["make", "small.yaml", "--language", language, "--replace"], more].concat();
            let (status, _, err) = said(&folder, &words);
            assert_eq!(status, Some(0), "{language}: {err}");
            let files =
                fs::read_dir(folder.path(".")).expect("the folder").flatten().map(|entry| entry.path());
            let mut booklets = files.filter(|path| path.extension().is_some_and(|end| end == "pdf"));
            fs::read(booklets.next().expect("a booklet")).expect("a booklet")
        };
        let built_in = made(&[]);
        let (status, out, err) = said(&folder, &["new", "house", "--templates", "--language", language]);
        assert_eq!((status, err.as_str()), (Some(0), ""));
        assert_eq!(out, "house/words.yaml\nhouse/language.yaml\nhouse/style.yaml\n");
        let own = made(&["--templates", "house"]);
        // The digest counts which words there are, not where they come from; so all bytes are the same.
        assert!(built_in == own, "{language}");
    }
}

#[test]
fn nothing_is_overwritten_and_unknown_languages_are_told() {
    let folder = folder();
    assert_eq!(said(&folder, &["new", "--templates", "house"]).0, Some(0));
    fs::write(folder.path("house/words.yaml"), "chart: {title: Mine}\n").expect("a file");
    let (status, out, err) = said(&folder, &["new", "--templates", "house"]);
    assert_eq!((status, out.as_str()), (Some(1), ""));
    insta::assert_snapshot!(err, @r"
    error: house/words.yaml is there already, and is left as it is
      what to do: choose another name, or write into another folder with --in FOLDER
    ");
    assert_eq!(folder.text("house/words.yaml"), "chart: {title: Mine}\n");
    let (status, _, err) = said(&folder, &["new", "--templates", "other", "--language", "du"]);
    assert_eq!(status, Some(2));
    assert!(err.contains("there are `de`, `en`"), "{err}");
    assert!(!folder.path("other").exists());
}
