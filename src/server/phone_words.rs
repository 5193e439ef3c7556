//! Refusals as a phone can follow them: where a command names an option, the page names the field of its form.

/// What a refusal says to the keyboard, and to a page; the longer ones first.
const PHRASES: [(&str, &str); 6] = [
    (
        "name the dead one: podbook gone PIECE --died, or --all-pieces if all of them died",
        "record the dead one under “Gone” on the page of the plant",
    ),
    (
        "count the pods again, or replace the count with `podbook took … --again`",
        "count the pods again, and tick “In place of the count on record”",
    ),
    (
        "add --all-pieces if all of them did",
        "tick “All of its pieces went” if all of them did",
    ),
    (
        "add --again to replace that count",
        "tick “In place of the count on record”",
    ),
    ("such as --zone ", "such as "),
    ("name another zone with --zone", "name another “Zone”"),
];

/// Options, and how the label of their field begins.
const FIELDS: [(&str, &str); 11] = [
    ("--on", "Day"),
    ("--zone", "Zone"),
    ("--with", "Pollen"),
    ("--flowers", "Flowers treated"),
    ("--controls", "Controls"),
    ("--again", "In place of the count on record"),
    ("--why", "Why"),
    ("--to", "Who has it now"),
    ("--price", "Price"),
    ("--label", "Words on the tag it left with"),
    ("--all-pieces", "All of its pieces went"),
];

/// How a page calls a field of a form; the name it is sent under where no form shows it.
pub fn label(name: &str) -> &str {
    let of = |(option, _): &&(&str, &str)| option.strip_prefix("--") == Some(name);
    FIELDS.iter().find(of).map_or(name, |(_, label)| label)
}

/// The words of a refusal for a page.
pub fn for_a_page(refusal: &str) -> String {
    let mut words = without_command(refusal);
    for (typed, shown) in PHRASES {
        words = words.replace(typed, shown);
    }
    let is_of_option = |c: char| c.is_ascii_lowercase() || c == '-';
    let mut out = String::with_capacity(words.len());
    let mut left = words.as_str();
    while let Some(at) = left.find("--") {
        let (before, from) = left.split_at(at);
        let end = from.find(|c| !is_of_option(c)).unwrap_or(from.len());
        let (option, after) = from.split_at(end);
        out += before;
        match FIELDS.iter().find(|(of, _)| *of == option) {
            Some((_, label)) => out.extend(["“", label, "”"]),
            None => out += option,
        }
        left = after;
    }
    out + left
}

/// `podbook flower Ven1 --opened DATE` is a button of the page, with or without the date.
fn without_command(refusal: &str) -> String {
    const COMMAND: &str = "podbook flower ";
    const DATE: &str = " --opened DATE";
    let Some((before, after)) = refusal.split_once(COMMAND) else {
        return refusal.to_owned();
    };
    let end = after.find(|c: char| c.is_whitespace() || c == ';');
    let after = &after[end.unwrap_or(after.len())..];
    let after = after.strip_prefix(DATE).unwrap_or(after);
    format!("{before}“Flowered” on the page of the plant{after}")
}

#[cfg(test)]
mod tests {
    use super::{FIELDS, for_a_page};
    use crate::render::album::live::SCRIPT;

    #[test]
    fn fields_are_those_of_the_forms() {
        for (_, label) in FIELDS {
            assert!(SCRIPT.contains(&format!("\"{label}")), "{label}");
        }
    }

    #[test]
    fn options_are_fields() {
        for (typed, shown) in [
            (
                "give a later date with --on, or name another envelope",
                "give a later date with “Day”, or name another envelope",
            ),
            (
                "record the flowers first: podbook flower Ven1 --opened DATE",
                "record the flowers first: “Flowered” on the page of the plant",
            ),
            (
                "record its flowers: podbook flower Jac1",
                "record its flowers: “Flowered” on the page of the plant",
            ),
            (
                "name their zone with --zone, such as --zone upper",
                "name their zone with “Zone”, such as upper",
            ),
            (
                "--why belongs to --died, --culled and --lost",
                "“Why” belongs to --died, --culled and --lost",
            ),
            ("5 -- 3", "5 -- 3"),
        ] {
            assert_eq!(for_a_page(typed), shown);
        }
    }
}
