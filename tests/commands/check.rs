//! `podbook check`.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

#[test]
fn a_sound_registry_has_nothing_to_mend() {
    assert_snapshot!(BenchTop::sound().run(&["check"]));
}

#[test]
fn a_folder_without_a_registry_is_refused() {
    assert_snapshot!(BenchTop::empty().run(&["check"]));
}

/// Faults of every kind in one file: each is told at its place in one run, and what is sound is kept.
#[test]
fn a_file_full_of_faults_is_taken_apart() {
    let spoilt = include_str!("spoilt/X18-01.ron");
    let top = BenchTop::sound().file("crosses/X18-01.ron", spoilt);
    assert_snapshot!(top.run(&["check"]));
}

#[test]
fn findings_come_as_rows_of_json() {
    let top =
        BenchTop::sound().change("clones.ron", "cut: \"2017\"", "cut: \"2017\", culled: true");
    assert_snapshot!(top.run(&["check", "--json"]));
}
