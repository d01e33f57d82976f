//! Build script: turns `templates/` into Rust, so that a string that a language lacks, or that the
//! code asks for and no language has, stops the build instead of leaving a blank on a page.
//!
//! `templates/en/words.yaml` is the list of record: `section: {key: text}`. Every other language must
//! have the same keys, unless its `language.yaml` names a `base:` that it only differs from.
//!
//! It also hashes the built-in fonts, so that no run of the program has to.

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// The language whose keys are the list of record.
const RECORD: &str = "en";

type Words = BTreeMap<String, BTreeMap<String, String>>;

fn main() {
    let crate_folder =
        PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets CARGO_MANIFEST_DIR"));
    hash_fonts(&crate_folder.join("fonts"));
    let root = crate_folder.join("templates");
    println!("cargo:rerun-if-changed={}", root.display());
    let mut languages = BTreeMap::new();
    for entry in fs::read_dir(&root).expect("templates/ can be read") {
        let folder = entry.expect("templates/ can be read").path();
        if folder.is_dir() {
            let name =
                folder.file_name().and_then(|n| n.to_str()).expect("folder names are plain").to_owned();
            languages.insert(name, read(&folder));
        }
    }
    let record = languages[RECORD].1.clone();
    let mut code = word_list(&record);
    code.push_str("/// Every built-in language: its name, its `language.yaml`, its base, its texts in the order of [`Word`].\n");
    code.push_str("pub(super) static LANGUAGES: &[(&str, &str, &[&str])] = &[\n");
    for (name, (settings, own)) in &languages {
        let base = base_of(settings);
        let texts = complete(name, own, base.as_deref(), &languages, &record);
        let _ = writeln!(code, "    ({name:?}, {settings:?}, &[");
        for text in texts {
            let _ = writeln!(code, "        {text:?},");
        }
        code.push_str("    ]),\n");
    }
    code.push_str("];\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR")).join("words.rs");
    fs::write(out, code).expect("the generated words can be written");
}

/// A language folder's settings and words.
fn read(folder: &Path) -> (String, Words) {
    let text = |file: &str| {
        let path = folder.join(file);
        fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
    };
    let words = serde_yaml::from_str(&text("words.yaml"))
        .unwrap_or_else(|e| panic!("{}/words.yaml: {e}", folder.display()));
    (text("language.yaml"), words)
}

fn base_of(settings: &str) -> Option<String> {
    settings.lines().find_map(|l| l.strip_prefix("base:")).map(|b| b.trim().to_owned())
}

/// The texts of one language in the order of the record; a missing or unknown key stops the build.
fn complete<'a>(
    name: &str,
    own: &'a Words,
    base: Option<&str>,
    languages: &'a BTreeMap<String, (String, Words)>,
    record: &'a Words,
) -> Vec<&'a str> {
    let fallback =
        base.map(|b| &languages.get(b).unwrap_or_else(|| panic!("templates/{name}: no base language {b}")).1);
    for (section, keys) in own {
        for key in keys.keys() {
            assert!(
                record.get(section).is_some_and(|r| r.contains_key(key)),
                "templates/{name}/words.yaml: {section}.{key} is no text of templates/{RECORD}/words.yaml"
            );
        }
    }
    let mut texts = Vec::new();
    for (section, keys) in record {
        for key in keys.keys() {
            let text = [Some(own), fallback].into_iter().flatten().find_map(|w| w.get(section)?.get(key));
            texts.push(
                text.unwrap_or_else(|| panic!("templates/{name}/words.yaml lacks {section}.{key}"))
                    .trim_end(),
            );
        }
    }
    texts
}

/// The enumeration of every text, named `SectionKey`.
fn word_list(record: &Words) -> String {
    let mut code = String::from(
        "/// Every text that a booklet may say: `section.key` of `templates/en/words.yaml`.\n\
         #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]\n#[allow(missing_docs)]\npub enum Word {\n",
    );
    let mut names = String::from(
        "/// `section.key` of each [`Word`], in order.\npub(super) static NAMES: &[&str] = &[\n",
    );
    let mut all = String::from("/// Each [`Word`], in order.\npub(super) static ALL: &[Word] = &[\n");
    for (section, keys) in record {
        for key in keys.keys() {
            let _ = writeln!(code, "    {}{},", camel(section), camel(key));
            let _ = writeln!(names, "    \"{section}.{key}\",");
            let _ = writeln!(all, "    Word::{}{},", camel(section), camel(key));
        }
    }
    code.push_str("}\n");
    names.push_str("];\n");
    all.push_str("];\n");
    code + &names + &all
}

fn camel(key: &str) -> String {
    key.split(['_', '-', ' '])
        .flat_map(|part| {
            let mut chars = part.chars();
            chars.next().map(|c| c.to_ascii_uppercase().to_string() + chars.as_str())
        })
        .collect()
}

/// Hands the crate `FONTS_SHA_256`: the hash of all font files, one after another in order of their names.
fn hash_fonts(folder: &Path) {
    println!("cargo:rerun-if-changed={}", folder.display());
    let entries = fs::read_dir(folder).expect("fonts/ can be read");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("fonts/ can be read").path()).collect();
    files.retain(|file| file.extension().is_some_and(|e| e == "ttf"));
    files.sort();
    let mut hash = Sha256::new();
    for file in files {
        hash.update(fs::read(&file).unwrap_or_else(|e| panic!("{}: {e}", file.display())));
    }
    let hex: String = hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
    println!("cargo:rustc-env=FONTS_SHA_256={hex}");
}
