//! Small earrings for tests.

use crate::colour::Colour;
use crate::design::*;
use crate::diagnostic::{Place, Source};
use crate::drawn::{Shape, Shine};
use crate::stitch::needs::Needs;
use crate::stitch::{Work, practice, work};
use crate::units::Mm;
use std::sync::Arc;

/// What an earring is made of, in a form that tests can change.
#[derive(Clone, Debug)]
pub struct Sample {
    pub body: Body,
    pub strands: Vec<Strand>,
    pub hangings: Vec<Hanging>,
    pub start: Side,
    pub beads: Vec<Bead>,
    pub body_thread: Thread,
    pub fringe_thread: Thread,
    pub allowances: Allowances,
}

/// Letters stand for themselves: `A` is the first bead.
pub fn letter(symbol: char) -> LetterId {
    LetterId((symbol as u8 - b'A') as usize)
}

/// The letters of beads as text.
pub fn text(letters: &[LetterId]) -> String {
    letters.iter().map(|l| (b'A' + l.0 as u8) as char).collect()
}

fn place() -> Place {
    Place { source: Arc::new(Source { name: "sample".into(), text: String::new() }), span: 0..0 }
}

/// A cylinder bead 11/0: 1.6 mm wide, 1.3 mm long.
pub fn bead(colour: Colour) -> Bead {
    Bead {
        key: "bead".into(),
        name: "Bead".into(),
        finish: "".into(),
        shine: Shine::default(),
        colour,
        code: None,
        supplier: None,
        shape: Shape::Cylinder,
        size: Some("11/0".into()),
        width: Mm(1.6),
        length: Mm(1.3),
        hole: Mm(0.8),
        per_gram: 200.0,
        pack: None,
        stock: None,
        replaced_by: None,
        place: place(),
    }
}

pub fn thread(colour: Colour) -> Thread {
    Thread {
        key: "thread".into(),
        name: "Thread".into(),
        colour,
        diameter: Mm(0.15),
        stretch_first: false,
        spool: None,
        stock: None,
        place: place(),
    }
}

impl Sample {
    /// From rows in working order, each stack written top to bottom (`AB CD`), narrowing by one.
    pub fn of_rows(rows: &[&str]) -> Sample {
        let rows: Vec<Vec<Stack>> = rows
            .iter()
            .map(|row| row.split_whitespace().map(|s| Stack(s.chars().map(letter).collect())).collect())
            .collect();
        Sample::of_stacks(rows)
    }

    /// From the stacks of rows in working order, narrowing by one.
    pub fn of_stacks(rows: Vec<Vec<Stack>>) -> Sample {
        let drop = rows[0][0].0.len();
        let rows: Vec<_> =
            rows.into_iter().enumerate().map(|(lead, stacks)| Row { lead, stacks, place: place() }).collect();
        let grey = |i: usize| Colour::new(i as u8 * 9, i as u8 * 9, i as u8 * 9);
        Sample {
            body: Body { stitch: StitchName::Brick, drop, above: rows.len(), rows },
            strands: Vec::new(),
            hangings: vec![Hanging::guard()],
            start: Side::Left,
            beads: (0..26).map(|i| bead(grey(i))).collect(),
            body_thread: thread(Colour::WHITE),
            fringe_thread: thread(Colour::WHITE),
            allowances: Allowances::default(),
        }
    }

    /// From rows as they are drawn: half stacks to their left end, and their stacks. The foundation comes first, then
    /// the rows above it; those below it follow.
    pub fn of_shape(above: &[(usize, &str)], below: &[(usize, &str)]) -> Sample {
        let stacks =
            |text: &str| text.split_whitespace().map(|s| Stack(s.chars().map(letter).collect())).collect();
        let rows = above.iter().chain(below).map(|(lead, text)| (*lead, stacks(text))).collect();
        Sample::of_leads(rows, above.len())
    }

    /// From the leads and stacks of rows in working order, of which so many are not below the foundation.
    pub fn of_leads(rows: Vec<(usize, Vec<Stack>)>, above: usize) -> Sample {
        let (leads, stacks): (Vec<usize>, Vec<Vec<Stack>>) = rows.into_iter().unzip();
        let mut sample = Sample::of_stacks(stacks);
        sample.body.rows.iter_mut().zip(leads).for_each(|(row, lead)| row.lead = lead);
        sample.body.above = above;
        sample
    }

    /// A body of one colour.
    pub fn plain(drop: usize, foundation: usize, top: usize) -> Sample {
        let stack = || Stack(vec![letter('A'); drop]);
        Sample::of_stacks((top..=foundation).rev().map(|m| (0..m).map(|_| stack()).collect()).collect())
    }

    /// With equal strands of so many beads.
    pub fn with_strands(mut self, beads: usize) -> Sample {
        let strand = |_| strand(vec![letter('A'); beads], 1);
        self.strands = self.body.rows[0].stacks.iter().map(strand).collect();
        self.hung_on_the_foundation()
    }

    /// With its strands hung on the foundation, one a stack from the left.
    pub fn hung_on_the_foundation(mut self) -> Sample {
        for (stack, strand) in self.strands.iter_mut().enumerate() {
            strand.hangs_on = StackPlace { row: 0, stack };
        }
        self
    }

    pub fn stitch(&self) -> Work {
        work::stitch(&self.needs())
    }

    pub fn needs(&self) -> Needs<'_> {
        Needs {
            body: &self.body,
            strands: &self.strands,
            hangings: &self.hangings,
            start: self.start,
            beads: self.beads.iter().collect(),
            body_thread: &self.body_thread,
            fringe_thread: &self.fringe_thread,
            allowances: self.allowances,
            guard_holes: practice::GUARD_HOLES,
            needle: None,
        }
    }
}

pub fn strand(beads: Vec<LetterId>, turn: usize) -> Strand {
    Strand { beads, turn, hangs_on: StackPlace { row: 0, stack: 0 }, place: place() }
}
