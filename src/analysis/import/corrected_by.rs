//! What puts a record right: a command, with the code of its plant, or an edit of a page; `…` for what only the grower knows.

/// For a reading on record; `reading` is what the sheet says, empty for not read, and `on` the day of its sitting.
pub(super) fn correct(plant: &str, of: &str, reading: &str, on: &str) -> String {
    // Signs that a shell would take for its own are left to the grower.
    let is_plain = !reading.contains(['"', '\\', '$', '`', '!']);
    let reading = if is_plain { reading } else { "…" };
    format!("podbook correct {plant} {of} \"{reading}\" --on \"{on}\"")
}

/// For a reading that is not on record.
pub(super) fn measure(plant: &str, of: &str) -> String {
    format!("podbook measure {plant} --traits {of} --on …")
}

/// For seedlings that are up of a sowing, or of the cross that has only one.
pub(super) fn count(of: &str, up: u32, on: Option<&str>) -> String {
    format!("podbook count {of} --up {up}{}", day_option(on))
}

/// For the sex.
pub(super) fn flower(plant: &str) -> String {
    format!("podbook flower {plant} --sex …")
}

/// For the place.
pub(super) fn moving(plant: &str) -> String {
    format!("podbook move {plant} …")
}

/// For the pot.
pub(super) fn pot(plant: &str) -> String {
    format!("podbook pot {plant} …")
}

/// For the name it was received with.
pub(super) fn name(plant: &str) -> String {
    format!(
        "edit clones.ron if the name as received was copied wrongly; for a name you know better now: podbook opinion {plant} \"…\""
    )
}

/// For what no command changes.
pub(super) fn page(path: &str) -> String {
    format!("edit {path}")
}

/// An option of a command that takes a number.
pub(super) fn option(name: &str, number: Option<u32>) -> String {
    number.map_or_else(String::new, |number| format!(" --{name} {number}"))
}

/// The day of a command, which would be today's if it were left out.
pub(super) fn day_option(on: Option<&str>) -> String {
    format!(" --on \"{}\"", on.unwrap_or("…"))
}
