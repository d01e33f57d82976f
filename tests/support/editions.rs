//! Editions to compose booklets for.

use fringebook::booklet::Edition;
use fringebook::design::Paper;

/// The plain edition on this paper: not grey, for nobody, with no digest.
pub fn plain(paper: Paper) -> Edition {
    Edition {
        paper,
        grey: false,
        large_print: false,
        tablet: false,
        stamp: None,
        digest: String::new(),
        digest_parts: Vec::new(),
        before: None,
    }
}
