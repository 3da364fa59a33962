//! What the command says of itself.

/// Where to read on, after wrong arguments.
pub(crate) const POINTER: &str = "See `counterpoise --help`.";

/// `counterpoise --help`.
pub(crate) const PROGRAM: &str = "\
Counterpoise measures the letters of fonts on their outlines: strokes, heights,
widths and more. Fonts are only read, and nothing leaves this computer.

Usage:
  counterpoise measure PATH...   measure the fonts in files and folders
  counterpoise compare OLD NEW   say what changed between two revisions
  counterpoise spacing FONT      say what spacing and kerning stand out, and
                                 suggest bearings and kerns
  counterpoise schema            print the JSON Schema of what `--json` writes

Options:
  -h, --help       say this; after a command, say more of that command
  -V, --version    say the version

Examples:
  counterpoise measure MyFont.otf
  counterpoise measure MyFont.otf --letters HOno
  counterpoise measure fonts/ --all --json --output measures.json
";

/// `counterpoise measure --help`.
pub(crate) const MEASURE: &str = "\
Measures the letters of fonts.

Usage:
  counterpoise measure PATH... [options]

  PATH   A font file (.otf, .ttf, .otc, .ttc, .woff, .woff2), or a folder.
         Folders are searched with all that is in them for fonts, which are
         known by their ending or by their first bytes. Hidden files and links
         to folders are left out.

Which letters:
  --letters TEXT   measure the characters of TEXT, each once
  --all            measure every glyph
                   Without either: A to Z, a to z, 0 to 9.
  --face N         of a file that holds several faces, measure the Nth
                   Without it: the first, 1.

What to write:
  --json           one JSON document with every measure, instead of a table
  --pretty         with --json: indented, for people to read
  -o, --output FILE
                   write to FILE, not to the terminal; it is put in place only
                   when it is complete

  -h, --help       say this

The table is in font units, but for the contrast, which is a ratio. What each
figure means stands in the JSON document, under \"quantities\".

Exit codes:
  0   all was measured
  1   something could not be read; the rest was measured
  2   the arguments cannot be followed; nothing was done
  3   the result could not be written

What could not be read is told in a sentence on standard error, and stands in
the document too.

Examples:
  counterpoise measure MyFont.otf
  counterpoise measure MyFont.otf --letters HOno
  counterpoise measure Family.ttc --face 2 --all
  counterpoise measure fonts/ --json --output measures.json
";

/// `counterpoise compare --help`.
pub(crate) const COMPARE: &str = "\
Says what changed between two revisions of a font: which letters, by how many
units, which came and went, and what became of each finding.

Usage:
  counterpoise compare OLD NEW [options]

  OLD, NEW   font files (.otf, .ttf, .otc, .ttc, .woff, .woff2): the earlier
             revision, then the later one. Letters are matched by code point,
             then by name.

  --face N         of files that hold several faces, compare the Nth
  --json           one JSON document with every outline, moved part and figure
  --pretty         with --json: indented, for people to read
  -o, --output FILE
                   write to FILE, not to the terminal
  -h, --help       say this

A move is the greatest distance between the two outlines, in units of the later
revision, within a fiftieth of one. Findings are those that one letter of a
sound alphabet would show by chance.

Exit codes:
  0   the two were compared
  1   one of them could not be read
  2   the arguments cannot be followed; nothing was done
  3   the result could not be written
";

/// `counterpoise spacing --help`.
pub(crate) const SPACING: &str = "\
Says which pairs of a font the white between them shows to be kerned too little,
too much or the wrong way, and suggests side bearings first, then the fewest
kerns for what is left.

Usage:
  counterpoise spacing FONT [options]

  --letters TEXT   read the characters of TEXT, each once
                   Without it: letters and the commonest signs. Figures stand
                   in columns, which kerning would break.
  --tolerance N    bring white within N font units of the middle
                   Without it: a hundredth of the em.
  --face N         of a file that holds several faces, read the Nth
  --json           one JSON document: sides, kerning, findings, suggestion
  --pretty         with --json: indented, for people to read
  --features       the suggested kerns as an OpenType feature file
  -o, --output FILE
                   write to FILE, not to the terminal
  -h, --help       say this

Exit codes:
  0   the spacing was read
  1   the font could not be read
  2   the arguments cannot be followed; nothing was done
  3   the result could not be written
";

/// `counterpoise schema --help`.
pub(crate) const SCHEMA: &str = "\
Prints the JSON Schema (draft 2020-12) of a document that `--json` writes.

Usage:
  counterpoise schema [measures|spacing] [-o FILE]

  measures            of `counterpoise measure --json`; so without either
  spacing             of `counterpoise spacing --json`

  -o, --output FILE   write to FILE, not to the terminal
  -h, --help          say this
";
