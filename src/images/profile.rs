//! Colour profiles: what an image's samples mean. A booklet's colours are sRGB; a PDF does not look at a
//! profile inside an image's data, so samples that mean something else are changed.

use moxcms::{ColorProfile, DataColorSpace, Layout, Transform8BitExecutor, TransformOptions};
use std::sync::Arc;

/// Samples that differ from sRGB by no more than this, of 255, are taken as they are: the profiles of
/// sRGB that cameras and programs write differ from each other by as much.
const NEAR: u8 = 3;

/// How samples become sRGB.
pub(super) enum Change {
    /// Each of the 256 greys by itself.
    Grey(Box<[u8; 256]>),
    /// Red, green and blue together.
    Rgb(Arc<Transform8BitExecutor>),
    /// Four inks, 0 where there is none, to red, green and blue.
    Inks(Arc<Transform8BitExecutor>),
}

/// What a profile asks for with so many channels; `None` where samples can stay as they are, or the
/// profile cannot be used.
pub(super) fn change(profile: &[u8], channels: u8) -> Option<Change> {
    let profile = ColorProfile::new_from_slice(profile).ok()?;
    let to_rgb = |from: Layout| {
        profile
            .create_transform_8bit(from, &ColorProfile::new_srgb(), Layout::Rgb, TransformOptions::default())
            .ok()
    };
    match (channels, profile.color_space) {
        (1, DataColorSpace::Gray) => {
            let steps: Vec<u8> = (0..=255).collect();
            let mut changed = vec![0; 3 * steps.len()];
            to_rgb(Layout::Gray)?.transform(&steps, &mut changed).ok()?;
            let mut greys = Box::new([0; 256]);
            for (grey, rgb) in greys.iter_mut().zip(changed.chunks_exact(3)) {
                *grey = rgb[1];
            }
            (!near(&steps, &greys[..])).then_some(Change::Grey(greys))
        }
        (3, DataColorSpace::Rgb) => {
            let transform = to_rgb(Layout::Rgb)?;
            let steps: Vec<u8> = (0..=255).step_by(51).collect();
            let over = |of: &[u8]| -> Vec<Vec<u8>> {
                of.iter().flat_map(|a| steps.iter().map(|b| vec![*a, *b])).collect()
            };
            let grid: Vec<u8> =
                over(&steps).iter().flat_map(|ab| steps.iter().flat_map(|c| [ab[0], ab[1], *c])).collect();
            let mut changed = vec![0; grid.len()];
            transform.transform(&grid, &mut changed).ok()?;
            (!near(&grid, &changed)).then_some(Change::Rgb(transform))
        }
        // moxcms lays four inks out as it does red, green, blue and alpha.
        (4, DataColorSpace::Cmyk) => to_rgb(Layout::Rgba).map(Change::Inks),
        _ => None,
    }
}

fn near(one: &[u8], other: &[u8]) -> bool {
    one.iter().zip(other).all(|(a, b)| a.abs_diff(*b) <= NEAR)
}

impl Change {
    /// The samples changed.
    pub(super) fn apply(&self, samples: &[u8]) -> Option<Vec<u8>> {
        match self {
            Change::Grey(greys) => Some(samples.iter().map(|s| greys[usize::from(*s)]).collect()),
            Change::Rgb(transform) => {
                let mut changed = vec![0; samples.len()];
                transform.transform(samples, &mut changed).ok().map(|()| changed)
            }
            Change::Inks(transform) => {
                let mut changed = vec![0; samples.len() / 4 * 3];
                transform.transform(samples, &mut changed).ok().map(|()| changed)
            }
        }
    }
}
