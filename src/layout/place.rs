//! Galleys come to stand on the pages chosen for them: headings repeat, spaces at the head of a page fall away, charts
//! that share their page are set anew.

use super::contents::Listed;
use super::fit::{Begins, Float, Line, MOST_FLOATS, Measure, Shown, Stretch, fit, height};
use super::fragment::{self, Fragment, Slab};
use super::galley::{Galley, Piece, ROOMIER, Version};
use super::setter::Setter;
use super::step::{SQUEEZED, WITHIN_SENTENCE};
use super::tree::Tree;
use super::{NodeId, Role};
use crate::booklet::{Block, Floating, Section};
use crate::units::Mm;
use std::collections::{BTreeMap, BTreeSet};

/// How many pages before and after one that looks empty are set in other ways too.
const ROUND: [usize; 2] = [2, 12];

/// How many steps after one that is parted may be set larger.
const FOLLOWING: usize = 2;
/// How full a page is that has no room for larger diagrams.
const ROOMY: f64 = 0.92;

/// How many sections further than its own something may float: the true size as far as the steps.
const REACH: usize = 4;

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

/// Where a piece stands: its galley, and which of its pieces it is.
type At = (usize, usize);

/// A slab among the galleys.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Spot {
    piece: At,
    version: usize,
    slab: usize,
}

/// The slabs of all galleys but those that float, and the floats.
#[derive(Default)]
struct Gathered {
    slabs: Vec<Spot>,
    floats: Vec<Spot>,
    /// Where the versions of a piece begin among the slabs, and where the last ends.
    versions: Vec<Vec<usize>>,
}

impl Setter<'_> {
    /// Chooses pages for all galleys, and fills them.
    pub fn pages(&mut self, mut galleys: Vec<Galley>, room: Mm) -> Vec<Draft> {
        let mut gathered = gather(&mut galleys);
        let mut chosen = choose(&galleys, &gathered, room);
        // Where a step is parted that one page could hold, those after it may fill theirs with larger diagrams.
        let parted = after_parted(&galleys, &gathered, &chosen, room);
        for &(g, p) in &parted {
            self.vary_higher(&mut galleys[g], p);
        }
        if !parted.is_empty() {
            gathered = gather(&mut galleys);
            chosen = choose(&galleys, &gathered, room);
        }
        // Where a page would look empty, or would end within a sentence of a step, what stands there and round it is set in
        // other ways too; if need be, far round it.
        // Screens hold a row or a step each, full or not.
        let rounds = if self.booklet.setting.tablet { &[][..] } else { &ROUND[..] };
        for &round in rounds {
            let pieces = round_poor(&galleys, &gathered, &chosen, round);
            if pieces.is_empty() {
                break;
            }
            for ((g, p), spare) in pieces {
                self.vary(&mut galleys[g], p, spare);
            }
            gathered = gather(&mut galleys);
            chosen = choose(&galleys, &gathered, room);
        }
        self.order_contents(&mut galleys, (&gathered, &chosen), room);
        let mut filling = Filling {
            setter: self,
            galleys: &mut galleys,
            room,
            section: None,
            sections: BTreeMap::new(),
            y: Mm::ZERO,
            after: Mm::ZERO,
            drafts: Vec::new(),
        };
        for page in chosen {
            filling.page(&gathered, &page);
        }
        filling.drafts
    }

    /// Sets the contents again, in the order of the pages that were chosen: as many lines as before.
    fn order_contents(
        &mut self,
        galleys: &mut [Galley],
        (gathered, chosen): (&Gathered, &[Stretch]),
        room: Mm,
    ) {
        let mut begun = 0;
        let mut strayed: BTreeMap<usize, usize> = BTreeMap::new();
        for page in chosen {
            for slab in &page.slabs {
                begun = begun.max(gathered.slabs[*slab].piece.0 + 1);
            }
            strayed.extend(page.floats.iter().map(|float| (gathered.floats[*float].piece.0, begun)));
        }
        // What takes several pages stands at the end of its own section, above what floats there.
        let mut all: Vec<(usize, bool, Listed)> = Vec::new();
        for (g, galley) in galleys.iter().enumerate() {
            let before = strayed.get(&g);
            all.extend(
                galley
                    .listed
                    .clone()
                    .map(|listed| (before.copied().unwrap_or(g + 1), before.is_some(), listed)),
            );
        }
        all.sort_by_key(|(before, floats, _)| (*before, *floats));
        let listed = all.into_iter().map(|(before, _, listed)| (before, listed)).collect();
        self.listed = listed;
        let width = self.sheet.width();
        let lists = |piece: &&mut Piece| matches!(piece.made_of, Some((Block::Contents, _)));
        let pieces = galleys.iter_mut().flat_map(|galley| &mut galley.pieces);
        for piece in pieces.filter(lists) {
            let Some(set) = self.apart(|on| Some(on.contents(width, Tree::ROOT))) else { continue };
            let set = piece.in_place_of_usual(set, room);
            // An entry that no page holds may be sliced otherwise elsewhere: the pages are chosen for these.
            if set.slabs.len() == piece.versions[0].slabs.len() {
                piece.versions[0] = set;
            }
        }
    }
}

fn gather(galleys: &mut [Galley]) -> Gathered {
    let mut gathered = Gathered::default();
    for (g, galley) in galleys.iter_mut().enumerate() {
        for (p, piece) in galley.pieces.iter_mut().enumerate() {
            // What begins a section stays there.
            piece.floats &= p > 0 && gathered.floats.len() < MOST_FLOATS;
            if piece.floats {
                gathered.floats.push(Spot { piece: (g, p), version: 0, slab: 0 });
                continue;
            }
            let mut starts = vec![gathered.slabs.len()];
            for (version, set) in piece.versions.iter().enumerate() {
                let spot = |slab| Spot { piece: (g, p), version, slab };
                gathered.slabs.extend((0..set.slabs.len()).map(spot));
                starts.push(gathered.slabs.len());
            }
            if piece.versions.len() > 1 {
                gathered.versions.push(starts);
            }
        }
    }
    gathered
}

/// The pieces that follow steps which are parted though one page could hold them.
fn after_parted(galleys: &[Galley], gathered: &Gathered, chosen: &[Stretch], room: Mm) -> BTreeSet<At> {
    let mut after = BTreeSet::new();
    for page in chosen {
        let Some(&last) = page.slabs.last() else { continue };
        let Spot { piece: (g, p), version, slab } = gathered.slabs[last];
        let piece = &galleys[g].pieces[p];
        let slabs = &piece.versions[version].slabs;
        if is_step(piece) && slab + 1 < slabs.len() && fragment::height(slabs) <= room {
            after.extend((p + 1..galleys[g].pieces.len()).take(FOLLOWING).map(|next| (g, next)));
        }
    }
    after
}

/// The pieces on pages that look empty and on those beside them, each with what the first of those leaves; and the steps
/// on pages that end within a sentence of a step, and beside them.
fn round_poor(galleys: &[Galley], gathered: &Gathered, chosen: &[Stretch], round: usize) -> BTreeMap<At, Mm> {
    let mut pieces = BTreeMap::new();
    for (index, page) in chosen.iter().enumerate() {
        let torn = page.slabs.last().is_some_and(|&last| is_torn(galleys, &gathered.slabs[last]));
        if page.empty.is_none() && !torn {
            continue;
        }
        let pages = &chosen[index.saturating_sub(round)..(index + round + 1).min(chosen.len())];
        for slab in pages.iter().flat_map(|page| &page.slabs) {
            let (g, p) = gathered.slabs[*slab].piece;
            let spare = page.empty.or_else(|| is_step(&galleys[g].pieces[p]).then_some(Mm::ZERO));
            spare.into_iter().for_each(|spare| {
                pieces.entry((g, p)).or_insert(spare);
            });
        }
    }
    pieces
}

fn is_step(piece: &Piece) -> bool {
    matches!(piece.made_of, Some((Block::Step(_), _)))
}

/// Whether a page that ends with a slab ends within a sentence of a step.
fn is_torn(galleys: &[Galley], last: &Spot) -> bool {
    is_step(&galleys[last.piece.0].pieces[last.piece.1]) && slab_at(galleys, last).tie >= WITHIN_SENTENCE
}

/// The pages that cost least.
fn choose(galleys: &[Galley], gathered: &Gathered, room: Mm) -> Vec<Stretch> {
    let slab = |spot: &Spot| slab_at(galleys, spot);
    let mut slabs: Vec<Measure> = gathered.slabs.iter().map(|spot| slab(spot).measure()).collect();
    let begun = |g: usize| galleys[..=g].iter().filter(|galley| !galley.pieces.is_empty()).count();
    let float = |spot: &Spot| {
        let (g, p) = spot.piece;
        let (height, before, home) = (slab(spot).fragment.height, slab(spot).before, begun(g));
        if !shows_chart(&galleys[g].pieces[p]) {
            let until = begun(last_with_floats(galleys, g));
            return Float { height, before, home, until, shown_with: None };
        }
        let with = shown_with(galleys[g + 1..].iter().map(|galley| galley.section), g);
        let of = |spot: &Spot| spot.piece.0 == with;
        let first = gathered.slabs.iter().position(of).filter(|_| with > g);
        let shown = first.filter(|_| fits_page(&galleys[with], room)).map(|first| Shown::Facing {
            first,
            next: first + gathered.slabs[first..].iter().take_while(|spot| of(spot)).count(),
        });
        Float { height, before, home, until: begun(with), shown_with: Some(shown.unwrap_or(Shown::Near)) }
    };
    let floats: Vec<Float> = gathered.floats.iter().map(float).collect();
    for (index, spot) in gathered.slabs.iter().enumerate().filter(|(_, spot)| slab(spot).faces) {
        let (g, _) = spot.piece;
        slabs[index].faces = g > 0 && fits_page(&galleys[g], room) && is_faced(&galleys[g - 1], room);
    }
    fit(&Line { slabs, versions: gathered.versions.clone() }, &floats, room)
}

fn slab_at<'g>(galleys: &'g [Galley], spot: &Spot) -> &'g Slab {
    &galleys[spot.piece.0].pieces[spot.piece.1].versions[spot.version].slabs[spot.slab]
}

/// The section that a chart is shown with which floats in the section `own`: the last of those that face one another
/// behind it.
pub(super) fn shown_with<'b>(behind: impl Iterator<Item = &'b Section>, own: usize) -> usize {
    own + behind.take_while(|next| next.faces).count()
}

/// The last section, from one on, at whose end what floats may stand: not far away, and not where a page is to be taken
/// out.
fn last_with_floats(galleys: &[Galley], own: usize) -> usize {
    let further = galleys[own + 1..].iter().take_while(|galley| !galley.is_taken_out());
    own + further.count().min(REACH)
}

fn shows_chart(piece: &Piece) -> bool {
    match piece.made_of {
        Some((Block::Float(Floating { blocks, .. }), _)) => {
            blocks.iter().any(|block| block.chart().is_some())
        }
        Some((block, _)) => block.chart().is_some(),
        None => false,
    }
}

/// Whether a section can be faced by the next: it ends with a chart on one page.
fn is_faced(galley: &Galley, room: Mm) -> bool {
    let last = galley.pieces.iter().rev().find(|piece| !piece.floats);
    last.is_some_and(shows_chart) && fits_page(galley, room)
}

/// Whether the last part of a section fits one page.
fn fits_page(galley: &Galley, room: Mm) -> bool {
    let pieces = galley.pieces.iter().filter(|piece| !piece.floats);
    let slabs: Vec<Measure> = pieces.flat_map(|piece| &piece.versions[0].slabs).map(Slab::measure).collect();
    let last = slabs.iter().rposition(|slab| slab.begins == Begins::Part).unwrap_or(0);
    height(slabs[last..].iter()) <= room
}

/// Pages while they are filled.
struct Filling<'f, 'b, 's> {
    setter: &'f mut Setter<'s>,
    galleys: &'f mut [Galley<'b>],
    room: Mm,
    /// The section that stands last.
    section: Option<usize>,
    /// The nodes of the sections that have begun.
    sections: BTreeMap<usize, NodeId>,
    y: Mm,
    after: Mm,
    drafts: Vec<Draft>,
}

impl Filling<'_, '_, '_> {
    fn page(&mut self, gathered: &Gathered, page: &Stretch) {
        let slabs: Vec<Spot> = page.slabs.iter().map(|slab| gathered.slabs[*slab]).collect();
        let floats: Vec<Spot> = page.floats.iter().map(|float| gathered.floats[*float]).collect();
        let measures: Vec<Measure> =
            slabs.iter().chain(&floats).map(|spot| slab_at(self.galleys, spot).measure()).collect();
        let whole = height(measures.iter());
        if whole > self.room {
            self.make_room(&slabs, &measures, whole - self.room);
        } else if whole <= self.room * ROOMY {
            self.enlarge(&slabs, &measures);
        }
        (self.y, self.after) = (Mm::ZERO, Mm::ZERO);
        self.drafts.push(Draft { running: true, ..Draft::default() });
        for (index, spot) in slabs.into_iter().chain(floats).enumerate() {
            self.place(spot, index == 0);
        }
    }

    /// Sets charts and lines to write on anew, by so much lower as all are too high for their page.
    fn make_room(&mut self, slabs: &[Spot], measures: &[Measure], over: Mm) {
        let gives = |measure: &Measure| measure.height - measure.least;
        let give: Mm = measures.iter().map(gives).sum();
        if give.0 <= 0.0 {
            return;
        }
        for (spot, measure) in slabs.iter().zip(measures).filter(|(_, measure)| gives(measure).0 > 0.0) {
            let piece = &mut self.galleys[spot.piece.0].pieces[spot.piece.1];
            let room = measure.height - over * (gives(measure) / give);
            let Some((block, _)) = piece.made_of else { continue };
            let page = self.room;
            let set = self.setter.apart(|on| match block {
                Block::Chart(chart) | Block::ChartOnOnePage { chart, .. } => {
                    Some(on.chart_for_page(chart, room, page))
                }
                Block::WritingLines(lines) => Some(vec![on.writing_lines(lines, room)]),
                _ => None,
            });
            set.into_iter().for_each(|set| piece.versions[0].show(set));
        }
    }

    /// Sets steps with larger diagrams on a page that has room for them.
    fn enlarge(&mut self, slabs: &[Spot], measures: &[Measure]) {
        let setting = &self.setter.booklet.setting;
        if setting.large_print || setting.tablet {
            return;
        }
        let abreast = |spot: &Spot| {
            let piece = &self.galleys[spot.piece.0].pieces[spot.piece.1];
            matches!(piece.made_of, Some((Block::Step(step), _)) if step.figures.len() >= SQUEEZED)
        };
        let any_abreast = slabs.iter().any(abreast);
        for (share, alone) in ROOMIER.into_iter().filter(|(_, alone)| any_abreast || !alone) {
            let mut larger: Vec<(Spot, Version)> = Vec::new();
            let mut heights = measures.to_vec();
            for (index, spot) in slabs.iter().enumerate().filter(|(_, spot)| spot.slab == 0) {
                let galley = &self.galleys[spot.piece.0];
                let here = slabs[index..].iter().take_while(|other| other.piece == spot.piece).count();
                let version = &galley.pieces[spot.piece.1].versions[spot.version];
                if here < version.slabs.len() {
                    continue;
                }
                let Some(set) = self.setter.larger(galley, spot.piece.1, spot.version, (share, alone)) else {
                    continue;
                };
                let set = set.in_slabs(here);
                if set.slabs.len() == here {
                    heights[index..].iter_mut().zip(&set.slabs).for_each(|(measure, slab)| {
                        measure.height = slab.fragment.height;
                    });
                    larger.push((*spot, set));
                }
            }
            if !larger.is_empty() && height(heights.iter()) <= self.room {
                for (spot, set) in larger {
                    let piece = &mut self.galleys[spot.piece.0].pieces[spot.piece.1];
                    piece.versions[spot.version].show(set);
                }
                return;
            }
        }
    }

    /// Puts a slab below what stands on the page.
    fn place(&mut self, spot: Spot, is_first: bool) {
        let (g, p) = spot.piece;
        let galley = &mut self.galleys[g];
        let piece = &mut galley.pieces[p];
        // What floats is read with its own section, wherever it stands, or with the one it has come to where its own
        // is still to begin.
        let own = self.sections.get(&g);
        let section = match own.or_else(|| self.sections.get(&self.section?).filter(|_| piece.floats)) {
            Some(node) => *node,
            None => {
                let node = self.setter.tree.add(Tree::ROOT, Role::Section);
                self.sections.insert(g, node);
                self.section = Some(g);
                node
            }
        };
        let by = piece.take_in(spot.version, section, &mut self.setter.tree);
        let mut slab = std::mem::take(&mut piece.versions[spot.version].slabs[spot.slab]);
        slab.fragment.renumber(by);
        let Some(draft) = self.drafts.last_mut() else { return };
        if slab.begins == Begins::Page {
            *draft = Draft { content: slab.fragment, ..Draft::default() };
            return;
        }
        let repeated = slab.repeat.filter(|_| is_first);
        if is_first {
            // A page that begins with what has left its section is named by its heading.
            let strayed = piece.floats && self.section != Some(g);
            let heading = piece.made_of.filter(|_| strayed).and_then(|(block, _)| heading_of(block));
            draft.section = heading.unwrap_or_else(|| galley.section.title.clone());
        } else {
            self.y += self.after.max(slab.before);
        }
        self.after = slab.after;
        for fragment in repeated.map(|repeated| Fragment::clone(&repeated)).into_iter().chain([slab.fragment])
        {
            let height = fragment.height;
            draft.content.absorb(fragment, self.setter.sheet.side, self.setter.sheet.top + self.y);
            self.y += height;
        }
    }
}

/// The first heading of what floats.
fn heading_of(block: &Block) -> Option<String> {
    let Block::Float(floating) = block else { return None };
    floating.blocks.iter().find_map(|block| match block {
        Block::Heading { text, .. } => Some(text.words()),
        _ => None,
    })
}
