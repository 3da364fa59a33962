//! Holds the built page to its byte budget.
//!
//! The limits stand in `budget.json`: bytes as sent with brotli, of the
//! WebAssembly and of all that the page ships, the sample font included.

use crate::workshop::Workshop;
use crate::{place, run, stamp};
use anyhow::{Context, Result, bail};
use serde::Deserialize;
use std::path::{Path, PathBuf};

#[derive(Deserialize)]
struct Budget {
    module: u64,
    page: u64,
}

struct Shipped {
    file: PathBuf,
    bytes: u64,
    sent: u64,
}

/// Builds the page, prints what it weighs, and fails if that is over the budget.
pub(crate) fn check(shop: &Workshop) -> Result<()> {
    let budget: Budget = serde_json::from_str(include_str!("../budget.json"))
        .context("budget.json is not what it should be")?;
    shop.page()?;
    let shipped = weigh(&place::dist())?;

    println!("{:>9} {:>9}", "bytes", "brotli");
    for part in &shipped {
        let name = part.file.strip_prefix(place::dist()).unwrap_or(&part.file);
        println!("{:>9} {:>9}  {}", part.bytes, part.sent, name.display());
    }
    let is_module = |part: &&Shipped| part.file.extension().is_some_and(|e| e == "wasm");
    let module: u64 = shipped.iter().filter(is_module).map(|part| part.sent).sum();
    let page: u64 = shipped.iter().map(|part| part.sent).sum();

    let mut over = Vec::new();
    for (name, sent, limit) in [
        ("WebAssembly", module, budget.module),
        ("whole page", page, budget.page),
    ] {
        println!("{name}: {sent} bytes of {limit} allowed");
        if sent > limit {
            over.push(format!("{name} by {} bytes", sent - limit));
        }
    }
    if module == 0 {
        bail!("The built page holds no WebAssembly.");
    }
    if !over.is_empty() {
        bail!("Over the byte budget: {}.", over.join(", "));
    }
    Ok(())
}

fn weigh(folder: &Path) -> Result<Vec<Shipped>> {
    let mut files = Vec::new();
    gather(folder, &mut files)?;
    let script = place::root().join("crate/xtask/src/brotli.mjs");
    let said = run::ask(run::command("node", folder).arg(script).args(&files))
        .context("the files could not be compressed")?;
    files
        .into_iter()
        .zip(said.lines())
        .map(|(file, line)| {
            let (bytes, sent) = line.split_once(' ').context("no two sizes in a line")?;
            Ok(Shipped {
                file,
                bytes: bytes.parse()?,
                sent: sent.parse()?,
            })
        })
        .collect()
}

fn gather(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    for entry in stamp::entries(folder)? {
        if entry.is_dir() {
            gather(&entry, files)?;
        } else {
            files.push(entry);
        }
    }
    Ok(())
}
