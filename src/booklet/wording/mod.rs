//! Wording: everything a booklet says, in one language, and the order of its sections.
//!
//! The languages in `templates/` are built in; a maker's own folder is read with the same rules.
//!
//! * `build`: the build script, which turns `templates/` into Rust (no part of the crate);
//! * `code`, `told`: the code in a text, and what is said of what is wrong in it;
//! * `language`: how a language writes numbers and dates, and the order of the sections;
//! * `own`, `origin`: a maker's own texts, and where in the file each part of a text stands;
//! * `start`: the built-in texts as files to start from;
//! * `numbers`, `fill`: numbers as the language writes them, and texts filled in within bounds.

mod code;
mod fill;
mod language;
mod numbers;
mod origin;
mod own;
mod start;
mod told;

pub(in crate::booklet) use fill::{Filler, Stretch};
pub use language::Language;
pub(in crate::booklet) use numbers::{NBSP, Numbers};
pub use own::{OwnEntry, TemplateFile, Templates};
pub use start::{StartFile, start_files};

use crate::design::shortened;
use crate::diagnostic::{Place, Problem, Source, did_you_mean, shown};
use origin::Origin;
use own::OwnText;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

include!(concat!(env!("OUT_DIR"), "/words.rs"));

/// A language of `templates/`.
struct BuiltIn {
    /// The name of its folder.
    folder: &'static str,
    language: Language,
    /// In the order of [`Word`].
    texts: &'static [&'static str],
}

/// Everything a booklet says, in one language.
#[derive(Clone, Debug, PartialEq)]
pub struct Wording {
    /// What it is asked for by: the name of a folder of templates.
    name: String,
    /// The language's settings.
    pub language: Language,
    /// The built-in language that a maker's own one stands on.
    base: Option<String>,
    texts: &'static [&'static str],
    own: BTreeMap<Word, OwnText>,
    /// Where the maker has given these, if so.
    date: Option<Origin>,
    order: Option<Place>,
    sources: Vec<Arc<Source>>,
}

impl Wording {
    /// The names of the built-in languages.
    #[must_use]
    pub fn languages() -> Vec<&'static str> {
        LANGUAGES.iter().map(|l| l.folder).collect()
    }

    /// A built-in language; `None` when there is none of that name.
    #[must_use]
    pub fn built_in(name: &str) -> Option<Wording> {
        let found = LANGUAGES.iter().find(|l| l.folder == name)?;
        let language = found.language.clone();
        Some(Wording {
            name: name.to_owned(),
            language,
            base: None,
            texts: found.texts,
            own: BTreeMap::new(),
            date: None,
            order: None,
            sources: Vec::new(),
        })
    }

    /// A language with what a maker's own templates say otherwise. A language that is not built in is the
    /// one that the templates name as their `base`, with what they hold.
    ///
    /// # Errors
    /// When there is no such language, or the templates do not go with it.
    pub fn with(name: &str, own: &Templates) -> Result<Wording, Problem> {
        let base = own.language.base.as_ref();
        let mut wording = match (Wording::built_in(name), base) {
            (Some(_), Some(base)) if base.value != name => {
                return Err(Problem::error(format!(
                    "these templates differ from `{}`, but the booklet is to be in `{name}`",
                    base.value
                ))
                .at(base.place.clone())
                .hint(format!("ask for `--language {}`, or remove this line", base.value)));
            }
            (Some(wording), _) => wording,
            (None, Some(base)) => {
                let mut wording = Wording::built_in(&base.value).ok_or_else(|| no_language(name))?;
                wording.base = Some(base.value.clone());
                wording
            }
            (None, None) if *own == Templates::BUILT_IN => return Err(no_language(name)),
            (None, None) => {
                return Err(no_language(name)
                    .hint("say in your language.yaml which built-in one it differs from, as in `base: en`"));
            }
        };
        if let (None, Some(base), None) = (Wording::built_in(name), base, &own.language.tag) {
            return Err(Problem::error(format!(
                "`tag` is missing: `{name}` would be read aloud as `{}`",
                base.value
            ))
            .at(base.place.clone())
            .hint("add the language's tag, as in `tag: nl-NL`"));
        }
        name.clone_into(&mut wording.name);
        own.language.change(&mut wording.language)?;
        wording.own.clone_from(&own.texts);
        wording.sources.clone_from(&own.sources);
        wording.date.clone_from(&own.language.date_origin);
        wording.order = own.language.order.as_ref().map(|order| order.place.clone());
        Ok(wording)
    }

    /// The languages in which a maker's texts are looked for, nearest first: `en-US`, `en`.
    #[must_use]
    pub fn chain(&self) -> Vec<String> {
        let mut chain = shortened(&self.name);
        for base in [self.base.as_deref(), self.language.base.as_deref()].into_iter().flatten() {
            chain.extend(shortened(base));
        }
        let mut met = BTreeSet::new();
        chain.retain(|name| met.insert(name.clone()));
        chain
    }

    /// The template of one text.
    #[must_use]
    pub fn text(&self, word: Word) -> &str {
        self.own.get(&word).map_or(self.texts[word as usize], |own| &own.text)
    }

    /// Every text, in the order of [`Word`]: for digests.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        Word::all().iter().map(|&word| self.text(word))
    }

    /// The maker's own files that it was read from.
    #[must_use]
    pub fn sources(&self) -> &[Arc<Source>] {
        &self.sources
    }

    /// Where the maker has given the order of sections; `None` when it is the built-in one.
    #[must_use]
    pub fn order_place(&self) -> Option<&Place> {
        self.order.as_ref()
    }
}

/// There is no such language.
fn no_language(name: &str) -> Problem {
    Problem::error(format!("there are no templates for the language `{}`", shown(name))).hint(did_you_mean(
        name,
        &Wording::languages(),
        "there are",
    ))
}

impl Word {
    /// Every text, in the order of `words.yaml`'s keys.
    #[must_use]
    pub fn all() -> &'static [Word] {
        ALL
    }

    /// `section.key` in `words.yaml`.
    #[must_use]
    pub fn name(self) -> &'static str {
        NAMES[self as usize]
    }

    /// The values that it may ask for.
    #[must_use]
    pub fn values(self) -> &'static [&'static str] {
        VALUES[self as usize]
    }

    /// Those of its values that layout puts in.
    pub(in crate::booklet) fn late(self) -> &'static [&'static str] {
        code::late(self.name())
    }

    /// The text of a `section.key`.
    fn named(name: &str) -> Option<Word> {
        NAMES.iter().position(|n| *n == name).map(|i| ALL[i])
    }
}

impl SectionName {
    /// The names of all built-in sections.
    pub fn names() -> impl Iterator<Item = &'static str> {
        SECTIONS.iter().map(|(name, _)| *name)
    }

    /// The built-in section of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<SectionName> {
        SECTIONS.iter().find(|(known, _)| *known == name).map(|(_, section)| *section)
    }

    /// Its name in `order:`, also the target of links.
    #[must_use]
    pub fn name(self) -> &'static str {
        SECTIONS[self as usize].0
    }
}
