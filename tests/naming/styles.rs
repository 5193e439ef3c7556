//! Styles and tag lengths.

use super::{reading, vocabulary};
use podbook::naming::{Formula, Rung, Style, Writing, botanical, breeder, fit};

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
        Some("(♀ N. lowii × ♂ N. maxima) × N. hamata (seed parent assumed first)")
    );
}

const TAG: &str = "(ventricosa \"dark\" × lowii) × maxima (seed parent first)";

#[test]
fn a_tag_is_shortened_step_by_step() {
    let words = vocabulary();
    let formula = formula(TAG);
    let fitted = |most| {
        fit(&formula, &Writing::plain(&words), most, Some("RB-014"))
            .map(|fitted| (fitted.text, fitted.rung))
    };
    let rows = [
        (
            66,
            "(N. ventricosa \"dark\" × N. lowii) × N. maxima (seed parent first)",
            Rung::Full,
        ),
        (
            65,
            "(N. ventricosa \"dark\" × N. lowii) × N. maxima (♀ first)",
            Rung::ShortBasis,
        ),
        (
            54,
            "N. (ventricosa \"dark\" × lowii) × maxima (♀ first)",
            Rung::GenusOnce,
        ),
        (
            49,
            "N. (ventricosa × lowii) × maxima (♀ first)",
            Rung::WithoutTags,
        ),
        (41, "N. (ventricosa × lowii) × maxima", Rung::WithoutBasis),
        (31, "(VEN × LOW) × MAX", Rung::Codes),
        (16, "RB-014 (see code)", Rung::SeeCode),
    ];
    for (most, text, rung) in rows {
        let (found, at) = fitted(most.max(text.chars().count())).unwrap();
        assert_eq!((found.as_str(), at), (text, rung), "{most}");
        assert!(text.chars().count() <= most.max(17));
    }
    assert_eq!(fitted(10), Some(("RB-014".to_owned(), Rung::SeeCode)));
    assert_eq!(fitted(3), None);
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
            assert_eq!(
                podbook::naming::shares(&again),
                podbook::naming::shares(&formula),
                "{}",
                fitted.text
            );
            let unknown = |text: &str| text.contains("direction unknown");
            let full = breeder(&formula, &Writing::plain(&words)).unwrap();
            assert_eq!(unknown(&fitted.text), unknown(&full), "{}", fitted.text);
        }
    }
}
