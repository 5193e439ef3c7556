//! Names at the ends of lines, in place of a legend.

use super::apart::within;
use super::frame::FOCUS;
use super::look::Look;
use super::sheet::Sheet;
use crate::render::scene::{Face, Path, RULE, SOFT, Setting, Stroke, Word, fit, set, width};

/// Most room for names.
const NAMES: f64 = 96.0;
/// From the field to a name.
const AWAY: f64 = 10.0;

/// Where a line ends and what it is called.
pub struct End<'l> {
    /// The name.
    pub label: &'l str,
    /// The last place of the line.
    pub place: (f64, f64),
    /// Whether it is the plant in question.
    pub focus: bool,
}

/// Room to leave right of the field.
pub fn room_for<'l>(labels: impl Iterator<Item = &'l str>, look: Look) -> f64 {
    let wide = labels
        .map(|label| width(label, Face::Roman, look.small))
        .fold(0.0, f64::max);
    (wide + AWAY + 4.0).min(look.beside_letters(NAMES))
}

/// Names right of the field, kept apart and within its height; where there are too many for it only the plants in
/// question are named. `field` is the right end of the field, its top and its bottom. Returns how many have no name.
pub fn name_ends(sheet: &mut Sheet, ends: &[End], field: (f64, f64, f64)) -> usize {
    let look = sheet.look;
    let (right, top, bottom) = field;
    let room = look.small * 1.15;
    let most = ((bottom - top) / room) as usize;
    let crowded = ends.len() > most;
    let mut named: Vec<&End> = ends.iter().filter(|end| end.focus || !crowded).collect();
    named.sort_by(|a, b| a.place.1.total_cmp(&b.place.1));
    named.truncate(most);
    let wishes: Vec<f64> = named.iter().map(|end| end.place.1 - room / 2.0).collect();
    let places = within(&wishes, &vec![room; wishes.len()], (top, bottom));
    for (end, above) in named.iter().zip(places) {
        let y = above + room / 2.0;
        let x = right + AWAY;
        // Level as far as the field goes: a slant through it would read as a line that falls or rises.
        let level = (end.place.0 + 3.0, right.max(end.place.0 + 3.0));
        let way = [(level.0, end.place.1), (level.1, end.place.1), (x - 2.0, y)];
        sheet.stroke(Path::polyline(&way), Stroke::solid(RULE, 0.6));
        let colour = if end.focus { FOCUS } else { SOFT };
        let label = fit(
            &[Word::roman(end.label)],
            look.small,
            look.beside_letters(NAMES) - AWAY - 2.0,
        );
        let setting = Setting {
            size: look.small,
            colour,
        };
        set(sheet, &label, (x, y + look.small * 0.3), setting);
    }
    ends.len() - named.len()
}
