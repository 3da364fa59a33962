//! What is unusual about a face: its axes, the positions that have a name, and
//! what the person is to know before they judge it.

use crate::characters;
use crate::names::name;
use crate::report::{AxisReport, FaceReport, InstanceReport, StopReport};
use crate::sfnt::Tables;
use crate::still::forms;
use read_fonts::tables::fvar::{Fvar, VariationAxisRecord};
use read_fonts::tables::stat::Stat;
use read_fonts::{FontData, FontRead};

/// More axes than anyone has drawn; the tables that vary grow with them.
pub(crate) const MOST_AXES: usize = 64;

/// Named positions that are told; a font with more is damaged, or nobody reads on.
const MOST_INSTANCES: usize = 256;

const COLOUR: &str = "This is a colour font. Its letters are measured and judged by their plain \
                      outlines: the colours are not looked at.";
const COLOUR_BITMAPS: &str = "This font holds pictures of its letters beside their outlines; the \
                              outlines are what is measured.";

/// The axes of a face that varies; `None` for one that stands still, or whose
/// axes cannot be read.
pub(crate) fn fvar<'a>(tables: &'a Tables<'_>) -> Option<(Fvar<'a>, &'a [VariationAxisRecord])> {
    let fvar = Fvar::read(FontData::new(tables.get(b"fvar")?)).ok()?;
    let axes = fvar.axes().ok()?;
    let sound = |a: &VariationAxisRecord| {
        a.min_value() <= a.default_value() && a.default_value() <= a.max_value()
    };
    (!axes.is_empty() && axes.len() <= MOST_AXES && axes.iter().all(sound)).then_some((fvar, axes))
}

/// Tells what is unusual about a face.
pub(crate) fn report(tables: &Tables<'_>) -> FaceReport {
    let mut report = FaceReport::default();
    if let Some((fvar, axes)) = fvar(tables) {
        report.axes = axes.iter().map(|axis| told(tables, axis)).collect();
        stops(tables, axes, &mut report.axes);
        report.instances = instances(tables, &fvar, axes.len());
        report.notes.extend(forms::note(tables));
    } else if tables.has(b"fvar") {
        report.notes.push(
            "The axes of this variable font cannot be read; it stands where it was drawn."
                .to_owned(),
        );
    }
    let outlines = [b"glyf", b"CFF ", b"CFF2"]
        .into_iter()
        .any(|t| tables.has(t));
    if tables.has(b"COLR") || tables.has(b"SVG ") {
        report.notes.push(COLOUR.to_owned());
    } else if outlines
        && [b"CBDT", b"EBDT", b"sbix"]
            .into_iter()
            .any(|t| tables.has(t))
    {
        report.notes.push(COLOUR_BITMAPS.to_owned());
    }
    report
        .notes
        .extend(characters::note(tables).map(str::to_owned));
    report
}

fn told(tables: &Tables<'_>, axis: &VariationAxisRecord) -> AxisReport {
    const HIDDEN: u16 = 1;
    let tag = axis.axis_tag().to_string();
    AxisReport {
        name: name(tables, axis.axis_name_id()).unwrap_or_else(|| tag.clone()),
        tag,
        min: axis.min_value().to_f64(),
        default: axis.default_value().to_f64(),
        max: axis.max_value().to_f64(),
        hidden: axis.flags() & HIDDEN != 0,
        stops: Vec::new(),
    }
}

/// Values with a name, from the STAT table.
fn stops(tables: &Tables<'_>, axes: &[VariationAxisRecord], told: &mut [AxisReport]) {
    let stat = tables
        .get(b"STAT")
        .and_then(|t| Stat::read(FontData::new(t)).ok());
    let Some(stat) = stat else { return };
    let (Ok(design), Some(Ok(values))) = (stat.design_axes(), stat.offset_to_axis_values()) else {
        return;
    };
    for value in values.axis_values().iter().take(MOST_INSTANCES).flatten() {
        let axis = value.axis_index().and_then(|i| design.get(usize::from(i)));
        let at = axis.and_then(|a| axes.iter().position(|f| f.axis_tag() == a.axis_tag()));
        if let (Some(at), Some(place), Some(name)) =
            (at, value.value(), name(tables, value.value_name_id()))
        {
            let axis = &mut told[at];
            let value = place.to_f64();
            if (axis.min..=axis.max).contains(&value) && axis.stops.iter().all(|s| s.value != value)
            {
                axis.stops.push(StopReport { value, name });
            }
        }
    }
    for axis in told {
        axis.stops.sort_by(|a, b| a.value.total_cmp(&b.value));
    }
}

fn instances(tables: &Tables<'_>, fvar: &Fvar<'_>, axes: usize) -> Vec<InstanceReport> {
    let Ok(records) = fvar.instances() else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for record in records.iter().take(MOST_INSTANCES).flatten() {
        let position: Vec<f64> = record
            .coordinates
            .iter()
            .map(|c| c.get().to_f64())
            .collect();
        if position.len() == axes
            && let Some(name) = name(tables, record.subfamily_name_id)
        {
            all.push(InstanceReport { name, position });
        }
    }
    all
}
