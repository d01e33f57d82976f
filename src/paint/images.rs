//! Images: their data stand in the file as the design's stage has packed them.

use super::document::writing;
use super::error::PaintError;
use super::operators::{dict, external, map, name_of};
use crate::images::{Colours, Fault, Image, Packing, Plain, Wanted};
use lopdf::{Dictionary, Object};
use printpdf::{DictItem, XObject};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a booklet holds of an image.
///
/// # Errors
/// When it cannot be decoded.
pub(super) fn plain(image: &Image, wanted: Wanted) -> Result<Arc<Plain>, PaintError> {
    image.file.plain(wanted).map_err(|fault| refused(&image.name, fault))
}

/// An image as an object of the file, still without its data: [`data_by_number`] finds them when the
/// file is written.
pub(super) fn image(plain: &Plain) -> XObject {
    let number = |value: usize| DictItem::Int(value as i64);
    let (across, down) = (plain.size.0 as usize, plain.size.1 as usize);
    let (space, samples) = match &plain.colours {
        Colours::Grey => (name_of("DeviceGray"), 1),
        Colours::Rgb => (name_of("DeviceRGB"), 3),
        Colours::Palette(colours) => (indexed(colours), 1),
    };
    let mut entries = map([
        ("Type", name_of("XObject")),
        ("Subtype", name_of("Image")),
        ("Width", number(across)),
        ("Height", number(down)),
        ("BitsPerComponent", number(usize::from(plain.bits))),
        ("ColorSpace", space),
    ]);
    match plain.packing {
        Packing::Jpeg => {
            entries.insert("Filter".to_owned(), name_of("DCTDecode"));
        }
        Packing::PngRows => {
            let parameters = dict([
                ("Predictor", number(15)),
                ("Colors", number(samples)),
                ("BitsPerComponent", number(usize::from(plain.bits))),
                ("Columns", number(across)),
            ]);
            entries.insert("Filter".to_owned(), name_of("FlateDecode"));
            entries.insert("DecodeParms".to_owned(), parameters);
        }
    }
    external(entries, Vec::new())
}

fn refused(name: &str, fault: Fault) -> PaintError {
    PaintError::Image { name: name.to_owned(), fault }
}

/// The data of images by the number of their object; `forms` are the objects by name.
///
/// # Errors
/// When an object is not there.
pub(super) fn data_by_number<'p>(
    images: &'p BTreeMap<String, Arc<Plain>>,
    forms: &Dictionary,
) -> Result<BTreeMap<u32, &'p Plain>, PaintError> {
    let mut data = BTreeMap::new();
    for (name, plain) in images {
        let (number, _) = forms.get(name.as_bytes()).and_then(Object::as_reference).map_err(writing)?;
        data.insert(number, plain.as_ref());
    }
    Ok(data)
}

/// Colours by their number (ISO 32000-1, 8.6.6.3).
fn indexed(colours: &[u8]) -> DictItem {
    let last = (colours.len() / 3).saturating_sub(1);
    DictItem::Array(vec![
        name_of("Indexed"),
        name_of("DeviceRGB"),
        DictItem::Int(last as i64),
        DictItem::String { data: colours.to_vec(), literal: false },
    ])
}
