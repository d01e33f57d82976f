//! Tally: what to buy and cut, how big and heavy it is, and whether the thread fits.
//!
//! [`tally`] counts one design; [`advise`] says what its maker should look at; [`gather`] adds up
//! several designs for so many pairs each; [`nearest`] finds beads that can stand in for another;
//! [`packing`] says how wide a hole must be.

mod advice;
mod count;
mod fit;
mod gather;
mod model;
mod nearest;
mod prices;

pub use advice::advise;
pub use count::tally;
pub use gather::*;
pub use model::*;
pub use nearest::{Nearest, interchangeable, nearest};
pub use prices::{Prices, letters_strung, prices};
