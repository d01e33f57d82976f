//! A complete account: whoever follows the printed booklet from the first pick-up to the last cut makes the moves of
//! the path, each once, in order. A reader follows it here who knows no more than the words: captions and texts of the
//! steps, word chart and bead list, and how brick stitch repeats what a step has shown.

use crate::maker::{PALETTE, STUDIO};
use crate::support::{cases, made};
use fringebook::booklet::{
    Block, Booklet, Cell, Edition, Figure, Section, Step, Table, Wording, compose, telling,
};
use fringebook::design::{Design, Paper, Wishes, read_texts};
use fringebook::stitch::{Fabric, Manner, Move, MoveKind, Phase, SectionKind, Way, Work, stitch};
use fringebook::tally::tally;
use fringebook::units::Mm;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// A move in words: `pick up A B`, `up 2 of 3` (stack, row), `under`, `guard`, `loop`, `return`, `wrap`, `tail`, `cut`.
type Words = String;

// The path in words.

fn of_path(design: &Design, work: &Work) -> Vec<Words> {
    let paths = [&work.body, &work.tail, &work.fringe];
    paths.iter().flat_map(|path| &path.moves).map(|made| of_move(design, &work.fabric, made)).collect()
}

fn of_move(design: &Design, fabric: &Fabric, made: &Move) -> Words {
    match &made.kind {
        MoveKind::LeaveTail { .. } => "tail".into(),
        MoveKind::String { .. } => {
            let letters = made.beads.iter().map(|spot| design.symbol(fabric[*spot].letter).to_string());
            format!("pick up {}", letters.collect::<Vec<_>>().join(" "))
        }
        MoveKind::Pass(pass) => {
            let way = if pass.way == Way::Up { "up" } else { "down" };
            format!("{way} {} of {}", fabric[pass.stack].place + 1, fabric.row_number(pass.stack))
        }
        MoveKind::UnderBridge { .. } => "under".into(),
        MoveKind::ThroughGuard { .. } => "guard".into(),
        MoveKind::ThroughLoop { .. } => "loop".into(),
        MoveKind::ReturnUp { .. } => "return".into(),
        MoveKind::Wrap { .. } => "wrap".into(),
        MoveKind::CutTail { .. } => "cut".into(),
    }
}

// The printed words.

fn plain(text: &str) -> String {
    text.replace(['\u{a0}', '\u{202f}'], " ")
}

fn section<'b>(booklet: &'b Booklet, name: &str) -> &'b Section {
    booklet.sections.iter().find(|section| section.name == name).expect("a section")
}

fn table(section: &Section) -> &Table {
    let found = section.blocks.iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    found.expect("a table")
}

/// The cells of a table's rows by their headings.
fn cells(table: &Table) -> Vec<BTreeMap<String, String>> {
    let heads: Vec<String> = table.head.iter().map(|text| plain(&text.words())).collect();
    let words = |cell: &Cell| match cell {
        Cell::Text(text) => plain(&text.words()),
        _ => String::new(),
    };
    table.rows.iter().map(|row| heads.iter().cloned().zip(row.cells.iter().map(words)).collect()).collect()
}

/// `3 AB · 1 C` as letters, each run so many times.
fn runs(text: &str) -> Vec<String> {
    let runs = text.split('·').map(str::trim).filter(|run| !run.is_empty());
    let of = |run: &str| {
        let (count, letters) = run.split_once(' ').expect("a count and letters");
        vec![letters.to_owned(); count.parse().expect("a count")]
    };
    runs.flat_map(of).collect()
}

fn spaced(letters: &str) -> String {
    letters.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_string()).collect::<Vec<_>>().join(" ")
}

/// A row of the word chart.
#[derive(Clone, Debug)]
struct Row {
    number: usize,
    from_right: bool,
    start: String,
    /// The other stacks, in the order picked up.
    then: Vec<String>,
    /// Stacks built on beyond the row it hangs on, at its start and end.
    built: [usize; 2],
    single: bool,
}

/// The words of a figure, its moves first.
fn words_of(figure: &Figure) -> String {
    let moves: Vec<String> =
        figure.moves.iter().map(|made| format!("{} {}", made.number, made.what.words())).collect();
    format!("{} {}", moves.join("; "), figure.caption.words()).trim().to_owned()
}

/// The figures of a step that tell moves: not those of the earring as it stands then.
pub fn diagrams(step: &Step) -> Vec<&Figure> {
    step.figures.iter().filter(|figure| !words_of(figure).starts_with("So far:")).collect()
}

impl Row {
    fn stacks(&self) -> usize {
        self.then.len() + if self.single { 1 } else { 2 }
    }

    /// Counted from the left.
    fn counted_from_left(&self, from_start: usize) -> usize {
        if self.from_right { self.stacks() + 1 - from_start } else { from_start }
    }
}

fn word_chart(booklet: &Booklet) -> BTreeMap<usize, Row> {
    let mut rows = BTreeMap::new();
    let drop = section(booklet, "glance"); // how many beads a stack has is told at a glance
    let drop = plain(&format!("{:?}", drop.blocks));
    let drop = if drop.contains("three-drop") {
        3
    } else if drop.contains("two-drop") {
        2
    } else {
        1
    };
    for line in cells(table(section(booklet, "rows"))) {
        let Ok(number) = line["Row"].parse() else { continue };
        let edges = line.get("Edges").cloned().unwrap_or_default();
        let ends = edges.split_once("; ").or_else(|| edges.split_once(", "));
        let (edges_start, edges_end) = match ends {
            Some((start, end)) => (start.to_owned(), end.to_owned()),
            None => (edges.clone(), edges.clone()),
        };
        let built = |text: &str| {
            let words: Vec<&str> = text.split_whitespace().collect();
            let at = words.iter().position(|word| *word == "built");
            at.and_then(|at| words[at - 1].parse().ok()).unwrap_or(0)
        };
        let beads = line["Start with"].chars().filter(|c| c.is_ascii_alphabetic()).count();
        let row = Row {
            number,
            from_right: line["From"].contains("right"),
            start: spaced(&line["Start with"]),
            then: runs(&line["Then"]),
            built: [built(&edges_start), built(&edges_end)],
            single: beads == drop,
        };
        rows.insert(number, row);
    }
    rows
}

/// A strand of the bead list.
#[derive(Clone, Debug)]
struct Strand {
    beads: String,
    way: Vec<Words>,
    on: (usize, usize),
}

fn bead_list(booklet: &Booklet, foundation: usize) -> BTreeMap<usize, Strand> {
    let from_right = {
        let intro = format!("{:?}", section(booklet, "strands").blocks[0]);
        intro.contains("at the right")
    };
    let mut strands = BTreeMap::new();
    for line in cells(table(section(booklet, "strands"))) {
        let ends: Vec<usize> = line["Strand"].split('–').filter_map(|n| n.trim().parse().ok()).collect();
        let (Some(first), Some(last)) = (ends.first(), ends.last()) else { continue };
        let beads: String =
            [&line["From the body down"], &line["Turn"]].iter().flat_map(|text| runs(text)).collect();
        let hung = line.get("Hangs on").map(|text| places(text));
        for (index, number) in (*first..=*last).enumerate() {
            let way = line.get("Way there").map_or(Vec::new(), |text| list(text));
            let on = match &hung {
                // Several may hang on one stack.
                Some(places) => places[index.min(places.len() - 1)],
                None => (if from_right { foundation + 1 - number } else { number }, 1),
            };
            let way = if index == 0 { way } else { Vec::new() };
            strands.insert(number, Strand { beads: spaced(&beads), way, on });
        }
    }
    strands
}

/// `row 2, 1; row 1, 1–3` as stacks with their rows.
fn places(text: &str) -> Vec<(usize, usize)> {
    let mut places = Vec::new();
    for part in text.split("; ") {
        let (row, stacks) =
            part.strip_prefix("row ").and_then(|rest| rest.split_once(", ")).expect("a place");
        let row = row.parse().expect("a row");
        for range in stacks.split(", ") {
            let ends: Vec<usize> = range.split('–').map(|n| n.parse().expect("a stack")).collect();
            let (first, last) = (ends[0], ends[ends.len() - 1]);
            let mut stacks: Vec<usize> = (first.min(last)..=first.max(last)).collect();
            if first > last {
                stacks.reverse();
            }
            places.extend(stacks.into_iter().map(|stack| (stack, row)));
        }
    }
    places
}

/// `down stack 2 of row 3, up stack 3 of row 3 (stacks counted from the left)`.
fn list(text: &str) -> Vec<Words> {
    let text = text.split(" (stacks").next().unwrap_or(text).trim_end_matches('.');
    text.split(", ").filter(|part| !part.is_empty()).map(|part| one(part, None)).collect()
}

/// A move as it is printed; where only one row is concerned the row it is, and stacks count from its start.
fn one(text: &str, home: Option<&Row>) -> Words {
    let text = text.trim();
    let fixed = [
        ("leave the tail", "tail"),
        ("under the thread bridge", "under"),
        ("through the guard", "guard"),
        ("through the loop again", "loop"),
        ("skip the turning bead, back up the strand", "return"),
        ("skip the picot, back up the strand", "return"),
        ("wrap round both stacks", "wrap"),
        ("cut", "cut"),
    ];
    if text.starts_with("under the thread bridge at the ") && text.contains(" edge between stacks ") {
        return "under".to_owned();
    }
    if let Some((_, word)) = fixed.iter().find(|(printed, _)| *printed == text) {
        return (*word).to_owned();
    }
    if let Some(beads) = text.strip_prefix("pick up ") {
        // Letters in order, or runs with their counts.
        let letters = if beads.contains(|c: char| c.is_ascii_digit()) {
            runs(beads).concat()
        } else {
            beads.to_owned()
        };
        return format!("pick up {}", spaced(&letters));
    }
    let (way, stack) = text.split_once(" stack ").unwrap_or_else(|| panic!("`{text}` is no move"));
    match stack.split_once(" of row ") {
        Some((stack, row)) => format!("{way} {stack} of {row}"),
        None => {
            let home = home.expect("the row it is");
            format!("{way} {} of {}", home.counted_from_left(stack.parse().expect("a stack")), home.number)
        }
    }
}

/// The numbers of a caption's moves.
fn numbers(text: &str) -> Vec<usize> {
    let text = plain(text);
    if text.starts_with("The w") {
        return Vec::new();
    }
    let number = |part: &str| part.split_whitespace().next().and_then(|n| n.parse().ok()).expect("a number");
    text.split("; ").map(number).collect()
}

/// The moves of a caption.
fn caption(text: &str, home: Option<&Row>) -> Vec<Words> {
    let text = plain(text);
    if text.starts_with("The wraps, drawn large") {
        return Vec::new();
    }
    if let Some((_, way)) = text.strip_prefix("The way").and_then(|text| text.split_once(": ")) {
        return list(way);
    }
    let text = text.trim_end_matches(" (stacks counted from the left)");
    let text = text.trim_end_matches(" (stacks in working order)");
    let moves = text.split("; ").map(|part| {
        let (_, what) = part.trim().split_once(' ').expect("a number");
        one(what, home)
    });
    moves.collect()
}

/// How many stacks a list names, as `1 A A · 5 C C`.
fn stacks_of(list: &str) -> usize {
    list.split('·')
        .map(|run| run.split_whitespace().next().and_then(|n| n.parse::<usize>().ok()).expect(list))
        .sum()
}

// The reader.

struct Reader<'b> {
    rows: BTreeMap<usize, Row>,
    strands: BTreeMap<usize, Strand>,
    /// What has been done.
    done: Vec<Words>,
    /// The row in hand, and how many of its stacks are done: those picked up first count.
    row: Option<(Row, usize)>,
    /// Whether rows are worked downwards now.
    down: bool,
    /// The text of the step in hand.
    said: String,
    steps: Vec<&'b Step>,
}

impl Reader<'_> {
    fn away(&self) -> &'static str {
        if self.down { "down" } else { "up" }
    }

    fn back(&self) -> &'static str {
        if self.down { "up" } else { "down" }
    }

    fn pass(&mut self, way: &str, row: &Row, from_start: usize) {
        self.done.push(format!("{way} {} of {}", row.counted_from_left(from_start), row.number));
    }

    /// Finishes the row in hand up to some of its stacks, as its first ones were worked.
    fn finish_row(&mut self, keep: usize) {
        let Some((row, done)) = self.row.clone() else { return };
        let until = row.stacks() - keep;
        let mut done = done;
        // What is left to add has been said, or printed row by row as here.
        let told = [
            "Go on",
            "hen go on",
            "Work each row from the word chart",
            "Work it from the word chart",
            "build out ",
        ];
        assert!(done >= until || told.iter().any(|words| self.said.contains(words)), "{}", self.said);
        // What is listed is what is still to be added, without the stack that the step has told.
        let listed = ["Then go on to the end of the row: ", "in the same way to the end of the row: "]
            .iter()
            .find_map(|head| self.said.split(head).nth(1)?.split('.').next());
        if let Some(listed) = listed.filter(|_| keep == 0) {
            assert_eq!(stacks_of(listed), until - done, "{}", self.said);
        }
        while done < until {
            done = self.add(&row, done);
        }
        self.row = if keep == 0 { None } else { Some((row, done)) };
    }

    /// Adds the next stack that the word chart names; how many are done then.
    fn add(&mut self, row: &Row, done: usize) -> usize {
        let first = if row.single { 1 } else { 2 };
        let beads = spaced(&row.then[done - first]);
        let index = done - first;
        let [before, after] = row.built;
        let n = row.stacks();
        if row.number == 1 {
            // A ladder: each further stack, the one before it and itself again.
            let last = self.direction(row, done);
            self.done.push(format!("pick up {beads}"));
            self.pass(last, row, done);
            self.pass(opposite(last), row, done + 1);
        } else if index < before || done >= n - after {
            let at_start = index < before;
            let (from, new) = if at_start { (before + 1 - index, before - index) } else { (done, done + 1) };
            if at_start && index == 0 || !at_start && done == n - after {
                self.built_way(row, at_start, "first ");
            }
            let last = self.direction(row, from);
            self.done.push(format!("pick up {beads}"));
            self.pass(last, row, from);
            self.pass(opposite(last), row, new);
            if at_start && index + 1 == before || !at_start && done + 1 == n {
                self.built_way(row, at_start, "finally ");
            }
        } else {
            self.done.push(format!("pick up {beads}"));
            self.done.push("under".into());
            self.pass(self.away(), row, done + 1);
        }
        done + 1
    }

    /// Which way the thread has come out of a stack last.
    fn direction(&self, row: &Row, from_start: usize) -> &'static str {
        let place = format!(" {} of {}", row.counted_from_left(from_start), row.number);
        let last = self.done.iter().rev().find(|made| made.ends_with(&place)).expect("a pass");
        if last.starts_with("up") { "up" } else { "down" }
    }

    /// A way that the step tells for a row that is built out.
    fn built_way(&mut self, row: &Row, at_start: bool, which: &str) {
        let (built, end) = if at_start { (row.built[0], "start") } else { (row.built[1], "end") };
        let stacks = if built == 1 { "stack" } else { "stacks" };
        // In a step of its own, or in one sentence.
        let lies = if built == 1 { "stack of this row lies" } else { "stacks of this row lie" };
        let beyond = if self.down { "the row above" } else { "the row below" };
        let own = format!("{built} {lies} beyond {beyond} at its {end} ");
        let head = format!("Row {}: build out {built} {stacks} at its {end}: ", row.number);
        let after = |text: &str| self.said.split(text).nth(1).map(str::to_owned);
        let way = match (after(&own), after(&head)) {
            (Some(told), _) => {
                let told = told.split(" of this row lie").next().unwrap_or_default();
                let mut sentences =
                    told.split(". ").map(|sentence| sentence.trim_end_matches('.').to_lowercase());
                sentences.find_map(|told| told.strip_prefix(&format!("{which}go ")).map(str::to_owned))
            }
            (None, Some(told)) => {
                let told = told.split('.').next().unwrap_or_default();
                let mut parts = told.split("; ").flat_map(|part| part.split(", then "));
                parts.find_map(|part| part.strip_prefix(which)).map(str::to_owned)
            }
            (None, None) => panic!("neither `{own}` nor `{head}` is said: {}", self.said),
        };
        self.done.extend(way.iter().flat_map(|way| list(way)));
    }

    /// Works a whole row from the word chart.
    fn whole_row(&mut self, number: usize) {
        let row = self.rows[&number].clone();
        self.begin(&row);
        self.finish_row(0);
    }

    /// Begins a row from the word chart.
    fn begin(&mut self, row: &Row) {
        let head = format!("Before row {} bring the thread in: ", row.number);
        if let Some(way) = self.said.split(&head).nth(1) {
            self.done.extend(list(way.split(" (stacks").next().unwrap_or_default()));
        }
        self.start(row);
        self.row = Some((row.clone(), if row.single { 1 } else { 2 }));
    }

    fn start(&mut self, row: &Row) {
        self.done.push(format!("pick up {}", row.start));
        self.done.push("under".into());
        if row.single {
            self.pass(self.away(), row, 1);
            return;
        }
        let first = row.built[0] + 1;
        self.pass(self.away(), row, first + 1);
        self.pass(self.back(), row, first);
        self.pass(self.away(), row, first + 1);
    }

    fn strand(&mut self, number: usize) {
        let Strand { beads, way, on: (stack, row) } = self.strands[&number].clone();
        self.done.extend(way);
        self.done.push(format!("down {stack} of {row}"));
        self.done.push(format!("pick up {beads}"));
        self.done.push("return".into());
        self.done.push(format!("up {stack} of {row}"));
    }

    /// Does what the figures of a step show.
    fn figures(&mut self, step: &Step, home: Option<&Row>) -> usize {
        let before = self.done.len();
        for figure in diagrams(step) {
            let moves = caption(&words_of(figure), home);
            self.done.extend(moves);
        }
        before
    }

    /// Follows one step.
    fn follow(&mut self, step: &Step, later: &[&Step]) {
        let title = plain(&step.title.words());
        // A number names one move, however many figures the step has.
        let named: Vec<usize> = diagrams(step).iter().flat_map(|figure| numbers(&words_of(figure))).collect();
        assert_eq!(named, (1..=named.len()).collect::<Vec<_>>(), "{title}");
        let paragraph = |block: &Block| match block {
            Block::Paragraph { text, .. } => Some(plain(&text.words())),
            _ => None,
        };
        let texts = step.blocks.iter().filter_map(paragraph).collect::<Vec<_>>().join(" ");
        // Of a row in hand what an earlier step has said still holds.
        self.said = if self.row.is_some() { format!("{} {texts}", self.said) } else { texts };
        let number = |text: &str| text.split_whitespace().next().and_then(|n| n.parse::<usize>().ok());
        let about = |step: &Step| {
            let title = plain(&step.title.words());
            let rest = title.strip_prefix("Row ")?.to_owned();
            let (row, what) = rest.split_once(": ")?;
            Some((row.parse::<usize>().ok()?, what.to_owned()))
        };
        if let Some((number, what)) = about(step) {
            if what == "below the foundation" {
                self.down = true;
            }
            let row = self.rows[&number].clone();
            let mut in_hand = self.row.take().filter(|(row, _)| row.number == number);
            if in_hand.is_none()
                && (["ending wider", "adding a stack"].contains(&what.as_str())
                    || what.starts_with("building out"))
                && number > 1
            {
                // A row that starts as others have started.
                assert!(self.said.contains(&format!("Start row {number} ")), "{title}: {}", self.said);
                self.begin(&row);
                in_hand = self.row.take();
            }
            match what.as_str() {
                "ending wider" => {
                    self.row = in_hand;
                    self.finish_row(1 + row.built[1]);
                    self.figures(step, Some(&row));
                    self.row = Some((row.clone(), row.stacks() - row.built[1]));
                }
                "adding a stack" => {
                    self.row = in_hand;
                    let mut done = self.row.take().map_or(2, |(_, done)| done);
                    while number > 1 && done < 2 + row.built[0] {
                        done = self.add(&row, done);
                    }
                    self.figures(step, Some(&row));
                    self.row = Some((row, done + 1));
                }
                "building out at its start" | "building out at its end" => {
                    // The figure shows the first stack; how it is reached stands in the text.
                    let (_, done) = in_hand.expect("a row in hand");
                    let at_start = what.ends_with("start");
                    self.row = Some((row.clone(), done));
                    if !at_start {
                        self.finish_row(row.built[1]);
                    }
                    let (_, done) = self.row.clone().expect("a row in hand");
                    let before = self.done.len();
                    let mut done = self.add(&row, done);
                    let shown: Vec<Words> =
                        diagrams(step).into_iter().flat_map(|f| caption(&words_of(f), Some(&row))).collect();
                    assert!(self.done[before..].starts_with(&shown), "{title}: {shown:?}");
                    // And the others of this end.
                    while at_start && done < 2 + row.built[0] {
                        done = self.add(&row, done);
                    }
                    self.row = Some((row.clone(), done));
                }
                _ => {
                    let done = if row.single { 1 } else { 2 };
                    self.figures(step, Some(&row));
                    self.row = Some((row, done));
                }
            }
            // The rest of the row, unless a later step tells something of it.
            let goes_on = later.first().and_then(|next| about(next)).is_some_and(|(row, _)| row == number);
            if !goes_on {
                self.finish_row(0);
            }
        } else if let Some(rest) = title.strip_prefix("Rows ").or(title.strip_prefix("Row ")) {
            let ends: Vec<usize> = rest.split(' ').filter_map(number).collect();
            (ends[0]..=ends[ends.len() - 1]).for_each(|number| self.whole_row(number));
        } else if title.starts_with("Hanging") {
            let before = self.figures(step, None);
            // A second time round, from where the guard or the loop was entered.
            let round = &self.done[before..];
            let from = round.iter().position(|made| made == "guard" || made.starts_with("pick up"));
            let round: Vec<Words> = round[from.expect("a guard or a loop")..].to_vec();
            let again = |made: Words| if made.starts_with("pick up") { "loop".into() } else { made };
            self.done.extend(round.into_iter().map(again));
            // Those after the second are told in words.
            let told = self.said.clone();
            for told in told.split("to the place after that: ").skip(1) {
                let way = list(told.split(". Go round a second time").next().unwrap_or_default());
                let from = way.iter().position(|made| made == "guard" || made.starts_with("pick up"));
                let round = way[from.expect("a guard or a loop")..].to_vec();
                self.done.extend(way.into_iter().chain(round.into_iter().map(again)));
            }
        } else if title.starts_with("Joining a new length")
            && self.said.contains("Bring the old thread to ")
            && !self.said.contains("One length ends here")
        {
            // Each thread has a figure; the way there of the old one and the way on of the new one are words.
            let told = step.blocks.iter().filter_map(paragraph);
            let told: Vec<String> = told.filter(|text| !text.starts_with("Turn the work")).collect();
            let ([old, new], [ends, begins]) = (&told[..], &diagrams(step)[..]) else {
                panic!("{title}: {told:?}")
            };
            let way =
                |text: &str, after: &str| text.split_once(after).map_or(Vec::new(), |(_, way)| list(way));
            self.done.extend(way(old, "): "));
            self.done.extend(caption(&words_of(ends), None));
            self.done.extend(caption(&words_of(begins), None));
            self.done.extend(way(new, "and go on: "));
        } else if title == "The first strand" {
            let foundation = self.rows[&1].clone();
            self.figures(step, Some(&foundation));
        } else if title == "The next strand" {
            let foundation = self.rows[&1].clone();
            self.figures(step, Some(&foundation));
            let last = self.said.split("bead list to strand ").nth(1).and_then(|rest| {
                rest.split(|c: char| !c.is_ascii_digit()).next().and_then(|n| n.parse::<usize>().ok())
            });
            (3..=last.unwrap_or(2)).for_each(|number| self.strand(number));
        } else if let Some(rest) = title.strip_prefix("Strands ").or(title.strip_prefix("Strand ")) {
            let ends: Vec<usize> = rest.split(' ').filter_map(number).collect();
            (ends[0]..=ends[ends.len() - 1]).for_each(|number| self.strand(number));
        } else {
            self.figures(step, None);
        }
    }
}

fn opposite(way: &str) -> &'static str {
    if way == "up" { "down" } else { "up" }
}

/// What a reader of the booklet does.
fn followed(booklet: &Booklet) -> Vec<Words> {
    in_steps(booklet).into_iter().map(|(made, _)| made).collect()
}

/// What a reader of the booklet does, each move with the number of the step in hand.
fn in_steps(booklet: &Booklet) -> Vec<(Words, usize)> {
    let rows = word_chart(booklet);
    let foundation = rows[&1].stacks();
    let strands = bead_list(booklet, foundation);
    let steps = section(booklet, "steps").blocks.iter().filter_map(|block| match block {
        Block::Step(step) => Some(step),
        _ => None,
    });
    let (done, said) = (Vec::new(), String::new());
    let mut reader = Reader { rows, strands, done, row: None, down: false, said, steps: steps.collect() };
    let steps = reader.steps.clone();
    let mut in_step = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        // Stacks of the foundation are counted from its start in its own steps, of a strand as they hang.
        reader.follow(step, &steps[index + 1..]);
        in_step.resize(reader.done.len(), step.number);
    }
    reader.done.into_iter().zip(in_step).collect()
}

fn printed(design: &Design) -> (Work, Booklet) {
    let work = stitch(design);
    let tally = tally(design, &work);
    let wording = Wording::built_in("en").expect("English is built in");
    let booklet = compose(design, &work, &tally, &wording, &plain_edition()).expect("composed");
    (work, booklet)
}

fn plain_edition() -> Edition {
    let (digest, digest_parts) = (String::new(), Vec::new());
    Edition {
        paper: Paper::A4,
        grey: false,
        large_print: false,
        tablet: false,
        stamp: None,
        digest,
        digest_parts,
        before: None,
    }
}

/// The first difference between what a reader does and the path.
fn astray(design: &Design) -> Option<String> {
    let (work, booklet) = printed(design);
    let (path, done) = (of_path(design, &work), followed(&booklet));
    let at = (0..path.len().max(done.len())).find(|&at| path.get(at) != done.get(at))?;
    let around =
        |moves: &[Words]| moves[at.saturating_sub(3).min(moves.len())..(at + 4).min(moves.len())].join(", ");
    Some(format!(
        "move {at} of {}: the path has {}; the booklet {}",
        path.len(),
        around(&path),
        around(&done)
    ))
}

/// The first move of which it is said that another step tells it than the one in which a reader makes it: what
/// `check --thread` prints. Of a row in hand an earlier step that tells of that row may be named.
fn told_elsewhere(design: &Design) -> Option<String> {
    let (work, booklet) = printed(design);
    let wording = Wording::built_in("en").expect("English is built in");
    let edition = plain_edition();
    let telling = telling(design, &work, &tally(design, &work), &wording, &edition).expect("told");
    let titles: Vec<&str> = telling.names().map(|(_, title)| title).collect();
    let done = in_steps(&booklet);
    let made = [&work.body, &work.tail, &work.fringe]
        .into_iter()
        .flat_map(|path| path.moves.iter().map(move |made| (path.thread, made)));
    for ((thread, made), (words, in_step)) in made.zip(done) {
        let step = telling.step(thread, made);
        let row = match made.phase {
            Phase::Section(section) if work.fabric[section].kind == SectionKind::Row => {
                Some(work.fabric[section].number)
            }
            _ => None,
        };
        let of_that_row = |step: usize| {
            let head = row.map(|row| format!("Row {row}: "));
            // A step may say that a row goes on before the next one tells how it ends.
            matches!(made.manner, Manner::Onward | Manner::OnwardBelow | Manner::WiderEnd)
                && step < in_step
                && head.is_some_and(|head| plain(titles[step - 1]).starts_with(&head))
        };
        if step != Some(in_step) && !step.is_some_and(of_that_row) {
            return Some(format!(
                "`{words}` {made:?} of row {row:?} is made in step {in_step}, not {step:?}"
            ));
        }
    }
    None
}

#[test]
fn the_step_that_is_named_for_a_move_is_the_one_in_which_it_is_made() {
    for design in made::demos() {
        assert_eq!(told_elsewhere(&design), None, "{}", design.slug);
    }
    for (name, mut design) in crate::shapes::designs() {
        assert_eq!(told_elsewhere(&design), None, "{name}");
        design.allowances.arm_span = Mm(450.0);
        assert_eq!(told_elsewhere(&design), None, "{name} in short lengths");
    }
}

#[test]
fn the_steps_tell_every_move_of_the_demo_designs_in_order() {
    for design in made::demos() {
        assert_eq!(astray(&design), None, "{}", design.slug);
        let other = made::started_from_the_right(&design.slug);
        assert_eq!(astray(&other), None, "{} from the right", design.slug);
        assert_eq!(astray(&design.mirrored()), None, "{} mirrored", design.slug);
    }
}

#[test]
fn the_steps_tell_every_move_of_bodies_of_every_shape() {
    for (name, mut design) in crate::shapes::designs() {
        assert_eq!(astray(&design), None, "{name}");
        assert_eq!(astray(&design.mirrored()), None, "{name} mirrored");
        // In many short lengths.
        design.allowances.arm_span = Mm(450.0);
        assert_eq!(astray(&design), None, "{name} in short lengths");
    }
}

/// Rows as half stacks from the left to both edges, from the foundation on, each moved at its edges.
fn rows_on(foundation: (usize, usize), moves: &[(usize, usize)]) -> Vec<(usize, usize)> {
    const MOVES: [isize; 8] = [-1, -1, -1, 1, 1, -3, 3, 5];
    let mut rows = Vec::new();
    let (mut left, mut right) = foundation;
    for (at_left, at_right) in moves {
        let (l, r) = (
            left.checked_add_signed(-MOVES[at_left % MOVES.len()]),
            right.checked_add_signed(MOVES[at_right % MOVES.len()]),
        );
        let (Some(l), Some(r)) = (l, r) else { continue };
        if r >= l + 2
            && (l..r).step_by(2).any(|column| (left + 1..=right.saturating_sub(3)).contains(&column))
        {
            rows.push((l, r));
            (left, right) = (l, r);
        }
    }
    rows
}

pub type Edges = Vec<(usize, usize)>;

/// A design with a body of some shape, as its file; `None` where it cannot be worked.
pub fn shaped(
    (drop, width, above, below): (usize, usize, Edges, Edges),
    dice: &[u8],
    span: u32,
) -> Option<Design> {
    let foundation = (60, 60 + 2 * width);
    let mut dice = dice.iter().cycle();
    let mut line = |(left, right): (usize, usize)| {
        let letters =
            (0..(right - left) / 2).map(|_| ["A", "B"][usize::from(*dice.next().unwrap_or(&0) % 2)]);
        format!("    {}{}\n", ".".repeat(left), letters.collect::<Vec<_>>().join(" "))
    };
    let mut rows: Vec<(usize, usize)> = rows_on(foundation, &above);
    rows.reverse();
    rows.push(foundation);
    let below = rows_on(foundation, &below);
    let mut text =
        format!("title: Shape\ncolours: {{A: ink, B: mist}}\nthread: {{arm span: {span} mm}}\nbody:\n");
    text += &format!("  drop: {drop}\n  picture: |\n");
    rows.iter().for_each(|row| (0..drop).for_each(|_| text += &line(*row)));
    if !below.is_empty() {
        text += "  below: |\n";
        below.iter().for_each(|row| (0..drop).for_each(|_| text += &line(*row)));
    }
    text += "fringe:\n  along: edge\n  mirror: false\n  strands:\n";
    // As many strands as the edge has stacks: the message about too few tells.
    for strands in 1..200 {
        let strands: String = (0..strands).map(|n| format!("    - {}A 1B\n", 1 + n % 7)).collect();
        let text = format!("{text}{strands}");
        let files = [("shape.yaml", text.as_str()), ("palette.yaml", PALETTE), ("studio.yaml", STUDIO)];
        if let Some(design) = read_texts(&files, &Wishes::default()).design {
            return Some(design);
        }
    }
    None
}

pub fn shapes() -> impl Strategy<Value = (usize, usize, Edges, Edges)> {
    let moves = || proptest::collection::vec((0usize..8, 0usize..8), 0..5);
    (1usize..=3, prop_oneof![8 => 2usize..=14, 1 => 15usize..=40], moves(), moves())
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn the_steps_tell_every_move_of_any_design(plan in made::plans()) {
        prop_assert_eq!(astray(&made::design(&plan)), None);
    }

    #[test]
    fn the_steps_tell_every_move_of_any_shape(
        shape in shapes(), dice in proptest::collection::vec(any::<u8>(), 40), span in prop_oneof![Just(1800u32), 300u32..900],
    ) {
        if let Some(design) = shaped(shape, &dice, span) {
            prop_assert_eq!(astray(&design), None);
        }
    }
}

/// What is left out of the pages, or wrong on them, is noticed.
#[test]
fn a_reader_goes_astray_where_the_booklet_does() {
    let design = made::demos().into_iter().find(|design| design.slug == "well-of-stars").expect("the demo");
    let (work, booklet) = printed(&design);
    let path = of_path(&design, &work);
    assert_eq!(followed(&booklet), path);
    let steps = |booklet: &Booklet| booklet.sections.iter().position(|s| s.name == "steps").expect("steps");
    let at = steps(&booklet);
    let mut seen = 0;
    for (index, block) in booklet.sections[at].blocks.iter().enumerate() {
        let Block::Step(step) = block else { continue };
        for figure in 0..step.figures.len() {
            // Each figure but the wraps drawn large, and the earring as it stands then, tells moves that nothing else does.
            let caption = words_of(&step.figures[figure]);
            if caption.starts_with("The wraps") || caption.starts_with("So far:") {
                continue;
            }
            let mut less = booklet.clone();
            let Block::Step(step) = &mut less.sections[at].blocks[index] else { continue };
            step.figures.remove(figure);
            let told = std::panic::catch_unwind(|| followed(&less));
            assert!(told.map_or(true, |done| done != path), "step {index}, figure {figure}");
            seen += 1;
        }
    }
    assert!(seen > 12, "{seen} figures");
}

/// A single stack may be the first row from the other side: the diagram of a later row must not stand with it.
#[test]
fn a_row_is_shown_by_no_other_rows_diagram() {
    let design =
        shaped((1, 5, vec![(5, 0), (0, 5)], vec![(0, 0), (0, 0)]), &[0; 40], 1800).expect("a design");
    assert_eq!(astray(&design), None);
}
