//! Logo and photographs: what is told of a file that cannot be used, and what stands in the booklet of
//! one that can.

use crate::catalogue::Catalogue;
use image::{ExtendedColorType, ImageEncoder as _};
use lopdf::{Document, Object, Stream};
use std::fs::File;
use std::process::Command;

/// A small picture in red and blue.
fn png() -> Vec<u8> {
    let mut bytes = Vec::new();
    let samples: Vec<u8> = (0..64 * 48).flat_map(|i| [200, (i % 64) as u8, (i / 64) as u8]).collect();
    image::codecs::png::PngEncoder::new(&mut bytes)
        .write_image(&samples, 64, 48, ExtendedColorType::Rgb8)
        .expect("a PNG");
    bytes
}

/// The same as a JPEG that a camera held on its side has saved.
fn jpeg() -> Vec<u8> {
    let samples: Vec<u8> = (0..64 * 48).flat_map(|i| [200, (i % 64) as u8, (i / 64) as u8]).collect();
    let mut bytes = Vec::new();
    let mut encoder = jpeg_encoder::Encoder::new(&mut bytes, 90);
    let exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x06\0\0\0\0\0\0\0 in my garden";
    encoder.add_app_segment(1, exif.to_vec()).expect("a segment");
    encoder.encode(&samples, 64, 48, jpeg_encoder::ColorType::Rgb).expect("a JPEG");
    bytes
}

/// A catalogue whose studio file names a logo of these bytes.
fn with_logo(name: &str, bytes: &[u8]) -> Catalogue {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("studio.yaml", "paper: a4", &format!("paper: a4\nlogo: {{file: {name}, shows: a reed}}"));
    catalogue.write(name, bytes);
    catalogue
}

/// What `check` and `make` say of the catalogue's design; nothing is written.
#[track_caller]
fn told(catalogue: &Catalogue) -> String {
    let checked = catalogue.run(&["check", "heron.yaml"]);
    checked.ended(1);
    let made = catalogue.run(&["make", "heron.yaml"]);
    made.ended(1);
    assert_eq!(checked.err, made.err);
    assert!(!catalogue.path("heron.pdf").exists());
    made.err
}

#[test]
fn a_broken_logo_is_told_where_it_is_named() {
    let whole = png();
    let mut damaged = whole.clone();
    damaged[60] ^= 0x55;
    for (name, bytes, message, hint) in [
        (
            "half.jpg",
            &jpeg()[..700],
            "the picture `half.jpg` is cut short",
            "copy it again from where it came, or open it and save it anew",
        ),
        (
            "half.png",
            &whole[..90],
            "the picture `half.png` is cut short",
            "copy it again from where it came, or open it and save it anew",
        ),
        (
            "spoilt.png",
            &damaged[..],
            "the picture `spoilt.png` is damaged",
            "copy it again from where it came, or open it and save it anew",
        ),
        ("word.png", b"reeds", "`word.png` is not a PNG or JPEG picture", "save the picture as PNG or JPEG"),
    ] {
        let line = format!("logo: {{file: {name}, shows: a reed}}");
        let marks = "^".repeat(name.len());
        let wanted = format!(
            "studio.yaml:5:14: error: {message}\n  5 | {line}\n    |              {marks}\n  what to do: {hint}\n"
        );
        let told = told(&with_logo(name, bytes));
        assert!(told.contains(&wanted), "{told}");
    }
}

#[test]
fn what_is_no_file_is_not_read() {
    let catalogue = with_logo("logo.png", b"");
    std::fs::remove_file(catalogue.path("logo.png")).expect("removed");
    let told_of = |name: &str, message: &str, hint: &str| {
        let now = catalogue.bytes("studio.yaml");
        let text = String::from_utf8(now.clone()).expect("text");
        catalogue.write("studio.yaml", text.replace("logo.png", name));
        let told = told(&catalogue);
        let wanted = format!("studio.yaml:5:14: error: {message}\n");
        assert!(told.contains(&wanted) && told.contains(&format!("what to do: {hint}\n")), "{told}");
        catalogue.write("studio.yaml", now);
    };
    told_of(
        "logo.png",
        "there is no picture `logo.png`",
        "check the name; it is looked for beside the file that names it",
    );
    std::fs::create_dir(catalogue.path("logos")).expect("a folder");
    told_of("logos", "`logos` is a folder, not a picture", "give the picture's name in it");
    let large = File::create(catalogue.path("large.png")).expect("a file");
    large.set_len(50_000_001).expect("a size");
    told_of(
        "large.png",
        "the picture `large.png` has 51 MB; at most 50 MB can be used",
        "save a smaller copy: 3,000 pixels on the longer side are enough for a whole page",
    );
    if cfg!(unix) {
        let hint = "name a picture that is saved as a file";
        told_of("/dev/zero", "`/dev/zero` is not a file that can be read to its end", hint);
        let made = Command::new("mkfifo").arg(catalogue.path("pipe.png")).status().expect("mkfifo runs");
        assert!(made.success());
        told_of("pipe.png", "`pipe.png` is not a file that can be read to its end", hint);
    }
}

/// 400 million pixels that pack to nothing: decoding them would take 1.2 GB.
#[test]
fn a_picture_of_too_many_pixels_is_not_decoded() {
    let mut bytes = png();
    for at in [16, 20] {
        bytes[at..at + 4].copy_from_slice(&20_000u32.to_be_bytes());
    }
    let told = told(&with_logo("huge.png", &bytes));
    let message = "error: the picture `huge.png` has 20,000 × 20,000 pixels; at most 60 million can be used, \
                   30,000 on a side\n";
    assert!(told.contains(message), "{told}");
}

#[test]
fn a_broken_photograph_is_told_where_it_or_its_folder_is_named() {
    let half = &jpeg()[..700];
    let catalogue = Catalogue::with_heron();
    catalogue.write("pair.jpg", half);
    catalogue.edit(
        "heron.yaml",
        "edition: 1",
        "edition: 1\nphotos: {cover: {file: pair.jpg, shows: a pair}}",
    );
    let by_design = told(&catalogue);
    assert!(
        by_design.contains("heron.yaml:4:24: error: the picture `pair.jpg` is cut short\n"),
        "{by_design}"
    );

    let catalogue = Catalogue::with_heron();
    catalogue.write("covers/heron.jpg", half);
    catalogue.edit("studio.yaml", "paper: a4", "paper: a4\nphotos: covers");
    let by_folder = told(&catalogue);
    let wanted = "studio.yaml:5:9: error: the picture `covers/heron.jpg` is cut short\n";
    assert!(by_folder.contains(wanted), "{by_folder}");
}

#[test]
fn all_that_is_wrong_is_told_at_once() {
    let catalogue = with_logo("word.png", b"reeds");
    catalogue.write("pair.jpg", &jpeg()[..700]);
    catalogue.edit("heron.yaml", "edition: 1", "editon: 1\nphotos: {cover: {file: pair.jpg, shows: a pair}}");
    let told = told(&catalogue);
    for part in
        ["`editon` is not a key", "`pair.jpg` is cut short", "`word.png` is not a PNG or JPEG picture"]
    {
        assert_eq!(told.matches(part).count(), 1, "{part}: {told}");
    }
}

fn pictures(pdf: &[u8]) -> Vec<Stream> {
    let doc = Document::load_mem(pdf).expect("a PDF");
    let of_kind = |stream: &&Stream| {
        stream.dict.get(b"Subtype").and_then(Object::as_name).is_ok_and(|name| name == b"Image")
    };
    doc.objects.values().filter_map(|o| o.as_stream().ok()).filter(of_kind).cloned().collect()
}

#[test]
fn the_data_of_a_logo_stand_in_the_booklet_as_in_its_file() {
    let bytes = png();
    let catalogue = with_logo("logo.png", &bytes);
    catalogue.run(&["make", "heron.yaml"]).well();
    let found = pictures(&catalogue.bytes("heron.pdf"));
    assert_eq!(found.len(), 1);
    let data = &found[0].content;
    assert!(bytes.windows(data.len()).any(|w| w == data.as_slice()));
    let number = |key: &[u8]| found[0].dict.get(key).and_then(Object::as_i64).expect("a number");
    assert_eq!((number(b"Width"), number(b"Height"), number(b"BitsPerComponent")), (64, 48, 8));
    assert_eq!(found[0].dict.get(b"Filter").and_then(Object::as_name).ok(), Some(&b"FlateDecode"[..]));
}

#[test]
fn a_photograph_stands_upright_and_tells_nothing_of_its_camera() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("covers/heron.jpg", jpeg());
    catalogue.edit("studio.yaml", "paper: a4", "paper: a4\nphotos: covers");
    catalogue.run(&["make", "heron.yaml"]).well();
    let pdf = catalogue.bytes("heron.pdf");
    let garden: &[u8] = b"in my garden";
    assert!(!pdf.windows(garden.len()).any(|w| w == garden), "the camera's notes are in the booklet");
    assert_eq!(pictures(&pdf).len(), 1);
    let doc = Document::load_mem(&pdf).expect("a PDF");
    let cover = doc.page_iter().next().expect("a page");
    let content = lopdf::content::Content::decode(&doc.get_page_content(cover)).expect("operators");
    let shown = content
        .operations
        .iter()
        .position(|o| o.operator == "Do" && o.operands[0].as_name().is_ok_and(|name| name.starts_with(b"P")));
    let matrix = &content.operations[shown.expect("it is shown") - 1];
    assert_eq!(matrix.operator, "cm");
    let [a, b, c, d, ..] = [0, 1, 2, 3].map(|i| matrix.operands[i].as_float().expect("a number"));
    // Turned a quarter to the right: what was saved 64 across now stands 64 high.
    assert_eq!((a, d), (0.0, 0.0));
    assert!(b < 0.0 && c > 0.0 && (-b / c - 64.0 / 48.0).abs() < 0.001, "{b} {c}");
}

/// The picture that a saved file holds is what its booklets are judged by: remake sees it change.
#[test]
fn a_logo_saved_anew_remakes_the_booklet_and_a_broken_one_fails_it() {
    let catalogue = with_logo("logo.png", &png());
    catalogue.run(&["remake", "."]).ended(0);
    let again = catalogue.run(&["remake", "."]);
    assert_eq!(again.rows("made"), []);
    catalogue.write("logo.png", jpeg());
    assert_eq!(catalogue.run(&["remake", "."]).rows("made").len(), 1);
    let before = catalogue.bytes("heron.pdf");
    let whole = png();
    let mut damaged = whole.clone();
    damaged[60] ^= 0x55;
    catalogue.write("logo.png", damaged);
    let failed = catalogue.run(&["remake", "."]);
    failed.ended(1);
    assert!(failed.err.contains("studio.yaml:5:14: error: the picture"), "{}", failed.err);
    assert!(failed.err.contains("logo.png` is damaged"), "{}", failed.err);
    assert_eq!(catalogue.bytes("heron.pdf"), before);
}
