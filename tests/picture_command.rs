//! `picture`, as stories with what is in the files.

use crate::catalogue::Catalogue;
use image::RgbImage;

fn pixels(catalogue: &Catalogue, file: &str) -> RgbImage {
    image::load_from_memory(&catalogue.bytes(file)).expect("a PNG file").to_rgb8()
}

/// How much of a picture has a colour, as a share.
fn share(picture: &RgbImage, colour: [u8; 3]) -> f64 {
    let is = picture.pixels().filter(|p| p.0 == colour).count();
    is as f64 / f64::from(picture.width() * picture.height())
}

#[test]
fn the_pair_is_as_large_as_asked_and_alike_to_the_byte() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&["picture", "heron.yaml"]);
    ran.ended(0);
    assert!(ran.out.starts_with("heron-pair.png  2000 pixels  "), "{}", ran.out);
    let picture = pixels(&catalogue, "heron-pair.png");
    assert_eq!(picture.dimensions(), (2000, 2000));
    // Paper all round, and something on it.
    let paper = *picture.get_pixel(0, 0);
    assert!([(1999, 0), (0, 1999), (1999, 1999)].iter().all(|&(x, y)| *picture.get_pixel(x, y) == paper));
    let bare = share(&picture, paper.0);
    assert!((0.3..0.97).contains(&bare), "{bare}");
    catalogue.run(&["picture", "heron.yaml", "--out", "again"]).ended(0);
    assert_eq!(catalogue.bytes("heron-pair.png"), catalogue.bytes("again/heron-pair.png"));
}

#[test]
fn the_second_earring_of_a_mirrored_pair_is_its_mirror_image() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "edition: 1", "edition: 1\npair: mirrored");
    // Nothing in it is the same from left to right but by being mirrored.
    catalogue.edit("heron.yaml", "..A B A", "..A B B");
    // Without a ground there is no shadow, which falls to the same side from both.
    catalogue.run(&["picture", "heron.yaml", "--pixels", "600", "--ground", "none"]).ended(0);
    let picture = catalogue.bytes("heron-pair-600-pixels-clear.png");
    let picture = image::load_from_memory(&picture).expect("a PNG file").to_rgba8();
    let mirrored = image::imageops::flip_horizontal(&picture);
    // Light falls from the left on both earrings, so their shading differs, but not what is bead and what is not.
    let differ = picture.pixels().zip(mirrored.pixels()).filter(|(a, b)| (a.0[3] < 128) != (b.0[3] < 128));
    assert!(differ.count() < 600 * 600 / 500);
}

#[test]
fn the_colours_are_those_of_the_palette() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["picture", "heron.yaml", "--shows", "colours", "--pixels", "600"]).ended(0);
    let card = pixels(&catalogue, "heron-colours-600-pixels.png");
    // Ink, mist and reed, as the palette writes them; slate is not used.
    for colour in [[0x1b, 0x1c, 0x20], [0xd9, 0xdf, 0xe0], [0x6f, 0x7f, 0x45]] {
        assert!(share(&card, colour) > 0.05, "{colour:?}");
    }
    assert!(share(&card, [0x4a, 0x5a, 0x6a]) < 0.001);
}

#[test]
fn a_detail_fills_its_ground() {
    let catalogue = Catalogue::with_heron();
    let asked = ["picture", "heron.yaml", "--shows", "detail", "--ground", "#ff00ff", "--pixels", "400"];
    catalogue.run(&asked).ended(0);
    let detail = pixels(&catalogue, "heron-detail-400-pixels-on-ff00ff.png");
    assert_eq!(detail.dimensions(), (400, 400));
    assert!(share(&detail, [0xff, 0x00, 0xff]) < 0.6);
}

#[test]
fn each_colourway_has_its_picture_in_its_own_colours() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "edition: 1", "edition: 1\ncolourways: {River: {C: slate}}");
    let asked = ["picture", "heron.yaml", "--shows", "colours", "--each-colourway", "--pixels", "300"];
    catalogue.run(&asked).ended(0);
    let shares = |file: &str, colour| {
        share(&pixels(&catalogue, &format!("heron{file}-colours-300-pixels.png")), colour)
    };
    assert!(shares("", [0x6f, 0x7f, 0x45]) > 0.05 && shares("", [0x4a, 0x5a, 0x6a]) < 0.001);
    assert!(shares("-river", [0x4a, 0x5a, 0x6a]) > 0.05 && shares("-river", [0x6f, 0x7f, 0x45]) < 0.001);
}

#[test]
fn a_page_is_as_it_prints() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["picture", "heron.yaml", "--page", "1", "--pixels", "420"]).ended(0);
    // A4 is 297 high where it is 210 wide.
    assert_eq!(pixels(&catalogue, "heron-page-1-420-pixels.png").dimensions(), (420, 594));
    let ran = catalogue.run(&["picture", "heron.yaml", "--page", "99"]);
    ran.ended(1);
    assert!(ran.err.contains("there is no page 99") && ran.err.contains("its booklet has the pages 1 to "));
    assert!(!catalogue.path("heron-page-99.png").exists());
}

#[test]
fn an_svg_says_what_it_is_and_is_whole() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["picture", "heron.yaml", "--svg"]).ended(0);
    let svg = String::from_utf8(catalogue.bytes("heron-pair.svg")).expect("text");
    assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>\n"));
    assert!(svg.contains("<title>") && svg.contains("<fringe:digest>"));
    // Every definition that is used is there.
    for name in svg.split("url(#").skip(1).filter_map(|rest| rest.split(')').next()) {
        assert!(svg.contains(&format!("id=\"{name}\"")), "{name}");
    }
}

#[test]
fn what_is_not_ours_is_left_as_it_is() {
    let catalogue = Catalogue::with_heron();
    catalogue.write("heron-pair.png", "a photograph of somebody's own");
    let ran = catalogue.run(&["picture", "heron.yaml"]);
    ran.ended(1);
    assert!(
        ran.err.contains("heron-pair.png is there already and was not made by fringebook"),
        "{}",
        ran.err
    );
    assert_eq!(catalogue.bytes("heron-pair.png"), b"a photograph of somebody's own");
    catalogue.run(&["picture", "heron.yaml", "--replace"]).ended(0);
    assert!(catalogue.bytes("heron-pair.png").starts_with(b"\x89PNG"));
}

#[test]
fn remake_keeps_pictures_up_to_date() {
    let catalogue = Catalogue::with_heron();
    let card = "heron-colours-300-pixels.png";
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    catalogue.run(&["picture", "heron.yaml", "--shows", "colours", "--pixels", "300"]).ended(0);
    let before = catalogue.bytes(card);
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert_eq!(catalogue.bytes(card), before, "{}", ran.out);
    catalogue.edit("palette.yaml", "#6f7f45", "#b0407a");
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert!(ran.out.contains(card), "{}", ran.out);
    let after = pixels(&catalogue, card);
    assert!(share(&after, [0xb0, 0x40, 0x7a]) > 0.05 && share(&after, [0x6f, 0x7f, 0x45]) < 0.001);
}

#[test]
fn what_cannot_be_asked_for_is_refused() {
    let catalogue = Catalogue::with_heron();
    for (asked, said) in [
        (&["--ground", "puce"][..], "say `light`, `dark`, `none`, or a colour as `#f4f1ea`"),
        (&["--pixels", "20"], "100..=8000"),
        (&["--margin", "90"], "0..=40"),
        (&["--page", "0"], "1.."),
        (&["--page", "2", "--shows", "detail"], "cannot be used with"),
        (&["--svg", "--pixels", "300"], "cannot be used with"),
        (&["--moves"], "--step <NUMBER>"),
        (&["--step", "3", "--page", "2"], "cannot be used with"),
        (&["--step", "3", "--moves", "--svg"], "cannot be used with"),
        (&["--step", "3", "--moves", "--seconds", "90"], "give seconds from 0.05 to 30"),
    ] {
        let ran = catalogue.run(&[&["picture", "heron.yaml"], asked].concat());
        ran.ended(2);
        assert!(ran.err.contains(said), "{asked:?}: {}", ran.err);
    }
}

#[test]
fn a_steps_moves_come_one_by_one_and_in_one_file_that_moves() {
    let catalogue = Catalogue::with_heron();
    let ran = catalogue.run(&[
        "picture",
        "heron.yaml",
        "--step",
        "4",
        "--moves",
        "--pixels",
        "200",
        "--seconds",
        "0.4",
    ]);
    ran.ended(0);
    let name = "heron-step-4-moves-200-pixels-400-ms-a-move.png";
    let file = catalogue.bytes(name);
    let mut reader = png::Decoder::new(std::io::Cursor::new(file)).read_info().expect("a PNG file");
    let frames = reader.info().animation_control.expect("that moves").num_frames;
    assert!(ran.out.starts_with(&format!("{name}  {frames} pictures  ")), "{}", ran.out);
    // What is there before, and at least three moves.
    assert!(frames >= 4, "{frames}");
    let mut before = Vec::new();
    for done in 0..frames {
        let mut samples = vec![0; reader.output_buffer_size().expect("a size")];
        reader.next_frame(&mut samples).expect("a frame");
        let control = *reader.info().frame_control.as_ref().expect("a frame");
        let each = if done + 1 == frames { 800 } else { 400 };
        assert_eq!((control.delay_num, control.delay_den), (each, 1000));
        let alone = catalogue.bytes(&format!("heron-step-4-move-{done:02}-200-pixels.png"));
        let alone = image::load_from_memory(&alone).expect("a PNG file").to_rgba8();
        assert_eq!(samples, alone.into_raw(), "{done}");
        // Nothing lies behind it, and something comes with each move.
        assert_eq!(samples[..4], [0, 0, 0, 0]);
        assert_ne!(samples, before);
        before = samples;
    }
    assert!(!catalogue.path(&format!("heron-step-4-move-{frames:02}-200-pixels.png")).exists());
    // On a ground, which the name says.
    catalogue
        .run(&["picture", "heron.yaml", "--step", "4", "--moves", "--pixels", "100", "--ground", "dark"])
        .ended(0);
    let dark = pixels(&catalogue, "heron-step-4-move-00-100-pixels-on-dark.png");
    assert_eq!(dark.get_pixel(0, 0).0, [0x26, 0x29, 0x2e]);
    // A changed bead: all of them are made anew.
    catalogue.edit("palette.yaml", "\"#1b1c20\"", "\"#5b1c20\"");
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert_ne!(catalogue.bytes(name).len(), 0);
    assert_eq!(
        ran.err.matches("heron-step-4").count() + ran.out.matches("heron-step-4").count(),
        2 * (frames as usize + 1)
    );
}

#[test]
fn remake_keeps_as_many_pictures_as_a_step_has_moves() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["picture", "heron.yaml", "--step", "6", "--moves", "--pixels", "100"]).ended(0);
    let named = |done: u32| format!("heron-step-6-move-{done:02}-100-pixels.png");
    let frames = || {
        let file = catalogue.bytes("heron-step-6-moves-100-pixels.png");
        let reader = png::Decoder::new(std::io::Cursor::new(file)).read_info().expect("a PNG file");
        reader.info().animation_control.expect("that moves").num_frames
    };
    let alone =
        || catalogue.names().iter().filter(|name| name.starts_with("heron-step-6-move-")).count() as u32;
    let few = frames();
    assert_eq!(alone(), few);
    // The booklet is new; of the pictures nothing has changed. What has been lost comes back.
    std::fs::remove_file(catalogue.path(&named(few - 1))).expect("there");
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert!(ran.out.contains(&format!(": 2 made, {few} current, 0 failed")), "{}", ran.out);
    assert_eq!(alone(), few);

    // Without its top row the sixth step is another one, with more moves.
    let row = "    ..A B A\n";
    catalogue.edit("heron.yaml", row, "");
    let dry = catalogue.run(&["remake", ".", "--dry-run"]);
    dry.ended(0);
    assert_eq!(alone(), few, "a dry run writes nothing");
    catalogue.run(&["remake", "."]).ended(0);
    let many = frames();
    assert!(many > few, "{many} and {few}");
    assert_eq!(alone(), many);
    assert!(dry.out.contains(&format!(": {} to make, 0 current, 0 failed", many + 2)), "{}", dry.out);

    // And back: what is beyond its moves goes, but not what has another name or is not the program's.
    std::fs::write(catalogue.path(&named(many)), "mine").expect("written");
    std::fs::copy(catalogue.path(&named(many - 1)), catalogue.path("kept.png")).expect("copied");
    catalogue.edit("heron.yaml", "    .A B B A\n", &format!("{row}    .A B B A\n"));
    let dry = catalogue.run(&["remake", ".", "--dry-run"]);
    dry.ended(0);
    assert_eq!(alone(), many + 1, "a dry run removes nothing");
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert_eq!(frames(), few);
    let gone = many - few;
    assert!(dry.out.contains(&format!(", {gone} to remove, 0 failed")), "{}", dry.out);
    assert!(ran.out.contains(&format!(", {gone} removed, 0 failed")), "{}", ran.out);
    assert!(ran.out.contains("its step has no such move any longer"), "{}", ran.out);
    assert_eq!(alone(), few + 1);
    assert!(catalogue.path(&named(many)).exists() && catalogue.path("kept.png").exists());
    let ran = catalogue.run(&["remake", "."]);
    ran.ended(0);
    assert!(ran.out.contains(&format!(": 0 made, {} current, 0 failed", few + 2)), "{}", ran.out);
}

#[test]
fn a_step_shows_its_diagrams_and_says_what_it_has_none_of() {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["picture", "heron.yaml", "--step", "4", "--pixels", "300"]).ended(0);
    let picture = pixels(&catalogue, "heron-step-4-300-pixels.png");
    assert!(share(&picture, picture.get_pixel(0, 0).0) < 0.95);
    let ran = catalogue.run(&["picture", "heron.yaml", "--step", "99"]);
    ran.ended(1);
    assert!(
        ran.err.contains("error: heron: there is no step 99\n  what to do: its booklet has the steps 1 to "),
        "{}",
        ran.err
    );
    let ran = catalogue.run(&["picture", "heron.yaml", "--step", "1", "--moves"]);
    ran.ended(1);
    assert!(
        ran.err
            .contains("error: heron: step 1 has no diagram\n  what to do: the steps with diagrams are 2, "),
        "{}",
        ran.err
    );
    assert_eq!(catalogue.names().len(), 4, "{:?}", catalogue.names());
}

#[test]
fn a_fan_shows_the_cover_in_front_of_other_pages() {
    let catalogue = Catalogue::with_heron();
    catalogue
        .run(&["picture", "heron.yaml", "--shows", "fan", "--pixels", "600", "--ground", "dark"])
        .ended(0);
    let fan = pixels(&catalogue, "heron-fan-600-pixels-on-dark.png");
    assert_eq!(fan.get_pixel(0, 0).0, [0x26, 0x29, 0x2e]);
    // Paper in the middle, and much of it beside the cover.
    let white = share(&fan, [255, 255, 255]);
    assert!((0.2..0.8).contains(&white), "{white}");
    catalogue.run(&["picture", "heron.yaml", "--shows", "fan", "--svg"]).ended(0);
    let svg = String::from_utf8(catalogue.bytes("heron-fan.svg")).expect("text");
    assert_eq!(svg.matches("<g transform=\"translate(0 ").count(), 5);
}
