//! Which traits count for a proposal, with which weight and level, by the rules the grower states.
//!
//! Nothing counts by itself: without a rule the answer is a refusal that shows a command for this registry.

use crate::analysis::siblings::known_trait;
use crate::observation::trait_unit::TraitUnit;
use crate::record::KeepRules;
use crate::registry::Registry;
use crate::statistics::culling::Level;

/// A trait that counts.
pub(crate) struct Counted {
    pub index: u16,
    pub unit: TraitUnit,
    pub weight: f64,
    pub level: Option<Level>,
}

/// The traits the rules name, each once, in the order of the rules.
///
/// # Errors
/// In words, when a trait is not declared or cannot be weighed, a level says nothing, or no rule is stated.
pub(crate) fn counted_traits(
    registry: &Registry,
    ids: &[String],
    rules: &KeepRules,
) -> Result<Vec<Counted>, String> {
    let mut traits: Vec<Counted> = Vec::new();
    for weight in &rules.weigh {
        let index = known_trait(registry, &weight.of)?;
        if traits.iter().any(|of| of.index == index) {
            return Err(format!(
                "`{}` is weighed twice; give it one weight",
                weight.of
            ));
        }
        if weight.weight == 0.0 {
            return Err(format!(
                "a weight of 0 says that `{}` does not count; leave it out, or give it a weight above or below zero",
                weight.of
            ));
        }
        add(registry, &mut traits, &weight.of, (weight.weight, None))?;
    }
    for need in &rules.need {
        if need.at_least.is_none() && need.at_most.is_none() {
            return Err(format!(
                "the level for `{}` says neither at_least nor at_most",
                need.of
            ));
        }
        for level in [
            need.at_least.map(Level::AtLeast),
            need.at_most.map(Level::AtMost),
        ] {
            if level.is_some() {
                add(registry, &mut traits, &need.of, (0.0, level))?;
            }
        }
    }
    if traits.is_empty() {
        return Err(no_rules(registry, ids));
    }
    for of in &traits {
        reachable(of)?;
    }
    for (at, one) in traits.iter().enumerate() {
        let of_the_same = |other: &&Counted| other.index == one.index;
        for other in traits[at + 1..].iter().filter(of_the_same) {
            agreeing(one, other)?;
        }
    }
    Ok(traits)
}

/// Refuses a level that no step of a scale can reach.
fn reachable(of: &Counted) -> Result<(), String> {
    let (Some(steps), Some(level)) = (of.unit.steps(), of.level) else {
        return Ok(());
    };
    let (word, stated) = match level {
        Level::AtLeast(least) => ("least", least),
        Level::AtMost(most) => ("most", most),
    };
    if (1.0..=steps as f64).contains(&stated) {
        return Ok(());
    }
    let anchors = of.unit.kinds.as_deref().unwrap_or_default();
    Err(format!(
        "{} has steps from 1 to {steps}; at {word} {stated} is none of them\nits steps are {}",
        of.unit.name,
        anchors.join("; ")
    ))
}

/// Refuses two levels of one trait that say the same side twice, or leave nothing between them.
fn agreeing(one: &Counted, other: &Counted) -> Result<(), String> {
    let name = &one.unit.name;
    match (one.level, other.level) {
        (Some(Level::AtLeast(least)), Some(Level::AtMost(most)))
        | (Some(Level::AtMost(most)), Some(Level::AtLeast(least))) => match least > most {
            true => Err(format!(
                "no plant can have {name} at least {} and at most {}{}",
                limit(one, least),
                limit(one, most),
                one.unit.steps().map_or(String::new(), |steps| format!(
                    "; its steps run from 1 to {steps}"
                ))
            )),
            false => Ok(()),
        },
        (Some(Level::AtLeast(a)), Some(Level::AtLeast(b))) => Err(format!(
            "{name} has two levels, at least {a} and at least {b}; give one"
        )),
        (Some(Level::AtMost(a)), Some(Level::AtMost(b))) => Err(format!(
            "{name} has two levels, at most {a} and at most {b}; give one"
        )),
        _ => Ok(()),
    }
}

/// Adds a weight or a level to the trait it names.
fn add(
    registry: &Registry,
    traits: &mut Vec<Counted>,
    name: &str,
    (weight, level): (f64, Option<Level>),
) -> Result<(), String> {
    let index = known_trait(registry, name)?;
    let unit = TraitUnit::shown_in(registry, index).with_own_readings(registry, index);
    if !unit.is_measure() && !unit.is_scale {
        return Err(format!(
            "{} has kinds without order; it can be neither weighed nor given a level",
            unit.name
        ));
    }
    if !weight.is_finite() {
        return Err(format!("the weight of {} is not a number", unit.name));
    }
    match traits
        .iter_mut()
        .find(|of| of.index == index && (level.is_none() || of.level.is_none()))
    {
        Some(of) => {
            of.weight += weight;
            of.level = of.level.or(level);
        }
        None => traits.push(Counted {
            index,
            unit,
            weight,
            level,
        }),
    }
    Ok(())
}

/// The refusal without rules: an example of what could be typed, from the traits of this registry.
fn no_rules(registry: &Registry, ids: &[String]) -> String {
    let declared = 0..registry.settings.traits.len() as u16;
    let units: Vec<TraitUnit> = declared
        .map(|index| TraitUnit::shown_in(registry, index))
        .collect();
    let measure = units.iter().find(|unit| unit.is_measure());
    let scale = units.iter().find(|unit| unit.is_scale);
    let weights = [(measure, 1), (scale, 2)];
    let weigh: Vec<String> = weights
        .iter()
        .filter_map(|(unit, weight)| Some(format!(" --weigh {}={weight}", unit.as_ref()?.code)))
        .collect();
    if weigh.is_empty() {
        return "no rule says what counts, and no measure or scale is declared\ndeclare what you read under `traits` in registry.ron".to_owned();
    }
    format!(
        "no rule says what counts: state weights or needed levels, or a file with --rules\nfor example: podbook keep {}{} --keep 4",
        ids.join(" "),
        weigh.concat()
    )
}

/// The levels in words, in the unit shown.
pub(crate) fn level_words(of: &Counted) -> Option<String> {
    Some(match of.level? {
        Level::AtLeast(least) => format!("{} at least {}", of.unit.name, limit(of, least)),
        Level::AtMost(most) => format!("{} at most {}", of.unit.name, limit(of, most)),
    })
}

/// A limit as it was typed, with the unit it was meant in.
fn limit(of: &Counted, stated: f64) -> String {
    format!("{stated} {}", of.unit.unit).trim_end().to_owned()
}

/// Why a reading misses its level: `leaf span 2.99 in, below 3 in`, with as many decimals as tell the two apart.
pub(crate) fn missed_words(of: &Counted, read: Option<f64>) -> String {
    let name = &of.unit.name;
    let (Some(level), Some(read)) = (of.level, read) else {
        return format!("{name} unread");
    };
    let (word, stated) = match level {
        Level::AtLeast(least) => ("below", least),
        Level::AtMost(most) => ("above", most),
    };
    let told = |decimals: u8| {
        let unit = TraitUnit {
            decimals,
            ..of.unit.clone()
        };
        unit.words(read)
    };
    let apart = |decimals: &u8| {
        let places = usize::from(*decimals);
        format!("{read:.places$}") != format!("{stated:.places$}")
    };
    let decimals = (of.unit.decimals..=6).find(apart).unwrap_or(6);
    let unsure = match of.unit.tie() {
        Some(tied) if (read - stated).abs() <= tied + 1e-9 => {
            "; not surely, within the error of one reading"
        }
        _ => "",
    };
    format!(
        "{name} {}, {word} {}{unsure}",
        told(decimals),
        limit(of, stated)
    )
}
