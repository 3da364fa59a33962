//! Checks against references outside the project.
//!
//! | file | question it answers |
//! |---|---|
//! | [`manifest`] | which open fonts do the checks measure, and which bytes exactly? |
//! | [`fetch`] | how do they get here? |
//! | [`client`] | how does a package come through its ordinary client? |
//! | [`python`] | where does fontTools run? |
//! | [`figures`] | what does fontTools say of a font? |
//! | [`compare`] | do two figures agree? |
//! | [`stems`] | which of our strokes is the stem that the scan found? |
//! | [`panel`] | do stems agree with what hundreds of faces declare? |
//! | [`forge`] | what of fonts that nobody would draw? |
//!
//! Nothing here is part of the product.

pub mod client;
pub mod compare;
pub mod fetch;
pub mod figures;
pub mod forge;
pub mod manifest;
pub mod panel;
pub mod place;
pub mod python;
pub mod stems;
