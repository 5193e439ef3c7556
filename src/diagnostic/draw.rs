//! Draws findings for a person to read, in the manner of a compiler.
//!
//! First the severity, the code and the title; then the place, its line and an underline; then what was found, what
//! was needed and what to do; then other places. Colour alone carries no meaning. Characters that would move the cursor or turn
//! the reading direction are shown as marks. Lines of the file are drawn by `excerpt`.

use unicode_width::UnicodeWidthStr;

use super::excerpt::excerpt;
use super::finding::{Finding, Severity};
use super::findings::Findings;
use super::paint::{Paint, Tone};
use crate::text::{Sources, Span, Terminal, visible};

/// How to draw.
#[derive(Clone, Copy, Debug)]
pub struct Drawing {
    /// Columns to keep within; fewer than 40 count as 40.
    pub width: usize,
    /// Whether to colour.
    pub paint: Paint,
}

impl Default for Drawing {
    fn default() -> Self {
        Self {
            width: 80,
            paint: Paint::Plain,
        }
    }
}

impl Drawing {
    /// One finding, ending in a line break.
    ///
    /// # Panics
    /// If a place is in a file that is not one of the sources.
    pub fn finding(&self, finding: &Finding, sources: &Sources) -> Terminal {
        let tone = tone(finding.severity);
        let head = format!("{} {}:", finding.severity.word(), finding.code);
        let title = self.wrap(&format!("{head} {}", finding.title), 2);
        let (first, rest) = title.split_once('\n').unwrap_or((&title, ""));
        let told = first.strip_prefix(&head).unwrap_or_default();
        let mut drawn = self.paint.paint(tone, &head);
        drawn.push(&self.paint.paint(Tone::Title, told));
        drawn.say("\n");
        drawn.say(rest);
        if let Some(place) = finding.place {
            self.draw_place(&mut drawn, (place, ""), sources, ('^', tone));
        }
        drawn.push(&self.remark("found", Tone::Frame, &finding.found));
        drawn.push(&self.remark("needed", Tone::Frame, &finding.needed));
        for help in &finding.help {
            drawn.push(&self.remark("help", Tone::Help, help));
        }
        for (place, remark) in &finding.related {
            self.draw_place(&mut drawn, (*place, remark), sources, ('-', Tone::Frame));
        }
        drawn
    }

    /// All findings of a severity or a graver one in order, an empty line between two.
    ///
    /// # Panics
    /// As [`Drawing::finding`].
    pub fn findings_from(
        &self,
        least: Severity,
        findings: &Findings,
        sources: &Sources,
    ) -> Terminal {
        let mut drawn = Terminal::default();
        for finding in findings.iter().filter(|f| f.severity >= least) {
            if !drawn.is_empty() {
                drawn.say("\n");
            }
            drawn.push(&self.finding(finding, sources));
        }
        drawn
    }

    /// The first findings of a severity or a graver one that fit in so many lines, one of them at least, and how many
    /// are left.
    ///
    /// # Panics
    /// As [`Drawing::finding`].
    pub fn first_findings(
        &self,
        (least, lines): (Severity, usize),
        findings: &Findings,
        sources: &Sources,
    ) -> (Terminal, usize) {
        let mut drawn = Terminal::default();
        let asked = || findings.iter().filter(|f| f.severity >= least);
        let (mut taken, mut shown) = (0, 0);
        for finding in asked() {
            let next = self.finding(finding, sources);
            taken += next.lines().count() + 1;
            if shown > 0 && taken > lines {
                break;
            }
            if shown > 0 {
                drawn.say("\n");
            }
            drawn.push(&next);
            shown += 1;
        }
        (drawn, asked().skip(shown).count())
    }

    /// The columns kept within.
    fn columns(&self) -> usize {
        self.width.max(40)
    }

    /// `path:line:column`, with what it has to do with the finding, and the line itself.
    fn draw_place(
        &self,
        drawn: &mut Terminal,
        (place, remark): (Span, &str),
        sources: &Sources,
        mark: (char, Tone),
    ) {
        let at = sources.locate(place);
        let lead = if remark.is_empty() { "  at " } else { "  see " };
        drawn.push(&self.paint.paint(Tone::Frame, lead));
        drawn.say(&format!("{}:{}:{}", visible(at.path), at.line, at.column));
        if !remark.is_empty() {
            drawn.say(&format!("  {}", visible(remark)));
        }
        drawn.say("\n");
        drawn.push(&excerpt(
            (self.columns(), self.paint),
            sources.get(place.file),
            place,
            mark,
        ));
    }

    /// A line that begins with a word of ours, wrapped under itself; nothing when there is nothing to say.
    fn remark(&self, word: &str, tone: Tone, text: &str) -> Terminal {
        if text.is_empty() {
            return Terminal::default();
        }
        let wrapped = self.wrap(&format!("  {word:<7} {text}"), 10);
        let (lead, rest) = wrapped.split_at(2);
        let mut drawn = Terminal::lines(lead);
        drawn.push(&self.paint.paint(tone, word));
        drawn.say(&rest[word.len()..]);
        drawn
    }

    /// Breaks a text between words to keep within the width, later lines indented; ends in a line break.
    fn wrap(&self, text: &str, indent: usize) -> String {
        let text = visible(text);
        let lead = text.len() - text.trim_start().len();
        let (mut wrapped, mut column) = (text[..lead].to_string(), lead);
        for (number, word) in text[lead..].split(' ').enumerate() {
            let wide = word.width();
            if number > 0 && column + 1 + wide > self.columns() && column > indent {
                wrapped.push('\n');
                wrapped.extend(std::iter::repeat_n(' ', indent));
                column = indent;
            } else if number > 0 {
                wrapped.push(' ');
                column += 1;
            }
            wrapped.push_str(word);
            column += wide;
        }
        wrapped.push('\n');
        wrapped
    }
}

fn tone(severity: Severity) -> Tone {
    match severity {
        Severity::Fault => Tone::Fault,
        Severity::Warning => Tone::Warning,
        Severity::Note => Tone::Note,
    }
}
