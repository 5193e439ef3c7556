//! A share as a grower writes it: ½, ⅜, 5/32, or a percentage where no such fraction fits.

/// The share as text; `fraction` is 0 to 1.
pub fn written(fraction: f64) -> String {
    for (below, signs) in [(2.0, "½"), (4.0, "¼ ¾"), (8.0, "⅛ ⅜ ⅝ ⅞")] {
        let above = fraction * below;
        if above == libm::floor(above) && above > 0.0 && above < below {
            return signs
                .split(' ')
                .nth((above as usize - 1) / 2)
                .unwrap_or("")
                .to_string();
        }
    }
    if fraction == 1.0 {
        return "all".to_string();
    }
    for below in [16.0, 32.0, 64.0] {
        let above = fraction * below;
        if above == libm::floor(above) && above > 0.0 {
            return format!("{above:.0}/{below:.0}");
        }
    }
    for (sign, value) in [
        ("⅓", 1.0 / 3.0),
        ("⅔", 2.0 / 3.0),
        ("⅙", 1.0 / 6.0),
        ("⅚", 5.0 / 6.0),
    ] {
        if (fraction - value).abs() < 1e-9 {
            return sign.to_string();
        }
    }
    if fraction < 0.001 {
        "< 0.1 %".to_string()
    } else {
        format!("{:.1} %", fraction * 100.0)
    }
}
