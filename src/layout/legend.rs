//! The legend of letters: beads with their names, in columns.

use super::faces::cap_height;
use super::fragment::{Fragment, filled};
use super::setter::{Ink, Setter};
use super::sheet::Style;
use super::tree::within;
use super::{Artifact, Bead, Item, Layer, NodeId, Paint, Path, Role, Standing};
use crate::booklet::{LegendEntry, RunStyle, Swatch, Text, TextRun};
use crate::colour::ink_on;
use crate::drawn::{Align, BeadLook, Face, Shape, circle};
use crate::units::{Mm, Point, Pt};

/// Share of a bead's width and length that its letter has to itself where the bead is patterned.
const LETTER_GROUND: (f64, f64) = (0.66, 0.8);

/// What a letter stands on in a bead with a pattern: the bead's own colour, inside its outline.
pub(super) fn letter_ground(bead: &Bead, centre: Point) -> Item {
    let ground = match bead.shape {
        Shape::Cylinder | Shape::Bugle | Shape::Cube if bead.turned == 0.0 => {
            let (width, height) = (bead.width * LETTER_GROUND.0, bead.length * LETTER_GROUND.1);
            filled(centre.x - width / 2.0, centre.y - height / 2.0, width, height, bead.colour)
        }
        _ => {
            let share = if bead.shape == Shape::Drop { LETTER_GROUND.0 } else { LETTER_GROUND.1 };
            let radius = bead.width.min(bead.length) * (share / 2.0);
            Path { segments: circle(centre, radius), fill: Some(bead.colour), stroke: None }
        }
    };
    // No content of its own.
    let standing = Standing::Artifact(Artifact::Layout);
    Item { standing, layer: Some(Layer::Letters), paint: Paint::Path(ground) }
}

impl Setter<'_> {
    /// A bead shown by itself, with its letter, in a square of this side.
    pub fn swatch(&mut self, swatch: &Swatch, side: Mm, node: NodeId) -> Fragment {
        let colour = self.chart_colour(swatch.colour);
        let (wide, long) = proportions(swatch.shape);
        let centre = Point { x: side / 2.0, y: side / 2.0 };
        let bead = Bead {
            centre,
            width: side * wide,
            length: side * long,
            shape: swatch.shape,
            colour,
            turned: 0.0,
            look: BeadLook::Flat,
            pattern: swatch.pattern,
        };
        let mut piece = Fragment { height: side, ..Fragment::default() };
        let drop = letter_drop(swatch.shape, side * long);
        let under = Point { x: centre.x, y: centre.y + drop };
        // As in the chart: the letter stands on the bead's own colour, not on its pattern.
        let patterned = swatch.letter.is_some() && swatch.pattern.is_some();
        let ground = patterned.then(|| letter_ground(&bead, under));
        piece.items.push(Item { standing: within(node), layer: None, paint: Paint::Bead(bead) });
        piece.items.extend(ground);
        if let Some(letter) = swatch.letter {
            let size = Pt(side.pt().0 * 0.62);
            let at = Point { x: centre.x, y: centre.y + drop + cap_height(Face::Letters, size) / 2.0 };
            let ink = Ink { face: Face::Letters, size, colour: ink_on(colour) };
            let label = self.label(ink, &letter.to_string(), at, Align::Middle, node);
            piece.items.extend(label);
        }
        piece
    }

    /// A legend in as many columns as fit.
    pub fn legend(&mut self, entries: &[LegendEntry], width: Mm, parent: NodeId) -> Fragment {
        let style = Style { colour: self.sheet.ink, ..self.sheet.small };
        let list = self.tree.add(parent, Role::List { numbered: false });
        let side = style.size.mm() * 1.65;
        let indent = side + style.size.mm() * 0.55;
        let gap = style.size.mm() * 2.0;
        let texts: Vec<Text> = entries.iter().map(entry_text).collect();
        let widest = texts
            .iter()
            .map(|t| super::lines::natural_width(&mut self.shaper, t, &style))
            .fold(Mm(1.0), Mm::max);
        let cell = (indent + widest + Mm(0.1)).min(width);
        let columns = (((width + gap) / (cell + gap)).floor() as usize).clamp(1, entries.len().max(1));
        let rows = entries.len().div_ceil(columns);
        let columns = entries.len().div_ceil(rows.max(1)).max(1);
        let column =
            if columns == 1 { cell } else { ((width + gap) / columns as f64 - gap).min(cell * 1.15) };
        let how = self.plain();
        let mut piece = Fragment::default();
        let mut tops = vec![Mm::ZERO; columns];
        // Read down the columns, as the eye does in a key.
        for (i, (entry, text)) in entries.iter().zip(&texts).enumerate() {
            let at = i / rows.max(1);
            let item = self.tree.add(list, Role::ListItem);
            let label = self.tree.add(item, Role::ListLabel);
            let body = self.tree.add(item, Role::ListBody);
            let swatch = self.swatch(&entry.swatch, side, label);
            let words = self.block(text, &style, column - indent, how, Align::Start, body);
            let height = words.height.max(side) + style.size.mm() * 0.35;
            let x = (column + gap) * at as f64;
            let y = tops[at];
            piece.absorb(
                swatch,
                x,
                y + (style.leading - side) / 2.0 + (side - style.leading).max(Mm::ZERO) / 2.0,
            );
            piece.absorb(words, x + indent, y + (side - style.leading).max(Mm::ZERO) / 2.0);
            tops[at] += height;
        }
        piece.height = tops.into_iter().fold(Mm::ZERO, Mm::max);
        piece
    }
}

/// Name in ink, note quiet behind it.
fn entry_text(entry: &LegendEntry) -> Text {
    let run = |text: &str, style| TextRun { text: text.to_owned(), style };
    let mut runs = vec![run(&entry.name, RunStyle::Strong)];
    if !entry.note.is_empty() {
        runs.push(run(&format!("  {}", entry.note), RunStyle::Plain));
    }
    Text(runs)
}

/// Width and length of a shape as it is drawn, as shares of the square it stands in.
fn proportions(shape: Shape) -> (f64, f64) {
    match shape {
        Shape::Cylinder => (1.0, 0.86),
        Shape::Round => (1.0, 0.8),
        Shape::Drop => (0.82, 1.0),
        Shape::Bugle => (0.62, 1.0),
        Shape::Faceted => (1.0, 0.86),
        Shape::Cube => (0.9, 0.9),
    }
}

/// How far below a bead's middle its letter stands: a drop is widest in its lower half.
pub(super) fn letter_drop(shape: Shape, length: Mm) -> Mm {
    match shape {
        Shape::Drop => length * 0.14,
        Shape::Cylinder | Shape::Round | Shape::Bugle | Shape::Faceted | Shape::Cube => Mm::ZERO,
    }
}
