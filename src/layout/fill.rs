//! How full pages are.

use super::slice::reach;
use super::{Artifact, DisplayList, Page, Standing};
use crate::units::Mm;
use serde::Serialize;

/// White of more than this from top to bottom counts as white: what stands over a section that begins below another,
/// and a little. Content that is only drawn apart fills no page.
const WHITE: Mm = Mm(18.0);

/// Where content stands on the pages of a booklet, from their top.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct TextArea {
    /// Its upper edge.
    pub top: Mm,
    /// Its height.
    pub height: Mm,
}

impl DisplayList {
    /// How full each page is: the share of the height of the text area that is not white. The cover, which has a page
    /// to itself, is full.
    #[must_use]
    pub fn fills(&self) -> Vec<f64> {
        self.pages.iter().map(|page| if page.running { filled(page, self.text_area) } else { 1.0 }).collect()
    }
}

/// The share of a text area that a page's content takes.
fn filled(page: &Page, area: TextArea) -> f64 {
    let content = page.items.iter().filter(|item| item.standing != Standing::Artifact(Artifact::Running));
    let mut reaches: Vec<(Mm, Mm)> = content.map(reach).collect();
    reaches.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    let mut white = Mm::ZERO;
    let mut reached = area.top;
    for (top, bottom) in reaches {
        let gap = top - reached;
        if gap > WHITE {
            white += gap;
        }
        reached = reached.max(bottom);
    }
    white += (area.top + area.height - reached).max(Mm::ZERO);
    1.0 - white / area.height
}
