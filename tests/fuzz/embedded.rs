//! The data that a booklet would hold of a picture, read by a program that knows nothing of ours.

use fringebook::images::{Colours, ImageFile, Packing, Plain, Wanted};
use png::{BitDepth, ColorType};

/// Whether what a booklet would hold of a picture is one, of the size that the booklet would say.
///
/// # Errors
/// What is not as it must be.
pub fn sound(file: &ImageFile) -> Result<(), String> {
    for most in [None, Some((20, 20))] {
        for grey in [false, true] {
            let plain = file.plain(Wanted { most, grey });
            let plain = plain.map_err(|fault| format!("a design came of a picture with {fault:?}"))?;
            held(file, &plain, most)?;
        }
    }
    Ok(())
}

fn held(file: &ImageFile, plain: &Plain, most: Option<(u32, u32)>) -> Result<(), String> {
    let data: Vec<u8> = plain.data().flatten().copied().collect();
    if data.len() != plain.length() {
        return Err(format!("{} bytes of {} that were said", data.len(), plain.length()));
    }
    let is_smaller = most.is_some_and(|(across, down)| file.pixels().0 > across || file.pixels().1 > down);
    if !is_smaller && file.pixels() != file.turn().seen(plain.size) {
        return Err(format!("{:?} pixels are seen of {:?}", file.pixels(), plain.size));
    }
    let alone = match plain.packing {
        Packing::Jpeg => data,
        Packing::PngRows => with_a_head(plain, &data)?,
    };
    let seen = image::load_from_memory(&alone).map_err(|e| format!("the data do not decode: {e}"))?;
    if (seen.width(), seen.height()) != plain.size {
        return Err(format!("{} × {} pixels decode of {:?}", seen.width(), seen.height(), plain.size));
    }
    let channels = if plain.colours == Colours::Grey { 1 } else { 3 };
    if usize::from(seen.color().channel_count()) != channels {
        return Err(format!("{:?} decodes of {:?}", seen.color(), plain.colours));
    }
    Ok(())
}

/// Rows packed as in a PNG, as a PNG.
fn with_a_head(plain: &Plain, data: &[u8]) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, plain.size.0, plain.size.1);
    encoder.set_depth(BitDepth::from_u8(plain.bits).ok_or_else(|| format!("{} bits", plain.bits))?);
    match &plain.colours {
        Colours::Grey => encoder.set_color(ColorType::Grayscale),
        Colours::Rgb => encoder.set_color(ColorType::Rgb),
        Colours::Palette(palette) => {
            encoder.set_color(ColorType::Indexed);
            encoder.set_palette(palette.clone());
        }
    }
    let mut writer = encoder.write_header().map_err(|e| e.to_string())?;
    writer.write_chunk(png::chunk::IDAT, data).map_err(|e| e.to_string())?;
    drop(writer);
    Ok(bytes)
}
