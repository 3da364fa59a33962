//! Which files of a folder are measured, and in which order.

use crate::room::{Room, files, squares};

#[test]
fn folders_with_all_that_is_in_them_in_order() {
    let room = Room::new();
    for name in [
        "f/z.ttf",
        "f/b/UPPER.TTF",
        "f/b/a.otf",
        "f/b/deep/er/font.ttc",
        "f/no-ending",
        "f/wrong.ending",
        "f/.hidden/x.ttf",
        "f/._z.ttf",
    ] {
        room.put(name, &squares());
    }
    room.put("f/readme.txt", b"about these fonts");
    room.put("f/short", b"ab");
    room.put("f/empty", b"");
    let (document, ran) = room.measure(&["f", "--letters", "A"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_eq!(
        files(&document),
        [
            "f/b/UPPER.TTF",
            "f/b/a.otf",
            "f/b/deep/er/font.ttc",
            "f/no-ending",
            "f/wrong.ending",
            "f/z.ttf"
        ]
    );
}

#[test]
fn paths_are_taken_in_the_order_given_and_as_given() {
    let room = Room::new();
    for name in ["b/1.ttf", "a/2.ttf", ".hidden.ttf", "-dash.ttf"] {
        room.put(name, &squares());
    }
    let asked = [
        "--letters",
        "A",
        "b",
        "a/2.ttf",
        ".hidden.ttf",
        "b",
        "--",
        "-dash.ttf",
    ];
    let (document, ran) = room.measure(&asked);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(
        files(&document),
        ["b/1.ttf", "a/2.ttf", ".hidden.ttf", "b/1.ttf", "-dash.ttf"]
    );
}

#[test]
fn what_calls_itself_a_font_and_is_none_is_not_passed_over() {
    let room = Room::new();
    room.put("f/good.ttf", &squares());
    room.put("f/page.otf", b"<!doctype html>");
    room.put("f/packed.bin", b"wOF2\0\0\0\0");
    let (document, ran) = room.measure(&["f", "--letters", "A"]);
    assert_eq!(ran.code, 1);
    assert_eq!(
        files(&document),
        ["f/good.ttf", "f/packed.bin", "f/page.otf"]
    );
    assert_eq!(document["fonts"][1]["errors"][0]["code"], "packed");
    assert_eq!(document["fonts"][2]["errors"][0]["code"], "not-a-font");
}

#[test]
fn a_folder_without_fonts_is_an_error_of_its_own() {
    let room = Room::new();
    room.put("none/readme.txt", b"nothing here");
    room.put("good.ttf", &squares());
    let (document, ran) = room.measure(&["none", "good.ttf", "--letters", "A"]);
    assert_eq!(ran.code, 1);
    assert_eq!(files(&document), ["none", "good.ttf"]);
    assert_eq!(document["fonts"][0]["errors"][0]["code"], "no-fonts");
    assert_eq!(document["fonts"][1]["letters"].as_array().unwrap().len(), 1);
    assert!(ran.err.starts_with("none: There is no font"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn links_to_files_count_and_links_to_folders_do_not() {
    use std::os::unix::fs::symlink;
    let room = Room::new();
    room.put("f/real.ttf", &squares());
    room.put("elsewhere/other.ttf", &squares());
    symlink("..", room.path("f/up")).unwrap();
    symlink(".", room.path("f/self")).unwrap();
    symlink("../elsewhere", room.path("f/folder")).unwrap();
    symlink("../elsewhere/other.ttf", room.path("f/link.ttf")).unwrap();
    symlink("nowhere.ttf", room.path("f/broken.ttf")).unwrap();
    symlink("nowhere", room.path("f/broken")).unwrap();
    symlink("f", room.path("to-folder")).unwrap();
    let (document, ran) = room.measure(&["f", "--letters", "A"]);
    assert_eq!(ran.code, 1);
    assert_eq!(
        files(&document),
        ["f/broken.ttf", "f/link.ttf", "f/real.ttf"]
    );
    assert_eq!(document["fonts"][0]["errors"][0]["code"], "not-found");
    // A link that is given by name is meant.
    let (document, _) = room.measure(&["to-folder", "--letters", "A"]);
    assert_eq!(files(&document).len(), 3);
}

#[cfg(unix)]
#[test]
fn a_pipe_in_a_folder_does_not_keep_the_run_waiting() {
    let room = Room::new();
    room.put("f/real.ttf", &squares());
    let made = std::process::Command::new("mkfifo")
        .arg(room.path("f/pipe.ttf"))
        .status();
    assert!(made.unwrap().success());
    let (document, ran) = room.measure(&["f", "--letters", "A"]);
    assert_eq!((ran.code, files(&document)), (0, vec!["f/real.ttf"]));
}

#[cfg(target_os = "linux")]
#[test]
fn names_that_are_no_text_are_read_all_the_same() {
    use std::ffi::OsString;
    use std::os::unix::ffi::OsStringExt;
    let room = Room::new();
    let name = OsString::from_vec(b"caf\xE9.ttf".to_vec());
    room.put(&name, &squares());
    let letters = [OsString::from("--letters"), OsString::from("A"), name];
    let (document, ran) = room.measure(&letters);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(files(&document), ["caf\u{FFFD}.ttf"]);
}
