//! Sizes by age as a small picture in the page: siblings thin, the plant itself bold.

use super::words::say;
use crate::render::chart::Scale;
use crate::report::album::Curve;
use maud::{Markup, PreEscaped, html};
use std::fmt::Write;

/// Width and height, and the edges of the frame within: left, top, right, bottom.
const SIZE: (f64, f64) = (360.0, 250.0);
const FRAME: (f64, f64, f64, f64) = (40.0, 26.0, 350.0, 214.0);

/// The picture with its caption.
pub(super) fn curve(of: &Curve) -> Markup {
    let points = || of.siblings.iter().chain([&of.own]).flatten();
    let across = Scale::linear(
        points().map(|point| point.0).chain([0.0]),
        (FRAME.0, FRAME.2),
        5,
    );
    let up = Scale::linear(
        points().map(|point| point.1).chain([0.0]),
        (FRAME.3, FRAME.1),
        5,
    );
    let place = |point: &(f64, f64)| (across.at(point.0), up.at(point.1));
    let path = |line: &Vec<(f64, f64)>| {
        let mut out = String::new();
        for (at, point) in line.iter().map(place).enumerate() {
            let letter = if at == 0 { 'M' } else { 'L' };
            let _ = write!(out, "{letter}{:.0} {:.0}", point.0, point.1);
        }
        // A plant read once is a dot: a line of no length with round ends.
        if line.len() == 1 {
            out += "h0";
        }
        out
    };
    let (once, followed): (Vec<_>, Vec<_>) = of.siblings.iter().partition(|line| line.len() == 1);
    let [once, followed] =
        [once, followed].map(|lines| lines.into_iter().map(path).collect::<String>());
    let words = format!("{} by months from sowing: {}", of.heading, of.words);
    html! {
        figure.curve {
            svg viewBox=(format!("0 0 {:.0} {:.0}", SIZE.0, SIZE.1)) role="img" aria-label=(say(&words)) {
                g.grid {
                    @for tick in &up.ticks {
                        path d=(format!("M{:.0} {:.1}H{:.0}", FRAME.0, up.at(*tick), FRAME.2)) {}
                    }
                }
                g.ticks aria-hidden="true" {
                    @for (tick, label) in &up.labels() {
                        text x=(format!("{:.0}", FRAME.0 - 6.0)) y=(format!("{:.1}", up.at(*tick) + 4.0)) text-anchor="end" { (label) }
                    }
                    @for (tick, label) in &across.labels() {
                        text x=(format!("{:.1}", across.at(*tick))) y=(format!("{:.0}", FRAME.3 + 17.0)) text-anchor="middle" { (label) }
                    }
                    text x="4" y="13" { (say(&of.heading)) }
                    text x=(format!("{:.0}", FRAME.2)) y=(format!("{:.0}", SIZE.1 - 4.0)) text-anchor="end" { "months from sowing" }
                }
                @if !followed.is_empty() { path.sib d=(PreEscaped(followed)) {} }
                @if !once.is_empty() { path.sib.once d=(PreEscaped(once)) {} }
                @if !of.own.is_empty() {
                    path.own d=(path(&of.own)) {}
                    @for point in of.own.iter().map(place) {
                        circle.dot cx=(format!("{:.1}", point.0)) cy=(format!("{:.1}", point.1)) r="3.5" {}
                    }
                }
            }
            figcaption { (say(&words)) }
        }
    }
}
