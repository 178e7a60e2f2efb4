// SPDX-License-Identifier: MIT
//! Names of files in commands that are there to be typed.

/// A file's name as a shell takes it.
#[must_use]
pub fn for_a_shell(name: &str) -> String {
    let name = if name.starts_with('-') { format!("./{name}") } else { name.to_owned() };
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '/' | '.' | '_' | '-' | '+' | ',' | '%' | '@' | ':');
    if !name.is_empty() && name.chars().all(plain) { name } else { format!("'{}'", name.replace('\'', r"'\''")) }
}
