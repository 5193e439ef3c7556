//! A picture as it was read, and where it belongs.

use crate::picture::{TagSeen, Taken};
use crate::record::Day;
use crate::registry::{PlantOrRamet, PlantRow};

/// A picture as it was read.
#[derive(Clone, Debug)]
pub struct PictureRead {
    /// Its name after those of its folders, `/` between them.
    pub file: String,
    /// By what it is known again.
    pub mark: String,
    /// When it was taken.
    pub taken: Option<Taken>,
    /// The tags in it, or why it cannot be read.
    pub seen: Result<TagSeen, String>,
}

/// A picture and where it belongs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Placed {
    /// Its name in the folder.
    pub file: String,
    /// By what it is known again.
    pub mark: String,
    /// Day, hour and minute it was taken.
    pub taken: Option<(Day, u8, u8)>,
    /// Where it belongs.
    pub placing: Placing,
}

/// Where a picture belongs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Placing {
    /// To the plant, or the piece of one, whose tag is in it.
    Own(PlantOrRamet),
    /// To the plant whose tag was in the picture just before it.
    Before(TagBefore),
    /// Likely to the plant whose tag was in a picture before it; the grower is asked.
    Likely(TagBefore, Doubt),
    /// It was taken in before, as this file.
    OnRecord(String),
    /// The folder has it twice; the other name.
    Same(String),
    /// It is not known of which plant it is.
    Unplaced(Why),
}

/// A tag in a picture that was taken before.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TagBefore {
    /// The plant.
    pub of: PlantOrRamet,
    /// The picture that shows the tag.
    pub tag_in: String,
    /// Whole minutes since that one was taken.
    pub minutes: i64,
}

/// Why it is a question whether a picture shows the plant of a tag before it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Doubt {
    /// It is the second or a later picture after the tag: one between may have shown a tag.
    NotTheFirst(usize),
    /// A picture without a date may show a tag and belong between.
    Undated,
}

/// Why a picture is not placed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Why {
    /// It cannot be read; the reason.
    NotRead(String),
    /// It does not say when it was taken.
    NoDate,
    /// It was taken after today, by the camera's clock.
    Future,
    /// The tag in it cannot be read.
    TagUnreadable,
    /// Something in it looks like a tag.
    TagPerhaps,
    /// Nothing in it is sharp, so that it may show a tag that cannot be seen.
    OutOfFocus,
    /// Several tags are in it; what they say.
    SeveralTags(Vec<String>),
    /// The tag's code is not on record here.
    NotOnRecord(String),
    /// The tag is that of a cross, sowing, pot, envelope or species.
    NotAPlant(String),
    /// It was taken before the plant was sown.
    BeforeSown {
        /// The plant.
        plant: PlantRow,
        /// The first day on which it can have been sown.
        sown: Day,
    },
    /// It was taken after the plant died, was culled or left.
    AfterEnd {
        /// The plant.
        plant: PlantRow,
        /// The last day on which that can have been.
        ended: Day,
    },
    /// It was taken between the day on which the plant left and the day on which it came back.
    WhileAway {
        /// The plant.
        plant: PlantRow,
        /// The last day on which it can have left.
        left: Day,
        /// The first day on which it can have come back.
        back: Day,
    },
    /// No picture with a tag was taken before it.
    NoTagBefore,
    /// It shows no tag and was taken so many minutes after the picture before, or after one that was.
    Pause(i64),
    /// It shows no tag, and the last one before it could not be used.
    After {
        /// The picture with that tag.
        file: String,
        /// What was wrong with it.
        why: Box<Why>,
    },
}
