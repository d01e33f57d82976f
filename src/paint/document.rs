//! The recipe: a display list becomes a file.

use super::error::PaintError;
use super::fonts::Fonts;
use super::operators::{points, round};
use super::page::{self, Painted};
use super::resources::{FIRST, Resources};
use super::times::Times;
use super::{annotations, check, drawn, icc, layers, outline, save, tags, xmp};
use crate::layout::DisplayList;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use printpdf::{Op, PdfDocument, PdfPage, PdfSaveOptions};

/// A comment between the roll of glyphs and the first page's own operators.
const END_OF_ROLL: &str = "% end of roll";

/// Paints a display list as a PDF 1.7: tagged (PDF/UA-1) and fit for archives (PDF/A-2a); see
/// [`super::claims`]. The same list and times give the same bytes, whenever and wherever.
///
/// # Errors
/// What a display list asks for that cannot be painted; nothing is drawn in its stead.
pub fn pdf(list: &DisplayList, times: &Times) -> Result<Vec<u8>, PaintError> {
    check::check(list)?;
    let fonts = Fonts::collect(list)?;
    let mut resources = Resources::default();
    let mut painted = Vec::new();
    for page in &list.pages {
        painted.push(page::paint(list, page, &fonts, &mut resources)?);
    }
    let mut doc = write_pages(list, &mut painted, &fonts, resources)?;
    let pages: Vec<ObjectId> = doc.get_pages().into_values().collect();
    set_pages(list, &mut doc, &pages);
    complete_fonts(&mut doc);
    let (annotations, form) = annotations::add(list, &mut doc, &pages)?;
    set_apart_resources(&mut doc);
    let structure = tags::add(list, &mut doc, &pages, &painted, &annotations)?;
    let bookmarks = outline::add(list, &mut doc, &pages)?;
    let layers = layers::finish(list, &mut doc);
    let intent = output_intent(&mut doc);
    let metadata = (1, 0);
    let pages_root = doc.catalog().and_then(|c| c.get(b"Pages")).cloned().map_err(writing)?;
    let mut catalogue = dictionary! {
        "Type" => "Catalog",
        "Version" => "1.7",
        "Pages" => pages_root,
        "Metadata" => metadata,
        "MarkInfo" => dictionary! { "Marked" => true },
        "StructTreeRoot" => structure,
        "Lang" => xmp::text(&list.meta.language),
        "PageLabels" => outline::labels(list),
        "ViewerPreferences" => dictionary! { "DisplayDocTitle" => true },
        "OutputIntents" => vec![intent.into()],
    };
    if let Some(bookmarks) = bookmarks {
        catalogue.set("Outlines", bookmarks);
        catalogue.set("PageMode", "UseOutlines");
    }
    if let Some(layers) = layers {
        catalogue.set("OCProperties", layers);
    }
    if let Some(form) = form {
        catalogue.set("AcroForm", form);
    }
    replace(&mut doc, b"Root", catalogue)?;
    replace(&mut doc, b"Info", xmp::info(&list.meta, *times))?;
    let drawn = drawn::hash(&doc).map_err(writing)?;
    let packet = xmp::packet(&list.meta, *times, &drawn);
    let dict = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    doc.objects
        .insert(metadata, Object::Stream(Stream::new(dict, packet.into_bytes()).with_compression(false)));
    save::save(doc)
}

fn writing(e: lopdf::Error) -> PaintError {
    PaintError::Writing { reason: e.to_string() }
}

/// Puts a dictionary in the place of one that the trailer names.
fn replace(doc: &mut Document, key: &[u8], dict: Dictionary) -> Result<(), PaintError> {
    let id = doc.trailer.get(key).and_then(Object::as_reference).map_err(writing)?;
    doc.objects.insert(id, Object::Dictionary(dict));
    Ok(())
}

/// printpdf writes the pages' operators, fonts and resources.
fn write_pages(
    list: &DisplayList,
    painted: &mut [Painted],
    fonts: &Fonts,
    resources: Resources,
) -> Result<Document, PaintError> {
    let mut pdf = PdfDocument::new(&list.meta.title);
    pdf.resources.fonts.map = fonts.subset()?.into_iter().collect();
    pdf.resources.xobjects.map = resources.finish();
    pdf.resources.layers.map = layers::used(list);
    for (page, painted) in list.pages.iter().zip(painted) {
        let size = |length: crate::units::Mm| printpdf::Mm(length.0 as f32);
        let mut ops = std::mem::take(&mut painted.ops);
        if pdf.pages.is_empty() {
            let end = Op::Unknown { key: END_OF_ROLL.to_owned(), value: Vec::new() };
            ops.splice(0..0, fonts.roll().into_iter().chain([end]));
        }
        pdf.pages.push(PdfPage::new(size(page.size.width), size(page.size.height), ops));
    }
    let options =
        PdfSaveOptions { optimize: false, subset_fonts: false, secure: false, image_optimization: None };
    let mut warnings = Vec::new();
    let mut doc = pdf.to_lopdf_document(&options, &mut warnings);
    if let Some(warning) = warnings.first() {
        return Err(PaintError::Writing { reason: format!("{warning:?}") });
    }
    remove_roll(&mut doc);
    // The first object was kept free under a name of its own; see `FIRST`.
    for object in doc.objects.values_mut() {
        if let Object::Dictionary(dict) = object {
            dict.remove(FIRST.as_bytes());
        }
    }
    Ok(doc)
}

/// Takes the roll of glyphs out of the first page: printpdf has embedded what it names, and the pages'
/// own text stands in their scripts.
fn remove_roll(doc: &mut Document) {
    let first = doc.page_iter().next();
    let content = first.and_then(|p| doc.get_dictionary(p).ok()?.get(b"Contents").ok()?.as_reference().ok());
    if let Some(Object::Stream(stream)) = content.and_then(|c| doc.objects.get_mut(&c))
        && let Some(at) = stream.content.windows(END_OF_ROLL.len()).position(|w| w == END_OF_ROLL.as_bytes())
    {
        let end = stream.content.len().min(at + END_OF_ROLL.len() + 1);
        stream.content.drain(..end);
    }
}

/// Boxes, tab order and the way back to the structure, page by page.
fn set_pages(list: &DisplayList, doc: &mut Document, pages: &[ObjectId]) {
    for (index, (page, id)) in list.pages.iter().zip(pages).enumerate() {
        if let Ok(dict) = doc.get_object_mut(*id).and_then(Object::as_dict_mut) {
            let (w, h) = (round(points(page.size.width)), round(points(page.size.height)));
            let paper = Object::Array(vec![0.into(), 0.into(), Object::Real(w), Object::Real(h)]);
            dict.set("MediaBox", paper);
            dict.remove(b"TrimBox");
            dict.remove(b"CropBox");
            dict.set("Tabs", "S");
            dict.set("StructParents", index as i64);
        }
    }
}

/// What PDF/A asks of fonts beyond what printpdf writes: how characters lead to glyphs (ISO 19005-2,
/// 6.2.11.3.2), and which characters there are (6.2.11.4.2).
fn complete_fonts(doc: &mut Document) {
    let ids: Vec<ObjectId> = doc.objects.keys().copied().collect();
    for id in ids {
        let Ok(font) = doc.get_dictionary(id) else { continue };
        if !font.get(b"Subtype").is_ok_and(|s| s.as_name().is_ok_and(|n| n == b"Type0")) {
            continue;
        }
        let Some(mut inner) = font
            .get(b"DescendantFonts")
            .and_then(Object::as_array)
            .ok()
            .and_then(|a| a.first())
            .and_then(|f| f.as_dict().ok())
            .cloned()
        else {
            continue;
        };
        inner.set("CIDToGIDMap", "Identity");
        if let Ok(descriptor) = inner.get(b"FontDescriptor").and_then(Object::as_reference)
            && let Some(glyphs) = glyphs_in(doc, descriptor)
        {
            let mut present = vec![0xff; glyphs / 8];
            if glyphs % 8 > 0 {
                present.push(0xff << (8 - glyphs % 8));
            }
            let set = doc.add_object(Stream::new(Dictionary::new(), present));
            if let Ok(dict) = doc.get_object_mut(descriptor).and_then(Object::as_dict_mut) {
                dict.set("CIDSet", set);
                // All characters go through the font's own numbers: it is symbolic (ISO 32000-1, 9.8.2).
                let flags = dict.get(b"Flags").and_then(Object::as_i64).unwrap_or(0);
                dict.set("Flags", (flags & !32) | 4);
            }
        }
        let inner = doc.add_object(inner);
        if let Ok(dict) = doc.get_object_mut(id).and_then(Object::as_dict_mut) {
            dict.set("DescendantFonts", vec![Object::Reference(inner)]);
        }
    }
}

/// Makes the resources of forms objects of their own: dictionaries of streams cannot be deflated,
/// those in object streams are.
fn set_apart_resources(doc: &mut Document) {
    let nothing = doc.add_object(Dictionary::new());
    let ids: Vec<ObjectId> = doc.objects.keys().copied().collect();
    for id in ids {
        let Some(Object::Stream(form)) = doc.objects.get(&id) else { continue };
        let Ok(Object::Dictionary(resources)) = form.dict.get(b"Resources") else { continue };
        let own = if resources.is_empty() { nothing } else { doc.add_object(resources.clone()) };
        if let Some(Object::Stream(form)) = doc.objects.get_mut(&id) {
            form.dict.set("Resources", own);
        }
    }
}

/// How many glyphs an embedded font holds: `numGlyphs` of its `maxp` table.
fn glyphs_in(doc: &Document, descriptor: ObjectId) -> Option<usize> {
    let file = doc.get_dictionary(descriptor).ok()?.get(b"FontFile2").ok()?.as_reference().ok()?;
    let program = &doc.get_object(file).ok()?.as_stream().ok()?.content;
    let raw = ttf_parser::RawFace::parse(program, 0).ok()?;
    let maxp = raw.table(ttf_parser::Tag::from_bytes(b"maxp"))?;
    Some(usize::from(u16::from_be_bytes([*maxp.get(4)?, *maxp.get(5)?])))
}

/// What the colours mean: sRGB.
fn output_intent(doc: &mut Document) -> Dictionary {
    let profile = doc
        .add_object(Stream::new(dictionary! { "N" => 3, "Alternate" => "DeviceRGB" }, icc::srgb().to_vec()));
    dictionary! {
        "Type" => "OutputIntent",
        "S" => "GTS_PDFA1",
        "OutputConditionIdentifier" => Object::string_literal("sRGB IEC61966-2.1"),
        "RegistryName" => Object::string_literal("http://www.color.org"),
        "Info" => Object::string_literal("sRGB (IEC 61966-2-1)"),
        "DestOutputProfile" => profile,
    }
}
