//! Which plans are looked at: between how many pods of each choice.

use super::units::IntegerModel;

/// For each choice the fewest and most pods.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Domain {
    pub least: Vec<u32>,
    pub most: Vec<u32>,
}

impl Domain {
    pub fn of(model: &IntegerModel) -> Self {
        Self {
            least: vec![0; model.choices.len()],
            most: model.choices.iter().map(|c| c.most).collect(),
        }
    }
}
