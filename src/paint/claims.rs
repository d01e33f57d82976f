//! The ledger of claims.
pub const X: u8 = 0;
