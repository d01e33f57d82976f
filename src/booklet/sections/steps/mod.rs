//! Steps: in the order worked, with this design's numbers and diagrams. Each manner of working that the path meets is
//! told where it first occurs.

mod body;
mod film;
mod fringe;
mod joins;
mod names;
mod notes;
mod places;
mod progress;
mod rows;

use crate::booklet::book::{Book, Edition};
use crate::booklet::compose::open;
use crate::booklet::diagrams;
use crate::booklet::drawing::{self, Sign, figured};
use crate::booklet::sections::screens::of_steps;
use crate::booklet::{Block, Figure, Section, Step, Text, Word, Wording};
use crate::design::Design;
use crate::diagnostic::Problem;
use crate::stitch::{Cut, Manner, Move, Phase, SectionId, Shown, ThreadUse, Work};
use crate::tally::Tally;
use names::StepName;
pub(in crate::booklet) use places::StepPlan;
use std::collections::BTreeMap;
use std::ops::Range;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut diagrams = diagrams::figures(book);
    let mut blocks = vec![signs(book)];
    blocks.extend(film::whole(book));
    let plan = plan_of(book);
    let steps = &plan.steps;
    let mut so_far = progress::figures(book, steps);
    let (shows, _) = film::shows(book, &names(steps));
    if book.edition.tablet {
        blocks.push(of_steps(steps.iter().map(|step| step.title.clone())));
    }
    for (index, (planned, shows)) in steps.iter().zip(shows).enumerate() {
        let mut told = planned.blocks.clone();
        told.extend(shows.at.and_then(|second| film::from(book, second)));
        let mut figures = Vec::new();
        for wanted in &planned.shows {
            while let Some(at) = diagrams.iter().position(|(shown, _)| shown == wanted) {
                figures.push(diagrams.remove(at).1);
            }
        }
        figures.extend(so_far.remove(&index).unwrap_or_default());
        figures.extend(shows.photographs);
        let title = Text::plain(planned.title.as_str());
        let on_chart = plan.on_chart(book, index);
        blocks.push(Block::Step(Step { number: index + 1, title, on_chart, blocks: told, figures }));
    }
    Section {
        name: "steps".into(),
        title: words.fixed(Word::StepsTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}

/// The key to the signs of the diagrams.
fn signs(book: &Book) -> Block {
    let figure = |&sign: &Sign| {
        let (means, looks) = match sign {
            Sign::Beginning => (Word::SignsBeginning, Word::SignsBeginningAlt),
            Sign::Way => (Word::SignsWay, Word::SignsWayAlt),
            Sign::Inside => (Word::SignsInside, Word::SignsInsideAlt),
            Sign::Numbers => (Word::SignsNumbers, Word::SignsNumbersAlt),
            Sign::Needle => (Word::SignsNeedle, Word::SignsNeedleAlt),
            Sign::Bridge => (Word::SignsBridge, Word::SignsBridgeAlt),
            Sign::InPlace => (Word::SignsInPlace, Word::SignsInPlaceAlt),
            Sign::Cut => (Word::SignsCut, Word::SignsCutAlt),
            Sign::Row => (Word::SignsRow, Word::SignsRowAlt),
        };
        Figure {
            drawing: drawing::sign(book.design, sign),
            moves: Vec::new(),
            caption: Text::plain(book.words.fixed(means)),
            alt: book.words.fixed(looks),
        }
    };
    Block::Key(drawing::SIGNS.iter().map(figure).collect())
}

/// Every name in a design's film or photographs that is none of a step.
pub(in crate::booklet) fn unknown_names(book: &Book) -> Vec<Problem> {
    let design = book.design;
    let named = design.film.iter().any(|film| !film.times.is_empty()) || !design.photographs.steps.is_empty();
    if named { film::shows(book, &names(&plan_of(book).steps)).1 } else { Vec::new() }
}

fn names(steps: &[Planned]) -> Vec<StepName> {
    steps.iter().map(|step| step.name).collect()
}

/// A step before its diagrams are drawn.
pub(super) struct Planned {
    /// What a design file calls it.
    name: StepName,
    title: String,
    blocks: Vec<Block>,
    /// What its diagrams show.
    shows: Vec<Shown>,
    /// What it tells, besides what its diagrams show.
    tells: Vec<Told>,
}

/// Moves that a step tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Told {
    /// Those of a section in one manner.
    Manner(SectionId, Manner),
    /// Those of a section that no other step tells.
    Section(SectionId),
    /// Those at a guard or loop.
    Hanging(usize),
    /// Those at a place to anchor.
    Anchor(usize),
}

/// Which step tells a move.
pub struct Telling(Vec<Planned>);

impl Telling {
    /// What a design file calls each step, and its title.
    pub fn names(&self) -> impl Iterator<Item = (String, &str)> {
        self.0.iter().map(|step| (step.name.written(), step.title.as_str()))
    }

    /// How many steps there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// What the diagrams of each step show, in the order of the steps: what several steps speak of stands with the
    /// first.
    pub fn diagrams(&self) -> impl Iterator<Item = Vec<Shown>> {
        let mut met = Vec::new();
        self.0.iter().map(move |step| {
            let new: Vec<Shown> = step.shows.iter().filter(|shown| !met.contains(*shown)).copied().collect();
            met.extend(&new);
            new
        })
    }

    /// The number of the step that tells a move of a thread: the one about its own section and manner, else the one
    /// about its section, else the one that shows its manner first.
    #[must_use]
    pub fn step(&self, thread: ThreadUse, made: &Move) -> Option<usize> {
        telling_step(&self.0, thread, made).map(|index| index + 1)
    }
}

/// Which of some steps tells a move: see [`Telling::step`].
fn telling_step(steps: &[Planned], thread: ThreadUse, made: &Move) -> Option<usize> {
    let tells = |told: Told| steps.iter().position(|step| step.tells.contains(&told));
    let shows = |shown: Shown| steps.iter().position(|step| step.shows.contains(&shown));
    let manner = made.manner;
    let shown = Shown { manner, thread, time: 1 };
    let own = match made.phase {
        Phase::Section(section) => {
            tells(Told::Manner(section, manner)).or_else(|| tells(Told::Section(section)))
        }
        Phase::Hanging(index) => tells(Told::Hanging(index)),
        Phase::Beginning(anchor) | Phase::Ending(anchor) => tells(Told::Anchor(anchor)),
        Phase::Travel | Phase::Tail => None,
    };
    own.or_else(|| shows(shown))
}

/// Which step of a design's booklet tells which move.
///
/// # Errors
/// When a text of the wording cannot be filled in.
pub fn telling(
    design: &Design,
    work: &Work,
    tally: &Tally,
    wording: &Wording,
    edition: &Edition,
) -> Result<Telling, Vec<Problem>> {
    let book = open(design, work, tally, wording, edition);
    let telling = Telling(plan(&book));
    let problems = book.words.problems();
    if problems.is_empty() { Ok(telling) } else { Err(problems) }
}

/// The steps of a booklet, planned once.
pub(in crate::booklet) fn plan_of<'b>(book: &'b Book) -> &'b StepPlan {
    book.steps.get_or_init(|| StepPlan::of(book, plan(book)))
}

/// The steps of a booklet.
fn plan(book: &Book) -> Vec<Planned> {
    let mut list = Steps {
        book,
        phases: [ThreadUse::Body, ThreadUse::Fringe].map(|thread| phases(&book.work.path(thread).moves)),
        figured: figured(book.work),
        steps: Vec::new(),
    };
    let (before, after) = book.work.rows_round_hanging();
    list.begin();
    list.ladder();
    list.rows(before);
    if after.is_empty() {
        list.body_check();
    }
    list.hanging();
    if !after.is_empty() {
        list.rows(after);
        list.body_check();
    }
    list.anchoring();
    list.fringe();
    list.steps
}

/// Which steps a row's line in the word chart names.
pub(super) struct ToldRows {
    /// The step that shows how the body thread works in a manner.
    pub(super) shown: BTreeMap<Manner, usize>,
    /// The step that tells a row by itself or among others.
    pub(super) told: BTreeMap<SectionId, usize>,
}

/// Which steps tell rows.
pub(super) fn told_rows(book: &Book) -> ToldRows {
    let mut rows = ToldRows { shown: BTreeMap::new(), told: BTreeMap::new() };
    for (index, step) in plan_of(book).steps.iter().enumerate() {
        for shown in step.shows.iter().filter(|shown| **shown == Shown::body(shown.manner)) {
            rows.shown.entry(shown.manner).or_insert(index + 1);
        }
        for told in &step.tells {
            if let Told::Section(section) = told {
                rows.told.entry(*section).or_insert(index + 1);
            }
        }
    }
    rows
}

/// The row or strand before which new lengths of thread are joined, each with the number of the step that tells it.
pub(super) fn joined_in(book: &Book) -> BTreeMap<SectionId, usize> {
    let anchors = &book.work.anchors;
    if anchors.iter().all(|anchor| anchor.join.is_none()) {
        return BTreeMap::new();
    }
    let joins = |told: &Told| match told {
        Told::Anchor(index) => anchors.get(*index)?.join,
        Told::Manner(..) | Told::Section(_) | Told::Hanging(_) => None,
    };
    let steps = plan_of(book).steps.iter().enumerate();
    let of = |(index, step): (usize, &Planned)| {
        step.tells.iter().filter_map(joins).map(|section| (section, index + 1)).collect::<Vec<_>>()
    };
    steps.flat_map(of).collect()
}

/// The moves of a thread in each phase of its work: those of one lie together, but for travel.
fn phases(moves: &[Move]) -> BTreeMap<Phase, Range<usize>> {
    let mut start = 0;
    let runs = moves.chunk_by(|a, b| a.phase == b.phase).map(|chunk| {
        let run = start..start + chunk.len();
        start = run.end;
        (chunk[0].phase, run)
    });
    runs.collect()
}

/// The steps so far.
struct Steps<'a, 'w> {
    book: &'a Book<'w>,
    /// Where the moves of each phase lie in the path of the body thread, and of the fringe thread.
    phases: [BTreeMap<Phase, Range<usize>>; 2],
    /// What the figures show, which moves of the path, and whether these are a way.
    figured: Vec<(Shown, Range<usize>, bool)>,
    steps: Vec<Planned>,
}

impl Steps<'_, '_> {
    /// Adds a step with its paragraphs and the diagrams that show these.
    fn add(&mut self, name: StepName, title: String, mut blocks: Vec<Block>, shows: &[Shown]) {
        blocks.extend(shows.iter().filter_map(|shown| self.last_close_pass(*shown)));
        self.steps.push(Planned { name, title, blocks, shows: shows.to_vec(), tells: Vec::new() });
    }

    /// Says what the step added last tells.
    fn tells(&mut self, told: impl IntoIterator<Item = Told>) {
        if let Some(step) = self.steps.last_mut() {
            step.tells.extend(told);
        }
    }

    /// Adds to the step added last.
    fn add_to_last(&mut self, blocks: impl IntoIterator<Item = Block>) {
        if let Some(step) = self.steps.last_mut() {
            step.blocks.extend(blocks);
        }
    }

    /// Whether a new length of thread is joined before a row or strand.
    fn joins_before(&self, section: SectionId) -> bool {
        self.book.work.anchors.iter().any(|anchor| anchor.join == Some(section))
    }

    /// Whether an outline shows the way to what a figure draws.
    fn has_way(&self, shown: Shown) -> bool {
        self.figured.iter().any(|(other, _, is_way)| *other == shown && *is_way)
    }

    /// The number of the step added before that draws wraps large; `None` where there is none yet.
    fn wraps_drawn_in(&self) -> Option<usize> {
        let draws = |step: &Planned| step.shows.iter().any(|shown| self.enlarges(*shown));
        self.steps.iter().position(draws).map(|index| index + 1)
    }

    /// Whether the step that shows this is the first with wraps, which are drawn large there.
    fn enlarges(&self, shown: Shown) -> bool {
        let wraps = |shown: &Shown| {
            matches!(
                shown.manner,
                Manner::End | Manner::JoinEnd | Manner::JoinBegin | Manner::Begin | Manner::Tail
            )
        };
        self.figured.iter().find(|(shown, ..)| wraps(shown)).is_some_and(|(first, ..)| *first == shown)
    }

    /// The moves of a thread in a phase of its work that no figure shows: those before the figures, and those after.
    fn moves_not_drawn(&self, shown: Shown, phase: Phase) -> [&[Move]; 2] {
        let all = self.moves(shown.thread, phase);
        let begins = self.phase(shown.thread, phase).start;
        let mut drawn = self.figured.iter().filter(|(other, ..)| *other == shown).map(|(_, moves, _)| moves);
        let Some(first) = drawn.next() else { return [all, &[]] };
        let last = drawn.next_back().unwrap_or(first);
        let [from, to] = [first.start, last.end].map(|at| at.saturating_sub(begins).min(all.len()));
        [&all[..from], &all[to..]]
    }

    /// Where the moves of a phase lie in their thread's path.
    fn phase(&self, thread: ThreadUse, phase: Phase) -> Range<usize> {
        let phases = match thread {
            ThreadUse::Body => &self.phases[0],
            ThreadUse::Fringe => &self.phases[1],
        };
        phases.get(&phase).cloned().unwrap_or_default()
    }

    /// The moves of a thread in a phase of its work.
    fn moves(&self, thread: ThreadUse, phase: Phase) -> &[Move] {
        &self.book.work.path(thread).moves[self.phase(thread, phase)]
    }

    /// Moves in words, one after another.
    fn said<'m>(&self, moves: impl Iterator<Item = &'m Move>) -> String {
        diagrams::told(self.book, moves)
    }

    /// Whether a step shows this already.
    fn is_told(&self, shown: Shown) -> bool {
        self.steps.iter().any(|step| step.shows.contains(&shown))
    }
}

fn cuts_of<'a>(book: &'a Book, thread: ThreadUse) -> Vec<&'a Cut> {
    book.work.cuts.iter().filter(|c| c.thread == thread).collect()
}
