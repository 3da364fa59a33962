//! Runs other programs.

use anyhow::{Context, Result, bail};
use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

/// What a watched program printed, and how it ended.
pub(crate) struct Ran {
    pub(crate) success: bool,
    pub(crate) lines: Vec<String>,
}

/// A command in the repository, with no keyboard: nothing here may ask.
pub(crate) fn command(program: impl AsRef<OsStr>, folder: &Path) -> Command {
    let mut command = Command::new(program);
    command.current_dir(folder).stdin(Stdio::null());
    command
}

/// Cargo, the one that runs this.
pub(crate) fn cargo(folder: &Path) -> Command {
    command(std::env::var_os("CARGO").unwrap_or("cargo".into()), folder)
}

/// Runs to the end, its output passing straight to the terminal.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| missing(command))?;
    if !status.success() {
        bail!("`{}` failed; its own words stand above", shown(command));
    }
    Ok(())
}

/// Runs quietly and gives what was printed, or nothing if it failed or is missing.
pub(crate) fn ask(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    output.status.success().then_some(text)
}

/// Runs to the end or to the limit; true if it succeeded within it.
pub(crate) fn run_within(command: &mut Command, limit: Duration) -> bool {
    match command.spawn() {
        Ok(child) => ended_well(child, limit),
        Err(_) => false,
    }
}

/// Runs to the end or to the limit, passing on each line as it comes and keeping it.
pub(crate) fn watch(command: &mut Command, limit: Duration) -> Result<Ran> {
    let (reader, writer) = std::io::pipe().context("no pipe to be had")?;
    command.stdout(writer.try_clone()?).stderr(writer);
    let child = command.spawn().with_context(|| missing(command))?;
    // The command holds the pipe's writing ends: while it does, reading never ends.
    command.stdout(Stdio::null()).stderr(Stdio::null());

    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || {
        for line in BufReader::new(reader).split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8_lossy(&line).trim_end().to_owned();
            println!("{line}");
            if sender.send(line).is_err() {
                break;
            }
        }
    });
    let success = ended_well(child, limit);
    if !success {
        println!("`{}` failed", shown(command));
    }
    // A process left behind may hold the pipe open: wait for silence, not for its end.
    let mut lines = Vec::new();
    while let Ok(line) = receiver.recv_timeout(Duration::from_secs(3)) {
        lines.push(line);
    }
    Ok(Ran { success, lines })
}

fn ended_well(mut child: Child, limit: Duration) -> bool {
    let start = Instant::now();
    loop {
        match child.try_wait() {
            Ok(Some(status)) => return status.success(),
            Ok(None) if start.elapsed() < limit => thread::sleep(Duration::from_millis(50)),
            _ => break,
        }
    }
    println!("Stopped: it took longer than {} s.", limit.as_secs());
    end_tree(child.id());
    let _ = child.wait();
    false
}

/// Ends a process and all that it started, the eldest first: a parent that
/// outlives its child goes on to its next line.
fn end_tree(id: u32) {
    let children = children(id);
    let mut end = if cfg!(windows) {
        let mut end = Command::new("taskkill");
        end.args(["/f", "/t", "/pid"]);
        end
    } else {
        let mut end = Command::new("kill");
        end.arg("-9");
        end
    };
    // It may have ended by itself.
    let _ = end.arg(id.to_string()).output();
    children.into_iter().for_each(end_tree);
}

/// Each thread has its own list. Where there is none, the tree is one process.
fn children(id: u32) -> Vec<u32> {
    let threads = std::fs::read_dir(format!("/proc/{id}/task"));
    threads
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|thread| std::fs::read_to_string(thread.path().join("children")).ok())
        .flat_map(|list| {
            list.split_whitespace()
                .filter_map(|child| child.parse().ok())
                .collect::<Vec<_>>()
        })
        .collect()
}

fn missing(command: &Command) -> String {
    format!("`{}` could not be started", shown(command))
}

fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program())
        .file_name()
        .unwrap_or(command.get_program());
    std::iter::once(program)
        .chain(command.get_args())
        .map(OsStr::to_string_lossy)
        .collect::<Vec<_>>()
        .join(" ")
}

/// True if the program is on this computer and answers to `--version`.
pub(crate) fn answers(program: impl AsRef<OsStr>) -> bool {
    let mut command = Command::new(program);
    command.arg("--version").stdin(Stdio::null());
    ask(&mut command).is_some()
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use crate::place;

    fn shell(script: &str) -> Command {
        let mut shell = command("sh", &place::root());
        shell.args(["-c", script]);
        shell
    }

    #[test]
    fn watching_keeps_both_streams_in_order() {
        let ran = watch(
            &mut shell("echo one; echo two >&2; printf three; exit 3"),
            Duration::from_secs(10),
        )
        .unwrap();
        assert_eq!(ran.lines, ["one", "two", "three"]);
        assert!(!ran.success);
    }

    #[test]
    fn the_limit_ends_the_whole_tree() {
        let late = place::target().join("run-test-late");
        let _ = std::fs::remove_file(&late);
        let start = Instant::now();
        let script = format!("(sleep 1; echo late > '{}') & sleep 30", late.display());
        let ran = watch(&mut shell(&script), Duration::from_millis(300)).unwrap();
        assert!(!ran.success);
        assert!(start.elapsed() < Duration::from_secs(10), "it waited on");
        thread::sleep(Duration::from_secs(2).saturating_sub(start.elapsed()));
        assert!(!late.exists(), "what it started ran on");
    }

    #[test]
    fn a_missing_program_is_named() {
        let error = run(&mut command("no-such-program-here", &place::root())).unwrap_err();
        assert!(
            error.to_string().contains("no-such-program-here"),
            "{error}"
        );
    }
}
