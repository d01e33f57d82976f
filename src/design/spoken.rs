//! A design in one language: each text of the maker's that is given in several reads in that one.

use super::model::{BeadId, Design, Letter, Palette, Picture, Studio, Tools};
use super::phrase::{Phrase, Tongue};
use crate::diagnostic::{Problem, sort};
use std::collections::BTreeSet;

impl Design {
    /// Lets every text read in a language.
    pub fn speak(&mut self, tongue: &Tongue) {
        let own = [&mut self.title, &mut self.summary];
        let colourways = self.colourways.iter_mut().map(|colourway| &mut colourway.name);
        let threads = [&mut self.body_thread, &mut self.fringe_thread].map(|thread| &mut thread.name);
        let findings = self.findings.iter_mut().map(|finding| &mut finding.name);
        own.into_iter()
            .chain(colourways)
            .chain(threads)
            .chain(findings)
            .for_each(|phrase| phrase.speak(tongue));
        self.palette.phrases_mut().for_each(|phrase| phrase.speak(tongue));
        self.studio.phrases_mut().for_each(|phrase| phrase.speak(tongue));
        self.photographs.captions_mut().for_each(|phrase| phrase.speak(tongue));
        self.studio.order.iter_mut().for_each(|order| order.speak(tongue));
        let running = [&mut self.studio.head, &mut self.studio.foot];
        running.into_iter().flatten().for_each(|running| running.speak(tongue));
        self.studio.logo.iter_mut().chain(self.photographs.pictures_mut()).for_each(|p| p.speak(tongue));
        if let Some(film) = &mut self.film {
            film.address.speak(tongue);
            film.times.iter_mut().for_each(|time| time.at.speak(tongue));
        }
    }

    /// Advice for each text that its booklet prints and that is not given in a language, in reading order.
    #[must_use]
    pub fn not_given_in(&self, tongue: &Tongue) -> Vec<Problem> {
        let printed = self.printed();
        let mut missing: Vec<Problem> = printed.iter().filter_map(|phrase| phrase.missing(tongue)).collect();
        sort(&mut missing);
        missing
    }

    /// The maker's texts that its booklet prints; some stand in it more than once.
    fn printed(&self) -> Vec<&Phrase> {
        let mut printed = vec![&self.title, &self.summary];
        printed.extend(self.colourways.iter().map(|colourway| &colourway.name));
        let changed = self.colourways.iter().flat_map(|colourway| &colourway.changes);
        let letters = self.letters.iter().chain(changed.map(|(_, letter)| letter));
        let beads = |letter: &Letter| [Some(letter.bead), letter.replaces].into_iter().flatten();
        let beads: BTreeSet<BeadId> = letters.flat_map(beads).collect();
        printed.extend(beads.iter().map(|id| &self.palette.beads[id.0]).flat_map(|b| [&b.name, &b.finish]));
        printed.extend([&self.body_thread.name, &self.fringe_thread.name]);
        printed.extend(self.findings.iter().map(|finding| &finding.name));
        printed.extend(self.palette.tools.names());
        let Studio { copyright, terms, logo, head, foot, order, .. } = &self.studio;
        printed.extend(std::iter::once(copyright).chain(terms));
        printed.extend(logo.iter().chain(self.photographs.pictures()).map(|picture| &picture.shows));
        printed.extend(self.photographs.captioned().map(|photograph| &photograph.caption));
        printed.extend(order.iter().flat_map(|order| order.files()));
        // Values alone read in every language.
        let running = [head, foot].into_iter().flatten().flat_map(|running| running.parts());
        printed.extend(running.filter(|part| part.is_in_languages() || part.has_words()));
        // One film may do for all languages.
        let film = self
            .film
            .iter()
            .flat_map(|film| std::iter::once(&film.address).chain(film.times.iter().map(|time| &time.at)));
        printed.extend(film.filter(|phrase| phrase.is_in_languages()));
        printed
    }
}

impl Palette {
    fn phrases_mut(&mut self) -> impl Iterator<Item = &mut Phrase> {
        let beads = self.beads.iter_mut().flat_map(|bead| [&mut bead.name, &mut bead.finish]);
        let threads = self.threads.iter_mut().map(|thread| &mut thread.name);
        let findings = self.findings.iter_mut().map(|finding| &mut finding.name);
        beads.chain(threads).chain(findings).chain(self.tools.names_mut())
    }
}

impl Tools {
    /// What they are called.
    fn names(&self) -> Vec<&Phrase> {
        match self {
            Tools::ByUse(tools) => tools.iter().map(|(_, name)| name).collect(),
            Tools::Listed(names) => names.iter().collect(),
        }
    }

    fn names_mut(&mut self) -> Vec<&mut Phrase> {
        match self {
            Tools::ByUse(tools) => tools.iter_mut().map(|(_, name)| name).collect(),
            Tools::Listed(names) => names.iter_mut().collect(),
        }
    }
}

impl Studio {
    fn phrases_mut(&mut self) -> impl Iterator<Item = &mut Phrase> {
        std::iter::once(&mut self.copyright).chain(&mut self.terms)
    }

    /// The paragraphs of the terms of use.
    pub fn paragraphs(&self) -> impl Iterator<Item = String> {
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let paragraphs = self.terms.iter().flat_map(|term| term.split("\n\n"));
        paragraphs.map(words).filter(|paragraph| !paragraph.is_empty())
    }
}

impl Picture {
    fn speak(&mut self, tongue: &Tongue) {
        self.shows.speak(tongue);
        self.shows.as_str().clone_into(&mut self.image.alt);
    }
}
