//! Pictures a phone made, each with the plant it shows or why that is not known.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::photos::{Doubt, Placed, Placing, TagBefore, Why, copy_name};
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::{counted, led_by, time_passed};
use serde::Serialize;
use std::collections::BTreeSet;

/// What takes in every picture in question.
pub const ALL: &str = "all";

/// The pictures of a folder.
#[derive(Serialize)]
pub struct PhotosReport {
    /// Pictures that are placed with a plant and new.
    pub new: usize,
    /// Plants they show.
    pub plants: usize,
    /// Pictures that are on record already, or twice in the folder.
    pub known: usize,
    /// Pictures whose plant is not known.
    pub not_placed: usize,
    /// Pictures of which the likely plant is known, and which are taken in only when the grower says so.
    pub in_question: usize,
    /// Each picture, in the order in which they were taken.
    pub pictures: Vec<PictureRow>,
    /// Other files of the folder, not read.
    pub other_files: usize,
    /// What was recorded; none when nothing was.
    pub recorded: Option<String>,
    /// Number of the change in the journal.
    pub change: Option<u32>,
    /// What to look at.
    pub cautions: Vec<String>,
    /// The command that takes the pictures in.
    pub next: Option<String>,
}

/// One picture.
#[derive(Serialize)]
pub struct PictureRow {
    /// Its name in the folder.
    pub file: String,
    /// Day, hour and minute by the camera's clock.
    pub taken: Option<String>,
    /// The plant or piece; the likely one of a picture in question.
    pub plant: Option<String>,
    /// `tag`, `tag_before`, `likely`, `on_record`, `twice` or `not_placed`.
    pub placed_by: &'static str,
    /// Why it is placed there, or is not.
    pub why: String,
    /// The file its copy has, or would have; none where there is to be none.
    pub copy: Option<String>,
}

/// Words for pictures that were placed.
pub fn photos_report(registry: &Registry, placed: &[Placed], other_files: usize) -> PhotosReport {
    let rows: Vec<PictureRow> = placed.iter().map(|of| row(registry, of)).collect();
    let new: Vec<&PictureRow> = rows.iter().filter(|row| row.copy.is_some()).collect();
    let count = |placed_by| rows.iter().filter(|row| row.placed_by == placed_by).count();
    let (not_placed, in_question) = (count("not_placed"), count("likely"));
    let plants: BTreeSet<_> = placed
        .iter()
        .filter_map(|of| photo_of(&of.placing))
        .collect();
    let plants: BTreeSet<_> = plants.into_iter().map(|of| of.plant).collect();
    PhotosReport {
        new: new.len(),
        plants: plants.len(),
        known: rows.len() - new.len() - not_placed - in_question,
        not_placed,
        in_question,
        other_files,
        recorded: None,
        change: None,
        cautions: cautions(placed),
        next: None,
        pictures: rows,
    }
}

/// The plant with which a new picture is placed.
pub fn photo_of(placing: &Placing) -> Option<PlantOrRamet> {
    match placing {
        Placing::Own(of) | Placing::Before(TagBefore { of, .. }) => Some(*of),
        _ => None,
    }
}

fn cautions(placed: &[Placed]) -> Vec<String> {
    let count = |of: fn(&Placing) -> bool| placed.iter().filter(|one| of(&one.placing)).count();
    let by_before = count(|of| matches!(of, Placing::Before(_)));
    let undated = placed.iter().filter(|one| one.taken.is_none()).count();
    let mut cautions = Vec::new();
    if by_before > 0 && undated > 0 {
        cautions.push(format!(
            "{} without a date: if one shows a tag, the pictures taken after it may be placed with the plant before. Look through those",
            counted(undated, "picture is", "pictures are")
        ));
    }
    if by_before > 0 {
        cautions.push(format!(
            "{} placed by the tag of an earlier picture. A tag too blurred to be seen as one is passed over: look through those",
            counted(by_before, "picture is", "pictures are")
        ));
    }
    let question = placed
        .iter()
        .find(|one| matches!(one.placing, Placing::Likely(..)));
    if let Some(question) = question {
        cautions.push(format!(
            "pictures in question are not taken in. Look at them, then add --likely with a picture, as in --likely {}, or --likely {ALL} for all of them",
            question.file
        ));
    }
    cautions
}

fn row(registry: &Registry, of: &Placed) -> PictureRow {
    let placed = photo_of(&of.placing).map(|of| registry.code_of(of));
    let taken = of
        .taken
        .map(|(day, hour, minute)| format!("{day} {hour:02}:{minute:02}"));
    let copy = placed.as_ref().zip(of.taken);
    let copy = copy.map(|(plant, (day, ..))| copy_name(plant, day, &of.mark));
    let (placed_by, why) = match &of.placing {
        Placing::Own(_) => ("tag", "tag in the picture".to_owned()),
        Placing::Before(before) => ("tag_before", tag_before(before)),
        Placing::Likely(before, doubt) => ("likely", in_question(before, *doubt)),
        Placing::OnRecord(file) => ("on_record", format!("on record as {file}")),
        Placing::Same(file) => ("twice", format!("the same picture as {file}")),
        Placing::Unplaced(why) => ("not_placed", words(registry, why)),
    };
    let likely = match &of.placing {
        Placing::Likely(before, _) => Some(registry.code_of(before.of)),
        _ => None,
    };
    PictureRow {
        file: of.file.clone(),
        taken,
        plant: placed.or(likely),
        placed_by,
        why,
        copy,
    }
}

fn tag_before(of: &TagBefore) -> String {
    format!("tag in {}, {}", of.tag_in, earlier(of.minutes))
}

fn in_question(of: &TagBefore, doubt: Doubt) -> String {
    match doubt {
        Doubt::NotTheFirst(later) => {
            format!("picture {later} after the {}", tag_before(of))
        }
        Doubt::Undated => format!(
            "{}; a picture without a date may show a tag between",
            tag_before(of)
        ),
    }
}

fn earlier(minutes: i64) -> String {
    match minutes {
        0 => "under a minute earlier".to_owned(),
        minutes => format!("{} earlier", counted(minutes as usize, "minute", "minutes")),
    }
}

fn words(registry: &Registry, why: &Why) -> String {
    match why {
        Why::NotRead(why) => format!("cannot be read: {why}"),
        Why::NoDate => "the picture does not say when it was taken".to_owned(),
        Why::Future => "taken after today: the camera's clock was wrong".to_owned(),
        Why::TagUnreadable => "the tag in it cannot be read".to_owned(),
        Why::TagPerhaps => "it seems to show a tag that cannot be read".to_owned(),
        Why::OutOfFocus => "nothing in it is sharp: it may show a tag".to_owned(),
        Why::SeveralTags(codes) => format!("several tags in it: {}", codes.join(", ")),
        Why::NotOnRecord(code) => format!("its tag says {code}, which is not on record"),
        Why::NotAPlant(code) => format!("its tag, {code}, is not the tag of a plant"),
        Why::BeforeSown { plant, sown } => format!(
            "taken before {} was sown ({sown} at the earliest)",
            registry.code(*plant)
        ),
        Why::AfterEnd { plant, ended } => format!(
            "taken after {} died or left ({ended} at the latest)",
            registry.code(*plant)
        ),
        Why::WhileAway { plant, left, back } => format!(
            "taken while {} was away (left {left}, back {back})",
            registry.code(*plant)
        ),
        Why::NoTagBefore => "no tag in it, and none in a picture before it".to_owned(),
        Why::Pause(minutes) => format!("no tag since a pause of {}", pause(*minutes)),
        Why::After { file, why } => {
            let what = match **why {
                Why::NotRead(_) => "cannot be read",
                Why::OutOfFocus => "is out of focus",
                Why::TagUnreadable => "shows a tag that cannot be read",
                Why::TagPerhaps => "seems to show a tag that cannot be read",
                Why::SeveralTags(_) => "shows several tags",
                Why::NotAPlant(_) => "shows a tag that is not a plant's",
                _ => "shows a tag that is not on record",
            };
            format!("no tag in it, and {file} before it {what}")
        }
    }
}

/// Minutes, or days where there are many.
fn pause(minutes: i64) -> String {
    const OF_A_DAY: i64 = 24 * 60;
    match minutes {
        OF_A_DAY.. => time_passed(i32::try_from(minutes / OF_A_DAY).unwrap_or(i32::MAX)),
        _ => counted(minutes as usize, "minute", "minutes"),
    }
}

impl PhotosReport {
    fn answer(&self) -> String {
        let pictures = counted(self.pictures.len(), "picture", "pictures");
        let more = |n: usize, what: &str| Some(format!("{n} {what}")).filter(|_| n > 0);
        let known = led_by(", ", more(self.known, "on record already"));
        let in_question = led_by(", ", more(self.in_question, "in question"));
        let left = format!("{} not placed{in_question}{known}", self.not_placed);
        match (&self.recorded, self.new) {
            (Some(recorded), _) => format!("{recorded}; {left}"),
            (None, 0) => format!("{pictures}: nothing new to take in; {left}"),
            (None, new) => format!(
                "{pictures}: {new} would be taken in, of {}; {left}. Nothing was recorded",
                counted(self.plants, "plant", "plants")
            ),
        }
    }

    fn table(&self, title: &str, of: impl Fn(&PictureRow) -> bool) -> Table {
        Table::of(self.pictures.iter().filter(|row| of(row)))
            .titled(title)
            .text("picture", |row| &row.file)
            .text("taken", |row| &row.taken)
            .text("plant", |row| &row.plant)
            .text("why", |row| &row.why)
            .into()
    }
}

/// Which rows a table holds.
type Kind = fn(&PictureRow) -> bool;

impl Report for PhotosReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let kinds: [(&str, Kind); 4] = [
            // What the grower is to decide comes first.
            ("In question: likely this plant", |row| {
                row.placed_by == "likely"
            }),
            ("Not placed", |row| row.placed_by == "not_placed"),
            ("Placed", |row| row.copy.is_some()),
            ("Known already", |row| {
                matches!(row.placed_by, "on_record" | "twice")
            }),
        ];
        for (title, of) in kinds {
            sheet.table_if_any(self.table(title, of));
        }
        sheet.cautions(Weight::Answer, &self.cautions);
        if self.other_files > 0 {
            let files = counted(self.other_files, "other file", "other files");
            sheet.caution(
                Weight::LeftOut,
                format!("{files} left out: not the name of a picture"),
            );
        }
        sheet.next = self.next.clone();
        sheet
    }
}
