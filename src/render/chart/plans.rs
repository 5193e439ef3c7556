//! What to pollinate: a row for each pair, the plan and the best other plan side by side, a capsule for each pod.

use super::frame::{DOT, FOCUS, Stand, begin, end, nothing, say};
use super::look::Look;
use super::sheet::Sheet;
use crate::render::scene::{
    Colour, INK, Path, RULE, SOFT, Setting, Stroke, Word, fit, line_width, set,
};
use crate::report::chart::{PlansChart, PlansRow};

/// Part of the room that the column of pairs takes.
const PAIRS: f64 = 168.0 / 372.0;

/// Width of the column of pairs.
fn pairs(look: Look) -> f64 {
    look.room() * PAIRS
}

/// Height of a row.
const ROW: f64 = 19.0;

/// A capsule: its width, and from one to the next.
const CAPSULE: f64 = 5.0;
const STEP: f64 = 8.0;

/// Capsules drawn one by one; of more only the number stands there.
const MOST: u32 = 8;

/// The chart of plans side by side.
pub fn plans(chart: &PlansChart, look: Look) -> Sheet {
    let pairs = pairs(look);
    let (mut sheet, top) = begin(&chart.title, look);
    if chart.rows.is_empty() || chart.plans.is_empty() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let column = (look.room() - pairs) / chart.plans.len() as f64;
    let left = |plan: usize| look.margin + pairs + column * plan as f64;
    let mut y = headings(&mut sheet, chart, (top, column), &left);
    let tall = look.beside_letters(ROW);
    for row in &chart.rows {
        rule(&mut sheet, y);
        sheet.may_end(y - 0.5);
        let base = y + tall * 0.66;
        let colour = if is_alike(row) { SOFT } else { INK };
        pair(&mut sheet, row, (look.margin, base), colour);
        for (plan, &pods) in row.pods.iter().enumerate() {
            let capsule = if is_alike(row) { DOT } else { FOCUS };
            let body = Body {
                colour: capsule,
                is_hollow: row.may_not_meet,
            };
            capsules(&mut sheet, pods, (left(plan), base), (body, colour));
        }
        y += tall;
    }
    rule(&mut sheet, y);
    end(sheet, &chart.notes, y + 2.0)
}

fn is_alike(row: &PlansRow) -> bool {
    row.pods.windows(2).all(|two| two[0] == two[1])
}

fn rule(sheet: &mut Sheet, y: f64) {
    let look = sheet.look;
    sheet.stroke(
        Path::line((look.margin, y), (look.right(), y)),
        Stroke::solid(RULE, 0.5),
    );
}

/// What each plan is called and its facts, a line each; returns where the rows begin.
fn headings(
    sheet: &mut Sheet,
    chart: &PlansChart,
    (top, column): (f64, f64),
    left: &dyn Fn(usize) -> f64,
) -> f64 {
    let look = sheet.look;
    let mut bottom = top;
    for (plan, (name, facts)) in chart.plans.iter().enumerate() {
        let mut y = top + look.label;
        for (at, text) in std::iter::once(name).chain(facts).enumerate() {
            let (size, colour) = if at == 0 {
                (look.label, INK)
            } else {
                (look.small, SOFT)
            };
            let line = fit(&[Word::roman(text.as_str())], size, column - 4.0);
            set(sheet, &line, (left(plan), y), Setting { size, colour });
            y += look.small * 1.3;
        }
        bottom = bottom.max(y);
    }
    bottom
}

/// `♀ Ven1 × ♂ Spa1`, cut where it is too long.
fn pair(sheet: &mut Sheet, row: &PlansRow, place: (f64, f64), colour: Colour) {
    let look = sheet.look;
    let text = format!("♀ {} × ♂ {}", row.seed, row.pollen);
    let line = fit(&[Word::roman(text)], look.label, pairs(look) - 8.0);
    let setting = Setting {
        size: look.label,
        colour,
    };
    set(sheet, &line, place, setting);
}

/// How a capsule is drawn.
#[derive(Clone, Copy)]
struct Body {
    colour: Colour,
    is_hollow: bool,
}

/// A capsule for each pod, and their number; a dash for none.
fn capsules(sheet: &mut Sheet, pods: u32, (left, base): (f64, f64), (body, ink): (Body, Colour)) {
    let look = sheet.look;
    let setting = Setting {
        size: look.label,
        colour: ink,
    };
    let text = match pods {
        0 => "–".to_owned(),
        pods => pods.to_string(),
    };
    let wide = line_width(&[Word::roman(text.as_str())], look.label);
    say(
        sheet,
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
        match body.is_hollow {
            true => sheet.stroke(path, Stroke::solid(body.colour, 1.0)),
            false => sheet.fill(path, body.colour),
        }
    }
}
