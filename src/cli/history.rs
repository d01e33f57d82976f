//! What is kept of the copy that stood under a booklet's name before: its ticks, and what its edition and the one before
//! that showed.

use super::digest::{self, SHOWN, SHOWN_BEFORE, SHOWN_OTHERWISE};
use super::existing::{self, Existing};
use super::ticks::Ticked;
use crate::booklet::Record;
use std::path::Path;

/// What is kept of the copy before.
#[derive(Debug, Default)]
pub(super) struct Before {
    /// Its boxes to tick.
    pub(super) ticked: Ticked,
    /// What its edition showed when it was first made.
    shown: Option<Record>,
    /// What the edition before it showed.
    earlier: Option<Record>,
}

impl Before {
    /// What stands under a booklet's name, with its boxes to tick.
    pub(super) fn at(path: &Path, ticked: Ticked) -> Before {
        Before::of(&existing::look(path), ticked)
    }

    /// The same of what has been looked at already.
    pub(super) fn of(stands: &Existing, ticked: Ticked) -> Before {
        let (Existing::Ours(made) | Existing::Damaged(made)) = stands else {
            return Before { ticked, ..Before::default() };
        };
        let part = |name| digest::part(&made.parts, name).and_then(|text| serde_json::from_str(text).ok());
        Before { ticked, shown: part(SHOWN), earlier: part(SHOWN_BEFORE) }
    }

    /// What the edition before the one of this number showed, as far as it is known.
    pub(super) fn edition_before(&self, edition: u32) -> Option<Record> {
        let known = [&self.shown, &self.earlier].into_iter().flatten();
        known.filter(|record| record.edition < edition).max_by_key(|record| record.edition).cloned()
    }

    /// What an edition was first, of which a copy shows this now.
    fn first<'a>(&'a self, now: &'a Record) -> &'a Record {
        self.shown.as_ref().filter(|shown| shown.edition == now.edition).unwrap_or(now)
    }

    /// Whether anything is known of what it showed.
    pub(super) fn is_known(&self) -> bool {
        self.shown.is_some()
    }

    /// Whether a buyer of an earlier copy of the same edition would find this one other than hers.
    pub(super) fn shows_other_than(&self, now: &Record) -> bool {
        now.shows_other_than(self.first(now))
    }

    /// What a booklet that shows this says in its metadata of its own edition and of the one before.
    pub(super) fn recorded(&self, now: &Record) -> Vec<(String, String)> {
        // Nothing in it can fail to become JSON: no map with odd keys, no float.
        let json = |record: &Record| serde_json::to_string(record).unwrap_or_default();
        let parts = [
            Some((SHOWN, json(self.first(now)))),
            self.edition_before(now.edition).map(|before| (SHOWN_BEFORE, json(&before))),
            self.shows_other_than(now).then(|| (SHOWN_OTHERWISE, "yes".to_owned())),
        ];
        parts.into_iter().flatten().map(|(name, value)| (name.to_owned(), value)).collect()
    }
}
