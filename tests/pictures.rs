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
        (
            "word.png",
            b"reeds",
            "`word.png` is not a PNG, JPEG or SVG picture",
            "save the picture as PNG or JPEG",
        ),
    ] {
        let line = format!("logo: {{file: {name}, shows: a reed}}");
        let marks = "^".repeat(name.len());
        let wanted = format!(
            "studio.yaml:5:14: error: {message}\n  5 | {line}\n    |              {marks}\n  what to do: {hint}\n"
        );
        let told = with_logo(name, bytes).refused();
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
        let told = catalogue.refused();
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
    let told = with_logo("huge.png", &bytes).refused();
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
    let by_design = catalogue.refused();
    assert!(
        by_design.contains("heron.yaml:4:24: error: the picture `pair.jpg` is cut short\n"),
        "{by_design}"
    );

    let catalogue = Catalogue::with_heron();
    catalogue.write("covers/heron.jpg", half);
    catalogue.edit("studio.yaml", "paper: a4", "paper: a4\nphotos: covers");
    let by_folder = catalogue.refused();
    let wanted = "studio.yaml:5:9: error: the picture `covers/heron.jpg` is cut short\n";
    assert!(by_folder.contains(wanted), "{by_folder}");
}

#[test]
fn all_that_is_wrong_is_told_at_once() {
    let catalogue = with_logo("word.png", b"reeds");
    catalogue.write("pair.jpg", &jpeg()[..700]);
    catalogue.edit("heron.yaml", "edition: 1", "editon: 1\nphotos: {cover: {file: pair.jpg, shows: a pair}}");
    let told = catalogue.refused();
    for part in
        ["`editon` is not a key", "`pair.jpg` is cut short", "`word.png` is not a PNG, JPEG or SVG picture"]
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

/// A photograph of this many pixels, as a JPEG.
fn large(across: u16, down: u16) -> Vec<u8> {
    let pixel = |i: usize| [(i % usize::from(across) / 8) as u8, (i / usize::from(across) / 8) as u8, 90];
    let samples: Vec<u8> = (0..usize::from(across) * usize::from(down)).flat_map(pixel).collect();
    let mut bytes = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut bytes, 90);
    encoder.encode(&samples, across, down, jpeg_encoder::ColorType::Rgb).expect("a JPEG");
    bytes
}

/// A catalogue whose design has photographs everywhere.
fn with_photographs() -> Catalogue {
    let catalogue = Catalogue::with_heron();
    catalogue.write("photos/pair.jpg", large(2400, 1800));
    catalogue.write("photos/edge.jpg", jpeg());
    catalogue.write("photos/top.png", png());
    catalogue.edit(
        "heron.yaml",
        "edition: 1",
        "edition: 1
photos:
  cover: {file: photos/pair.jpg, shows: the pair}
  back: {file: photos/edge.jpg, shows: the back of one, caption: The back.}
  details:
    - {file: photos/pair.jpg, shows: the pair again, caption: The pair.}
    - {file: photos/top.png, shows: its top}
  steps:
    ladder: {file: photos/top.png, shows: two stacks, caption: Two stacks.}
    row 2:
      - {file: photos/edge.jpg, shows: its start}
      - {file: photos/top.png, shows: its end}",
    );
    catalogue
}

#[test]
fn photographs_stand_on_cover_and_back_on_their_own_page_and_in_steps() {
    let catalogue = with_photographs();
    catalogue.run(&["make", "heron.yaml"]).well();
    let pdf = catalogue.bytes("heron.pdf");
    let doc = Document::load_mem(&pdf).expect("a PDF");
    let shown = |page| {
        let content = lopdf::content::Content::decode(&doc.get_page_content(page)).expect("operators");
        let is_image = |o: &&lopdf::content::Operation| {
            o.operator == "Do" && o.operands[0].as_name().is_ok_and(|name| name.starts_with(b"P"))
        };
        content.operations.iter().filter(is_image).count()
    };
    let on_pages: Vec<usize> = doc.page_iter().map(shown).collect();
    assert_eq!((on_pages[0], on_pages[on_pages.len() - 1]), (1, 1), "{on_pages:?}");
    assert_eq!(on_pages[2], 2, "{on_pages:?}");
    assert_eq!(on_pages.iter().sum::<usize>(), 7, "{on_pages:?}");
    for words in ["the pair", "the back of one", "its top", "two stacks", "its start", "its end"] {
        let alt = doc.objects.values().filter_map(|o| o.as_dict().ok()).filter_map(|d| d.get(b"Alt").ok());
        let alt = alt.filter_map(|alt| lopdf::decode_text_string(alt).ok());
        assert!(alt.into_iter().any(|alt| alt == words), "{words}");
    }
}

/// The sides of the pictures in a booklet, and what they are made of.
fn sizes(pdf: &[u8]) -> Vec<(i64, i64, Vec<u8>)> {
    let number = |s: &Stream, key: &[u8]| s.dict.get(key).and_then(Object::as_i64).expect("a number");
    let colours = |s: &Stream| s.dict.get(b"ColorSpace").and_then(Object::as_name).expect("a name").to_vec();
    let mut sizes: Vec<_> =
        pictures(pdf).iter().map(|s| (number(s, b"Width"), number(s, b"Height"), colours(s))).collect();
    sizes.sort();
    sizes
}

#[test]
fn photographs_have_no_more_pixels_than_a_print_can_show() {
    let catalogue = with_photographs();
    catalogue.run(&["make", "heron.yaml"]).well();
    let found = sizes(&catalogue.bytes("heron.pdf"));
    // The small ones as they are, once each; the large one for the cover, 166 mm wide, and for its row.
    let rgb = b"DeviceRGB".to_vec();
    assert_eq!(found[..2], [(64, 48, rgb.clone()), (64, 48, rgb.clone())]);
    assert_eq!(found.len(), 4, "{found:?}");
    for (across, down, _) in &found[2..] {
        let most = 170.0 / 25.4 * 300.0 + 1.0;
        assert!(
            (900.0..=most).contains(&(*across as f64)) && (across * 3 - down * 4).abs() <= 4,
            "{found:?}"
        );
    }
    let pdf = catalogue.bytes("heron.pdf");
    let small = jpeg();
    let scan = small.windows(2).position(|w| w == [0xff, 0xda]).expect("a scan");
    assert!(
        pdf.windows(small.len() - scan).any(|w| w == &small[scan..]),
        "data of a small one are not passed through"
    );
}

#[test]
fn a_grey_edition_shows_them_without_colour() {
    let catalogue = with_photographs();
    catalogue.run(&["make", "heron.yaml", "--grey"]).well();
    let found = sizes(&catalogue.bytes("heron-grey.pdf"));
    assert_eq!(found.len(), 4);
    assert!(found.iter().all(|(_, _, colours)| colours == b"DeviceGray"), "{found:?}");
}

#[test]
fn what_a_photograph_lacks_is_told_at_its_place() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("top.png", png());
    catalogue.edit(
        "heron.yaml",
        "edition: 1",
        "edition: 1
photos:
  cover: {file: top.png}
  back: top.png
  details: [{file: top.png, shows: ''}, top.png]
  steps:
    ladder: {shows: two stacks}
    row 9: {file: top.png, shows: nothing}
  side: {file: top.png, shows: a side}",
    );
    let told = catalogue.refused();
    let shows =
        "what to do: say what it shows, for those who cannot see it, as in `shows: the pair on grey linen`\n";
    for wanted in [
        format!(
            "heron.yaml:5:3: error: `shows` is missing here\n  5 |   cover: {{file: top.png}}\n    |   ^^^^^\n  {shows}"
        ),
        "heron.yaml:6:9: error: `back` must be `{file: …, shows: …}`".to_owned(),
        "heron.yaml:7:36: error: `shows` is empty\n".to_owned(),
        "heron.yaml:7:41: error: it is not said what this photograph shows\n".to_owned(),
        "heron.yaml:9:5: error: `file` is missing here\n".to_owned(),
        "heron.yaml:11:3: error: `side` is not a key that can stand here\n".to_owned(),
    ] {
        assert!(told.contains(&wanted), "{wanted}{told}");
    }
}

#[test]
fn a_photograph_of_no_step_is_told() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("top.png", png());
    let photos = "edition: 1\nphotos: {steps: {row 9: {file: top.png, shows: a row}}}";
    catalogue.edit("heron.yaml", "edition: 1", photos);
    let told = catalogue.refused();
    assert!(told.contains("heron.yaml:4:18: error: no step is called `row 9`\n"), "{told}");
}

#[test]
fn a_caption_or_what_is_shown_that_changes_remakes_the_booklet() {
    let catalogue = with_photographs();
    catalogue.run(&["remake", "."]).ended(0);
    assert_eq!(catalogue.run(&["remake", "."]).rows("made"), []);
    for (from, to) in
        [("caption: Two stacks.", "caption: Both."), ("shows: its end", "shows: its last stack")]
    {
        catalogue.edit("heron.yaml", from, to);
        assert_eq!(catalogue.run(&["remake", "."]).rows("made").len(), 1, "{from}");
    }
    catalogue.write("photos/top.png", jpeg());
    assert_eq!(catalogue.run(&["remake", "."]).rows("made").len(), 1);
}
