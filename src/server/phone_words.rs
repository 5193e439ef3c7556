//! Refusals as a phone can follow them: where a command names an option, the page names the field of its form.

/// What a refusal says to the keyboard, and to a page; the longer ones first.
const PHRASES: [(&str, &str); 34] = [
    (
        "run the command again when it has",
        "send this again when it has",
    ),
    ("and run the command again", "and send this again"),
    ("or --place PLACE", "or fill in “Place”"),
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
    (
        "name it with --spike, or record another one with --opened as well",
        "name it under “Spike”, or record another one first as “its first flower, opened that day”",
    ),
    (
        "record it with --opened as well",
        "record it first as “its first flower, opened that day”",
    ),
    (
        "--opened, --over or --sex",
        "“What you saw”, or “Sex the open flowers show”",
    ),
    (
        "--one-of with at least two plants, such as --one-of ",
        "it under “Pollen”, such as ",
    ),
    (
        "leave out --place, then say which piece stands there: podbook move PIECE PLACE",
        "fill in “Piece”, or leave “Place” empty",
    ),
    (
        "if that is another spike, say when you first saw it as well: --seen DATE",
        "if that is another one, record it first as “a new spike, still closed”, then name it there",
    ),
    (
        "to give it another day: --spike ",
        "to give it another day, fill in “Spike”: ",
    ),
    (
        "add --again if this is another pot",
        "tick “One more pot like one on record of that day” if this is another pot",
    ),
    (
        "add --up 12 for all that came up so far, or --standing 12 for those alive now",
        "fill in “Came up so far” or “Alive now”",
    ),
    (
        ": `podbook undo`, or `on` of the zone in its page",
        " at the computer",
    ),
    (
        "are of a zone of their own: podbook pollinate",
        "are of a zone of their own, recorded under “Pollinated” on the page of the plant",
    ),
    (
        "record its seed first: podbook harvest",
        "record its seed first under “Harvested”",
    ),
    ("take it back (`podbook undo`)", "take it back"),
    ("such as --with ", "such as "),
    ("--died, --culled", "died, culled"),
    (" and --lost", " and lost"),
    ("--sold and --given", "sold and given"),
    (
        "see `podbook list crosses`, and `podbook show` with the code of one",
        "look under Crosses",
    ),
    ("see `podbook list`", "look under Plants"),
    (
        "`podbook changes` lists what podbook has changed",
        "“Recorded last” under Record shows the last ones",
    ),
    (
        "record an opinion: `podbook opinion`",
        "record an opinion at the computer",
    ),
    (
        "first: `podbook harvest`, or `pods` on its page",
        "first, at the computer",
    ),
    (
        " (without --on `podbook add` writes the day it is typed)",
        "",
    ),
    (
        "undo the later changes first, or correct the record by hand",
        "undo the later changes first, or correct the record at the computer",
    ),
    (
        "what became of the other pieces: podbook gone",
        "what became of the other pieces under “Gone”",
    ),
    ("such as --zone ", "such as "),
    ("name another zone with --zone", "name another “Zone”"),
];

/// Options, and how the label of their field begins.
const FIELDS: [(&str, &str); 26] = [
    ("--on", "Day"),
    ("--opened", "Day"),
    ("--over", "Day"),
    ("--seen", "Day"),
    ("--one-of", "Pollen"),
    ("--mixed", "Pollen, mixed"),
    ("--zone", "Zone"),
    ("--spike", "Spike"),
    ("--with", "Pollen"),
    ("--flowers", "Flowers treated"),
    ("--controls", "Controls"),
    ("--again", "In place of the count on record"),
    ("--why", "Why"),
    ("--to", "Who has it now"),
    ("--price", "Price"),
    ("--label", "Words on the tag it left with"),
    ("--all-pieces", "All of its pieces went"),
    ("--capsules", "Capsules"),
    ("--seeds", "Seeds"),
    ("--stored", "How the seed is kept"),
    ("--container", "Sown in"),
    ("--up", "Came up so far"),
    ("--standing", "Alive now"),
    ("--left", "Seedlings left behind"),
    ("--no-longer", "Take the mark off"),
    ("--pot", "Pot each goes into"),
];

/// How a page calls a field of a form; the name it is sent under where no form shows it.
pub fn label(name: &str) -> &str {
    let of = |(option, _): &&(&str, &str)| option.strip_prefix("--") == Some(name);
    FIELDS.iter().find(of).map_or(name, |(_, label)| label)
}

/// Events, and what their buttons say.
const EVENTS: [(&str, &str); 21] = [
    ("flower", "Flowered"),
    ("collect", "Pollen collected"),
    ("pollinate", "Pollinated"),
    ("took", "Flowers that set"),
    ("keep", "To keep"),
    ("gone", "Gone"),
    ("back", "Came back"),
    ("cutting", "Piece taken"),
    ("rooted", "Rooted"),
    ("pot", "Potted"),
    ("move", "Moved"),
    ("seen", "Looked for"),
    ("treat", "Treated"),
    ("muddle", "Muddled"),
    ("harvest", "Harvested"),
    ("sow", "Sown"),
    ("count", "Counted"),
    ("prick", "Pricked out"),
    ("number", "Numbered"),
    ("measure", "Measured"),
    ("photos", "Photo"),
];

/// The command of a change as a page says it: the event as its button has it, options as the fields of its form. What the page
/// sent along behind a `#` stays.
pub fn of_change(asked: &str) -> String {
    let (command, sent) = asked.split_at(asked.find(" # ").unwrap_or(asked.len()));
    let mut said: Vec<&str> = Vec::new();
    let mut is_quoted = false;
    for (at, word) in command.split(' ').enumerate() {
        let option = FIELDS.iter().find(|(of, _)| *of == word);
        let event = EVENTS.iter().find(|(of, _)| at == 0 && *of == word);
        said.push(match option.or(event) {
            _ if is_quoted => word,
            Some((_, label)) => label,
            None => word.strip_prefix("--").unwrap_or(word),
        });
        is_quoted ^= word.matches('\'').count() % 2 == 1;
    }
    said.join(" ") + sent
}

/// Advice that ends in a command which no page records, and what a page says in place of it.
const ADVICE: [(&str, &str); 6] = [
    (
        "seedlings that were added to it: podbook prick ",
        "record seedlings that were added to it at the computer",
    ),
    (
        "seed that came to you is its own: podbook add-seed ",
        "seed that came to you is its own, recorded at the computer",
    ),
    ("record it first: podbook ", "record it first"),
    (
        "record that first: podbook seen ",
        "record that first, at the computer",
    ),
    (
        "if it stands elsewhere now: podbook move ",
        "if it stands elsewhere now, record that at the computer",
    ),
    (
        "record that you saw it: podbook seen ",
        "record at the computer that you saw it",
    ),
];

/// The words of a refusal for a page.
pub fn for_a_page(refusal: &str) -> String {
    let mut words = without_command(refusal);
    for (typed, shown) in ADVICE {
        if let Some((before, command)) = words.split_once(typed) {
            let after = command.find([';', '\n']).map_or("", |end| &command[end..]);
            words = format!("{before}{shown}{after}");
        }
    }
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

/// What an undoing says to a page: what it took back, without the options of its command, and that Undo stands beside it.
pub fn undone(recorded: &str) -> Option<String> {
    let (number, rest) = recorded
        .strip_prefix("Undid change ")?
        .split_once(": podbook ")?;
    let (command, _) = rest.rsplit_once(". To have it back: ")?;
    let (command, sent) = command.split_once(" #").unwrap_or((command, ""));
    let command = command.split(" -").next().unwrap_or(command);
    // “Found dead” on a row of a sitting: the readings of the row are a change of their own.
    let found_dead = command
        .strip_prefix("measure ")
        .filter(|_| sent.contains("line=dead"));
    let end = found_dead.map(|plant| format!("the end of {plant}"));
    let command = end.as_deref().unwrap_or(command);
    Some(format!(
        "Undid change {number}: {command}. Undo brings it back"
    ))
}

/// `podbook flower Ven1 --opened DATE` is a button of the page, with or without the date; a sex is a field of its form.
fn without_command(refusal: &str) -> String {
    const COMMAND: &str = "podbook flower ";
    const DATE: &str = " --opened DATE";
    const SEXES: [&str; 2] = [" --sex female", " --sex male"];
    let Some((before, after)) = refusal.split_once(COMMAND) else {
        return refusal.to_owned();
    };
    let end = after.find(|c: char| c.is_whitespace() || c == ';');
    let after = &after[end.unwrap_or(after.len())..];
    let after = after.strip_prefix(DATE).unwrap_or(after);
    let (sex, after) = match SEXES.into_iter().find_map(|sex| after.strip_prefix(sex)) {
        Some(after) => (", with “Sex the open flowers show”", after),
        None => ("", after),
    };
    format!("{before}“Flowered” on the page of the plant{sex}{after}")
}

#[cfg(test)]
mod tests {
    use super::{FIELDS, for_a_page, undone};
    use crate::render::album::live::SCRIPT;

    #[test]
    fn fields_are_those_of_the_forms() {
        for (_, label) in FIELDS {
            assert!(SCRIPT.contains(&format!("\"{label}")), "{label}");
        }
    }

    #[test]
    fn an_undoing_is_told_without_its_command() {
        let told = undone(
            "Undid change 7: podbook measure X24-02-9 --traits span --on 2025-06-01 # line=dead. To have it back: podbook undo 8",
        );
        let words = "Undid change 7: the end of X24-02-9. Undo brings it back";
        assert_eq!(told.as_deref(), Some(words));
        let told = undone(
            "Undid change 7: podbook measure X24-02-9 --traits span --on 2025-06-01 # line=9. To have it back: podbook undo 8",
        );
        let words = "Undid change 7: measure X24-02-9. Undo brings it back";
        assert_eq!(told.as_deref(), Some(words));
        assert_eq!(undone("X24-02-9: died"), None);
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
                "record its flowers: podbook flower Max1 --sex female",
                "record its flowers: “Flowered” on the page of the plant, with “Sex the open flowers show”",
            ),
            (
                "more than one piece fits: Ven1-a, Ven1-b\nleave out --place, then say which piece stands there: podbook move PIECE PLACE",
                "more than one piece fits: Ven1-a, Ven1-b\nfill in “Piece”, or leave “Place” empty",
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
                "“Why” belongs to died, culled and lost",
            ),
            (
                "--to belongs to --sold and --given; not over: 25a, 25b; name it with --spike",
                "“Who has it now” belongs to sold and given; not over: 25a, 25b; record at the computer which one it is",
            ),
            (
                "there is no plant `Vn9`\nsee `podbook list`",
                "there is no plant `Vn9`\nlook under Plants",
            ),
            (
                "--opened 2027-01-01 is in the future",
                "“Day” 2027-01-01 is in the future",
            ),
            ("5 -- 3", "5 -- 3"),
        ] {
            assert_eq!(for_a_page(typed), shown);
        }
    }
}
