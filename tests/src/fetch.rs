//! Brings the listed fonts into the target folder, each checked by its SHA-256.

use crate::client::{self, ClientError};
use crate::manifest::{self, Face, Package};
use crate::place;
use sha2::{Digest, Sha256};
use std::fmt;
use std::fs::{self, File};
use std::path::{Path, PathBuf};

/// Why a font cannot be had here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The face's name in the checks.
    pub id: String,
    /// The package that holds it, with its version.
    pub package: String,
    /// What went wrong.
    pub reason: String,
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} of {} cannot be had here: {}",
            self.id, self.package, self.reason
        )
    }
}

impl std::error::Error for Missing {}

/// Where the fonts lie.
pub fn folder() -> PathBuf {
    place::target().join("test-fonts")
}

/// Whether the face is here, with the bytes that the list names.
pub fn is_here(face: &Face) -> bool {
    fs::read(face.path()).is_ok_and(|bytes| sha256(&bytes) == face.sha256)
}

/// Brings every font of the list here and tells which ones could not be had.
///
/// # Errors
/// If the list cannot be read or the target folder not be written.
pub fn fetch_all() -> Result<Vec<Missing>, Box<dyn std::error::Error + Send + Sync>> {
    fs::create_dir_all(folder())?;
    // Two checks that start at once must not download side by side.
    let lock = File::create(folder().join(".lock"))?;
    lock.lock()?;
    let mut missing = Vec::new();
    for package in manifest::packages()? {
        let absent: Vec<&Face> = package.faces.iter().filter(|f| !is_here(f)).collect();
        if absent.is_empty() {
            continue;
        }
        let scratch = folder().join(".unpacking");
        let _ = fs::remove_dir_all(&scratch);
        fs::create_dir_all(&scratch)?;
        match client::unpack(&package, &scratch) {
            Ok(()) => missing.extend(
                absent
                    .iter()
                    .filter_map(|f| keep(&package, f, &scratch).err()),
            ),
            Err(e) => missing.extend(absent.iter().map(|f| miss(&package, f, in_words(&e)))),
        }
        fs::remove_dir_all(&scratch)?;
    }
    Ok(missing)
}

fn in_words(error: &ClientError) -> String {
    match error {
        ClientError::NoProgram(program) if program == "apt-get" || program == "dpkg-deb" => {
            format!("it comes in a Debian package, and {program} is not on this machine")
        }
        other => other.to_string(),
    }
}

fn miss(package: &Package, face: &Face, reason: String) -> Missing {
    Missing {
        id: face.id.clone(),
        package: format!("{} {}", package.name, package.version),
        reason,
    }
}

fn keep(package: &Package, face: &Face, scratch: &Path) -> Result<(), Missing> {
    let from = scratch.join(&package.folder).join(&face.file);
    let bytes = fs::read(&from).map_err(|e| {
        miss(
            package,
            face,
            format!("the package has no readable {}: {e}", face.file),
        )
    })?;
    let sum = sha256(&bytes);
    if sum != face.sha256 {
        let reason = format!("{} has the checksum {sum}, not {}", face.file, face.sha256);
        return Err(miss(package, face, reason));
    }
    // Written beside and renamed, so that a stopped run leaves no half font.
    let part = face.path().with_extension("part");
    fs::write(&part, &bytes)
        .and_then(|()| fs::rename(&part, face.path()))
        .map_err(|e| miss(package, face, format!("it cannot be written: {e}")))
}

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|b| format!("{b:02x}"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manifest::{Kind, Use};

    fn package_of(face: Face) -> Package {
        Package {
            kind: Kind::Deb,
            name: "fonts-none".into(),
            version: "1".into(),
            licence: "none".into(),
            folder: "fonts".into(),
            faces: vec![face],
        }
    }

    #[test]
    fn the_checksum_is_the_standard_one() {
        // FIPS 180-4's own example.
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sha256(b"abc"), abc);
    }

    #[test]
    fn other_bytes_are_not_kept() {
        let face = Face {
            id: "other-bytes".into(),
            file: "a.otf".into(),
            uses: vec![Use::Stems],
            sha256: sha256(b"the right bytes"),
            covers: None,
        };
        let scratch =
            std::env::temp_dir().join(format!("counterpoise-fetch-{}", std::process::id()));
        fs::create_dir_all(scratch.join("fonts")).unwrap();
        fs::write(scratch.join("fonts/a.otf"), b"other bytes").unwrap();
        let said = keep(&package_of(face.clone()), &face, &scratch)
            .unwrap_err()
            .to_string();
        fs::remove_dir_all(&scratch).unwrap();
        assert!(said.contains("checksum") && !face.path().exists(), "{said}");
    }

    #[test]
    fn without_debian_the_sentence_says_so() {
        let said = in_words(&ClientError::NoProgram("apt-get".into()));
        assert_eq!(
            said,
            "it comes in a Debian package, and apt-get is not on this machine"
        );
    }
}
