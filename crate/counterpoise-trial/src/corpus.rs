//! Brings families into the target folder, each file checked by its SHA-256, and
//! measures them.

use crate::families::{Family, Part, families};
use crate::specimen::Specimen;
use anyhow::{Context, Result, bail};
use counterpoise::font::Font;
use counterpoise_checks::{client, fetch::sha256, place};
use std::fs;
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

const SCOPE: &str = "@expo-google-fonts";

fn folder(family: &Family) -> PathBuf {
    place::target()
        .join("trial-fonts")
        .join(format!("{}-{}", family.name, family.version))
}

/// The bytes of a family's faces, fetched if they are not here.
pub(crate) fn faces(family: &Family) -> Result<Vec<Vec<u8>>> {
    let folder = folder(family);
    let here = || -> Option<Vec<Vec<u8>>> {
        family
            .faces
            .iter()
            .map(|f| {
                fs::read(folder.join(&f.file))
                    .ok()
                    .filter(|b| sha256(b) == f.sha256)
            })
            .collect()
    };
    if let Some(faces) = here() {
        return Ok(faces);
    }
    let scratch = folder.with_extension("unpacking");
    let _ = fs::remove_dir_all(&scratch);
    fs::create_dir_all(&scratch)?;
    let wanted = format!("{SCOPE}/{}@{}", family.name, family.version);
    client::unpack_npm(&wanted, &scratch).with_context(|| format!("fetching {wanted}"))?;
    for face in &family.faces {
        let to = folder.join(&face.file);
        fs::create_dir_all(to.parent().context("a face lies in a folder")?)?;
        fs::rename(scratch.join("package").join(&face.file), to)?;
    }
    fs::remove_dir_all(&scratch)?;
    match here() {
        Some(faces) => Ok(faces),
        None => bail!("{wanted} does not hold the files that families.toml names"),
    }
}

/// Measures every face of a part, with faults planted in the families that
/// `planted` picks.
pub(crate) fn measure(
    part: Part,
    planted: impl Fn(&Family) -> bool + Sync,
) -> Result<Vec<Specimen>> {
    let families = families(part)?;
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<Result<Specimen>>> = Mutex::default();
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some(family) = families.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let measured = of_family(family, planted(family));
                    let mut done = done.lock().unwrap_or_else(|e| e.into_inner());
                    match measured {
                        Ok(all) => done.extend(all.into_iter().map(Ok)),
                        Err(e) => done.push(Err(e)),
                    }
                }
            });
        }
    });
    let done = done.into_inner().unwrap_or_else(|e| e.into_inner());
    let mut all = done.into_iter().collect::<Result<Vec<_>>>()?;
    all.sort_by(|a, b| (&a.family, &a.face).cmp(&(&b.family, &b.face)));
    Ok(all)
}

fn of_family(family: &Family, planted: bool) -> Result<Vec<Specimen>> {
    faces(family)?
        .into_iter()
        .zip(&family.faces)
        .map(|(bytes, face)| {
            let font = Font::open(bytes).map_err(|e| anyhow::anyhow!("{}: {e}", face.file))?;
            Ok(Specimen::measure(&family.name, &face.file, &font, planted))
        })
        .collect()
}
