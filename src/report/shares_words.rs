//! What exact shares are, and the chance of two copies from different species, in the words of every answer.

use crate::analysis::parentage::SharesAre;
use crate::wording::from_to;

/// The heading of a column of shares; `listed` where the possible pairs stand in a table above it.
pub fn heading(shares: SharesAre, listed: bool) -> &'static str {
    match (shares, listed) {
        (SharesAre::AsRecorded, _) => "expected share of",
        (SharesAre::ByName, _) => "if the name is right, share of",
        (SharesAre::Expected, true) => "mean over these, expected share of",
        (SharesAre::Expected, false) => "mean over several cases, share of",
        (SharesAre::AtLeast, true) => "whichever it is, at least",
        (SharesAre::AtLeast, false) => "in every case, at least",
        (SharesAre::ExpectedAtLeast, _) => "mean over several cases, at least",
    }
}

/// What is said before a share where there is little room: in a pedigree, and in a list of crosses.
pub fn short(shares: SharesAre) -> &'static str {
    match shares {
        SharesAre::AsRecorded => "",
        SharesAre::ByName => "if the name is right ",
        SharesAre::Expected => "mean ",
        SharesAre::AtLeast => "at least ",
        SharesAre::ExpectedAtLeast => "mean, at least ",
    }
}

/// What is said before shares in one line.
pub fn before(shares: SharesAre) -> &'static str {
    match shares {
        SharesAre::AsRecorded => "",
        SharesAre::ByName => "if the name further back is right: ",
        SharesAre::Expected => "mean over the possible parents further back: ",
        SharesAre::AtLeast => "at least, whoever the parents further back are: ",
        SharesAre::ExpectedAtLeast => "mean over the possible parents further back, at least: ",
    }
}

/// The chance of two copies from different species, 0 to 1, least and greatest; `is_a_mean` where several pairs of parents
/// are possible. A mean that is nothing or all holds whoever they are.
pub fn two_copies((least, most): (f64, f64), is_a_mean: bool) -> String {
    let figure = from_to(percent(least), percent(most), " to ");
    let holds_always = [least, most].iter().all(|of| *of == 0.0 || *of == 1.0);
    match is_a_mean && !holds_always {
        true => format!("{figure} on average over the possible parents"),
        false => figure,
    }
}

/// A chance, 0 to 1, in percent.
pub fn percent(value: f64) -> String {
    match format!("{:.1} %", value * 100.0) {
        // A chance is not a certainty because it rounds to one.
        shown if shown == "100.0 %" && value < 1.0 => "over 99.9 %".to_owned(),
        shown => shown,
    }
}

/// What is said of plants, listed, whose shares are not those of one plant.
pub fn note(shares: SharesAre, plants: &str) -> Option<String> {
    Some(match shares {
        SharesAre::AsRecorded => return None,
        SharesAre::ByName => format!("Only if a hybrid name is right: the shares of {plants}."),
        SharesAre::Expected => {
            format!(
                "Means over possible parents, expected of no single seedling: the shares of {plants}."
            )
        }
        SharesAre::AtLeast => {
            format!("Each share of {plants} is the least that all possible parents give.")
        }
        SharesAre::ExpectedAtLeast => {
            format!("Means over possible parents, each at least: the shares of {plants}.")
        }
    })
}
