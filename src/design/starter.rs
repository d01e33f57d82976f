//! Files to start from.

use super::yaml::quoted;

/// A commented design file that reads without errors against [`starter_palette`] (and any palette that
/// has its four beads).
#[must_use]
pub fn starter(title: &str) -> String {
    include_str!("starter/design.yaml").replacen("TITLE", &quoted(title.trim()), 1)
}

/// A small commented palette, for a folder that has none.
#[must_use]
pub fn starter_palette() -> String {
    include_str!("starter/palette.yaml").to_owned()
}

/// A commented studio file, for a folder that has none.
#[must_use]
pub fn starter_studio() -> String {
    include_str!("starter/studio.yaml").to_owned()
}

/// A commented house style, for a folder of templates.
#[must_use]
pub fn starter_style() -> String {
    include_str!("starter/style.yaml").to_owned()
}
