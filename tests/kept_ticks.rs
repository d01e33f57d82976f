//! Ticks on bench copies are carried over to newer copies, and nothing else that somebody has written
//! in a file is thrown away, whichever program has saved it.

use crate::catalogue::{Catalogue, Ran};
use fringebook::paint::{Standing, digest_of, digest_within, standing};
use lopdf::{Dictionary, Document, IncrementalDocument, Object, ObjectId, Stream, dictionary};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

const COPY: &str = "heron-bench.pdf";

fn read(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("a PDF")
}

fn written(mut doc: Document) -> Vec<u8> {
    let mut bytes = Vec::new();
    doc.save_to(&mut bytes).expect("saved");
    bytes
}

/// The form's fields by name.
fn fields(doc: &Document) -> BTreeMap<String, ObjectId> {
    let form = doc.catalog().and_then(|c| c.get_deref(b"AcroForm", doc)).and_then(Object::as_dict);
    let ids = form.and_then(|f| f.get_deref(b"Fields", doc)).and_then(Object::as_array).expect("fields");
    let named = |id: ObjectId| {
        let name = doc.get_dictionary(id).and_then(|f| f.get(b"T")).and_then(Object::as_str).expect("a name");
        (String::from_utf8_lossy(name).into_owned(), id)
    };
    ids.iter().map(|id| named(id.as_reference().expect("a reference"))).collect()
}

/// The names of all boxes of a bench copy.
pub fn box_names(bytes: &[u8]) -> BTreeSet<String> {
    fields(&read(bytes)).into_keys().collect()
}

/// The one box whose name is this but for the hash of its words.
fn the_box(doc: &Document, what: &str) -> ObjectId {
    let of = |name: &str| {
        let parts: Vec<&str> = name.split('-').filter(|p| !is_hash(p)).collect();
        parts.join("-")
    };
    let found: Vec<ObjectId> =
        fields(doc).into_iter().filter(|(name, _)| of(name) == what).map(|(_, id)| id).collect();
    assert_eq!(found.len(), 1, "{what} among {:?}", fields(doc).keys());
    found[0]
}

fn is_hash(part: &str) -> bool {
    part.len() == 8 && part.bytes().all(|b| b.is_ascii_hexdigit())
}

/// Boxes that are ticked, without the hash of their words; value and look must agree, and the look be there.
fn ticked(bytes: &[u8]) -> Vec<String> {
    let doc = read(bytes);
    let mut found = Vec::new();
    for (name, id) in fields(&doc) {
        let field = doc.get_dictionary(id).expect("a field");
        let state = |key: &[u8]| field.get(key).and_then(Object::as_name).expect("a state");
        assert_eq!(state(b"V"), state(b"AS"), "{name}");
        let looks =
            field.get(b"AP").and_then(Object::as_dict).and_then(|ap| ap.get(b"N")).and_then(Object::as_dict);
        let look = looks.and_then(|looks| looks.get_deref(state(b"AS"), &doc)).and_then(Object::as_stream);
        let strokes = look.expect("a look").get_plain_content().expect("operators");
        // A box that is not ticked is a square alone.
        assert_eq!(state(b"V") == b"Off", !strokes.windows(3).any(|w| w == b" l\n"), "{name}");
        if state(b"V") != b"Off" {
            found.push(name.split('-').filter(|p| !is_hash(p)).collect::<Vec<_>>().join("-"));
        }
    }
    found.sort();
    found
}

/// How a program saves what it has changed.
type Save = fn(&[u8], &dyn Fn(&mut Document)) -> Vec<u8>;

/// The file anew, with other numbers for objects, its metadata compressed and at the end.
fn anew(bytes: &[u8], change: &dyn Fn(&mut Document)) -> Vec<u8> {
    let mut doc = read(bytes);
    change(&mut doc);
    doc.renumber_objects_with(200);
    let metadata =
        doc.catalog().and_then(|c| c.get(b"Metadata")).and_then(Object::as_reference).expect("metadata");
    let packet = doc.objects.remove(&metadata).expect("metadata");
    let last = doc.add_object(packet);
    doc.catalog_mut().expect("a catalogue").set("Metadata", last);
    for object in doc.objects.values_mut() {
        if let Object::Stream(stream) = object {
            stream.decompress().expect("inflated");
            stream.allows_compression = true;
            stream.compress().expect("deflated");
        }
    }
    let bytes = written(doc);
    assert!(digest_of(&bytes).is_none(), "the metadata are hidden");
    bytes
}

/// The file as it was, and behind it what has changed (ISO 32000-1, 7.5.6).
fn behind(bytes: &[u8], change: &dyn Fn(&mut Document)) -> Vec<u8> {
    let before = read(bytes);
    let mut after = before.clone();
    change(&mut after);
    let mut saved = IncrementalDocument::create_from(bytes.to_vec(), before.clone());
    for (id, object) in &after.objects {
        if before.objects.get(id) != Some(object) {
            saved.new_document.objects.insert(*id, object.clone());
        }
    }
    saved.new_document.max_id = after.max_id;
    let mut out = Vec::new();
    saved.save_to(&mut out).expect("saved");
    assert!(out.starts_with(bytes) && out.len() > bytes.len());
    out
}

/// Both ways to save.
const SAVES: [Save; 2] = [anew, behind];

fn tick(doc: &mut Document, boxes: &[&str]) {
    for what in boxes {
        let id = the_box(doc, what);
        let field = doc.get_object_mut(id).and_then(Object::as_dict_mut).expect("a field");
        field.set("V", "Yes");
        field.set("AS", "Yes");
    }
}

/// Puts an annotation on a page, from 0.
fn annotate(doc: &mut Document, page: usize, kind: &str) {
    let page = doc.page_iter().nth(page).expect("a page");
    let rect: Vec<Object> = vec![20.into(), 20.into(), 60.into(), 60.into()];
    let note = dictionary! { "Type" => "Annot", "Subtype" => kind, "Rect" => rect, "Contents" => Object::string_literal("mine") };
    let note = doc.add_object(note);
    let dict = doc.get_object_mut(page).and_then(Object::as_dict_mut).expect("a page");
    let mut all = dict.get(b"Annots").and_then(Object::as_array).cloned().unwrap_or_default();
    all.push(note.into());
    dict.set("Annots", all);
}

/// A catalogue with a bench copy, saved by another program after a change.
fn changed(save: Save, change: &dyn Fn(&mut Document)) -> Catalogue {
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["bench", "heron.yaml"]).ended(0);
    let bytes = save(&catalogue.bytes(COPY), change);
    catalogue.write(COPY, bytes);
    catalogue
}

const TICKED: [&str; 8] = [
    "e1-row-1",
    "e1-row-2-chart",
    "e1-strand-1",
    "e1-strand-3",
    "e1-strand-3-run-1",
    "e2-row-2-chart",
    "e2-row-3",
    "e2-strand-3",
];
const KEPT: [&str; 5] = ["e1-row-1", "e1-row-2-chart", "e1-strand-1", "e2-row-2-chart", "e2-row-3"];
const LOST: &str = "\
warning: heron-bench.pdf: 3 ticks could not be kept, for the words beside them have changed or are gone: \
strand 3 of earring 1; strand 3 of earring 2
  what to do: see whether your beadwork still fits the pattern there, and tick again what does

";

#[test]
fn ticks_are_carried_over_where_rows_and_strands_are_the_same() {
    for save in SAVES {
        for command in [&["bench", "heron.yaml"][..], &["remake", "."]] {
            let catalogue = changed(save, &|doc| tick(doc, &TICKED));
            catalogue.edit("heron.yaml", "8A 2B 1C", "9A 2B 1C");
            let ran = catalogue.run(command);
            assert_eq!(ran.ended(0).err, LOST);
            assert!(ran.out.contains("5 ticks kept"), "{}", ran.out);
            assert_eq!(ticked(&catalogue.bytes(COPY)), KEPT);
            // Those that were carried over are carried over again.
            catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
            assert_eq!(catalogue.run(command).ended(0).err, "");
            assert_eq!(ticked(&catalogue.bytes(COPY)), KEPT);
        }
    }
}

#[test]
fn remake_tells_of_ticks_beside_the_reasons() {
    let catalogue = changed(anew, &|doc| tick(doc, &["e1-row-1"]));
    catalogue.run(&["remake", "."]).ended(0);
    catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
    let ran = catalogue.run(&["remake", "."]);
    let why = |why: &str, name: &str| (name.to_owned(), why.to_owned());
    assert_eq!(
        ran.ended(0).rows("made"),
        [why("design: title; 1 tick kept", COPY), why("design: title", "heron.pdf")]
    );
}

#[test]
fn another_language_and_other_prices_lose_no_tick() {
    let catalogue = changed(anew, &|doc| tick(doc, &TICKED));
    catalogue.edit("studio.yaml", "language: en", "language: de");
    catalogue.edit("palette.yaml", "price: 3.10", "price: 3.20");
    assert_eq!(catalogue.run(&["bench", "heron.yaml"]).ended(0).err, "");
    assert_eq!(ticked(&catalogue.bytes(COPY)), TICKED);
}

#[test]
fn a_copy_that_is_current_is_left_as_it_is_whoever_has_saved_it() {
    for save in SAVES {
        let catalogue = changed(save, &|doc| tick(doc, &TICKED));
        let before = catalogue.bytes(COPY);
        let again = catalogue.run(&["bench", "heron.yaml"]);
        assert_eq!(again.ended(0).out, "heron-bench.pdf  current, left as it is\n");
        catalogue.run(&["remake", "."]).ended(0);
        assert_eq!(catalogue.bytes(COPY), before);
    }
}

#[test]
fn replace_makes_an_empty_copy() {
    let catalogue = changed(behind, &|doc| tick(doc, &TICKED));
    catalogue.run(&["bench", "heron.yaml", "--replace"]).ended(0);
    assert!(ticked(&catalogue.bytes(COPY)).is_empty());
}

#[test]
fn a_remake_that_replaces_other_files_keeps_ticks_all_the_same() {
    let catalogue = changed(anew, &|doc| tick(doc, &TICKED));
    catalogue.write("heron.pdf", "%PDF-1.4 set by hand\n%%EOF\n");
    catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
    catalogue.run(&["remake", ".", "--replace"]).ended(0);
    assert_eq!(ticked(&catalogue.bytes(COPY)), TICKED);
    // Where there are notes too, they go.
    let noted = anew(&catalogue.bytes(COPY), &|doc| annotate(doc, 0, "Text"));
    catalogue.write(COPY, noted);
    catalogue.edit("heron.yaml", "title: Grey Heron", "title: Heron");
    catalogue.run(&["remake", ".", "--replace"]).ended(0);
    assert!(ticked(&catalogue.bytes(COPY)).is_empty());
}

/// What is said of a bench copy that is left as it is.
fn left(what: &str) -> String {
    format!(
        "error: heron-bench.pdf {what}, so it is left as it is\n  \
         what to do: rename it to keep it, or replace it, ticks and all, with --replace\n\n"
    )
}

/// That no command but one with `--replace` writes over the copy, and what they say of it.
fn is_left(catalogue: &Catalogue, what: &str) {
    let before = catalogue.bytes(COPY);
    catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
    catalogue.run(&["make", "heron.yaml"]).ended(0);
    for command in [&["bench", "heron.yaml"][..], &["remake", "."]] {
        assert_eq!(catalogue.run(command).ended(1).err, left(what));
        assert_eq!(catalogue.bytes(COPY), before);
    }
    catalogue.run(&["bench", "heron.yaml", "--replace"]).ended(0);
    assert_ne!(catalogue.bytes(COPY), before);
}

#[test]
fn notes_and_highlights_are_not_thrown_away() {
    for save in SAVES {
        let catalogue = changed(save, &|doc| {
            tick(doc, &TICKED);
            annotate(doc, 1, "Text");
            annotate(doc, 1, "Popup");
            annotate(doc, 2, "Highlight");
        });
        is_left(&catalogue, "has been written in since it was made (notes or marks on pages 2–3)");
    }
}

#[test]
fn ink_on_a_page_is_not_thrown_away() {
    for save in SAVES {
        let catalogue = changed(save, &|doc| {
            let page = doc.page_iter().next().expect("a page");
            let ink = doc.add_object(Stream::new(Dictionary::new(), b"q 10 10 m 50 50 l S Q".to_vec()));
            let dict = doc.get_object_mut(page).and_then(Object::as_dict_mut).expect("a page");
            let drawn = dict.get(b"Contents").cloned().expect("operators");
            dict.set("Contents", vec![drawn, ink.into()]);
        });
        is_left(&catalogue, "has been changed by another program since it was made");
    }
}

/// What somebody does to a file.
type Deed = fn(&mut Document);

/// What somebody may do to a file beside ticking and writing.
fn deeds() -> [(&'static str, Deed); 4] {
    [
        ("a bookmark", |doc| {
            let id =
                doc.catalog().and_then(|c| c.get(b"Outlines")).and_then(Object::as_reference).expect("one");
            let first = doc.get_dictionary(id).and_then(|o| o.get(b"First")).and_then(Object::as_reference);
            let first = doc.get_object_mut(first.expect("one")).and_then(Object::as_dict_mut).expect("one");
            first.set("Title", Object::string_literal("where I am"));
        }),
        ("a page turned", |doc| {
            let page = doc.page_iter().nth(1).expect("a page");
            doc.get_object_mut(page).and_then(Object::as_dict_mut).expect("a page").set("Rotate", 90);
        }),
        ("a file attached", |doc| {
            let names = doc.add_object(
                dictionary! { "EmbeddedFiles" => dictionary! { "Names" => Vec::<Object>::new() } },
            );
            doc.catalog_mut().expect("a catalogue").set("Names", names);
        }),
        ("a box of her own", |doc| {
            let id = the_box(doc, "e1-row-1");
            let own = doc.get_object_mut(id).and_then(Object::as_dict_mut).expect("a field");
            own.set("T", Object::string_literal("mine"));
        }),
    ]
}

#[test]
fn whatever_else_is_changed_is_not_thrown_away() {
    for (what, deed) in deeds() {
        println!("{what}");
        is_left(&changed(anew, &deed), "has been changed by another program since it was made");
    }
}

#[test]
fn what_cannot_be_judged_is_not_thrown_away() {
    let unclear = "has been saved by another program, and whether it was written in cannot be told";
    // Something is appended that no reader can follow.
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["bench", "heron.yaml"]).ended(0);
    let mut bytes = catalogue.bytes(COPY);
    bytes.extend(b"\n7 0 obj\n<< /V /Yes >>\nendobj\ntrailer\n<< /Prev 9 >>\nstartxref\n9\n%%EOF\n");
    catalogue.write(COPY, &bytes);
    is_left(&catalogue, unclear);
    // Ticked, saved behind, and then cut short.
    let catalogue = changed(behind, &|doc| tick(doc, &TICKED));
    let bytes = catalogue.bytes(COPY);
    catalogue.write(COPY, &bytes[..bytes.len() - 40]);
    is_left(&catalogue, unclear);
    // The hash of what is drawn has been taken out.
    let catalogue = Catalogue::with_heron();
    catalogue.run(&["bench", "heron.yaml"]).ended(0);
    let bytes = catalogue.bytes(COPY);
    let text = b"<fringe:drawn>";
    let at = bytes.windows(text.len()).position(|w| w == text).expect("a hash");
    let bytes = [&bytes[..at], b"<fringe:gone_>", &bytes[at + text.len()..]].concat();
    catalogue.write(COPY, bytes);
    is_left(&catalogue, unclear);
}

#[test]
fn a_booklet_with_notes_is_left_and_one_only_saved_again_is_made_anew() {
    for save in SAVES {
        let catalogue = Catalogue::with_heron();
        catalogue.run(&["make", "heron.yaml"]).ended(0);
        let made = catalogue.bytes("heron.pdf");
        let producer: &dyn Fn(&mut Document) = &|doc| {
            let info = doc.trailer.get(b"Info").and_then(Object::as_reference).expect("one");
            let info = doc.get_object_mut(info).and_then(Object::as_dict_mut).expect("one");
            info.set("Producer", Object::string_literal("some reader"));
        };
        catalogue.write("heron.pdf", save(&made, producer));
        catalogue.run(&["make", "heron.yaml"]).ended(0);
        assert_eq!(catalogue.bytes("heron.pdf"), made);

        let noted = save(&made, &|doc| annotate(doc, 3, "Text"));
        catalogue.write("heron.pdf", &noted);
        catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
        for command in [&["make", "heron.yaml"][..], &["remake", "."]] {
            assert_eq!(
                catalogue.run(command).ended(1).err,
                "error: heron.pdf has been written in since it was made (notes or marks on page 4), so it is left \
                 as it is\n  what to do: rename it to keep it, or replace it with --replace\n\n"
            );
            assert_eq!(catalogue.bytes("heron.pdf"), noted);
        }
    }
}

#[test]
fn a_title_that_reads_like_the_end_of_a_file_is_no_writing_in() {
    let catalogue = Catalogue::with_heron();
    catalogue.edit("heron.yaml", "title: Heron", "title: \"startxref 9 %%EOF %%EOF\"");
    for command in ["make", "bench"] {
        catalogue.run(&[command, "heron.yaml"]).ended(0);
    }
    catalogue.edit("heron.yaml", "edition: 1", "edition: 2");
    for command in ["make", "bench"] {
        let again: Ran = catalogue.run(&[command, "heron.yaml"]);
        assert_eq!(again.ended(0).err, "");
        assert!(again.out.contains("pages"), "{}", again.out);
    }
}

/// Encrypted so that it opens without a password, as some programs save; only where qpdf is installed.
#[test]
fn an_encrypted_copy_is_never_taken_for_untouched() {
    let catalogue = changed(anew, &|doc| tick(doc, &TICKED));
    let plain = catalogue.path("plain.pdf");
    std::fs::rename(catalogue.path(COPY), &plain).expect("renamed");
    let encrypt = |password: &str, to: &Path| {
        let mut qpdf = Command::new("qpdf");
        qpdf.args(["--encrypt", password, "owner", "256", "--"]).arg(&plain).arg(to).status().is_ok()
    };
    if !encrypt("", &catalogue.path(COPY)) {
        println!("skipped: there is no qpdf");
        return;
    }
    catalogue.edit("heron.yaml", "title: Heron", "title: Grey Heron");
    catalogue.run(&["bench", "heron.yaml"]).ended(0);
    assert_eq!(ticked(&catalogue.bytes(COPY)), TICKED);

    assert!(encrypt("secret", &catalogue.path(COPY)));
    let before = catalogue.bytes(COPY);
    catalogue.run(&["bench", "heron.yaml"]).ended(1);
    assert_eq!(catalogue.bytes(COPY), before);
}

/// Damage of every kind: bytes changed, taken out and put in, anywhere in the file.
fn damaged(bytes: &[u8], seed: u64) -> Vec<u8> {
    // Knuth's multiplier and the upper bits: the same damage on every machine.
    let mut state = seed;
    let mut below = |limit: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % limit
    };
    let mut bytes = bytes.to_vec();
    for _ in 0..=below(4) {
        let at = below(bytes.len());
        match below(4) {
            0 => bytes[at] = below(256) as u8,
            1 => bytes[at] ^= 1 << below(8),
            2 => drop(bytes.drain(at..bytes.len().min(at + 1 + below(40)))),
            _ => {
                let from = below(bytes.len());
                let piece = bytes[from..bytes.len().min(from + 40)].to_vec();
                bytes.splice(at..at, piece);
            }
        }
    }
    bytes
}

/// Whatever happens to a ticked copy, it is never read as one with fewer ticks. More files with
/// `FRINGEBOOK_DAMAGED=100000`.
#[test]
fn a_damaged_copy_is_never_read_as_one_with_fewer_ticks() {
    let files = std::env::var("FRINGEBOOK_DAMAGED").ok().and_then(|n| n.parse().ok()).unwrap_or(60);
    let copies = SAVES.map(|save| changed(save, &|doc| tick(doc, &TICKED)).bytes(COPY));
    let boxes = |bytes: &[u8]| match standing(bytes, true) {
        Standing::Ticked { boxes } => Some(boxes),
        _ => None,
    };
    let whole = copies.each_ref().map(|bytes| boxes(bytes).expect("ticks"));
    let mut judged = 0;
    for seed in 0..files {
        for (copy, whole) in copies.iter().zip(&whole) {
            let bytes = damaged(copy, seed);
            if let Some(read) = boxes(&bytes) {
                judged += 1;
                assert!(whole.is_subset(&read), "seed {seed}: {:?}", whole.difference(&read));
            }
            let _ = digest_within(&bytes);
        }
    }
    println!("{judged} of {} were still read", 2 * files);
}
