//! The list of the program's parts for those who check them against lists of known holes: `CycloneDX`, an open standard.

use std::io::{self, Error};

use serde_json::{Value, json};

use crate::libraries::Library;

/// The list as JSON. It holds no date and no number of its own, so that the same parts give the same bytes.
pub(crate) fn text(libraries: &[Library]) -> io::Result<String> {
    let program = libraries.iter().find(|library| library.is_program()).ok_or_else(|| Error::other("no program"))?;
    let parts: Vec<Value> = libraries.iter().filter(|library| !library.is_program()).map(component).collect();
    let named = |id: &String| libraries.iter().find(|library| library.id == *id).map(address);
    let needs = |library: &Library| {
        let on: Vec<String> = library.needs.iter().filter_map(named).collect();
        json!({"ref": address(library), "dependsOn": on})
    };
    let all = json!({
        "$schema": "http://cyclonedx.org/schema/bom-1.5.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {"component": component(program)},
        "components": parts,
        "dependencies": libraries.iter().map(needs).collect::<Vec<_>>(),
    });
    Ok(format!("{}\n", serde_json::to_string_pretty(&all)?))
}

fn component(library: &Library) -> Value {
    let mut part = json!({
        "type": if library.is_program() { "application" } else { "library" },
        "bom-ref": address(library),
        "name": library.name,
        "version": library.version,
        "licenses": [{"expression": library.licence}],
        "purl": address(library),
    });
    if let Some(checksum) = &library.checksum {
        part["hashes"] = json!([{"alg": "SHA-256", "content": checksum}]);
    }
    part
}

fn address(library: &Library) -> String {
    format!("pkg:cargo/{}@{}", library.name, library.version)
}
