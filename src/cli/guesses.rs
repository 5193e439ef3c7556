//! Commands a newcomer may guess, and the one that answers what they meant.

/// The guesses under the command they stand for, with what it does beyond the guess where that needs saying.
const GUESSES: [(&str, &str); 60] = [
    ("new", "begin create setup start make"),
    ("check", "validate lint test doctor faults errors status"),
    ("due", "todo tasks calendar agenda reminders jobs upcoming"),
    ("list", "plants crosses pods seedlings ls all inventory"),
    ("show", "info view get plant cross history details"),
    (
        "add",
        "arrive arrived acquire buy bought founder clone receive",
    ),
    ("add-seed", "seed seeds packet"),
    ("add-pollen", "pollen-arrived"),
    ("flower", "spike sex flowered opened"),
    ("collect", "envelope anthers"),
    ("finish", "used empty discard"),
    ("pollinate", "dust pollination"),
    ("took", "set swell swollen"),
    ("harvest", "pod capsule capsules"),
    ("sow", "sown sowing"),
    ("count", "germinate germinated up alive"),
    ("prick", "prick-out transplant"),
    ("number", "label-seedlings potup individual"),
    ("pot", "repot pot-on pot-up"),
    ("move", "place mv"),
    ("cutting", "cut clone-of propagate divide division ramet"),
    ("rooted", "root roots struck"),
    (
        "gone",
        "died dead die death sold sell give given lost remove delete rm culled kill killed trade traded gift ship",
    ),
    ("keep", "mark hold keeper"),
    ("muddle", "muddled swap swapped mixup mix-up mixed"),
    (
        "treat",
        "spray treatment pest pests water feed fertilise fertilize",
    ),
    ("note", "remark comment"),
    ("opinion", "identify identification rename id"),
    ("seen", "stocktake stock-take stock audit"),
    ("correct", "fix edit change amend update note notes"),
    ("registration", "register cultivar registry-form"),
    ("import", "bring-in spreadsheet xlsx load migrate convert"),
    ("merge", "take-in takein receive accept join"),
    ("back", "return returned came-back"),
    ("undo", "revert rollback"),
    ("changes", "log journal changelog"),
    ("photos", "photo pictures picture images camera phone"),
    ("sheet", "worksheet form"),
    ("measure", "enter readings record"),
    ("find", "search grep where lookup"),
    ("read", "parse label decode"),
    ("name", "formula names"),
    ("epithet", "cultivar"),
    (
        "pedigree",
        "tree lineage ancestors descendants ancestry descent draw father mother children offspring family",
    ),
    (
        "export",
        "csv spreadsheet passport mcpd json excel xlsx dump",
    ),
    ("card", "listing sale offer advert"),
    ("tags", "tag labels sticker stickers qr print"),
    (
        "parentage",
        "shares parents species fractions composition percent",
    ),
    ("kinship", "kin related relationship inbreeding coi"),
    (
        "siblings",
        "stats statistics summary summarise summarize describe compare traits",
    ),
    ("growth", "grow survival germination size"),
    ("variation", "spread variance variability vary"),
    ("grade", "sort sizes fast slow"),
    ("select", "rank choose cull best pick selection index"),
    ("merit", "value values heritability blup"),
    ("ready", "open flowering flowers bloom pollen now"),
    ("pair", "cross-check mate predict hybridise hybridize"),
    (
        "album",
        "html web website site pages publish gallery browse",
    ),
    ("serve", "server browser lan"),
    ("plan", "season schedule optimise optimize crossings"),
];

/// The command meant by a word that is none.
pub fn meant(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase();
    GUESSES
        .iter()
        .find(|(_, guesses)| guesses.split(' ').any(|guess| guess == word))
        .map(|(verb, _)| *verb)
}

/// Every guess.
pub fn guessed() -> impl Iterator<Item = &'static str> {
    GUESSES.iter().flat_map(|(_, guesses)| guesses.split(' '))
}

/// What a word or option that a command does not take was meant for, and how that is written.
const INSTEAD: [(&str, &str, &str); 9] = [
    (
        "add",
        "",
        "put the code in one word, then the name in quotes: podbook add Ven1 \"N. ventricosa\"",
    ),
    ("move", "--on", "a place has no day: leave --on out"),
    (
        "list",
        "",
        "list takes no code: podbook list --cross X24-01 for the seedlings of a cross, podbook show X24-01-7 for one plant",
    ),
    (
        "count",
        "",
        "write --up and all that came up so far, or --standing and those alive now",
    ),
    (
        "new",
        "--hemisphere",
        "set `hemisphere` in registry.ron of the new registry: north or south",
    ),
    (
        "new",
        "--genus",
        "set `genus` in registry.ron of the new registry",
    ),
    (
        "keep",
        "--undo",
        "`podbook undo` takes the last change back, `podbook keep PLANT --no-longer` the mark",
    ),
    (
        "muddle",
        "--undo",
        "`podbook undo` takes the last change back; --settled says that it is known again which is which",
    ),
    (
        "gone",
        "--undo",
        "`podbook undo` takes the last change back, or any by its number: `podbook changes` lists them",
    ),
];

/// How that is written which was meant by a word or option that a command does not take; an empty word stands for any
/// that is no option.
pub fn instead(verb: &str, found: &str) -> Option<&'static str> {
    let is = |(of, word, _): &&(&str, &str, &str)| {
        let any = word.is_empty() && !found.starts_with('-');
        *of == verb && (any || *word == found)
    };
    INSTEAD.iter().find(is).map(|(_, _, hint)| *hint)
}
