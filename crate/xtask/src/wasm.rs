//! Makes the WebAssembly modules: compile, bind, optimise.

use crate::stamp::Stamp;
use crate::target::{Compiler, TRIPLE};
use crate::{bindings, place, replace, run};
use anyhow::{Context, Result};
use std::fs;
use std::path::{Path, PathBuf};

/// The crates that are each a module of their own: the first the page starts
/// with, any other it fetches when it is first needed.
const CRATES: [&str; 6] = [
    "counterpoise-web",
    "counterpoise-shaping",
    "counterpoise-redraw",
    "counterpoise-lessons",
    "counterpoise-formats",
    "counterpoise-browse",
];

/// Compiles the modules and writes them and their bindings into `www/src/core`.
pub(crate) fn make() -> Result<()> {
    println!("WebAssembly");
    let compiler = Compiler::find()?;
    let compiled: Vec<(String, PathBuf)> = CRATES
        .iter()
        .map(|name| compile(&compiler, name))
        .collect::<Result<_>>()?;

    let core = place::www().join("src").join("core");
    let mut sources: Vec<PathBuf> = compiled.iter().map(|(_, module)| module.clone()).collect();
    sources.push(place::root().join("Cargo.lock"));
    sources.push(place::www().join("package-lock.json"));
    let stamp = Stamp::of("wasm", &sources)?;
    if stamp.holds() && core.is_dir() {
        return Ok(());
    }
    let made = place::target().join("core");
    replace::fresh(&made)?;
    for (name, module) in &compiled {
        bindings::write(module, name, &made)?;
        optimise(&made.join(format!("{name}_bg.wasm")))?;
    }
    stamp.lift();
    replace::replace(&core, &made)?;
    stamp.press()
}

/// Compiles one crate: by itself, so that no feature that another asks for
/// makes its module larger.
fn compile(compiler: &Compiler, package: &str) -> Result<(String, PathBuf)> {
    let target_dir = place::target().join("page");
    run::run(
        compiler
            .build(&place::root(), &target_dir)
            .args(["--package", package]),
    )?;
    let name = package.replace('-', "_");
    let module = target_dir
        .join(TRIPLE)
        .join("page")
        .join(format!("{name}.wasm"));
    Ok((name, module))
}

fn optimise(module: &Path) -> Result<()> {
    println!(
        "Optimising {}",
        module.file_name().unwrap_or_default().display()
    );
    let before = size(module)?;
    let better = module.with_extension("better");
    let tool = place::www().join("node_modules/binaryen/bin/wasm-opt");
    run::run(
        run::command("node", &place::root())
            .arg(tool)
            .arg("-O3")
            .arg(module)
            .arg("-o")
            .arg(&better),
    )?;
    fs::rename(&better, module)?;
    println!("{before} bytes became {}", size(module)?);
    Ok(())
}

fn size(file: &Path) -> Result<u64> {
    let metadata =
        fs::metadata(file).with_context(|| format!("{} cannot be read", file.display()))?;
    Ok(metadata.len())
}
