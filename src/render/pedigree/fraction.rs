//! A share as a grower writes it: ½, ⅜, 5/32, or a percentage where no such fraction fits.

/// The fractions that have a sign of their own.
const SIGNS: [(f64, &str); 11] = [
    (1.0 / 2.0, "½"),
    (1.0 / 4.0, "¼"),
    (3.0 / 4.0, "¾"),
    (1.0 / 8.0, "⅛"),
    (3.0 / 8.0, "⅜"),
    (5.0 / 8.0, "⅝"),
    (7.0 / 8.0, "⅞"),
    (1.0 / 3.0, "⅓"),
    (2.0 / 3.0, "⅔"),
    (1.0 / 6.0, "⅙"),
    (5.0 / 6.0, "⅚"),
];

/// The share as text; `fraction` is 0 to 1. Fractions are recognised to within 1e-9.
pub fn written(fraction: f64) -> String {
    let near = |value: f64| (fraction - value).abs() < 1e-9;
    if near(1.0) {
        return "all".to_string();
    }
    if let Some((_, sign)) = SIGNS.iter().find(|(value, _)| near(*value)) {
        return sign.to_string();
    }
    for below in [16.0, 32.0, 64.0] {
        let above = libm::round(fraction * below);
        if above > 0.0 && near(above / below) {
            return format!("{above:.0}/{below:.0}");
        }
    }
    if fraction < 0.001 {
        "< 0.1 %".to_string()
    } else {
        format!("{:.1} %", fraction * 100.0)
    }
}
