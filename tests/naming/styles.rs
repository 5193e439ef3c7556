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
        ("(VEN × LOW) × MAX", Rung::Codes),
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
    let long_code = fit(&formula, &Writing::plain(&words), 16, Some("RB-1")).unwrap();
    assert_eq!(
        (long_code.text.as_str(), long_code.rung),
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
