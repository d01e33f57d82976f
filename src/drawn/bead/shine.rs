//! What light does to a bead: what its glass is, and its surface.

use serde::Serialize;

/// What a bead is made of, as light meets it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Glass {
    /// Light does not go in.
    #[default]
    Opaque,
    /// Light goes through: the far side glows, and the hole is seen.
    Transparent,
    /// Clear, with a coating in its hole that throws the light back.
    Lined,
    /// Metal, or coated with it.
    Metallic,
}

/// The surface of a bead.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Surface {
    /// Polished: a small bright light.
    #[default]
    Glossy,
    /// Etched or frosted: no light on it.
    Matte,
    /// A clear coat: a broad light, and a second one on the far side.
    Lustre,
    /// Milky: a wide soft light and little shade.
    Pearl,
}

/// What light does to a bead. The words are the trade's own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Shine {
    /// What it is made of.
    pub glass: Glass,
    /// Its surface.
    pub surface: Surface,
}

impl Shine {
    /// How strongly it is shaded, against polished opaque glass. All shares here were chosen by eye.
    pub(super) fn contrast(self) -> f64 {
        match self.surface {
            Surface::Glossy | Surface::Lustre => 1.0,
            Surface::Matte => 0.62,
            Surface::Pearl => 0.55,
        }
    }

    /// Light (above 0) and shade across an upright tube, from its lit side.
    pub(super) fn across(self) -> &'static [(f64, f64)] {
        match self.glass {
            Glass::Opaque => &[
                (0.0, -0.55),
                (0.1, -0.22),
                (0.26, 0.24),
                (0.36, 0.3),
                (0.52, 0.0),
                (0.8, -0.3),
                (0.93, -0.52),
                (1.0, -0.38),
            ],
            Glass::Transparent | Glass::Lined => &[
                (0.0, -0.5),
                (0.12, -0.16),
                (0.27, 0.1),
                (0.42, -0.08),
                (0.58, -0.1),
                (0.77, 0.32),
                (0.9, 0.18),
                (1.0, -0.44),
            ],
            Glass::Metallic => &[
                (0.0, -0.62),
                (0.1, -0.3),
                (0.25, 0.42),
                (0.35, 0.55),
                (0.5, 0.0),
                (0.68, -0.36),
                (0.83, -0.12),
                (0.92, 0.1),
                (1.0, -0.5),
            ],
        }
    }

    /// How light an upright tube is at a share of its width from its lit side.
    pub(super) fn across_at(self, share: f64) -> f64 {
        let stops = self.across();
        let after = stops.iter().position(|(at, _)| *at >= share).unwrap_or(stops.len() - 1).max(1);
        let ((from, low), (to, high)) = (stops[after - 1], stops[after]);
        low + (high - low) * ((share - from) / (to - from)).clamp(0.0, 1.0)
    }

    /// Light and shade over a ball, from where the light meets it to its edge.
    pub(super) fn around(self) -> &'static [(f64, f64)] {
        match self.glass {
            Glass::Opaque => &[(0.0, 0.42), (0.3, 0.16), (0.58, 0.0), (0.84, -0.36), (1.0, -0.6)],
            Glass::Transparent | Glass::Lined => {
                &[(0.0, 0.12), (0.34, -0.1), (0.6, 0.0), (0.84, 0.3), (0.93, 0.16), (1.0, -0.5)]
            }
            Glass::Metallic => {
                &[(0.0, 0.6), (0.2, 0.34), (0.42, -0.16), (0.66, -0.5), (0.84, -0.1), (1.0, -0.6)]
            }
        }
    }

    /// How light the body is where a light is reflected in it.
    pub(super) fn lit(self) -> f64 {
        match self.glass {
            Glass::Opaque => 0.3,
            Glass::Transparent | Glass::Lined => 0.08,
            Glass::Metallic => 0.5,
        }
    }

    /// The light reflected in it: how wide, against that of polished glass, and how bright. A matte surface has none.
    pub(super) fn reflected(self) -> Option<(f64, f64)> {
        match self.surface {
            Surface::Glossy => Some((1.0, 0.86)),
            Surface::Lustre => Some((1.45, 0.8)),
            Surface::Pearl => Some((2.1, 0.62)),
            Surface::Matte => None,
        }
    }

    /// How bright a second light on the far side is.
    pub(super) fn beyond(self) -> Option<f64> {
        (self.surface == Surface::Lustre).then_some(0.34)
    }

    /// What is seen of its hole, across a band along it.
    pub(super) fn hole(self) -> Option<&'static [(f64, f64)]> {
        match self.glass {
            Glass::Opaque | Glass::Metallic => None,
            Glass::Transparent => Some(&[(0.0, -0.1), (0.2, -0.3), (0.5, -0.14), (0.8, -0.3), (1.0, -0.06)]),
            Glass::Lined => Some(&[(0.0, -0.3), (0.16, 0.3), (0.42, 0.72), (0.7, 0.4), (1.0, -0.22)]),
        }
    }
}
