//! A folder for one test, and the program run in it.

use counterpoise_checks::forge;
use counterpoise_samples as samples;
use serde_json::Value;
use std::ffi::OsStr;
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::thread;
use std::time::{Duration, Instant};

/// Longest that one run may take, in the slow build that tests run.
const PATIENCE: Duration = Duration::from_secs(120);

/// A folder that goes away with the test.
pub(crate) struct Room(PathBuf);

/// What a run has come to.
#[derive(Debug)]
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Room {
    pub(crate) fn new() -> Self {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("end-to-end-{}-{number}", std::process::id());
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    /// A room with the sample face in it, as `sample.ttf`.
    pub(crate) fn with_sample() -> Self {
        let room = Self::new();
        room.put("sample.ttf", &sample());
        room
    }

    pub(crate) fn path(&self, name: impl AsRef<Path>) -> PathBuf {
        self.0.join(name)
    }

    /// Writes a file, and the folders that it lies in.
    pub(crate) fn put(&self, name: impl AsRef<Path>, bytes: &[u8]) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    pub(crate) fn names(&self) -> Vec<String> {
        let mut names: Vec<_> = fs::read_dir(&self.0)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    /// The program with this folder as its own.
    pub(crate) fn command<A: AsRef<OsStr>>(&self, arguments: &[A]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
        command
            .args(arguments)
            .current_dir(&self.0)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        command
    }

    pub(crate) fn run<A: AsRef<OsStr>>(&self, arguments: &[A]) -> Ran {
        let mut child = self.command(arguments).spawn().unwrap();
        let out = reading(child.stdout.take());
        let err = reading(child.stderr.take());
        let code = wait(&mut child);
        Ran {
            code,
            out: out.join().unwrap(),
            err: err.join().unwrap(),
        }
    }

    /// Measures as JSON.
    pub(crate) fn measure<A: AsRef<OsStr>>(&self, arguments: &[A]) -> (Value, Ran) {
        let mut all: Vec<&OsStr> = vec!["measure".as_ref(), "--json".as_ref()];
        all.extend(arguments.iter().map(AsRef::as_ref));
        let ran = self.run(&all);
        let document = serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{e}: {ran:?}"));
        (document, ran)
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn reading(from: Option<impl Read + Send + 'static>) -> thread::JoinHandle<String> {
    thread::spawn(move || {
        let mut text = String::new();
        from.unwrap().read_to_string(&mut text).unwrap();
        text
    })
}

/// The exit code; a run that hangs is ended, and fails the test.
pub(crate) fn wait(child: &mut Child) -> i32 {
    let start = Instant::now();
    loop {
        if let Some(status) = child.try_wait().unwrap() {
            return status.code().expect("ended by a signal");
        }
        if start.elapsed() > PATIENCE {
            child.kill().unwrap();
            panic!("it hung for {} s", PATIENCE.as_secs());
        }
        thread::sleep(Duration::from_millis(5));
    }
}

/// The sample face, TrueType.
pub(crate) fn sample() -> Vec<u8> {
    samples::truetype(&samples::clean()).unwrap()
}

/// A rectangle, as glyph data.
pub(crate) fn square() -> Vec<u8> {
    forge::polygons(&[vec![(100, 0), (100, 700), (500, 700), (500, 0)]])
}

/// A small sound font: `A` and `B` are squares.
pub(crate) fn squares() -> Vec<u8> {
    forge::font(&forge::tables(&[square(), square(), square()]))
}

/// A collection of whole fonts (OpenType, chapter on the font file: TTC header
/// version 1). Table offsets count from the start of the file.
pub(crate) fn collection(fonts: &[Vec<forge::Table>]) -> Vec<u8> {
    let mut file = b"ttcf\0\x01\0\0".to_vec();
    file.extend((fonts.len() as u32).to_be_bytes());
    let mut start = 12 + 4 * fonts.len();
    let mut bodies = Vec::new();
    for tables in fonts {
        file.extend((start as u32).to_be_bytes());
        let mut font = forge::font(tables);
        for i in 0..tables.len() {
            let at = 12 + 16 * i + 8;
            let offset = u32::from_be_bytes(font[at..at + 4].try_into().unwrap());
            font[at..at + 4].copy_from_slice(&(offset + start as u32).to_be_bytes());
        }
        start += font.len();
        bodies.extend(font);
    }
    file.extend(bodies);
    file
}

/// The characters of an entry's letters, in order.
pub(crate) fn characters(entry: &Value) -> String {
    let letters = entry["letters"].as_array().unwrap();
    letters
        .iter()
        .filter_map(|l| l["character"].as_str())
        .collect()
}

/// The files that a document tells of, in order.
pub(crate) fn files(document: &Value) -> Vec<&str> {
    let fonts = document["fonts"].as_array().unwrap();
    fonts.iter().map(|f| f["file"].as_str().unwrap()).collect()
}
