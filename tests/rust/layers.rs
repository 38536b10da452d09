//! The floors of the core: a module uses modules of its own floor and of those below, never of one above.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The floors from the ground up. A module that is not here has no place yet: give it one.
const FLOORS: [&[&str]; 13] = [
    &["units"],
    &["figures"],
    &["noise", "stats", "geometry", "text", "run"],
    &["hole"],
    &["course", "player"],
    &["flight", "ground", "putting", "situation", "rules"],
    &["setting"],
    &["shot"],
    &["plan"],
    &["simulate", "solve"],
    &["around", "rank"],
    &["explain", "round", "review", "practice", "fit"],
    &["io", "error"],
];

fn floor(module: &str) -> usize {
    FLOORS
        .iter()
        .position(|floor| floor.contains(&module))
        .unwrap_or_else(|| {
            panic!("module {module} has no floor; give it one in tests/rust/layers.rs")
        })
}

/// Every source file with the top module it belongs to; `lib.rs` belongs to none.
fn sources() -> Vec<(String, PathBuf)> {
    fn visit(folder: &Path, top: Option<&str>, found: &mut Vec<(String, PathBuf)>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let stem = path.file_stem().unwrap().to_str().unwrap().to_owned();
            if path.is_dir() {
                visit(&path, Some(top.unwrap_or(&stem)), found);
            } else if path.extension().is_some_and(|e| e == "rs")
                && (top.is_some() || stem != "lib")
            {
                found.push((top.unwrap_or(&stem).to_owned(), path));
            }
        }
    }
    let mut found = Vec::new();
    visit(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        None,
        &mut found,
    );
    found.sort();
    found
}

/// The text without its line comments: links in documentation may point upward.
fn code(text: &str) -> String {
    let without = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    text.lines().map(without).collect::<Vec<_>>().join("\n")
}

/// The top modules that a piece of code names as `crate::module` or in `crate::{module, other::Thing}`.
fn named(code: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (start, path) in code.match_indices("crate::") {
        if code[..start].ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == '$') {
            continue;
        }
        let rest = &code[start + path.len()..];
        match rest.strip_prefix('{') {
            Some(group) => found.extend(top_names(group)),
            None => found.extend(identifier(rest)),
        }
    }
    found
}

/// The first names of the entries of a group of imports, up to its closing brace.
fn top_names(group: &str) -> Vec<String> {
    let (mut names, mut depth, mut entry) = (Vec::new(), 0, String::new());
    for c in group.chars() {
        match c {
            '}' if depth == 0 => break,
            ',' if depth == 0 => names.extend(identifier(std::mem::take(&mut entry).trim())),
            '{' => depth += 1,
            '}' => depth -= 1,
            _ if depth == 0 => entry.push(c),
            _ => {}
        }
    }
    names.extend(identifier(entry.trim()));
    names
}

fn identifier(text: &str) -> Option<String> {
    let name: String = text
        .chars()
        .take_while(|c| c.is_alphanumeric() || *c == '_')
        .collect();
    (!name.is_empty()).then_some(name)
}

/// Which top modules each top module uses.
fn uses() -> BTreeMap<String, BTreeSet<String>> {
    let mut uses: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (module, path) in sources() {
        let named = named(&code(&fs::read_to_string(&path).unwrap()));
        let others = named.into_iter().filter(|other| *other != module);
        uses.entry(module.clone()).or_default().extend(others);
    }
    uses
}

#[test]
fn no_module_uses_one_above_it() {
    let uses = uses();
    assert!(uses.len() >= 13, "the sources were not found: {uses:?}");
    for (module, others) in &uses {
        for other in others {
            assert!(
                floor(other) <= floor(module),
                "{module} is below {other} and must not use it"
            );
        }
    }
}

#[test]
fn no_two_modules_use_each_other() {
    fn reach(uses: &BTreeMap<String, BTreeSet<String>>, from: &str, seen: &mut BTreeSet<String>) {
        for next in uses.get(from).into_iter().flatten() {
            if seen.insert(next.clone()) {
                reach(uses, next, seen);
            }
        }
    }
    let uses = uses();
    for module in uses.keys() {
        let mut seen = BTreeSet::new();
        reach(&uses, module, &mut seen);
        assert!(
            !seen.contains(module),
            "{module} uses itself by way of {seen:?}"
        );
    }
}

#[test]
fn a_top_module_does_not_reach_out_by_way_of_super() {
    // In a file that is a whole top module `super` is the crate, but for the `use super::*` of its tests.
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for (module, path) in sources() {
        let in_root =
            path.parent() == Some(&src) || path.file_name().is_some_and(|name| name == "mod.rs");
        let nested =
            path.parent().and_then(Path::parent) != Some(&src) && path.parent() != Some(&src);
        if in_root && !nested {
            let text = code(&fs::read_to_string(&path).unwrap()).replace("use super::*;", "");
            assert!(
                !text.contains("super::"),
                "{module}: {} reaches out by way of super",
                path.display()
            );
        }
    }
}

#[test]
fn the_core_knows_no_python() {
    for (_, path) in sources() {
        let text = fs::read_to_string(&path).unwrap();
        assert!(
            !text.contains("pyo3") && !text.contains("numpy::"),
            "{} knows Python",
            path.display()
        );
    }
}

#[test]
fn the_reader_of_imports_reads_them() {
    let text = "
        //! [`crate::rank`] in a comment
        use crate::geometry::{Point, Vector};
        use crate::{hole::{Hole, Surface}, noise, rules::Drop};
        pub(crate) fn f() { crate::units::feet(1.0); my_crate::other(); $crate::x!(); } // crate::io
    ";
    let found: Vec<String> = named(&code(text)).into_iter().collect();
    assert_eq!(found, ["geometry", "hole", "noise", "rules", "units"]);
}
