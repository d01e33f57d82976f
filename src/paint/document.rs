//! The recipe: a display list becomes a file.

use super::error::PaintError;
use super::fonts::Fonts;
use super::layers::Layers;
use super::operators::{points, round};
use super::page::{self, Painted};
use super::resources::Resources;
use super::times::Times;
use super::written::Written;
use super::{annotations, bookmarks, check, icc, images, layers, save, seen, tags, xmp};
use crate::images::Plain;
use crate::layout::DisplayList;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use printpdf::{PdfDocument, PdfPage, PdfSaveOptions, XObject, XObjectId};
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// Paints a display list as a PDF 1.7: tagged (PDF/UA-1) and fit for archives (PDF/A-2a); see
/// [`super::claims`]. The same list and times give the same bytes, whenever and wherever.
///
/// # Errors
/// What a display list asks for that cannot be painted; nothing is drawn in its stead.
pub fn pdf(list: &DisplayList, times: &Times) -> Result<Vec<u8>, PaintError> {
    check::check(list)?;
    let deflated: Vec<OnceLock<Vec<u8>>> = list.pages.iter().map(|_| OnceLock::new()).collect();
    // A page is deflated while the next one is painted and all that is not on pages is put together.
    let assembled = rayon::scope(|scope| {
        assemble(list, times, |page, content: Vec<u8>| {
            let place = &deflated[page];
            scope.spawn(move |_| {
                let _ = place.set(save::deflated(&content));
            });
        })
    })?;
    let contents = assembled.contents.iter().zip(deflated);
    let deflated = contents.filter_map(|(id, place)| Some((*id, place.into_inner()?))).collect();
    let images = images::data_by_number(&assembled.images, &assembled.forms)?;
    save::save(assembled.document, assembled.metadata, assembled.written, &images, deflated)
}

/// All that a file holds, before it is saved.
struct Assembled {
    document: Document,
    metadata: ObjectId,
    /// Objects that are text already.
    written: Vec<(u32, Vec<u8>)>,
    /// Forms and images by name.
    forms: Dictionary,
    /// The images.
    images: BTreeMap<String, Arc<Plain>>,
    /// The pages' content streams.
    contents: Vec<ObjectId>,
}

/// Puts a file together; each page's content is given away as well as soon as it is painted.
fn assemble(
    list: &DisplayList,
    times: &Times,
    painted_page: impl Fn(usize, Vec<u8>),
) -> Result<Assembled, PaintError> {
    let fonts = Fonts::collect(list)?;
    let mut resources = Resources::default();
    let mut painted = Vec::new();
    for (index, page) in list.pages.iter().enumerate() {
        let page = page::paint(list, page, &fonts, &mut resources)?;
        painted_page(index, page.content.clone());
        painted.push(page);
    }
    let made = resources.finish();
    let mut doc = pages_and_forms(list, made.forms)?;
    let pages: Vec<ObjectId> = doc.get_pages().into_values().collect();
    let fonts = fonts.embed(&mut doc)?;
    let layers = layers::add(list, &mut doc);
    let (forms, contents) = set_pages(list, &mut doc, &pages, &mut painted, fonts, &layers)?;
    let gradients = set_gradients(&mut doc, &forms, made.gradients);
    let (annotations, form) = annotations::add(list, &mut doc, &pages)?;
    let structure = tags::add(list, &mut doc, &pages, &painted, &annotations)?;
    let bookmarks = bookmarks::add(list, &mut doc, &pages)?;
    let intent = output_intent(&mut doc);
    let metadata = doc.new_object_id();

    let pages_root = doc.catalog().and_then(|c| c.get(b"Pages")).cloned().map_err(writing)?;
    let mut catalogue = dictionary! {
        "Type" => "Catalog",
        "Version" => "1.7",
        "Pages" => pages_root,
        "Metadata" => metadata,
        "MarkInfo" => dictionary! { "Marked" => true },
        "StructTreeRoot" => structure.root,
        "Lang" => xmp::text(&list.meta.language),
        "PageLabels" => bookmarks::labels(list),
        "ViewerPreferences" => dictionary! { "DisplayDocTitle" => true },
        "OutputIntents" => vec![intent.into()],
    };
    if let Some(bookmarks) = bookmarks {
        catalogue.set("Outlines", bookmarks);
        catalogue.set("PageMode", "UseOutlines");
    }
    if let Some(layers) = layers.catalogue {
        catalogue.set("OCProperties", layers);
    }
    if let Some(form) = form {
        catalogue.set("AcroForm", form);
    }
    replace(&mut doc, b"Root", catalogue)?;
    replace(&mut doc, b"Info", xmp::info(&list.meta, *times))?;
    let drawn = seen::hash(&doc).map_err(writing)?;
    let packet = xmp::packet(&list.meta, *times, &drawn);
    let dict = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    doc.objects.insert(metadata, Object::Stream(Stream::new(dict, packet.into_bytes())));
    let written = structure.objects.into_iter().chain(gradients).collect();
    Ok(Assembled { document: doc, metadata, written, forms, images: made.images, contents })
}

pub(super) fn writing(e: lopdf::Error) -> PaintError {
    PaintError::Writing { reason: e.to_string() }
}

/// Puts a dictionary in the place of one that the trailer names.
fn replace(doc: &mut Document, key: &[u8], dict: Dictionary) -> Result<(), PaintError> {
    let id = doc.trailer.get(key).and_then(Object::as_reference).map_err(writing)?;
    doc.objects.insert(id, Object::Dictionary(dict));
    Ok(())
}

/// printpdf makes the document with its pages, still empty, and the forms and images that they name.
fn pages_and_forms(list: &DisplayList, forms: BTreeMap<XObjectId, XObject>) -> Result<Document, PaintError> {
    let mut pdf = PdfDocument::new(&list.meta.title);
    pdf.resources.xobjects.map = forms;
    for page in &list.pages {
        let size = |length: crate::units::Mm| printpdf::Mm(length.0 as f32);
        pdf.pages.push(PdfPage::new(size(page.size.width), size(page.size.height), Vec::new()));
    }
    let options =
        PdfSaveOptions { optimize: false, subset_fonts: false, secure: false, image_optimization: None };
    let mut warnings = Vec::new();
    let doc = pdf.to_lopdf_document(&options, &mut warnings);
    match warnings.first() {
        Some(warning) => Err(PaintError::Writing { reason: format!("{warning:?}") }),
        None => Ok(doc),
    }
}

/// Gives each page its content, its boxes, its tab order and the way back to the structure. All pages
/// name their fonts, forms and layers from the same resources; returned are the forms and images by name, and
/// the pages' content streams.
fn set_pages(
    list: &DisplayList,
    doc: &mut Document,
    pages: &[ObjectId],
    painted: &mut [Painted],
    fonts: Dictionary,
    layers: &Layers,
) -> Result<(Dictionary, Vec<ObjectId>), PaintError> {
    let shared = doc.new_object_id();
    let mut forms = Dictionary::new();
    let mut contents = Vec::with_capacity(pages.len());
    for (index, (page, id)) in list.pages.iter().zip(pages).enumerate() {
        let (w, h) = (round(points(page.size.width)), round(points(page.size.height)));
        let dict = doc.get_object_mut(*id).and_then(Object::as_dict_mut).map_err(writing)?;
        let paper = Object::Array(vec![0.into(), 0.into(), Object::Real(w), Object::Real(h)]);
        dict.set("MediaBox", paper);
        dict.remove(b"TrimBox");
        dict.remove(b"CropBox");
        dict.set("Tabs", "S");
        dict.set("StructParents", index as i64);
        let content = dict.get(b"Contents").and_then(Object::as_reference).map_err(writing)?;
        let own = dict.get(b"Resources").and_then(Object::as_reference).map_err(writing)?;
        dict.set("Resources", shared);
        contents.push(content);
        let content = doc.get_object_mut(content).and_then(Object::as_stream_mut).map_err(writing)?;
        content.content = std::mem::take(&mut painted[index].content);
        // What printpdf has put there by kind is the same for all pages, and empty but for the forms.
        let Some(Object::Dictionary(own)) = doc.objects.remove(&own) else { continue };
        for (kind, there) in &own {
            let there = there.as_reference().ok().and_then(|there| doc.objects.remove(&there));
            if let (b"XObject", Some(Object::Dictionary(there))) = (kind.as_slice(), there) {
                forms = there;
            }
        }
    }
    let mut resources = dictionary! { "Font" => fonts };
    if !forms.is_empty() {
        resources.set("XObject", forms.clone());
    }
    if !layers.properties.is_empty() {
        resources.set("Properties", layers.properties.clone());
    }
    doc.objects.insert(shared, Object::Dictionary(resources));
    Ok((forms, contents))
}

/// Gives each form its resources: the gradients that it names, or nothing. They are objects of their own,
/// given as they stand in the file: dictionaries of streams cannot be deflated, what lies in object
/// streams is.
fn set_gradients(
    doc: &mut Document,
    forms: &Dictionary,
    mut gradients: BTreeMap<String, Written>,
) -> Vec<(u32, Vec<u8>)> {
    let nothing = doc.add_object(Dictionary::new());
    let mut written = Vec::new();
    for (name, form) in forms {
        let Ok(form) = form.as_reference() else { continue };
        let gradients = gradients.remove(&*String::from_utf8_lossy(name));
        let own = gradients.map(|gradients| (doc.new_object_id(), gradients));
        if let Some(Object::Stream(stream)) = doc.objects.get_mut(&form)
            && stream.dict.get(b"Subtype").is_ok_and(|kind| kind.as_name().is_ok_and(|n| n == b"Form"))
        {
            stream.dict.set("Resources", own.as_ref().map_or(nothing, |(id, _)| *id));
        }
        if let Some((id, gradients)) = own {
            let mut resources = Written::default();
            resources.raw("<</Shading<<").append(&gradients).raw(">>>>");
            written.push((id.0, resources.bytes()));
        }
    }
    written
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
