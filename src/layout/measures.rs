//! Lengths that several files of layout set by; what one file alone needs stands at its head.
//! Those that grow with the type go through [`Sheet::grown`](super::sheet::Sheet::grown).

use crate::units::Mm;

/// Between figures side by side, and between a step's words and the figures beside them; grows.
pub(super) const FIGURES_APART: Mm = Mm(7.0);
/// Above and below a figure; grows.
pub(super) const FIGURE_SPACE: Mm = Mm(4.5);
/// Above and below a table, or the cards that stand for one; grows.
pub(super) const TABLE_SPACE: Mm = Mm(4.0);
/// Above and below a chart or a part of one; grows.
pub(super) const CHART_SPACE: Mm = Mm(4.0);

/// Thickness of the bar over a section's title and at the left of a callout.
pub(super) const BAR: Mm = Mm(0.9);
/// Fine rule: between rows of a table, under a card, round the map of a chart in parts.
pub(super) const FINE_RULE: Mm = Mm(0.15);
/// Line round a box to tick.
pub(super) const BOX_LINE: Mm = Mm(0.25);
