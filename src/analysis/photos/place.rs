//! Which plant each picture shows.
//!
//! Pictures are taken in the order of the camera's clock. A tag stands for the pictures after it until the next tag,
//! until a picture that may show one but cannot be read, or until a pause. Nothing is guessed: what a picture shows is
//! known from a code or not at all.

use super::answer::{PhotoOf, PictureRead, Placed, Placing, Why};
use crate::observation::photos::photos;
use crate::observation::provenance::sown;
use crate::picture::{TagSeen, Taken, mark_of_name};
use crate::record::{Day, When};
use crate::registry::{Registry, Target, natural_order};
use std::collections::BTreeMap;

/// A moment of the camera's clock.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
struct Moment {
    day: Day,
    /// Seconds since midnight.
    second: i64,
    nanos: u32,
}

impl Moment {
    fn of(taken: Taken) -> Option<Moment> {
        let day = Day::new(taken.year.into(), taken.month.into(), taken.day.into())?;
        let (hour, minute) = (i64::from(taken.hour), i64::from(taken.minute));
        // A leap second is written as 60.
        let is_time = hour < 24 && minute < 60 && taken.second <= 60;
        is_time.then_some(Moment {
            day,
            second: hour * 3600 + minute * 60 + i64::from(taken.second),
            nanos: taken.nanos,
        })
    }

    fn seconds(self) -> i64 {
        i64::from(self.day.0) * 86_400 + self.second
    }

    fn shown(self) -> (Day, u8, u8) {
        let minutes = (self.second / 60).min(24 * 60 - 1);
        (self.day, (minutes / 60) as u8, (minutes % 60) as u8)
    }
}

/// What the last tag stands for.
enum LastTag {
    None,
    Of {
        of: PhotoOf,
        file: String,
        at: Moment,
    },
    Ended(Why),
}

/// Places pictures, in the order in which they were taken, then those without a date by name. A pause is more than `gap`
/// minutes from one picture to the next.
pub fn place(registry: &Registry, read: &[PictureRead], gap: u32, today: Day) -> Vec<Placed> {
    let moment = |of: &PictureRead| of.taken.and_then(Moment::of);
    let mut in_order: Vec<(Option<Moment>, &PictureRead)> =
        read.iter().map(|of| (moment(of), of)).collect();
    in_order.sort_by(|(at, one), (other_at, other)| {
        let when = (at.is_none(), at).cmp(&(other_at.is_none(), other_at));
        when.then_with(|| natural_order(&one.file, &other.file))
    });
    let on_record = on_record(registry);
    let mut seen: BTreeMap<&str, &str> = BTreeMap::new();
    let mut walk = Walk {
        registry,
        pause: i64::from(gap) * 60,
        today,
        tag: LastTag::None,
        before: None,
    };
    let placed = in_order.into_iter().map(|(at, of)| {
        let placing = walk.next(at, of);
        let twin = seen.insert(&of.mark, &of.file);
        let placing = match (on_record.get(of.mark.as_str()), twin) {
            (Some(file), _) => Placing::OnRecord((*file).clone()),
            (None, Some(twin)) => Placing::Same(twin.to_owned()),
            (None, None) => placing,
        };
        Placed {
            file: of.file.clone(),
            mark: of.mark.clone(),
            taken: at.map(Moment::shown),
            placing,
        }
    });
    placed.collect()
}

/// The name of a picture's copy: of the plant and the day, with the mark by which the picture is known again.
pub fn copy_name(code: &str, on: Day, mark: &str) -> String {
    let safe = |c: char| match c.is_ascii_alphanumeric() || c == '-' {
        true => c,
        false => '_',
    };
    let code: String = code.chars().map(safe).collect();
    format!("photos/{code}-{on}-{mark}.jpg")
}

/// The files that were taken in before, by the mark of what they are copies of.
fn on_record(registry: &Registry) -> BTreeMap<String, String> {
    let all = registry
        .plants()
        .flat_map(|plant| photos(registry, plant))
        .map(|photo| photo.file.to_string());
    all.filter_map(|file| Some((mark_of_name(&file)?.to_owned(), file)))
        .collect()
}

/// Pictures one after the other.
struct Walk<'r, 't> {
    registry: &'r Registry<'t>,
    /// Seconds.
    pause: i64,
    today: Day,
    tag: LastTag,
    before: Option<Moment>,
}

impl Walk<'_, '_> {
    fn next(&mut self, at: Option<Moment>, of: &PictureRead) -> Placing {
        let Some(at) = at else {
            return Placing::Unplaced(match &of.seen {
                Err(why) => Why::NotRead(why.clone()),
                Ok(_) => Why::NoDate,
            });
        };
        let since = self
            .before
            .replace(at)
            .map(|before| at.seconds() - before.seconds());
        let placing = match self.own(of) {
            Some(Ok(own)) => {
                let file = of.file.clone();
                self.tag = LastTag::Of { of: own, file, at };
                Placing::Own(own)
            }
            Some(Err(why)) => {
                self.tag = LastTag::Ended(Why::After {
                    file: of.file.clone(),
                    why: Box::new(why.clone()),
                });
                Placing::Unplaced(why)
            }
            None => self.by_last_tag(at, since),
        };
        self.in_time(at.day, placing)
    }

    /// The plant whose tag is in the picture, or why its tag is of no use; none where it shows no tag.
    fn own(&self, of: &PictureRead) -> Option<Result<PhotoOf, Why>> {
        Some(match &of.seen {
            Err(why) => Err(Why::NotRead(why.clone())),
            Ok(TagSeen::None) => return None,
            Ok(TagSeen::OutOfFocus) => Err(Why::OutOfFocus),
            Ok(TagSeen::Unreadable) => Err(Why::TagUnreadable),
            Ok(TagSeen::Several(codes)) => Err(Why::SeveralTags(codes.clone())),
            Ok(TagSeen::Read(code)) => match self.registry.target(code) {
                Some(Target::Plant(plant)) => Ok(PhotoOf { plant, piece: None }),
                Some(Target::Ramet(plant, piece)) => Ok(PhotoOf {
                    plant,
                    piece: Some(piece),
                }),
                Some(_) => Err(Why::NotAPlant(code.clone())),
                None => Err(Why::NotOnRecord(code.clone())),
            },
        })
    }

    /// Of a picture without a tag, so many seconds after the one before.
    fn by_last_tag(&mut self, at: Moment, since: Option<i64>) -> Placing {
        if let Some(since) = since.filter(|since| *since > self.pause) {
            self.tag = match self.tag {
                LastTag::None => LastTag::None,
                _ => LastTag::Ended(Why::Pause(since / 60)),
            };
        }
        match &self.tag {
            LastTag::None => Placing::Unplaced(Why::NoTagBefore),
            LastTag::Ended(why) => Placing::Unplaced(why.clone()),
            LastTag::Of { of, file, at: tag } => Placing::Before {
                of: *of,
                tag_in: file.clone(),
                minutes: (at.seconds() - tag.seconds()) / 60,
            },
        }
    }

    /// A picture with a plant, unless its day cannot be right.
    fn in_time(&self, day: Day, placing: Placing) -> Placing {
        let (Placing::Own(of) | Placing::Before { of, .. }) = &placing else {
            return placing;
        };
        let sown = sown(self.registry, of.plant);
        if day > self.today {
            Placing::Unplaced(Why::Future)
        } else if sown.is_bounded() && When::on(day).surely_before(sown) {
            Placing::Unplaced(Why::BeforeSown {
                plant: of.plant,
                sown: sown.first,
            })
        } else {
            placing
        }
    }
}
