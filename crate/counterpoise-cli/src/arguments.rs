//! What was asked for on the command line.

use crate::help;
use counterpoise::report::Choice;
use lexopt::{Arg, Parser, ValueExt};
use std::ffi::OsStr;
use std::fmt;
use std::path::PathBuf;

/// A command to follow.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Command {
    /// Say this.
    Tell(String),
    /// Measure fonts.
    Measure(Measure),
    /// Hold two revisions against each other.
    Compare(Compare),
    /// Read a font's spacing.
    Spacing(Spacing),
    /// Write a document's JSON Schema.
    Schema {
        /// Of which document.
        of: Schema,
        /// The file to write to; else standard output.
        output: Option<PathBuf>,
    },
}

/// What to measure, and how to write it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Measure {
    /// Files and folders, as given.
    pub(crate) paths: Vec<PathBuf>,
    /// Which letters.
    pub(crate) letters: Letters,
    /// Which face of a collection, from 0.
    pub(crate) face: u32,
    /// Table or document.
    pub(crate) shape: Shape,
    /// The file to write to; else standard output.
    pub(crate) output: Option<PathBuf>,
}

/// Which two files to compare, and how to write it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Compare {
    /// The earlier revision.
    pub(crate) old: PathBuf,
    /// The later one.
    pub(crate) new: PathBuf,
    /// Which face of a collection, from 0.
    pub(crate) face: u32,
    /// Sentences or a document.
    pub(crate) shape: Shape,
    /// The file to write to; else standard output.
    pub(crate) output: Option<PathBuf>,
}

/// Which font's spacing to read, and how to write it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Spacing {
    /// The font file.
    pub(crate) path: PathBuf,
    /// The characters to read; else the usual ones.
    pub(crate) letters: Option<String>,
    /// How far white may lie from the middle, font units.
    pub(crate) tolerance: Option<f64>,
    /// Which face of a collection, from 0.
    pub(crate) face: u32,
    /// Sentences, a document or a feature file.
    pub(crate) form: Form,
    /// The file to write to; else standard output.
    pub(crate) output: Option<PathBuf>,
}

/// How a font's spacing is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// For people.
    Told,
    /// For programs.
    Json {
        /// Indented.
        pretty: bool,
    },
    /// For font compilers: an OpenType feature file.
    Features,
}

/// The documents that have a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Schema {
    /// What `measure --json` writes.
    Measures,
    /// What `spacing --json` writes.
    Spacing,
}

/// Which letters of a font.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Letters {
    /// The basic alphabet.
    Basic,
    /// Those of a text.
    Of(String),
    /// Every glyph.
    All,
}

impl Letters {
    /// The same in the library's words.
    pub(crate) fn choice(&self) -> Choice<'_> {
        match self {
            Self::Basic => Choice::Basic,
            Self::Of(text) => Choice::Characters(text),
            Self::All => Choice::Every,
        }
    }
}

/// How the measures are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shape {
    /// For people.
    Table,
    /// For programs.
    Json {
        /// Indented.
        pretty: bool,
    },
}

/// Why the arguments cannot be followed.
#[derive(Debug)]
pub(crate) enum Wrong {
    /// They are not even formed like arguments that we know.
    Form(lexopt::Error),
    /// They contradict each other or make no sense: a sentence.
    Sense(String),
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Form(e) => write!(f, "The arguments cannot be followed: {e}."),
            Self::Sense(sentence) => f.write_str(sentence),
        }
    }
}

impl std::error::Error for Wrong {}

impl From<lexopt::Error> for Wrong {
    fn from(e: lexopt::Error) -> Self {
        Self::Form(e)
    }
}

fn wrong<T>(sentence: impl Into<String>) -> Result<T, Wrong> {
    Err(Wrong::Sense(sentence.into()))
}

/// Reads the command line.
///
/// # Errors
/// If it cannot be followed.
pub(crate) fn read(mut parser: Parser) -> Result<Command, Wrong> {
    let Some(first) = parser.next()? else {
        return wrong("No command was given.");
    };
    match first {
        Arg::Short('h') | Arg::Long("help") => Ok(Command::Tell(help::PROGRAM.to_owned())),
        Arg::Short('V') | Arg::Long("version") => Ok(Command::Tell(format!(
            "counterpoise {}\n",
            env!("CARGO_PKG_VERSION")
        ))),
        Arg::Value(name) if name == OsStr::new("measure") => read_measure(parser),
        Arg::Value(name) if name == OsStr::new("compare") => read_compare(parser),
        Arg::Value(name) if name == OsStr::new("spacing") => read_spacing(parser),
        Arg::Value(name) if name == OsStr::new("schema") => read_schema(parser),
        Arg::Value(name) => wrong(format!(
            "There is no command `{}`. The commands are `measure`, `compare`, `spacing` and `schema`.",
            name.display()
        )),
        other => Err(other.unexpected().into()),
    }
}

fn read_measure(mut parser: Parser) -> Result<Command, Wrong> {
    let mut paths = Vec::new();
    let (mut text, mut all) = (None, false);
    let (mut json, mut pretty) = (false, false);
    let (mut output, mut face) = (None, 0);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Value(path) => paths.push(PathBuf::from(path)),
            Arg::Long("letters") => text = Some(parser.value()?.string()?),
            Arg::Long("all") => all = true,
            Arg::Long("face") => face = face_index(&parser.value()?.string()?)?,
            Arg::Long("json") => json = true,
            Arg::Long("pretty") => pretty = true,
            Arg::Short('o') | Arg::Long("output") => output = Some(file(&mut parser)?),
            Arg::Short('h') | Arg::Long("help") => {
                return Ok(Command::Tell(help::MEASURE.to_owned()));
            }
            other => return Err(other.unexpected().into()),
        }
    }
    if paths.is_empty() {
        return wrong("No file or folder was given. Name the fonts to measure.");
    }
    let shape = shape(json, pretty)?;
    let letters = match (text, all) {
        (Some(_), true) => {
            return wrong("--letters and --all exclude each other. Use one of them.");
        }
        (Some(text), false) if text.is_empty() => {
            return wrong("--letters was given no letters. Name some, as in --letters HOno.");
        }
        (Some(text), false) => Letters::Of(text),
        (None, true) => Letters::All,
        (None, false) => Letters::Basic,
    };
    Ok(Command::Measure(Measure {
        paths,
        letters,
        face,
        shape,
        output,
    }))
}

fn read_compare(mut parser: Parser) -> Result<Command, Wrong> {
    let mut paths = Vec::new();
    let (mut json, mut pretty) = (false, false);
    let (mut output, mut face) = (None, 0);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Value(path) => paths.push(PathBuf::from(path)),
            Arg::Long("face") => face = face_index(&parser.value()?.string()?)?,
            Arg::Long("json") => json = true,
            Arg::Long("pretty") => pretty = true,
            Arg::Short('o') | Arg::Long("output") => output = Some(file(&mut parser)?),
            Arg::Short('h') | Arg::Long("help") => {
                return Ok(Command::Tell(help::COMPARE.to_owned()));
            }
            other => return Err(other.unexpected().into()),
        }
    }
    let Ok([old, new]) = <[PathBuf; 2]>::try_from(paths) else {
        return wrong("Two files are compared: name the earlier revision, then the later one.");
    };
    Ok(Command::Compare(Compare {
        old,
        new,
        face,
        shape: shape(json, pretty)?,
        output,
    }))
}

fn read_spacing(mut parser: Parser) -> Result<Command, Wrong> {
    let mut paths = Vec::new();
    let (mut json, mut pretty, mut features) = (false, false, false);
    let (mut letters, mut tolerance, mut output, mut face) = (None, None, None, 0);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Value(path) => paths.push(PathBuf::from(path)),
            Arg::Long("letters") => letters = Some(parser.value()?.string()?),
            Arg::Long("tolerance") => tolerance = Some(units(&parser.value()?.string()?)?),
            Arg::Long("face") => face = face_index(&parser.value()?.string()?)?,
            Arg::Long("json") => json = true,
            Arg::Long("pretty") => pretty = true,
            Arg::Long("features") => features = true,
            Arg::Short('o') | Arg::Long("output") => output = Some(file(&mut parser)?),
            Arg::Short('h') | Arg::Long("help") => {
                return Ok(Command::Tell(help::SPACING.to_owned()));
            }
            other => return Err(other.unexpected().into()),
        }
    }
    let Ok([path]) = <[PathBuf; 1]>::try_from(paths) else {
        return wrong("The spacing of one font is read at a time: name its file.");
    };
    if letters.as_ref().is_some_and(String::is_empty) {
        return wrong("--letters was given no letters. Name some, as in --letters HOno.");
    }
    let form = match (shape(json, pretty)?, features) {
        (Shape::Json { .. }, true) => {
            return wrong("--json and --features exclude each other. Use one of them.");
        }
        (Shape::Json { pretty }, false) => Form::Json { pretty },
        (Shape::Table, true) => Form::Features,
        (Shape::Table, false) => Form::Told,
    };
    Ok(Command::Spacing(Spacing {
        path,
        letters,
        tolerance,
        face,
        form,
        output,
    }))
}

/// Less than a unit no font can hold, and a thousand of them suggest nothing.
fn units(given: &str) -> Result<f64, Wrong> {
    match given.parse::<f64>() {
        Ok(n) if (1.0..=1000.0).contains(&n) => Ok(n),
        _ => wrong(format!(
            "--tolerance was given `{given}`. It is a number of font units from 1 to 1000."
        )),
    }
}

fn shape(json: bool, pretty: bool) -> Result<Shape, Wrong> {
    match (json, pretty) {
        (false, true) => {
            wrong("--pretty goes with --json alone. Add --json, or leave --pretty out.")
        }
        (true, pretty) => Ok(Shape::Json { pretty }),
        (false, false) => Ok(Shape::Table),
    }
}

fn read_schema(mut parser: Parser) -> Result<Command, Wrong> {
    let (mut of, mut output) = (Schema::Measures, None);
    while let Some(argument) = parser.next()? {
        match argument {
            Arg::Value(name) if name == OsStr::new("measures") => of = Schema::Measures,
            Arg::Value(name) if name == OsStr::new("spacing") => of = Schema::Spacing,
            Arg::Short('o') | Arg::Long("output") => output = Some(file(&mut parser)?),
            Arg::Short('h') | Arg::Long("help") => {
                return Ok(Command::Tell(help::SCHEMA.to_owned()));
            }
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(Command::Schema { of, output })
}

fn file(parser: &mut Parser) -> Result<PathBuf, Wrong> {
    let value = parser.value()?;
    if value.is_empty() {
        return wrong("--output was given no file. Name the file to write to.");
    }
    Ok(PathBuf::from(value))
}

/// People count faces from 1.
fn face_index(given: &str) -> Result<u32, Wrong> {
    match given.parse::<u32>() {
        Ok(n @ 1..) => Ok(n - 1),
        _ => wrong(format!(
            "--face was given `{given}`. Faces are counted from 1: --face 2 is the second."
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &[&str]) -> Result<Command, Wrong> {
        super::read(Parser::from_args(line))
    }

    fn measure(line: &[&str]) -> Measure {
        match read(line) {
            Ok(Command::Measure(m)) => m,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn options_stand_anywhere() {
        let plain = measure(&["measure", "a.otf"]);
        assert_eq!(plain.paths, [PathBuf::from("a.otf")]);
        assert_eq!((plain.face, plain.shape), (0, Shape::Table));
        assert_eq!((plain.letters, plain.output), (Letters::Basic, None));

        let full = measure(&[
            "measure",
            "--letters=Ho",
            "a.otf",
            "--json",
            "--face",
            "2",
            "b",
            "--pretty",
            "-o",
            "c",
        ]);
        assert_eq!(full.paths, [PathBuf::from("a.otf"), PathBuf::from("b")]);
        assert_eq!(full.letters, Letters::Of("Ho".into()));
        assert_eq!(full.shape, Shape::Json { pretty: true });
        assert_eq!((full.face, full.output), (1, Some("c".into())));

        let dashed = measure(&["measure", "--all", "--", "--json"]);
        assert_eq!(dashed.paths, [PathBuf::from("--json")]);
        assert_eq!(dashed.letters, Letters::All);
    }

    #[test]
    fn what_cannot_be_followed_gets_a_sentence() {
        for (line, said) in [
            (&[][..], "No command"),
            (&["weigh"], "no command `weigh`"),
            (&["--frob"], "'--frob'"),
            (&["measure"], "No file or folder"),
            (&["measure", "a", "--frob"], "'--frob'"),
            (&["measure", "a", "--letters"], "--letters"),
            (&["measure", "a", "--letters", ""], "no letters"),
            (&["measure", "a", "--letters", "a", "--all"], "exclude"),
            (&["measure", "a", "--all=1"], "--all"),
            (&["measure", "a", "--pretty"], "--pretty goes with --json"),
            (&["measure", "a", "--face", "0"], "counted from 1"),
            (&["measure", "a", "--face", "-1"], "counted from 1"),
            (&["measure", "a", "--face", "two"], "counted from 1"),
            (&["measure", "a", "--face", "5000000000"], "counted from 1"),
            (&["measure", "a", "--output", ""], "no file"),
            (&["schema", "a"], "\"a\""),
            (&["compare", "a"], "Two files"),
            (&["compare", "a", "b", "c"], "Two files"),
            (&["spacing"], "one font"),
            (&["spacing", "a", "b"], "one font"),
            (&["spacing", "a", "--tolerance", "0"], "1 to 1000"),
            (&["spacing", "a", "--tolerance", "NaN"], "1 to 1000"),
            (&["spacing", "a", "--json", "--features"], "exclude"),
            (
                &["compare", "a", "b", "--pretty"],
                "--pretty goes with --json",
            ),
        ] {
            let error = read(line).expect_err(&line.join(" ")).to_string();
            assert!(error.contains(said), "{line:?}: {error}");
            assert!(error.ends_with('.'), "{line:?}: {error}");
        }
    }

    /// Every option that the help names is known, and takes a value if it says so.
    #[test]
    fn the_help_names_no_option_that_there_is_not() {
        for (command, text) in [
            ("", help::PROGRAM),
            ("measure", help::MEASURE),
            ("compare", help::COMPARE),
            ("schema", help::SCHEMA),
        ] {
            let mut named = 0;
            for line in text.lines().filter(|l| l.trim_start().starts_with('-')) {
                let mut words = line.split_whitespace().map(|w| w.trim_end_matches(','));
                let options: Vec<_> = words.by_ref().take_while(|w| w.starts_with('-')).collect();
                let takes_value = options.contains(&"--letters")
                    || options.contains(&"--face")
                    || options.contains(&"--output");
                for option in options {
                    named += 1;
                    let mut asked = vec![command, option];
                    asked.retain(|word| !word.is_empty());
                    if takes_value {
                        asked.push("1");
                    }
                    if let Err(Wrong::Form(e)) = read(&asked) {
                        panic!("the help of `{command}` names {option}: {e}");
                    }
                }
            }
            assert!(named >= 2, "`{command}`");
        }
    }
}
