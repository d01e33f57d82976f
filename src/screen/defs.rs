//! What a page uses many times: kinds of beads, glyphs, and the areas and gradients that beads name.

use super::beads;
use super::text::path;
use crate::drawn::Face;
use crate::layout::{BeadKind, glyph_outline};
use std::collections::BTreeMap;

/// Definitions in order of first use.
#[derive(Default)]
pub(super) struct Defs {
    beads: BTreeMap<BeadKind, String>,
    glyphs: BTreeMap<(Face, u16), Option<String>>,
    named: usize,
    text: String,
}

impl Defs {
    /// Name of the group that paints a kind of bead: without fill and stroke of its own where they are the
    /// bead's colour and its ink.
    pub(super) fn bead(&mut self, kind: &BeadKind) -> String {
        if let Some(name) = self.beads.get(kind) {
            return name.clone();
        }
        let name = format!("b{}", self.beads.len());
        let painted = beads::painted(&kind.parts(), self);
        self.add(&format!("<g id=\"{name}\">{painted}</g>\n"));
        self.beads.insert(kind.clone(), name.clone());
        name
    }

    /// Name of a glyph's outline, in thousandths of the size; `None` for one that draws nothing.
    pub(super) fn glyph(&mut self, face: Face, glyph: u16) -> Option<String> {
        if let Some(name) = self.glyphs.get(&(face, glyph)) {
            return name.clone();
        }
        let outline = glyph_outline(face, glyph);
        let name = (!outline.is_empty()).then(|| format!("g{}", self.glyphs.len()));
        if let Some(name) = &name {
            self.add(&format!("<path id=\"{name}\" d=\"{}\"/>\n", path(&outline)));
        }
        self.glyphs.insert((face, glyph), name.clone());
        name
    }

    /// A name that nothing has yet.
    pub(super) fn fresh(&mut self) -> String {
        self.named += 1;
        format!("n{}", self.named)
    }

    /// Adds a definition.
    pub(super) fn add(&mut self, definition: &str) {
        self.text.push_str(definition);
    }

    /// All of them.
    pub(super) fn text(&self) -> &str {
        &self.text
    }
}
