//! Kinds without order: a short bar for each, its name before it, its count and share after it.

use super::frame::{LABEL, MARGIN, SMALL, Stand, WIDTH, say};
use crate::render::scene::{Face, INK, Path, SOFT, Scene, Setting, width};
use crate::report::chart::{KindBar, KindGroup};

/// Length of the longest bar.
const LONGEST: f64 = 130.0;
/// From one bar to the next.
const STEP: f64 = 11.0;
/// Thickness of a bar.
const THICK: f64 = 5.0;
/// Most room for the name of a kind.
const NAME: f64 = 110.0;

/// Paints the groups one below the other; returns where the last ends.
pub fn kinds(scene: &mut Scene, groups: &[KindGroup], top: f64) -> f64 {
    let bars = || groups.iter().flat_map(|group| &group.bars);
    let most = bars().map(|bar| bar.n).max().unwrap_or(1).max(1) as f64;
    let names = bars().map(|bar| width(&bar.kind, Face::Roman, SMALL));
    let left = MARGIN + 8.0 + names.fold(0.0, f64::max).min(NAME) + 6.0;
    let mut y = top + 2.0;
    for group in groups {
        y += LABEL * 1.3;
        write(scene, &group.label, (MARGIN, y), LABEL);
        y += 3.0;
        for kind in &group.bars {
            y += STEP;
            bar(scene, kind, (left, y), LONGEST * kind.n as f64 / most);
        }
        y += 4.0;
    }
    y
}

fn bar(scene: &mut Scene, kind: &KindBar, (left, base): (f64, f64), long: f64) {
    let small = |colour| Setting {
        size: SMALL,
        colour,
    };
    say(
        scene,
        &kind.kind,
        (left - 6.0, base),
        Stand::Before,
        small(INK),
    );
    if long > 0.0 {
        scene.fill(Path::rect(left, base - THICK - 0.2, long, THICK), INK);
    }
    let count = kind.n.to_string();
    let after = left + long + 5.0;
    say(scene, &count, (after, base), Stand::After, small(INK));
    let told = after + width(&count, Face::Roman, SMALL) + 6.0;
    if told < WIDTH - MARGIN {
        say(scene, &kind.remark, (told, base), Stand::After, small(SOFT));
    }
}

fn write(scene: &mut Scene, text: &str, place: (f64, f64), size: f64) {
    say(
        scene,
        text,
        place,
        Stand::After,
        Setting { size, colour: INK },
    );
}
