//! What the grower states before merit is predicted.

use crate::lineage::PlantRow;
use serde::Serialize;

/// What the grower states.
#[derive(Clone, Debug)]
pub struct MeritOptions {
    /// Traits by code or name, each with its weight.
    pub traits: Vec<(String, f64)>,
    /// Parts of the whole variance: heritability, permanent, sitting, pod.
    pub parts: Parts,
    /// Whether heritability is to be estimated from the readings.
    pub estimate: bool,
    /// Plants to compare; all that are listed when empty.
    pub compare: Vec<PlantRow>,
    /// Whether plants that are not here any more are listed too.
    pub all: bool,
}

/// Parts of the whole variance; what is left is the error of a reading.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Parts {
    /// Heritability.
    pub heritability: f64,
    /// Permanent in a plant but not inherited.
    pub permanent: f64,
    /// Between sittings.
    pub sitting: f64,
    /// Between pods beyond what is inherited: a shared tray, a shared age.
    pub pod: f64,
}

impl Default for Parts {
    /// Our own judgement, not published values: 0.4 and 0.2 after a small simulation study, 0.05 each for sitting and pod.
    fn default() -> Parts {
        Parts {
            heritability: 0.4,
            permanent: 0.2,
            sitting: 0.05,
            pod: 0.05,
        }
    }
}

impl Parts {
    /// The defaults around a heritability of one's own: what it leaves is shared out as the defaults share it, so that
    /// together they stay below the whole.
    pub fn with_heritability(heritability: f64) -> Parts {
        let parts = Parts::default();
        let scale = ((1.0 - heritability) / (1.0 - parts.heritability)).clamp(0.0, 1.0);
        Parts {
            heritability,
            permanent: parts.permanent * scale,
            sitting: parts.sitting * scale,
            pod: parts.pod * scale,
        }
    }
}
