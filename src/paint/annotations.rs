//! Links and boxes to tick.

use super::error::PaintError;
use super::operators::{Script, points, round};
use super::xmp::text;
use crate::colour::Colour;
use crate::layout::{DisplayList, Link, NodeId, Page, Target, TickBox};
use crate::units::{Mm, Point, Size};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use std::collections::{BTreeMap, BTreeSet};

/// An annotation and the node that owns it.
pub(super) struct Annotation {
    /// Its object.
    pub id: ObjectId,
    /// Its page, from 0.
    pub page: usize,
    /// Its node.
    pub node: NodeId,
}

/// `Print`, and nothing else (ISO 32000-1, table 165): PDF/A asks for it.
const PRINTED: i64 = 4;
/// The state of a box that is ticked; that of one that is not must be `Off` (ISO 32000-1, 12.7.4.2.3).
const TICKED: &str = "Yes";
/// Ink of ticks and of the edges of their boxes.
const INK: Colour = Colour::new(0x22, 0x22, 0x22);

/// Adds all annotations to their pages, and the form that the boxes belong to.
///
/// # Errors
/// When a link leads to no page or two boxes share a name.
pub(super) fn add(
    list: &DisplayList,
    doc: &mut Document,
    pages: &[ObjectId],
) -> Result<(Vec<Annotation>, Option<Dictionary>), PaintError> {
    let mut made = Vec::new();
    let mut fields = Vec::new();
    let mut names = BTreeSet::new();
    let mut appearances = BTreeMap::new();
    for (index, page) in list.pages.iter().enumerate() {
        let mut on_page = Vec::new();
        let mut put = |doc: &mut Document, made: &mut Vec<Annotation>, mut dict: Dictionary, node: NodeId| {
            dict.set("StructParent", (pages.len() + made.len()) as i64);
            dict.set("P", pages[index]);
            dict.set("F", PRINTED);
            let id = doc.add_object(dict);
            on_page.push(Object::Reference(id));
            made.push(Annotation { id, page: index, node });
            id
        };
        for link in &page.links {
            let dict = link_dict(list, page, link, pages)?;
            put(doc, &mut made, dict, link.node);
        }
        for tick in &page.ticks {
            if !names.insert(tick.name.as_str()) {
                return Err(PaintError::TwiceNamed { name: tick.name.clone() });
            }
            let side = points(tick.side);
            let states = *appearances
                .entry((side * 100.0).round() as i64)
                .or_insert_with(|| [appearance(doc, side, false), appearance(doc, side, true)]);
            let dict = tick_dict(page, tick, states);
            fields.push(Object::Reference(put(doc, &mut made, dict, tick.node)));
        }
        if let Ok(dict) = doc.get_object_mut(pages[index]).and_then(Object::as_dict_mut) {
            if on_page.is_empty() {
                dict.remove(b"Annots");
            } else {
                dict.set("Annots", on_page);
            }
        }
    }
    let form = (!fields.is_empty()).then(|| dictionary! { "Fields" => fields });
    Ok((made, form))
}

fn rectangle(page: &Page, at: Point, size: Size) -> Object {
    let (left, top) = (points(at.x), points(page.size.height) - points(at.y));
    let (right, bottom) = (left + points(size.width), top - points(size.height));
    Object::Array([left, bottom, right, top].iter().map(|v| Object::Real(round(*v))).collect())
}

/// A place in the document, as bookmarks and links name it: page from 0, distance from its top. The
/// magnification stays as the reader has it.
pub(super) fn destination(
    list: &DisplayList,
    pages: &[ObjectId],
    page: usize,
    y: Mm,
    from: &str,
) -> Result<Object, PaintError> {
    let (Some(shown), Some(id)) = (list.pages.get(page), pages.get(page)) else {
        return Err(PaintError::Reference {
            what: format!("“{from}” leads to page {}, which there is not", page + 1),
        });
    };
    let height = points(shown.size.height);
    Ok(Object::Array(vec![
        Object::Reference(*id),
        "XYZ".into(),
        Object::Integer(0),
        Object::Real(round((height - points(y)).clamp(0.0, height))),
        Object::Integer(0),
    ]))
}

fn link_dict(
    list: &DisplayList,
    page: &Page,
    link: &Link,
    pages: &[ObjectId],
) -> Result<Dictionary, PaintError> {
    let action = match &link.target {
        Target::Page { page, y } => dictionary! {
            "S" => "GoTo",
            "D" => destination(list, pages, *page, *y, &link.alt)?,
        },
        Target::Web(address) => dictionary! {
            "S" => "URI",
            "URI" => Object::string_literal(ascii_address(address)),
        },
    };
    Ok(dictionary! {
        "Type" => "Annot",
        "Subtype" => "Link",
        "Rect" => rectangle(page, link.at, link.size),
        "Border" => vec![0.into(), 0.into(), 0.into()],
        "Contents" => text(&link.alt),
        "A" => action,
    })
}

/// A web address in the seven-bit characters that the file's format asks for (RFC 3986, 2.1).
fn ascii_address(address: &str) -> String {
    let mut out = String::new();
    for byte in address.bytes() {
        if byte.is_ascii_graphic() {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

fn tick_dict(page: &Page, tick: &TickBox, [off, on]: [ObjectId; 2]) -> Dictionary {
    let state = if tick.ticked { TICKED } else { "Off" };
    dictionary! {
        "Type" => "Annot",
        "Subtype" => "Widget",
        "FT" => "Btn",
        "T" => text(&tick.name),
        "TU" => text(&tick.tooltip),
        "Contents" => text(&tick.tooltip),
        "Rect" => rectangle(page, tick.at, Size { width: tick.side, height: tick.side }),
        "V" => state,
        "DV" => "Off",
        "AS" => state,
        "AP" => dictionary! { "N" => dictionary! { "Off" => off, TICKED => on } },
    }
}

/// How a box looks: an empty square of white paper with a line round it, and a tick drawn as a path in it, so that
/// no viewer needs a font to show it.
fn appearance(doc: &mut Document, side: f64, ticked: bool) -> ObjectId {
    let line = (0.06 * side).clamp(0.5, 1.2);
    let mut script = Script::default();
    script.fill(Colour::WHITE).stroke(INK).op("w", &[line]).word("1 j");
    script.op("re", &[line / 2.0, line / 2.0, side - line, side - line]).word("B");
    if ticked {
        script.op("w", &[0.13 * side]).word("1 J");
        script.op("m", &[0.24 * side, 0.5 * side]);
        script.op("l", &[0.43 * side, 0.28 * side]);
        script.op("l", &[0.78 * side, 0.74 * side]).word("S");
    }
    let side = Object::Real(round(side));
    let dict = dictionary! {
        "Type" => "XObject",
        "Subtype" => "Form",
        "FormType" => 1,
        "BBox" => vec![0.into(), 0.into(), side.clone(), side],
        "Resources" => Dictionary::new(),
    };
    doc.add_object(Stream::new(dict, script.bytes()))
}
