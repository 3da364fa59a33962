//! The list of open fonts that the checks measure: `reference/fonts.toml`.

use serde::Deserialize;
use std::path::PathBuf;

const LIST: &str = include_str!("../reference/fonts.toml");

/// Where a package comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Debian.
    Deb,
    /// npm.
    Npm,
}

/// What a face is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Use {
    /// Every glyph against the reference figures.
    Glyphs,
    /// H, I, l and n against the reference scan.
    Stems,
    /// Stems against the declared StdVW and StdHW.
    Panel,
    /// A web font.
    Packed,
    /// Opened in the browser, whatever it is.
    Formats,
    /// A variable font, at many positions.
    Positions,
    /// An earlier release of another face.
    Revision,
    /// Set from right to left.
    Reading,
}

/// One face.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Face {
    /// Its name in the checks.
    pub id: String,
    /// Path below the package's folder.
    pub file: String,
    /// What it is for.
    #[serde(rename = "use")]
    pub uses: Vec<Use>,
    /// SHA-256 of the file.
    pub sha256: String,
    /// What it stands for.
    pub covers: Option<String>,
}

impl Face {
    /// Where the file lies once it is fetched.
    pub fn path(&self) -> PathBuf {
        let ending = self.file.rsplit('.').next().unwrap_or("otf");
        crate::fetch::folder().join(format!("{}.{ending}", self.id))
    }
}

/// One package with its faces.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Package {
    /// Where it comes from.
    pub kind: Kind,
    /// Its name there.
    pub name: String,
    /// Its exact version.
    pub version: String,
    /// Under which licence its fonts are.
    pub licence: String,
    /// The folder in the package that holds the faces.
    pub folder: String,
    /// The faces taken from it.
    pub faces: Vec<Face>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    package: Vec<Package>,
}

/// The whole list.
///
/// # Errors
/// If the list is not what it should be; the text says where.
pub fn packages() -> Result<Vec<Package>, toml::de::Error> {
    toml::from_str::<List>(LIST).map(|list| list.package)
}

/// The faces for one use, in the list's order, each with its package.
///
/// # Errors
/// As [`packages`].
pub fn faces_for(use_: Use) -> Result<Vec<(Package, Face)>, toml::de::Error> {
    let mut all = Vec::new();
    for package in packages()? {
        for face in &package.faces {
            if face.uses.contains(&use_) {
                all.push((package.clone(), face.clone()));
            }
        }
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_face_has_a_name_of_its_own_and_a_whole_checksum() {
        let mut names = HashSet::new();
        for package in packages().unwrap() {
            assert!(!package.faces.is_empty(), "{} gives no face", package.name);
            for face in package.faces {
                assert!(!face.uses.is_empty(), "{} is for nothing", face.id);
                assert_eq!(face.sha256.len(), 64, "{}", face.id);
                assert!(names.insert(face.id.clone()), "{} is there twice", face.id);
            }
        }
    }

    #[test]
    fn a_misspelt_key_is_an_error() {
        let list = LIST.replacen("licence", "license", 1);
        assert!(toml::from_str::<List>(&list).is_err());
    }
}
