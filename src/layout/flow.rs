//! Slabs come to stand on pages: what must stay together does, headings repeat, spaces at the head of
//! a page fall away.

use super::fragment::{Fragment, Slab, height};
use super::slice::slices;
use crate::units::Mm;

/// A section of large print begins below what takes less than this share of a page.
const RUNS_ON: f64 = 0.62;

/// A page with its content, still without running head and foot.
#[derive(Debug, Default)]
pub(super) struct Draft {
    /// What is on it, positions from the page's top left.
    pub content: Fragment,
    /// The title of the section that its first piece belongs to.
    pub section: String,
    /// Whether it has a running head and foot.
    pub running: bool,
}

/// The pages so far, and what waits to be placed.
pub(super) struct Flow {
    /// Pages so far.
    pub pages: Vec<Draft>,
    left: Mm,
    top: Mm,
    room: Mm,
    y: Mm,
    after: Mm,
    waiting: Vec<Slab>,
    section: String,
}

impl Flow {
    /// No page yet; content stands `left` and `top` from the page's corner and may be `room` high.
    pub fn new(left: Mm, top: Mm, room: Mm) -> Flow {
        Flow {
            pages: Vec::new(),
            left,
            top,
            room,
            y: Mm::ZERO,
            after: Mm::ZERO,
            waiting: Vec::new(),
            section: String::new(),
        }
    }

    /// From here on pages belong to this section.
    pub fn begin_section(&mut self, title: &str) {
        self.flush();
        title.clone_into(&mut self.section);
    }

    /// Adds slabs.
    pub fn push(&mut self, slabs: Vec<Slab>) {
        for slab in slabs {
            let keeps = slab.keep_next;
            self.waiting.push(slab);
            if !keeps {
                self.flush();
            }
        }
    }

    /// Goes on with a new page, unless nothing stands on this one.
    pub fn new_page(&mut self) {
        self.flush();
        self.turn();
    }

    /// Whether little enough stands on this page for a section to begin below it: large print runs sections on
    /// rather than leave half of its many pages white.
    pub fn is_mostly_free(&mut self) -> bool {
        self.flush();
        self.y < self.room * RUNS_ON
    }

    /// Adds a page by itself, without running head and foot.
    pub fn push_page(&mut self, content: Fragment) {
        self.new_page();
        self.pages.push(Draft { content, section: String::new(), running: false });
    }

    /// Height of a whole page.
    pub fn whole_room(&self) -> Mm {
        self.room
    }

    /// Height left on this page, and on a fresh one, for what follows the waiting slabs.
    pub fn rooms(&self, space: Mm) -> (Mm, Mm) {
        let waiting = height(&self.waiting);
        let behind = self.waiting.last().map(|s| s.after.max(space));
        let fresh = self.room - waiting - behind.unwrap_or(Mm::ZERO);
        let before = self.waiting.first().map_or(space, |s| s.before);
        let gap = if self.y.0 > 0.0 { self.after.max(before) } else { Mm::ZERO };
        (fresh - self.y - gap, fresh)
    }

    /// Places whatever waits.
    pub fn flush(&mut self) {
        let group = std::mem::take(&mut self.waiting);
        let Some(first) = group.first() else { return };
        let gap = if self.y.0 > 0.0 { self.after.max(first.before) } else { Mm::ZERO };
        let needed = height(&group);
        let wanted = group.iter().map(|s| s.wants).fold(Mm::ZERO, Mm::max);
        if self.y.0 > 0.0 && self.y.0 + gap.0 + needed.0.max(wanted.0) > self.room.0 + 0.001 {
            let begun = self.y.0 > self.room.0 * 0.75;
            let repeated = first.repeat.as_ref().map_or(Mm::ZERO, |r| r.height);
            // A group too tall for any page may as well begin here.
            if begun || needed + repeated <= self.room {
                self.turn();
            }
        }
        for slab in group {
            let repeated = slab.repeat.as_ref().map_or(Mm::ZERO, |r| r.height);
            if slab.fragment.height <= self.room - repeated {
                self.place(slab);
                continue;
            }
            for fragment in slices(slab.fragment, self.room - repeated) {
                self.place(Slab {
                    fragment,
                    before: slab.before,
                    after: slab.after,
                    repeat: slab.repeat.clone(),
                    ..Slab::default()
                });
            }
        }
    }

    fn place(&mut self, slab: Slab) {
        let gap = if self.y.0 > 0.0 { self.after.max(slab.before) } else { Mm::ZERO };
        if self.y.0 > 0.0 && self.y.0 + gap.0 + slab.fragment.height.0 > self.room.0 + 0.001 {
            self.turn();
        }
        let gap = if self.y.0 > 0.0 { gap } else { Mm::ZERO };
        if self.y.0 == 0.0 {
            self.pages.push(Draft {
                content: Fragment::default(),
                section: self.section.clone(),
                running: true,
            });
            if let Some(repeat) = &slab.repeat {
                self.put(Fragment::clone(repeat));
            }
        }
        self.y += gap;
        self.put(slab.fragment);
        self.after = slab.after;
    }

    fn put(&mut self, fragment: Fragment) {
        let height = fragment.height;
        let (dx, dy) = (self.left, self.top + self.y);
        if let Some(page) = self.pages.last_mut() {
            page.content.absorb(fragment, dx, dy);
        }
        self.y += height;
    }

    fn turn(&mut self) {
        self.y = Mm::ZERO;
        self.after = Mm::ZERO;
    }
}
