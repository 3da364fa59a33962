//! Property lists as UFO uses them: XML, with dictionaries, arrays, strings,
//! numbers and truth values.

use super::xml;
use crate::DrawingError;
use usvg::roxmltree::Node;

/// A value of a property list.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    /// Keys with values, in order.
    Dict(Vec<(String, Value)>),
    /// Values.
    Array(Vec<Value>),
    /// Text; dates and data too, which nobody here reads.
    Text(String),
    /// A number.
    Number(f64),
    /// A truth value.
    Bool(bool),
}

impl Value {
    pub(super) fn get(&self, key: &str) -> Option<&Self> {
        match self {
            Self::Dict(all) => all.iter().find(|(k, _)| k == key).map(|(_, v)| v),
            _ => None,
        }
    }

    pub(super) fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(super) fn number(&self) -> Option<f64> {
        match self {
            Self::Number(n) => Some(*n).filter(|n| n.is_finite()),
            _ => None,
        }
    }
}

/// Reads a property list; `name` is the file's, for the sentence.
pub(super) fn parse(text: &str, name: &str) -> Result<Value, DrawingError> {
    let broken = |_: String| DrawingError::BrokenUfo(name.to_owned());
    let document = xml::parse(text, broken)?;
    let root = document.root_element();
    let first = root.children().find(|n| n.is_element());
    match (root.tag_name().name(), first) {
        ("plist", Some(first)) => value(first).ok_or_else(|| broken(String::new())),
        _ => Err(broken(String::new())),
    }
}

fn value(node: Node<'_, '_>) -> Option<Value> {
    let text = || node.text().unwrap_or_default().to_owned();
    let mut children = node.children().filter(|n| n.is_element());
    Some(match node.tag_name().name() {
        "dict" => {
            let mut all = Vec::new();
            while let Some(key) = children.next() {
                if key.tag_name().name() != "key" {
                    return None;
                }
                let of = children.next()?;
                all.push((key.text().unwrap_or_default().to_owned(), value(of)?));
            }
            Value::Dict(all)
        }
        "array" => Value::Array(children.map(value).collect::<Option<_>>()?),
        "integer" | "real" => Value::Number(text().trim().parse().ok()?),
        "true" => Value::Bool(true),
        "false" => Value::Bool(false),
        "string" | "date" | "data" => Value::Text(text()),
        _ => return None,
    })
}
