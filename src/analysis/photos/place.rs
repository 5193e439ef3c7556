//! Which plant each picture shows.
//!
//! Pictures of one folder are taken in the order of the camera's clock. A tag stands for the picture just after it. For
//! those that follow it is likely, and the grower is asked: one of them may be a tag that was not seen as one. It ends
//! with the next tag, with a picture that may show one but cannot be read, and with a pause.

use super::answer::{Doubt, PictureRead, Placed, Placing, TagBefore, Why};
use crate::observation::photos::photos;
use crate::observation::presence::end_of;
use crate::observation::provenance::sown;
use crate::picture::{TagSeen, Taken, mark_of_name};
use crate::record::{Day, When};
use crate::registry::{PlantOrRamet, Registry, natural_order};
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
        of: PlantOrRamet,
        file: String,
        at: Moment,
        /// Pictures without a tag since.
        followed: usize,
    },
    Ended(Why),
}

/// Places pictures, folder by folder, in the order in which they were taken, then those without a date by name. A pause
/// is more than `gap` minutes from one picture to the next.
pub fn place(registry: &Registry, read: &[PictureRead], gap: u32, today: Day) -> Vec<Placed> {
    let mut folders: BTreeMap<&str, Vec<&PictureRead>> = BTreeMap::new();
    for of in read {
        folders.entry(folder(&of.file)).or_default().push(of);
    }
    let on_record = on_record(registry);
    let mut seen: BTreeMap<&str, &str> = BTreeMap::new();
    let mut placed = Vec::new();
    for pictures in folders.into_values() {
        let mut walk = Walk::of(registry, &pictures, (gap, today));
        for (at, of) in in_order(pictures) {
            let placing = walk.next(at, of);
            let twin = seen.insert(&of.mark, &of.file);
            placed.push(Placed {
                file: of.file.clone(),
                mark: of.mark.clone(),
                taken: at.map(Moment::shown),
                placing: match (on_record.get(of.mark.as_str()), twin) {
                    (Some(file), _) => Placing::OnRecord((*file).clone()),
                    (None, Some(twin)) => Placing::Same(twin.to_owned()),
                    (None, None) => placing,
                },
            });
        }
    }
    placed
}

/// The same with the pictures in question taken as the plant named, where the grower says so.
pub fn accepted(placed: Vec<Placed>, says: impl Fn(&str) -> bool) -> Vec<Placed> {
    let accept = |of: Placed| match of.placing {
        Placing::Likely(before, _) if says(&of.file) => Placed {
            placing: Placing::Before(before),
            ..of
        },
        _ => of,
    };
    placed.into_iter().map(accept).collect()
}

/// The folders that hold a picture.
fn folder(file: &str) -> &str {
    file.rsplit_once('/').map_or("", |(folder, _)| folder)
}

fn moment(of: &PictureRead) -> Option<Moment> {
    of.taken.and_then(Moment::of)
}

fn in_order(pictures: Vec<&PictureRead>) -> Vec<(Option<Moment>, &PictureRead)> {
    let mut in_order: Vec<_> = pictures.into_iter().map(|of| (moment(of), of)).collect();
    in_order.sort_by(|(at, one), (other_at, other)| {
        let when = (at.is_none(), at).cmp(&(other_at.is_none(), other_at));
        when.then_with(|| natural_order(&one.file, &other.file))
    });
    in_order
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
    /// Whether a picture without a date may show a tag.
    is_open: bool,
}

impl<'r, 't> Walk<'r, 't> {
    fn of(
        registry: &'r Registry<'t>,
        pictures: &[&PictureRead],
        (gap, today): (u32, Day),
    ) -> Walk<'r, 't> {
        let is_open = |of: &&PictureRead| moment(of).is_none() && of.seen != Ok(TagSeen::None);
        Walk {
            registry,
            pause: i64::from(gap) * 60,
            today,
            tag: LastTag::None,
            before: None,
            is_open: pictures.iter().any(is_open),
        }
    }

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
                self.tag = LastTag::Of {
                    of: own,
                    file,
                    at,
                    followed: 0,
                };
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
    fn own(&self, of: &PictureRead) -> Option<Result<PlantOrRamet, Why>> {
        Some(match &of.seen {
            Err(why) => Err(Why::NotRead(why.clone())),
            Ok(TagSeen::None) => return None,
            Ok(TagSeen::OutOfFocus) => Err(Why::OutOfFocus),
            Ok(TagSeen::Unreadable) => Err(Why::TagUnreadable),
            Ok(TagSeen::Perhaps) => Err(Why::TagPerhaps),
            Ok(TagSeen::Several(codes)) => Err(Why::SeveralTags(codes.clone())),
            Ok(TagSeen::Read(code)) => match self.registry.target(code) {
                Some(target) => {
                    (target.plant_or_ramet()).ok_or_else(|| Why::NotAPlant(code.clone()))
                }
                None => Err(Why::NotOnRecord(code.clone())),
            },
        })
    }

    /// Of a picture without a tag, so many seconds after the one before.
    fn by_last_tag(&mut self, at: Moment, since: Option<i64>) -> Placing {
        if let Some(since) = since.filter(|since| *since > self.pause) {
            self.tag = match self.tag {
                LastTag::None => LastTag::None,
                _ => LastTag::Ended(Why::Pause((since + 59) / 60)),
            };
        }
        match &mut self.tag {
            LastTag::None => Placing::Unplaced(Why::NoTagBefore),
            LastTag::Ended(why) => Placing::Unplaced(why.clone()),
            LastTag::Of {
                of,
                file,
                at: tag,
                followed,
            } => {
                *followed += 1;
                let before = TagBefore {
                    of: *of,
                    tag_in: file.clone(),
                    minutes: (at.seconds() - tag.seconds()) / 60,
                };
                match (self.is_open, *followed) {
                    (true, _) => Placing::Likely(before, Doubt::Undated),
                    (false, 1) => Placing::Before(before),
                    (false, later) => Placing::Likely(before, Doubt::NotTheFirst(later)),
                }
            }
        }
    }

    /// A picture with a plant, unless its day cannot be right.
    fn in_time(&self, day: Day, placing: Placing) -> Placing {
        // A wrong clock, not the time between the pictures, is why no tag is before it.
        if let Placing::Unplaced(Why::Pause(_) | Why::NoTagBefore | Why::After { .. }) = placing
            && day > self.today
        {
            return Placing::Unplaced(Why::Future);
        }
        let (Placing::Own(of)
        | Placing::Before(TagBefore { of, .. })
        | Placing::Likely(TagBefore { of, .. }, _)) = &placing
        else {
            return placing;
        };
        let sown = sown(self.registry, of.plant);
        let piece = self
            .registry
            .ramet(*of)
            .and_then(|piece| piece.fate.as_ref());
        let of_piece = piece.map(|fate| self.registry.when(fate.on()));
        let end = of_piece.or(end_of(self.registry, of.plant, self.today));
        if day > self.today {
            Placing::Unplaced(Why::Future)
        } else if sown.is_bounded() && When::on(day).surely_before(sown) {
            Placing::Unplaced(Why::BeforeSown {
                plant: of.plant,
                sown: sown.first,
            })
        } else if let Some(end) = end.filter(|end| end.surely_before(When::on(day))) {
            Placing::Unplaced(Why::AfterEnd {
                plant: of.plant,
                ended: end.last,
            })
        } else if let Some(why) = self.while_away(*of, When::on(day)) {
            Placing::Unplaced(why)
        } else {
            placing
        }
    }

    /// That a plant or its piece was surely with another grower on a day.
    fn while_away(&self, of: PlantOrRamet, day: When) -> Option<Why> {
        let registry = self.registry;
        let of_piece = registry.ramet(of).map(|piece| &piece.came_back[..]);
        let returns = registry.came_back(of.plant).iter();
        let mut returns = returns.chain(of_piece.unwrap_or_default());
        returns.find_map(|back| {
            let (left, back) = (registry.when(back.left.on()), registry.when(back.on));
            let is_away = left.surely_before(day) && day.surely_before(back);
            is_away.then_some(Why::WhileAway {
                plant: of.plant,
                left: left.last,
                back: back.first,
            })
        })
    }
}
