//! Mutilates sound texts, the same way in every run.

/// The generator of Steele, Lea and Flood (2014), "Fast splittable pseudorandom number generators".
pub struct SplitMix64(pub u64);

impl SplitMix64 {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `bound`; 0 for a bound of 0.
    pub fn below(&mut self, bound: usize) -> usize {
        (self.next() % bound.max(1) as u64) as usize
    }
}

/// What is thrown in: what RON and labels are made of, and what should be in neither.
const PIECES: &[&str] = &[
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ",",
    ":",
    "\"",
    "\\",
    "'",
    "//",
    "/*",
    "*/",
    "#",
    "r#\"",
    "\"#",
    "b\"",
    "\n",
    "\r\n",
    "\t",
    " ",
    "-",
    ".",
    "0",
    "999999999999999999999",
    "-1",
    "1e400",
    "2024-02-30",
    "0000-00-00",
    "None",
    "Some(",
    "×",
    "♀",
    "♂",
    "½",
    "é",
    "ß",
    "種",
    "“",
    "”",
    "\u{0}",
    "\u{202e}",
    "\u{feff}",
    "\u{85}",
    "\u{a0}",
    "\\u{110000}",
    "'",
    "((((",
    "]]]]",
    "id: id:",
];

/// A source of mutilated texts.
pub struct Mutator {
    random: SplitMix64,
    seeds: &'static [&'static str],
}

impl Mutator {
    pub fn new(seed: u64, seeds: &'static [&'static str]) -> Self {
        Self {
            random: SplitMix64(seed),
            seeds,
        }
    }

    /// One of the texts with one to eight changes; half of the texts have only one.
    pub fn text(&mut self) -> String {
        let mut bytes = self.seed().to_vec();
        let changes = 1 + self.random.next().trailing_zeros().min(7);
        for _ in 0..changes {
            self.change(&mut bytes);
        }
        String::from_utf8_lossy(&bytes).into_owned()
    }

    fn seed(&mut self) -> &'static [u8] {
        self.seeds[self.random.below(self.seeds.len())].as_bytes()
    }

    /// A stretch of up to 40 bytes.
    fn stretch(&mut self, length: usize) -> std::ops::Range<usize> {
        let start = self.random.below(length + 1);
        let end = (start + self.random.below(40)).min(length);
        start..end
    }

    fn change(&mut self, bytes: &mut Vec<u8>) {
        let here = self.stretch(bytes.len());
        match self.random.below(8) {
            0 => drop(bytes.drain(here)),
            1 => {
                let piece = PIECES[self.random.below(PIECES.len())];
                drop(bytes.splice(here.start..here.start, piece.bytes()));
            }
            2 => {
                let piece = PIECES[self.random.below(PIECES.len())];
                drop(bytes.splice(here, piece.bytes()));
            }
            3 => {
                let copy = bytes[here].to_vec();
                let there = self.random.below(bytes.len() + 1);
                drop(bytes.splice(there..there, copy));
            }
            4 => bytes.truncate(here.start),
            5 => {
                let other = self.seed();
                let from = self.stretch(other.len());
                drop(bytes.splice(here, other[from].iter().copied()));
            }
            6 if here.start < bytes.len() => bytes[here.start] ^= 1 << self.random.below(8),
            _ if here.start < bytes.len() => drop(bytes.remove(here.start)),
            _ => {}
        }
    }
}
