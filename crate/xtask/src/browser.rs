//! The page in a real browser: end-to-end tests, timing, pictures.

use crate::count::{self, Tally};
use crate::engine::{CHROMIUM, FIREFOX, WebKit};
use crate::run::Ran;
use crate::workshop::Workshop;
use crate::{node, place, run};
use anyhow::Result;
use std::process::Command;
use std::time::Duration;

/// Runs the end-to-end tests in Chromium.
pub(crate) fn test(shop: &Workshop, limit: Duration) -> Result<Tally> {
    watch(script(shop, "test")?, limit)
}

/// Runs those of them that lead through all of the page in Firefox, and holds
/// the two browsers' pictures against each other.
pub(crate) fn test_in_firefox(shop: &Workshop, limit: Duration) -> Result<Tally> {
    let mut command = script(shop, "test-firefox")?;
    command
        .env("BROWSER", "firefox")
        .env(FIREFOX.variable, FIREFOX.find()?);
    watch(command, limit)
}

/// Reviews a font in WebKit, where Debian brings it, and holds its pictures
/// against Chromium's.
pub(crate) fn test_in_webkit(shop: &Workshop, limit: Duration) -> Result<Tally> {
    let Some(WebKit { driver, browser }) = WebKit::find()? else {
        println!("No package brings WebKit and its driver here: the page is not tried in it.");
        return Ok(Tally {
            skipped: 1,
            ..Tally::default()
        });
    };
    let mut command = script(shop, "test-webkit")?;
    command
        .env("WEBKIT_DRIVER_PATH", driver)
        .env("WEBKIT_PATH", browser);
    watch(command, limit)
}

fn watch(mut command: Command, limit: Duration) -> Result<Tally> {
    let Ran { success, lines } = run::watch(&mut command, limit)?;
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
        .env(CHROMIUM.variable, CHROMIUM.find()?);
    Ok(command)
}
