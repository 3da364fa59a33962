//! A drawing written anew with its shapes alone.
//!
//! What is not on the list of elements is not written, nor are handlers of
//! events and references to anything but the drawing's own parts. Colours that
//! are references (gradients, patterns) become black: ink is ink. Before that,
//! depth, entities, numbers, elements and points are held to their bounds, each use of a
//! part counted as if it were written out.

use super::reach::{largest, too_far};
use crate::{DrawingError, Note};
use std::collections::{BTreeSet, HashMap};
use usvg::roxmltree::{Document, Node, ParsingOptions};

/// Elements that are written. All others are left out with what they hold.
const SHAPES: [&str; 14] = [
    "svg", "g", "a", "switch", "defs", "symbol", "use", "style", "path", "rect", "circle",
    "ellipse", "line", "polyline",
];
const POLYGON: &str = "polygon";

/// A drawing's entities: drawing programs write some names of namespaces so.
const MAX_ENTITIES: usize = 64;
const MAX_ENTITY: usize = 512;

/// A drawing with its shapes alone.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Cleaned {
    pub(super) text: String,
    /// `data-units-per-em` and `data-advance` of the root.
    pub(super) own: Option<(f64, f64)>,
    /// The root's viewBox.
    pub(super) view_box: Option<[f64; 4]>,
    pub(super) notes: BTreeSet<u8>,
}

/// The notes that are gathered while cleaning, in the order told.
const NOTES: [Note; 5] = [
    Note::Script,
    Note::Outside,
    Note::Picture,
    Note::Text,
    Note::Effects,
];

impl Cleaned {
    pub(super) fn notes(&self) -> Vec<Note> {
        let of = |&i: &u8| NOTES.get(usize::from(i)).cloned();
        self.notes.iter().filter_map(of).collect()
    }
}

pub(super) fn clean(text: &str) -> Result<Cleaned, DrawingError> {
    if text.len() > DrawingError::MAX_BYTES {
        return Err(DrawingError::TooLarge);
    }
    if text.trim().is_empty() {
        return Err(DrawingError::Empty);
    }
    check_depth(text)?;
    check_entities(text)?;
    let options = ParsingOptions {
        allow_dtd: true,
        // An element, its text and the white between elements are nodes.
        nodes_limit: 3 * DrawingError::MAX_ELEMENTS as u32,
        ..ParsingOptions::default()
    };
    let document = Document::parse_with_options(text, options).map_err(|e| match e {
        usvg::roxmltree::Error::NodesLimitReached => DrawingError::TooManyElements,
        usvg::roxmltree::Error::EntityReferenceLoop(_) => DrawingError::Entities,
        e => DrawingError::NotXml(e.to_string()),
    })?;
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        return Err(DrawingError::NotSvg);
    }
    Cost::of(&document).check(root)?;
    let mut cleaned = Cleaned {
        own: own(root),
        view_box: root.attribute("viewBox").and_then(view_box),
        ..Cleaned::default()
    };
    if document.root().children().any(|n| n.is_pi()) {
        cleaned.notes.insert(1);
    }
    write(root, &mut cleaned);
    Ok(cleaned)
}

/// Elements within elements, counted on the text itself: a parser that calls
/// itself for each must not meet a hundred thousand.
pub(crate) fn check_depth(text: &str) -> Result<(), DrawingError> {
    let bytes = text.as_bytes();
    let (mut depth, mut at) = (0usize, 0usize);
    while let Some(open) = bytes[at..].iter().position(|&b| b == b'<') {
        at += open + 1;
        let rest = &text.as_bytes()[at..];
        let skip = |end: &[u8]| rest.windows(end.len()).position(|w| w == end);
        match rest.first() {
            Some(b'!') if rest.starts_with(b"!--") => at += skip(b"-->").unwrap_or(rest.len()),
            Some(b'!') if rest.starts_with(b"![CDATA[") => at += skip(b"]]>").unwrap_or(rest.len()),
            Some(b'/') => depth = depth.saturating_sub(1),
            Some(b'!' | b'?') | None => {}
            Some(_) => {
                let end = end_of_tag(rest);
                if end == 0 || rest[end - 1] != b'/' {
                    depth += 1;
                }
                at += end;
            }
        }
        if depth > DrawingError::MAX_DEPTH {
            return Err(DrawingError::TooDeep);
        }
    }
    Ok(())
}

/// Where a tag's `>` is, quoted ones passed over.
fn end_of_tag(rest: &[u8]) -> usize {
    let mut quote = None;
    for (i, &b) in rest.iter().enumerate() {
        match (quote, b) {
            (None, b'>') => return i,
            (None, b'"' | b'\'') => quote = Some(b),
            (Some(q), b) if q == b => quote = None,
            _ => {}
        }
    }
    rest.len()
}

/// Entities may stand for a few plain words, and for nothing else.
fn check_entities(text: &str) -> Result<(), DrawingError> {
    let mut count = 0;
    for declared in text.split("<!ENTITY").skip(1) {
        count += 1;
        let end = declared.find('>').ok_or(DrawingError::Entities)?;
        let declared = &declared[..end];
        let outside = declared.contains("SYSTEM") || declared.contains("PUBLIC");
        if count > MAX_ENTITIES
            || declared.len() > MAX_ENTITY
            || outside
            || declared.contains(['&', '%'])
        {
            return Err(DrawingError::Entities);
        }
    }
    if count > 0 {
        // However short, an entity's text is written once for each use.
        let uses = text.matches('&').count();
        if uses.saturating_mul(MAX_ENTITY) > DrawingError::MAX_BYTES {
            return Err(DrawingError::Entities);
        }
    }
    Ok(())
}

/// What a node costs with all that it holds and uses.
#[derive(Debug, Clone, Copy)]
struct Spent {
    elements: usize,
    points: usize,
    depth: usize,
}

/// What a drawing costs when each use of a part is written out.
struct Cost<'a, 'input> {
    parts: HashMap<&'a str, Node<'a, 'input>>,
    known: HashMap<usize, Spent>,
}

impl<'a, 'input> Cost<'a, 'input> {
    fn of(document: &'a Document<'input>) -> Self {
        let parts = document
            .descendants()
            .filter_map(|n| Some((n.attribute("id")?, n)))
            .collect();
        Self {
            parts,
            known: HashMap::new(),
        }
    }

    fn check(&mut self, root: Node<'a, 'input>) -> Result<(), DrawingError> {
        self.spent(root, 0).map(drop)
    }

    /// The cost of a node. A part that uses itself is too deep.
    fn spent(&mut self, node: Node<'a, 'input>, above: usize) -> Result<Spent, DrawingError> {
        if above > DrawingError::MAX_DEPTH {
            return Err(DrawingError::TooDeep);
        }
        let key = node.id().get_usize();
        let known = self.known.get(&key).copied();
        let spent = match known {
            Some(known) => known,
            None => self.add_up(node, above)?,
        };
        if above + spent.depth > DrawingError::MAX_DEPTH {
            return Err(DrawingError::TooDeep);
        }
        self.known.insert(key, spent);
        Ok(spent)
    }

    fn add_up(&mut self, node: Node<'a, 'input>, above: usize) -> Result<Spent, DrawingError> {
        if too_far(node) {
            return Err(DrawingError::TooFar);
        }
        let numbers = |name| node.attribute(name).map_or(0, count_numbers);
        let mut all = Spent {
            elements: 1,
            points: (numbers("d") + numbers("points")) / 2 + curves(node),
            depth: 1,
        };
        let used = (node.tag_name().name() == "use")
            .then(|| reference(node))
            .flatten()
            .and_then(|id| self.parts.get(id).copied());
        for next in node.children().filter(|n| n.is_element()).chain(used) {
            let part = self.spent(next, above + 1)?;
            all.elements += part.elements;
            all.points += part.points;
            all.depth = all.depth.max(1 + part.depth);
            if all.elements > DrawingError::MAX_ELEMENTS {
                return Err(DrawingError::TooManyElements);
            }
        }
        if all.points > DrawingError::MAX_POINTS {
            return Err(DrawingError::TooManyPoints);
        }
        Ok(all)
    }
}

/// The part of the drawing itself that an element refers to.
fn reference<'a>(node: Node<'a, '_>) -> Option<&'a str> {
    let href = node.attributes().find(|a| a.name() == "href")?.value();
    href.trim().strip_prefix('#')
}

fn count_numbers(text: &str) -> usize {
    let mut count = 0;
    let mut inside = false;
    for b in text.bytes() {
        let digit = b.is_ascii_digit();
        count += usize::from(digit && !inside);
        // "1.5.5-2" holds three numbers; counting two or four changes no bound.
        inside = digit || b == b'.' && inside;
    }
    count
}

/// How many curves the reader of SVG makes of an element's arcs: the more, the
/// larger they are, by the sixth root of the radius over its tolerance of a
/// tenth.
fn curves(node: Node<'_, '_>) -> usize {
    let most = |names: &[&str]| {
        let texts = names.iter().filter_map(|name| node.attribute(*name));
        texts.map(largest).fold(0.0, f64::max)
    };
    let (arcs, radius) = match node.tag_name().name() {
        "circle" | "ellipse" | "rect" => (1, most(&["r", "rx", "ry", "width", "height"])),
        "path" => {
            let data = node.attribute("d").unwrap_or_default();
            let arcs = data.bytes().filter(|b| b.eq_ignore_ascii_case(&b'a'));
            (arcs.count(), largest(data))
        }
        _ => return 0,
    };
    let each = (10.0 * radius).powf(1.0 / 6.0).ceil() as usize;
    arcs * each.max(4)
}

fn own(root: Node<'_, '_>) -> Option<(f64, f64)> {
    let number = |name: &str| root.attribute(name)?.parse::<f64>().ok();
    let (units, advance) = (number("data-units-per-em")?, number("data-advance")?);
    ((16.0..=16384.0).contains(&units) && advance.is_finite()).then_some((units, advance))
}

fn view_box(text: &str) -> Option<[f64; 4]> {
    let numbers: Vec<f64> = text
        .split([' ', ',', '\n', '\t'])
        .filter(|t| !t.is_empty())
        .map(|t| t.parse().ok())
        .collect::<Option<_>>()?;
    numbers.try_into().ok()
}

fn write(node: Node<'_, '_>, out: &mut Cleaned) {
    let name = node.tag_name().name();
    if !SHAPES.contains(&name) && name != POLYGON {
        match name {
            "script" | "foreignObject" => out.notes.insert(0),
            "image" => out.notes.insert(2),
            "text" => out.notes.insert(3),
            "clipPath" | "mask" | "filter" | "marker" | "pattern" => out.notes.insert(4),
            _ => false,
        };
        return;
    }
    out.text.push('<');
    out.text.push_str(name);
    if node.parent().is_none_or(|p| p.is_root()) {
        out.text.push_str(" xmlns=\"http://www.w3.org/2000/svg\"");
    }
    for attribute in node.attributes() {
        let (key, value) = (attribute.name(), attribute.value());
        if key.get(..2).is_some_and(|on| on.eq_ignore_ascii_case("on")) {
            out.notes.insert(0);
            continue;
        }
        match key {
            "href" if name == "use" && value.trim().starts_with('#') => {}
            "href" | "src" | "base" => {
                out.notes.insert(1);
                continue;
            }
            "clip-path" | "mask" | "filter" | "marker" | "marker-start" | "marker-mid"
            | "marker-end" => {
                if value.trim() != "none" {
                    out.notes.insert(4);
                }
                continue;
            }
            _ => {}
        }
        out.text.push(' ');
        out.text.push_str(key);
        out.text.push_str("=\"");
        let value = without_references(value, &mut out.notes);
        escape(&value, &mut out.text);
        out.text.push('"');
    }
    out.text.push('>');
    if name == "style" {
        let sheet: String = node.children().filter_map(|n| n.text()).collect();
        if sheet.contains("@import") {
            out.notes.insert(1);
        }
        let sheet = without_references(&sheet, &mut out.notes);
        escape(&sheet, &mut out.text);
    }
    for child in node.children().filter(|n| n.is_element()) {
        write(child, out);
    }
    out.text.push_str("</");
    out.text.push_str(name);
    out.text.push('>');
}

/// Style text with every `url(...)` made black: as a colour it is ink, elsewhere
/// it is no value and is passed over.
fn without_references(text: &str, notes: &mut BTreeSet<u8>) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find("url(") {
        out.push_str(&rest[..at]);
        out.push_str("black");
        let inside = &rest[at + 4..];
        let end = inside.find(')').map_or(inside.len(), |e| e + 1);
        if !inside[..end]
            .trim_start_matches(['"', '\'', ' '])
            .starts_with('#')
        {
            notes.insert(1);
        }
        rest = &inside[end..];
    }
    out.push_str(rest);
    out
}

fn escape(text: &str, out: &mut String) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '"' => out.push_str("&quot;"),
            c => out.push(c),
        }
    }
}
