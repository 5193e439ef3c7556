//! What was missed at the time is entered later: of plants that have left since, and of mix-ups that reach further than two.

use crate::answers::play;
use crate::played::{copied, said};

/// Each on a fresh copy of the demo.
const STORIES: &[&[(&str, &str)]] = &[
    // Before it left a plant was here: what happened then can still be entered, and what was said of it is looked at again.
    &[
        ("gone X22-02-5 --sold --on 2025-05-20", "sold"),
        (
            "muddle X22-02-5 X22-02-3 --on 2025-05-01 --why \"trays dropped\"",
            "mixed up on 2025-05-01",
        ),
        ("pot X22-02-5 9cm --on 2025-05-19", "9 cm"),
        (
            "pot X22-02-5 12cm --on 2025-05-21",
            "X22-02-5 is no longer here: sold",
        ),
        ("pot X22-02-5 12cm", "X22-02-5 is no longer here: sold"),
        ("flower X22-02-5 --seen 2025-05-10", "X22-02-5"),
        (
            "flower X22-02-5 --seen 2025-05-30",
            "X22-02-5 is no longer here: sold",
        ),
        ("keep X22-02-5", "X22-02-5 is no longer here: sold"),
        (
            "gone X22-02-5 --died --on 2025-05-10",
            "X22-02-5 is no longer here: sold",
        ),
    ],
    // A piece was cut off a piece that has died since.
    &[
        ("gone Ven1-b --died --on 2025-05-20", "died"),
        ("cutting Ven1-b --on 2025-05-10", "Ven1-e"),
        ("show Ven1", "in the collection"),
        ("cutting Ven1-b --on 2025-05-25", "is no longer here"),
        // What ends a plant ends the pieces it had, and none that was cut before and is recorded later.
        (
            "gone Jac1 --died --why \"crown rot\" --on 2025-05-20",
            "died",
        ),
        (
            "cutting Jac1 --on 2025-05-25",
            "Jac1 is no longer here: died 2025-05-20",
        ),
        (
            "cutting Jac1 --on 2025-05-10",
            "Jac1 is on record as died 2025-05-20 (crown rot); that now applies only to the pieces it had",
        ),
        ("show Jac1", "in the collection"),
        (
            "show Jac1",
            "Jac1-a the plant itself died 2025-05-20 (crown rot)",
        ),
        ("gone Jac1-b --died --on 2025-05-28", "Jac1-b: died"),
        ("show Jac1", "not: in the collection"),
    ],
    // A spike opened on one day; another one is named.
    &[
        ("flower X22-02-5 --opened 2025-05-20", "spike 25a"),
        (
            "flower X22-02-5 --opened 2025-05-22",
            "opened on 2025-05-22, but spike 25a is on record as opened on 2025-05-20 and not as over",
        ),
        (
            "flower X22-02-5 --opened 2025-05-22",
            "to give it another day: --spike 25a; if that is another spike, say when you first saw it as well: --seen DATE",
        ),
        (
            "flower X22-02-5 --opened 2025-05-22 --spike 25a",
            "spike 25a: opened on 2025-05-22",
        ),
        (
            "flower X22-02-5 --seen 2025-05-01 --opened 2025-05-25",
            "spike 25b",
        ),
        // Which of two opened then is not guessed.
        (
            "flower X22-02-5 --opened 2025-05-28",
            "is on record as opened",
        ),
        (
            "flower X22-02-5 --spike 25a --over 2025-05-29",
            "25a: over on 2025-05-29",
        ),
    ],
    // Pieces that were sold together had one price.
    &[
        (
            "gone Ven1 --sold --all-pieces --price 60 --on 2025-05-20",
            "sold",
        ),
        (
            "cutting Ven1-b --on 2025-05-10",
            "a piece of Ven1 was cut before it ended, but Ven1 is no longer here: sold 2025-05-20",
        ),
    ],
    // What was read of a plant may be of any that the other was mixed up with by then.
    &[
        (
            "muddle X22-02-3 X22-02-4 --on 2025-05-20",
            "X22-02-3, X22-02-4",
        ),
        (
            "muddle X22-02-3 X22-02-1 --on 2025-05-25",
            "X22-02-3, X22-02-1",
        ),
        ("card X22-02-1", "may be of either, or of X22-02-4"),
        ("show X22-02-1", "may be of either, or of X22-02-4"),
        ("registration X22-02-1", "may be of either, or of X22-02-4"),
        // Four was mixed up with three alone by that day.
        ("card X22-02-4", "may be of either"),
        ("card X22-02-4", "not: or of X22-02-1"),
        (
            "muddle X22-02-3 X22-02-4 --settled",
            "mix-up settled on 2025-06-01; X22-02-3 is still mixed up with X22-02-1",
        ),
        (
            "muddle X22-02-4 X22-02-3 --settled",
            "no open mix-up on record",
        ),
        ("card X22-02-1", "may be of either"),
        ("card X22-02-1", "not: or of X22-02-4"),
        (
            "muddle X22-02-3 X22-02-1 --settled",
            "each is again what its record says",
        ),
        ("card X22-02-1", "not: may be of either"),
    ],
    // What was mixed up later does not reach back.
    &[
        ("muddle X22-02-2 X22-02-3 --on 2024-01-10", "mixed up"),
        ("muddle X22-02-3 X22-02-4 --on 2024-06-10", "mixed up"),
        ("muddle X22-02-1 X22-02-2 --on 2025-01-10", "mixed up"),
        ("show X22-02-1", "of either, or of X22-02-3"),
        ("show X22-02-1", "not: X22-02-4"),
    ],
    // One potting is entered once; another width or day is another potting.
    &[
        ("pot X22-02-5 9cm --on 2025-05-19", "9 cm"),
        (
            "pot X22-02-5 9cm --on 2025-05-19",
            "X22-02-5 is already on record as potted into 9 cm on 2025-05-19",
        ),
        ("pot X22-02-5 9cm --on 2025-05-20", "9 cm"),
        ("pot X22-02-5 12cm --on 2025-05-20", "12 cm"),
    ],
    // A potting entered late moves no plant that was potted on and placed since.
    &[
        (
            "pot X22-02-5 9cm --place tent --on 2025-05-19",
            "the place was shelf 1, front and is tent now; if moved back since: podbook move X22-02-5",
        ),
        (
            "pot X22-02-5 8cm --place attic --on 2025-04-19",
            "not: now on",
        ),
        ("show X22-02-5", "tent"),
        ("show X22-02-5", "9 cm since 2025-05-19"),
        ("card X22-02-5", "9 cm since 2025-05-19"),
        ("list plants --place attic", "not: X22-02-5"),
        ("pot X22-02-5 12cm --place attic", "now on attic"),
        ("show X22-02-5", "12 cm since 2025-06-01"),
    ],
    // A plant of several pieces is at no one place; one of which a single piece is left is where that is.
    &[
        (
            "pot Ven1 9cm --place tent",
            "more than one piece: Ven1-b, Ven1-d",
        ),
        (
            "pot Ven1 9cm",
            "more than one piece: Ven1-b, Ven1-d name the piece that was potted",
        ),
        ("pot Ven1-d 9cm", "Ven1-d: potted into 9 cm"),
        ("gone Ven1-d --died", "died"),
        ("pot Ven1 12cm --place tent", "now on tent"),
        ("list plants --place tent", "Ven1"),
        ("list plants --place \"shelf 1\"", "not: Ven1"),
    ],
    // A second dusting adds what was not said at the first, and contradicts nothing.
    &[
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-20",
            "pollinated with Spa1",
        ),
        ("due --full", "flowers not counted"),
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-22 --flowers 5 --controls 4 --covered --goal squat --note rain",
            "pollinated again with Spa1 on 2025-05-22, 5 flowers",
        ),
        (
            "took X25-01.red 6 --controls 0/4 --on 2025-05-31",
            "flowers treated",
        ),
        (
            "took X25-01.red 3 --controls 0/3 --on 2025-05-31",
            "4 flowers were left as controls",
        ),
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-23 --controls 2",
            "4 are on record",
        ),
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-23 --goal tall",
            "its goal is `squat`",
        ),
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-23 --note late",
            "pollinated again",
        ),
        ("find \"rain; late\"", "X25-01"),
        (
            "took X25-01.red 3 --controls 0/4 --on 2025-05-31",
            "3 of 5 flowers set",
        ),
    ],
    // A zone is one whatever its capitals, a pot is named as on its tag, and a stock-take is of what was there.
    &[
        (
            "pollinate Ven1 --with Spa1 --zone red --on 2025-05-20",
            "red",
        ),
        (
            "pollinate Ven1 --with Spa1 --zone Red --on 2025-05-22",
            "zone `red` is on record, which differs only in capitals",
        ),
        (
            "add-seed ventricosa --seeds 100 --code X24-09 --on 2024-08-01",
            "X24-09",
        ),
        ("sow X24-09 --seeds 100 --on 2024-09-01", "X24-09.S1"),
        ("count X24-09.S1 --up 55 --on 2024-11-01", "55"),
        ("prick X24-09.S1 40 --on 2025-03-01", "X24-09.T1"),
        (
            "prick X24-09.S1 5 --to X24-09.T1 --on 2025-04-01",
            "X24-09.T1: 5 seedlings",
        ),
        ("seen X22-02-5 --on 2022-01-01", "it was sown on 2022-09-10"),
        (
            "seen --place \"shelf 1\" --on 2022-01-01",
            "Left out X22-02-5: it came after that day",
        ),
    ],
    // Two fathers are two plants; a line about one plant is about one.
    &[
        (
            "pollinate Ven1 --one-of Spa1,Spa1 --on 2025-05-20",
            "names a plant twice",
        ),
        ("opinion X22-02-1,2 \"N. ventricosa\"", "is several plants"),
        ("correct X22-02-1,2 span 9cm", "is several plants"),
    ],
    // Of a zone on which none set there is nothing to harvest, in either order.
    &[
        (
            "pollinate Ven1 --with Spa1 --zone red --flowers 5 --on 2025-01-20",
            "red",
        ),
        ("took X25-01.red 0 --on 2025-03-01", "0 of 5"),
        (
            "harvest X25-01.red --seeds 20 --on 2025-05-20",
            "pods that set on X25-01.red",
        ),
        ("took X25-01.red 1 --again", "1 of 5"),
        ("harvest X25-01.red --seeds 20 --on 2025-05-20", "X25-01.P1"),
        (
            "took X25-01.red 0 --again",
            "its harvest has at least 1 capsule",
        ),
    ],
    // What is entered late is compared with what the plant did afterwards.
    &[
        (
            "pollinate Ven1 --with Spa1 --zone red --flowers 5 --on 2025-01-20",
            "red",
        ),
        ("harvest X25-01.red --seeds 20 --on 2025-05-20", "X25-01.P1"),
        (
            "gone Ven1 --died --all-pieces --on 2025-05-18",
            "the pod was harvested after Ven1 died",
        ),
    ],
    &[
        ("cutting X22-02-5 --on 2025-05-20", "X22-02-5-b"),
        ("cutting X22-02-5-b --on 2025-05-30", "X22-02-5-c"),
        (
            "gone X22-02-5-b --died --on 2025-05-25",
            "the piece came to its end before the piece was cut",
        ),
    ],
    &[
        ("collect Spa1 --on 2025-05-02", "Spa1-2505"),
        ("finish Spa1-2505 --on 2025-05-11", "Spa1-2505"),
        (
            "pollinate Ven1 --with Spa1-2505 --zone red --on 2025-05-09",
            "pollinated with Spa1 from Spa1-2505",
        ),
        (
            "pollinate Ven1 --with Spa1-2505 --zone red --on 2025-05-12",
            "the envelope has been finished since 2025-05-11",
        ),
    ],
    // A mix-up ends after it began.
    &[
        ("muddle X22-02-3 X22-02-4 --on 2025-05-20", "mixed up"),
        (
            "muddle X22-02-3 X22-02-4 --settled --on 2025-05-02",
            "it was mixed up on 2025-05-20",
        ),
        ("show X22-02-3", "of either"),
    ],
    // A stock-take that missed a plant agrees with its loss.
    &[
        (
            "seen --place \"shelf 1\" --except X22-02-5 --on 2025-05-20",
            "not found",
        ),
        (
            "gone X22-02-5 --lost --on 2025-05-18",
            "not: were read after",
        ),
        ("check", "not: were read after"),
    ],
    // A second reason and a second note leave the first.
    &[
        ("keep X22-02-3 --why fast", "marked to keep"),
        (
            "keep X22-02-3 --why red",
            "X22-02-3 had another reason: fast",
        ),
        ("flower X22-02-3 --seen 2025-05-20 --note tall", "X22-02-3"),
        (
            "flower X22-02-3 --opened 2025-05-30 --note pink",
            "X22-02-3",
        ),
        ("find \"tall; pink\"", "X22-02-3"),
    ],
    // What took is counted before the harvest; a number put right keeps its day.
    &[
        (
            "took X22-02.A 9 --again --on 2025-05-20",
            "its pods were harvested on 2022-08-13",
        ),
        (
            "took X22-02.A 9 --again",
            "9 of 12 flowers set, counted on 2022-04-23",
        ),
    ],
    // A code that is a seedling's but for capitals is no new code.
    &[
        ("add x22-02-1 \"N. hamata\"", "X22-02-1 is on record"),
        ("add x22-02-77 \"N. hamata\"", "x22-02-77"),
    ],
    // A possible father is called one.
    &[
        ("gone X13-01-2-b --died --on 2025-05-20", "died"),
        ("check --notes --full", "not: X13-01-2 is a parent"),
        (
            "check --notes --full",
            "X13-01-2 is a possible parent and a single plant",
        ),
        ("check --notes --full", "perhaps father of X18-01"),
    ],
];

#[test]
fn what_was_missed_is_entered_later() {
    play(STORIES);
}

/// When half had come up is the same whichever count was entered first.
#[test]
fn counts_are_taken_by_their_days() {
    let grown = |counts: &[&str]| {
        let demo = copied("registry-demo");
        let said = |line: &str| said(demo.path(), line, "2025-06-01");
        said("add-seed \"N. maxima\" --seeds 100 --code X23-01 --on 2023-08-01");
        said("sow X23-01 --seeds 100 --on 2023-09-01");
        for count in counts {
            let answer = said(&format!("count X23-01.S1 --up {count}"));
            assert!(answer.contains("up so far on"), "{answer}");
        }
        said("growth X23-01 --full")
    };
    let early = "20 --on 2023-10-10";
    let (middle, late) = ("50 --on 2023-11-10", "55 --on 2023-12-10");
    let in_order = grown(&[early, middle, late]);
    assert_eq!(grown(&[late, early, middle]), in_order);
    assert_ne!(grown(&[late, early]), in_order);
}
