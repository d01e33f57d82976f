//! What a file says of itself: of a PDF the information dictionary and the XMP packet, in step; of a picture a packet.

use super::times::Times;
use crate::booklet::Meta;
use lopdf::{Dictionary, Object, StringFormat, dictionary};

/// The namespace of the booklet's own properties.
pub(super) const NAMESPACE: &str = "urn:fringebook:booklet:1#";
/// What made the file.
const MAKER: &str = concat!("fringebook ", env!("CARGO_PKG_VERSION"));
/// What wrote it.
const WRITER: &str = concat!("fringebook ", env!("CARGO_PKG_VERSION"), " with printpdf 0.12.8");

/// A text string: as it is where every character is ASCII, else UTF-16 (ISO 32000-1, 7.9.2.2).
pub(super) fn text(words: &str) -> Object {
    if words.bytes().all(|b| (0x20..0x7f).contains(&b)) {
        return Object::String(words.as_bytes().to_vec(), StringFormat::Literal);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(words.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Hexadecimal)
}

/// The information dictionary.
pub(super) fn info(meta: &Meta, times: Times) -> Dictionary {
    let mut info = dictionary! {
        "Title" => text(&meta.title),
        "Creator" => text(MAKER),
        "Producer" => text(WRITER),
    };
    for (key, value) in [
        ("Author", &meta.author),
        ("Subject", &meta.subject),
        ("Keywords", &meta.keywords.join(", ")),
        ("Stamp", meta.stamp.as_ref().unwrap_or(&String::new())),
    ] {
        if !value.is_empty() {
            info.set(key, text(value));
        }
    }
    if let Some(date) = times.pdf() {
        info.set("CreationDate", Object::string_literal(date.as_str()));
        info.set("ModDate", Object::string_literal(date));
    }
    info
}

/// The XMP packet (ISO 16684-1), with the claims of PDF/A and PDF/UA and the description of the
/// properties that PDF/A does not know (ISO 19005-2, 6.6.2.3). The booklet's own come first, so that
/// they are found quickly. `drawn` is the hash of what is drawn.
pub(super) fn packet(meta: &Meta, times: Times, drawn: &str) -> String {
    let mut x = String::with_capacity(6000);
    x.push_str("<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n");
    x.push_str("<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n");
    x.push_str("<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n");
    own(&mut x, meta, drawn);
    claims(&mut x);
    dublin_core(&mut x, meta);
    begin(&mut x, "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"");
    simple(&mut x, "xmp:CreatorTool", MAKER);
    simple(&mut x, "pdf:Producer", WRITER);
    if !meta.keywords.is_empty() {
        simple(&mut x, "pdf:Keywords", &meta.keywords.join(", "));
    }
    if let Some(date) = times.iso() {
        for name in ["xmp:CreateDate", "xmp:ModifyDate", "xmp:MetadataDate"] {
            simple(&mut x, name, &date);
        }
    }
    end(&mut x);
    extension(&mut x);
    x.push_str("</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>");
    x
}

/// The packet of a picture: what it was made of, and who made it.
#[must_use]
pub fn of_picture(meta: &Meta) -> String {
    let mut x = String::with_capacity(3000);
    x.push_str("<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n");
    x.push_str("<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n");
    own(&mut x, meta, "");
    begin(&mut x, "xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"");
    titles(&mut x, meta);
    simple(&mut x, "xmp:CreatorTool", MAKER);
    end(&mut x);
    x.push_str("</rdf:RDF>\n</x:xmpmeta>\n");
    x
}

fn own(x: &mut String, meta: &Meta, drawn: &str) {
    begin(x, &format!("xmlns:fringe=\"{NAMESPACE}\""));
    simple(x, "fringe:digest", &meta.digest);
    x.push_str("<fringe:parts><rdf:Seq>\n");
    for (name, digest) in &meta.digest_parts {
        // Values and names may hold blanks, so a tab stands between them.
        simple(x, "rdf:li", &format!("{digest}\t{name}"));
    }
    x.push_str("</rdf:Seq></fringe:parts>\n");
    simple(x, "fringe:drawn", drawn);
    simple(x, "fringe:edition", &meta.edition.to_string());
    if let Some(stamp) = &meta.stamp {
        simple(x, "fringe:stamp", stamp);
    }
    end(x);
}

fn claims(x: &mut String) {
    begin(
        x,
        "xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\" xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"",
    );
    simple(x, "pdfaid:part", "2");
    simple(x, "pdfaid:conformance", "A");
    simple(x, "pdfuaid:part", "1");
    end(x);
}

fn dublin_core(x: &mut String, meta: &Meta) {
    begin(x, "xmlns:dc=\"http://purl.org/dc/elements/1.1/\"");
    simple(x, "dc:format", "application/pdf");
    titles(x, meta);
    if !meta.subject.is_empty() {
        list(x, "dc:description", "rdf:Alt", &[("x-default", &meta.subject)]);
    }
    if !meta.keywords.is_empty() {
        let words: Vec<(&str, &str)> = meta.keywords.iter().map(|k| ("", k.as_str())).collect();
        list(x, "dc:subject", "rdf:Bag", &words);
    }
    if !meta.language.is_empty() {
        list(x, "dc:language", "rdf:Bag", &[("", &meta.language)]);
    }
    end(x);
}

/// What it is called, who made it, and who may copy it.
fn titles(x: &mut String, meta: &Meta) {
    list(x, "dc:title", "rdf:Alt", &[("x-default", &meta.title)]);
    if !meta.author.is_empty() {
        list(x, "dc:creator", "rdf:Seq", &[("", &meta.author)]);
    }
    if !meta.rights.is_empty() {
        list(x, "dc:rights", "rdf:Alt", &[("x-default", &meta.rights)]);
    }
}

/// Describes `pdfuaid` and the booklet's own properties.
fn extension(x: &mut String) {
    begin(
        x,
        "xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\" \
         xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\" \
         xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\"",
    );
    x.push_str("<pdfaExtension:schemas><rdf:Bag>\n");
    schema(
        x,
        "PDF/UA Universal Accessibility",
        "http://www.aiim.org/pdfua/ns/id/",
        "pdfuaid",
        &[("part", "Integer", "Part of ISO 14289 that the file conforms to")],
    );
    schema(
        x,
        "Pattern booklet",
        NAMESPACE,
        "fringe",
        &[
            ("digest", "Text", "Digest of everything that went into the booklet"),
            ("parts", "seq Text", "Digest and name of each thing that went into the booklet"),
            ("drawn", "Text", "Hash of what is drawn on the pages"),
            ("edition", "Integer", "Number of the edition"),
            ("stamp", "Text", "Personal line of this copy"),
        ],
    );
    x.push_str("</rdf:Bag></pdfaExtension:schemas>\n");
    end(x);
}

fn schema(x: &mut String, title: &str, namespace: &str, prefix: &str, properties: &[(&str, &str, &str)]) {
    x.push_str("<rdf:li rdf:parseType=\"Resource\">\n");
    simple(x, "pdfaSchema:schema", title);
    simple(x, "pdfaSchema:namespaceURI", namespace);
    simple(x, "pdfaSchema:prefix", prefix);
    x.push_str("<pdfaSchema:property><rdf:Seq>\n");
    for (name, kind, description) in properties {
        x.push_str("<rdf:li rdf:parseType=\"Resource\">\n");
        simple(x, "pdfaProperty:name", name);
        simple(x, "pdfaProperty:valueType", kind);
        simple(x, "pdfaProperty:category", "internal");
        simple(x, "pdfaProperty:description", description);
        x.push_str("</rdf:li>\n");
    }
    x.push_str("</rdf:Seq></pdfaSchema:property>\n</rdf:li>\n");
}

fn begin(x: &mut String, namespaces: &str) {
    x.push_str(&format!("<rdf:Description rdf:about=\"\" {namespaces}>\n"));
}

fn end(x: &mut String) {
    x.push_str("</rdf:Description>\n");
}

fn simple(x: &mut String, name: &str, value: &str) {
    x.push_str(&format!("<{name}>{}</{name}>\n", escaped(value)));
}

fn list(x: &mut String, name: &str, kind: &str, values: &[(&str, &str)]) {
    x.push_str(&format!("<{name}><{kind}>"));
    for (language, value) in values {
        let language = if language.is_empty() { String::new() } else { format!(" xml:lang=\"{language}\"") };
        x.push_str(&format!("<rdf:li{language}>{}</rdf:li>", escaped(value)));
    }
    x.push_str(&format!("</{kind}></{name}>\n"));
}

/// Text as XML holds it; characters that XML 1.0 has no place for are left out.
fn escaped(value: &str) -> String {
    let mut out = String::with_capacity(value.len());
    for c in value.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\u{0}'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            other => out.push(other),
        }
    }
    out
}
