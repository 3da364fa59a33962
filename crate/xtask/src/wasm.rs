//! Makes the WebAssembly module: compile, bind, optimise.

use crate::stamp::Stamp;
use crate::target::{Compiler, TRIPLE};
use crate::{bindings, place, replace, run};
use anyhow::{Context, Result};
use std::fs;
use std::path::Path;

const CRATE: &str = "counterpoise-web";

/// Compiles the browser's crate and writes module and bindings into `www/src/core`.
pub(crate) fn make() -> Result<()> {
    println!("WebAssembly module");
    let target_dir = place::target().join("page");
    let compiler = Compiler::find()?;
    run::run(
        compiler
            .build(&place::root(), &target_dir)
            .args(["--package", CRATE]),
    )?;

    let name = CRATE.replace('-', "_");
    let compiled = target_dir
        .join(TRIPLE)
        .join("page")
        .join(format!("{name}.wasm"));
    let core = place::www().join("src").join("core");
    let stamp = Stamp::of(
        "wasm",
        &[
            compiled.clone(),
            place::root().join("Cargo.lock"),
            place::www().join("package-lock.json"),
        ],
    )?;
    if stamp.holds() && core.is_dir() {
        return Ok(());
    }
    let made = place::target().join("core");
    replace::fresh(&made)?;
    bindings::write(&compiled, &name, &made)?;
    optimise(&made.join(format!("{name}_bg.wasm")))?;
    stamp.lift();
    replace::replace(&core, &made)?;
    stamp.press()
}

fn optimise(module: &Path) -> Result<()> {
    println!("Optimising the module");
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
