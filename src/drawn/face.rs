//! The faces that are built in, and those of the maker's own.

use crate::fonts::OwnFont;
use serde::Serialize;

/// Names each built-in face once: the type, the list of all and their names follow from it.
macro_rules! faces {
    ($($(#[$said:meta])* $face:ident,)*) => {
        /// A face that text is set in.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
        pub enum Face {
            $($(#[$said])* $face,)*
            /// A font of the maker's.
            Own(OwnFont),
        }

        impl Face {
            /// All built-in faces, each at its [`Face::index`].
            pub const ALL: [Face; [$(stringify!($face)),*].len()] = [$(Face::$face),*];

            /// Its name, without spaces, as files that embed it may call it.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self {
                    $(Face::$face => stringify!($face),)*
                    Face::Own(font) => &font.font().label,
                }
            }

            /// Where a built-in face stands in [`Face::ALL`] and in tables kept by face.
            #[must_use]
            pub fn index(self) -> Option<usize> {
                // The built-in ones are numbered as they are listed.
                enum Listed { $($face,)* }
                match self {
                    $(Face::$face => Some(Listed::$face as usize),)*
                    Face::Own(_) => None,
                }
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

/// The maker's fonts, each by the built-in face that it is set in place of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct OwnFaces([Option<OwnFont>; Face::ALL.len()]);

impl OwnFaces {
    /// The built-in faces alone.
    pub const NONE: OwnFaces = OwnFaces([None; Face::ALL.len()]);

    /// Lets a font stand in place of a built-in face.
    pub fn set(&mut self, face: Face, font: OwnFont) {
        if let Some(place) = face.index() {
            self.0[place] = Some(font);
        }
    }

    /// The font that is set in place of a face; `None` where there is none.
    #[must_use]
    pub fn of(&self, face: Face) -> Option<OwnFont> {
        self.0[face.index()?]
    }
}
