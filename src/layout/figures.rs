//! Figures: a drawing with its caption below, alone or side by side.

use super::fragment::{Fragment, Slab};
use super::measures::{FIGURE_SPACE, FIGURES_APART};
use super::setter::Setter;
use super::sheet::Style;
use super::{NodeId, Role};
use crate::booklet::{Figure, NumberedMove, Text};
use crate::drawn::{Align, Face, Mark};
use crate::units::Mm;

/// How far figures side by side are made smaller to save a row of them: usual print, and large print, where letters and
/// numbers keep their size and would crowd.
const SHRINK: [f64; 2] = [0.78, 0.92];
/// How much narrower than usual a caption may be to save a row of figures.
const NARROW: f64 = 0.9;
/// Least width of a caption beside its figure, in ems: usual print, large print.
const CAPTION_EMS: [f64; 2] = [13.0, 10.5];
/// The same of a list of moves, whose lines are short.
const MOVES_EMS: f64 = 8.5;

/// How much of their least size the numbers of a figure need, where they stand on a disc.
const FULLER: f64 = 0.8;
/// Between a figure and its caption; grows with the type.
const OVER_CAPTION: Mm = Mm(1.8);
/// How much more lines of a caption take than if all were full.
const LOOSE_LINES: f64 = 1.1;
/// Most lines of a caption for which a figure in large print leaves room.
const CAPTION_LARGE: f64 = 7.35;
/// Least share of its usual size of a figure in large print.
const LEAST_LARGE: f64 = 0.92;
/// No figure is scaled into less height than this, however little room is left.
const LEAST_ROOM: Mm = Mm(20.0);

impl Setter<'_> {
    /// A figure set into a column: scaled down where it is too wide or too high, unless its size means something;
    /// its caption below.
    pub fn figure(&mut self, figure: &Figure, width: Mm, room: Mm, parent: NodeId) -> Fragment {
        let caption = self.caption_height(figure, width);
        // In large print a long caption does not make its drawing smaller.
        let captioned = if self.booklet.setting.large_print {
            caption.min(self.sheet.small.leading * CAPTION_LARGE)
        } else {
            caption
        };
        let node = self.tree.add(parent, Role::Figure { alt: figure.alt.clone() });
        let scale = self.scale_into(figure, width, room - captioned);
        let mut piece = self.drawing(&figure.drawing, scale, node);
        let drawn = figure.drawing.size.width * scale;
        let measure = width.min(drawn.max(self.sheet.small.size.mm() * 22.0));
        let words = self.figure_words(figure, measure, node);
        if words.height.0 > 0.0 {
            piece.put_below(words, self.sheet.grown(OVER_CAPTION));
        }
        piece
    }

    /// A figure alone in a wide column: a long caption stands at its right, where there is room for it.
    pub fn figure_with_words(&mut self, figure: &Figure, width: Mm, room: Mm, parent: NodeId) -> Slab {
        let gap = self.sheet.grown(FIGURES_APART);
        let drawn = figure.drawing.size.width * self.scale_into(figure, width, room);
        let rest = width - drawn - gap;
        let natural = super::lines::natural_width(&mut self.shaper, &figure.caption, &self.sheet.small);
        let least = if figure.moves.is_empty() {
            self.caption_least()
        } else {
            self.sheet.cell.size.mm() * MOVES_EMS
        };
        if rest < least || figure.moves.is_empty() && natural < rest {
            return self.figure_slab(figure, width, room, parent);
        }
        let (mut piece, caption) = self.figure_apart(figure, drawn, room, rest, parent);
        piece.height = piece.height.max(caption.height);
        piece.absorb(caption, drawn + gap, Mm::ZERO);
        Slab::spaced(piece, self.sheet.grown(FIGURE_SPACE))
    }

    /// A figure whose caption stands elsewhere: the drawing in one column, the caption for another.
    pub fn figure_apart(
        &mut self,
        figure: &Figure,
        width: Mm,
        room: Mm,
        caption_width: Mm,
        parent: NodeId,
    ) -> (Fragment, Fragment) {
        let node = self.tree.add(parent, Role::Figure { alt: figure.alt.clone() });
        let drawn = self.drawing(&figure.drawing, self.scale_into(figure, width, room), node);
        (drawn, self.figure_words(figure, caption_width, node))
    }

    /// About how high the words of a figure are, with their space, in a column.
    pub fn caption_height(&mut self, figure: &Figure, column: Mm) -> Mm {
        let mut height = Mm::ZERO;
        let lines = |on: &mut Self, text: &Text, style: &Style, width: Mm| {
            let natural = super::lines::natural_width(&mut on.shaper, text, style);
            // Lines are not filled to their ends.
            (natural / width.max(Mm(1.0)) * LOOSE_LINES).ceil().max(1.0)
        };
        if !figure.moves.is_empty() {
            let style = self.sheet.cell;
            let width = column - self.moves_indent(&figure.moves);
            for made in &figure.moves {
                height += style.leading * lines(self, &made.what, &style, width);
            }
        }
        if !figure.caption.0.is_empty() {
            let style = self.sheet.small;
            height += style.leading * lines(self, &figure.caption, &style, column);
        }
        if height > Mm::ZERO { height + self.sheet.grown(OVER_CAPTION) } else { height }
    }

    /// What stands below a drawing: its moves as a list, and its caption.
    fn figure_words(&mut self, figure: &Figure, width: Mm, node: NodeId) -> Fragment {
        if figure.caption.0.is_empty() && figure.moves.is_empty() {
            return Fragment::default();
        }
        let caption = self.tree.add(node, Role::Caption);
        let mut words = self.moves(&figure.moves, width, caption);
        if !figure.caption.0.is_empty() {
            let below =
                if figure.moves.is_empty() { caption } else { self.tree.add(caption, Role::Paragraph) };
            let (style, how) = (self.sheet.small, self.plain());
            words.put_below(self.block(&figure.caption, &style, width, how, Align::Start, below), Mm::ZERO);
        }
        words
    }

    /// What the numbers of a drawing stand for, a line each; what runs over stands under its words.
    fn moves(&mut self, moves: &[NumberedMove], width: Mm, parent: NodeId) -> Fragment {
        let mut set = Fragment::default();
        if moves.is_empty() {
            return set;
        }
        let (style, how) = (self.sheet.cell, self.plain());
        let indent = self.moves_indent(moves);
        let list = self.tree.add(parent, Role::List { numbered: true });
        for made in moves {
            let item = self.tree.add(list, Role::ListItem);
            let [label, body] = [Role::ListLabel, Role::ListBody].map(|role| self.tree.add(item, role));
            let words = self.block(&made.what, &style, width - indent, how, Align::Start, body);
            let mut piece = Fragment { height: words.height, ..Fragment::default() };
            piece.items.extend(self.list_mark(&made.number.to_string(), &style, label));
            piece.absorb(words, indent, Mm::ZERO);
            set.put_below(piece, Mm::ZERO);
        }
        set
    }

    /// How far the words of moves stand from the left of their numbers.
    fn moves_indent(&mut self, moves: &[NumberedMove]) -> Mm {
        let number = moves.iter().map(|made| made.number).max().unwrap_or(0);
        let style = self.sheet.cell;
        self.mark_indent(&number.to_string(), &style)
    }

    /// A figure alone.
    pub fn figure_slab(&mut self, figure: &Figure, width: Mm, room: Mm, parent: NodeId) -> Slab {
        let piece = self.figure(figure, width, room, parent);
        Slab::spaced(piece, self.sheet.grown(FIGURE_SPACE))
    }

    /// Figures side by side, as many as fit, in columns of like width.
    pub fn figure_rows(&mut self, figures: &[Figure], width: Mm, room: Mm, parent: NodeId) -> Vec<Slab> {
        let gap = self.sheet.grown(FIGURES_APART);
        let widest = figures.iter().map(|f| self.figure_width(f)).fold(Mm(1.0), Mm::max).min(width);
        let caption_least = self.caption_least();
        let cell = widest.max(caption_least).min(width);
        let rows_of = |cell: Mm| {
            let fits = (((width + gap) / (cell + gap)).floor() as usize).clamp(1, figures.len().max(1));
            figures.len().div_ceil(fits)
        };
        // A little smaller is better than one more row, and even rows better than a full one and a rest.
        let may_shrink = figures.iter().all(|f| !f.drawing.true_size);
        let shrink = SHRINK[usize::from(self.booklet.setting.large_print)];
        let rows =
            if may_shrink { rows_of((cell * shrink).max(caption_least.min(width))) } else { rows_of(cell) };
        let columns = figures.len().div_ceil(rows.max(1)).max(1);
        if let ([a, b], 1) = (figures, columns) {
            let [a_width, b_width] = [a, b].map(|f| self.figure_width(f).max(self.caption_least() * NARROW));
            let spare = width - a_width - b_width - gap;
            if spare >= Mm::ZERO {
                return vec![self.pair(a, b, [a_width + spare / 2.0, b_width + spare / 2.0], (room, parent))];
            }
        }
        if columns == 1 {
            return figures
                .iter()
                .map(|figure| self.figure_with_words(figure, width, room, parent))
                .collect();
        }
        let column = (width + gap) / columns as f64 - gap;
        let mut slabs = Vec::new();
        for row in figures.chunks(columns) {
            let mut piece = Fragment::default();
            let set: Vec<Fragment> = row.iter().map(|f| self.figure(f, column, room, parent)).collect();
            for (i, figure) in set.into_iter().enumerate() {
                piece.height = piece.height.max(figure.height);
                piece.absorb(figure, (column + gap) * i as f64, Mm::ZERO);
            }
            slabs.push(Slab::spaced(piece, self.sheet.grown(FIGURE_SPACE)));
        }
        slabs
    }

    /// Two figures of unlike widths side by side.
    fn pair(&mut self, a: &Figure, b: &Figure, widths: [Mm; 2], (room, parent): (Mm, NodeId)) -> Slab {
        let gap = self.sheet.grown(FIGURES_APART);
        let mut piece = self.figure(a, widths[0], room, parent);
        let second = self.figure(b, widths[1], room, parent);
        piece.height = piece.height.max(second.height);
        piece.absorb(second, widths[0] + gap, Mm::ZERO);
        Slab::spaced(piece, self.sheet.grown(FIGURE_SPACE))
    }

    /// How far a figure may be scaled up.
    pub fn most_growth(&self, figure: &Figure) -> f64 {
        match (figure.drawing.true_size, figure.moves.is_empty()) {
            (true, _) => 1.0,
            (false, true) => self.sheet.steady.min(self.sheet.figures),
            (false, false) => self.sheet.figures,
        }
    }

    /// Width of a figure that has all the room it wants.
    pub fn figure_width(&self, figure: &Figure) -> Mm {
        figure.drawing.size.width * self.most_growth(figure)
    }

    /// The scale at which a figure fits into a place: up only in large print, and never changed at all when its
    /// size means something.
    fn scale_into(&self, figure: &Figure, width: Mm, room: Mm) -> f64 {
        let size = figure.drawing.size;
        let wide = width / size.width * self.sheet.filled;
        let fits = wide.min(room.max(LEAST_ROOM) / size.height).min(self.most_growth(figure));
        if figure.drawing.true_size || !fits.is_finite() { 1.0 } else { fits }
    }

    /// The least share of its size in a place that a figure may be set in, so that the letters on its beads can be read. Its
    /// numbers keep their least size, and may fill a little more of what they stand in.
    pub fn least_share(&self, figure: &Figure, width: Mm, room: Mm) -> f64 {
        // In large print all labels keep their size: beads and discs have room for them.
        if self.booklet.setting.large_print {
            return LEAST_LARGE;
        }
        let scale = self.scale_into(figure, width, room);
        let labels = figure.drawing.marks.iter().filter_map(|mark| match mark {
            Mark::Label(label) if label.face == Face::Letters => Some((label.size, self.sheet.least_letter)),
            Mark::Label(label) => Some((label.size, self.sheet.least * FULLER)),
            Mark::Bead(_) | Mark::Path(_) | Mark::Photograph(_) | Mark::Shadow(_) => None,
        });
        labels.map(|(size, least)| least.0 / (size.0 * scale)).fold(0.0, f64::max)
    }

    /// Least width of a column with captions.
    pub fn caption_least(&self) -> Mm {
        let [usual, large] = CAPTION_EMS;
        self.sheet.small.size.mm() * if self.booklet.setting.large_print { large } else { usual }
    }
}
