//! What a buyer of a booklet sees of a design, short enough to stand in the booklet's file: so that the next edition
//! can say what has changed.

use super::Wording;
use super::book::{Book, Edition};
use super::compose::open;
use crate::design::Design;
use crate::stitch::{SectionKind, Work};
use crate::tally::Tally;
use serde::{Deserialize, Serialize};
use siphasher::sip::SipHasher24;
use std::collections::{BTreeMap, BTreeSet};
use std::hash::Hasher;

/// What an edition shows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Record {
    /// The edition's number.
    pub edition: u32,
    /// The printed name of each letter's bead.
    letters: BTreeMap<char, String>,
    /// A hash of each row in working order, and of each strand. Two have to agree by chance for a change to go unseen:
    /// once in 2³².
    rows: Vec<u32>,
    strands: Vec<u32>,
    /// Printed names of the threads of body and fringe.
    threads: [String; 2],
    /// Printed names of the findings.
    findings: Vec<String>,
}

/// What has changed from one edition to the next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Change {
    /// A letter stands for another bead.
    Bead { letter: char, from: String, to: String },
    /// A letter is new.
    New { letter: char, bead: String },
    /// A letter is no longer used.
    Gone { letter: char, bead: String },
    /// There are more rows, or fewer.
    RowsNumber { from: usize, to: usize },
    /// These rows, from 1 in working order, are other than they were.
    Rows(BTreeSet<usize>),
    /// There are more strands, or fewer.
    StrandsNumber { from: usize, to: usize },
    /// These strands, from 1 in working order, are other than they were.
    Strands(BTreeSet<usize>),
    /// A thread or finding takes the place of another.
    Instead { from: String, to: String },
    /// A finding is new.
    Added(String),
    /// A finding is no longer used.
    Dropped(String),
}

/// What the booklet of a design shows.
#[must_use]
pub fn record(design: &Design, work: &Work, tally: &Tally, wording: &Wording, edition: &Edition) -> Record {
    Record::of(&open(design, work, tally, wording, edition))
}

impl Record {
    /// What the booklet of a book shows.
    pub(super) fn of(book: &Book) -> Record {
        let (design, work) = (book.design, book.work);
        let letters = book
            .used()
            .into_iter()
            .map(|(letter, _)| (design.letters[letter.0].symbol, book.words.own(&design.bead(letter).name)));
        Record {
            edition: design.edition,
            letters: letters.collect(),
            rows: hashes(book, work, SectionKind::Row),
            strands: hashes(book, work, SectionKind::Strand),
            threads: [&design.body_thread, &design.fringe_thread].map(|thread| book.words.own(&thread.name)),
            findings: design.findings.iter().map(|finding| book.words.own(&finding.name)).collect(),
        }
    }

    /// What a buyer sees of this edition that was otherwise in the one before.
    pub(super) fn changes_since(&self, before: &Record) -> Vec<Change> {
        let mut changes = Vec::new();
        for (letter, to) in &self.letters {
            let (letter, to) = (*letter, to.clone());
            match before.letters.get(&letter) {
                Some(from) if *from == to => {}
                Some(from) => changes.push(Change::Bead { letter, from: from.clone(), to }),
                None => changes.push(Change::New { letter, bead: to }),
            }
        }
        let gone = before.letters.iter().filter(|(letter, _)| !self.letters.contains_key(letter));
        changes.extend(gone.map(|(letter, bead)| Change::Gone { letter: *letter, bead: bead.clone() }));
        let number = |from: &[u32], to: &[u32]| (from.len() != to.len()).then_some((from.len(), to.len()));
        match number(&before.rows, &self.rows) {
            Some((from, to)) => changes.push(Change::RowsNumber { from, to }),
            None => changes.extend(others(&before.rows, &self.rows).map(Change::Rows)),
        }
        match number(&before.strands, &self.strands) {
            Some((from, to)) => changes.push(Change::StrandsNumber { from, to }),
            None => changes.extend(others(&before.strands, &self.strands).map(Change::Strands)),
        }
        for (from, to) in before.threads.iter().zip(&self.threads).filter(|(from, to)| from != to) {
            let change = Change::Instead { from: from.clone(), to: to.clone() };
            // One thread for both is told once.
            if !changes.contains(&change) {
                changes.push(change);
            }
        }
        let only = |in_: &[String], not_in: &[String]| -> Vec<String> {
            in_.iter().filter(|name| !not_in.contains(name)).cloned().collect()
        };
        let (gone, new) = (only(&before.findings, &self.findings), only(&self.findings, &before.findings));
        match (gone.as_slice(), new.as_slice()) {
            ([from], [to]) => changes.push(Change::Instead { from: from.clone(), to: to.clone() }),
            _ => {
                changes.extend(new.into_iter().map(Change::Added));
                changes.extend(gone.into_iter().map(Change::Dropped));
            }
        }
        changes
    }

    /// Whether a buyer of an edition with this number would find it other than before.
    #[must_use]
    pub fn shows_other_than(&self, before: &Record) -> bool {
        !self.changes_since(before).is_empty()
    }
}

/// The numbers, from 1, of what differs; `None` where nothing does.
fn others(before: &[u32], now: &[u32]) -> Option<BTreeSet<usize>> {
    let differ = before.iter().zip(now).enumerate().filter(|(_, (one, other))| one != other);
    let numbers: BTreeSet<usize> = differ.map(|(index, _)| index + 1).collect();
    (!numbers.is_empty()).then_some(numbers)
}

/// A hash of what is strung in each section of a kind, and where it lies.
fn hashes(book: &Book, work: &Work, kind: SectionKind) -> Vec<u32> {
    let fabric = &work.fabric;
    let of = |section: &crate::stitch::Section| {
        let mut hasher = SipHasher24::new();
        for spot in &section.beads {
            let lying = &fabric[*spot];
            let symbol = book.design.letters[lying.letter.0].symbol;
            hasher.write(&u32::from(symbol).to_be_bytes());
            // Hundredths of half a stack tell places apart.
            let aside = (lying.centre.x.0 / work.geometry.stack_width.0 * 200.0).round() as i64;
            hasher.write(&if kind == SectionKind::Row { aside } else { 0 }.to_be_bytes());
        }
        // The half of it that is kept is as good as the other.
        hasher.finish() as u32
    };
    fabric.of_kind(kind).map(|(_, section)| of(section)).collect()
}
