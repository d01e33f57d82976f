//! Manners: how work begins and goes on. A booklet's steps tell the manners that its path meets.

use serde::Serialize;

/// How a stretch of the path is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Manner {
    /// The first stacks of a ladder.
    Ladder,
    /// A further stack of a ladder.
    LadderOn,
    /// A row begins half a stack in from the row that it hangs on.
    Narrower,
    /// A row begins half a stack out: its first stack overhangs.
    Wider,
    /// A row begins further in: the thread walks there through the row that it hangs on.
    WalkIn,
    /// The first row below the foundation: the thread comes down to it and the work is turned.
    Turned,
    /// A row of one stack.
    Alone,
    /// A further stack of a row.
    Onward,
    /// The same in a row below the foundation, where the needle goes the other way.
    OnwardBelow,
    /// The last stack of a row overhangs: it shares the last bridge.
    WiderEnd,
    /// Stacks beyond the row that theirs hangs on, where their row starts, in ladder stitch.
    BuiltOut,
    /// The same where their row ends.
    BuiltOutEnd,
    /// The guard or the loop.
    Hanging,
    /// A thread begins at an anchor and goes from there to where it is wanted.
    Begin,
    /// A strand.
    Strand,
    /// A thread ends at an anchor.
    End,
    /// A length of thread ends, and another is joined to it.
    JoinEnd,
    /// A new length is anchored and brought to where the old one came out.
    JoinBegin,
    /// The starting tail is worked away.
    Tail,
}

impl Manner {
    /// Its name, as `check --thread` prints it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Manner::Ladder => "ladder",
            Manner::LadderOn => "ladder, further stack",
            Manner::Narrower => "narrower at the start",
            Manner::Wider => "wider at the start",
            Manner::WalkIn => "walk in",
            Manner::Turned => "turned",
            Manner::WiderEnd => "wider at the end",
            Manner::BuiltOut => "built out at the start",
            Manner::BuiltOutEnd => "built out at the end",
            Manner::Alone => "one stack",
            Manner::Onward => "further stack",
            Manner::OnwardBelow => "further stack below",
            Manner::Hanging => "hanging",
            Manner::Begin => "beginning",
            Manner::Strand => "strand",
            Manner::End => "ending",
            Manner::JoinEnd => "end of a length",
            Manner::JoinBegin => "new length",
            Manner::Tail => "tail",
        }
    }
}
