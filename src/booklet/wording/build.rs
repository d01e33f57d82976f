//! Build script: turns `templates/` into Rust, so that a string that a language lacks, or that the
//! code asks for and no language has, stops the build instead of leaving a blank on a page.
//!
//! `templates/en/words.yaml` is the list of record: `section: {key: text}`. Every other language must
//! have the same keys, unless its `language.yaml` names a `base:` that it only differs from; its texts may
//! ask for the values that the English ones ask for, and its `order:` may name the sections that the
//! English one names.
//!
//! It also hashes the built-in fonts, so that no run of the program has to.

#[allow(dead_code)]
#[path = "code.rs"]
mod code;

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// The language whose keys are the list of record.
const RECORD: &str = "en";
/// The keys of a `language.yaml`: texts, and what stands for one that is left out (`None`: it must be there).
const SETTINGS: [(&str, Option<&str>); 6] = [
    ("tag", None),
    ("name", None),
    ("decimal", None),
    ("thousands", None),
    ("before_percent", Some("")),
    ("date", None),
];
/// The values that a date is written from.
const DATE: [&str; 3] = ["day", "month", "year"];

type Words = BTreeMap<String, BTreeMap<String, String>>;
type Settings = BTreeMap<String, serde_yaml::Value>;

/// A folder of `templates/`.
struct Folder {
    name: String,
    settings: Settings,
    words: Words,
}

fn main() {
    let crate_folder =
        PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets CARGO_MANIFEST_DIR"));
    hash_fonts(&crate_folder.join("fonts"));
    let root = crate_folder.join("templates");
    println!("cargo:rerun-if-changed={}", root.display());
    let mut languages = BTreeMap::new();
    for entry in fs::read_dir(&root).expect("templates/ can be read") {
        let path = entry.expect("templates/ can be read").path();
        if path.is_dir() {
            let folder = Folder::read(&path);
            languages.insert(folder.name.clone(), folder);
        }
    }
    let record = &languages[RECORD];
    let sections = record.list("order");
    let mut code = word_list(&record.words);
    code.push_str(&section_list(&sections));
    code.push_str("/// Every built-in language, in the order of their names.\n");
    code.push_str("static LANGUAGES: &[BuiltIn] = &[\n");
    for language in languages.values() {
        let _ = writeln!(code, "    BuiltIn {{\n        folder: {:?},", language.name);
        code.push_str(&language.settings(&sections));
        code.push_str("        texts: &[\n");
        for text in language.texts(&languages, &record.words) {
            let _ = writeln!(code, "            {text:?},");
        }
        code.push_str("        ],\n    },\n");
    }
    code.push_str("];\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR")).join("words.rs");
    fs::write(out, code).expect("the generated words can be written");
}

impl Folder {
    fn read(path: &Path) -> Folder {
        let text = |file: &str| {
            let path = path.join(file);
            fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
        };
        let name = path.file_name().and_then(|n| n.to_str()).expect("folder names are plain").to_owned();
        let settings = serde_yaml::from_str(&text("language.yaml"))
            .unwrap_or_else(|e| panic!("templates/{name}/language.yaml: {e}"));
        let words = serde_yaml::from_str(&text("words.yaml"))
            .unwrap_or_else(|e| panic!("templates/{name}/words.yaml: {e}"));
        Folder { name, settings, words }
    }

    /// Its `language.yaml` as Rust; a key that is missing, unknown or holds something else stops the build.
    fn settings(&self, sections: &[String]) -> String {
        let name = &self.name;
        for key in self.settings.keys() {
            let known = SETTINGS.iter().any(|(k, _)| k == key)
                || ["base", "zero_is_singular", "months", "order"].contains(&key.as_str());
            assert!(known, "templates/{name}/language.yaml: `{key}` is no key of it");
        }
        let mut code = String::from("        language: Language {\n");
        for (key, fallback) in SETTINGS {
            let text = self.settings.get(key).map_or(fallback, serde_yaml::Value::as_str);
            let text =
                text.unwrap_or_else(|| panic!("templates/{name}/language.yaml: `{key}` must be a text"));
            let _ = writeln!(code, "            {key}: Cow::Borrowed({text:?}),");
            if key == "date" {
                self.check("date", text, &DATE.map(str::to_owned));
            }
        }
        let base = self.base().map_or("None".to_owned(), |b| format!("Some(Cow::Borrowed({b:?}))"));
        let zero = self.settings.get("zero_is_singular").is_some_and(|v| v.as_bool() == Some(true));
        let (months, order) = (self.list("months"), self.list("order"));
        assert_eq!(months.len(), 12, "templates/{name}/language.yaml: `months`");
        assert!(!order.is_empty(), "templates/{name}/language.yaml: `order` names no section");
        for (i, section) in order.iter().enumerate() {
            assert!(
                sections.contains(section),
                "templates/{name}/language.yaml: there is no section `{section}`"
            );
            assert!(!order[..i].contains(section), "templates/{name}/language.yaml: `{section}` twice");
        }
        let months: String = months.iter().map(|m| format!("Cow::Borrowed({m:?}), ")).collect();
        let order: String = order.iter().map(|s| format!("SectionName::{}, ", camel(s))).collect();
        let _ = writeln!(code, "            base: {base},\n            zero_is_singular: {zero},");
        let _ = writeln!(code, "            months: Cow::Borrowed(&[{months}]),");
        let _ = writeln!(code, "            order: Cow::Borrowed(&[{order}]),\n        }},");
        code
    }

    /// The texts under a key.
    fn list(&self, key: &str) -> Vec<String> {
        let items = self.settings.get(key).and_then(|v| v.as_sequence());
        let items =
            items.unwrap_or_else(|| panic!("templates/{}/language.yaml: `{key}` must be a list", self.name));
        let text = |item: &serde_yaml::Value| {
            let text = item.as_str().filter(|t| !t.trim().is_empty());
            text.unwrap_or_else(|| {
                panic!("templates/{}/language.yaml: `{key}` holds something else", self.name)
            })
            .to_owned()
        };
        items.iter().map(text).collect()
    }

    fn base(&self) -> Option<&str> {
        self.settings.get("base").and_then(|b| b.as_str())
    }

    /// Its texts in the order of the record; a missing or unknown key, or code that is wrong, stops the build.
    fn texts<'a>(&'a self, languages: &'a BTreeMap<String, Folder>, record: &'a Words) -> Vec<&'a str> {
        let name = &self.name;
        let base = self.base().map(|b| {
            &languages.get(b).unwrap_or_else(|| panic!("templates/{name}: no base language {b}")).words
        });
        for (section, keys) in &self.words {
            for key in keys.keys() {
                assert!(
                    record.get(section).is_some_and(|r| r.contains_key(key)),
                    "templates/{name}/words.yaml: {section}.{key} is no text of templates/{RECORD}/words.yaml"
                );
            }
        }
        let mut texts = Vec::new();
        for (section, keys) in record {
            for (key, english) in keys {
                let text =
                    [Some(&self.words), base].into_iter().flatten().find_map(|w| w.get(section)?.get(key));
                let text = text
                    .unwrap_or_else(|| panic!("templates/{name}/words.yaml lacks {section}.{key}"))
                    .trim_end();
                self.check(&format!("{section}.{key}"), text, &asked_for(english.trim_end()));
                texts.push(text);
            }
        }
        texts
    }

    fn check(&self, key: &str, text: &str, values: &[String]) {
        let values: Vec<&str> = values.iter().map(String::as_str).collect();
        if let Some(fault) = code::faults(key, text, &values).first() {
            panic!("templates/{}: {key}: {:?} at `{}`", self.name, fault.wrong, &text[fault.at.clone()]);
        }
    }
}

/// The values that a text asks for, each once, in the order of their names.
fn asked_for(text: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for fault in code::faults("", text, &[]) {
        if let code::Wrong::Value(name) = fault.wrong {
            names.push(name);
        }
    }
    names.sort_unstable();
    names.dedup();
    names
}

/// The enumeration of every text, named `SectionKey`, and what each asks for.
fn word_list(record: &Words) -> String {
    let (mut variants, mut names, mut all, mut values) =
        (String::new(), String::new(), String::new(), String::new());
    for (section, keys) in record {
        for (key, text) in keys {
            let _ = writeln!(variants, "    {}{},", camel(section), camel(key));
            let _ = writeln!(names, "    \"{section}.{key}\",");
            let _ = writeln!(all, "    Word::{}{},", camel(section), camel(key));
            let _ = writeln!(values, "    &{:?},", asked_for(text.trim_end()));
        }
    }
    format!(
        "/// Every text that a booklet may say: `section.key` of `templates/en/words.yaml`.\n\
         #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]\n#[allow(missing_docs)]\n\
         pub enum Word {{\n{variants}}}\n\
         /// `section.key` of each [`Word`], in order.\nstatic NAMES: &[&str] = &[\n{names}];\n\
         /// Each [`Word`], in order.\nstatic ALL: &[Word] = &[\n{all}];\n\
         /// The values that each [`Word`] may ask for, in order.\n\
         static VALUES: &[&[&str]] = &[\n{values}];\n"
    )
}

/// The enumeration of the sections of a booklet.
fn section_list(sections: &[String]) -> String {
    let list = |each: &dyn Fn(&String) -> String| sections.iter().map(each).collect::<String>();
    format!(
        "/// Every section that a booklet may have: the `order:` of `templates/en/language.yaml`.\n\
         #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]\n#[allow(missing_docs)]\n\
         pub enum SectionName {{\n{}}}\n\
         /// Each [`SectionName`] as it is written, in order.\n\
         static SECTIONS: &[(&str, SectionName)] = &[\n{}];\n",
        list(&|s| format!("    {},\n", camel(s))),
        list(&|s| format!("    ({s:?}, SectionName::{}),\n", camel(s))),
    )
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
