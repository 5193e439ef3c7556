//! Can the goals be used: are they read, within their limits, and of plants and traits that there are?

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::observation::trait_named;
use crate::record::{GoalsFault, GoalsPage, goals_most, read_goals, spelt_out};
use crate::text::{FileId, Source, Span};

const UNUSABLE: Code = Code("unusable-goals");

/// What is wrong with the registry's own file of goals; nothing where there is none.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let sources = context.registry.sources;
    let Some(file) = sources.find("goals.ron") else {
        return Vec::new();
    };
    let source = sources.get(file);
    match read_goals(source.spelt_out(spelt_out)) {
        Ok(page) => [codes(context, file, &page), numbers(context, file, &page)].concat(),
        Err(fault) => vec![unread(file, source, fault)],
    }
}

fn unread(file: FileId, source: &Source, fault: GoalsFault) -> Finding {
    let finding = Finding::fault(UNUSABLE, "the goals cannot be read").found(fault.words);
    let finding = finding.needed("goals as docs/files.md describes them");
    finding.at(place(file, source, (fault.line, fault.column)))
}

/// The character at a line and column, from 1.
fn place(file: FileId, source: &Source, (line, column): (usize, usize)) -> Option<Span> {
    let start = *source.line_starts().get(line.checked_sub(1)?)?;
    let line = source.line(u32::try_from(line).ok()?);
    let mut letters = line
        .char_indices()
        .map(|(at, letter)| (at, letter.len_utf8()));
    let (at, length) = letters
        .nth(column.checked_sub(1)?)
        .unwrap_or((line.len(), 0));
    let start = start + u32::try_from(at).ok()?;
    Some(Span::new(file, start..start + length as u32))
}

/// Plants and traits that there are not, and pairs both demanded and forbidden.
fn codes(context: &CheckContext, file: FileId, page: &GoalsPage) -> Vec<Finding> {
    let registry = context.registry;
    let pairs = page.must.iter().chain(&page.never);
    let plants = pairs.flat_map(|pair| [pair.seed, pair.pollen]);
    let is_plant = |code: &str| registry.target(code).is_some_and(|of| of.plant().is_some());
    let lost = plants.filter(|code| !is_plant(code)).map(|code| {
        let finding = of_field(
            context,
            file,
            code,
            "the goals name a plant that is not on record",
        );
        finding
            .needed("the code of a plant on record")
            .did_you_mean(registry.near(code))
    });
    let unknown = page
        .traits
        .iter()
        .filter(|of| trait_named(registry, of.code).is_none());
    let unknown = unknown.map(|of| {
        let finding = of_field(
            context,
            file,
            of.code,
            "the goals name a trait that is not declared",
        );
        finding.needed("the code or name of a trait in registry.ron")
    });
    let never = |seed: &str, pollen: &str| {
        page.never
            .iter()
            .any(|pair| pair.seed == seed && pair.pollen == pollen)
    };
    let both = page
        .must
        .iter()
        .filter(|pair| never(pair.seed, pair.pollen))
        .map(|pair| {
            let finding = of_field(
                context,
                file,
                pair.seed,
                "the goals both demand and forbid a pair",
            );
            finding.needed("each pair in `must` or in `never`")
        });
    lost.chain(unknown).chain(both).collect()
}

fn of_field(context: &CheckContext, file: FileId, code: &str, title: &str) -> Finding {
    let finding = Finding::fault(UNUSABLE, title.to_owned()).found(format!("`{code}`"));
    finding.at(context.span(file, code))
}

/// Numbers beyond their limits.
fn numbers(context: &CheckContext, file: FileId, page: &GoalsPage) -> Vec<Finding> {
    let source = context.registry.sources.get(file);
    let at = |field: &str| {
        let start = source.kept().find(field)? as u32;
        Some(Span::new(file, start..start + field.len() as u32))
    };
    let beyond = |field: &str, found: String, needed: String| {
        let title = format!("{field} of the goals is out of its range");
        let finding = Finding::fault(UNUSABLE, title).found(found).needed(needed);
        finding.at(at(field))
    };
    let numbers = [
        ("heritability", page.heritability),
        ("most_inbreeding", page.most_inbreeding),
        ("most_kinship", page.most_kinship),
        ("species_differ", page.species_differ),
        ("weight_on_inbreeding", page.weight_on_inbreeding),
    ];
    let numbers = numbers.into_iter().filter_map(|(field, found)| {
        let (found, most) = (found?, goals_most(field));
        let within = (0.0..=most).contains(&found);
        (!within).then(|| {
            beyond(
                field,
                found.to_string(),
                format!("a number from 0 to {most}"),
            )
        })
    });
    let counts = [
        ("seedlings_per_pod", page.seedlings_per_pod),
        ("pods_per_spike", page.pods_per_spike),
        ("uses_per_pollen", page.uses_per_pollen),
        ("uses_per_male", page.uses_per_male),
    ];
    let zero = counts.into_iter().filter(|(_, n)| *n == Some(0));
    let zero = zero.map(|(field, _)| beyond(field, "0".to_owned(), "at least 1".to_owned()));
    numbers.chain(zero).collect()
}
