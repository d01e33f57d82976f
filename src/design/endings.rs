//! Endings of the files that a booklet is made from.

/// Of designs, palettes, studio files and templates.
pub const TEXTS: [&str; 3] = ["yaml", "yml", "json"];
/// Of pictures.
pub const PICTURES: [&str; 3] = ["jpg", "jpeg", "png"];
