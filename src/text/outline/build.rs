//! Puts the tokens of a RON text together into parts, and goes on after every fault.
//!
//! Brackets are kept on a stack of our own, and a text that opens more of them than any page needs is given up. When brackets or texts do not close, a second
//! pass also heeds the layout: a line that is indented no deeper than the line of an open bracket ends that bracket.
//! A third takes a closing bracket that does not match for one too many. Of the readings the one with the fewest faults
//! is kept.

use super::frame::Frame;
use super::parts::{Fault, FaultKind, Kind, NONE, Part, Role};
use super::scan::{Bracket, Scanner, Token, token_at};

/// Most brackets that may be open at once. A sound page needs eight; each further one would cost memory many times its
/// byte in the text.
pub const DEEPEST: usize = 64;

/// The parts and faults of a text; of one given up, no part and the one fault that says so.
pub(super) fn build(text: &str) -> (Vec<Part>, Vec<Fault>) {
    let plain = Builder::new(text, Reading::Plain).run();
    let unbalanced = |fault: &Fault| {
        use FaultKind::*;
        matches!(
            fault.kind,
            UnclosedBracket
                | StrayBracket
                | UnclosedText
                | MissingComma
                | SecondValue
                | NestedTooDeep
        )
    };
    if !plain.1.iter().any(unbalanced) {
        return plain;
    }
    // Brackets that are never closed make a text deep, and have it given up, unless the layout closes them.
    let badness = |(parts, faults): &(Vec<Part>, Vec<Fault>)| (parts.is_empty(), faults.len());
    let better = |one, other| std::cmp::min_by_key(one, other, badness);
    let best = better(Builder::new(text, Reading::ByLayout).run(), plain);
    match best.1.len() {
        1 => best,
        _ => better(best, Builder::new(text, Reading::Matched).run()),
    }
}

/// How brackets that do not match are read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Reading {
    /// A closing bracket closes the innermost of its sort, and those inside it.
    Plain,
    /// So does the indentation of a line.
    ByLayout,
    /// A closing bracket closes only what it matches, and the outermost bracket only at the end.
    Matched,
}

/// What has been read so far; what stands between values is seen to in `between`.
pub(super) struct Builder<'t> {
    pub(super) scanner: Scanner<'t>,
    reading: Reading,
    pub(super) parts: Vec<Part>,
    pub(super) frames: Vec<Frame>,
    /// How many of the open brackets are of each sort.
    open: [usize; 3],
    /// Where the token before ended.
    pub(super) ended: usize,
    /// Start and indentation of the line of the last token.
    pub(super) line_start: usize,
    indent: usize,
    /// The line in which a comma was last said to be missing: one mistake, one fault.
    pub(super) comma_line: Option<usize>,
    /// Whether something was said to follow the one value of the text: what else follows is not told.
    overfull: bool,
}

impl<'t> Builder<'t> {
    fn new(text: &'t str, reading: Reading) -> Self {
        let whole = Frame::new(NONE, Bracket::Square, 0, 0);
        Self {
            scanner: Scanner::new(text, reading == Reading::ByLayout),
            reading,
            parts: Vec::new(),
            frames: vec![whole],
            open: [0; 3],
            ended: 0,
            line_start: usize::MAX,
            indent: 0,
            comma_line: None,
            overfull: false,
        }
    }

    fn run(mut self) -> (Vec<Part>, Vec<Fault>) {
        loop {
            let token = self.scanner.next();
            if self.scanner.line_start != self.line_start {
                self.new_line(token);
            }
            match token {
                Token::Open(_) if self.frames.len() > DEEPEST => return self.given_up(),
                Token::Open(bracket) => self.open(bracket),
                Token::Close(bracket) => self.close(bracket),
                Token::Comma => self.comma(),
                Token::Colon => self.colon(),
                Token::Leaf(kind) => {
                    self.admit(kind);
                }
                Token::End => break,
            }
            self.ended = self.scanner.end;
        }
        while self.frames.len() > 1 {
            self.abandon(self.scanner.text.len());
        }
        let mut faults = self.scanner.faults;
        faults.sort_unstable();
        (self.parts, faults)
    }

    /// Nothing but the fault that too many brackets are open.
    fn given_up(self) -> (Vec<Part>, Vec<Fault>) {
        let outermost = self.frames.get(1).map(|frame| frame.part as usize);
        let fault = Fault {
            start: self.scanner.start as u32,
            end: self.scanner.end as u32,
            kind: FaultKind::NestedTooDeep,
            other: outermost.map(|part| self.parts[part].open),
        };
        (Vec::new(), vec![fault])
    }

    pub(super) fn fault(&mut self, kind: FaultKind, start: usize, end: usize, other: Option<u32>) {
        self.scanner.faults.push(Fault {
            start: start as u32,
            end: end as u32,
            kind,
            other,
        });
    }

    /// A fault outside all brackets, told only once.
    pub(super) fn outside(&mut self, kind: FaultKind, other: Option<u32>) {
        let start = self.scanner.start as u32;
        if let Some(mark) = self.scanner.faults.last_mut()
            && mark.start == start
            && mark.kind == FaultKind::WrongMark
        {
            // After the one value of the text a mark means nothing.
            mark.kind = FaultKind::StrayCharacters;
        } else if !std::mem::replace(&mut self.overfull, true) {
            self.fault(kind, self.scanner.start, self.scanner.end, other);
        }
    }

    pub(super) fn top(&mut self) -> &mut Frame {
        self.frames
            .last_mut()
            .expect("the frame of the whole text is never popped")
    }

    /// Notes the line of the token; by layout, ends the brackets which that line's indentation ends.
    fn new_line(&mut self, token: Token) {
        self.line_start = self.scanner.line_start;
        self.indent = self.scanner.start - self.line_start;
        if self.reading != Reading::ByLayout || token == Token::End {
            return;
        }
        let spare = usize::from(matches!(token, Token::Close(_)));
        while let [.., _, top] = self.frames.as_slice()
            && top.line_start < self.line_start
            && top.indent >= self.indent + spare
        {
            self.abandon(self.scanner.start);
            // The comma after it was read inside it.
            self.top().filled = matches!(token, Token::Comma | Token::Colon | Token::Close(_));
        }
    }

    fn open(&mut self, bracket: Bracket) {
        let start = self.scanner.start;
        let part = match self.name_before() {
            Some(name) if bracket == Bracket::Round => name,
            _ => self.admit(Kind::Struct),
        };
        let place = &mut self.parts[part as usize];
        place.kind = match bracket {
            Bracket::Round => Kind::Struct,
            Bracket::Square => Kind::List,
            Bracket::Curly => Kind::Map,
        };
        (place.open, place.closed) = (start as u32, false);
        self.open[bracket as usize] += 1;
        self.frames
            .push(Frame::new(part, bracket, self.line_start, self.indent));
    }

    /// The bare word just read, which may be the name of a struct or tuple that opens now.
    fn name_before(&mut self) -> Option<u32> {
        let top = self.frames.last()?;
        let last = self.parts.len().checked_sub(1)? as u32;
        (top.filled && top.last == last && self.parts[last as usize].kind == Kind::Word)
            .then_some(last)
    }

    fn close(&mut self, bracket: Bracket) {
        let start = self.scanner.start;
        let top = &self.frames[self.frames.len() - 1];
        let is_last = || token_at(self.scanner.text, self.scanner.end).0 == Token::End;
        let matches = top.bracket == bracket && (self.frames.len() > 2 || is_last());
        let is_stray = self.reading == Reading::Matched && !matches;
        if is_stray || self.open[bracket as usize] == 0 {
            return self.fault(FaultKind::StrayBracket, start, self.scanner.end, None);
        }
        while self.frames[self.frames.len() - 1].bracket != bracket {
            self.abandon(start);
        }
        let part = self.leave() as usize;
        (self.parts[part].end, self.parts[part].closed) = (self.scanner.end as u32, true);
    }

    /// Leaves the innermost bracket although it is not closed; `noticed` is where that shows.
    fn abandon(&mut self, noticed: usize) {
        let part = self.leave() as usize;
        let open = self.parts[part].open as usize;
        self.parts[part].end = self.ended as u32;
        self.fault(
            FaultKind::UnclosedBracket,
            open,
            open + 1,
            Some(noticed as u32),
        );
    }

    /// Leaves the innermost bracket and gives its part.
    fn leave(&mut self) -> u32 {
        self.demand_value(self.scanner.start);
        let frame = self.frames.pop().expect("only called inside a bracket");
        self.open[frame.bracket as usize] -= 1;
        let past = self.parts.len() as u32;
        let part = &mut self.parts[frame.part as usize];
        part.past = past;
        if part.kind == Kind::Struct && !frame.named && frame.nameless != NONE {
            part.kind = Kind::Tuple;
        }
        if frame.named && frame.nameless != NONE {
            let lone = self.parts[frame.nameless as usize];
            self.fault(
                FaultKind::NamelessValue,
                lone.start as usize,
                lone.end as usize,
                None,
            );
        }
        frame.part
    }

    /// The number of which this token is the rest after a comma: `seeds: 1,200`, `height: 0,7`.
    fn number_before(&self) -> Option<u32> {
        let top = self.frames.last()?;
        let number = top.last;
        let before = self.parts.get(number as usize)?;
        let is_last = number as usize + 1 == self.parts.len();
        let is_field = before.role == Role::Field && before.kind == Kind::Number;
        if !is_last || !is_field || top.filled || top.colon {
            return None;
        }
        let whole = &self.scanner.text[before.start as usize..self.scanner.end];
        let (head, rest) = whole.split_at((before.end - before.start) as usize);
        let is_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        let rest = rest.strip_prefix(',')?;
        (is_digits(rest) && head.split(',').all(is_digits)).then_some(number)
    }

    fn join_number(&mut self, number: u32) -> u32 {
        let (start, end) = (self.parts[number as usize].start, self.scanner.end);
        self.parts[number as usize].end = end as u32;
        self.top().filled = true;
        let kind = FaultKind::CommaInNumber;
        match self.scanner.faults.last_mut() {
            Some(last) if last.kind == kind && last.start == start => last.end = end as u32,
            _ => self.fault(kind, start as usize, end, None),
        }
        number
    }

    /// Adds a part for the value that starts with the token, and sets the frame to wait for what follows a value.
    fn admit(&mut self, kind: Kind) -> u32 {
        if kind == Kind::Number
            && let Some(number) = self.number_before()
        {
            return self.join_number(number);
        }
        self.separate();
        let (start, end) = (self.scanner.start as u32, self.scanner.end as u32);
        let number = self.parts.len() as u32;
        let top = self.top();
        let role = match (top.bracket, top.colon) {
            _ if top.part == NONE => Role::Element,
            (Bracket::Round, true) => Role::Field,
            (Bracket::Curly, true) => Role::Value,
            (Bracket::Curly, false) => Role::Key,
            _ => Role::Element,
        };
        let (parent, (label_start, label_end)) = (top.part, top.label);
        (top.filled, top.colon, top.last) = (true, false, number);
        if role == Role::Element && top.nameless == NONE {
            top.nameless = number;
        }
        let (open, past) = (start, number + 1);
        self.parts.push(Part {
            kind,
            role,
            start,
            end,
            open,
            closed: true,
            label_start,
            label_end,
            parent,
            past,
        });
        number
    }
}
