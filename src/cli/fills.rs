//! How full the pages of a booklet are, for `check --pages`.

use super::settings::Settings;
use super::table::{Align, Table};
use crate::layout::DisplayList;
use std::path::Path;

/// A page that is filled less than this looks empty, unless it ends the booklet.
const HALF: f64 = 0.5;

/// A table of the pages of one booklet under a line that says which it is.
pub(super) fn told(path: &Path, settings: &Settings, list: &DisplayList) -> String {
    let mut table = Table::new(&[
        ("page", Align::Right),
        ("filled", Align::Right),
        ("begins in", Align::Left),
        ("", Align::Left),
    ]);
    let count = list.pages.len();
    // A back has the last page to itself: what stands before it ends the booklet.
    let last = list.pages.iter().rposition(|page| page.running).map_or(count, |last| last + 1);
    for (index, (page, fill)) in list.pages.iter().zip(list.fills()).enumerate() {
        let (filled, section) = match page.running {
            true => (format!("{:.0} %", (fill * 100.0).floor()), page.section.clone()),
            false => (String::new(), page.label.clone()),
        };
        // A screen holds a row or a step, full or not.
        let empty = fill < HALF && index + 1 < last && !settings.tablet;
        let note = if empty { "more than half empty" } else { "" };
        table.row(vec![(index + 1).to_string(), filled, section, note.to_owned()]);
    }
    let pages = if count == 1 { "page" } else { "pages" };
    let on = if settings.tablet { "tablet" } else { settings.paper.word() };
    format!("{}, {on}: {count} {pages}\n{}", path.display(), table.lines())
}
