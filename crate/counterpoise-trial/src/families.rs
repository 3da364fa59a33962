//! The open families that the model is fitted on, and those that it is tried on
//! and has never seen: `families.toml`.
//!
//! They were taken from one npm scope of packages, some 740 families of every
//! style, by a rule that the untouched faces themselves must meet, so that a
//! planted fault is a fault: at least 50 of the 52 letters, a lower case of
//! their own, the feet of twelve of `HIEFLTKXhnmlikrxz` and the tops of five of
//! `HIEFLTK` within half a hundredth of the cap height of one line, and stems
//! (of capitals or of lower case) that scatter by less than 4%. Hands, worn and
//! ornamented faces, whose unevenness is their point, fall out by it. Which of
//! the rest are fitted and which are for trial is told by a checksum of the name.

use serde::Deserialize;

const LIST: &str = include_str!("../families.toml");

/// What a family is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Part {
    /// The model is fitted on it.
    Fit,
    /// Faults are planted in it.
    Trial,
}

/// One face of a family.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Face {
    /// Its path in the package.
    pub(crate) file: String,
    /// SHA-256 of the file.
    pub(crate) sha256: String,
}

/// One family.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Family {
    /// Its name in the scope.
    pub(crate) name: String,
    /// The package's version.
    pub(crate) version: String,
    /// The fonts' licence.
    pub(crate) licence: String,
    /// What it is for.
    pub(crate) part: Part,
    /// Its upright faces: regular, and a light, bold or black one if it has them.
    pub(crate) faces: Vec<Face>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    family: Vec<Family>,
}

/// The families of one part.
pub(crate) fn families(part: Part) -> Result<Vec<Family>, toml::de::Error> {
    let list: List = toml::from_str(LIST)?;
    Ok(list.family.into_iter().filter(|f| f.part == part).collect())
}

/// A number under 100 that is the same for a name everywhere (FNV-1a).
pub(crate) fn lot(name: &str) -> u32 {
    let mut hash: u32 = 0x811c_9dc5;
    for byte in name.bytes() {
        hash = (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193);
    }
    (hash >> 8) % 100
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_family_is_both_fitted_and_tried() {
        let (fit, trial) = (families(Part::Fit).unwrap(), families(Part::Trial).unwrap());
        assert!(fit.len() >= 150 && trial.len() >= 40);
        assert!(trial.iter().all(|t| fit.iter().all(|f| f.name != t.name)));
        assert!(trial.iter().all(|f| lot(&f.name) >= 85) && fit.iter().all(|f| lot(&f.name) < 85));
    }

    #[test]
    fn every_family_names_its_licence_and_checksums() {
        for family in families(Part::Fit)
            .unwrap()
            .iter()
            .chain(&families(Part::Trial).unwrap())
        {
            assert!(
                ["OFL-1.1", "Apache-2.0", "Ubuntu-font-1.0"].contains(&family.licence.as_str())
            );
            assert!(!family.version.is_empty() && !family.faces.is_empty());
            assert!(family.faces.iter().all(|f| f.sha256.len() == 64));
        }
    }
}
