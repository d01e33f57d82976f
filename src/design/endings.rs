//! Endings of the files that a booklet is made from.

/// Of designs, palettes, studio files and templates.
pub const TEXTS: [&str; 3] = ["yaml", "yml", "json"];
/// Of images.
pub const IMAGES: [&str; 3] = ["jpg", "jpeg", "png"];
