//! The trial's results as JSON, as a table in words and as a picture.

use crate::trial::{Outcome, Trial};
use anyhow::Result;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

pub(crate) fn write(trial: &Trial, folder: &Path) -> Result<()> {
    fs::write(
        folder.join("trial.json"),
        serde_json::to_string_pretty(trial)? + "\n",
    )?;
    fs::write(folder.join("trial.md"), table(trial))?;
    fs::write(folder.join("trial.svg"), picture(trial))?;
    Ok(())
}

fn size(o: &Outcome) -> String {
    match o.size {
        s if s >= 1.0 => "all of it".into(),
        s => format!("{:.0}%", s * 100.0),
    }
}

fn table(trial: &Trial) -> String {
    let mut out = format!(
        "# The planted-fault trial\n\n\
         Written by `cargo lab-trial`. {} families, {} faces, none of them fitted; seed {}.\n\
         A fault is planted in one letter at a time, either way; intervals are 95% bootstrap over families.\n\
         Recall is at one false alarm of the cause per 52 sound letters, over all faces and, beside it, in the very face.\n\
         The plain rule holds a figure against the median of its class. What the columns are is told in `src/trial.rs`.\n\n\
         ![areas under the curve](trial.svg)\n\n\
         ## Letters\n\n",
        trial.families, trial.faces, trial.seed
    );
    rows(&mut out, &trial.faults);
    out.push_str(
        "\n## Figures and the &\n\n\
         The same faults in these; a false alarm is one of them too.\n\n",
    );
    rows(&mut out, &trial.figures);
    out + &limits(trial)
}

fn rows(out: &mut String, outcomes: &[Outcome]) {
    out.push_str(
        "| fault | size | letters | AUC | recall | in the face | among first three | smallest found 9 in 10 | plain AUC | plain recall | worst letters (AUC) |\n\
         |---|---|---|---|---|---|---|---|---|---|---|\n",
    );
    for o in outcomes {
        let smallest = o
            .smallest_found
            .map_or("none tried".into(), |s| format!("{:.1}%", s * 100.0));
        let _ = writeln!(
            out,
            "| {} | {} | {} | {:.3} ({:.3} to {:.3}) | {:.3} ({:.3} to {:.3}) | {:.3} | {:.3} | {smallest} | {:.3} | {:.3} | {} |",
            o.fault,
            size(o),
            o.letters,
            o.auc,
            o.auc_interval[0],
            o.auc_interval[1],
            o.recall,
            o.recall_interval[0],
            o.recall_interval[1],
            o.recall_in_face,
            o.top3,
            o.plain_auc,
            o.plain_recall,
            o.worst,
        );
    }
}

/// What the designs themselves leave to be found.
fn limits(trial: &Trial) -> String {
    let mut out = "\n## How far good designs themselves differ\n\n\
         The size of a fault as it is read off a letter, beside how far the same figure lies from nought in the \
         sound letters of families never fitted, given all that the rest of their font says (one robust spread, \
         the middle letter's). Ratios in percent, heights and white in thousandths of the cap height. Were the \
         scatter normal, no method with these expectations could reach more than the area and the recall told as \
         normal. It has heavier tails: what it leaves as letters are drawn, each held against sound ones of its own \
         kind, stands beside it; ours may be a little more, since it also knows how loosely each face is drawn. How it is worked out: `src/limit.rs`.\n\n\
         | fault | size | moves the figure by | spread of sound letters | area if normal | as drawn | ours | recall if normal | as drawn | ours | chosen most freely |\n\
         |---|---|---|---|---|---|---|---|---|---|---|\n"
        .to_owned();
    for o in &trial.faults {
        let told = |v: f64| match o.ratio {
            true => format!("{:.1}%", 100.0 * v),
            false => format!("{:.1}", 1000.0 * v),
        };
        let freest = o.freest.iter().map(|&(c, v)| format!("{c} {}", told(v)));
        let _ = writeln!(
            out,
            "| {} | {} | {} | {} | {:.3} | {:.3} | {:.3} | {:.3} | {:.3} | {:.3} | {} |",
            o.fault,
            size(o),
            told(o.moves),
            told(o.spread),
            o.limit_auc,
            o.as_drawn.0,
            o.auc,
            o.limit_recall,
            o.as_drawn.1,
            o.recall,
            freest.collect::<Vec<_>>().join(", "),
        );
    }
    out
}

/// A row a fault: the plain rule's area as a ring, ours as a dot with its interval.
fn picture(trial: &Trial) -> String {
    const ROW: usize = 26;
    let x = |auc: f64| 250.0 + (auc.clamp(0.5, 1.0) - 0.5) * 2.0 * 420.0;
    let height = 60 + ROW * trial.faults.len();
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 720 {height}\" font-family=\"sans-serif\" font-size=\"12\">\n\
         <rect width=\"720\" height=\"{height}\" fill=\"white\"/>\n"
    );
    for tick in [0.5, 0.6, 0.7, 0.8, 0.9, 1.0] {
        let _ = writeln!(
            out,
            "<line x1=\"{0:.1}\" x2=\"{0:.1}\" y1=\"30\" y2=\"{1}\" stroke=\"#ddd\"/><text x=\"{0:.1}\" y=\"22\" text-anchor=\"middle\">{tick:.1}</text>",
            x(tick),
            height - 26
        );
    }
    for (i, o) in trial.faults.iter().enumerate() {
        let y = 46 + ROW * i;
        let _ = writeln!(
            out,
            "<text x=\"240\" y=\"{}\" text-anchor=\"end\">{}, {}</text>\
             <line x1=\"{:.1}\" x2=\"{:.1}\" y1=\"{y}\" y2=\"{y}\" stroke=\"black\"/>\
             <circle cx=\"{:.1}\" cy=\"{y}\" r=\"4\"/>\
             <circle cx=\"{:.1}\" cy=\"{y}\" r=\"4\" fill=\"white\" stroke=\"black\"/>",
            y + 4,
            o.fault,
            size(o),
            x(o.auc_interval[0]),
            x(o.auc_interval[1]),
            x(o.auc),
            x(o.plain_auc)
        );
    }
    let _ = writeln!(
        out,
        "<text x=\"250\" y=\"{}\">area under the curve; dot: the lab, with its interval; ring: the plain rule</text>\n</svg>",
        height - 8
    );
    out
}
