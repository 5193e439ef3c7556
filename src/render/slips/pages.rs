//! Slips to print, each on a page of A5 (ISO 216); two fit on a sheet of A4. A long one goes on over the next page.

use crate::record::Day;
use crate::render::scene::{
    Colour, Face, INK, POINTS, Path, SOFT, Scene, Setting, Stroke, Word, set, wrap,
};
use crate::report::promised::{PromisedReport, Slip};
use crate::wording::at_date;

const WIDTH: f64 = 148.0 * POINTS;
const HEIGHT: f64 = 210.0 * POINTS;
const MARGIN: f64 = 14.0 * POINTS;
/// Sizes of letters, points.
const TITLE: f64 = 16.0;
const BODY: f64 = 11.0;
const SMALL: f64 = 9.0;
/// From one baseline to the next, in sizes of the letters.
const LEADING: f64 = 1.35;
/// How far what was and is said stands in.
const INDENT: f64 = 14.0;

/// The pages of all slips; a page that says so where there is none.
pub fn pages(of: &PromisedReport, today: Day) -> Vec<Scene> {
    if of.changed.is_empty() {
        let mut page = Pages::of("Corrections");
        page.said(
            "No text that went with a plant has to be corrected.",
            (BODY, INK),
        );
        return page.scenes;
    }
    let slips = of.changed.iter();
    slips.flat_map(|slip| one(slip, of, today)).collect()
}

fn one(slip: &Slip, of: &PromisedReport, today: Day) -> Vec<Scene> {
    let title = format!("Correction for {}", slip.plant);
    let mut page = Pages::of(&title);
    page.lines(&[bold(&title)], (TITLE, INK), 0.0);
    page.y += BODY * 0.6;
    let left = format!(
        "This plant left {}. What was written about it then is no longer right.",
        at_date(&slip.on)
    );
    page.said(&left, (BODY, INK));
    page.quoted("It said:", &slip.was, SOFT);
    page.quoted("It now reads:", &slip.now, INK);
    page.said(
        "Please keep this with the plant, write the new words on its tag, and pass them on if it moves on.",
        (BODY, INK),
    );
    let who = [of.grower.as_deref(), of.contact.as_deref()];
    let made = std::iter::once(today.to_string());
    let made: Vec<String> = made
        .chain(who.into_iter().flatten().map(str::to_owned))
        .collect();
    page.said(&made.join(", "), (SMALL, SOFT));
    page.scenes
}

fn bold(text: &str) -> Word {
    Word {
        text: text.to_owned(),
        face: Face::Bold,
    }
}

/// Pages in the making.
struct Pages {
    title: String,
    scenes: Vec<Scene>,
    y: f64,
}

impl Pages {
    fn of(title: &str) -> Pages {
        let mut pages = Pages {
            title: crate::text::one_line(title).into_owned(),
            scenes: Vec::new(),
            y: 0.0,
        };
        pages.begin();
        pages
    }

    fn begin(&mut self) {
        self.scenes.push(Scene {
            width: WIDTH,
            height: HEIGHT,
            title: self.title.clone(),
            description: "A correction slip".to_owned(),
            ..Scene::default()
        });
        self.y = MARGIN;
    }

    fn scene(&mut self) -> &mut Scene {
        let last = self.scenes.len() - 1;
        &mut self.scenes[last]
    }

    /// Words over the width, and air below.
    fn said(&mut self, text: &str, look: (f64, Colour)) {
        self.lines(&[Word::roman(crate::text::one_line(text))], look, 0.0);
        self.y += BODY * 0.7;
    }

    /// What was or is said, set in behind an upright line.
    fn quoted(&mut self, lead: &str, text: &str, colour: Colour) {
        self.lines(&[bold(lead)], (BODY, INK), 0.0);
        self.y += BODY * 0.2;
        self.lines(
            &[Word::roman(crate::text::one_line(text))],
            (BODY, colour),
            INDENT,
        );
        self.y += BODY * 0.8;
    }

    fn lines(&mut self, words: &[Word], (size, colour): (f64, Colour), indent: f64) {
        let left = MARGIN + indent;
        for line in wrap(words, size, WIDTH - MARGIN - left) {
            if self.y + size * LEADING > HEIGHT - MARGIN {
                self.begin();
            }
            let top = self.y;
            self.y += size * LEADING;
            let base = (left, self.y - size * 0.35);
            let bottom = self.y;
            set(self.scene(), &line, base, Setting { size, colour });
            if indent > 0.0 {
                let x = MARGIN + indent / 2.0;
                let rule = Path::line((x, top), (x, bottom));
                self.scene().stroke(rule, Stroke::solid(SOFT, 1.2));
            }
        }
    }
}
