//! Galleys come to stand on the pages chosen for them: headings repeat, spaces at the head of a page fall away, charts
//! that share their page are set anew.

use super::fit::{Float, MOST_FLOATS, Measure, Stretch, fit};
use super::fragment::{Fragment, Slab};
use super::galley::{Galley, Piece};
use super::setter::Setter;
use super::tree::Tree;
use super::{NodeId, Role};
use crate::booklet::Block;
use crate::units::Mm;

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

/// Where a piece stands among the galleys.
type At = (usize, usize);

/// The slabs of all galleys but those that float, and the floats.
struct Gathered {
    /// Piece and slab in it.
    slabs: Vec<(At, usize)>,
    floats: Vec<At>,
}

impl Setter<'_> {
    /// Chooses pages for all galleys, and fills them.
    pub fn pages(&mut self, mut galleys: Vec<Galley>, room: Mm) -> Vec<Draft> {
        let gathered = gather(&mut galleys);
        let chosen = chosen(&galleys, &gathered, room);
        let mut filling = Filling {
            setter: self,
            galleys: &mut galleys,
            room,
            section: None,
            y: Mm::ZERO,
            after: Mm::ZERO,
            drafts: Vec::new(),
        };
        for page in chosen {
            filling.page(&gathered, &page);
        }
        filling.drafts
    }
}

fn gather(galleys: &mut [Galley]) -> Gathered {
    let mut gathered = Gathered { slabs: Vec::new(), floats: Vec::new() };
    for (g, galley) in galleys.iter_mut().enumerate() {
        for (p, piece) in galley.pieces.iter_mut().enumerate() {
            // What begins a section stays there.
            piece.floats &= p > 0 && gathered.floats.len() < MOST_FLOATS;
            if piece.floats {
                gathered.floats.push((g, p));
            } else {
                gathered.slabs.extend((0..piece.slabs.len()).map(|s| ((g, p), s)));
            }
        }
    }
    gathered
}

fn chosen(galleys: &[Galley], gathered: &Gathered, room: Mm) -> Vec<Stretch> {
    let piece = |(g, p): At| &galleys[g].pieces[p];
    let measures: Vec<_> = gathered.slabs.iter().map(|&(at, s)| piece(at).slabs[s].measure()).collect();
    let begun =
        |g: usize| galleys[..=g].iter().filter(|galley| galley.pieces.iter().any(|p| !p.slabs.is_empty()));
    let float = |&at: &At| {
        let slab = &piece(at).slabs[0];
        Float { height: slab.fragment.height, before: slab.before, home: begun(at.0).count() }
    };
    let mut measures = measures;
    let fits = |g: usize| {
        let own = gathered.slabs.iter().zip(&measures).filter(|(((of, _), _), _)| *of == g);
        super::fit::height(own.map(|(_, measure)| measure)) <= room
    };
    let faces =
        |(&((g, _), _), measure): (&(At, usize), &Measure)| measure.faces && g > 0 && fits(g - 1) && fits(g);
    let facing: Vec<bool> = gathered.slabs.iter().zip(&measures).map(faces).collect();
    measures.iter_mut().zip(facing).for_each(|(measure, faces)| measure.faces = faces);
    let floats: Vec<_> = gathered.floats.iter().map(float).collect();
    fit(&measures, &floats, room)
}

/// Pages while they are filled.
struct Filling<'f, 'b, 's> {
    setter: &'f mut Setter<'s>,
    galleys: &'f mut [Galley<'b>],
    room: Mm,
    /// The section that stands last, and its node.
    section: Option<(usize, NodeId)>,
    y: Mm,
    after: Mm,
    drafts: Vec<Draft>,
}

impl Filling<'_, '_, '_> {
    fn page(&mut self, gathered: &Gathered, page: &Stretch) {
        (self.y, self.after) = (Mm::ZERO, Mm::ZERO);
        self.make_room(gathered, page);
        self.drafts.push(Draft { running: true, ..Draft::default() });
        let floats = page.floats.iter().map(|float| (gathered.floats[*float], 0));
        for (at, s) in gathered.slabs[page.from..page.to].iter().copied().chain(floats) {
            self.place(at, s);
        }
    }

    /// Sets the charts of a page anew where they are too high for it.
    fn make_room(&mut self, gathered: &Gathered, page: &Stretch) {
        let slabs = &gathered.slabs[page.from..page.to];
        let of = |galleys: &[Galley], &((g, p), s): &(At, usize)| galleys[g].pieces[p].slabs[s].measure();
        let measures: Vec<_> = slabs.iter().map(|slab| of(self.galleys, slab)).collect();
        let floats: Vec<_> =
            page.floats.iter().map(|f| of(self.galleys, &(gathered.floats[*f], 0))).collect();
        let over = super::fit::height(measures.iter().chain(&floats)) - self.room;
        let give: Mm = measures.iter().map(|m| m.height - m.least).sum();
        if over.0 <= 0.0 || give.0 <= 0.0 {
            return;
        }
        for (&((g, p), _), measure) in slabs.iter().zip(&measures) {
            let galley = &mut self.galleys[g];
            let section = galley.section;
            let Some(Block::Chart(chart)) = galley.pieces[p].chart.map(|block| &section.blocks[block]) else {
                continue;
            };
            let room = measure.height - over * ((measure.height - measure.least) / give);
            let kept = std::mem::replace(&mut self.setter.tree, Tree::new());
            let set = self.setter.chart_for_page(chart, room, self.room);
            let tree = std::mem::replace(&mut self.setter.tree, kept);
            let old = std::mem::replace(&mut galley.pieces[p], Piece::of(set, tree));
            for (new, old) in galley.pieces[p].slabs.iter_mut().zip(old.slabs) {
                *new = Slab { fragment: std::mem::take(&mut new.fragment), ..old };
            }
        }
    }

    fn place(&mut self, (g, p): At, s: usize) {
        let galley = &mut self.galleys[g];
        let piece = &mut galley.pieces[p];
        let mut slab = std::mem::take(&mut piece.slabs[s]);
        let section = match self.section {
            // What floats goes with the section that it has come to.
            Some((_, node)) if piece.floats => node,
            Some((last, node)) if last == g => node,
            _ => {
                let node = self.setter.tree.add(Tree::ROOT, Role::Section);
                self.section = Some((g, node));
                node
            }
        };
        let by = piece.take_in(section, &mut self.setter.tree);
        slab.fragment.renumber(by);
        let Some(draft) = self.drafts.last_mut() else { return };
        if slab.begins == super::fit::Begins::Page {
            *draft = Draft { content: slab.fragment, ..Draft::default() };
            return;
        }
        let (left, top) = (self.setter.sheet.side, self.setter.sheet.top);
        let put = |fragment: Fragment, y: &mut Mm, draft: &mut Draft| {
            let height = fragment.height;
            draft.content.absorb(fragment, left, top + *y);
            *y += height;
        };
        if draft.content.items.is_empty() && self.y.0 == 0.0 {
            draft.section.clone_from(&galley.section.title);
            if let Some(repeat) = &slab.repeat {
                put(Fragment::clone(repeat), &mut self.y, draft);
            }
        } else {
            self.y += self.after.max(slab.before);
        }
        put(slab.fragment, &mut self.y, draft);
        self.after = slab.after;
    }
}
