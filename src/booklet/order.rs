//! The sections in the order that the maker or the language gives, and what an order leaves out.

use super::book::Book;
use super::sections::{self, own};
use super::{Section, SectionName, Wording};
use crate::design::{Design, Ordered};
use crate::diagnostic::{Place, Problem, did_you_mean, shown};

/// The sections of a booklet, and what is wrong with their order.
pub(super) fn sections_of(book: &Book) -> (Vec<Section>, Vec<Problem>) {
    let built_in = |name: SectionName| sections::section(name, book);
    let Some(order) = &book.design.studio.order else {
        let order = &book.words.wording().language.order;
        return (order.iter().filter_map(|name| built_in(*name)).collect(), Vec::new());
    };
    let mut problems = Vec::new();
    let mut made = Vec::new();
    for entry in &order.entries {
        match (entry.own(), SectionName::named(entry.name())) {
            (Some(own), None) => made.push(own::section(entry.name(), own)),
            (None, Some(name)) => made.extend(built_in(name)),
            (Some(_), Some(_)) => problems.push(
                Problem::error(format!("there is a built-in section `{}` already", shown(entry.name())))
                    .at(entry.place.clone())
                    .hint("give the file another name"),
            ),
            (None, None) => problems.push(unknown(entry.name(), entry.place.clone(), "the sections are")),
        }
    }
    problems.extend(lost_links(&order.entries));
    (made, problems)
}

/// Links of the maker's own sections that lead to no section. One that this booklet has not, as it has no colourways,
/// is no mistake: there the words alone are printed.
fn lost_links(entries: &[Ordered]) -> Vec<Problem> {
    let own: Vec<&str> = entries.iter().filter(|entry| entry.own().is_some()).map(Ordered::name).collect();
    let is_there = |name: &str| own.contains(&name) || SectionName::named(name).is_some();
    let leads = entries.iter().filter_map(Ordered::own).flat_map(|section| &section.leads);
    leads
        .filter(|(name, _)| !is_there(name))
        .map(|(name, place)| {
            let known: Vec<&str> =
                SectionName::names().map(|name| -> &str { name }).chain(own.iter().copied()).collect();
            Problem::error(format!("`{}` is no section of a booklet", shown(name)))
                .at(place.clone())
                .hint(did_you_mean(name, &known, "the sections are"))
        })
        .collect()
}

fn unknown(name: &str, place: Place, there_are: &str) -> Problem {
    let known: Vec<&str> = SectionName::names().collect();
    let hint = did_you_mean(name, &known, there_are);
    Problem::error(format!("`{}` is no section of a booklet", shown(name))).at(place).hint(hint)
}

/// What a design gives that no section of the maker's own order shows: photographs, and a film.
#[must_use]
pub fn unshown(design: &Design, wording: &Wording) -> Vec<Problem> {
    let (named, place): (Vec<&str>, _) = match &design.studio.order {
        Some(order) => (order.entries.iter().map(Ordered::name).collect(), &order.place),
        None => match wording.order_place() {
            Some(place) => (wording.language.order.iter().map(|name| name.name()).collect(), place),
            None => return Vec::new(),
        },
    };
    let photographs = &design.photographs;
    let given = [
        (SectionName::Cover, photographs.cover.is_some(), "the photograph for the cover"),
        (SectionName::Details, !photographs.details.is_empty(), "the photographs of details"),
        (SectionName::Steps, !photographs.steps.is_empty(), "the photographs of steps"),
        (SectionName::Steps, design.film.is_some(), "the film"),
        (SectionName::Back, photographs.back.is_some(), "the photograph for the back"),
    ];
    let lost = given.into_iter().filter(|(section, given, _)| *given && !named.contains(&section.name()));
    lost.map(|(section, _, what)| {
        Problem::warning(format!(
            "{what} of `{}` will not be shown: `order` leaves its section out",
            design.slug
        ))
        .at(place.clone())
        .hint(format!("add `{}` to the order, or take what is not shown out of the design", section.name()))
    })
    .collect()
}
