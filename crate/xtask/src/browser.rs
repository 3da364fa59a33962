//! The page in a real browser: end-to-end tests, timing, pictures.

use crate::count::{self, Tally};
use crate::run::Ran;
use crate::workshop::Workshop;
use crate::{chromium, node, place, run};
use anyhow::Result;
use std::process::Command;
use std::time::Duration;

/// Runs the end-to-end tests.
pub(crate) fn test(shop: &Workshop, limit: Duration) -> Result<Tally> {
    let Ran { success, lines } = run::watch(&mut script(shop, "test")?, limit)?;
    Ok(count::node_test(&lines).of_run(success))
}

/// Takes the pictures of the README.
pub(crate) fn pictures(shop: &Workshop) -> Result<()> {
    run::run(&mut script(shop, "pictures")?)
}

/// A script of `tests/browser/package.json`, with all that it needs made.
pub(crate) fn script(shop: &Workshop, name: &str) -> Result<Command> {
    shop.page()?;
    let folder = place::browser_tests();
    node::install(&folder, "browser-tests")?;
    let mut command = node::npm(&folder);
    command
        .args(["run", "--silent", name])
        .env("CHROMIUM_PATH", chromium::find()?);
    Ok(command)
}
