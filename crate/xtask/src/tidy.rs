//! House rules that no other tool checks.
//!
//! - A Rust file says at its top what it is for.
//! - No line ends in white space.
//! - A source file holds one idea, so it stays under a length.
//! - Nothing names a folder of one person's computer, or a package registry's
//!   host: the package clients know theirs.
//! - A Markdown file's links into the repository lead somewhere.

use crate::{place, run};
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::Path;

const MOST_LINES: usize = 600;

// In two halves, so that this file does not break its own rule.
const FOLDERS: [&str; 4] = [
    concat!("/", "work"),
    concat!("/", "root"),
    concat!("/", "tmp"),
    concat!("/", "home"),
];
const HOSTS: [&str; 8] = [
    concat!("index.", "crates.io"),
    concat!("static.", "crates.io"),
    concat!("npmjs", ".org"),
    concat!("npmjs", ".com"),
    concat!("pypi", ".org"),
    concat!("python", "hosted"),
    concat!("deb.", "debian.org"),
    concat!("arti", "factory"),
];

/// Looks through all files that are committed or could be.
pub(crate) fn check() -> Result<()> {
    let root = place::root();
    let listed = run::ask(run::command("git", &root).args([
        "-c",
        "core.quotePath=false",
        "ls-files",
        "--cached",
        "--others",
        "--exclude-standard",
    ]))
    .context("git could not list the files; this check needs a clone of the repository")?;

    let mut faults = Vec::new();
    let mut looked = 0;
    for name in listed.lines() {
        // Gone from the folder, not yet from the list; or no text.
        let Ok(text) = fs::read_to_string(root.join(name)) else {
            continue;
        };
        looked += 1;
        for (line, fault) in faults_of(name, &text, &root) {
            faults.push(format!("{name}:{line}: {fault}"));
        }
    }
    if !faults.is_empty() {
        bail!("{}", faults.join("\n"));
    }
    println!("{looked} files are tidy");
    Ok(())
}

fn faults_of(name: &str, text: &str, root: &Path) -> Vec<(usize, String)> {
    let mut faults = Vec::new();
    let first = text.lines().find(|line| !line.trim().is_empty());
    if name.ends_with(".rs") && !first.is_some_and(|line| line.starts_with("//!")) {
        faults.push((1, "does not begin with `//!` and what it is for".to_owned()));
    }
    let lines = text.lines().count();
    // JSON is data, some of it generated: it cannot be split at an idea.
    let source =
        (name.starts_with("crate/") || name.starts_with("www/src/")) && !name.ends_with(".json");
    if source && lines > MOST_LINES {
        faults.push((
            lines,
            format!("{lines} lines; split it, {MOST_LINES} are the most"),
        ));
    }
    for (index, line) in text.lines().enumerate() {
        let mut fault = |words: String| faults.push((index + 1, words));
        if line.ends_with([' ', '\t']) {
            fault("white space at the end".to_owned());
        }
        if let Some(folder) = FOLDERS.iter().find(|folder| names_folder(line, folder)) {
            fault(format!("names a folder of one computer: {folder}"));
        }
        if let Some(host) = HOSTS.iter().find(|host| line.contains(*host)) {
            fault(format!("names a registry's host: {host}"));
        }
        if name.ends_with(".md") {
            for link in dead_links(line, &root.join(name)) {
                fault(format!("leads nowhere: {link}"));
            }
        }
    }
    faults
}

/// True where the folder begins a path, and is not the end of a longer word or path.
fn names_folder(line: &str, folder: &str) -> bool {
    line.match_indices(folder).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + folder.len()..].chars().next();
        let inside_path = |c: char| c.is_alphanumeric() || ".-_/*})".contains(c);
        let inside_word = |c: char| c.is_alphanumeric() || "-_.".contains(c);
        !before.is_some_and(inside_path) && !after.is_some_and(inside_word)
    })
}

/// Links of a Markdown line that name a file which is not there.
fn dead_links(line: &str, file: &Path) -> Vec<String> {
    ["](", "src=\"", "srcset=\""]
        .into_iter()
        .flat_map(|opening| line.split(opening).skip(1))
        .filter_map(|rest| rest.split([')', '"', ' ', '#']).next())
        .filter(|link| !link.is_empty() && !link.contains(':'))
        .filter(|link| !file.with_file_name(link).exists())
        .map(str::to_owned)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(name: &str, text: &str) -> Vec<String> {
        faults_of(name, text, &place::root())
            .into_iter()
            .map(|(line, fault)| format!("{line}: {fault}"))
            .collect()
    }

    #[test]
    fn a_tidy_file_has_no_faults() {
        assert!(words("crate/x/src/a.rs", "//! What it is for.\n\nfn a() {}\n").is_empty());
        assert!(
            words(
                "README.md",
                "[the licence](LICENSE) and [a site](https://a.b)\n"
            )
            .is_empty()
        );
    }

    #[test]
    fn data_may_be_long() {
        let long = "{}\n".repeat(MOST_LINES + 1);
        assert!(words("crate/x/schema/a.json", &long).is_empty());
    }

    #[test]
    fn each_rule_finds_its_fault() {
        let long = "//! Long.\n".repeat(MOST_LINES + 1);
        for (name, text, said) in [
            ("crate/x/src/a.rs", "fn a() {}\n", "1: does not begin"),
            ("crate/x/src/a.rs", long.as_str(), "601: 601 lines"),
            ("a.ts", "let a \nlet b\n", "1: white space"),
            (
                "a.toml",
                concat!("x\npath = \"/", "root/x\"\n"),
                "2: names a folder",
            ),
            (
                "a.lock",
                concat!("https://index.", "crates.io/a\n"),
                "1: names a registry",
            ),
            (
                "README.md",
                "see [it](www/not/there.png)\n",
                "1: leads nowhere",
            ),
        ] {
            let found = words(name, text);
            assert_eq!(found.len(), 1, "{name}: {found:?}");
            assert!(found[0].starts_with(said), "{found:?}");
        }
    }

    #[test]
    fn a_folder_inside_a_path_or_word_is_no_fault() {
        for fine in [
            concat!("target", "/", "tmp", "/a"),
            concat!("/", "workbench"),
            concat!("and", "/", "work"),
            concat!("https://a.b", "/", "home"),
        ] {
            assert!(words("a.txt", fine).is_empty(), "{fine}");
        }
    }
}
