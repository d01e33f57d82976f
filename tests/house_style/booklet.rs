//! A booklet in a house style, read back.

use super::{checked, file, folder, said, styled};
use crate::maker::Folder;
use lopdf::{Document, Object};
use std::fs;

fn read(folder: &Folder, name: &str) -> Document {
    Document::load(folder.path(name)).expect("a PDF")
}

/// The names of a document's fonts, without what tells subsets apart, and how each is embedded.
fn fonts(document: &Document) -> Vec<(String, String)> {
    let named = |dictionary: &lopdf::Dictionary, key: &[u8]| {
        dictionary.get(key).and_then(Object::as_name).map(|n| String::from_utf8_lossy(n).into_owned())
    };
    let descriptors = document.objects.values().filter_map(|object| object.as_dict().ok());
    descriptors
        .filter(|dictionary| named(dictionary, b"Type").is_ok_and(|name| name == "FontDescriptor"))
        .map(|dictionary| {
            let name = named(dictionary, b"FontName").expect("a name");
            let how = ["FontFile2", "FontFile3"].into_iter().find(|key| dictionary.has(key.as_bytes()));
            (name[7..].to_owned(), how.expect("embedded").to_owned())
        })
        .collect()
}

/// The titles of the bookmarks of the first level, in their order.
fn titles(document: &Document) -> Vec<String> {
    let catalog = document.catalog().expect("a catalog");
    let outlines = catalog.get(b"Outlines").and_then(Object::as_reference).expect("bookmarks");
    let mut next =
        document.get_dictionary(outlines).and_then(|o| o.get(b"First")).and_then(Object::as_reference);
    let mut titles = Vec::new();
    while let Ok(id) = next {
        let one = document.get_dictionary(id).expect("a bookmark");
        let title = one.get(b"Title").expect("a title");
        titles.push(lopdf::decode_text_string(title).expect("text"));
        next = one.get(b"Next").and_then(Object::as_reference);
    }
    titles
}

#[test]
fn a_folder_of_templates_changes_order_words_fonts_colours_and_adds_sections() {
    let folder = folder();
    let own = file("house-style");
    let own = own.to_str().expect("a path");
    let (status, out, err) = said(&folder, &["make", "small.yaml", "--templates", own]);
    assert_eq!(status, Some(0), "{out}{err}");
    let document = read(&folder, "small.pdf");
    assert_eq!(
        titles(&document),
        [
            "Welcome to the lantern shop",
            "What stands where",
            "Materials",
            "Steps",
            "The picture",
            "Word chart",
            "Bead list of the strands",
            "Finishing",
            "When something goes wrong",
            "Care",
            "Safety and terms"
        ]
    );
    let fonts = fonts(&document);
    for (name, how) in [("MarshPlain", "FontFile2"), ("MarshTitle", "FontFile3")] {
        assert!(fonts.contains(&(name.to_owned(), how.to_owned())), "{fonts:?}");
    }
    // The folder's fonts lack arrows: a built-in face stands in for them, and that is told once for both papers.
    assert_eq!(err.matches("marsh-plain.ttf` lacks").count(), 1, "{err}");
    assert!(fonts.iter().any(|(name, _)| name.starts_with("SourceSans")), "{fonts:?}");

    let (_, out, _) = said(&folder, &["remake", ".", "--templates", own]);
    assert!(out.contains("current"), "{out}");
}

#[test]
fn every_cover_is_made_on_every_paper_and_in_every_size() {
    for cover in ["framed", "banner", "column"] {
        let folder = styled(&format!("cover: {cover}\naccent: \"#f3d24a\"\ntint: \"#eef3f5\"\n"));
        for more in [&["--paper", "both"][..], &["--grey"], &["--large-print", "--paper", "both"]] {
            let (status, _, err) = said(&folder, &[&["make", "small.yaml"], more].concat());
            assert_eq!(status, Some(0), "{cover} {more:?}: {err}");
        }
    }
}

#[test]
fn one_font_for_two_uses_stands_in_the_file_once() {
    let folder = styled("fonts: {text: marsh-plain.ttf, title: marsh-plain.ttf, strong: marsh-plain.ttf}\n");
    let (status, _, err) = said(&folder, &["make", "small.yaml"]);
    assert_eq!(status, Some(0), "{err}");
    let fonts = fonts(&read(&folder, "small.pdf"));
    assert_eq!(fonts.iter().filter(|(name, _)| name == "MarshPlain").count(), 1, "{fonts:?}");
}

#[test]
fn remake_notices_what_a_house_style_is_made_of() {
    let folder = styled("order: [cover, about.md, materials]\nfonts: {text: marsh-plain.ttf}\n")
        .with("about.md", "# About\n\nTwo lanterns.\n");
    assert_eq!(said(&folder, &["make", "small.yaml"]).0, Some(0));
    let why = |folder: &Folder| said(folder, &["remake", "."]).1;
    assert!(why(&folder).contains("1 current"));
    let folder = folder.with("about.md", "# About\n\nThree lanterns.\n");
    let said_why = why(&folder);
    assert!(said_why.contains("1 made") && said_why.contains("order"), "{said_why}");
    fs::copy(folder.path("marsh-title.otf"), folder.path("marsh-plain.ttf")).expect("another font");
    let said_why = why(&folder);
    assert!(said_why.contains("1 made") && said_why.contains("fonts"), "{said_why}");
    let mut png = std::io::Cursor::new(Vec::new());
    image::RgbImage::new(3, 2).write_to(&mut png, image::ImageFormat::Png).expect("a picture");
    fs::write(folder.path("view.png"), png.get_ref()).expect("a picture");
    let folder = folder.with("about.md", "# About\n\n![the view](view.png)\n");
    assert!(why(&folder).contains("1 made"));
    image::RgbImage::new(4, 2).save(folder.path("view.png")).expect("another picture");
    assert!(why(&folder).contains("1 made"));
    assert!(why(&folder).contains("1 current"));
}

#[test]
fn what_an_order_leaves_out_of_what_is_given_is_told() {
    let folder = folder();
    image::RgbImage::new(30, 20).save(folder.path("back.png")).expect("a picture");
    let design = folder.text("small.yaml") + "photos: {back: {file: back.png, shows: the back}}\n";
    let folder = folder.with("small.yaml", &design);
    assert_eq!(checked(&folder), "");
    let studio = folder.text("studio.yaml") + "order: [cover, materials, chart, steps]\n";
    insta::assert_snapshot!(checked(&folder.with("studio.yaml", &studio)), @r"
    studio.yaml:3:8: warning: the photograph for the back of `small` will not be shown: `order` leaves its section out
      3 | order: [cover, materials, chart, steps]
        |        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
      what to do: add `back` to the order, or take what is not shown out of the design
    ");
}
