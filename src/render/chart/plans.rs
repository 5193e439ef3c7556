//! What to pollinate: a row for each pair, the plan and the best other plan side by side, a capsule for each pod.

use super::frame::{DOT, FOCUS, LABEL, MARGIN, SMALL, Stand, WIDTH, begin, end, nothing, say};
use crate::render::scene::{
    Colour, INK, Path, RULE, SOFT, Scene, Setting, Stroke, Word, fit, line_width, set,
};
use crate::report::chart::{PlansChart, PlansRow};

/// Width of the column of pairs.
const PAIRS: f64 = 168.0;

/// Height of a row.
const ROW: f64 = 19.0;

/// A capsule: its width, and from one to the next.
const CAPSULE: f64 = 5.0;
const STEP: f64 = 8.0;

/// Capsules drawn one by one; of more only the number stands there.
const MOST: u32 = 8;

/// The chart of plans side by side.
pub fn plans(chart: &PlansChart) -> Scene {
    let (mut scene, top) = begin(&chart.title);
    if chart.rows.is_empty() || chart.plans.is_empty() {
        let bottom = nothing(&mut scene, top);
        return end(scene, &chart.notes, bottom);
    }
    let column = (WIDTH - 2.0 * MARGIN - PAIRS) / chart.plans.len() as f64;
    let left = |plan: usize| MARGIN + PAIRS + column * plan as f64;
    let mut y = headings(&mut scene, chart, (top, column), &left);
    for row in &chart.rows {
        rule(&mut scene, y);
        let base = y + ROW * 0.66;
        let colour = if is_alike(row) { SOFT } else { INK };
        pair(&mut scene, row, (MARGIN, base), colour);
        for (plan, &pods) in row.pods.iter().enumerate() {
            let capsule = if is_alike(row) { DOT } else { FOCUS };
            capsules(&mut scene, pods, (left(plan), base), (capsule, colour));
        }
        y += ROW;
    }
    rule(&mut scene, y);
    end(scene, &chart.notes, y + 2.0)
}

fn is_alike(row: &PlansRow) -> bool {
    row.pods.windows(2).all(|two| two[0] == two[1])
}

fn rule(scene: &mut Scene, y: f64) {
    scene.stroke(
        Path::line((MARGIN, y), (WIDTH - MARGIN, y)),
        Stroke::solid(RULE, 0.5),
    );
}

/// What each plan is called and its facts, a line each; returns where the rows begin.
fn headings(
    scene: &mut Scene,
    chart: &PlansChart,
    (top, column): (f64, f64),
    left: &dyn Fn(usize) -> f64,
) -> f64 {
    let mut bottom = top;
    for (plan, (name, facts)) in chart.plans.iter().enumerate() {
        let mut y = top + LABEL;
        for (at, text) in std::iter::once(name).chain(facts).enumerate() {
            let (size, colour) = if at == 0 { (LABEL, INK) } else { (SMALL, SOFT) };
            let line = fit(&[Word::roman(text.as_str())], size, column - 4.0);
            set(scene, &line, (left(plan), y), Setting { size, colour });
            y += SMALL * 1.3;
        }
        bottom = bottom.max(y);
    }
    bottom
}

/// `♀ Ven1 × ♂ Spa1`, cut where it is too long.
fn pair(scene: &mut Scene, row: &PlansRow, place: (f64, f64), colour: Colour) {
    let text = format!("♀ {} × ♂ {}", row.seed, row.pollen);
    let line = fit(&[Word::roman(text)], LABEL, PAIRS - 8.0);
    let setting = Setting {
        size: LABEL,
        colour,
    };
    set(scene, &line, place, setting);
}

/// A capsule for each pod, and their number; a dash for none.
fn capsules(scene: &mut Scene, pods: u32, (left, base): (f64, f64), (fill, ink): (Colour, Colour)) {
    let setting = Setting {
        size: LABEL,
        colour: ink,
    };
    let text = match pods {
        0 => "–".to_owned(),
        pods => pods.to_string(),
    };
    let wide = line_width(&[Word::roman(text.as_str())], LABEL);
    say(
        scene,
        &text,
        (left + 12.0 - wide, base),
        Stand::After,
        setting,
    );
    if pods > MOST {
        return;
    }
    for at in 0..pods {
        let corner = (left + 17.0 + STEP * f64::from(at), base - 8.5);
        let path = Path::rounded(corner, (CAPSULE, 10.0), CAPSULE / 2.0);
        scene.fill(path, fill);
    }
}
