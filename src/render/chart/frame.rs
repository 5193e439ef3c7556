//! What every chart shares: title on top, notes below, axes with a thin grid.

use super::scale::Scale;
use crate::render::pedigree::words;
use crate::render::scene::{
    Colour, INK, PAPER, Path, RULE, SOFT, Scene, Setting, Stroke, Word, fit, line_width, set, wrap,
};
use crate::wording::{Name, NameRun};

/// Width of every chart: letters are still readable where a phone held upright shows it whole, 360 points across.
pub const WIDTH: f64 = 400.0;
/// Air around a chart.
pub const MARGIN: f64 = 14.0;
/// Letters of titles.
const TITLE: f64 = 12.5;
/// Letters of labels.
pub const LABEL: f64 = 9.5;
/// Letters of notes and ticks.
pub const SMALL: f64 = 8.5;
/// Dots of siblings.
pub const DOT: Colour = Colour(0x4b, 0x96, 0x69);
/// The plant in question.
pub const FOCUS: Colour = Colour(0x8c, 0x1a, 0x2b);

/// An empty chart with its title; returns where the chart itself begins.
pub fn begin(title: &Name) -> (Scene, f64) {
    let plain: String = title.iter().map(|run| run.text.as_str()).collect();
    let mut scene = Scene {
        width: WIDTH,
        title: plain,
        ..Scene::default()
    };
    let mut y = MARGIN;
    for line in wrap(&words(title, false), TITLE, WIDTH - 2.0 * MARGIN) {
        y += TITLE + 0.5;
        set(
            &mut scene,
            &line,
            (MARGIN, y),
            Setting {
                size: TITLE,
                colour: INK,
            },
        );
        y += 2.5;
    }
    (scene, y + 6.0)
}

/// The notes below a chart; closes the scene.
pub fn end(mut scene: Scene, notes: &[String], bottom: f64) -> Scene {
    let mut y = bottom + 4.0;
    for note in notes {
        let note: Name = vec![NameRun {
            text: note.clone(),
            italic: false,
        }];
        for line in wrap(&words(&note, false), SMALL, WIDTH - 2.0 * MARGIN) {
            y += SMALL * 1.3;
            set(
                &mut scene,
                &line,
                (MARGIN, y),
                Setting {
                    size: SMALL,
                    colour: SOFT,
                },
            );
        }
        y += 1.5;
    }
    scene.height = y + MARGIN;
    scene.description = scene
        .texts()
        .map(|run| run.text.as_str())
        .collect::<Vec<_>>()
        .join(" ");
    scene
}

/// Where a text stands against the place given for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stand {
    /// It begins there.
    After,
    /// Its middle is there.
    Middle,
    /// It ends there.
    Before,
}

/// A short upright text, cut to the width of the paper.
pub fn say(scene: &mut Scene, text: &str, place: (f64, f64), stand: Stand, setting: Setting) {
    let name: Name = vec![NameRun {
        text: text.to_string(),
        italic: false,
    }];
    let line = fit(&words(&name, false), setting.size, WIDTH - 2.0 * MARGIN);
    let wide = line_width(&line, setting.size);
    let x = match stand {
        Stand::After => place.0,
        Stand::Middle => place.0 - wide / 2.0,
        Stand::Before => place.0 - wide,
    };
    set(scene, &line, (x, place.1), setting);
}

/// The axis across, below the field, with grid lines through it.
pub fn across(scene: &mut Scene, scale: &Scale, field: (f64, f64), name: &str) {
    let (top, bottom) = field;
    for (tick, label) in scale.labels() {
        let x = scale.at(tick);
        scene.stroke(Path::line((x, top), (x, bottom)), Stroke::solid(RULE, 0.5));
        say(
            scene,
            &label,
            (x, bottom + SMALL * 1.25),
            Stand::Middle,
            Setting {
                size: SMALL,
                colour: SOFT,
            },
        );
    }
    if !name.is_empty() {
        let end = scale
            .ticks
            .last()
            .map_or(WIDTH - MARGIN, |tick| scale.at(*tick));
        say(
            scene,
            name,
            (end, bottom + SMALL * 2.5),
            Stand::Before,
            Setting {
                size: SMALL,
                colour: SOFT,
            },
        );
    }
}

/// The axis up, left of the field, with grid lines through it; its name stands above.
pub fn up(scene: &mut Scene, scale: &Scale, field: (f64, f64), name: &str) {
    let (left, right) = field;
    for (tick, label) in scale.labels() {
        let y = scale.at(tick);
        scene.stroke(Path::line((left, y), (right, y)), Stroke::solid(RULE, 0.5));
        say(
            scene,
            &label,
            (left - 4.0, y + SMALL * 0.3),
            Stand::Before,
            Setting {
                size: SMALL,
                colour: SOFT,
            },
        );
    }
    let top = scale.ticks.last().map_or(0.0, |tick| scale.at(*tick));
    say(
        scene,
        name,
        (MARGIN, top - 8.0),
        Stand::After,
        Setting {
            size: SMALL,
            colour: SOFT,
        },
    );
}

/// A dot, hollow where its reading is doubtful.
pub fn dot(scene: &mut Scene, place: (f64, f64), radius: f64, colour: Colour, doubtful: bool) {
    let path = Path::circle(place, radius);
    match doubtful {
        true => scene.framed(path, PAPER, Stroke::solid(colour, 0.9)),
        false => scene.fill(path, colour),
    }
}

/// Said in place of a chart without values.
pub fn nothing(scene: &mut Scene, top: f64) -> f64 {
    let line = [Word::roman("no readings to show")];
    set(
        scene,
        &line,
        (MARGIN, top + 12.0),
        Setting {
            size: LABEL,
            colour: SOFT,
        },
    );
    top + 18.0
}
