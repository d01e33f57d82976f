//! Colour: sRGB values, how far apart two look, how they contrast, and how they look to
//! colour-blind eyes or in grey.

mod contrast;
mod difference;
mod model;
mod sight;

pub use contrast::{CAUTION, INK, LEAST_CONTRAST, QUIET, QUIET_INKS, darkened, ink_on};
pub use difference::{Lab, delta_e};
pub use model::Colour;
pub use sight::Sight;
