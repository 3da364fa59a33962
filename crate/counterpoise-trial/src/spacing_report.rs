//! Writes the trial of spacing: `spacing.json` for machines, `spacing.md` for people.

use crate::spacing::Outcome;
use anyhow::Result;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

pub(crate) fn write(outcome: &Outcome, here: &Path) -> Result<()> {
    fs::write(
        here.join("spacing.json"),
        serde_json::to_string_pretty(outcome)? + "\n",
    )?;
    let text = text(outcome)?;
    eprint!("{text}");
    fs::write(here.join("spacing.md"), text)?;
    Ok(())
}

fn text(o: &Outcome) -> Result<String> {
    let mut md = String::new();
    writeln!(md, "# The trial of spacing\n")?;
    writeln!(
        md,
        "Written by `cargo lab-trial spacing`. {} families, {} upright faces, none of them fitted.\n\
         What the columns are is told in `src/spacing.rs`.\n",
        o.families, o.faces
    )?;
    writeln!(md, "## Moved by 15% and found\n")?;
    writeln!(
        md,
        "| side | where 15% is at least, 1/1000 em | bearings moved | AUC |"
    )?;
    writeln!(md, "|---|---|---|---|")?;
    for f in &o.found {
        writeln!(
            md,
            "| {} | {:.0} | {} | {:.3} |",
            f.side, f.moved_by_at_least, f.moved, f.auc
        )?;
    }
    writeln!(
        md,
        "\n## Stripped and suggested anew: median distance from the designer's own, 1/1000 em\n"
    )?;
    writeln!(
        md,
        "From the control letters the learned rule is nearer than the handbook in {} of {} families.\n",
        o.nearer_than_handbook, o.families
    )?;
    writeln!(
        md,
        "| family | handbook, its sides | control letters, the same sides | control letters, all sides | shapes alone, one value added |"
    )?;
    writeln!(md, "|---|---|---|---|---|")?;
    let middle = [("**median of families**", &o.middle)];
    let all = o.by_family.iter().map(|(name, a)| (name.as_str(), a));
    for (name, a) in middle.into_iter().chain(all) {
        writeln!(
            md,
            "| {name} | {:.1} | {:.1} | {:.1} | {:.1} |",
            a.handbook, a.controls_there, a.controls, a.shapes
        )?;
    }
    Ok(md)
}
