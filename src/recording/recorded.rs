//! What a recording has recorded, as plain values: `report` words it.

use crate::observation::SexSeen;

/// What was recorded.
#[derive(Clone, PartialEq, Debug)]
pub struct Recorded {
    /// What happened.
    pub what: What,
    /// Codes that were recorded on, the one a grower would look for first.
    pub about: Vec<String>,
    /// Codes to write on tags, envelopes and pots.
    pub tags: Vec<Tag>,
    /// What to look at.
    pub remarks: Vec<Remark>,
}

/// What a grower may want to look at after a recording.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Remark {
    /// A record taken in before contradicted the one that came.
    Settled {
        /// Both words.
        what: String,
        /// Whether the one that came stays.
        theirs: bool,
    },
    /// Both sides of a merge had changed a field, and the grower said which stays.
    Decided {
        /// What it is about.
        about: String,
        /// Whether the other side's word stays.
        theirs: bool,
        /// What stays, of what differs.
        stays: String,
        /// What gives way.
        gives_way: String,
    },
    /// Both sides of a merge had something new under one code.
    Apart {
        /// The code of both.
        was: String,
        /// The new code of one.
        now: String,
        /// Whether that is the one that came.
        theirs: bool,
        /// Whether they are community pots, whose seedlings count twice where they are one.
        is_pot: bool,
    },
    /// Two opinions on a plant, one of either side of a merge, are accepted on one day and name it differently.
    TwoNames {
        /// The plant.
        plant: String,
        /// The day, as typed.
        on: String,
        /// The name here, and the name there.
        names: [String; 2],
    },
    /// A code is another one since a merge on the other side.
    Follows {
        /// The code it had.
        was: String,
        /// The code it has.
        now: String,
    },
    /// A founder of either side is one plant, as the grower says.
    MadeOne {
        /// Its code here before.
        ours: String,
        /// Its code there.
        theirs: String,
        /// Its code from now on.
        now: String,
    },
    /// Founders of either side agree in label, supplier and date, and stay two: each of these with each of those.
    LikelyOne {
        /// Codes here.
        ours: Vec<String>,
        /// Codes there, each with the code it has here from now on.
        theirs: Vec<(String, String)>,
        /// The label, the supplier, and the date as written.
        came: [String; 3],
        /// Whether they were raised from seed, so that siblings bear one label.
        from_seed: bool,
    },
    /// A record was taken out, because the other side had taken it out.
    TakenOut {
        /// What it was.
        what: String,
    },
    /// Remarks of a page that came and of which only the records were taken.
    NotesLeft {
        /// The page there.
        page: String,
        /// The remarks.
        remarks: Vec<String>,
    },
    /// What of another grower's registry stays there.
    StaysThere {
        /// Codes there of founders that are one's own here.
        own: Vec<String>,
        /// The same of crosses.
        crosses: Vec<String>,
    },
    /// Dates from the other half of the world are written as months.
    Seasons {
        /// How many.
        dates: usize,
    },
    /// What another grower recorded of a cross of ours and that stays there.
    OfOurs {
        /// The cross.
        cross: String,
        /// How many of what, in the singular.
        what: Vec<(usize, &'static str)>,
    },
    /// Pictures that records name, to be copied by hand.
    PhotosToCopy {
        /// The files.
        files: Vec<String>,
    },
    /// No spike of the plant is on record for those days.
    NoSpike {
        /// The plant or piece.
        plant: String,
    },
    /// Some pieces of plants stand at a place that was treated, others elsewhere.
    PartlyThere {
        /// Codes of the plants.
        plants: Vec<String>,
    },
    /// A place was treated on an earlier day, and which plants stood there then is not on record.
    ThereToday {
        /// How many that stand there now were not there yet.
        later: usize,
    },
    /// No spike and no sex of a plant is on record whose pollen was taken.
    NoFlowers {
        /// The plant or piece.
        plant: String,
    },
    /// A zone of that name on the same plant bears pollen of another father.
    OtherPollen {
        /// The zone as it was given.
        zone: String,
        /// The seed parent.
        seed: String,
        /// The code of the zone that bears it.
        bears: String,
        /// That pollen, in words.
        pollen: String,
        /// When it was dusted with it, as written.
        on: String,
    },
    /// Plants of a range are no longer here.
    LeftOut {
        /// How many.
        gone: usize,
    },
    /// The day on which a spike was seen gave way to an earlier one.
    SpikeMovedBack {
        /// As it was written.
        was: String,
        /// As it is written.
        now: String,
    },
    /// The plant whose pollen was named had neither an open flower nor an envelope.
    NoPollen {
        /// Its code.
        plant: String,
    },
    /// The sex of a seed parent is not on record.
    Unsexed {
        /// The plant or piece.
        plant: String,
    },
    /// Pollen older than growers report it to last.
    OldPollen {
        /// The envelope.
        envelope: String,
        /// Days since it was collected, at least.
        days: i32,
        /// How long such pollen lasts, by reports.
        reported: &'static str,
    },
    /// An envelope that was thawed is on record as kept at room temperature.
    NotFrozen {
        /// The envelope.
        envelope: String,
    },
    /// No plant in the collection stands at a place.
    NoPlantThere {
        /// The place.
        place: String,
        /// Places it may have meant.
        near: Vec<String>,
    },
    /// A plant that leaves was marked to keep.
    WasToKeep {
        /// Its code.
        plant: String,
        /// Why.
        why: Option<String>,
    },
    /// Something came sooner or later after what it follows than is usual.
    Unusual {
        /// What was done: `X24-01.A was harvested`.
        of: String,
        /// How long after what: `2 days after it was pollinated`.
        passed: String,
        /// How long it usually takes.
        usual: String,
    },
    /// Names went into `species.ron` from the starter list.
    NamesTakenIn {
        /// Their epithets.
        names: Vec<String>,
    },
    /// A count was kept as a community pot.
    KeptAsPot {
        /// Its code.
        pot: String,
    },
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
    /// The received name, as its record demands.
    AsReceived,
    /// The one written from the recorded parents, which no opinion changes.
    ByParents,
}

/// What happened at the bench.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// A plant came.
    Arrived {
        /// Its code.
        code: String,
        /// The name it came under.
        name: String,
    },
    /// A lineage that was handed over was taken in.
    TakenIn {
        /// The plant's code here.
        here: String,
        /// Its code in the other registry.
        there: String,
        /// The other registry.
        by: String,
        /// Founders that are new.
        founders: usize,
        /// Seedlings that are new.
        seedlings: usize,
        /// Crosses that are new.
        crosses: usize,
    },
    /// Another registry was merged.
    Merged {
        /// Its name.
        other: Option<String>,
        /// Whether it is a copy of this one, not another grower's.
        is_copy: bool,
        /// Pages that change.
        pages: usize,
        /// Founders that are new.
        founders: usize,
        /// Seedlings that are new.
        seedlings: usize,
        /// Crosses that are new.
        crosses: usize,
    },
    /// Rows of tables were brought in.
    BroughtIn {
        /// How many.
        rows: usize,
        /// Founders that are new.
        founders: usize,
        /// Seedlings that are new.
        seedlings: usize,
        /// Crosses that are new.
        crosses: usize,
        /// Readings.
        readings: usize,
        /// Sowings added to crosses that are known.
        sowings: usize,
    },
    /// Photos were taken in.
    Photographed {
        /// How many.
        photos: usize,
        /// Of how many plants.
        plants: usize,
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
        /// The date as written.
        on: String,
        /// Whether the zone had been dusted before.
        again: bool,
    },
    /// Plants died, were culled, sold, given away or lost.
    Gone {
        /// What became of them: `died`, `culled`, `sold`, `given`, `lost`.
        fate: &'static str,
        /// Their codes.
        plants: Vec<String>,
        /// The date as written.
        on: String,
    },
    /// Seed came with a label.
    SeedArrived {
        /// The cross it is kept under.
        cross: String,
        /// The label.
        label: String,
        /// Seeds.
        seeds: Option<u32>,
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
        /// The date as written.
        on: String,
    },
    /// An envelope was thawed or finished.
    Envelope {
        /// The envelope.
        envelope: String,
        /// Whether it is finished.
        finished: bool,
        /// The date as written.
        on: String,
    },
    /// Pods that set were counted.
    Took {
        /// The zone.
        zone: String,
        /// Pods.
        set: u32,
        /// Flowers treated.
        flowers: Option<u32>,
        /// The date as written.
        on: String,
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
        /// The date as written.
        on: String,
    },
    /// Seed was sown.
    Sown {
        /// The sowing.
        sowing: String,
        /// The seed lot.
        lot: String,
        /// Seeds.
        seeds: Option<u32>,
        /// The date as written.
        on: String,
    },
    /// Seedlings were counted.
    Counted {
        /// The sowing or community pot.
        of: String,
        /// Came up so far.
        up: Option<u32>,
        /// Alive now.
        standing: Option<u32>,
        /// The date as written.
        on: String,
    },
    /// Seedlings were pricked out.
    Pricked {
        /// The sowing.
        sowing: String,
        /// How many.
        moved: u32,
        /// The community pot.
        to: String,
        /// The date as written.
        on: String,
    },
    /// Seedlings got numbers.
    Numbered {
        /// Their codes.
        plants: Vec<String>,
        /// The community pot or sowing.
        from: String,
        /// The date as written.
        on: String,
    },
    /// Plants were potted on.
    Potted {
        /// Their codes.
        plants: Vec<String>,
        /// The pot.
        pot: String,
        /// Where they stand.
        place: Option<String>,
        /// The date as written.
        on: String,
    },
    /// Plants were moved.
    Moved {
        /// Their codes.
        plants: Vec<String>,
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
        /// The date as written.
        on: String,
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
        /// The date as written.
        on: String,
    },
    /// Plants or pots were mixed up, or it is known again which is which.
    Muddled {
        /// Their codes.
        codes: Vec<String>,
        /// Whether it is known again.
        settled: bool,
        /// How many seedlings are in doubt, when not all.
        rows: Option<u32>,
        /// The date as written.
        on: String,
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
        /// The day of the sitting.
        on: String,
    },
    /// Plants were looked for and found.
    Seen {
        /// How many were found.
        seen: usize,
        /// Codes of those that were not.
        missing: Vec<String>,
        /// The place.
        place: Option<String>,
        /// The date as written.
        on: String,
    },
    /// Plants were read.
    Measured {
        /// Those that got a row.
        plants: Vec<String>,
        /// Cells that hold a reading.
        readings: usize,
        /// Those found dead.
        dead: Vec<String>,
        /// The date as written.
        on: String,
    },
    /// A change was taken back.
    Undone {
        /// Its number.
        change: u32,
        /// The command that had made it.
        asked: String,
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
