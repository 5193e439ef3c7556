//! One intended pollination, weighed on one page before anything is dusted.

use super::descent::Descent;
use super::flowers::{between_words, spikes};
use super::founding::{Assumed, founding};
use super::kin::{RestsOn, probability};
use super::open::made_before;
use super::parent_readings::{ExpectedSpread, ParentReadings, reference_parents};
use super::pollen::{Envelope, OwnResults, SetRate, in_hand};
use super::read::{HybridName, hybrid_name_line, hybrid_names};
use super::shares::fraction_text;
use super::sheet::{Cell, Report, Sheet, Table};
use super::standing::{Presence, SexSeen, presence, sex_seen, sex_words};
use super::words::counted;
use crate::ancestry::{Heterozygosities, Part, Shares};
use crate::kinship::{Kinship, unknowns};
use crate::lineage::{FounderStock, Founding, Lineage, Origin, Pedigree, PlantRow};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{
    Direction, Formula, FormulaBuilder, Relation, Style, Writing, botanical, breeder, describe,
    suggest,
};
use crate::planning::intensity::{chance_of_both_sexes, expected_best, plants_for_one, usefulness};
use crate::record::{Day, Sex};
use crate::registry::Registry;
use serde::Serialize;

/// What the page is asked with.
#[derive(Clone, Copy, Debug)]
pub struct PairWishes {
    /// Seedlings that fit.
    pub seedlings: u32,
    /// Heritability within a pod, 0 to 1: an assumption.
    pub heritability: f64,
    /// Today.
    pub today: Day,
}

/// One intended pollination.
#[derive(Serialize)]
pub struct PairReport {
    /// Would bear the pods.
    pub seed: SideRow,
    /// Would give the pollen.
    pub pollen: SideRow,
    /// Why it cannot be made; empty if nothing is known against it.
    pub impossible: Vec<String>,
    /// The seedlings' formula in breeder order.
    pub formula: Option<String>,
    /// The same in botanical order.
    pub botanical: Option<String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Expected shares, exact.
    pub shares: Vec<PairShare>,
    /// Chance of two copies from different species, at least and at most.
    pub heterozygosity: (f64, f64),
    /// Expected inbreeding.
    pub inbreeding: PairInbreeding,
    /// Expected standard deviation against that of a pod of one species, least and greatest.
    pub spread_ratio: (f64, f64),
    /// What is expected of each trait.
    pub traits: Vec<PairTrait>,
    /// Seedlings that fit.
    pub seedlings: u32,
    /// Chance of both sexes among them.
    pub both_sexes: f64,
    /// Plants for a 95 % chance of one with an outcome expected in so many.
    pub plants_for_one: Vec<(String, u32)>,
    /// Crosses of the two on record.
    pub made_before: Vec<MadeBefore>,
    /// Flowers of the two, open or expected.
    pub flowers: Vec<String>,
    /// Envelopes of the pollen parent.
    pub envelopes: Vec<Envelope>,
    /// Facts and cautions.
    pub cautions: Vec<String>,
}

/// One side.
#[derive(Serialize)]
pub struct SideRow {
    /// Code.
    pub id: String,
    /// Short name.
    pub name: Option<String>,
    /// What is recorded of its sex.
    pub sex: String,
    /// Claims on nights, of the plant or of the founders behind it: code and words.
    pub nights: Vec<(String, String)>,
}

/// A share.
#[derive(Serialize)]
pub struct PairShare {
    /// Species, `A or B`, or `unknown`.
    pub of: String,
    /// Exact.
    pub share: String,
    /// Whether the list used puts the species in Appendix I.
    pub appendix_one: bool,
}

/// Inbreeding of the seedlings.
#[derive(Serialize)]
pub struct PairInbreeding {
    /// At least so much, under what is recorded.
    pub at_least: f64,
    /// The same if founders of one batch were unrelated; `null` when no batch matters.
    pub if_batches_unrelated: Option<f64>,
    /// What it rests on.
    pub rests_on: RestsOn,
}

/// A trait.
#[derive(Serialize)]
pub struct PairTrait {
    /// Its name.
    pub name: String,
    /// Mean and number of readings of the seed parent.
    pub seed: Option<(f64, usize)>,
    /// Mean and number of readings of the pollen parent.
    pub pollen: Option<(f64, usize)>,
    /// Mean of the two.
    pub mean: Option<f64>,
    /// Expected standard deviation as read, least and greatest.
    pub deviation: Option<(f64, f64)>,
    /// Usefulness for the number that fits, least and greatest.
    pub usefulness: Option<(f64, f64)>,
}

/// A cross made before.
#[derive(Serialize)]
pub struct MadeBefore {
    /// Its code.
    pub cross: String,
    /// Whether in this direction; `null` when the direction is lost.
    pub same_direction: Option<bool>,
    /// Flowers treated and pods set; zero is an outcome.
    pub set: SetRate,
    /// Pollinations whose outcome was not written down.
    pub not_counted: usize,
    /// Seedlings with a number.
    pub numbered: usize,
}

/// The registry with the intended pollination added as one more origin.
struct Intended<'i, 't> {
    registry: &'i Registry<'t>,
    lineage: &'i Lineage,
    names: &'i Names<'i, 't>,
    descent: Descent,
    pedigree: Pedigree,
    origin: usize,
    assumed: Assumed,
    pair: [PlantRow; 2],
}

/// Weighs one intended pollination.
///
/// # Errors
/// In words, when the line is too long or too entangled for exact figures.
pub fn pair(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    pair: [PlantRow; 2],
    wishes: PairWishes,
) -> Result<PairReport, String> {
    let descent = Descent::of(registry, lineage, names);
    let assumed = founding(registry, lineage, &descent);
    let mut pedigree = lineage.pedigree.clone();
    let origin = pedigree.add_origin(Origin::certain(Some(pair[0]), Some(pair[1]))) as usize;
    let intended = Intended {
        registry,
        lineage,
        names,
        descent,
        pedigree,
        origin,
        assumed,
        pair,
    };
    intended.report(wishes)
}

impl Intended<'_, '_> {
    fn report(&self, wishes: PairWishes) -> Result<PairReport, String> {
        let formula = self.formula();
        let writing = Writing {
            vocabulary: self.names.vocabulary(),
            style: Style::default(),
            sexes: false,
        };
        let told = describe(formula.clone(), "", self.names.vocabulary());
        let [seed, pollen] = self.pair;
        let (spread, readings) = self.spread()?;
        let heterozygosities = Heterozygosities::of(&self.pedigree, &self.descent.founders)
            .map_err(|error| error.to_string())?;
        let h = heterozygosities.heterozygosity_of_origin(self.origin);
        let results = OwnResults::of(self.registry, wishes.today);
        let envelopes = in_hand(self.registry, wishes.today, &results);
        let shares = self.shares()?;
        let mut report = PairReport {
            seed: self.side(seed),
            pollen: self.side(pollen),
            impossible: self.impossible(wishes.today),
            formula: breeder(&formula, &writing).ok(),
            botanical: botanical(&formula, &writing).ok(),
            names: hybrid_names(
                suggest(&formula, self.names.vocabulary()),
                &self.names.vocabulary().genus_short(),
            ),
            heterozygosity: (h.certain, h.possible),
            inbreeding: self.inbreeding()?,
            spread_ratio: spread.ratio(seed, pollen),
            traits: readings
                .iter()
                .map(|of| self.of_trait(of, &spread, wishes))
                .collect(),
            seedlings: wishes.seedlings,
            both_sexes: chance_of_both_sexes(wishes.seedlings),
            plants_for_one: [4, 16, 64]
                .into_iter()
                .filter_map(|parts| {
                    Some((
                        format!("1/{parts}"),
                        plants_for_one(1.0 / f64::from(parts), 0.95)?,
                    ))
                })
                .collect(),
            made_before: self.made_before(),
            flowers: self.flowers(wishes.today),
            envelopes: envelopes
                .into_iter()
                .filter(|e| e.plant == Some(pollen))
                .collect(),
            cautions: told.notes.into_iter().map(|note| note.text).collect(),
            shares,
        };
        report.cautions.extend(self.cautions(&report, wishes));
        Ok(report)
    }

    /// The seedlings' formula; siblings give the next filial generation.
    fn formula(&self) -> Formula {
        let [seed, pollen] = self.pair;
        let mut builder = FormulaBuilder::new();
        let side = |builder: &mut FormulaBuilder, plant| {
            builder.copy_bare(&self.names.formula(TopOf::Plant(plant), false))
        };
        let seed_part = side(&mut builder, seed);
        let from = |plant| self.lineage.pedigree.origin_index(plant);
        let siblings = from(seed).is_some() && from(seed) == from(pollen);
        let top = if seed == pollen {
            builder.within(seed_part, Relation::SelfReported)
        } else if siblings
            && self.lineage.pedigree.origins()[from(seed).unwrap_or(0)]
                .pairs
                .len()
                == 1
        {
            builder.within(seed_part, Relation::Filial)
        } else {
            let pollen_part = side(&mut builder, pollen);
            builder.cross(seed_part, pollen_part, Direction::Known)
        };
        builder.finish(top)
    }

    fn side(&self, plant: PlantRow) -> SideRow {
        let writing = Writing {
            vocabulary: self.names.vocabulary(),
            style: Style::default(),
            sexes: false,
        };
        let formula = self.names.formula(TopOf::Plant(plant), false);
        SideRow {
            id: self.registry.code(plant),
            name: crate::naming::formula_only(&formula, &writing).ok(),
            sex: sex_words(sex_seen(self.registry, plant)),
            nights: self.nights(plant),
        }
    }

    fn nights(&self, plant: PlantRow) -> Vec<(String, String)> {
        let above = self.lineage.pedigree.with_ancestors(&[plant]);
        let claims = above.into_iter().filter_map(|founder| {
            let nights = self.registry.founder(founder)?.nights.as_ref()?;
            Some((self.registry.code(founder), nights.to_string()))
        });
        claims.collect()
    }

    fn impossible(&self, today: Day) -> Vec<String> {
        let [seed, pollen] = self.pair;
        let code = |plant| self.registry.code(plant);
        let mut told = Vec::new();
        if seed == pollen {
            told.push(format!(
                "both are {}: ramets of one plant have one sex",
                code(seed)
            ));
        }
        for (plant, needed, other) in [(seed, Sex::Female, "male"), (pollen, Sex::Male, "female")] {
            let seen = sex_seen(self.registry, plant);
            if matches!(seen, SexSeen::Certain(sex) if sex != needed) {
                told.push(format!("{} was seen {other}", code(plant)));
            }
            match presence(self.registry, plant, today) {
                Presence::NeverHere => told.push(format!("{} never stood here", code(plant))),
                Presence::Gone if plant == seed => {
                    told.push(format!("{} is dead or lost", code(plant)))
                }
                _ => {}
            }
        }
        told
    }

    fn shares(&self) -> Result<Vec<PairShare>, String> {
        let shares = Shares::of(&self.pedigree, &self.descent.founders);
        let composition = shares
            .composition_of_origin(self.origin)
            .map_err(|error| error.to_string())?;
        let mut parts = composition.shares();
        parts.sort_by(|(a, x), (b, y)| {
            let unknown = |part: &Part| *part == Part::Unknown;
            let name = |part: &Part| self.part_name(&shares, *part);
            unknown(a)
                .cmp(&unknown(b))
                .then(y.as_f64().total_cmp(&x.as_f64()))
                .then_with(|| name(a).cmp(&name(b)))
        });
        let row = |(part, share): &(Part, crate::ancestry::Fraction)| {
            let of = self.part_name(&shares, *part);
            let listed = self
                .registry
                .taxa
                .species
                .iter()
                .find(|row| row.epithet == of);
            let appendix_one = listed.is_some_and(|row| row.appendix == Some("I"));
            PairShare {
                share: fraction_text(share),
                appendix_one,
                of,
            }
        };
        Ok(parts.iter().map(row).collect())
    }

    fn part_name(&self, shares: &Shares, part: Part) -> String {
        match part {
            Part::Species(at) => self.descent.species[at as usize].clone(),
            Part::Unknown => "unknown".to_owned(),
            Part::OneOf(set) => {
                let members = shares
                    .members(set)
                    .iter()
                    .map(|&member| self.part_name(shares, member));
                members.collect::<Vec<_>>().join(" or ")
            }
        }
    }

    fn inbreeding(&self) -> Result<PairInbreeding, String> {
        let solve = |founding: &Founding| {
            Kinship::of(&self.pedigree, founding).map_err(|error| error.to_string())
        };
        let kinship = solve(&self.assumed.founding)?;
        let above = self.lineage.pedigree.with_ancestors(&self.pair);
        let in_batch = above.iter().filter(|&&plant| {
            self.assumed
                .founding
                .stock(plant)
                .is_some_and(|stock| stock.batch.is_some())
        });
        let in_batch = in_batch.count();
        let apart = (in_batch > 1).then(|| self.without_batches());
        let apart = apart
            .map(|founding| Ok::<f64, String>(solve(&founding)?.inbreeding_of_origin(self.origin)));
        let counted = unknowns(&self.pedigree, &self.pair);
        Ok(PairInbreeding {
            at_least: kinship.inbreeding_of_origin(self.origin),
            if_batches_unrelated: apart.transpose()?,
            rests_on: RestsOn {
                founders: counted.founders,
                unknown_parents: counted.parents,
                uncertain: counted.uncertain,
                founders_in_batches: in_batch,
                backgrounds: self.assumed.backgrounds,
                equal_chances: above
                    .iter()
                    .any(|&plant| kinship.assumes_equal_chances(plant)),
            },
        })
    }

    /// The assumptions on founders, with every batch taken apart.
    fn without_batches(&self) -> Founding {
        let mut apart = self.assumed.founding.clone();
        for plant in self.registry.plants().take(self.registry.founders().len()) {
            if let Some(stock) = self.assumed.founding.stock(plant) {
                apart.declare(
                    plant,
                    FounderStock {
                        batch: None,
                        ..stock.clone()
                    },
                );
            }
        }
        apart
    }

    fn spread(&self) -> Result<(ExpectedSpread, Vec<ParentReadings>), String> {
        let traits = 0..self.registry.settings.traits.len() as u16;
        let [seed, pollen] = self.pair;
        let readings: Vec<ParentReadings> = traits
            .filter_map(|index| ParentReadings::of(self.registry, index))
            .filter(|of| of.mean(seed).is_some() || of.mean(pollen).is_some())
            .collect();
        let mut plants = reference_parents(self.lineage, &readings);
        plants.extend(self.pair);
        plants.sort_unstable();
        plants.dedup();
        let spread = ExpectedSpread::of(self.lineage, &self.descent.founders, &plants)?;
        Ok((spread, readings))
    }

    fn of_trait(
        &self,
        of: &ParentReadings,
        spread: &ExpectedSpread,
        wishes: PairWishes,
    ) -> PairTrait {
        let [seed, pollen] = self.pair;
        let both = of.mean(seed).zip(of.mean(pollen));
        let mean = both.map(|((one, _), (other, _))| 0.5 * (one + other));
        let deviation = of.expected_deviation(self.lineage, spread, (seed, pollen));
        let accuracy = libm::sqrt(wishes.heritability);
        let useful = |mean: f64, as_read: f64| {
            usefulness(mean, wishes.seedlings, accuracy, accuracy * as_read)
        };
        PairTrait {
            name: self.registry.settings.traits[usize::from(of.index)]
                .name
                .to_string(),
            seed: of.mean(seed),
            pollen: of.mean(pollen),
            usefulness: mean
                .zip(deviation)
                .map(|(mean, (least, most))| (useful(mean, least), useful(mean, most))),
            mean,
            deviation,
        }
    }

    fn made_before(&self) -> Vec<MadeBefore> {
        let [seed, pollen] = self.pair;
        let of = |code: String| {
            let cross = &self.registry.crosses[self.registry.cross(&code)? as usize];
            let pairs = &self.registry.origins()[cross.origin as usize].pairs;
            let lost = matches!(cross.page.parents, crate::record::Parents::DirectionLost(_));
            let same = pairs
                .iter()
                .any(|pair| (pair.seed, pair.pollen) == (Some(seed), Some(pollen)));
            let mut set = SetRate::default();
            let mut not_counted = 0;
            for pollination in &cross.page.pollinations {
                match (pollination.flowers, pollination.set) {
                    (Some(flowers), Some(pods)) => set.add(flowers, pods),
                    _ => not_counted += 1,
                }
            }
            let numbered = cross.seedlings.len();
            Some(MadeBefore {
                cross: code,
                same_direction: (!lost).then_some(same),
                set,
                not_counted,
                numbered,
            })
        };
        made_before(self.registry, seed, pollen)
            .into_iter()
            .filter_map(of)
            .collect()
    }

    fn flowers(&self, today: Day) -> Vec<String> {
        let of_pair = spikes(self.registry, today)
            .into_iter()
            .filter(|s| self.pair.contains(&s.plant));
        let line = |spike: super::flowers::Spike| {
            format!(
                "{}: {} from {}, last {}",
                self.registry.code(spike.plant),
                if spike.opened { "open" } else { "expected" },
                between_words(spike.window.opens),
                between_words(spike.window.closes)
            )
        };
        of_pair.map(line).collect()
    }

    fn cautions(&self, report: &PairReport, wishes: PairWishes) -> Vec<String> {
        let mut told = report.inbreeding.rests_on.cautions();
        if report.inbreeding.if_batches_unrelated.is_some() {
            told.push(
                "founders of one batch: both figures are shown, the recorded batch counts"
                    .to_owned(),
            );
        }
        let at_least = report.inbreeding.at_least;
        if at_least >= 0.0625 {
            let degree = if at_least >= 0.25 {
                "very close"
            } else if at_least >= 0.125 {
                "close"
            } else {
                "some"
            };
            told.push(format!(
                "{degree} inbreeding; what it costs is not known for the genus, so this is a caution, not a forecast"
            ));
        }
        told.push(format!(
            "spread against a species' pod: from no difference between species (S = 0) to S = {:.0} V, an assumption",
            super::parent_readings::MOST_BETWEEN
        ));
        if !report.traits.is_empty() {
            told.push(format!(
                "means are plain means of readings of whatever age and place; usefulness assumes a heritability of {} within the pod",
                wishes.heritability
            ));
        }
        told.push(
            "sexes are taken as even chances; a trait in both parents raises odds only".to_owned(),
        );
        told.push(
            "before seed, pollen or plants cross a border or are sold: ask your CITES management authority and your plant-health service; nothing of that is checked here".to_owned(),
        );
        told
    }
}

impl Report for PairReport {
    fn is_bad_news(&self) -> bool {
        !self.impossible.is_empty()
    }

    fn sheet(&self) -> Sheet {
        let formula = self
            .formula
            .clone()
            .unwrap_or_else(|| "too long to write out".into());
        let head = format!("♀ {} × ♂ {}: {formula}", self.seed.id, self.pollen.id);
        let mut sheet = Sheet::new(match self.impossible.is_empty() {
            true => head,
            false => format!("cannot be made: {}\n{head}", self.impossible.join("; ")),
        });
        sheet.facts(None, self.facts());
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line).collect(),
        );
        if !self.traits.is_empty() {
            sheet.table(self.trait_table());
        }
        let nights = [&self.seed, &self.pollen].into_iter().flat_map(|side| {
            let line = move |(of, words): &(String, String)| match *of == side.id {
                true => format!("{}: {words}", side.id),
                false => format!("behind {}: {of}: {words}", side.id),
            };
            side.nights.iter().map(line)
        });
        sheet.lines(Some("Nights, as claimed"), nights.collect());
        sheet.lines(
            Some("Made before"),
            self.made_before.iter().map(MadeBefore::words).collect(),
        );
        sheet.lines(Some("Flowers"), self.flowers.clone());
        let envelope = |e: &Envelope| {
            let age = e
                .age_days
                .map_or("age not known".to_owned(), super::words::span_of_days);
            let place = e.place.map_or(String::new(), |place| format!(", {place}"));
            let remark = e
                .remark
                .as_ref()
                .map_or(String::new(), |remark| format!("; {remark}"));
            format!(
                "{}: {age}{place}; set so far {}{remark}",
                e.lot,
                e.own_results.words()
            )
        };
        sheet.lines(
            Some("Pollen in hand"),
            self.envelopes.iter().map(envelope).collect(),
        );
        sheet.cautions = self.cautions.clone();
        sheet
    }
}

impl PairReport {
    fn facts(&self) -> Vec<(&'static str, Option<String>)> {
        let percent = |value: f64| match format!("{:.1} %", value * 100.0) {
            // A chance is not a certainty because it rounds to one.
            shown if shown == "100.0 %" && value < 1.0 => "over 99.9 %".to_owned(),
            shown => shown,
        };
        let range = |(least, most): (f64, f64), shown: &dyn Fn(f64) -> String| {
            if shown(least) == shown(most) {
                shown(least)
            } else {
                format!("{} to {}", shown(least), shown(most))
            }
        };
        let side = |side: &SideRow| {
            Some(format!(
                "{}, {}, {}",
                side.id,
                side.name.as_deref().unwrap_or("name too long"),
                side.sex
            ))
        };
        let shares: Vec<String> = self
            .shares
            .iter()
            .map(|s| format!("{} {}", s.of, s.share))
            .collect();
        let listed: Vec<String> = self
            .shares
            .iter()
            .filter(|s| s.appendix_one)
            .map(|s| format!("{} {}", s.of, s.share))
            .collect();
        let inbreeding = match self.inbreeding.if_batches_unrelated {
            None => format!("at least {}", probability(self.inbreeding.at_least)),
            Some(apart) => format!(
                "at least {} with the recorded batch as full siblings, {} if its founders are unrelated",
                probability(self.inbreeding.at_least),
                probability(apart)
            ),
        };
        let rare: Vec<String> = self
            .plants_for_one
            .iter()
            .map(|(share, n)| format!("{n} for {share}"))
            .collect();
        vec![
            ("seed parent", side(&self.seed)),
            ("pollen parent", side(&self.pollen)),
            ("botanical order", self.botanical.clone()),
            ("expected shares", Some(shares.join(", "))),
            (
                "Appendix I ancestry, by the list used",
                Some(if listed.is_empty() {
                    "none".into()
                } else {
                    listed.join(", ")
                }),
            ),
            (
                "two copies of different species",
                Some(range(self.heterozygosity, &percent)),
            ),
            ("inbreeding of the seedlings", Some(inbreeding)),
            (
                "spread, a species' pod being 1",
                Some(range(self.spread_ratio, &|r| format!("{r:.2}"))),
            ),
            (
                "both sexes",
                Some(format!(
                    "{} among {}",
                    percent(self.both_sexes),
                    counted(self.seedlings as usize, "seedling", "seedlings")
                )),
            ),
            (
                "best of so many",
                Some(format!(
                    "{:.2} standard deviations above the mean",
                    expected_best(self.seedlings)
                )),
            ),
            (
                "for one rare outcome (95 %)",
                Some(format!("{} of the seedlings", rare.join(", "))),
            ),
        ]
    }

    fn trait_table(&self) -> Table {
        let headings = [
            "trait",
            ">seed parent",
            ">pollen parent",
            ">mean",
            ">spread (SD)",
            ">usefulness",
        ];
        let mut table = Table::new(&headings).titled("Expected of the seedlings");
        let read = |of: Option<(f64, usize)>| {
            Cell::from(of.map(|(mean, n)| format!("{mean:.1} (n = {n})")))
        };
        let span = |of: Option<(f64, f64)>| {
            Cell::from(of.map(|(least, most)| {
                let (least, most) = (format!("{least:.1}"), format!("{most:.1}"));
                if least == most {
                    least
                } else {
                    format!("{least}–{most}")
                }
            }))
        };
        for row in &self.traits {
            table.row(vec![
                row.name.clone().into(),
                read(row.seed),
                read(row.pollen),
                row.mean.map_or(Cell::Missing, |mean| Cell::Number(mean, 1)),
                span(row.deviation),
                span(row.usefulness),
            ]);
        }
        table
    }
}

impl MadeBefore {
    fn words(&self) -> String {
        let direction = match self.same_direction {
            Some(true) => "",
            Some(false) => " (the other way round)",
            None => " (direction not known)",
        };
        let set = if self.set.flowers == 0 {
            "pods not counted".to_owned()
        } else {
            format!("set {}", self.set.words())
        };
        let open = match self.not_counted {
            0 => String::new(),
            n => format!(
                ", {} without a count",
                counted(n, "pollination", "pollinations")
            ),
        };
        format!(
            "{}{direction}: {set}{open}; {} numbered",
            self.cross,
            counted(self.numbered, "seedling", "seedlings")
        )
    }
}
