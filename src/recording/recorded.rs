//! What a recording has recorded, as plain values that `report` words, and what to look at, worded where it arises.

use super::voice::Words;
use crate::observation::SexSeen;
use crate::wording::counted;

/// What was recorded.
#[derive(Clone, PartialEq, Debug)]
pub struct Recorded {
    /// What happened.
    pub what: What,
    /// The day of it as written; empty where none is said.
    pub on: String,
    /// Codes that were recorded on, the one a grower would look for first.
    pub about: Vec<String>,
    /// Codes to write on tags, envelopes and pots.
    pub tags: Vec<Tag>,
    /// What to look at, each in one sentence.
    pub remarks: Vec<Words>,
}

impl Recorded {
    /// What was recorded on some codes on a day, with nothing to write on a tag and nothing to look at.
    pub fn of(what: What, about: Vec<String>, on: impl Into<String>) -> Recorded {
        Recorded {
            what,
            on: on.into(),
            about,
            tags: Vec::new(),
            remarks: Vec::new(),
        }
    }

    /// With a code to write down, if there is a new one.
    pub fn tag(mut self, code: impl Into<Option<String>>, on: &'static str) -> Recorded {
        self.tags.extend(code.into().map(|code| Tag { code, on }));
        self
    }

    /// With more to look at.
    pub fn remarks(mut self, more: impl IntoIterator<Item: Into<Words>>) -> Recorded {
        self.remarks.extend(more.into_iter().map(Into::into));
        self
    }
}

/// A code that is new, and what it is to be written on.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Tag {
    /// The code.
    pub code: String,
    /// What it is written on: `tag`, `envelope`, `pot`.
    pub on: &'static str,
}

/// Which name of a plant is shown after an opinion on it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shown {
    /// The one shown before: the opinion was not accepted.
    AsBefore,
    /// That of the opinion.
    AsTheOpinion,
    /// That of an accepted opinion that is later than this one.
    AsALaterOne,
    /// The received name, as its record demands.
    AsReceived,
    /// The one written from the recorded parents, which no opinion changes.
    ByParents,
}

/// What happened at the bench.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// A change of many records, in one sentence: a lineage, a registry, tables or photos came in.
    InWords(String),
    /// A change was taken back.
    Undid {
        /// It by its number, and what stands again where it was an undo.
        what: String,
        /// Whether it was an undo.
        again: bool,
        /// The command of what no longer stands, or stands again.
        asked: String,
        /// The number this undo gets.
        next: u32,
    },
    /// A plant came.
    Arrived {
        /// Its code.
        code: String,
        /// The name it came under.
        name: String,
    },
    /// Flowers were dusted.
    Pollinated {
        /// The zone's code with that of its cross.
        zone: String,
        /// The seed parent, or the piece that flowers.
        seed: String,
        /// The pollen parent or parents, in words.
        pollen: String,
        /// Whether the flowers were left to any pollen that came.
        is_open: bool,
        /// The envelope.
        envelope: Option<String>,
        /// Flowers treated.
        flowers: Option<u32>,
        /// Whether the zone had been dusted before.
        again: bool,
    },
    /// Plants died, were culled, sold, given away or lost.
    Gone {
        /// What became of them: `died`, `culled`, `sold`, `given`, `lost`.
        fate: &'static str,
        /// Their codes.
        plants: Vec<String>,
        /// Codes of sowings and community pots.
        trays: Vec<String>,
    },
    /// Plants or pieces that had been sold or given away came back.
    CameBack {
        /// Their codes.
        plants: Vec<String>,
    },
    /// Seed came with a label.
    SeedArrived {
        /// The cross it is kept under.
        cross: String,
        /// The label.
        label: String,
        /// Seeds.
        seeds: Option<u32>,
        /// Whether their number is a guess.
        estimated: bool,
    },
    /// Pollen came from another grower.
    PollenArrived {
        /// The envelope.
        envelope: String,
        /// The plant it is of.
        plant: String,
        /// The name it came under; none for that of a plant on record.
        name: Option<String>,
    },
    /// Part of a seed lot was sold or given away.
    SeedHandedOn {
        /// The lot.
        lot: String,
        /// Seeds.
        seeds: u32,
        /// What became of them, in words.
        how: &'static str,
    },
    /// Some of the seedlings of a community pot died or left.
    PartGone {
        /// The pot.
        pot: String,
        /// How many.
        seedlings: u32,
        /// The word of their fate.
        fate: &'static str,
    },
    /// Something was remarked on plants.
    Remarked {
        /// Their codes.
        plants: Vec<String>,
        /// The remark.
        words: String,
    },
    /// A spike was seen, opened or was over.
    Flowered {
        /// The plant or piece.
        plant: String,
        /// The spike's code; none for a sex that no flower showed.
        spike: Option<String>,
        /// The sex, and how it is known.
        sex: Option<SexSeen>,
        /// What was on record of the plant's sex, where that was another one.
        was: Option<SexSeen>,
        /// What was seen, by the field that holds it, and when.
        seen: Vec<(&'static str, String)>,
    },
    /// Pollen was put into an envelope.
    Collected {
        /// The envelope.
        envelope: String,
        /// The plant or piece.
        from: String,
    },
    /// An envelope was thawed or finished.
    Envelope {
        /// The envelope.
        envelope: String,
        /// Whether it is finished.
        finished: bool,
    },
    /// Pods that set were counted.
    Took {
        /// The zone.
        zone: String,
        /// Pods.
        set: u32,
        /// Flowers treated.
        flowers: Option<u32>,
        /// Pods on controls, and flowers left as controls, where they were counted.
        controls: Option<(u32, u32)>,
    },
    /// Pods were harvested.
    Harvested {
        /// The pod record.
        pod: String,
        /// The zone.
        zone: String,
        /// The seed lot; none of an empty pod.
        lot: Option<String>,
        /// Capsules.
        capsules: Option<u32>,
        /// Seeds.
        seeds: Option<u32>,
        /// Whether their number is a guess.
        estimated: bool,
    },
    /// Seed was sown.
    Sown {
        /// The sowing.
        sowing: String,
        /// The seed lot.
        lot: String,
        /// Seeds.
        seeds: Option<u32>,
    },
    /// Seedlings were counted.
    Counted {
        /// The sowing or community pot.
        of: String,
        /// Came up so far.
        up: Option<u32>,
        /// Alive now.
        standing: Option<u32>,
    },
    /// Seedlings were pricked out.
    Pricked {
        /// The sowing.
        sowing: String,
        /// How many.
        moved: u32,
        /// The community pot.
        to: String,
    },
    /// Seedlings got numbers.
    Numbered {
        /// Their codes.
        plants: Vec<String>,
        /// The community pot or sowing.
        from: String,
    },
    /// Plants were potted on.
    Potted {
        /// Their codes.
        plants: Vec<String>,
        /// The pot.
        pot: String,
        /// Where they stand.
        place: Option<String>,
    },
    /// Plants were moved.
    Moved {
        /// Their codes.
        plants: Vec<String>,
        /// Codes of sowings and community pots.
        trays: Vec<String>,
        /// Where to.
        to: String,
    },
    /// A piece was taken off a plant.
    Taken {
        /// The new piece.
        piece: String,
        /// The piece it was taken from.
        from: String,
        /// How it was made.
        made: &'static str,
    },
    /// Pieces have rooted.
    Rooted {
        /// Their codes.
        pieces: Vec<String>,
    },
    /// Somebody said what a plant is.
    Opinion {
        /// The plant.
        plant: String,
        /// The name.
        name: String,
        /// Whether it was accepted.
        accepted: bool,
        /// Which name is shown from now on.
        shown: Shown,
    },
    /// Plants were treated, or a place.
    Treated {
        /// Codes of the plants whose records have it.
        plants: Vec<String>,
        /// The place, where a whole place was treated.
        place: Option<String>,
        /// Whether the settings have it for the place.
        at_place: bool,
        /// The product.
        product: String,
    },
    /// Plants or pots were mixed up, or it is known again which is which.
    Muddled {
        /// Their codes.
        codes: Vec<String>,
        /// Whether it is known again.
        settled: bool,
        /// Those that are still mixed up with others, each with them.
        still: Vec<(String, Vec<String>)>,
        /// How many seedlings are in doubt, when not all.
        rows: Option<u32>,
    },
    /// A reading was corrected.
    Corrected {
        /// The plant.
        plant: String,
        /// The trait or column.
        column: String,
        /// What stood there.
        was: String,
        /// What stands there now.
        now: String,
    },
    /// Plants were looked for and found.
    Seen {
        /// How many were found.
        seen: usize,
        /// Codes of those that were not.
        missing: Vec<String>,
        /// The place.
        place: Option<String>,
    },
    /// Plants were read.
    Measured {
        /// Those that got a row.
        plants: Vec<String>,
        /// Cells that hold a reading.
        readings: usize,
        /// Those found dead.
        dead: Vec<String>,
    },
    /// Plants are no longer marked to keep.
    NotKept {
        /// Their codes.
        plants: Vec<String>,
    },
    /// Plants were marked to keep.
    Kept {
        /// Their codes.
        plants: Vec<String>,
        /// Those that had the mark already.
        before: usize,
    },
}

/// How many records are new, by kind; none when none is.
pub fn new_records(founders: usize, seedlings: usize, crosses: usize) -> Option<String> {
    let new = [
        (founders, "founder", "founders"),
        (seedlings, "seedling", "seedlings"),
        (crosses, "cross", "crosses"),
    ];
    let new = new.into_iter().filter(|(count, ..)| *count > 0);
    let new = new.map(|(count, one, more)| counted(count, one, more));
    let new: Vec<String> = new.collect();
    (!new.is_empty()).then(|| format!("new on record: {}", new.join(", ")))
}
