//! Skips a step whose inputs did not change since it last succeeded.
//!
//! A stamp holds a hash of the inputs' names and contents, not their times: a
//! fresh checkout or a touched file does not cost a build.

use crate::place;
use anyhow::{Context, Result};
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};

/// The state of a step's inputs.
pub(crate) struct Stamp {
    file: PathBuf,
    inputs: String,
}

impl Stamp {
    /// Reads all inputs: files, and folders with all in them.
    pub(crate) fn of(step: &str, inputs: &[PathBuf]) -> Result<Self> {
        let mut hasher = DefaultHasher::new();
        for input in inputs {
            hash(input, &mut hasher)?;
        }
        Ok(Self {
            file: place::target().join("stamps").join(step),
            inputs: format!("{:016x}", hasher.finish()),
        })
    }

    /// True if the step was done with these very inputs.
    pub(crate) fn holds(&self) -> bool {
        fs::read_to_string(&self.file).is_ok_and(|last| last == self.inputs)
    }

    /// Forgets the last success, before the step begins to change its outputs.
    pub(crate) fn lift(&self) {
        // A missing stamp is what is wanted.
        let _ = fs::remove_file(&self.file);
    }

    /// Remembers that the step is done.
    pub(crate) fn press(&self) -> Result<()> {
        if let Some(folder) = self.file.parent() {
            fs::create_dir_all(folder)?;
        }
        fs::write(&self.file, &self.inputs)
            .with_context(|| format!("{} cannot be written", self.file.display()))
    }
}

fn hash(path: &Path, hasher: &mut DefaultHasher) -> Result<()> {
    path.hash(hasher);
    if path.is_dir() {
        for entry in entries(path)? {
            hash(&entry, hasher)?;
        }
    } else if path.is_file() {
        fs::read(path)
            .with_context(|| format!("{} cannot be read", path.display()))?
            .hash(hasher);
    }
    Ok(())
}

/// What a folder holds, in one order on every computer.
pub(crate) fn entries(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut entries = fs::read_dir(folder)
        .with_context(|| format!("{} cannot be read", folder.display()))?
        .map(|entry| Ok(entry?.path()))
        .collect::<Result<Vec<_>>>()?;
    entries.sort();
    Ok(entries)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_changed_byte_or_name_changes_the_stamp() {
        let folder = place::target().join("stamp-test");
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let inputs = [folder.clone()];
        let read = || Stamp::of("stamp-test", &inputs).unwrap().inputs;

        fs::write(folder.join("a"), "one").unwrap();
        let first = read();
        assert_eq!(first, read(), "nothing changed");
        fs::write(folder.join("a"), "two").unwrap();
        let second = read();
        assert_ne!(first, second, "a byte changed");
        fs::rename(folder.join("a"), folder.join("b")).unwrap();
        assert_ne!(second, read(), "a name changed");
        fs::remove_dir_all(&folder).unwrap();
    }
}
