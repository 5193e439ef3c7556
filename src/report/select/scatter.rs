//! Two traits of a proposal as a picture: is there a plant that has both?

use crate::analysis::select::{
    Caution, ScatterPlace, SelectReport, SelectTrait, scatter_front, scatter_places,
};
use crate::report::chart::{ScatterAxis, ScatterChart, ScatterDot};
use crate::report::select::grid::read_at;
use crate::report::sheet::Report;
use crate::wording::{counted, listed, upright};

/// The scatter of a proposal by two traits of one cross.
///
/// # Errors
/// In words, when not two traits count, several crosses were asked for, or its sowings were read at different ages.
pub fn select_scatter(report: &SelectReport) -> Result<ScatterChart, String> {
    let [across, up] = &report.traits[..] else {
        return Err(format!(
            "--scatter sets two traits against each other; found {}\nstate two with --weigh or --need, such as --weigh span=1 --weigh banding=1",
            report.traits.len()
        ));
    };
    let [cross] = &report.crosses[..] else {
        return Err("--scatter shows one cross, pod or sowing at a time; name one".to_owned());
    };
    let apart = |caution: &Caution| matches!(caution, Caution::AgesApart { .. });
    if report.cautions.iter().any(apart) {
        return Err("the sowings of this cross were read at different ages, so their plants share no picture\nname one sowing".to_owned());
    }
    let places = scatter_places(&report.plants);
    let front = scatter_front(&places, across.less_is_better);
    let dots: Vec<ScatterDot> = places.iter().map(dot).collect();
    let drawn: usize = places.iter().map(|place| place.plants.len()).sum();
    let mut notes = vec!["Filled: to keep.".to_owned()];
    if front.len() > 1 {
        let dashed = "Dashed: the front; a plant on it is beaten by no sibling in both traits.";
        notes.push(dashed.to_owned());
    }
    if drawn < report.plants.len() {
        let left_out = report.plants.len() - drawn;
        let plants = counted(left_out, "plant", "plants");
        notes.push(format!(
            "Not drawn: {plants} without a reading of both at this age."
        ));
    }
    notes.extend(report.cautions.iter().map(|caution| caution.to_string()));
    Ok(ScatterChart {
        title: upright(title(report, &dots)),
        under: read_at(cross),
        across: axis(across),
        up: axis(up),
        front,
        dots,
        notes,
    })
}

/// The plants on the front where they are few, then what is proposed.
fn title(report: &SelectReport, dots: &[ScatterDot]) -> String {
    let on_front = || dots.iter().filter(|dot| dot.is_on_front);
    let numbers: Vec<&str> = on_front()
        .flat_map(|dot| dot.numbers.iter().map(String::as_str))
        .collect();
    let answer = report.sheet().answer;
    match (on_front().count(), &numbers[..]) {
        (1, [one]) => format!("Number {one} has the most of both. {answer}"),
        (1, several) if several.len() <= NAMED => {
            let named = listed(several);
            format!("Numbers {named} are alike and have the most of both. {answer}")
        }
        (2.., several) if several.len() <= NAMED => {
            let named = listed(several);
            format!("No plant has the most of both; no sibling beats {named} in both. {answer}")
        }
        _ => answer,
    }
}

/// Plants of the front that the heading names.
const NAMED: usize = 6;

fn axis(of: &SelectTrait) -> ScatterAxis {
    let better = if of.less_is_better {
        "less is better"
    } else {
        "more is better"
    };
    ScatterAxis {
        heading: format!("{}, {better}", of.heading),
        steps: of.unit.steps(),
    }
}

/// A dot with the numbers of all plants there.
fn dot(place: &ScatterPlace) -> ScatterDot {
    let numbers = place.plants.iter().map(|row| row.number.clone());
    ScatterDot {
        at: place.at,
        numbers: numbers.collect(),
        is_kept: place.is_kept,
        is_on_front: place.is_on_front,
    }
}
