//! The libraries that are in the program for one system, as Cargo resolves them.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Error};
use std::path::PathBuf;
use std::process::Command;

use serde_json::Value;

/// The program's own package.
const PROGRAM: &str = "maulstick";

/// A package that is in the program.
#[derive(Debug)]
pub(crate) struct Library {
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) version: String,
    /// Its licence as an SPDX expression.
    pub(crate) licence: String,
    /// Who wrote it, as its package says.
    pub(crate) authors: Vec<String>,
    /// The folder of its sources.
    pub(crate) folder: PathBuf,
    /// SHA-256 of its package in the registry; what is in this repository has none.
    pub(crate) checksum: Option<String>,
    /// The ids of the libraries that it builds on.
    pub(crate) needs: Vec<String>,
}

impl Library {
    /// Whether it is the program itself.
    pub(crate) fn is_program(&self) -> bool {
        self.name == PROGRAM
    }
}

/// The program and all libraries that are linked into it, by name and version; what only tests or builds use is left out.
pub(crate) fn of(target: &str) -> io::Result<Vec<Library>> {
    let asked = ["metadata", "--locked", "--format-version", "1", "--filter-platform", target];
    let answer = Command::new("cargo").args(asked).output()?;
    if !answer.status.success() {
        return Err(Error::other(String::from_utf8_lossy(&answer.stderr)));
    }
    let metadata: Value = serde_json::from_slice(&answer.stdout)?;
    let checksums = checksums(&std::fs::read_to_string("Cargo.lock")?);
    let needs = needs(&metadata);
    let packages = list(&metadata["packages"]);
    let program = packages.iter().find(|package| package["name"] == PROGRAM).ok_or_else(|| Error::other(PROGRAM))?;
    let linked = reached(&text(&program["id"]), &needs);
    let mut found: Vec<Library> = packages
        .iter()
        .filter(|package| linked.contains(&text(&package["id"])))
        .map(|package| library(package, &needs, &checksums))
        .collect();
    found.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    Ok(found)
}

fn library(
    package: &Value,
    needs: &BTreeMap<String, Vec<String>>,
    checksums: &BTreeMap<(String, String), String>,
) -> Library {
    let (id, name, version) = (text(&package["id"]), text(&package["name"]), text(&package["version"]));
    let manifest = PathBuf::from(text(&package["manifest_path"]));
    Library {
        licence: text(&package["license"]).replace('/', " OR ").replace("  ", " "),
        authors: list(&package["authors"]).iter().map(text).collect(),
        folder: manifest.parent().map(PathBuf::from).unwrap_or_default(),
        checksum: checksums.get(&(name.clone(), version.clone())).cloned(),
        needs: needs.get(&id).cloned().unwrap_or_default(),
        id,
        name,
        version,
    }
}

/// For every package what it builds on, tests and builds left out.
fn needs(metadata: &Value) -> BTreeMap<String, Vec<String>> {
    let linked = |need: &&Value| list(&need["dep_kinds"]).iter().any(|kind| kind["kind"].is_null());
    let of = |node: &Value| list(&node["deps"]).iter().filter(linked).map(|need| text(&need["pkg"])).collect();
    list(&metadata["resolve"]["nodes"]).iter().map(|node| (text(&node["id"]), of(node))).collect()
}

fn reached(from: &str, needs: &BTreeMap<String, Vec<String>>) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut open = vec![from.to_owned()];
    while let Some(id) = open.pop() {
        if found.insert(id.clone()) {
            open.extend(needs.get(&id).into_iter().flatten().cloned());
        }
    }
    found
}

/// SHA-256 of every package by name and version, from the text of a lock file.
fn checksums(lock: &str) -> BTreeMap<(String, String), String> {
    let value = |package: &str, key: &str| {
        let start = format!("{key} = \"");
        package.lines().find_map(|line| line.strip_prefix(&start)?.strip_suffix('"').map(str::to_owned))
    };
    let one =
        |package: &str| Some(((value(package, "name")?, value(package, "version")?), value(package, "checksum")?));
    lock.split("[[package]]").filter_map(one).collect()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}
