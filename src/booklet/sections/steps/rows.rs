//! Steps of the rows: each manner in which a row is worked is told with the first row that has it; rows that have
//! nothing new are gathered.

use super::names::{ADDING, BUILDING_OUT, BUILDING_OUT_ENDING, ENDING, StepName};
use super::{Steps, Told};
use crate::booklet::Word;
use crate::booklet::diagrams;
use crate::booklet::sections::parts::{check, paragraph};
use crate::stitch::{Manner, Move, MoveKind, Phase, RowWork, Shown, StackRun, ThreadUse, Way};
use minijinja::context;
use std::collections::BTreeSet;

/// How stacks are built on at the start of a row, and at its end.
const BUILT: [Manner; 2] = [Manner::BuiltOut, Manner::BuiltOutEnd];

/// How a row is worked after its first stacks.
const LATER: [Manner; 5] =
    [Manner::BuiltOut, Manner::Onward, Manner::OnwardBelow, Manner::WiderEnd, Manner::BuiltOutEnd];

impl Steps<'_, '_> {
    /// The steps of some rows that lie on others.
    pub(super) fn rows(&mut self, rows: &[RowWork]) {
        let mut alike: Vec<RowWork> = Vec::new();
        let fabric = &self.book.work.fabric;
        for row in rows.iter().filter(|row| fabric[row.section].lies.is_some()) {
            if self.joins_before(row.section) {
                self.alike(&std::mem::take(&mut alike));
                self.join(ThreadUse::Body, row.section);
            }
            let begins = self.begins(row);
            let first = !self.is_told(begins);
            // Seen from the other side it looks different.
            let again = !first && self.is_worth_seeing_again(row) && !self.is_told(begins.again());
            let later = LATER.into_iter().filter(|manner| {
                !self.is_told(Shown::body(*manner))
                    && self.row_moves(row).iter().any(|made| made.manner == *manner)
            });
            let mut later: Vec<Manner> = later.collect();
            // In the order in which they come in the row.
            later.sort_by_key(|manner| self.row_moves(row).iter().position(|made| made.manner == *manner));
            if !first && !again && later.is_empty() {
                alike.push(row.clone());
                continue;
            }
            self.alike(&std::mem::take(&mut alike));
            self.row(row, (first, again), &later);
        }
        self.alike(&alike);
    }

    /// What the start of a row is told as: that of a single stack with that of narrower rows.
    fn begins(&self, row: &RowWork) -> Shown {
        let shown = Shown::body(self.manner(row));
        let narrower = Shown::body(Manner::Narrower);
        if shown.manner == Manner::Alone && self.is_told(narrower) { narrower } else { shown }
    }

    /// Whether a row that begins as another did does so from the other side.
    fn is_worth_seeing_again(&self, row: &RowWork) -> bool {
        let begins = self.begins(row).manner;
        let single_again = self.is_single(row) && self.is_told(Shown::body(Manner::Alone));
        let first = self.book.work.rows.iter().find(|other| self.manner(other) == begins);
        let from_the_other_side = first.is_some_and(|first| first.from != row.from);
        matches!(begins, Manner::Narrower | Manner::Wider) && from_the_other_side && !single_again
    }

    /// The steps of a row that has something new.
    fn row(&mut self, row: &RowWork, (first, again): (bool, bool), later: &[Manner]) {
        let number = row.number;
        let begins = self.begins(row);
        if first {
            let (title, text) = self.start(row);
            self.add(named(number, ""), title, vec![paragraph(&text)], &[begins]);
            self.tells([Told::Manner(row.section, self.manner(row)), Told::Section(row.section)]);
        } else if again {
            let words = &self.book.words;
            let (title, text, shows) = if self.is_single(row) {
                // How others start from here, a later row may show.
                let title = words.say(Word::StepsRowStart, context! { row => number });
                (title, self.single(row), Shown::body(Manner::Alone))
            } else {
                let title = words.say(Word::StepsNextRows, context! { row => number });
                let before = self.book.work.row_before(row).map_or(0, |before| before.number);
                let side = self.book.side_started(row.from);
                let beads = self.book.spaced(&row.starts_with);
                let values =
                    context! { row => number, before, side, beads, shaped => !self.book.design.is_plain() };
                (title, words.say(Word::StepsNextRowsText, values), begins.again())
            };
            self.add(named(number, ""), title, vec![paragraph(&text)], &[shows]);
            self.tells([Told::Section(row.section)]);
        }
        let mut before: Vec<String> = self.way_of_row(row).filter(|_| !first).into_iter().collect();
        if !first && !again {
            let values = context! {
                row => number, side => self.book.side_started(row.from),
                beads => self.book.spaced(&row.starts_with),
            };
            before.push(self.book.words.say(Word::StepsRowBegins, values));
        }
        // Stacks that are built on at the start of a row come before what is told next, those at its end after it.
        let [at_start, at_end] =
            BUILT.map(|manner| self.built_way(row, manner).filter(|_| !later.contains(&manner)));
        before.extend(at_start);
        let mut goes_on = self.goes_on(row, later).into_iter();
        before.extend(goes_on.next().and_then(|(text, _)| text));
        if first || again {
            let ways: Vec<_> = before.drain(..).map(|way| paragraph(&way)).collect();
            self.add_to_last(ways);
        }
        for manner in later {
            let (title, mut text) = self.further(row, *manner);
            if !before.is_empty() {
                text = format!("{} {text}", std::mem::take(&mut before).join(" "));
            }
            let part = match manner {
                Manner::WiderEnd => ENDING,
                Manner::BuiltOut => BUILDING_OUT,
                Manner::BuiltOutEnd => BUILDING_OUT_ENDING,
                _ => ADDING,
            };
            self.add(named(number, part), title, vec![paragraph(&text)], &[Shown::body(*manner)]);
            self.tells([Told::Manner(row.section, *manner)]);
            // The start of a row that starts as others have is said in the first of its steps.
            if !first && !again && Some(manner) == later.first() {
                self.tells([Told::Section(row.section)]);
            }
            if let Some((text, manners)) = goes_on.next() {
                self.add_to_last(text.iter().map(|text| paragraph(text)));
                self.tells(manners.into_iter().map(|manner| Told::Manner(row.section, manner)));
            }
        }
        if let Some(way) = at_end {
            self.add_to_last([paragraph(&way)]);
            self.tells([Told::Manner(row.section, Manner::BuiltOutEnd)]);
        }
        let warnings = self.warnings(std::slice::from_ref(row));
        self.add_to_last(warnings);
        if (first || !later.is_empty()) && !row.then.is_empty() {
            let check = self.row_check(row);
            self.add_to_last([check]);
        }
    }

    /// Rows in which nothing is new.
    fn alike(&mut self, rows: &[RowWork]) {
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else { return };
        let words = &self.book.words;
        let plain = self.book.design.is_plain();
        let word = if plain { Word::StepsMoreRowsText } else { Word::StepsMoreRowsShapeText };
        let mut text = words.say(word, context! { one => rows.len() == 1 });
        // Where a row starts further in, the way there differs from row to row.
        for row in rows {
            let built = BUILT.into_iter().filter_map(|manner| self.built_way(row, manner));
            for way in self.way_of_row(row).into_iter().chain(built) {
                text = format!("{text} {way}");
            }
        }
        if self.is_single(last) {
            text = format!("{text} {}", self.single(last));
        }
        let title = if rows.len() == 1 {
            words.say(Word::StepsMoreRow, context! { from => first.number })
        } else {
            words.say(Word::StepsMoreRows, context! { from => first.number, to => last.number })
        };
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings(rows));
        let name = StepName::Rows { from: first.number, to: last.number, part: "" };
        self.add(name, title, blocks, &[]);
        self.tells(rows.iter().map(|row| Told::Section(row.section)));
    }

    /// Title and text of the step in which a row's start is told.
    fn start(&self, row: &RowWork) -> (String, String) {
        let words = &self.book.words;
        let number = row.number;
        let title = |word| words.say(word, context! { row => number });
        let (side, beads) = (self.book.side_started(row.from), self.book.spaced(&row.starts_with));
        let (side, beads) = (side.as_str(), beads.as_str());
        let below = self.is_below(row);
        let values = context! { row => number, side, beads, below };
        let (way, single) = (|| self.way_there(row), self.is_single(row));
        match self.manner(row) {
            Manner::Wider => (title(Word::StepsWiderStart), words.say(Word::StepsWiderStartText, values)),
            Manner::WalkIn => (
                title(Word::StepsWalkIn),
                words.say(Word::StepsWalkInText, context! { way => way(), single, ..values }),
            ),
            Manner::Turned => (title(Word::StepsTurned), {
                let values = context! { row => number, side, beads, way => way(), single };
                format!(
                    "{} {}",
                    words.say(Word::StepsTurnedText, values),
                    words.fixed(Word::StepsTurnedFigures)
                )
            }),
            _ if self.is_single(row) => (title(Word::StepsRowStart), self.single(row)),
            _ => {
                let one = self.bridges_below(row) == 1;
                let word = if one { Word::StepsRowStartOneText } else { Word::StepsRowStartText };
                (title(Word::StepsRowStart), words.say(word, values))
            }
        }
    }

    /// Title and text of the step that tells how a row goes on.
    fn further(&self, row: &RowWork, manner: Manner) -> (String, String) {
        let words = &self.book.words;
        let runs = self.runs(row, manner);
        let beads = runs.first().map_or(String::new(), |run| self.book.spaced(&run.beads));
        let title = |word| words.say(word, context! { row => row.number });
        match manner {
            Manner::WiderEnd => {
                let text =
                    words.say(Word::StepsWiderEndText, context! { beads, below => self.is_below(row) });
                (title(Word::StepsWiderEnd), text)
            }
            Manner::BuiltOut | Manner::BuiltOutEnd => {
                let Built { stacks, out, back, .. } = self.built(row, manner);
                let (then, below) = (self.book.stack_runs(&after_one(&runs)), self.is_below(row));
                let start = manner == Manner::BuiltOut;
                let values = context! { beads, start, stacks, out, back, then, below };
                let title = words.say(Word::StepsBuiltOut, context! { row => row.number, start });
                (title, words.say(Word::StepsBuiltOutText, values))
            }
            _ => {
                let (then, below) = (self.book.stack_runs(&after_one(&runs)), self.is_below(row));
                // A row that ends wider goes on in other ways.
                let whole = self.book.work.fabric[row.section].lies.is_none_or(|lies| lies.ends < 0);
                let values = context! { beads, then, below, whole };
                (title(Word::StepsRowAdd), words.say(Word::StepsRowAddText, values))
            }
        }
    }

    /// The stacks of a row that no step of its own tells: those before what is told later in it, and those after each
    /// of that, with the manners in which they are added. Those built on are told by themselves.
    fn goes_on(&self, row: &RowWork, later: &[Manner]) -> Vec<(Option<String>, BTreeSet<Manner>)> {
        let strung = self.row_moves(row).iter().filter(|made| matches!(made.kind, MoveKind::String { .. }));
        let mut parts: Vec<Vec<&Move>> = vec![Vec::new(); later.len() + 1];
        let mut part = 0;
        for made in strung.skip(1) {
            match later.iter().position(|manner| *manner == made.manner) {
                Some(told) => part = told + 1,
                None if BUILT.contains(&made.manner) => {}
                None => parts[part].push(made),
            }
        }
        let told = parts.into_iter().map(|part| {
            let manners = part.iter().map(|made| made.manner).collect();
            let runs = self.runs_of(part.into_iter());
            let then = (!runs.is_empty()).then(|| self.book.stack_runs(&runs));
            (then.map(|then| self.book.words.say(Word::StepsRowGoesOn, context! { then })), manners)
        });
        told.collect()
    }

    /// How a row of one stack is worked.
    fn single(&self, row: &RowWork) -> String {
        // Where every row is narrower than the one below, only the last can be a single stack.
        if self.book.design.is_plain() {
            return self.book.words.fixed(Word::StepsLastSingleText);
        }
        self.book.words.say(Word::StepsSingleText, context! { row => row.number })
    }

    fn row_check(&self, row: &RowWork) -> crate::booklet::Block {
        let lies = self.book.work.fabric[row.section].lies;
        let narrower = lies.is_some_and(|lies| (lies.away, lies.starts, lies.ends) == (Way::Up, -1, -1));
        let values = context! { row => row.number, stacks => self.stacks(row) };
        let words = &self.book.words;
        let text = if narrower {
            words.say(Word::StepsRowCheck, values)
        } else {
            let on = lies.map_or(0, |lies| self.book.work.fabric[lies.on].number);
            let built: usize = self.book.work.fabric.built_out(row.section).iter().sum();
            match built {
                0 => words.say(Word::StepsRowCheckShape, context! { on, ..values }),
                _ => {
                    let hung = self.stacks(row) - built;
                    words.say(Word::StepsRowCheckBuilt, context! { on, hung, built, ..values })
                }
            }
        };
        check(self.book, &text)
    }

    /// What the finished body must measure.
    pub(super) fn body_check(&mut self) {
        let book = self.book;
        let geometry = &book.work.geometry;
        let rows = &book.work.rows;
        let word = if book.design.is_plain() { Word::StepsBodyCheck } else { Word::StepsBodyCheckShape };
        let values = context! {
            rows => rows.len(), beads => rows.iter().map(|r| r.pick_ups.len()).sum::<usize>(),
            width => geometry.body_width.0, height => geometry.body_height.0,
        };
        let check = check(book, &book.words.say(word, values));
        self.add_to_last([check]);
    }

    /// Whether a row hangs on one above it.
    fn is_below(&self, row: &RowWork) -> bool {
        let lies = self.book.work.fabric[row.section].lies;
        lies.is_some_and(|lies| lies.away == Way::Down)
    }

    pub(super) fn is_single(&self, row: &RowWork) -> bool {
        self.stacks(row) == 1
    }

    /// Stacks in a row.
    pub(super) fn stacks(&self, row: &RowWork) -> usize {
        self.book.work.fabric[row.section].stacks.len()
    }

    /// How a row begins.
    fn manner(&self, row: &RowWork) -> Manner {
        self.book.work.fabric[row.section].manner
    }

    /// Thread bridges of the row that a row hangs on.
    fn bridges_below(&self, row: &RowWork) -> usize {
        let fabric = &self.book.work.fabric;
        fabric[row.section].lies.map_or(0, |lies| fabric[lies.on].stacks.len().saturating_sub(1))
    }

    /// The moves of a row.
    pub(super) fn row_moves(&self, row: &RowWork) -> &[Move] {
        self.moves(ThreadUse::Body, Phase::Section(row.section))
    }

    /// What is picked up in one manner, as runs of stacks.
    fn runs(&self, row: &RowWork, manner: Manner) -> Vec<StackRun> {
        let strung = self.row_moves(row).iter().filter(|made| matches!(made.kind, MoveKind::String { .. }));
        self.runs_of(strung.filter(|made| made.manner == manner))
    }

    /// What some moves pick up, as runs of stacks.
    fn runs_of<'m>(&self, strung: impl Iterator<Item = &'m Move>) -> Vec<StackRun> {
        let mut runs: Vec<StackRun> = Vec::new();
        for made in strung {
            let beads: Vec<_> = made.beads.iter().map(|spot| self.book.work.fabric[*spot].letter).collect();
            match runs.last_mut().filter(|run| run.beads == beads) {
                Some(run) => run.count += 1,
                None => runs.push(StackRun { count: 1, beads }),
            }
        }
        runs
    }

    /// The moves that lead to where a row starts.
    fn way_to(&self, row: &RowWork) -> impl Iterator<Item = &Move> {
        self.row_moves(row).iter().take_while(|made| !matches!(made.kind, MoveKind::String { .. }))
    }

    /// Whether the thread is led to where a row starts.
    fn is_led(&self, row: &RowWork) -> bool {
        self.way_to(row).next().is_some()
    }

    /// That of a row which starts further in, as a sentence.
    fn way_of_row(&self, row: &RowWork) -> Option<String> {
        let (row, way) = (self.is_led(row).then_some(row.number)?, self.way_there(row));
        Some(self.book.words.say(Word::StepsWayOfRow, context! { row, way }))
    }

    /// The stacks that are built on in one manner, with the way of the thread out to them and back.
    fn built(&self, row: &RowWork, manner: Manner) -> Built {
        let moves: Vec<&Move> = self.row_moves(row).iter().filter(|made| made.manner == manner).collect();
        let strings = |made: &&Move| matches!(made.kind, MoveKind::String { .. });
        let (Some(first), Some(last)) = (moves.iter().position(strings), moves.iter().rposition(strings))
        else {
            return Built::default();
        };
        // Each stack is strung, and the thread goes through the one before and through it again.
        let (out, back) = (&moves[..first], moves.get(last + 3..).unwrap_or_default());
        // From where stacks are counted is said once, at the end.
        let out_said = (!out.is_empty()).then(|| match back {
            [] => self.said(out.iter().copied()),
            _ => diagrams::passed(self.book, out.iter().copied()),
        });
        let beads = self.runs_of(moves.iter().copied().filter(strings));
        Built {
            stacks: beads.iter().map(|run| run.count).sum(),
            out: out_said,
            beads,
            back: (!back.is_empty()).then(|| self.said(back.iter().copied())),
        }
    }

    /// The same as a sentence; none where there are no such stacks.
    fn built_way(&self, row: &RowWork, manner: Manner) -> Option<String> {
        let Built { stacks, out, beads, back } = self.built(row, manner);
        let (start, beads) = (manner == Manner::BuiltOut, self.book.stack_runs(&beads));
        let values = context! { row => row.number, start, stacks, beads, out, back };
        (stacks > 0).then(|| self.book.words.say(Word::StepsBuiltWay, values))
    }

    /// The way to where a row starts: `down stack 2 of row 3, up stack 3 of row 3`, counted from the left.
    fn way_there(&self, row: &RowWork) -> String {
        self.said(self.way_to(row))
    }
}

/// The name of a step about one row.
fn named(number: usize, part: &'static str) -> StepName {
    StepName::Rows { from: number, to: number, part }
}

/// Stacks that are built on at one end of a row.
#[derive(Default)]
struct Built {
    stacks: usize,
    /// The way of the thread to where they are built on; none where it is there.
    out: Option<String>,
    beads: Vec<StackRun>,
    /// Its way back to where the row goes on.
    back: Option<String>,
}

/// What follows the first stack of these, which a step has told bead by bead: a list that named it again would have it
/// picked up twice.
pub(super) fn after_one(runs: &[StackRun]) -> Vec<StackRun> {
    let Some((first, rest)) = runs.split_first() else { return Vec::new() };
    let more = (first.count > 1).then(|| StackRun { count: first.count - 1, ..first.clone() });
    more.into_iter().chain(rest.iter().cloned()).collect()
}
