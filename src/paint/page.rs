//! One page: its items become operators, with marked content and layers round them.

use super::error::PaintError;
use super::faces::{FaceData, face};
use super::fonts::{Fonts, resource_name};
use super::layers::layer_id;
use super::operators::{Script, Shown, points, round};
use super::resources::Resources;
use super::tags::{Bounds, role_name};
use crate::booklet::drawing::{BeadLook, Face, Segment, Stroke};
use crate::colour::{Colour, ink_on};
use crate::layout::{
    Artifact, Bead, DisplayList, Glyphs, Image, Item, Layer, NodeId, Page, Paint, Path, Standing,
};
use crate::units::{Mm, Point};
use printpdf::Op;

/// What came of painting a page.
pub(super) struct Painted {
    /// Its operators.
    pub ops: Vec<Op>,
    /// The node that owns each marked-content sequence; the index is its number on the page.
    pub owners: Vec<NodeId>,
    /// Box of what was painted for each node, in points from the bottom left, in order of painting.
    pub bounds: Vec<(NodeId, Bounds)>,
}

/// Paints a page.
///
/// # Errors
/// What an item asks for that cannot be painted; see [`PaintError`].
pub(super) fn paint(
    list: &DisplayList,
    page: &Page,
    fonts: &Fonts,
    resources: &mut Resources,
) -> Result<Painted, PaintError> {
    let mut painter = Painter {
        list,
        page,
        fonts,
        resources,
        height: points(page.size.height),
        out: Painted { ops: Vec::new(), owners: Vec::new(), bounds: Vec::new() },
        script: Script::default(),
        open: None,
        text: None,
        beads: None,
        state: State::default(),
    };
    for item in &page.items {
        painter.item(item)?;
    }
    painter.end_content();
    painter.hand_over();
    Ok(painter.out)
}

/// The graphics state as the operators so far have left it; `None` where none has set it.
#[derive(Clone, Default)]
struct State {
    fill: Option<Colour>,
    stroke: Option<Colour>,
    width: Option<f32>,
    round: Option<bool>,
    dash: Vec<f32>,
}

/// An open text object with the line of glyphs that is being gathered.
struct Text {
    face: Face,
    size: f32,
    /// Start of the gathered line, and where a viewer's pen stands on it in thousandths of the size.
    start: (f32, f32),
    pen: f64,
    line: Shown,
}

/// A run of upright beads: each is placed from the one before, which deflates to half of what places
/// from the page's corner do.
struct Beads {
    /// Where the matrix stands, as the moves written so far have left it.
    at: (f64, f64),
    /// The graphics state round the run.
    before: State,
}

struct Painter<'a> {
    list: &'a DisplayList,
    page: &'a Page,
    fonts: &'a Fonts,
    resources: &'a mut Resources,
    height: f64,
    out: Painted,
    /// Operators that are not yet among those handed to printpdf.
    script: Script,
    open: Option<(Standing, Option<Layer>)>,
    text: Option<Text>,
    beads: Option<Beads>,
    state: State,
}

impl Painter<'_> {
    fn item(&mut self, item: &Item) -> Result<(), PaintError> {
        self.begin_content(item.standing, item.layer)?;
        if !matches!(&item.paint, Paint::Bead(_)) {
            self.end_beads();
        }
        let bounds = match &item.paint {
            Paint::Glyphs(glyphs) => self.glyphs(glyphs)?,
            Paint::Bead(bead) => self.bead(bead)?,
            Paint::Path(path) => self.path(path),
            Paint::Image(image) => self.image(image)?,
        };
        if !bounds.is_finite() {
            return Err(PaintError::NotANumber { page: self.page.label.clone() });
        }
        if let Standing::Content(node) = item.standing {
            match self.out.bounds.last_mut() {
                Some((last, so_far)) if *last == node => so_far.add(bounds),
                _ => self.out.bounds.push((node, bounds)),
            }
        }
        Ok(())
    }

    /// Opens the marked content that an item belongs to, unless it is open. Its number stands inside
    /// the layer: poppler loses text whose number stands round a layer.
    fn begin_content(&mut self, standing: Standing, layer: Option<Layer>) -> Result<(), PaintError> {
        if self.open == Some((standing, layer)) {
            return Ok(());
        }
        self.end_content();
        if let Some(layer) = layer {
            self.hand_over();
            self.out.ops.push(Op::BeginLayer { layer_id: layer_id(layer) });
        }
        match standing {
            Standing::Content(node) => {
                let Some(found) = self.list.nodes.get(node.0) else {
                    let what = format!("an item belongs to node {}, which there is not", node.0);
                    return Err(PaintError::Reference { what });
                };
                let (tag, number) = (role_name(&found.role), self.out.owners.len());
                self.out.owners.push(node);
                self.script.word(&format!("/{tag} <</MCID {number}>> BDC"));
            }
            Standing::Artifact(Artifact::Running) => {
                self.script.word("/Artifact <</Type/Pagination>> BDC");
            }
            Standing::Artifact(Artifact::Layout) => {
                self.script.word("/Artifact <</Type/Layout>> BDC");
            }
        }
        self.open = Some((standing, layer));
        Ok(())
    }

    fn end_content(&mut self) {
        self.end_text();
        self.end_beads();
        if let Some((_, layer)) = self.open.take() {
            self.script.word("EMC");
            if layer.is_some() {
                self.hand_over();
                self.out.ops.push(Op::EndLayer);
            }
        }
    }

    /// Hands what has been written to printpdf: layers alone need operations of its own, as it notes
    /// from them which of them a page names.
    fn hand_over(&mut self) {
        let script = std::mem::take(&mut self.script);
        if !script.is_empty() {
            self.out.ops.push(script.operation());
        }
    }

    /// A point of the display list in the file's points, from the bottom left.
    fn place(&self, at: Point) -> (f64, f64) {
        (points(at.x), self.height - points(at.y))
    }

    fn glyphs(&mut self, line: &Glyphs) -> Result<Bounds, PaintError> {
        let size = line.size.0;
        let (x, y) = self.place(line.at);
        let advance: f64 = line.glyphs.iter().map(|g| g.advance).sum();
        let length = advance * size / 1000.0;
        if let Some((colour, width)) = line.halo {
            self.halo(line, colour, points(width))?;
        }
        let data = face(line.face)?;
        let start = (round(x), round(y));
        // Text objects may not cross each other's colour: a colour change is allowed inside one.
        self.fill(line.colour);
        if !self.goes_on(line.face, round(size), start) {
            self.start_line(line.face, round(size), start);
        }
        self.gather(line, data)?;
        Ok(Bounds::of(&[(x, y - 0.3 * size), (x + length, y + size)]))
    }

    /// Whether a line can go on where the gathered one ends: same face, size and baseline, further on.
    fn goes_on(&self, of: Face, size: f32, start: (f32, f32)) -> bool {
        self.text.as_ref().is_some_and(|t| {
            let pen = f64::from(t.start.0) + t.pen * f64::from(t.size) / 1000.0;
            t.face == of && t.size == size && t.start.1 == start.1 && f64::from(start.0) >= pen - 0.01
        })
    }

    fn start_line(&mut self, of: Face, size: f32, start: (f32, f32)) {
        self.flush_line();
        let font_stays = self.text.as_ref().is_some_and(|t| t.face == of && t.size == size);
        if self.text.is_none() {
            self.script.word("BT");
        }
        if !font_stays {
            self.script.name(resource_name(of)).op("Tf", &[f64::from(size)]);
        }
        // From the start of the line before; the first one from the page's corner.
        let (x, y) = self.text.as_ref().map_or((0.0, 0.0), |t| t.start);
        self.script.op("Td", &[f64::from(start.0 - x), f64::from(start.1 - y)]);
        self.text = Some(Text { face: of, size, start, pen: 0.0, line: Shown::default() });
    }

    /// Adds glyphs to the gathered line. Layout's advances are reproduced by offsets; what an offset
    /// loses in rounding goes into the next one, so that a line never drifts.
    fn gather(&mut self, line: &Glyphs, data: &FaceData) -> Result<(), PaintError> {
        let (x, _) = self.place(line.at);
        let Some(text) = self.text.as_mut() else { return Ok(()) };
        let mut wanted = (x - f64::from(text.start.0)) * 1000.0 / f64::from(text.size).max(0.01);
        for glyph in &line.glyphs {
            // Whole thousandths of the size: at 10 pt half of one is 2 µm.
            let offset = (text.pen - wanted).round();
            if offset != 0.0 {
                if text.line.is_empty() {
                    // The rest that rounding the start of a line has left.
                    text.pen = wanted;
                } else {
                    text.line.offset(offset);
                    text.pen -= offset;
                }
            }
            let Some(id) = self.fonts.number(line.face, glyph.id) else {
                let what = format!("glyph {} was not collected", glyph.id);
                return Err(PaintError::Reference { what });
            };
            text.line.glyph(id);
            text.pen += data.width(glyph.id);
            wanted += glyph.advance;
        }
        Ok(())
    }

    fn flush_line(&mut self) {
        if let Some(text) = self.text.as_mut().filter(|t| !t.line.is_empty()) {
            self.script.show(std::mem::take(&mut text.line));
        }
    }

    fn end_text(&mut self) {
        self.flush_line();
        if self.text.take().is_some() {
            self.script.word("ET");
        }
    }

    /// Strokes the glyphs' outlines behind them: as paths, so that no reader finds the words twice.
    fn halo(&mut self, line: &Glyphs, colour: Colour, width: f64) -> Result<(), PaintError> {
        self.end_text();
        self.stroke_colour(colour);
        let (mut x, y) = self.place(line.at);
        for glyph in &line.glyphs {
            // The outline is stroked on both sides: half of the line shows beyond the glyph.
            let name = self.resources.halo(line.face, glyph.id, line.size.0, 2.0 * width)?.to_owned();
            self.show_at([1.0, 0.0, 0.0, 1.0, x, y], &name);
            x += glyph.advance * line.size.0 / 1000.0;
        }
        Ok(())
    }

    fn bead(&mut self, bead: &Bead) -> Result<Bounds, PaintError> {
        self.end_text();
        let name = self.resources.bead(bead)?.to_owned();
        let upright = bead.turned == 0.0;
        if !upright {
            self.end_beads();
        }
        let (x, y) = self.place(bead.centre);
        let moved = upright.then(|| self.move_to_bead(x, y));
        match bead.look {
            BeadLook::Flat | BeadLook::Faded | BeadLook::Silhouette => self.fill(bead.colour),
            BeadLook::Lifelike | BeadLook::Outline => {}
        }
        if bead.pattern.is_some() {
            self.stroke_colour(ink_on(bead.colour));
        }
        // Clockwise on the page is clockwise here too: both have their y axis flipped once.
        let (sin, cos) = (-bead.turned).to_radians().sin_cos();
        match moved {
            Some((dx, dy)) => {
                self.script.op("cm", &[1.0, 0.0, 0.0, 1.0, dx, dy]).name(&name).word("Do");
            }
            None => self.show_at([cos, sin, -sin, cos, x, y], &name),
        }
        let (w, h) = (points(bead.width) / 2.0, points(bead.length) / 2.0);
        let (dx, dy) = (w * cos.abs() + h * sin.abs(), w * sin.abs() + h * cos.abs());
        Ok(Bounds::of(&[(x - dx, y - dy), (x + dx, y + dy)]))
    }

    /// The move from the bead before to this one; opens a run where none is open.
    fn move_to_bead(&mut self, x: f64, y: f64) -> (f64, f64) {
        if self.beads.is_none() {
            self.script.word("q");
        }
        let beads = self.beads.get_or_insert_with(|| Beads { at: (0.0, 0.0), before: self.state.clone() });
        // From where the rounded moves have led, so that roundings do not add up.
        let (dx, dy) = (f64::from(round(x - beads.at.0)), f64::from(round(y - beads.at.1)));
        beads.at = (beads.at.0 + dx, beads.at.1 + dy);
        (dx, dy)
    }

    fn end_beads(&mut self) {
        if let Some(beads) = self.beads.take() {
            self.script.word("Q");
            self.state = beads.before;
        }
    }

    fn image(&mut self, image: &Image) -> Result<Bounds, PaintError> {
        self.end_text();
        let name = self.resources.picture(&image.picture)?.to_owned();
        let (w, h) = (points(image.size.width), points(image.size.height));
        let (x, y) = self.place(image.at);
        self.show_at([w, 0.0, 0.0, h, x, y - h], &name);
        Ok(Bounds::of(&[(x, y - h), (x + w, y)]))
    }

    /// Paints a form or picture under a matrix. The turning part keeps four decimals: two would shear.
    fn show_at(&mut self, matrix: [f64; 6], name: &str) {
        self.script.word("q");
        for turning in &matrix[..4] {
            self.script.number(*turning, 4);
        }
        self.script.op("cm", &matrix[4..]).name(name).word("Do").word("Q");
    }

    fn path(&mut self, path: &Path) -> Bounds {
        self.end_text();
        if let Some(colour) = path.fill {
            self.fill(colour);
        }
        if let Some(stroke) = &path.stroke {
            self.pen(stroke);
        }
        let mut bounds = Bounds::default();
        let origin = self.origin_of(path);
        let mut script = std::mem::take(&mut self.script);
        if let Some((x, y)) = origin {
            script.word("q").op("cm", &[1.0, 0.0, 0.0, 1.0, x, y]);
        }
        let (left, bottom) = origin.unwrap_or_default();
        let mut corner = |script: &mut Script, at: &Point| {
            let (x, y) = self.place(*at);
            bounds.add(Bounds::of(&[(x, y)]));
            script.number(x - left, 2).number(y - bottom, 2);
        };
        for segment in &path.segments {
            let key = match segment {
                Segment::Move(p) => {
                    corner(&mut script, p);
                    "m"
                }
                Segment::Line(p) => {
                    corner(&mut script, p);
                    "l"
                }
                Segment::Curve(a, b, p) => {
                    [a, b, p].into_iter().for_each(|p| corner(&mut script, p));
                    "c"
                }
                Segment::Close => "h",
            };
            script.word(key);
        }
        let finish = match (path.fill.is_some(), path.stroke.is_some()) {
            (true, true) => "B",
            (true, false) => "f",
            (false, true) => "S",
            (false, false) => "n",
        };
        script.word(finish);
        if origin.is_some() {
            script.word("Q");
        }
        self.script = script;
        bounds.grown(path.stroke.as_ref().map_or(0.0, |s| points(s.width) / 2.0))
    }

    /// Where a path's own origin is put: discs and other rounded shapes come many times on a page, and
    /// drawn from their own first point they deflate to almost nothing. `None` for all other paths.
    fn origin_of(&self, path: &Path) -> Option<(f64, f64)> {
        let curves = path.segments.iter().filter(|s| matches!(s, Segment::Curve(..))).count();
        match path.segments.first() {
            Some(Segment::Move(first)) if curves >= 4 => Some(self.place(*first)),
            _ => None,
        }
    }

    fn pen(&mut self, stroke: &Stroke) {
        self.stroke_colour(stroke.colour);
        let width = round(points(stroke.width));
        if self.state.width != Some(width) {
            self.script.op("w", &[f64::from(width)]);
            self.state.width = Some(width);
        }
        if self.state.round != Some(stroke.round) {
            // Caps and joins (ISO 32000-1, 8.4.3.3 and 8.4.3.4): both round, or cut off and mitred.
            let both = if stroke.round { 1.0 } else { 0.0 };
            self.script.op("J", &[both]).op("j", &[both]);
            self.state.round = Some(stroke.round);
        }
        let dash: Vec<f32> = stroke.dash.iter().map(|d: &Mm| round(points(*d))).collect();
        if self.state.dash != dash {
            self.script.dash(&dash);
            self.state.dash = dash;
        }
    }

    fn fill(&mut self, colour: Colour) {
        if self.state.fill != Some(colour) {
            self.flush_line();
            // What is gathered next starts where the pen stands, not where the shown line began.
            if self.text.is_some() {
                self.end_text();
            }
            self.script.fill(colour);
            self.state.fill = Some(colour);
        }
    }

    fn stroke_colour(&mut self, colour: Colour) {
        if self.state.stroke != Some(colour) {
            self.script.stroke(colour);
            self.state.stroke = Some(colour);
        }
    }
}
