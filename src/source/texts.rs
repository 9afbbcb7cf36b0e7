//! A YAML file that holds nothing but texts below nested keys, such as a theme's words.

use std::collections::BTreeMap;

use super::node::{Node, NodeValue};
use super::yaml;
use crate::report::{FileId, Finding, Placed};

/// Reads such a file; keys are joined with dots, as in `nav.paints`. What is not a text is left out.
///
/// # Errors
/// A finding where the text is not YAML.
pub fn flat_texts(text: &str, file: FileId) -> Result<BTreeMap<String, Placed<String>>, Box<Finding>> {
    let mut entries = BTreeMap::new();
    gather("", &yaml::parse(text, file, 0)?, &mut entries);
    Ok(entries)
}

fn gather(path: &str, node: &Node, entries: &mut BTreeMap<String, Placed<String>>) {
    match &node.value {
        NodeValue::Text(text) => {
            entries.insert(path.to_owned(), Placed::new(text.clone(), node.place));
        }
        NodeValue::Map(pairs) => {
            for (key, value) in pairs {
                let inner = if path.is_empty() { key.value.clone() } else { format!("{path}.{}", key.value) };
                gather(&inner, value, entries);
            }
        }
        NodeValue::Empty | NodeValue::List(_) => {}
    }
}
