//! The faces that are built in.

use serde::Serialize;

/// Names each face once: the type, the list of all and their names follow from it.
macro_rules! faces {
    ($($(#[$said:meta])* $face:ident,)*) => {
        /// The faces that are built in.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
        pub enum Face { $($(#[$said])* $face,)* }

        impl Face {
            /// All faces, each at its [`Face::index`].
            pub const ALL: [Face; [$(stringify!($face)),*].len()] = [$(Face::$face),*];

            /// Its name, without spaces, as files that embed it may call it.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Face::$face => stringify!($face),)* }
            }
        }
    };
}

faces! {
    /// Text.
    Regular,
    /// Text, strong.
    Bold,
    /// Text, emphasised.
    Italic,
    /// Titles.
    Title,
    /// Titles, light.
    TitleLight,
    /// Letters on beads.
    Letters,
}

impl Face {
    /// Where it stands in [`Face::ALL`] and in tables kept by face.
    #[must_use]
    pub fn index(self) -> usize {
        self as usize
    }
}
