//! Where the result goes.

use crate::room::{Room, sample, wait};
use std::fs;
use std::io::{BufRead, BufReader, Read};

#[test]
fn a_file_is_put_in_place_whole() {
    let room = Room::with_sample();
    room.put("old.json", b"what was there");
    for name in ["new.json", "old.json"] {
        let ran = room.run(&["measure", "sample.ttf", "--json", "--output", name]);
        assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (0, "", ""));
        let shown = room.run(&["measure", "sample.ttf", "--json"]);
        assert!(fs::read_to_string(room.path(name)).unwrap() == shown.out);
    }
    assert_eq!(room.names(), ["new.json", "old.json", "sample.ttf"]);
}

#[test]
fn a_file_that_cannot_be_written_is_told() {
    let room = Room::with_sample();
    let ran = room.run(&["measure", "sample.ttf", "-o", "no/such/folder.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (3, ""));
    assert!(
        ran.err
            .starts_with("no/such/folder.json could not be written")
    );
    assert!(ran.err.ends_with(".\n"), "{}", ran.err);
    let ran = room.run(&["schema", "-o", "no/such/folder.json"]);
    assert_eq!(ran.code, 3);
}

#[test]
fn a_font_is_never_written_over() {
    let room = Room::with_sample();
    for output in ["sample.ttf", "./sample.ttf"] {
        for asked in ["sample.ttf", "."] {
            let ran = room.run(&["measure", asked, "--json", "--output", output]);
            assert_eq!((ran.code, ran.out.as_str()), (2, ""));
            assert!(ran.err.contains("one of the fonts"), "{}", ran.err);
            assert!(fs::read(room.path("sample.ttf")).unwrap() == sample());
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let room = Room::with_sample();
    let ran = room.run(&[
        "measure",
        "sample.ttf",
        "--all",
        "--json",
        "-o",
        "/dev/full",
    ]);
    assert_eq!(ran.code, 3, "{ran:?}");
    assert!(
        ran.err.starts_with("/dev/full could not be written"),
        "{}",
        ran.err
    );
}

#[test]
fn a_reader_that_leaves_early_is_no_error() {
    let room = Room::with_sample();
    for arguments in [
        // Longer than any pipe holds.
        &["measure", "sample.ttf", "--all", "--json", "--pretty"][..],
        &[
            "measure",
            "sample.ttf",
            "sample.ttf",
            "sample.ttf",
            "--all",
            "--json",
        ],
        &["schema"],
        &["measure", "--help"],
    ] {
        let mut child = room.command(arguments).spawn().unwrap();
        let mut first = String::new();
        let mut out = BufReader::with_capacity(16, child.stdout.take().unwrap());
        if arguments[1..].contains(&"--pretty") {
            out.read_line(&mut first).unwrap();
            assert_eq!(first, "{\n");
        }
        drop(out);
        let code = wait(&mut child);
        let mut err = String::new();
        child
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut err)
            .unwrap();
        assert_eq!((code, err.as_str()), (0, ""), "{arguments:?}");
    }
}
