//! Which stacks are strung: asked for at every step of a way through the body.

use super::StackId;

/// Stacks strung so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Strung(Vec<bool>);

impl Strung {
    /// Whether a stack is strung.
    pub fn contains(&self, stack: StackId) -> bool {
        self.0.get(stack.0).is_some_and(|strung| *strung)
    }

    /// Strings a stack.
    pub fn insert(&mut self, StackId(stack): StackId) {
        if self.0.len() <= stack {
            self.0.resize(stack + 1, false);
        }
        self.0[stack] = true;
    }
}

impl FromIterator<StackId> for Strung {
    fn from_iter<I: IntoIterator<Item = StackId>>(stacks: I) -> Strung {
        let mut strung = Strung::default();
        stacks.into_iter().for_each(|stack| strung.insert(stack));
        strung
    }
}
