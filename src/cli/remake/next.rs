//! Next editions: of designs whose booklets show a buyer something else than their edition did at first.

use super::super::edited::edited;
use super::super::history::Before;
use super::super::pipeline::{self, Desk};
use super::super::settings::{PaperName, Settings};
use super::super::ticks::Ticked;
use super::RemakeArgs;
use super::plan::{Entry, Plan, Todo};
use crate::design::edition_edit::set_edition;
use crate::diagnostic::Problem;
use std::collections::BTreeSet;
use std::path::Path;

/// Gives designs their next edition, and says which they are, with its number, and what kept others from it. In a dry
/// run nothing is written.
pub(super) fn editions(args: &RemakeArgs, desk: &Desk, plan: &Plan) -> (Vec<(String, u32)>, Vec<Problem>) {
    let changed: BTreeSet<&Path> = plan
        .entries
        .iter()
        .filter(|entry| entry.otherwise || will_show_otherwise(desk, entry))
        .map(|entry| entry.of.0.as_path())
        .collect();
    let (mut next, mut problems) = (Vec::new(), Vec::new());
    for design in changed {
        match number_on(args, desk, design) {
            Ok(edition) => next.push((design.display().to_string(), edition)),
            Err(problem) => problems.push(problem),
        }
    }
    (next, problems)
}

/// Whether a booklet that is to be made anew will show something else than its edition did at first.
fn will_show_otherwise(desk: &Desk, entry: &Entry) -> bool {
    let Todo::Make { design, settings, path, .. } = &entry.todo else { return false };
    if settings.bench.is_some() || settings.picture.is_some() {
        return false;
    }
    let before = Before::at(path, Ticked::new());
    let Some(design) = desk.read(design, settings).design.filter(|_| before.is_known()) else { return false };
    let stitched = pipeline::stitched(design, Vec::new());
    desk.record(&stitched, settings).is_ok_and(|now| before.shows_other_than(&now))
}

fn number_on(args: &RemakeArgs, desk: &Desk, path: &Path) -> Result<u32, Problem> {
    let name = path.display().to_string();
    let plain = Settings::plain(PaperName::A4, false);
    let Some(design) = desk.glance(path, &plain).design else {
        return Err(Problem::error(format!("{name} cannot be read")));
    };
    let next = design.edition + 1;
    edited(path, |text| {
        let text = set_edition(&name, text, next)?;
        Ok((!args.dry_run).then_some(text))
    })?;
    Ok(next)
}
