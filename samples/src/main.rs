//! Writes the demonstration face and the list of its faults into a folder.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use counterpoise_samples::{Error, clean, planted, postscript, redraw_svg, sketch_png, truetype};

#[expect(clippy::print_stderr, reason = "a command speaks on the terminal")]
fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("Say which folder the sample shall go to: counterpoise-samples FOLDER");
        return ExitCode::from(2);
    };
    match write(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("The sample was not made: {why}.");
            ExitCode::FAILURE
        }
    }
}

fn write(folder: &Path) -> Result<(), Error> {
    std::fs::create_dir_all(folder)?;
    let clean = clean();
    let (planted, faults) = planted()?;
    let list = serde_json::to_string_pretty(&faults).map_err(std::io::Error::from)?;
    std::fs::write(folder.join("sample.ttf"), truetype(&planted)?)?;
    std::fs::write(folder.join("sample.otf"), postscript(&planted)?)?;
    std::fs::write(folder.join("sample-clean.ttf"), truetype(&clean)?)?;
    std::fs::write(folder.join("sample-clean.otf"), postscript(&clean)?)?;
    std::fs::write(folder.join("faults.json"), list + "\n")?;
    std::fs::write(folder.join("R-redraw.svg"), redraw_svg()?)?;
    std::fs::write(folder.join("R-sketch.png"), sketch_png()?)?;
    Ok(())
}
