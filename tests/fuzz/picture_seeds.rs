//! The pictures that are mutated: PNG and JPEG of every kind that cameras and programs save, all of them small.

use jpeg_encoder::{ColorType as Inks, Encoder, SamplingFactor};
use moxcms::ColorProfile;
use png::{BitDepth, ColorType};
use std::sync::LazyLock;

/// Pixels across and down: no multiples of the blocks of a JPEG or of the passes of a PNG.
const SIDES: (u16, u16) = (21, 13);

/// PNG files.
pub static PNGS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let colours = [0, 0, 0, 200, 0, 0, 0, 200, 0, 90, 90, 200];
    let profile = display_profile();
    vec![
        png(ColorType::Rgb, BitDepth::Eight, |_| {}),
        png(ColorType::Grayscale, BitDepth::Eight, |_| {}),
        png(ColorType::Grayscale, BitDepth::One, |_| {}),
        png(ColorType::Grayscale, BitDepth::Sixteen, |_| {}),
        png(ColorType::Indexed, BitDepth::Eight, |e| {
            e.set_palette(colours.to_vec());
            e.set_trns(vec![255, 128]);
        }),
        png(ColorType::Indexed, BitDepth::Two, |e| e.set_palette(colours.to_vec())),
        png(ColorType::Rgb, BitDepth::Eight, |e| e.set_trns(vec![0, 0, 0, 40, 0, 80])),
        png(ColorType::Rgba, BitDepth::Eight, |_| {}),
        png(ColorType::Rgba, BitDepth::Sixteen, |_| {}),
        png(ColorType::GrayscaleAlpha, BitDepth::Eight, |_| {}),
        png(ColorType::Grayscale, BitDepth::Eight, |e| e.set_animated(1, 0).expect("animated")),
        png_in_passes(),
        profiled(profile),
    ]
});

/// JPEG files.
pub static JPEGS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let profile = display_profile();
    vec![
        jpeg(Inks::Rgb, 3, |_| {}),
        jpeg(Inks::Rgb, 3, |e| e.set_progressive(true)),
        jpeg(Inks::Luma, 1, |_| {}),
        jpeg(Inks::Luma, 1, |e| e.set_progressive(true)),
        jpeg(Inks::Rgb, 3, |e| e.set_sampling_factor(SamplingFactor::F_2_2)),
        jpeg(Inks::Rgb, 3, |e| {
            e.set_sampling_factor(SamplingFactor::F_4_1);
            e.set_progressive(true);
        }),
        jpeg(Inks::Rgb, 3, |e| e.set_restart_interval(2)),
        jpeg(Inks::Rgb, 3, |e| {
            e.add_app_segment(1, [b"Exif\0\0", &exif(6)[..]].concat()).expect("a segment");
        }),
        jpeg(Inks::Rgb, 3, |e| e.add_icc_profile(&profile).expect("a segment")),
        jpeg(Inks::Cmyk, 4, |e| {
            e.set_sampling_factor(SamplingFactor::F_1_1);
            e.set_restart_interval(3);
        }),
        jpeg(Inks::CmykAsYcck, 4, |e| e.set_progressive(true)),
    ]
});

/// Samples that differ from place to place, with so many to a pixel.
fn samples(channels: usize) -> Vec<u8> {
    let (across, down) = (usize::from(SIDES.0), usize::from(SIDES.1));
    (0..across * down * channels)
        .map(|i| ((i / channels % across) * 9 + (i / channels / across) * 5 + i % channels * 40) as u8)
        .collect()
}

fn jpeg(inks: Inks, channels: usize, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 80);
    set(&mut encoder);
    encoder.encode(&samples(channels), SIDES.0, SIDES.1, inks).expect("a JPEG");
    bytes
}

fn png(colour: ColorType, bits: BitDepth, set: impl FnOnce(&mut png::Encoder<'_, &mut Vec<u8>>)) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, u32::from(SIDES.0), u32::from(SIDES.1));
    encoder.set_color(colour);
    encoder.set_depth(bits);
    set(&mut encoder);
    let mut writer = encoder.write_header().expect("a header");
    let row = (colour.samples() * usize::from(SIDES.0) * bits as usize).div_ceil(8);
    let mut data = samples(8);
    data.truncate(row * usize::from(SIDES.1));
    if colour == ColorType::Indexed && bits == BitDepth::Eight {
        data.iter_mut().for_each(|number| *number %= 4);
    }
    writer.write_image_data(&data).expect("data");
    drop(writer);
    bytes
}

/// A colour profile of screens with a wider space than sRGB.
fn display_profile() -> Vec<u8> {
    ColorProfile::new_display_p3().encode().expect("a profile")
}

/// A PNG with a colour profile.
fn profiled(profile: Vec<u8>) -> Vec<u8> {
    let mut info = png::Info::with_size(u32::from(SIDES.0), u32::from(SIDES.1));
    info.color_type = ColorType::Rgb;
    info.icc_profile = Some(profile.into());
    let mut bytes = Vec::new();
    let encoder = png::Encoder::with_info(&mut bytes, info).expect("an encoder");
    let mut writer = encoder.write_header().expect("a header");
    writer.write_image_data(&samples(3)).expect("data");
    drop(writer);
    bytes
}

/// A PNG saved in seven passes from coarse to fine (W3C PNG specification, 8): no writer at hand makes them.
fn png_in_passes() -> Vec<u8> {
    const PASSES: [[usize; 4]; 7] =
        [[0, 8, 0, 8], [4, 8, 0, 8], [0, 4, 4, 8], [2, 4, 0, 4], [0, 2, 2, 4], [1, 2, 0, 2], [0, 1, 1, 2]];
    let (across, down) = (usize::from(SIDES.0), usize::from(SIDES.1));
    let of = samples(3);
    let mut rows = Vec::new();
    for [x, step_x, y, step_y] in PASSES {
        for y in (y..down).step_by(step_y) {
            rows.push(0);
            for x in (x..across).step_by(step_x) {
                rows.extend_from_slice(&of[3 * (y * across + x)..][..3]);
            }
        }
    }
    let sides = [u32::from(SIDES.0), u32::from(SIDES.1)].map(u32::to_be_bytes).concat();
    let chunks = [
        (*b"IHDR", [&sides[..], &[8, 2, 0, 0, 1]].concat()),
        (*b"IDAT", super::png_file::packed(&rows)),
        (*b"IEND", Vec::new()),
    ];
    super::png_file::written(&chunks.map(|(name, content)| super::png_file::Chunk { name, content }))
}

/// A block of Exif data with an orientation.
pub fn exif(orientation: u8) -> Vec<u8> {
    let mut block = b"II*\0\x08\0\0\0\x01\0".to_vec();
    block.extend([0x12, 1, 3, 0, 1, 0, 0, 0, orientation, 0, 0, 0]);
    block.extend([0; 4]);
    block
}
