//! A display list painted as PDF: what stands in the file, read back object by object, and what is
//! refused. What independent readers and checkers say of it is in `tests/outside`.

use crate::fixture::{self, Builder, everything, line};
use fringebook::drawn::{BeadLook, Face, Shape};
use fringebook::images::{Image, ImageFile};
use fringebook::layout::{DisplayList, NodeId, Paint, Role, Standing};
use fringebook::paint::{PaintError, Times, digest_of, pdf};
use fringebook::units::{Mm, Point};
use image::ImageEncoder as _;
use lopdf::{Dictionary, Document, Object, ObjectId};
use std::sync::Arc;

fn painted(list: &DisplayList) -> Vec<u8> {
    pdf(list, &Times::of(list.meta.date, None)).expect("paints")
}

fn refused(list: &DisplayList) -> PaintError {
    pdf(list, &Times::default()).expect_err("refused")
}

fn read(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("reads")
}

fn text(object: &Object) -> String {
    let bytes = object.as_str().expect("a string");
    match bytes.strip_prefix(&[0xfe, 0xff]) {
        Some(wide) => {
            let units: Vec<u16> = wide.chunks(2).map(|c| u16::from_be_bytes([c[0], c[1]])).collect();
            String::from_utf16(&units).expect("UTF-16")
        }
        None => String::from_utf8(bytes.to_vec()).expect("ASCII"),
    }
}

/// The fixture is left for the checks outside.
#[test]
fn two_runs_are_the_same_to_the_byte() {
    let first = painted(&everything());
    assert_eq!(first, painted(&everything()));
    std::fs::write(concat!(env!("CARGO_TARGET_TMPDIR"), "/fixture.pdf"), &first).expect("written");
}

/// A reader of designs has found this before; whoever paints a list of her own is told too.
#[test]
fn a_picture_that_cannot_be_decoded_is_refused() {
    let mut list = everything();
    for paint in list.pages.iter_mut().flat_map(|page| &mut page.items).map(|item| &mut item.paint) {
        if let Paint::Image(placed) = paint {
            let mut bytes = Vec::new();
            image::codecs::png::PngEncoder::new(&mut bytes)
                .write_image(&[7; 300], 10, 10, image::ExtendedColorType::Rgb8)
                .expect("a PNG");
            let data = bytes.windows(4).position(|w| w == b"IDAT").expect("data");
            bytes[data + 8] ^= 1;
            let file = ImageFile::new(bytes).expect("nothing is decoded yet");
            placed.image = Arc::new(Image { file: Arc::new(file), ..(*placed.image).clone() });
        }
    }
    assert_eq!(refused(&list).to_string(), "the picture `logo.png` is damaged");
}

#[test]
fn the_id_follows_the_content_and_nothing_else() {
    let id = |list: &DisplayList| {
        let doc = read(&painted(list));
        let pair = doc.trailer.get(b"ID").and_then(Object::as_array).expect("an ID").clone();
        assert_eq!(pair[0], pair[1]);
        pair[0].as_str().expect("a string").to_vec()
    };
    let mut other = everything();
    other.meta.edition = 3;
    assert_eq!(id(&everything()).len(), 16);
    assert_ne!(id(&everything()), id(&other));
}

#[test]
fn the_digest_is_read_back_from_the_first_kilobyte() {
    let bytes = painted(&everything());
    let parts =
        vec![("bead ink & co".to_owned(), "aa11".to_owned()), ("studio".to_owned(), "bb22".to_owned())];
    let found = digest_of(&bytes[..1024]).expect("a digest");
    assert_eq!((found.digest.as_str(), &found.parts), ("0123456789abcdef", &parts));
    assert_eq!(found.drawn.len(), 24);
}

#[test]
fn without_an_edition_date_there_are_no_dates() {
    let bytes = pdf(&everything(), &Times::default()).expect("paints");
    let doc = read(&bytes);
    let info = doc.trailer.get(b"Info").and_then(Object::as_reference).expect("info");
    assert!(!doc.get_dictionary(info).expect("a dictionary").has(b"CreationDate"));
    assert!(!String::from_utf8_lossy(&bytes).contains("xmp:CreateDate"));
}

#[test]
fn a_missing_glyph_is_refused_with_its_place() {
    let mut b = Builder::new();
    b.page("7");
    b.text(NodeId(0), Role::Paragraph, Face::Regular, 10.0, 20.0, "row 漢 1");
    let message = refused(&b.list).to_string();
    assert_eq!(message, "page 7: the text face has no “漢”, needed in “row 漢 1”");
}

#[test]
fn what_does_not_fit_together_is_refused() {
    let mut list = everything();
    list.pages[1].ticks[1].name = "row-1".into();
    assert_eq!(refused(&list).to_string(), "two boxes to tick are both named “row-1”");

    let mut list = everything();
    list.bookmarks[1].page = 9;
    assert_eq!(refused(&list).to_string(), "“Materials” leads to page 10, which there is not");

    let mut list = everything();
    list.nodes[0].children.pop();
    assert!(refused(&list).to_string().ends_with("hangs nowhere"));

    let mut list = everything();
    list.pages[0].items[0].standing = Standing::Content(NodeId(9999));
    assert_eq!(refused(&list).to_string(), "an item belongs to node 9999, which there is not");
}

#[test]
fn an_unknown_pattern_and_a_place_that_is_no_number_are_refused() {
    let mut b = Builder::new();
    b.page("1");
    let figure = b.node(NodeId(0), Role::Figure { alt: "A bead.".into() });
    let mut bead = fixture::bead(Shape::Cylinder, BeadLook::Flat, fixture::EMBER, 20.0, 20.0);
    bead.pattern = Some(8);
    b.put(Standing::Content(figure), None, Paint::Bead(bead.clone()));
    assert_eq!(refused(&b.list), PaintError::Pattern { number: 8 });

    bead.pattern = None;
    bead.centre = Point::new(f64::NAN, 20.0);
    b.list.pages[0].items[0].paint = Paint::Bead(bead);
    assert_eq!(refused(&b.list), PaintError::NotANumber { page: "1".into() });
}

#[test]
fn beads_of_one_kind_share_one_form_whatever_their_colour() {
    let doc = read(&painted(&everything()));
    let forms = |page: usize| {
        let content = doc.get_page_content(page_id(&doc, page));
        let operations = lopdf::content::Content::decode(&content).expect("decodes").operations;
        let names: Vec<String> = operations
            .iter()
            .filter(|o| o.operator == "Do")
            .map(|o| String::from_utf8_lossy(o.operands[0].as_name().expect("a name")).into_owned())
            .collect();
        names
    };
    let chart = forms(1);
    assert_eq!(chart.len(), 16);
    assert!(chart.iter().all(|n| *n == chart[0]), "{chart:?}");
}

/// Where each glyph of the second page's first line with odd advances lies, summed up as a viewer does.
#[test]
fn glyphs_stand_where_layout_put_them() {
    let mut b = Builder::new();
    b.page("1");
    let node = b.node(NodeId(0), Role::Paragraph);
    let mut glyphs = line(Face::Regular, 11.0, 20.0, 30.0, "To Average Way, 2 × 4 beads in a row of stacks");
    for (i, glyph) in glyphs.glyphs.iter_mut().enumerate() {
        glyph.advance += [-37.253, 0.001, 12.337, -0.004][i % 4];
    }
    let wanted: Vec<f64> = glyphs
        .glyphs
        .iter()
        .scan(20.0 * 72.0 / 25.4, |x, g| {
            let at = *x;
            *x += g.advance * 11.0 / 1000.0;
            Some(at)
        })
        .collect();
    b.put(Standing::Content(node), None, Paint::Glyphs(glyphs));
    let found = glyph_places(&read(&painted(&b.list)));
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(&wanted) {
        // The start is rounded to a hundredth of a point; nothing is added to that along the line.
        assert!((found - wanted).abs() < 0.006, "{found} {wanted}");
    }
}

/// Places of the glyphs of a page with one font at 11 pt, from `Td`, `TJ` and the font's widths.
fn glyph_places(doc: &Document) -> Vec<f64> {
    let page = page_id(doc, 0);
    let fonts = doc.get_page_fonts(page).expect("fonts");
    let font = fonts.values().next().expect("a font");
    let inner = font.get(b"DescendantFonts").and_then(Object::as_array).expect("an array")[0].as_reference();
    let widths = widths(doc.get_dictionary(inner.expect("a reference")).expect("a font"));
    let content = doc.get_page_content(page);
    let (mut start, mut pen, mut places) = (0.0, 0.0, Vec::new());
    for operation in lopdf::content::Content::decode(&content).expect("decodes").operations {
        match operation.operator.as_str() {
            "BT" => start = 0.0,
            "Td" => {
                start += f64::from(operation.operands[0].as_float().expect("a number"));
                pen = start;
            }
            "TJ" => {
                for part in operation.operands[0].as_array().expect("an array") {
                    match part {
                        Object::String(codes, _) => {
                            for code in codes.chunks(2) {
                                places.push(pen);
                                pen += widths[usize::from(u16::from_be_bytes([code[0], code[1]]))] * 0.011;
                            }
                        }
                        number => pen -= f64::from(number.as_float().expect("a number")) * 0.011,
                    }
                }
            }
            _ => {}
        }
    }
    places
}

fn widths(font: &Dictionary) -> Vec<f64> {
    let list = font.get(b"W").and_then(Object::as_array).expect("widths");
    let mut widths = vec![0.0; 512];
    for pair in list.chunks(2) {
        let first = pair[0].as_i64().expect("a number") as usize;
        for (i, width) in pair[1].as_array().expect("an array").iter().enumerate() {
            widths[first + i] = f64::from(width.as_float().expect("a number"));
        }
    }
    widths
}

fn page_id(doc: &Document, page: usize) -> ObjectId {
    doc.get_pages().into_values().nth(page).expect("a page")
}

#[test]
fn operators_of_a_page() {
    let doc = read(&painted(&everything()));
    let content = doc.get_page_content(page_id(&doc, 1));
    insta::assert_snapshot!(String::from_utf8(content).expect("ASCII"));
}

#[test]
fn structure_of_the_document() {
    let doc = read(&painted(&everything()));
    let root = doc.catalog().and_then(|c| c.get(b"StructTreeRoot")).and_then(Object::as_reference);
    let mut out = String::new();
    outline_of(&doc, &Object::Reference(root.expect("a root")), 0, &mut out);
    insta::assert_snapshot!(out);
}

/// Writes the structure as an indented list: types, attributes, numbers of marked content.
fn outline_of(doc: &Document, at: &Object, depth: usize, out: &mut String) {
    let indent = "  ".repeat(depth);
    let dict = match at {
        Object::Integer(number) => {
            out.push_str(&format!("{indent}content {number}\n"));
            return;
        }
        Object::Array(kids) => {
            kids.iter().for_each(|kid| outline_of(doc, kid, depth, out));
            return;
        }
        Object::Reference(id) => doc.get_dictionary(*id).expect("a dictionary"),
        Object::Dictionary(dict) => dict,
        other => panic!("{other:?}"),
    };
    if dict.has_type(b"OBJR") {
        let annotation = dict.get(b"Obj").and_then(Object::as_reference).expect("a reference");
        let annotation = doc.get_dictionary(annotation).expect("an annotation");
        out.push_str(&format!(
            "{indent}annotation “{}”\n",
            text(annotation.get(b"Contents").expect("words"))
        ));
        return;
    }
    if let Ok(kind) = dict.get(b"S").and_then(Object::as_name) {
        out.push_str(&format!("{indent}{}", String::from_utf8_lossy(kind)));
        if let Ok(alt) = dict.get(b"Alt") {
            out.push_str(&format!(" “{}”", text(alt)));
        }
        if let Ok(attributes) = dict.get(b"A").and_then(Object::as_dict) {
            for (key, value) in attributes.iter().filter(|(k, _)| *k != b"O") {
                let value = match value {
                    Object::Name(name) => String::from_utf8_lossy(name).into_owned(),
                    Object::String(..) => text(value),
                    other => format!("{other:?}"),
                };
                out.push_str(&format!(" {}={value}", String::from_utf8_lossy(key)));
            }
        }
        out.push('\n');
    }
    if let Ok(kids) = dict.get(b"K") {
        outline_of(doc, kids, depth + 1, out);
    }
}

#[test]
fn layers_carry_the_booklets_own_names_and_are_on() {
    let doc = read(&painted(&everything()));
    let layers =
        doc.catalog().and_then(|c| c.get(b"OCProperties")).and_then(Object::as_dict).expect("layers");
    let names: Vec<String> = layers
        .get(b"OCGs")
        .and_then(Object::as_array)
        .expect("groups")
        .iter()
        .map(|g| doc.get_dictionary(g.as_reference().expect("a reference")).expect("a group"))
        .map(|g| text(g.get(b"Name").expect("a name")))
        .collect();
    assert_eq!(names, ["Letters", "Thread marks", "Gitterlinien für Zählende"]);
    let how = layers.get(b"D").and_then(Object::as_dict).expect("a configuration");
    assert!(how.has(b"Name") && !how.has(b"AS") && !how.has(b"OFF"));
}

#[test]
fn bookmarks_are_nested_and_lead_to_their_place() {
    let doc = read(&painted(&everything()));
    let root =
        doc.catalog().and_then(|c| c.get(b"Outlines")).and_then(Object::as_reference).expect("bookmarks");
    let entry = |of: ObjectId, key: &[u8]| {
        doc.get_dictionary(of).and_then(|d| d.get(key)).and_then(Object::as_reference).expect("an entry")
    };
    let materials = entry(entry(root, b"First"), b"Next");
    let chart = entry(materials, b"First");
    let chart = doc.get_dictionary(chart).expect("an entry");
    assert_eq!(text(chart.get(b"Title").expect("a title")), "Chart");
    let place = chart.get(b"Dest").and_then(Object::as_array).expect("a place");
    assert_eq!(place[0].as_reference().expect("a page"), page_id(&doc, 1));
    let from_foot = f64::from(place[3].as_float().expect("a number"));
    assert!((from_foot - (Mm(297.0 - 75.0).pt().0)).abs() < 0.01);
}
