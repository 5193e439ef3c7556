//! Plants that are mixed up: what was seen before belongs to one of them, what was seen after to the pot with the tag.

use crate::answers::play;

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
type Story = &'static [(&'static str, &'static str)];

const OF_SEX: &[Story] = &[
    // A female and a male: neither pot is either for sure, until its own flowers show it. Then it follows which is which.
    &[
        ("flower X22-02-7 --sex female --opened 2025-02-01", "female"),
        ("flower X22-02-8 --sex male --opened 2025-02-01", "male"),
        ("muddle X22-02-7 X22-02-8 --on 2025-03-01", "mixed up"),
        (
            "show X22-02-7",
            "sex female or male: mixed up with X22-02-8 since 2025-03-01",
        ),
        (
            "card X22-02-8",
            "sex female or male: mixed up with X22-02-7 since 2025-03-01",
        ),
        ("list plants --sex female", "not: X22-02-7"),
        (
            "pair X22-02-7 Spa1",
            "the sex of X22-02-7 is not known: mixed up",
        ),
        ("export plants", "female or male: mixed up"),
        ("cutting X22-02-7", "X22-02-7-b"),
        ("card X22-02-7-b", "not: seen on open flowers"),
        (
            "pollinate X22-02-7 --with Spa1 --zone a --flowers 2 --on 2025-03-05 --dry-run",
            "The sex of X22-02-7 is not known (mixed up with X22-02-8 since 2025-03-01)",
        ),
        (
            "flower X22-02-7 --sex male --opened 2025-05-20",
            "Before X22-02-7 and X22-02-8 were mixed up, only X22-02-8 had shown male flowers: so the pot tagged X22-02-7 is the plant that was X22-02-8; to settle: podbook muddle X22-02-7 X22-02-8 --settled --tags-swapped says what to correct",
        ),
        (
            "collect X22-02-7",
            "pollen of X22-02-7, collected on 2025-06-01",
        ),
        (
            "pollinate Ven1 --with X22-02-7 --zone a --flowers 2",
            "pollinated with X22-02-7",
        ),
        ("show X22-02-7", "sex male mixed up with X22-02-8"),
        ("show X22-02-8", "sex female or male: mixed up"),
        (
            "flower X22-02-8 --sex female --opened 2025-05-20",
            "so the pot tagged X22-02-8 is the plant that was X22-02-7",
        ),
    ],
    // Where the pot shows what its own tag said, the tag is right.
    &[
        ("flower X22-02-7 --sex female --opened 2025-02-01", "female"),
        ("flower X22-02-8 --sex male --opened 2025-02-01", "male"),
        ("muddle X22-02-7 X22-02-8 --on 2025-03-01", "mixed up"),
        (
            "flower X22-02-7 --sex female --opened 2025-05-20",
            "so the pot tagged X22-02-7 is that plant: its tag is right",
        ),
    ],
    // All showed the same: that stands, and the other sex is refused.
    &[
        ("flower X22-02-7 --sex female --opened 2025-02-01", "female"),
        ("flower X22-02-8 --sex female --opened 2025-02-01", "female"),
        ("muddle X22-02-7 X22-02-8 --on 2025-03-01", "mixed up"),
        ("show X22-02-7", "sex female mixed up"),
        (
            "flower X22-02-7 --sex male --opened 2025-05-20",
            "its open flowers were female",
        ),
        (
            "flower X22-02-7 --sex female --opened 2025-05-20",
            "not: so the pot",
        ),
    ],
    // One never flowered: the sex of both is open, and nothing follows from what a pot shows.
    &[
        ("flower X22-02-7 --sex female --opened 2025-02-01", "female"),
        ("muddle X22-02-7 X22-02-8 --on 2025-03-01", "mixed up"),
        ("show X22-02-7", "sex female or male: mixed up"),
        ("show X22-02-8", "sex female or male: mixed up"),
        (
            "flower X22-02-8 --sex female --opened 2025-05-20",
            "not: so the pot",
        ),
        ("show X22-02-8", "sex female mixed up"),
    ],
    // A spike that was open at the mix-up is left as it was seen; the flowers of the pot are another one.
    &[
        (
            "flower X22-02-7 --sex female --opened 2025-05-10",
            "spike 25a",
        ),
        ("flower X22-02-8 --sex male --opened 2025-05-10", "male"),
        ("muddle X22-02-7 X22-02-8 --on 2025-05-20", "mixed up"),
        ("flower X22-02-7 --sex male --on 2025-05-25", "spike 25b"),
        (
            "show X22-02-7 --full",
            "opened 2025-05-10 female open flowers",
        ),
    ],
];

#[test]
fn the_sex_of_plants_that_are_mixed_up_is_not_known() {
    play(OF_SEX);
}

const OF_SETTLING: &[Story] = &[
    // What was recorded in between is another plant's if the tags were swapped: that is asked, and it is kept in words.
    &[
        (
            "muddle X22-02-7 X22-02-8 --on 2025-03-01 --why \"tags fell out\"",
            "mixed up",
        ),
        (
            "flower X22-02-7 --sex female --opened 2025-05-20",
            "spike 25a",
        ),
        (
            "pollinate X22-02-7 --with Spa1 --zone a --flowers 2 --on 2025-05-22",
            "X25-",
        ),
        (
            "muddle X22-02-7 X22-02-8 --settled",
            "this was recorded in between: X22-02-7: spike 25a, 7 readings and seed parent of X25-01; X22-02-8: 7 readings",
        ),
        ("muddle X22-02-7 X22-02-8 --settled", "add --tags-right"),
        (
            "muddle X22-02-7 X22-02-8 --settled --tags-swapped",
            "podbook does not move it",
        ),
        (
            "muddle X22-02-7 X22-02-8 --settled --tags-swapped",
            "(crosses/X22-02.ron: `flowerings` and the sitting of 2025-05-10; crosses/X25-01.ron: `parents`)",
        ),
        // Nothing may be written that says the tags were right when they were not.
        (
            "muddle X22-02-7 X22-02-8 --settled --tags-swapped",
            "then: podbook muddle X22-02-7 X22-02-8 --settled --tags-swapped --moved",
        ),
        ("show X22-02-7", "mixed up with X22-02-8 on 2025-03-01"),
        (
            "muddle X22-02-7 X22-02-8 --settled --tags-right",
            "Recorded in between, and kept as it stands since the tags were right: X22-02-7: ",
        ),
        ("show X22-02-7", "tags fell out; the tags were right"),
    ],
    // Once it is moved by hand, the mix-up is closed by the command.
    &[
        ("muddle X22-02-3 X22-02-4 --on 2025-03-01", "mixed up"),
        ("flower X22-02-3 --sex female --opened 2025-05-01", "25a"),
        (
            "muddle X22-02-3 X22-02-4 --settled --tags-swapped",
            "not: mix-up settled",
        ),
        (
            "muddle X22-02-3 X22-02-4 --settled --moved",
            "--tags-swapped",
        ),
        (
            "muddle X22-02-3 X22-02-4 --settled --tags-swapped --moved",
            "Recorded in between, as it stands now: X22-02-3: spike 25a",
        ),
        ("show X22-02-3", "the tags were swapped"),
        ("show X22-02-4", "not: from one of two"),
    ],
    // Sexes that differed before a mix-up are of either plant, and no fault; tags and `ready` say so.
    &[
        ("flower X22-02-3 --sex female --opened 2025-05-01", "25a"),
        ("flower X22-02-4 --sex male --opened 2025-05-01", "25a"),
        ("ready", "X22-02-3 X22-02-4 fresh"),
        ("tags X22-02-3", "2022-09 ♀"),
        ("muddle X22-02-3 X22-02-4 --on 2025-05-20", "mixed up"),
        ("ready", "X22-02-3 female or may be over"),
        ("ready", "X22-02-4 female or may be over"),
        ("ready", "not: X22-02-3 X22-02-4 fresh"),
        ("tags X22-02-3", "2022-09 –"),
        (
            "check --notes --full",
            "not: X22-02-3 has flowers of both sexes",
        ),
        ("check", "No faults or warnings"),
    ],
    // Ends of single pieces are recorded in between too.
    &[
        ("cutting X22-02-7 --on 2024-05-01", "X22-02-7-b"),
        ("muddle X22-02-7 X22-02-8 --on 2025-05-12", "mixed up"),
        ("gone X22-02-7-b --died --on 2025-05-20", "died"),
        (
            "muddle X22-02-7 X22-02-8 --settled",
            "recorded in between: X22-02-7: piece b died 2025-05-20",
        ),
        ("muddle X22-02-7 --settled", "X22-02-7 was to be settled"),
    ],
    // So are the counts of pots.
    &[
        (
            "add-seed \"N. maxima\" --seeds 100 --code X24-08 --on 2024-01-01",
            "X24-08",
        ),
        ("sow X24-08 --seeds 100 --on 2024-02-01", "X24-08.S1"),
        ("prick X24-08.S1 10 --on 2024-08-01", "X24-08.T1"),
        ("prick X24-08.S1 10 --on 2024-08-01", "X24-08.T2"),
        (
            "muddle X24-08.T1 X24-08.T2 --on 2025-03-01",
            "each may be the other",
        ),
        ("count X24-08.T1 --standing 9 --on 2025-04-01", "9 alive"),
        ("number X24-08.T1 1-2 --on 2025-04-02", "X24-08-2"),
        (
            "muddle X24-08.T1 X24-08.T2 --settled",
            "recorded in between: X24-08.T1: 1 count and 2 seedlings numbered out of it",
        ),
        (
            "muddle X24-08.T1 X24-08.T2 --settled --tags-right",
            "mix-up settled",
        ),
    ],
    // Of three that were mixed up the last one is known when the others are.
    &[
        (
            "muddle X22-02-7 X22-02-8 X22-02-5 --on 2025-05-12",
            "each may be any of them",
        ),
        (
            "muddle X22-02-7 X22-02-8 --settled --on 2025-05-20",
            "X22-02-5 is known too, since all the others are, but its record still says mixed up; to settle it: podbook muddle X22-02-5 --settled --on \"2025-05-20\"",
        ),
        (
            "muddle X22-02-5 --settled --on \"2025-05-20\"",
            "mix-up settled",
        ),
        (
            "muddle X22-02-7 X22-02-8 X22-02-5 --on 2025-05-22",
            "each may be any of them",
        ),
        (
            "muddle X22-02-7 --settled --on 2025-05-23",
            "X22-02-5 and X22-02-8 are still mixed up; when you can tell them apart: podbook muddle X22-02-5 X22-02-8 --settled",
        ),
        ("gone X22-02-4 --sold --on 2025-05-20", "sold"),
        (
            "muddle X22-02-3 X22-02-4",
            "X22-02-4 was to be recorded as mixed up today, but it is no longer here: sold 2025-05-20 if they were mixed up before that, give the day with --on",
        ),
    ],
    // Where nothing was recorded in between, nothing is asked.
    &[
        ("muddle X22-02-7 X22-02-8 --on 2025-05-28", "mixed up"),
        ("muddle X22-02-7 X22-02-8 --settled", "mix-up settled"),
    ],
    &[
        ("muddle X22-02-7 X22-02-8 --on 2025-05-28", "mixed up"),
        (
            "muddle X22-02-7 X22-02-8 --settled --tags-swapped",
            "Put the tag of each on the other",
        ),
    ],
];

#[test]
fn what_was_recorded_during_a_mix_up_stays_in_doubt() {
    play(OF_SETTLING);
}

/// A seedling that was numbered out of its pot was raised, whatever it was mixed up with later.
#[test]
fn a_seedling_mixed_up_later_was_numbered_all_the_same() {
    play(&[&[
        ("siblings X22-02 --full", "numbered 18"),
        ("muddle X22-02-3 X18-01-12", "mixed up"),
        ("siblings X22-02 --full", "numbered 18"),
        ("siblings X22-02 --full", "1 of them mixed up since"),
    ]]);
}
