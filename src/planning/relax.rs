//! The best that a season could be worth when its loads are priced instead of kept.
//!
//! With a price on each load what is left is a network. Its best flow is whole
//! numbers, and its worth plus the price of the whole capacity bounds every plan from above, exactly, for any prices.

use super::domain::Domain;
use super::network::best_of_network;
use super::units::{IntegerModel, KINSHIP_BITS};

/// Largest worth a priced pod may come to, so that no sum overflows.
pub(super) const WORTH_LIMIT: i128 = 1 << 46;
/// Prices are multiples of 2⁻³⁰ units.
pub(super) const PRICE_BITS: u32 = 30;

/// The best plan under given prices.
#[derive(Clone, Debug)]
pub(super) struct Priced {
    /// Pods of each choice.
    pub sent: Vec<u32>,
    /// No plan of the domain is worth more.
    pub bound: i64,
    /// By how much the bound falls at least when one more pod is forced on a choice that has none.
    pub loss: Vec<i64>,
    /// The work it took, in steps.
    pub steps: u64,
}

/// Arcs of a network that are looked at in one step; a network takes one step at least.
const LOOKS_OF_A_STEP: u64 = 4_096;

/// Steps for so many arcs looked at.
pub(super) fn steps_for(looks: u64) -> u64 {
    1 + looks / LOOKS_OF_A_STEP
}

/// The best plan of a domain under prices of the loads; `None` if a line or a pod that must be is beyond reach.
pub(super) fn priced(model: &IntegerModel, domain: &Domain, prices: &[i128]) -> Option<Priced> {
    let choices = model.choices.iter();
    let worths: Vec<i64> = choices
        .map(|choice| worth(choice.value, &choice.loads, prices))
        .collect();
    let found = best_of_network(model, domain, &worths)?;
    let worth: i64 = found
        .sent
        .iter()
        .zip(&worths)
        .map(|(&n, &worth)| i64::from(n) * worth)
        .sum();
    let capacity: i128 = model
        .capacities
        .iter()
        .zip(prices)
        .map(|(&c, &p)| i128::from(c) * p)
        .sum();
    Some(Priced {
        bound: worth + rounded_up(capacity),
        loss: found.loss,
        sent: found.sent,
        steps: steps_for(found.looks),
    })
}

/// The plan of a domain that takes least of one load, the others left aside; `None` as for [`priced`].
pub(super) fn leanest(model: &IntegerModel, domain: &Domain, load: usize) -> Option<Vec<u32>> {
    let worths: Vec<i64> = model.choices.iter().map(|c| -c.loads[load]).collect();
    best_of_network(model, domain, &worths).map(|found| found.sent)
}

/// The price of a kinship load when a kinship of 1 costs so much, `scale` being the units of a value of 1.
pub(super) fn price_of_kinship(price: f64, scale: f64) -> i128 {
    libm::round(libm::ldexp(price * scale, PRICE_BITS as i32 - KINSHIP_BITS)) as i128
}

/// Worth of a pod under prices, rounded up.
fn worth(value: i64, loads: &[i64], prices: &[i128]) -> i64 {
    if prices.is_empty() {
        return value;
    }
    let taken: i128 = loads
        .iter()
        .zip(prices)
        .map(|(&load, &price)| i128::from(load) * price)
        .sum();
    let worth = i128::from(value) - (taken >> PRICE_BITS);
    worth.clamp(-WORTH_LIMIT, WORTH_LIMIT) as i64
}

fn rounded_up(priced: i128) -> i64 {
    let whole = -((-priced) >> PRICE_BITS);
    whole.clamp(i128::from(i64::MIN / 4), i128::from(i64::MAX / 4)) as i64
}
