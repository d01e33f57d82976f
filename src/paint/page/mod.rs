//! One page: its items become the text of a content stream, with marked content and layers round them.

mod beads;
mod paths;
mod text;

use crate::colour::Colour;
use crate::drawn::Face;
use crate::layout::{Artifact, DisplayList, Item, Layer, NodeId, Page, Paint, Standing};
use crate::paint::error::PaintError;
use crate::paint::fonts::Fonts;
use crate::paint::layers::resource_name;
use crate::paint::operators::{Script, Shown, points};
use crate::paint::resources::Resources;
use crate::paint::tags::{Bounds, role_name};
use crate::units::Point;

/// Bytes that are kept free for a page's content stream: most need about as much.
const ROOM: usize = 32_000;

/// What came of painting a page.
pub(super) struct Painted {
    /// Its content stream.
    pub content: Vec<u8>,
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
        out: Painted { content: Vec::new(), owners: Vec::new(), bounds: Vec::new() },
        script: Script::with_room(ROOM),
        open: None,
        text: None,
        beads: None,
        state: State::default(),
    };
    for item in &page.items {
        painter.item(item)?;
    }
    painter.end_content();
    painter.out.content = painter.script.bytes();
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
            self.script.name("OC").name(resource_name(layer)).word("BDC");
        }
        match standing {
            Standing::Content(node) => {
                let Some(found) = self.list.nodes.get(node.0) else {
                    let what = format!("an item belongs to node {}, which there is not", node.0);
                    return Err(PaintError::Reference { what });
                };
                let (tag, number) = (role_name(&found.role), self.out.owners.len());
                self.out.owners.push(node);
                self.script.name(tag).word(&format!("<</MCID {number}>> BDC"));
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
                self.script.word("EMC");
            }
        }
    }

    /// A point of the display list in the file's points, from the bottom left.
    fn place(&self, at: Point) -> (f64, f64) {
        (points(at.x), self.height - points(at.y))
    }
}
