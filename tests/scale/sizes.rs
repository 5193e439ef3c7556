//! Rows of which there may be a million do not grow unnoticed. Bytes on a 64-bit machine.

use podbook::diagnostic::Finding;
use podbook::record::{BriefSeedling, CrossPage, Fate, Flowering, FreeText, Seedling};
use podbook::registry::{Cross, PlantRow, Reading};
use std::mem::size_of;

#[test]
fn rows_stay_small() {
    assert_eq!(size_of::<PlantRow>(), 4);
    assert!(size_of::<Reading>() <= 20);
    assert!(size_of::<FreeText>() <= 24);
    assert!(size_of::<BriefSeedling>() <= 80);
    assert!(size_of::<Seedling>() <= 280);
    assert!(size_of::<Fate>() <= 72);
    assert!(size_of::<Flowering>() <= 104);
    assert!(size_of::<Finding>() <= 160);
    assert!(size_of::<CrossPage>() <= 400);
    assert!(size_of::<Cross>() <= 600);
}
