//! Holds the built page to its byte budget.
//!
//! The limits stand in `budget.json`: bytes as sent with brotli, of the
//! WebAssembly and of all that the page starts with, the sample font included;
//! and of all that it may fetch later, when it is first needed.

use crate::workshop::Workshop;
use crate::{place, run, stamp};
use anyhow::{Context, Result, bail};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

#[derive(Deserialize)]
struct Budget {
    module: u64,
    page: u64,
    later: u64,
}

struct Shipped {
    file: PathBuf,
    bytes: u64,
    sent: u64,
}

/// What the bundler says of a piece of the page.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", default)]
#[derive(Default)]
struct Piece {
    file: String,
    is_entry: bool,
    imports: Vec<String>,
    css: Vec<String>,
    assets: Vec<String>,
}

/// What the page starts with beside what is bundled. The sample's other files
/// are fetched when they are asked for.
const UNBUNDLED: [&str; 3] = ["index.html", "icon.svg", "sample/sample.ttf"];

/// The piece that every visit fetches behind its first picture.
const BEHIND: &str = "src/components/margin.ts";

/// Where the bundler's account of the page lies in it.
const MANIFEST: &str = ".vite/manifest.json";

/// Builds the page, prints what it weighs, and fails if that is over the budget.
pub(crate) fn check(shop: &Workshop) -> Result<()> {
    let budget: Budget = serde_json::from_str(include_str!("../budget.json"))
        .context("budget.json is not what it should be")?;
    shop.page()?;
    let shipped = weigh(&place::dist())?;

    let first = first(&fs::read_to_string(place::dist().join(MANIFEST))?)?;

    println!("{:>9} {:>9}", "bytes", "brotli");
    let (mut module, mut page, mut rest) = (0, 0, 0);
    for part in &shipped {
        let name = part.file.strip_prefix(place::dist()).unwrap_or(&part.file);
        let waits = !first.contains(name);
        let when = if waits { " (later)" } else { "" };
        println!(
            "{:>9} {:>9}  {}{when}",
            part.bytes,
            part.sent,
            name.display()
        );
        if waits {
            rest += part.sent;
            continue;
        }
        page += part.sent;
        if name.extension().is_some_and(|e| e == "wasm") {
            module += part.sent;
        }
    }

    let mut over = Vec::new();
    for (name, sent, limit) in [
        ("WebAssembly at the start", module, budget.module),
        ("whole page at the start", page, budget.page),
        ("fetched later", rest, budget.later),
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

/// The files that the page starts with.
fn first(manifest: &str) -> Result<BTreeSet<PathBuf>> {
    let pieces: BTreeMap<String, Piece> =
        serde_json::from_str(manifest).context("the bundler's account cannot be read")?;
    let (behind, _) = pieces
        .get_key_value(BEHIND)
        .with_context(|| format!("{BEHIND} is no piece of the built page"))?;
    let entries = pieces.iter().filter(|(_, p)| p.is_entry).map(|(k, _)| k);
    let bundled = brought(&pieces, entries.chain([behind]));
    Ok(bundled
        .into_iter()
        .chain(UNBUNDLED)
        .map(PathBuf::from)
        .collect())
}

/// The files that these pieces and all that they import at once bring.
fn brought<'a>(
    pieces: &'a BTreeMap<String, Piece>,
    from: impl Iterator<Item = &'a String>,
) -> BTreeSet<&'a str> {
    let mut waiting: Vec<&String> = from.collect();
    let mut seen = BTreeSet::new();
    let mut files = BTreeSet::new();
    while let Some(name) = waiting.pop() {
        let Some(piece) = pieces.get(name).filter(|_| seen.insert(name)) else {
            continue;
        };
        files.insert(piece.file.as_str());
        files.extend(piece.css.iter().chain(&piece.assets).map(String::as_str));
        waiting.extend(&piece.imports);
    }
    files
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
        if entry.ends_with(".vite") {
            continue;
        }
        if entry.is_dir() {
            gather(&entry, files)?;
        } else {
            files.push(entry);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_imported_on_demand_alone_comes_later() {
        let manifest = r#"{
            "index.html": { "file": "i.js", "isEntry": true, "imports": ["_both.js"],
                "dynamicImports": ["shelf.ts", "src/components/margin.ts"],
                "css": ["i.css"], "assets": ["core.wasm"] },
            "src/components/margin.ts": { "file": "margin.js", "imports": ["_both.js"] },
            "_both.js": { "file": "both.js" },
            "_own.js": { "file": "own.js", "assets": ["shape.wasm"] },
            "shelf.ts": { "file": "shelf.js", "imports": ["_both.js", "_own.js"] }
        }"#;
        let first = first(manifest).unwrap();
        let bundled = first.iter().filter_map(|f| f.to_str());
        let bundled: Vec<_> = bundled.filter(|f| !UNBUNDLED.contains(f)).collect();
        assert_eq!(
            bundled,
            ["both.js", "core.wasm", "i.css", "i.js", "margin.js"]
        );
    }
}
