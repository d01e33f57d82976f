//! The finished pages: running heads and feet, page numbers in the contents, targets of links,
//! bookmarks.

use super::fragment::{Fragment, LinkTo};
use super::lines::SetLine;
use super::place::Draft;
use super::setter::{Ink, Setter};
use super::tree::Tree;
use super::{Artifact, Bookmark, Item, Link, NodeId, Page, Paint, Role, Standing, Target};
use crate::booklet::{Place, RunningLine, RunningPart};
use crate::drawn::{Align, Face};
use crate::units::{Mm, Point, Pt};
use std::collections::BTreeMap;
use unicode_segmentation::UnicodeSegmentation;

/// A link to a section shows this much of the page above its title.
pub(super) const ABOVE_GOAL: Mm = Mm(4.0);

/// Share of the width that each of the two texts of a running head may take.
const HALF: f64 = 0.48;
/// Between the texts of a line of the maker's, in sizes.
const PARTS_APART: f64 = 1.2;
/// Size of the personal line, as a share of the running head's.
const STAMP_SIZE: f64 = 0.82;

/// What stands on every page, cut once to what fits.
struct Running {
    /// The booklet's title.
    title: String,
    /// The copyright line.
    foot: Vec<SetLine>,
    /// The personal line.
    stamp: Option<String>,
}

/// What of a page its head and foot can tell.
struct PageAt<'p> {
    section: &'p str,
    number: usize,
    pages: usize,
}

impl PageAt<'_> {
    fn text(&self, parts: &[RunningPart]) -> String {
        let text: String = parts
            .iter()
            .map(|part| match part {
                RunningPart::Words(words) => words.clone(),
                RunningPart::Section => self.section.to_owned(),
                RunningPart::Page => self.number.to_string(),
                RunningPart::Pages => self.pages.to_string(),
            })
            .collect();
        text.trim().to_owned()
    }
}

/// Where a section begins or a place is: page from 0, distance from the page's top.
pub(super) type Begin = (usize, Mm);

/// Where all of them are.
#[derive(Default)]
pub(super) struct Begins {
    pub sections: BTreeMap<String, Begin>,
    pub places: BTreeMap<Place, Begin>,
}

impl Setter<'_> {
    /// Finishes the pages; the bookmarks come with them.
    pub fn finish(&mut self, drafts: Vec<Draft>, foot: Vec<SetLine>) -> (Vec<Page>, Vec<Bookmark>) {
        let mut begins = Begins::default();
        let mut bookmarks = Vec::new();
        for (page, draft) in drafts.iter().enumerate() {
            for goal in &draft.content.goals {
                if let Some(section) = &goal.section {
                    begins.sections.entry(section.clone()).or_insert((page, goal.y));
                }
                if let Some(place) = goal.place {
                    begins.places.entry(place).or_insert((page, goal.y));
                }
                if let Some((title, level)) = &goal.bookmark {
                    bookmarks.push(Bookmark { title: title.clone(), level: *level, page, y: goal.y });
                }
            }
        }
        level_out(&mut bookmarks);
        let pages = drafts.len();
        let style = self.sheet.running;
        let stamp = self.booklet.stamp.as_ref();
        let running = Running {
            title: self.shortened(style.face, &self.booklet.running_title, style.size, self.half()),
            foot,
            stamp: stamp
                .map(|stamp| self.shortened(Face::Regular, stamp, self.stamp_size(), self.sheet.width())),
        };
        let finished = drafts
            .into_iter()
            .enumerate()
            .map(|(i, draft)| self.finish_page(i, pages, draft, &running, &begins))
            .collect();
        (finished, bookmarks)
    }

    fn finish_page(
        &mut self,
        index: usize,
        pages: usize,
        draft: Draft,
        running: &Running,
        begins: &Begins,
    ) -> Page {
        let mut content = draft.content;
        self.fill_numbers(&mut content, begins);
        let links = content.links.into_iter().filter_map(|l| {
            let goal = match l.to {
                LinkTo::Web(address) => Err(address),
                LinkTo::Section(name) => Ok(begins.sections.get(&name)),
                LinkTo::Place(place) => Ok(begins.places.get(&place)),
            };
            let target = match goal {
                Err(address) => Target::Web(address),
                Ok(Some(&(page, y))) => Target::Page { page, y: (y - ABOVE_GOAL).max(Mm::ZERO) },
                // A booklet without that section: what would lead there is words only.
                Ok(None) => {
                    self.tree.unlink(l.node);
                    return None;
                }
            };
            Some(Link { at: l.at, size: l.size, target, node: l.node, alt: l.alt })
        });
        let mut items = content.items;
        let mut links: Vec<Link> = links.collect();
        if self.booklet.setting.tablet {
            self.screen_links((index, pages), content.on_chart, begins, (&mut items, &mut links));
        }
        if draft.running {
            let page = PageAt { section: &draft.section, number: index + 1, pages };
            match &self.booklet.head {
                Some(head) => items.extend(self.running_line(head, &page, self.sheet.head)),
                None => items.extend(self.running_head(index, &running.title, &draft.section)),
            }
            match &self.booklet.foot {
                Some(foot) => items.extend(self.running_line(foot, &page, self.sheet.foot)),
                None => items.extend(self.running_foot(index, pages, &running.foot)),
            }
        }
        if let Some(stamp) = &running.stamp {
            items.extend(self.stamp(stamp, index + 1 == pages));
        }
        let words = &self.booklet.words;
        let named = if index == 0 { &words.cover } else { &words.back };
        let named = Some(named).filter(|name| !draft.running && !name.is_empty());
        let label = named.cloned().unwrap_or_else(|| (index + 1).to_string());
        let (section, running) = (draft.section, draft.running);
        Page { size: self.sheet.page, label, section, running, items, links, ticks: content.ticks }
    }

    fn fill_numbers(&mut self, content: &mut Fragment, begins: &Begins) {
        for number in &content.numbers {
            let Some(&(page, _)) = begins.sections.get(&number.section) else { continue };
            let Some(Item { paint: Paint::Glyphs(glyphs), .. }) = content.items.get_mut(number.item) else {
                continue;
            };
            let shaped = self.shaper.in_one_face(glyphs.face, &(page + 1).to_string());
            glyphs.at.x -= shaped.width(glyphs.size);
            glyphs.face = shaped.stretches.first().map_or(glyphs.face, |s| s.face);
            glyphs.glyphs = shaped.stretches.iter().flat_map(|s| s.glyphs.clone()).collect();
        }
    }

    /// The booklet's title at the inner side, the section's at the outer one, where a thumb finds it.
    fn running_head(&mut self, index: usize, title: &str, section: &str) -> Vec<Item> {
        let style = self.sheet.running;
        let y = self.sheet.head;
        let [(inner, to_inner), (outer, to_outer)] = self.sides(index);
        let mut items = self.artifact(title, style.size, Point { x: inner, y }, to_inner);
        if section != self.booklet.running_title {
            let section = self.shortened(style.face, section, style.size, self.half());
            items.extend(self.artifact(&section, style.size, Point { x: outer, y }, to_outer));
        }
        items
    }

    /// The inner and the outer edge of a page's text, and how what stands there is aligned. The pages of a booklet lie
    /// two beside one another, the first at the right; those of a bench copy and of a tablet edition each by itself.
    fn sides(&self, index: usize) -> [(Mm, Align); 2] {
        let left = (self.sheet.side, Align::Start);
        let right = (self.sheet.page.width - self.sheet.side, Align::End);
        let setting = &self.booklet.setting;
        let is_left_page = index % 2 == 1 && !setting.bench && !setting.tablet;
        if is_left_page { [right, left] } else { [left, right] }
    }

    /// A line of the maker's: what stands at the left, in the middle and at the right. Where they are too long together the
    /// longest are cut.
    fn running_line(&mut self, line: &RunningLine, page: &PageAt, y: Mm) -> Vec<Item> {
        let style = self.sheet.running;
        let texts = line.0.each_ref().map(|parts| page.text(parts));
        let gap = style.size.mm() * PARTS_APART;
        let given = texts.iter().filter(|text| !text.is_empty()).count();
        let mut rest = self.sheet.width() - gap * given.saturating_sub(1) as f64;
        let mut widths = texts.each_ref().map(|text| self.shaper.width(style.face, text, style.size));
        // The shortest first: what they leave is for the others.
        let mut shortest: Vec<usize> = (0..texts.len()).filter(|&i| !texts[i].is_empty()).collect();
        shortest.sort_by(|&one, &other| widths[one].0.total_cmp(&widths[other].0));
        for (done, &i) in shortest.iter().enumerate() {
            widths[i] = widths[i].min(rest / (shortest.len() - done) as f64);
            rest -= widths[i];
        }
        let (left, right) = (self.sheet.side, self.sheet.page.width - self.sheet.side);
        // In the middle of the page, or of what those beside it leave.
        let half = widths[1] / 2.0 + gap;
        let [least, most] = [left + widths[0] + half, right - widths[2] - half];
        let middle = (left + right) / 2.0;
        let middle = if least <= most { middle.max(least).min(most) } else { (least + most) / 2.0 };
        let places = [(left, Align::Start), (middle, Align::Middle), (right, Align::End)];
        let mut items = Vec::new();
        for ((text, width), (x, align)) in texts.iter().zip(widths).zip(places) {
            if !text.is_empty() {
                // A hair more, for what adding up has lost.
                let text = self.shortened(style.face, text, style.size, width + Mm(0.001));
                items.extend(self.artifact(&text, style.size, Point { x, y }, align));
            }
        }
        items
    }

    /// The copyright line at the inner side, the page number at the outer one.
    fn running_foot(&mut self, index: usize, pages: usize, foot: &[SetLine]) -> Vec<Item> {
        let style = self.sheet.running;
        let [(inner, to_inner), (outer, to_outer)] = self.sides(index);
        let mut items = Vec::new();
        for (i, line) in foot.iter().enumerate() {
            let up = style.leading * (foot.len() - 1 - i) as f64;
            let mut x = match to_inner {
                Align::End => inner - line.pieces.iter().map(|piece| piece.width).sum::<Mm>(),
                Align::Start | Align::Middle => inner,
            };
            for piece in &line.pieces {
                let at = Point { x, y: self.sheet.foot - up };
                let item = super::setter::glyph_item(
                    piece.face,
                    style.size,
                    style.colour,
                    at,
                    piece.glyphs.clone(),
                    NodeId(0),
                );
                items.push(as_running(item));
                x += piece.width;
            }
        }
        let number = self.booklet.words.page_of.with([index + 1, pages]);
        let at = Point { x: outer, y: self.sheet.foot };
        items.extend(self.artifact(&number, style.size, at, to_outer));
        items
    }

    /// The personal line; its place is kept free whether there is one or not. It is read out once, at the end.
    fn stamp(&mut self, words: &str, last: bool) -> Vec<Item> {
        let size = self.stamp_size();
        let at = Point { x: self.sheet.side, y: self.sheet.stamp };
        if last {
            let node = self.tree.add(Tree::ROOT, Role::Paragraph);
            let ink = Ink { face: Face::Regular, size, colour: self.sheet.muted };
            return self.label(ink, words, at, Align::Start, node);
        }
        self.artifact(words, size, at, Align::Start)
    }

    fn stamp_size(&self) -> Pt {
        let size = Pt(self.sheet.running.size.0 * STAMP_SIZE);
        // A screen has nothing to save.
        if self.booklet.setting.tablet { size.max(self.sheet.least) } else { size }
    }

    /// How wide each of the two texts of a running head may be.
    fn half(&self) -> Mm {
        self.sheet.width() * HALF
    }

    fn artifact(&mut self, text: &str, size: Pt, at: Point, align: Align) -> Vec<Item> {
        let colour = self.sheet.muted;
        self.label(Ink { face: Face::Regular, size, colour }, text, at, align, NodeId(0))
            .into_iter()
            .map(as_running)
            .collect()
    }

    /// A text cut with an ellipsis where it is too long for its place.
    pub fn shortened(&mut self, face: Face, text: &str, size: Pt, width: Mm) -> String {
        if self.shaper.width(face, text, size) <= width {
            return text.to_owned();
        }
        let ends: Vec<usize> = text.grapheme_indices(true).map(|(at, _)| at).collect();
        let cut = |end: usize| format!("{}…", text[..end].trim_end());
        // What is longer is wider, but for a little kerning, so the longest that fits can be searched for by halves.
        let fitting = ends.partition_point(|&end| self.shaper.width(face, &cut(end), size) <= width);
        cut(ends[fitting.saturating_sub(1)])
    }
}

fn as_running(item: Item) -> Item {
    Item { standing: Standing::Artifact(Artifact::Running), ..item }
}

/// A bookmark is at most one level below the one before it.
fn level_out(bookmarks: &mut [Bookmark]) {
    let mut deepest = 0;
    for bookmark in bookmarks {
        bookmark.level = bookmark.level.min(deepest + 1);
        deepest = bookmark.level;
    }
}
