//! Styles and tag lengths.

use std::collections::BTreeMap;

use super::{reading, vocabulary};
use podbook::naming::{
    Certainty, Direction, Formula, Part, Rung, Style, Writing, botanical, breeder, fit, ladder,
};

fn formula(label: &str) -> Formula {
    reading(label).formula.unwrap_or_else(|| panic!("{label}"))
}

fn styled(label: &str, style: Style) -> String {
    let words = vocabulary();
    breeder(
        &formula(label),
        &Writing {
            style,
            ..Writing::plain(&words)
        },
    )
    .unwrap()
}

#[test]
fn latin_is_set_in_italics_and_everything_is_escaped() {
    assert_eq!(
        styled("lowii x maxima (seed parent first)", Style::Html),
        "<i>N. lowii</i> × <i>N. maxima</i> (seed parent first)"
    );
    assert_eq!(
        styled("mirabilis var. globosa", Style::Html),
        "<i>N. mirabilis</i> var. <i>globosa</i>"
    );
    assert_eq!(
        styled("lowii \"<b>&'\"", Style::Html),
        "<i>N. lowii</i> &quot;&lt;b&gt;&amp;&#39;&quot;"
    );
    assert_eq!(
        styled("lowii x aff. maxima", Style::Markdown),
        "*N. lowii* × *N.* aff. *maxima* (seed parent assumed first)"
    );
    assert_eq!(
        styled("lowii \"*_[a](b)`\"", Style::Markdown),
        r#"*N. lowii* "\*\_\[a\](b)\`""#
    );
    assert_eq!(
        styled("N. ×dominii", Style::Html),
        "<i>N.</i> ×<i>dominii</i>"
    );
    let words = vocabulary();
    let html = Writing {
        style: Style::Html,
        ..Writing::plain(&words)
    };
    assert_eq!(
        botanical(&formula("maxima x lowii"), &html).unwrap(),
        "<i>N. lowii</i> × <i>N. maxima</i>"
    );
}

#[test]
fn ascii_writes_the_sign_as_a_letter_with_spaces() {
    // Our reading of Rec. H.3A.2 (memory): never glued to an epithet.
    assert_eq!(
        styled("lowii x N. ×dominii", Style::Ascii),
        "N. lowii x N. x dominii (seed parent assumed first)"
    );
    let words = vocabulary();
    let marked = Writing {
        style: Style::Ascii,
        sexes: true,
        ..Writing::plain(&words)
    };
    assert_eq!(
        breeder(&formula("lowii (f) x maxima (m)"), &marked).unwrap(),
        "(f) N. lowii x (m) N. maxima (seed parent first)"
    );
    assert!(styled("lowii x (maxima x ?)", Style::Ascii).is_ascii());
}

#[test]
fn known_crosses_among_assumed_ones_are_marked() {
    assert_eq!(
        reading("(lowii (f) x maxima) x hamata").breeder.as_deref(),
        Some("(♀ N. lowii × ♂ N. maxima) × N. hamata (unmarked cross: seed parent assumed first)")
    );
    assert_eq!(
        reading("((lowii (f) x maxima) x hamata) x naga")
            .breeder
            .as_deref(),
        Some(
            "((♀ N. lowii × ♂ N. maxima) × N. hamata) × N. naga (unmarked crosses: seed parent assumed first)"
        )
    );
}

const TAG: &str = "(ventricosa \"dark\" × lowii) × maxima (seed parent first)";

#[test]
fn a_tag_is_shortened_step_by_step() {
    let words = vocabulary();
    let formula = formula(TAG);
    let fitted = |most| {
        let fitted = fit(&formula, &Writing::plain(&words), most, Some("RB-014"))?;
        Some((fitted.text, fitted.rung))
    };
    let rows = [
        (
            "(N. ventricosa \"dark\" × N. lowii) × N. maxima (seed parent first)",
            Rung::Full,
        ),
        (
            "(N. ventricosa \"dark\" × N. lowii) × N. maxima (♀ first)",
            Rung::ShortBasis,
        ),
        (
            "N. (ventricosa \"dark\" × lowii) × maxima (♀ first)",
            Rung::GenusOnce,
        ),
        (
            "N. (ventricosa × lowii) × maxima (♀ first)",
            Rung::WithoutTags,
        ),
        ("N. (ventricosa × lowii) × maxima", Rung::WithoutBasis),
        ("(VEN × LOW) × MAX (♀ first)", Rung::CodesWithBasis),
        ("(VEN × LOW) × MAX", Rung::Codes),
        ("VEN/LOW//MAX", Rung::PurdyCodes),
        ("RB-014", Rung::SeeCode),
    ];
    for (at, (text, rung)) in rows.iter().enumerate() {
        let length = text.chars().count();
        assert_eq!(fitted(length), Some(((*text).to_owned(), *rung)));
        let shorter = fitted(length - 1).map(|(_, rung)| rung);
        assert_eq!(
            shorter,
            rows.get(at + 1).map(|(_, rung)| *rung),
            "one character less than {text}"
        );
    }
    let or = fit(
        &self::formula("truncata x lowii or naga or ovata"),
        &Writing::plain(&words),
        15,
        Some("RB-1"),
    );
    let or = or.unwrap();
    assert_eq!(
        (or.text.as_str(), or.rung),
        ("RB-1 (see code)", Rung::SeeCode)
    );
}

#[test]
fn no_version_drops_a_parent_or_hides_doubt() {
    let words = vocabulary();
    let labels = [
        TAG,
        "(alata × gracilis) × (hamata × (naga × ovata))",
        "N. ×mixta × rajah",
        "truncata x lowii or veitchii",
        "ventricosa-alata",
        "(lowii (f) x maxima) x hamata",
        CLAIMED,
        "lowii? x maxima",
        "(lowii x maxima)? x (lowii x maxima)",
        "lowii x \"red giant\"",
    ];
    for label in labels {
        let formula = formula(label);
        for most in 0..200 {
            let Some(fitted) = fit(&formula, &Writing::plain(&words), most, Some("RB-014")) else {
                continue;
            };
            assert!(fitted.text.chars().count() <= most, "{label} {most}");
            if fitted.rung == Rung::SeeCode {
                assert!(fitted.text.starts_with("RB-014"));
                continue;
            }
            let again = reading(&fitted.text);
            let again = again
                .formula
                .unwrap_or_else(|| panic!("{}: {:?}", fitted.text, again.refused));
            // `?` on a tag stands for claimed; read back it is a doubt, which says less and never more.
            let of = |formula: &Formula| {
                let shares = podbook::naming::shares(formula).unwrap();
                let plain = |of: &podbook::naming::ShareOf| {
                    of.to_string().replace(" (?)", "").replace(" (claimed)", "")
                };
                let mut named = BTreeMap::new();
                for (of, share) in &shares {
                    *named.entry(plain(of)).or_insert(0.0) += podbook::numeric::nearest(share);
                }
                named
            };
            assert_eq!(of(&again), of(&formula), "{}", fitted.text);
            let unknown = |text: &str| text.contains("direction unknown");
            let full = breeder(&formula, &Writing::plain(&words)).unwrap();
            if fitted.rung == Rung::Alphabetical {
                let directions = again.parts().filter_map(|(_, part)| match part {
                    Part::Cross(cross) => Some(cross.direction),
                    _ => None,
                });
                let claims = |direction| direction != Direction::Unknown;
                assert!(!directions.into_iter().any(claims), "{}", fitted.text);
            } else {
                assert_eq!(unknown(&fitted.text), unknown(&full), "{}", fitted.text);
            }
            let claimed = |formula: &Formula| {
                let mut parts = formula.parts();
                parts.any(|(id, _)| formula.marks(id).certainty != Certainty::Stated)
            };
            assert_eq!(claimed(&again), claimed(&formula), "{}", fitted.text);
        }
    }
}

/// Known crosses, one that is assumed, and one that is only claimed: as the demo's plant on offer.
const CLAIMED: &str =
    "♀ (♀ (♀ ventricosa × ♂ lowii) × ♂ (burbidgeae × truncata) (claimed)) × ♂ lowii";

#[test]
fn doubt_goes_down_the_whole_ladder() {
    let words = vocabulary();
    let formula = formula(CLAIMED);
    let mut texts: Vec<String> = (0..150)
        .filter_map(|most| fit(&formula, &Writing::plain(&words), most, Some("X22-02-5")))
        .map(|fitted| fitted.text)
        .collect();
    texts.dedup();
    assert_eq!(
        texts,
        [
            "X22-02-5",
            "X22-02-5 (see code)",
            "VEN/LOW//burbidgeae?/truncata?/3/LOW",
            "ventricosa/lowii//burbidgeae?/truncata?/3/lowii",
            "N. ((VEN × LOW) × (burbidgeae × truncata)?) × LOW",
            "N. ((VEN × LOW) × (burbidgeae × truncata)?) × LOW (♀ assumed first)",
            "N. ((ventricosa × lowii) × (burbidgeae × truncata) (claimed)) × lowii",
            "N. ((ventricosa × lowii) × (burbidgeae × truncata) (claimed)) × lowii (♀ assumed first)",
            "N. ♀ (♀ (♀ ventricosa × ♂ lowii) × ♂ (burbidgeae × truncata) (claimed)) × ♂ lowii (unmarked: ♀ assumed first)",
            "♀ (♀ (♀ N. ventricosa × ♂ N. lowii) × ♂ (N. burbidgeae × N. truncata) (claimed)) × ♂ N. lowii (unmarked: ♀ assumed first)",
            "♀ (♀ (♀ N. ventricosa × ♂ N. lowii) × ♂ (N. burbidgeae × N. truncata) (claimed)) × ♂ N. lowii (unmarked cross: seed parent assumed first)",
        ]
    );
    let at = |most| fit(&formula, &Writing::plain(&words), most, Some("X22-02-5")).unwrap();
    assert_eq!(
        at(36).left_out,
        [
            "the genus",
            "♀ and ♂",
            "the basis of the order",
            "epithets that have a declared code",
            "the word claimed, written ?"
        ]
    );
    assert_eq!(at(150).left_out, [""; 0]);
    assert_eq!(
        at(120).left_out,
        ["the genus after the first parent"],
        "nothing is told to be left out that was not there"
    );
}

/// All versions at once are those that every length gives one by one, the longest first, without the code alone.
#[test]
fn the_ladder_is_all_that_fits_any_tag() {
    let words = vocabulary();
    for label in [TAG, CLAIMED, "N. ampullaria × N. rafflesiana", "N. lowii"] {
        let formula = formula(label);
        let mut one_by_one: Vec<String> = (0..200)
            .rev()
            .filter_map(|most| fit(&formula, &Writing::plain(&words), most, None))
            .map(|fitted| fitted.text)
            .collect();
        one_by_one.dedup();
        for style in [Style::Text, Style::Runs] {
            let writing = Writing {
                style,
                ..Writing::plain(&words)
            };
            let all = ladder(&formula, &writing, 199).into_iter();
            let bare = |text: String| text.replace(['\u{2}', '\u{3}'], "");
            let all: Vec<String> = all.map(|fitted| bare(fitted.text)).collect();
            assert_eq!(all, one_by_one, "{label}");
        }
    }
}

/// Purdy notation writes an unknown father as `?`, which hides that pollination was open.
#[test]
fn no_version_hides_open_pollination() {
    let words = vocabulary();
    let formula = formula("lowii × open pollinated");
    assert!(fit(&formula, &Writing::plain(&words), 8, None).is_some());
    let versions = ladder(&formula, &Writing::plain(&words), 100);
    assert!(versions.len() > 1, "{versions:?}");
    for version in versions {
        assert!(version.text.contains("open pollinated"), "{version:?}");
    }
}
