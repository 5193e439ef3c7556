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
            "Before X22-02-7 and X22-02-8 were mixed up, only X22-02-8 had shown male flowers: so the pot tagged X22-02-7 is the plant that was X22-02-8; to settle: podbook muddle X22-02-7 X22-02-8 --settled",
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
