//! Makes the sample font that the page opens with.

use crate::stamp::Stamp;
use crate::{place, run};
use anyhow::Result;

/// Builds the sample from its recipe into `www/public/sample`.
pub(crate) fn make() -> Result<()> {
    let folder = place::www().join("public").join("sample");
    let stamp = Stamp::of(
        "sample",
        &[
            place::root().join("samples"),
            place::root().join("Cargo.lock"),
        ],
    )?;
    if stamp.holds() && folder.join("sample.ttf").is_file() {
        return Ok(());
    }
    stamp.lift();
    println!("Sample font");
    run::run(
        run::cargo(&place::root())
            .args(["run", "--quiet", "--package", "counterpoise-samples", "--"])
            .arg(&folder),
    )?;
    stamp.press()
}
