//! Endings of files: of those that a booklet is made from, and of what is made.

/// Of designs, palettes, studio files and templates.
pub const TEXTS: [&str; 3] = ["yaml", "yml", "json"];
/// Of what is made of them: booklets and pictures.
pub const MADE: [&str; 3] = ["pdf", "png", "svg"];
/// Of images.
pub const IMAGES: [&str; 3] = ["jpg", "jpeg", "png"];
