//! What the page is told of a file: plain objects, as JSON.

use serde::Serialize;

/// How a file is packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Packing {
    /// Not at all.
    None,
    /// WOFF.
    Woff,
    /// WOFF2.
    Woff2,
}

/// A file, before a face of it is opened.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct FileReport {
    /// How it is packed.
    pub packing: Packing,
    /// Its faces, one or more.
    pub faces: Vec<FaceName>,
}

/// A face of a file by its names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct FaceName {
    /// Its family; empty where the file gives none that can be read.
    pub family: String,
    /// Its style.
    pub style: String,
}

/// What is unusual about a face.
#[derive(Debug, Clone, PartialEq, Serialize, Default)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct FaceReport {
    /// Its axes of variation; empty for a face that stands still.
    pub axes: Vec<AxisReport>,
    /// Positions that its maker named.
    pub instances: Vec<InstanceReport>,
    /// Sentences to tell with it.
    pub notes: Vec<String>,
}

/// An axis of variation, in the units that its maker gave it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct AxisReport {
    /// Its four letters, such as `wght`.
    pub tag: String,
    /// Its name, or its four letters where it has none.
    pub name: String,
    /// The least value.
    pub min: f64,
    /// Where the face stands as it is.
    pub default: f64,
    /// The greatest value.
    pub max: f64,
    /// Whether its maker wants it kept out of sight.
    pub hidden: bool,
    /// Values on it that have a name (STAT), in ascending order.
    pub stops: Vec<StopReport>,
}

/// A value of an axis that has a name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct StopReport {
    /// The value.
    pub value: f64,
    /// Its name.
    pub name: String,
}

/// A position that has a name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct InstanceReport {
    /// Its name.
    pub name: String,
    /// A value for each axis, in their order.
    pub position: Vec<f64>,
}
