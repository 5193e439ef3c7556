//! Why the system refused, in words a grower knows: no error numbers, no names of temporary files.

use std::io;

/// What the system said, without any path or number: "permission denied", "no space left on device".
pub fn system_words(fault: &io::Error) -> String {
    if fault.kind() == io::ErrorKind::PermissionDenied {
        return "permission denied".to_owned();
    }
    let told = fault.to_string();
    let told = told.split(" at path \"").next().unwrap_or(&told);
    let told = told.split(" (os error").next().unwrap_or(told);
    let mut letters = told.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}
