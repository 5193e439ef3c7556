//! A set of row numbers that gives up its largest member first.
//!
//! Walking up a pedigree must visit offspring before parents, each once. Rows are kept as bits in a tree of 64-bit
//! words, so inserting and taking cost the tree's height (four levels for a million rows), whatever is inside.

/// Rows still to be visited, largest first.
#[derive(Clone, Debug)]
pub struct Agenda {
    /// Level 0 has one bit per row; each bit above says that the word below is not empty. The last level is one word.
    levels: Vec<Vec<u64>>,
}

impl Agenda {
    /// An empty agenda for rows below `rows`.
    pub fn new(rows: usize) -> Self {
        let mut levels = vec![vec![0; rows.div_ceil(64).max(1)]];
        while levels[levels.len() - 1].len() > 1 {
            let words = levels[levels.len() - 1].len().div_ceil(64);
            levels.push(vec![0; words]);
        }
        Self { levels }
    }

    /// Adds a row; adding it again changes nothing.
    pub fn insert(&mut self, row: u32) {
        let mut at = row as usize;
        for level in &mut self.levels {
            let word = &mut level[at / 64];
            let was_empty = *word == 0;
            *word |= 1 << (at % 64);
            if !was_empty {
                return;
            }
            at /= 64;
        }
    }

    /// Takes the largest row.
    pub fn take_last(&mut self) -> Option<u32> {
        let mut at = 0;
        for level in self.levels.iter().rev() {
            let word = level[at];
            if word == 0 {
                return None;
            }
            at = at * 64 + 63 - word.leading_zeros() as usize;
        }
        let row = at as u32;
        for level in &mut self.levels {
            let word = &mut level[at / 64];
            *word &= !(1 << (at % 64));
            if *word != 0 {
                break;
            }
            at /= 64;
        }
        Some(row)
    }
}
