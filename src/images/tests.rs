//! Files of every kind that cameras and programs write, whole and broken.

use super::fault::{Fault, LONGEST_SIDE};
use super::plain::{Colours, Packing, Plain};
use super::{ImageFile, Turn, Wanted};
use image::{DynamicImage, GenericImageView as _, Rgb, RgbImage};
use jpeg_encoder::{ColorType as Inks, Encoder, SamplingFactor};
use moxcms::{ColorProfile, ProfileText};
use png::{BitDepth, ColorType};
use proptest::prelude::*;
use std::sync::Arc;

const SIDES: (u16, u16) = (40, 24);

/// Samples that differ from place to place, with so many to a pixel.
fn samples(channels: usize) -> Vec<u8> {
    let (w, h) = (usize::from(SIDES.0), usize::from(SIDES.1));
    (0..w * h * channels)
        .map(|i| ((i / channels % w) * 5 + (i / channels / w) * 3 + i % channels * 40) as u8)
        .collect()
}

fn jpeg(colours: Inks, channels: usize, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 90);
    set(&mut encoder);
    encoder.encode(&samples(channels), SIDES.0, SIDES.1, colours).expect("a JPEG");
    bytes
}

fn photograph() -> Vec<u8> {
    jpeg(Inks::Rgb, 3, |_| {})
}

fn png(colour: ColorType, bits: BitDepth, set: impl FnOnce(&mut png::Encoder<'_, &mut Vec<u8>>)) -> Vec<u8> {
    let channels = colour.samples();
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, u32::from(SIDES.0), u32::from(SIDES.1));
    encoder.set_color(colour);
    encoder.set_depth(bits);
    set(&mut encoder);
    let mut writer = encoder.write_header().expect("a header");
    let data = match bits {
        BitDepth::Sixteen => samples(channels).iter().flat_map(|s| [*s, 7]).collect(),
        BitDepth::Eight if colour == ColorType::Indexed => samples(1).iter().map(|s| s % 4).collect(),
        BitDepth::Eight => samples(channels),
        _ => samples(1)[..usize::from(SIDES.0) * usize::from(SIDES.1) * bits as usize / 8].to_vec(),
    };
    writer.write_image_data(&data).expect("data");
    drop(writer);
    bytes
}

fn logo() -> Vec<u8> {
    png(ColorType::Rgb, BitDepth::Eight, |_| {})
}

/// Four colours, the second half clear.
fn of_palette() -> Vec<u8> {
    png(ColorType::Indexed, BitDepth::Eight, |e| {
        e.set_palette(vec![0, 0, 0, 200, 0, 0, 0, 200, 0, 0, 0, 200]);
        e.set_trns(vec![255, 128]);
    })
}

/// A whole image as a booklet holds it in its own size.
fn held(file: &ImageFile) -> Arc<Plain> {
    file.plain(Wanted::default()).expect("whole")
}

fn read(bytes: Vec<u8>) -> Result<ImageFile, Fault> {
    let file = ImageFile::new(bytes)?;
    file.plain(Wanted::default()).map(|_| ())?;
    Ok(file)
}

fn data(plain: &Plain) -> Vec<u8> {
    plain.data().flatten().copied().collect()
}

/// What a viewer sees of packed rows: they are put back into a PNG with a header of their own.
fn seen(plain: &Plain) -> RgbImage {
    if plain.packing == Packing::Jpeg {
        return image::load_from_memory(&data(plain)).expect("a JPEG").to_rgb8();
    }
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, plain.size.0, plain.size.1);
    encoder.set_depth(BitDepth::from_u8(plain.bits).expect("a depth"));
    match &plain.colours {
        Colours::Grey => encoder.set_color(ColorType::Grayscale),
        Colours::Rgb => encoder.set_color(ColorType::Rgb),
        Colours::Palette(palette) => {
            encoder.set_color(ColorType::Indexed);
            encoder.set_palette(palette.clone());
        }
    }
    let mut writer = encoder.write_header().expect("a header");
    writer.write_chunk(png::chunk::IDAT, &data(plain)).expect("data");
    drop(writer);
    image::load_from_memory(&bytes).expect("a PNG").to_rgb8()
}

fn holds(bytes: &[u8], text: &[u8]) -> bool {
    bytes.windows(text.len()).any(|w| w == text)
}

/// A block of Exif data with an orientation and a camera's name.
fn exif(orientation: u8) -> Vec<u8> {
    let mut block = b"II*\0\x08\0\0\0\x02\0".to_vec();
    block.extend(b"\x0f\x01\x02\0\x04\0\0\0Cam\0");
    block.extend([0x12, 1, 3, 0, 1, 0, 0, 0, orientation, 0, 0, 0]);
    block.extend([0; 4]);
    block
}

#[test]
fn plain_png_files_pass_through_to_the_byte() {
    let grey = |bits| png(ColorType::Grayscale, bits, |_| {});
    for (bytes, colours, bits) in [
        (logo(), Colours::Rgb, 8),
        (grey(BitDepth::Eight), Colours::Grey, 8),
        (grey(BitDepth::One), Colours::Grey, 1),
    ] {
        let file = read(bytes.clone()).expect("an image");
        let plain = held(&file);
        assert_eq!((&plain.colours, plain.bits, plain.packing), (&colours, bits, Packing::PngRows));
        assert!(holds(&bytes, &data(&plain)) && plain.length() == data(&plain).len());
        assert_eq!(seen(&plain), image::load_from_memory(&bytes).expect("a PNG").to_rgb8());
    }
}

#[test]
fn a_palette_with_clear_colours_passes_through_and_lies_on_white() {
    let bytes = of_palette();
    let file = read(bytes.clone()).expect("an image");
    let plain = held(&file);
    assert!(holds(&bytes, &data(&plain)));
    assert_eq!(
        plain.colours,
        Colours::Palette(vec![0, 0, 0, 227, 127, 127, 0, 200, 0, 0, 0, 200]),
        "the second colour is half clear"
    );
}

#[test]
fn png_files_of_other_kinds_are_packed_anew_and_look_the_same() {
    for colour in [ColorType::Rgba, ColorType::GrayscaleAlpha, ColorType::Rgb, ColorType::Grayscale] {
        for bits in [BitDepth::Eight, BitDepth::Sixteen] {
            let bytes = png(colour, bits, |_| {});
            let file = read(bytes.clone()).expect("an image");
            let shown = seen(&held(&file));
            let wanted = image::load_from_memory(&bytes).expect("a PNG").to_rgba8();
            for (x, y, Rgb(found)) in shown.enumerate_pixels() {
                let [r, g, b, alpha] = wanted.get_pixel(x, y).0;
                for (found, wanted) in found.iter().zip([r, g, b]) {
                    let a = f64::from(alpha) / 255.0;
                    let on_white = f64::from(wanted) * a + 255.0 * (1.0 - a);
                    // Two ways to round 16 bits to 8 differ by one step.
                    let most = if bits == BitDepth::Sixteen { 2.0 } else { 1.0 };
                    assert!((f64::from(*found) - on_white).abs() <= most, "{colour:?} {bits:?} at {x}, {y}");
                }
            }
        }
    }
}

#[test]
fn one_clear_colour_becomes_white() {
    let bytes = png(ColorType::Rgb, BitDepth::Eight, |e| e.set_trns(vec![0, 0, 0, 40, 0, 80]));
    let file = read(bytes).expect("an image");
    let shown = seen(&held(&file));
    assert_eq!(shown.get_pixel(0, 0).0, [255, 255, 255], "its samples are 0, 40 and 80");
    assert_eq!(shown.get_pixel(1, 0).0, [5, 45, 85]);
}

/// Four pixels by one of a PNG saved in passes: no writer at hand makes such files.
#[test]
fn an_interlaced_png_is_packed_anew() {
    // Pass 1 has column 0, pass 4 column 2, pass 6 columns 1 and 3; each row begins with its filter, 0.
    let header = vec![0, 0, 0, 4, 0, 0, 0, 1, 8, 0, 0, 0, 1];
    let data = stored(&[0, 10, 0, 30, 0, 20, 40]);
    let bytes = chunked([(b"IHDR", header), (b"IDAT", data), (b"IEND", vec![])]);
    let file = read(bytes).expect("an image");
    let shown = seen(&held(&file));
    assert_eq!(shown.pixels().map(|p| p.0[0]).collect::<Vec<_>>(), [10, 20, 30, 40]);
}

/// Two pixels of a palette, which comes where it must and where mutated files had it.
#[test]
fn a_palette_after_the_data_is_damage() {
    let header = || (b"IHDR", vec![0, 0, 0, 2, 0, 0, 0, 1, 8, 3, 0, 0, 0]);
    let palette = || (b"PLTE", vec![0, 0, 0, 255, 255, 255]);
    let data = || (b"IDAT", stored(&[0, 1, 0]));
    let end = || (b"IEND", vec![]);
    let file = read(chunked([header(), palette(), data(), end()])).expect("an image");
    assert_eq!(seen(&held(&file)).pixels().map(|p| p.0[0]).collect::<Vec<_>>(), [255, 0]);
    assert_eq!(read(chunked([header(), data(), palette(), end()])).unwrap_err(), Fault::Damaged);
    let clear = (b"tRNS", vec![128]);
    assert_eq!(read(chunked([header(), palette(), data(), clear, end()])).unwrap_err(), Fault::Damaged);
}

/// Rows of a PNG, each with its filter, as data that are not packed (RFC 1950 and 1951).
fn stored(rows: &[u8]) -> Vec<u8> {
    let mut stored = vec![0x78, 1, 1, rows.len() as u8, 0, !(rows.len() as u8), 0xff];
    stored.extend(rows);
    let (a, b) = rows
        .iter()
        .fold((1u32, 0u32), |(a, b), r| ((a + u32::from(*r)) % 65521, (a + b + u32::from(*r)) % 65521));
    stored.extend((b << 16 | a).to_be_bytes());
    stored
}

/// A PNG of these chunks.
fn chunked<const N: usize>(chunks: [(&[u8; 4], Vec<u8>); N]) -> Vec<u8> {
    let mut bytes = super::png::SIGNATURE.to_vec();
    for (name, content) in chunks {
        let named = [&name[..], &content].concat();
        bytes.extend((content.len() as u32).to_be_bytes());
        bytes.extend(&named);
        bytes.extend(sum(&named).to_be_bytes());
    }
    bytes
}

/// The check sum of a chunk (PNG specification, annex D).
fn sum(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |s, _| if s & 1 == 1 { 0xedb8_8320 ^ s >> 1 } else { s >> 1 })
    })
}

#[test]
fn of_an_animated_png_the_first_image_is_shown() {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, 2, 1);
    encoder.set_color(ColorType::Grayscale);
    encoder.set_animated(2, 0).expect("animated");
    let mut writer = encoder.write_header().expect("a header");
    writer.write_image_data(&[10, 20]).expect("an image");
    writer.write_image_data(&[30, 40]).expect("an image");
    drop(writer);
    let file = read(bytes).expect("an image");
    let shown = seen(&held(&file));
    assert_eq!(shown.pixels().map(|p| p.0[0]).collect::<Vec<_>>(), [10, 20]);
}

#[test]
fn jpeg_files_pass_through_without_what_a_camera_tells() {
    let secret = b"where it was taken";
    let told = jpeg(Inks::Rgb, 3, |e| {
        for (segment, head) in
            [(1, &b"Exif\0\0"[..]), (1, b"http://ns.adobe.com/xap/1.0/\0"), (13, b"Photoshop 3.0\0")]
        {
            e.add_app_segment(segment, [head, &exif(1), secret].concat()).expect("a segment");
        }
    });
    // A comment between the headers, and a second image after the end, as telephones save them.
    let at = 2;
    let comment = [&[0xff, 0xfe, 0, 2 + secret.len() as u8][..], secret].concat();
    let told = [&told[..at], &comment, &told[at..], &photograph(), secret].concat();
    let file = read(told.clone()).expect("an image");
    let plain = held(&file);
    assert_eq!((&plain.colours, plain.packing), (&Colours::Rgb, Packing::Jpeg));
    assert!(holds(&told, secret) && !holds(&data(&plain), secret) && !holds(&data(&plain), b"Cam"));
    assert_eq!(data(&plain), photograph(), "nothing else is lost or changed");
}

#[test]
fn a_thumbnail_is_left_out() {
    let whole = photograph();
    assert_eq!(&whole[2..4], [0xff, 0xe0]);
    let mut told = whole[..18].to_vec();
    told.extend([1, 1, 9, 9, 9]);
    (told[5], told[18], told[19]) = (16 + 3, 1, 1);
    // The two bytes of the thumbnail's sides stood at 18; three of its one pixel follow.
    let told = [&whole[..2], &[0xff, 0xe0, 0, 19], &whole[6..18], &[1, 1, 9, 9, 9], &whole[20..]].concat();
    let file = read(told).expect("an image");
    assert_eq!(data(&held(&file)), whole);
}

#[test]
fn jpeg_files_of_all_usual_kinds_are_taken() {
    for (name, bytes) in [
        ("grey", jpeg(Inks::Luma, 1, |_| {})),
        ("progressive", jpeg(Inks::Rgb, 3, |e| e.set_progressive(true))),
        (
            "with fewer colours",
            jpeg(Inks::Rgb, 3, |e| e.set_sampling_factor(jpeg_encoder::SamplingFactor::F_2_2)),
        ),
        ("with restarts", jpeg(Inks::Rgb, 3, |e| e.set_restart_interval(4))),
    ] {
        let file = read(bytes.clone()).unwrap_or_else(|e| panic!("{name}: {e:?}"));
        let plain = held(&file);
        assert_eq!(data(&plain), bytes, "{name}");
    }
}

/// A pure cyan, a pure yellow, black and bare paper, each a stripe 16 pixels high.
fn of_inks(kind: Inks, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let stripes = [[255, 0, 0, 0], [0, 0, 255, 0], [0, 0, 0, 255], [0; 4]];
    let inks: Vec<u8> = stripes.iter().flat_map(|ink| ink.repeat(64 * 16)).collect();
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 100);
    set(&mut encoder);
    encoder.encode(&inks, 64, 64, kind).expect("a JPEG");
    bytes
}

/// A profile of a press on which cyan is L* 55, a* -37, b* -50, and yellow 89, -5, 93 (the colours of
/// ISO 12647-2 for coated paper), in the oldest kind of table (ICC.1:2022, 10.11).
fn of_a_press() -> Vec<u8> {
    let steps: Vec<u8> = (0..=255).collect();
    let mut table = b"mft1\0\0\0\0\x04\x03\x02\0".to_vec();
    for one in [1u32, 0, 0, 0, 1, 0, 0, 0, 1] {
        table.extend((one << 16).to_be_bytes());
    }
    table.extend(steps.repeat(4));
    // Cyan counts slowest, black fastest; L* 100 is 255, a* and b* are counted from -128.
    for inks in 0..16 {
        table.extend(match inks {
            0b0000 => [255, 128, 128],
            0b1000 => [140, 91, 78],
            0b0010 => [227, 123, 221],
            0b0001 => [0, 128, 128],
            _ => [80, 128, 128],
        });
    }
    table.extend(steps.repeat(3));
    let mut profile = vec![0; 128];
    profile[8..24].copy_from_slice(b"\x02\x40\0\0prtrCMYKLab ");
    profile[36..40].copy_from_slice(b"acsp");
    for (at, value) in [(68, 0xf6d6u32), (72, 0x1_0000), (76, 0xd32d)] {
        profile[at..at + 4].copy_from_slice(&value.to_be_bytes());
    }
    profile.extend(1u32.to_be_bytes());
    profile.extend(b"A2B0");
    profile.extend(144u32.to_be_bytes());
    profile.extend((table.len() as u32).to_be_bytes());
    profile.extend(table);
    let length = profile.len() as u32;
    profile[..4].copy_from_slice(&length.to_be_bytes());
    profile
}

#[test]
fn inks_with_a_profile_become_what_a_press_prints() {
    let profile = of_a_press();
    for kind in [Inks::Cmyk, Inks::CmykAsYcck] {
        let bytes = of_inks(kind, |e| e.add_icc_profile(&profile).expect("a segment"));
        let file = read(bytes).expect("an image");
        let shown = seen(&held(&file));
        // Both colours of those values in sRGB; the cyan is out of its reach and loses all red.
        for (y, wanted) in [(8, [0, 147, 219]), (24, [255, 228, 0]), (40, [0; 3]), (56, [255; 3])] {
            let found = shown.get_pixel(30, y).0;
            let near = found.iter().zip(wanted).all(|(f, w)| f.abs_diff(w) < 16);
            assert!(near, "{kind:?}: {found:?} for {wanted:?}");
        }
    }
}

#[test]
fn inks_without_a_profile_become_red_green_and_blue() {
    for kind in [Inks::Cmyk, Inks::CmykAsYcck] {
        let bytes = of_inks(kind, |_| {});
        let file = read(bytes).expect("an image");
        let plain = held(&file);
        let shown = seen(&plain);
        for (y, wanted) in [(8, [0, 255, 255]), (24, [255, 255, 0]), (40, [0; 3]), (56, [255; 3])] {
            let found = shown.get_pixel(30, y).0;
            let near = found.iter().zip(wanted).all(|(f, w)| f.abs_diff(w) < 12);
            assert!(near, "{kind:?}: {found:?} for {wanted:?}");
        }
    }
}

#[test]
fn a_profile_near_srgb_changes_nothing_and_another_changes_the_samples() {
    let profile = |mut of: ColorProfile| {
        of.description = Some(ProfileText::PlainString("made for this test".into()));
        of.encode().expect("a profile")
    };
    let with = |profile: Vec<u8>| {
        let file =
            read(jpeg(Inks::Rgb, 3, |e| e.add_icc_profile(&profile).expect("a segment"))).expect("an image");
        let plain = held(&file);
        assert!(!holds(&data(&plain), b"ICC_PROFILE"));
        (data(&plain), seen(&plain))
    };
    let (same, as_saved) = with(profile(ColorProfile::new_srgb()));
    assert_eq!(same, photograph());
    let (_, changed) = with(profile(ColorProfile::new_display_p3()));
    // Red of 200, 40, 40 in that space is stronger in sRGB (W3C CSS Color 4, conversion by matrices).
    let farthest = changed.pixels().zip(as_saved.pixels()).map(|(a, b)| a.0[0].abs_diff(b.0[0])).max();
    assert!(farthest > Some(8), "{farthest:?}");
}

#[test]
fn a_known_colour_of_a_wider_space_is_found_again_in_srgb() {
    // `color(display-p3 0 0.8 0)` clips to no red, and about 0.83 green (CSS Color 4's matrices: linear
    // 0.604 becomes -0.136, 0.629, -0.047).
    let profile = ColorProfile::new_display_p3().encode().expect("a profile");
    let mut info = png::Info::with_size(2, 1);
    info.color_type = ColorType::Rgb;
    info.icc_profile = Some(profile.into());
    let mut bytes = Vec::new();
    let mut writer =
        png::Encoder::with_info(&mut bytes, info).expect("an encoder").write_header().expect("a header");
    writer.write_image_data(&[0, 204, 0, 255, 255, 255]).expect("data");
    drop(writer);
    let file = read(bytes).expect("an image");
    let shown = seen(&held(&file));
    let [r, g, b] = shown.get_pixel(0, 0).0;
    assert!(r <= 1 && g.abs_diff(207) <= 2 && b <= 1, "{r} {g} {b}");
    assert_eq!(shown.get_pixel(1, 0).0, [255; 3]);
}

#[test]
fn a_camera_held_in_any_of_eight_ways_gives_an_upright_image() {
    for orientation in 1..=8u8 {
        let bytes = jpeg(Inks::Rgb, 3, |e| {
            e.add_app_segment(1, [b"Exif\0\0", &exif(orientation)[..]].concat()).expect("a segment");
        });
        let file = read(bytes).expect("an image");
        let saved = DynamicImage::ImageRgb8(seen(&held(&file)));
        let mut upright = saved.clone();
        upright.apply_orientation(image::metadata::Orientation::from_exif(orientation).expect("a way"));
        assert_eq!(file.pixels(), upright.dimensions(), "{orientation}");
        let [a, b, c, d, e, f] = file.turn().matrix();
        for (x, y, pixel) in saved.pixels() {
            // The middle of each pixel, counted from the foot as in a PDF.
            let u = (f64::from(x) + 0.5) / f64::from(saved.width());
            let v = 1.0 - (f64::from(y) + 0.5) / f64::from(saved.height());
            let (across, up) = (a * u + c * v + e, b * u + d * v + f);
            let to = |share: f64, side: u32| (share * f64::from(side)).floor() as u32;
            let (x, y) = (to(across, upright.width()), to(1.0 - up, upright.height()));
            assert_eq!(upright.get_pixel(x, y), pixel, "{orientation}");
        }
    }
    assert_eq!(read(photograph()).expect("an image").turn(), Turn::UPRIGHT);
}

#[test]
fn a_file_cut_short_anywhere_is_told_so() {
    for whole in [photograph(), jpeg(Inks::Rgb, 3, |e| e.set_progressive(true)), logo(), of_palette()] {
        for end in 8..whole.len() {
            let found = read(whole[..end].to_vec()).expect_err("cut short");
            assert_eq!(found, Fault::CutShort, "after {end} of {} bytes", whole.len());
        }
    }
}

#[test]
fn a_jpeg_whose_data_a_spoiled_byte_cuts_off_is_damaged() {
    for whole in [photograph(), jpeg(Inks::Rgb, 3, |e| e.set_progressive(true))] {
        let scan = whole.windows(2).position(|w| w == [0xff, 0xda]).expect("a scan");
        let at = scan + (whole.len() - scan) / 2;
        for marker in [0, 1, 0x30, 0xd8, 0xfe] {
            let mut bad = whole.clone();
            bad.splice(at..at + 2, [0x12, 0xff, marker, 0x34]);
            let found = read(bad);
            // The first is data like any other; whether it makes sense is for the decoder to say.
            assert!(
                marker == 0 || matches!(found, Err(Fault::Damaged | Fault::CutShort)),
                "{marker}: {found:?}"
            );
        }
    }
}

#[test]
fn a_jpeg_with_data_that_mean_nothing_is_damaged() {
    // No code has sixteen ones (ITU-T T.81, annex C).
    let ones = [0xff, 0].repeat(6);
    for whole in [photograph(), jpeg(Inks::Rgb, 3, |e| e.set_progressive(true))] {
        let scan = whole.windows(2).position(|w| w == [0xff, 0xda]).expect("a scan");
        let mut bad = whole.clone();
        bad.splice(scan + 30..scan + 30 + ones.len(), ones.clone());
        assert_eq!(read(bad), Err(Fault::Damaged));
    }
}

#[test]
fn a_jpeg_that_names_a_table_it_does_not_have_is_damaged() {
    let whole = photograph();
    let table = whole.windows(2).position(|w| w == [0xff, 0xc4]).expect("a table");
    let length = usize::from(u16::from_be_bytes([whole[table + 2], whole[table + 3]]));
    let without = [&whole[..table], &whole[table + 2 + length..]].concat();
    assert_eq!(read(without), Err(Fault::Damaged));
}

#[test]
fn a_png_whose_data_do_not_agree_with_their_check_sums_is_damaged() {
    let whole = logo();
    let data = whole.windows(4).position(|w| w == b"IDAT").expect("data") + 4;
    for at in [data + 20, whole.len() - 20] {
        let mut bad = whole.clone();
        bad[at] ^= 0x55;
        assert_eq!(read(bad), Err(Fault::Damaged), "byte {at}");
    }
    // The sum at the end of the packed data, with the chunk's own put right.
    let mut bad = whole.clone();
    bad[whole.len() - 17] ^= 0x55;
    mend(&mut bad);
    assert_eq!(read(bad), Err(Fault::Damaged));
}

#[test]
fn other_files_are_no_images() {
    for bytes in [&b""[..], b"reeds", b"GIF89a....", b"\xff\xd8", b"RIFF....WEBPVP8 "] {
        assert_eq!(read(bytes.to_vec()), Err(Fault::NotAnImage));
    }
}

#[test]
fn too_many_pixels_are_refused_before_anything_is_decoded() {
    let sized = |across: u32, down: u32| {
        let mut bytes = logo();
        bytes[16..20].copy_from_slice(&across.to_be_bytes());
        bytes[20..24].copy_from_slice(&down.to_be_bytes());
        // Not `read`: the file's data are not what its header says.
        ImageFile::new(bytes).map(|file| file.pixels())
    };
    assert_eq!(sized(20_000, 20_000), Err(Fault::TooManyPixels(20_000, 20_000)));
    assert_eq!(sized(LONGEST_SIDE + 1, 1), Err(Fault::TooManyPixels(LONGEST_SIDE + 1, 1)));
    assert_eq!(sized(10_000, 6_000), Ok((10_000, 6_000)));
    assert_eq!(sized(0, 1), Err(Fault::Damaged));
}

#[test]
fn rare_jpeg_files_are_named_as_such() {
    let whole = photograph();
    let frame = whole.windows(2).position(|w| w == [0xff, 0xc0]).expect("a frame");
    for (at, byte) in [(frame + 1, 0xc9), (frame + 4, 12), (frame + 9, 2)] {
        let mut rare = whole.clone();
        rare[at] = byte;
        assert_eq!(read(rare), Err(Fault::RareJpeg), "{byte}");
    }
}

/// The header of the frame of a JPEG, behind its length: bits, sides, then three bytes a channel from 8 on.
fn frame_of(bytes: &[u8]) -> usize {
    bytes.windows(2).position(|w| w == [0xff, 0xc0]).expect("a frame") + 2
}

/// A denser channel behind the first one made the decoder write beyond what it had set aside.
#[test]
fn a_jpeg_with_a_channel_denser_than_the_first_is_rare() {
    for (channel, density) in [(1, 0x21), (2, 0x12), (2, 0x22)] {
        let mut rare = photograph();
        let at = frame_of(&rare) + 8 + 3 * channel + 1;
        rare[at] = density;
        assert_eq!(read(rare), Err(Fault::RareJpeg), "{channel}: {density:x}");
    }
    let mut rare = jpeg(Inks::Cmyk, 4, |e| e.set_restart_interval(3));
    let at = frame_of(&rare) + 8 + 3 * 3 + 1;
    rare[at] = 0x22;
    assert_eq!(read(rare), Err(Fault::RareJpeg));
    let mut none = photograph();
    let at = frame_of(&none) + 8 + 1;
    none[at] = 0x01;
    assert_eq!(read(none), Err(Fault::Damaged));
}

/// A file's bytes with Adobe's marker in front, which says that the colours are transformed so.
fn of_adobe(bytes: &[u8], transform: u8) -> Vec<u8> {
    let marker = [&[0xff, 0xee, 0, 14][..], b"Adobe\0\x64\0\0\0\0", &[transform]].concat();
    [&bytes[..2], &marker, &bytes[2..]].concat()
}

/// With it the decoder took a grey image for one of four inks, and looked for the other three.
#[test]
fn what_adobe_says_of_colours_means_nothing_in_a_grey_image() {
    for whole in [jpeg(Inks::Luma, 1, |_| {}), jpeg(Inks::Luma, 1, |e| e.set_progressive(true))] {
        for transform in 0..4 {
            let file = read(of_adobe(&whole, transform)).expect("an image");
            assert_eq!(data(&held(&file)), whole);
        }
    }
}

#[test]
fn what_adobe_says_of_colours_must_go_with_them() {
    let rgb = photograph();
    let inks = jpeg(Inks::Cmyk, 4, |_| {});
    let adobe = inks.windows(5).position(|w| w == b"Adobe").expect("Adobe's marker");
    for transform in 0..4 {
        let mut inks = inks.clone();
        inks[adobe + 11] = transform;
        assert_eq!(read(of_adobe(&rgb, transform)).err(), (transform > 1).then_some(Fault::RareJpeg));
        assert_eq!(read(inks).err(), (transform % 2 == 1).then_some(Fault::RareJpeg));
    }
}

#[test]
fn a_jpeg_whose_scans_do_not_make_up_an_image_is_damaged() {
    let whole = photograph();
    let scan = whole.windows(2).position(|w| w == [0xff, 0xda]).expect("a scan");
    assert_eq!(whole[scan + 2..scan + 5], [0, 12, 3]);
    // One channel is never scanned, is not in the frame, is scanned twice.
    let without = [&whole[..scan + 2], &[0, 10, 2], &whole[scan + 5..scan + 9], &whole[scan + 11..]].concat();
    let mut strange = whole.clone();
    strange[scan + 5] = 77;
    let end = whole.len() - 2;
    let twice = [&whole[..end], &whole[scan..]].concat();
    // Its header is longer than it says, or says nothing of the channels.
    let mut long = whole.clone();
    long[scan + 4] = 2;
    let mut empty = whole.clone();
    empty[scan + 4] = 0;
    for (name, bad) in
        [("without", without), ("strange", strange), ("twice", twice), ("long", long), ("empty", empty)]
    {
        assert_eq!(read(bad), Err(Fault::Damaged), "{name}");
    }
    // Two channels of one name.
    let mut same = whole;
    let at = frame_of(&same) + 8;
    same[at + 3] = same[at];
    assert_eq!(read(same), Err(Fault::Damaged));
}

fn any_image() -> impl Strategy<Value = Vec<u8>> {
    let profile = ColorProfile::new_display_p3().encode().expect("a profile");
    prop::sample::select(vec![
        photograph(),
        jpeg(Inks::Rgb, 3, |e| e.set_progressive(true)),
        jpeg(Inks::Cmyk, 4, |e| e.set_restart_interval(3)),
        of_inks(Inks::CmykAsYcck, |e| e.add_icc_profile(&of_a_press()).expect("a segment")),
        jpeg(Inks::Luma, 1, |e| e.add_icc_profile(&profile).expect("a segment")),
        jpeg(Inks::Rgb, 3, |e| {
            e.add_icc_profile(&profile).expect("a segment");
            e.add_app_segment(1, [b"Exif\0\0", &exif(6)[..]].concat()).expect("a segment");
        }),
        logo(),
        of_palette(),
        png(ColorType::Rgba, BitDepth::Sixteen, |_| {}),
    ])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(512), failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever has happened to a file, it is shown or told of. The check sums of a PNG are put right again
    /// in half of the cases, or nothing behind them would ever be reached.
    #[test]
    fn a_mutated_file_never_panics(
        mut bytes in any_image(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..4u8), 1..8),
        mended in any::<bool>(),
    ) {
        for (at, byte, what) in changes {
            let at = at.index(bytes.len());
            match what {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, byte),
                2 => { bytes.remove(at); }
                _ => bytes[at] ^= 1 << (byte % 8),
            }
        }
        if mended {
            mend(&mut bytes);
        }
        if let Ok(file) = read(bytes) {
            let plain = held(&file);
            let pixels = plain.size.0 as usize * plain.size.1 as usize;
            prop_assert!(pixels > 0 && plain.length() > 0);
        }
    }
}

/// Puts the check sums of a PNG's chunks right.
fn mend(bytes: &mut [u8]) {
    let mut at = super::png::SIGNATURE.len();
    while let Some(length) = bytes.get(at..at + 4) {
        let length = u32::from_be_bytes([length[0], length[1], length[2], length[3]]) as usize;
        let end = at + 8 + length;
        if end + 4 > bytes.len() {
            return;
        }
        let found = sum(&bytes[at + 4..end]);
        bytes[end..end + 4].copy_from_slice(&found.to_be_bytes());
        at = end + 4;
    }
}

/// Cameras and programs save all channels in one scan. One that has a scan for each was decoded with colours that lie
/// aside from its lightness.
#[test]
fn a_jpeg_with_a_scan_for_each_channel_is_rare() {
    for (sampling, several) in
        [(SamplingFactor::F_1_1, false), (SamplingFactor::F_2_2, false), (SamplingFactor::F_2_2, true)]
    {
        let bytes = jpeg(Inks::Rgb, 3, |e| {
            e.set_sampling_factor(sampling);
            e.set_optimized_huffman_tables(several);
        });
        assert_eq!(read(bytes).err(), several.then_some(Fault::RareJpeg), "{sampling:?}");
    }
}

/// Sides of a picture with more than a print can show, in even greys and colours.
const LARGE: (u16, u16) = (1200, 800);

/// A picture whose left half is of one colour and whose right half of another.
fn halves() -> Vec<u8> {
    let row = (0..LARGE.0).flat_map(|x| if x < LARGE.0 / 2 { [200, 40, 40] } else { [20, 60, 180] });
    row.collect::<Vec<u8>>().repeat(usize::from(LARGE.1))
}

fn large_jpeg(set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 92);
    set(&mut encoder);
    encoder.encode(&halves(), LARGE.0, LARGE.1, Inks::Rgb).expect("a JPEG");
    bytes
}

#[track_caller]
fn near(found: Rgb<u8>, wanted: [u8; 3], within: u8) {
    assert!(found.0.iter().zip(wanted).all(|(f, w)| f.abs_diff(w) <= within), "{found:?} for {wanted:?}");
}

#[test]
fn what_has_more_pixels_than_a_print_can_show_is_made_smaller_and_looks_the_same() {
    let mut png = Vec::new();
    image::RgbImage::from_raw(LARGE.0.into(), LARGE.1.into(), halves())
        .expect("an image")
        .write_to(&mut std::io::Cursor::new(&mut png), image::ImageFormat::Png)
        .expect("a PNG");
    for (bytes, packing) in [
        (large_jpeg(|_| {}), Packing::Jpeg),
        (large_jpeg(|e| e.set_progressive(true)), Packing::Jpeg),
        // Of few colours: its edges stay clean.
        (png, Packing::PngRows),
    ] {
        let file = read(bytes).expect("an image");
        let small = file.plain(Wanted { most: Some((300, 900)), grey: false }).expect("whole");
        assert_eq!((small.size, small.packing), ((300, 200), packing));
        let shown = seen(&small);
        near(*shown.get_pixel(40, 100), [200, 40, 40], 4);
        near(*shown.get_pixel(260, 20), [20, 60, 180], 4);
        let same = file.plain(Wanted { most: Some((300, 900)), grey: false }).expect("whole");
        assert!(Arc::ptr_eq(&small, &same), "it is made twice");
        // As many as it has, or more, change nothing.
        let whole = file.plain(Wanted { most: Some((1200, 800)), grey: false }).expect("whole");
        assert_eq!(data(&whole), data(&held(&file)));
    }
}

#[test]
fn a_photograph_on_its_side_is_made_smaller_as_it_is_seen() {
    let turned = large_jpeg(|e| {
        e.add_app_segment(1, [b"Exif\0\0", &exif(6)[..]].concat()).expect("a segment");
    });
    let file = read(turned).expect("an image");
    assert_eq!(file.pixels(), (800, 1200));
    let small = file.plain(Wanted { most: Some((200, 300)), grey: false }).expect("whole");
    assert_eq!(small.size, (300, 200));
}

#[test]
fn without_colour_every_picture_is_grey() {
    for bytes in [large_jpeg(|_| {}), large_jpeg(|e| e.add_icc_profile(&wide()).expect("a segment"))] {
        let coloured = seen(&held(&read(bytes.clone()).expect("an image")));
        for most in [None, Some((300, 300))] {
            let file = read(bytes.clone()).expect("an image");
            let plain = file.plain(Wanted { most, grey: true }).expect("whole");
            assert_eq!(plain.colours, Colours::Grey);
            let shown = seen(&plain);
            let (across, down) = shown.dimensions();
            for quarter in [1, 3] {
                // Lightness as a JPEG saves it (ITU-T T.871, 7).
                let [r, g, b] = coloured.get_pixel(300 * quarter, 400).0.map(f64::from);
                let grey = (0.299 * r + 0.587 * g + 0.114 * b).round() as u8;
                near(*shown.get_pixel(across * quarter / 4, down / 2), [grey; 3], 3);
            }
        }
    }
    let file = read(of_palette()).expect("an image");
    let plain = file.plain(Wanted { most: None, grey: true }).expect("whole");
    assert_eq!((&plain.colours, plain.packing), (&Colours::Grey, Packing::PngRows));
}

fn wide() -> Vec<u8> {
    ColorProfile::new_display_p3().encode().expect("a profile")
}

/// The profile of a phone's wide colours goes into the smaller picture, once.
#[test]
fn a_smaller_picture_is_in_srgb_and_holds_no_profile_and_no_notes() {
    let bytes = large_jpeg(|e| {
        e.add_icc_profile(&wide()).expect("a segment");
        e.add_app_segment(1, [b"Exif\0\0", &exif(1)[..], b" in my garden"].concat()).expect("a segment");
    });
    let file = read(bytes).expect("an image");
    let small = file.plain(Wanted { most: Some((300, 300)), grey: false }).expect("whole");
    assert!(!holds(&data(&small), b"ICC_PROFILE") && !holds(&data(&small), b"garden"));
    // Red of 200, 40, 40 in that space is stronger in sRGB.
    assert!(seen(&small).get_pixel(40, 100).0[0] > 212);
}
