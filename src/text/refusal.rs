//! Why the system refused, in words a grower knows: no error numbers, no names of temporary files.

use std::io;

/// What the system said, without any path or number: "permission denied", "no space left on device".
pub fn system_words(fault: &io::Error) -> String {
    match fault.kind() {
        io::ErrorKind::PermissionDenied => return "permission denied".to_owned(),
        io::ErrorKind::NotFound => return "no such file or directory".to_owned(),
        _ => {}
    }
    let told = fault.to_string();
    let told = told.split(" at path \"").next().unwrap_or(&told);
    let told = told.split(" (os error").next().unwrap_or(told);
    // Some systems end their words as a sentence.
    let told = told.trim_end().trim_end_matches('.');
    let mut letters = told.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}
