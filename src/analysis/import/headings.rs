//! What a heading says its column holds, in the plain words growers use (common practice, no source).

use super::word_lists::is_in;
use crate::record::{Holds, LengthUnit};

/// Headings by what they say, in small letters and without units and signs.
const WORDS: &[(Holds, &str)] = &[
    (
        Holds::Code,
        "code | my code | own code | id | no | nr | number | num | # | plant | plant no | plant id | \
         plant code | plant number | tag | tag no | tag number | tag # | packet | packet no | packet number | \
         seedling | seedling no | ref | accession | accession no | acc no",
    ),
    (
        Holds::Label,
        "label | name | plant name | name on label | name on tag | species | taxon | hybrid | nepenthes | \
         species or hybrid | species/hybrid | species / hybrid | species / cross | species/cross | \
         name as received | received as | what | variety",
    ),
    (
        Holds::Supplier,
        "supplier | source | from | got from | bought from | seller | vendor | nursery | shop | donor | \
         who from | where from",
    ),
    (
        Holds::SupplierCode,
        "supplier code | suppliers code | supplier's code | seller code | their code | clone | clone no | \
         clone code | clone number | catalogue no | stock no | stock code",
    ),
    (
        Holds::Acquired,
        "date | acquired | date acquired | acquired on | got | date got | bought | date bought | received | \
         date received | arrived | date arrived | arrival | purchased | purchase date | since | came | rec'd | \
         recd | when got | when i got it",
    ),
    (Holds::Price, "price | cost | paid | price paid"),
    (
        Holds::Form,
        "form | came as | bought as | type | stage | seed or cutting",
    ),
    (
        Holds::Cross,
        "cross | cross no | cross code | cross id | cross number | of cross | pod",
    ),
    (
        Holds::SeedParent,
        "seed parent | mother | mum | mom | female parent | pod parent | ♀ | ♀ parent",
    ),
    (
        Holds::PollenParent,
        "pollen parent | father | dad | male parent | pollen | ♂ | ♂ parent",
    ),
    (
        Holds::Parents,
        "parents | parentage | formula | ♀ × ♂ | ♀ x ♂",
    ),
    (
        Holds::Sex,
        "sex | gender | m/f | f/m | male/female | ♀/♂ | ♂/♀ | sex?",
    ),
    (
        Holds::Reading,
        "size | span | leaf span | diameter | dia | across | ø | width | spread | how big",
    ),
    (Holds::Unit, "unit | units | unit of size"),
    (
        Holds::Measured,
        "measured | measured on | date measured | date of measuring | size date | date of size | read on",
    ),
    (Holds::Pot, "pot | pot size | pot width | in pot"),
    (
        Holds::Potted,
        "potted | date potted | repotted | last repotted | last repot | potted on",
    ),
    (
        Holds::Place,
        "place | where | location | shelf | bench | position | spot | tank | tent",
    ),
    (
        Holds::Pollinated,
        "pollinated | date pollinated | pollination | pollination date | crossed",
    ),
    (
        Holds::Pods,
        "pods | no of pods | number of pods | pod count | how many pods | seed pods | capsules | \
         no of capsules | number of capsules",
    ),
    (
        Holds::Harvested,
        "harvested | date harvested | harvest | harvest date | harvested on | pod harvested | pods harvested | \
         seed harvested",
    ),
    (
        Holds::Sown,
        "sown | date sown | sowed | sowing | sowing date | sow date | sown on",
    ),
    (
        Holds::Seeds,
        "seeds | no of seeds | number of seeds | seed count | how many seeds | seeds (approx) | seeds approx | \
         qty",
    ),
    (
        Holds::Left,
        "left | remaining | seed left | seeds left | seed remaining | seeds remaining",
    ),
    (
        Holds::Germinated,
        "germinated | number germinated | no germinated | seeds germinated | came up | seedlings up | \
         sprouted | germination count | germ | up",
    ),
    (
        Holds::Counted,
        "counted | counted on | date counted | count date",
    ),
    (
        Holds::Status,
        "status | state | fate | alive | alive? | what happened",
    ),
    (
        Holds::Died,
        "died | dead | died? | dead? | death | date died | died on",
    ),
    (Holds::Sold, "sold | sold? | date sold | sold on"),
    (
        Holds::Given,
        "given | given away | date given | swapped | traded",
    ),
    (
        Holds::Gone,
        "gone | gone on | date gone | date left | left on",
    ),
    (
        Holds::To,
        "to | sold to | given to | buyer | who to | went to",
    ),
    (
        Holds::Locality,
        "locality | origin | provenance | habitat | wild origin",
    ),
    (
        Holds::Note,
        "note | notes | remark | remarks | comment | comments | observations | info",
    ),
];

/// What a heading says, and the unit in it.
pub(super) fn headed(heading: &str) -> Option<(Holds, Option<LengthUnit>)> {
    let (words, unit) = without_unit(heading);
    let of = |words: &str| {
        let found = WORDS.iter().find(|(_, all)| is_in(all, words));
        found.map(|(holds, _)| *holds)
    };
    // A word that is a unit may also be one of ours.
    let whole = plain(heading);
    match of(&whole) {
        Some(holds) => Some((holds, None)),
        None => of(&words).map(|holds| (holds, unit)),
    }
}

/// Small letters, single blanks, no signs at the ends.
fn plain(heading: &str) -> String {
    let lower = heading.to_lowercase().replace('_', " ");
    let words: Vec<&str> = lower.split_whitespace().collect();
    let words = words.join(" ");
    let ends = |c: char| ".:;,!*=".contains(c);
    let words = words.trim_matches(ends).replace(". ", " ");
    words.trim().to_owned()
}

/// A heading without the unit at its end: `Size (cm)`, `size in cm`, `pot, cm`.
fn without_unit(heading: &str) -> (String, Option<LengthUnit>) {
    let words = plain(heading);
    let bare = words.trim_end_matches([')', ']', '.']);
    let cut = bare.rfind(|c: char| c.is_whitespace() || "([,/".contains(c));
    let Some((name, unit)) = cut.map(|at| (&bare[..at], &bare[at + 1..])) else {
        return (words, None);
    };
    let name = name.trim_end_matches(|c: char| c.is_whitespace() || "([,/".contains(c));
    match LengthUnit::read(unit) {
        Some(unit) => {
            let name = name.strip_suffix(" in").unwrap_or(name);
            (plain(name), Some(unit))
        }
        None => (words, None),
    }
}
