//! What is recorded is read back as it was said, and what is asked for is found. Each story is played on a copy of the demo.

use crate::answers::play;

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
type Story = &'static [(&'static str, &'static str)];

/// Numbers, controls, units: what was said stands in the answer.
const OF_NUMBERS: &[Story] = &[
    // A guess is read back as one, and a packet is no pod with a count of its own.
    &[
        (
            "add-seed \"maxima x veitchii\" --seeds 25 --estimated --code X25-01",
            "about 25 seeds",
        ),
        ("show X25-01", "not: 25 0"),
        ("show X25-01.L1", "about 25"),
    ],
    &[
        (
            "pollinate Ven1-b --with Spa1 --zone A --flowers 8 --on 2025-01-14",
            "X25-01.A",
        ),
        (
            "took X25-01.A 5 --controls 1/4 --on 2025-01-30",
            "5 of 8 flowers set, 1 of 4 control flowers set, counted on 2025-01-30",
        ),
        (
            "harvest X25-01.A --seeds 180 --estimated",
            "about 180 seeds",
        ),
    ],
    // A reading that was put right keeps the unit of its column.
    &[
        (
            "measure X22-02-1 --traits span --on 2025-05-20",
            "not: nothing",
        ),
        (
            "correct X22-02-1 span \"7 1/8 in\" --on 2025-05-10",
            "now 7 1/8 in",
        ),
    ],
    // Readings are counted as readings, not as plants.
    &[(
        "select X18-01 --weigh span=1",
        "left out at other ages 1 reading flagged for pests",
    )],
];

/// What would be on record twice is asked about.
const OF_TWICE: &[Story] = &[
    &[
        (
            "add-seed \"N. maxima\" --seeds 100 --code X25-01 --on 2025-01",
            "X25-01",
        ),
        (
            "sow X25-01 --seeds 10 --place bench --on 2025-02-01",
            "X25-01.S1",
        ),
        (
            "sow X25-01 --seeds 10 --place bench --on 2025-02-01",
            "X25-01.S1 is already on record with the same seed, number, day and place",
        ),
        (
            "sow X25-01 --seeds 10 --place bench --on 2025-02-01 --again",
            "X25-01.S2",
        ),
        // Another place, another number: another pot.
        (
            "sow X25-01 --seeds 10 --place shelf --on 2025-02-01",
            "X25-01.S3",
        ),
        (
            "sow X25-01 --seeds 12 --place bench --on 2025-02-01",
            "X25-01.S4",
        ),
        // More than twice what stood in a pot is a slip, or another pot.
        ("prick X25-01.S1 8 --on 2025-04-20", "X25-01.T1"),
        (
            "count X25-01.T1 --standing 18 --on 2025-05-01",
            "18 is more than there are: 10 seeds sown in X25-01.S1",
        ),
        ("count X25-01.T1 --standing 8 --on 2025-05-01", "8 alive"),
    ],
    // An undo that is undone says what stands again.
    &[
        ("keep X22-02-3", "marked to keep"),
        ("undo", "To have it back: podbook undo 2"),
        (
            "undo 2",
            "change 1 stands again: podbook keep X22-02-3. To take it back: podbook undo 3",
        ),
    ],
];

/// Spikes with their codes and ends.
const OF_SPIKES: &[Story] = &[&[
    ("flower Ven1-b --opened 2025-05-14", "25a"),
    ("flower Ven1-b --over 2025-05-20", "over on 2025-05-20"),
    ("show Ven1", "opened 2025-05-14 not seen b 2025-05-20 25a"),
    ("find 25a", "Ven1 founder spike 25a"),
    (
        "flower Ven1-b --over 2025-05-25",
        "spike 25a of Ven1-b is on record as over on 2025-05-20 already to give it another day: --spike 25a",
    ),
    ("flower Ven1-b --over 2025-05-25 --spike 25a", "25a"),
]];

/// Plants that a stock-take did not find.
const OF_STOCK_TAKES: &[Story] = &[
    // One that is moved by its code was seen; one that is moved with all of a shelf was not.
    &[
        (
            "seen --place \"shelf 1\" --except X22-02-5 --on 2025-05-30",
            "not found: X22-02-5",
        ),
        (
            "list --place \"shelf 1\"",
            "a stock-take did not find 1 of them",
        ),
        ("move --place \"shelf 1\" bench", "not: seen"),
        ("show X22-02-5", "not found on 2025-05-30"),
        ("move X22-02-5 \"shelf 3\"", "recorded as seen today"),
        ("show X22-02-5", "status in the collection"),
        ("list --place \"shelf 3\"", "not: a stock-take"),
    ],
    // So does a treatment of the plant itself.
    &[
        (
            "seen X22-02-5 --except X22-02-5 --on 2025-05-30",
            "X22-02-5: not found on 2025-05-30",
        ),
        ("treat X22-02-5 soap --on 2025-05-31", "soap"),
        ("show X22-02-5", "not: not found"),
    ],
];

/// Pieces of a seedling that stand where the plant does, or elsewhere.
const OF_PIECES: &[Story] = &[&[
    ("move X22-02-3 \"shelf x\"", "shelf x"),
    ("cutting X22-02-3 --on 2025-05-01", "X22-02-3-b"),
    ("tags --place \"shelf x\" --format json", "not: X22-02-3-b"),
    ("tags --place \"shelf x\" --format json", "X22-02-3-a"),
    ("move X22-02-3-b window", "window"),
    (
        "move X22-02-3 \"shelf z\"",
        "X22-02-3-b has a place on record and did not move",
    ),
]];

/// Words that were misread, and codes that name something else.
const OF_SLIPS: &[Story] = &[&[
    (
        "add ven 1 \"N. x\"",
        "`N. x` is one word too many put the code in one word, then the name in quotes",
    ),
    ("list X18-01", "podbook list --cross"),
    ("list X18-01", "not: not a podbook command"),
    ("move X23-02 bench", "not: did you mean"),
    ("move X18-01-99 bench", "did you mean X18-01-9"),
    (
        "select X18-01.S1 X15-02.S1 --weigh span=1",
        "2 sowings: keep",
    ),
    ("select X18-01 X15-02 --weigh span=1", "2 crosses: keep"),
    (
        "pollinate Ven1-b --mixed Spa1 --mixed Ram1 --zone C --on 2025-05-16",
        "a mixture of Spa1 and Ram1",
    ),
    (
        "pollinate Ven1-b --one-of Spa1 --one-of Ram1 --zone D --on 2025-05-16",
        "pollinated with Spa1 or Ram1",
    ),
    // What set no pod has no one father of a pod.
    ("name X25-02", "not: whole pod"),
    ("show X22-02-5", "photos 1, 2025-05-10: photos/X22-02-5.jpg"),
    (
        "promised",
        "1 plant left with its description on record; it would read the same today",
    ),
]];

#[test]
fn numbers_are_read_back_as_they_were_said() {
    play(OF_NUMBERS);
}

#[test]
fn what_is_on_record_already_is_asked_about() {
    play(OF_TWICE);
}

#[test]
fn a_spike_is_found_by_its_code() {
    play(OF_SPIKES);
}

#[test]
fn a_plant_that_was_seen_again_is_found() {
    play(OF_STOCK_TAKES);
}

#[test]
fn a_piece_stays_where_it_is_on_record() {
    play(OF_PIECES);
}

#[test]
fn slips_are_answered_with_the_way() {
    play(OF_SLIPS);
}
