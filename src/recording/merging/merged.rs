//! What comes of a merge, and the text of each page of it.

use super::apart::{Apart, things};
use super::conflict::{Conflict, Decisions, Place, Side, Three};
use super::joined::Joined;
use super::likely::Likely;
use super::locate::line_of;
use super::named::keep_named;
use super::of_ours::Stayed;
use super::pages::{About, Pair, Pairs, Renames, Sheet, path_of};
use super::rewrite::rewritten;
use super::said::said;
use super::three_way::{Merging, TwoNames};
use crate::record::JournalMerge;
use crate::recording::draft::PageChange;
use crate::recording::says::value::{Record, Value};
use crate::recording::slip::Slip;
use crate::registry::{Registry, STARTER};
use crate::text::Outline;

/// A field that both sides changed, in words.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Clash {
    /// What it is about.
    pub about: String,
    /// What it says here, and where.
    pub here: (Option<String>, String),
    /// What it says there, and where.
    pub there: (Option<String>, String),
    /// What differs, in words, here and there.
    pub differs: [String; 2],
    /// Whose word stays; none where that is not decided.
    pub kept: Option<Side>,
}

/// What comes of a merge.
#[derive(Clone, Default, Debug)]
pub struct Merged {
    /// The pages that change.
    pub changes: Vec<PageChange>,
    /// Fields that both sides changed.
    pub clashes: Vec<Clash>,
    /// What both sides added under one code, and whose gets another.
    pub apart: Apart,
    /// Our codes that an earlier merge on the other side changed, with the new ones.
    pub followed: Renames,
    /// Our codes that the other side does not have any more, since a merge there made the plant one with another.
    pub follows: Renames,
    /// Founders that the grower says are one plant.
    pub joined: Vec<Joined>,
    /// Founders that may be one plant, to be asked about.
    pub likely: Vec<Likely>,
    /// Codes in another grower's registry of founders that are our own here.
    pub own: Vec<String>,
    /// The same of crosses.
    pub own_crosses: Vec<String>,
    /// Dates with seasons on the changed pages that are written as months, since they are another time here.
    pub seasons: usize,
    /// What of our crosses stays with the other grower.
    pub stayed: Vec<Stayed>,
    /// Records that one side had taken out, which go.
    pub taken_out: Vec<String>,
    /// Names of one day that either side accepted by itself.
    pub two_names: Vec<TwoNames>,
    /// Remarks of the other's pages that find no place here, by page.
    pub remarks: Vec<(String, Vec<String>)>,
    /// What the journal keeps of it.
    pub memory: JournalMerge,
}

impl Merged {
    /// Old codes and new ones of what both sides had under one code, and whether they are theirs.
    pub fn recoded(&self) -> Vec<(&str, &str, bool)> {
        let theirs = self.apart.side == Some(Side::Theirs);
        let followed = self.followed.iter().map(|of| (of, false));
        let apart = self.apart.renamed.iter().map(|of| (of, theirs));
        let all = followed.chain(apart);
        all.map(|((was, now), theirs)| (was.as_str(), now.as_str(), theirs))
            .collect()
    }
}

/// What was said and gave way, in words, for the journal.
pub fn not_kept(clashes: &[Clash]) -> Vec<String> {
    let lost = clashes.iter().filter_map(|clash| {
        let (whose, value) = match clash.kept? {
            Side::Ours => ("there", &clash.there.0),
            Side::Theirs => ("here", &clash.here.0),
        };
        let value = value.as_deref().unwrap_or("taken out");
        Some(format!("{}: {whose} {value}", clash.about))
    });
    lost.collect()
}

/// What a page is about, the page on both sides, and its text as it is to be; none when it goes.
pub type MergedPage<'p> = (&'p About, &'p Pair, Option<String>);

/// The text of each page as it is to be. What one side took out stays where a page names it; `rest` are
/// pages of ours that are not merged.
///
/// # Errors
/// If a page cannot be changed.
pub fn merged_pages<'p>(
    (pairs, rest): (&'p mut Pairs, &[&str]),
    by: (&Decisions, &Registry),
    merged: &mut Merged,
) -> Result<Vec<MergedPage<'p>>, Slip> {
    let before = merged.clone();
    let mut texts = texts(pairs, by, merged)?;
    if keep_named(pairs, &texts, rest)? {
        *merged = before;
        texts = self::texts(pairs, by, merged)?;
    }
    let pages = pairs.iter().zip(texts);
    Ok(pages
        .map(|((about, pair), text)| (about, pair, text))
        .collect())
}

fn texts(
    pairs: &Pairs,
    by: (&Decisions, &Registry),
    merged: &mut Merged,
) -> Result<Vec<Option<String>>, Slip> {
    let pages = pairs.iter();
    pages.map(|page| merged_page(page, by, merged)).collect()
}

/// The text of a page as it is to be; none when it goes.
///
/// # Errors
/// If our page cannot be changed.
fn merged_page(
    (about, pair): (&About, &Pair),
    (decisions, registry): (&Decisions, &Registry),
    merged: &mut Merged,
) -> Result<Option<String>, Slip> {
    let texts @ [base, ours, theirs] = pair.texts();
    let is_known = pair.base.is_some();
    if ours == theirs || is_known && base == theirs {
        return Ok(ours.map(str::to_owned));
    }
    if is_known && base == ours || !is_known && ours.is_none() {
        merged.taken_out.extend(gone(about, ours, theirs));
        return Ok(theirs.map(str::to_owned));
    }
    if !is_known && theirs.is_none() {
        return Ok(ours.map(str::to_owned));
    }
    let mut merging = Merging {
        decisions,
        hemisphere: registry.settings.hemisphere,
        conflicts: Vec::new(),
        two_names: Vec::new(),
    };
    let values = texts.map(|text| text.and_then(Record::of_page).map(Value::Record));
    let [base, own, other] = values.each_ref().map(Option::as_ref);
    let place = Place {
        about: about.words().to_owned(),
        steps: Vec::new(),
    };
    let of = Three {
        base,
        ours: own,
        theirs: other,
    };
    let wanted = merging.value("", &place, of);
    let text = match (wanted, ours, theirs) {
        (Some(Value::Record(wanted)), Some(ours), Some(_)) => Some(rewritten(ours, &wanted)?),
        (Some(_), ours, theirs) => ours.or(theirs).map(str::to_owned),
        (None, ..) => None,
    };
    merged.taken_out.extend(gone(about, ours, text.as_deref()));
    merged.two_names.append(&mut merging.two_names);
    let conflicts = merging.conflicts.into_iter();
    merged.clashes.extend(conflicts.map(|of| clash(of, pair)));
    let left = remarks_left(pair, text.as_deref());
    if !left.is_empty() {
        merged.remarks.push((path_of(&pair.theirs), left));
    }
    Ok(text)
}

/// Plants, crosses and parts of crosses of our page that the merged one does not have.
fn gone(about: &About, ours: Option<&str>, merged: Option<&str>) -> Vec<String> {
    let [was, now] = [ours, merged].map(|text| things(about, text));
    was.difference(&now).cloned().collect()
}

/// A conflict in words.
fn clash(of: Conflict, pair: &Pair) -> Clash {
    let at = |sheet: &Option<Sheet>| {
        let line = sheet
            .as_ref()
            .and_then(|sheet| line_of(&sheet.text, &of.steps));
        let path = path_of(sheet);
        line.map_or(path.clone(), |line| format!("{path}:{line}"))
    };
    Clash {
        differs: said(&of.steps, of.here.as_ref(), of.there.as_ref()),
        here: (of.here.as_ref().map(Value::line), at(&pair.ours)),
        there: (of.there.as_ref().map(Value::line), at(&pair.theirs)),
        about: of.about,
        kept: of.kept,
    }
}

/// Remarks of their page that are not in the merged one, were not in what both came from, and that a grower wrote: what
/// a new registry begins with is no news.
fn remarks_left(pair: &Pair, merged: Option<&str>) -> Vec<String> {
    let remarks = |text: Option<&str>| text.map_or(Vec::new(), |text| Outline::of(text).remarks());
    let path = path_of(&pair.theirs);
    let starter = STARTER.iter().find(|file| file.path == path);
    let [base, _, theirs] = pair.texts();
    let known = [base, merged, starter.map(|file| file.text)];
    let known = known.map(remarks).concat();
    let mut left = remarks(theirs);
    left.retain(|remark| !known.contains(remark));
    left
}
