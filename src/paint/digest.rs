//! Reads the digest of a booklet back from its file, without reading the PDF: the metadata stand
//! uncompressed as the file's first object.

/// What a booklet's file says of what went into it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Digested {
    /// The digest of everything.
    pub digest: String,
    /// The digests of its parts by name, in the order in which they were given.
    pub parts: Vec<(String, String)>,
    /// The hash of what is drawn on its pages, as it was made; empty when it says nothing of that.
    pub drawn: String,
}

/// The most of a file that is looked through for its digest. The packet begins within the first
/// hundred bytes; the rest allows for thousands of parts.
const REACH: usize = 1 << 20;

/// The digest in a booklet's bytes; the first 1 MiB are enough. `None` when the file holds none.
#[must_use]
pub fn digest_of(bytes: &[u8]) -> Option<Digested> {
    let bytes = &bytes[..bytes.len().min(REACH)];
    let start = find(bytes, b"<fringe:digest>")? + b"<fringe:digest>".len();
    let rest = &bytes[start..];
    // The packet is UTF-8 whole, but the reach may end inside a character of what follows it.
    let packet = &rest[..find(rest, b"</rdf:Description>")?];
    let packet = std::str::from_utf8(packet).ok()?;
    let (digest, packet) = packet.split_once("</fringe:digest>")?;
    let (_, packet) = packet.split_once("<rdf:Seq>")?;
    let (list, after) = packet.split_once("</rdf:Seq>")?;
    let mut parts = Vec::new();
    for entry in list.split("<rdf:li>").skip(1) {
        let (entry, _) = entry.split_once("</rdf:li>")?;
        let (digest, name) = entry.split_once('\t')?;
        parts.push((plain(name), plain(digest)));
    }
    let drawn = after.split_once("<fringe:drawn>").and_then(|(_, rest)| rest.split_once("</fringe:drawn>"));
    Some(Digested {
        digest: plain(digest),
        parts,
        drawn: drawn.map_or_else(String::new, |(hash, _)| plain(hash)),
    })
}

/// Where `wanted` begins. Looks for its first byte, which `position` finds quickly.
fn find(bytes: &[u8], wanted: &[u8]) -> Option<usize> {
    let first = *wanted.first()?;
    let mut at = 0;
    loop {
        at += bytes.get(at..)?.iter().position(|b| *b == first)?;
        if bytes[at..].starts_with(wanted) {
            return Some(at);
        }
        at += 1;
    }
}

fn plain(text: &str) -> String {
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_without_one_has_none() {
        assert_eq!(digest_of(b"%PDF-1.7\n<fringe:dig"), None);
        assert_eq!(digest_of(b""), None);
        assert_eq!(digest_of(b"<fringe:digest>ab</fringe:digest>"), None);
    }

    #[test]
    fn parts_come_back_with_their_signs() {
        let packet = "<fringe:digest>ab</fringe:digest>\n<fringe:parts><rdf:Seq>\n\
                      <rdf:li>1 2\tbead a&amp;b</rdf:li>\n</rdf:Seq></fringe:parts>\n\
                      <fringe:drawn>cd</fringe:drawn>\n</rdf:Description>";
        let found = digest_of(packet.as_bytes()).expect("found");
        let parts = vec![("bead a&b".into(), "1 2".into())];
        assert_eq!(found, Digested { digest: "ab".into(), parts, drawn: "cd".into() });
    }
}
