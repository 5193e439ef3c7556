//! In which order unknowns are eliminated, and which of the later ones each then meets.
//!
//! Who meets whom is kept as rows of bits: joining the neighbours of one unknown to those of another is a few words.

use super::products::Products;

/// Bits in a word.
const WORD: usize = 64;

/// The place of every unknown in the order, and for each place those after it that it meets, ascending.
pub(super) fn elimination(products: &Products) -> (Vec<u32>, Vec<Vec<u32>>) {
    let size = products.rows.len();
    let mut left = Left::of(products);
    let mut place_of: Vec<u32> = vec![0; size];
    let mut met: Vec<Vec<u32>> = Vec::with_capacity(size);
    for place in 0..size {
        let kept_for_last = place.checked_sub(size - products.last.len());
        let unknown = match kept_for_last {
            Some(at) => products.last[at] as usize,
            None => left.fewest(),
        };
        place_of[unknown] = place as u32;
        met.push(left.take(unknown));
    }
    for of_place in &mut met {
        for unknown in of_place.iter_mut() {
            *unknown = place_of[*unknown as usize];
        }
        of_place.sort_unstable();
    }
    (place_of, met)
}

/// The unknowns left, with those that each meets.
struct Left {
    words: usize,
    meets: Vec<u64>,
    /// How many each meets; `None` when it is gone or kept for last.
    degrees: Vec<Option<u32>>,
}

impl Left {
    fn of(products: &Products) -> Left {
        let size = products.rows.len();
        let mut left = Left {
            words: size.div_ceil(WORD),
            meets: vec![0; size * size.div_ceil(WORD)],
            degrees: vec![None; size],
        };
        for (unknown, row) in products.rows.iter().enumerate() {
            row.iter()
                .for_each(|(other, _)| left.meet(unknown as u32, *other));
        }
        for together in &products.together {
            for (at, one) in together.iter().enumerate() {
                together[..at]
                    .iter()
                    .for_each(|other| left.meet(*one, *other));
            }
        }
        for unknown in 0..size {
            left.degrees[unknown] = Some(left.degree(unknown));
        }
        for unknown in &products.last {
            left.degrees[*unknown as usize] = None;
        }
        left
    }

    fn meet(&mut self, one: u32, other: u32) {
        if one != other {
            self.set(one as usize, other as usize);
            self.set(other as usize, one as usize);
        }
    }

    fn set(&mut self, row: usize, at: usize) {
        self.meets[row * self.words + at / WORD] |= 1 << (at % WORD);
    }

    fn unset(&mut self, row: usize, at: usize) {
        self.meets[row * self.words + at / WORD] &= !(1 << (at % WORD));
    }

    fn row(&self, row: usize) -> &[u64] {
        &self.meets[row * self.words..(row + 1) * self.words]
    }

    fn degree(&self, row: usize) -> u32 {
        self.row(row).iter().map(|word| word.count_ones()).sum()
    }

    /// The unknown that meets the fewest; the first of equals.
    fn fewest(&self) -> usize {
        let all = self.degrees.iter().enumerate();
        let left = all.filter_map(|(unknown, degree)| Some(((*degree)?, unknown)));
        left.min().map_or(0, |(_, unknown)| unknown)
    }

    /// Eliminates an unknown: those it meets meet each other from now on.
    fn take(&mut self, unknown: usize) -> Vec<u32> {
        let own = self.row(unknown).to_vec();
        let met: Vec<u32> = bits(&own).collect();
        self.degrees[unknown] = None;
        for &other in &met {
            let other = other as usize;
            let row = &mut self.meets[other * self.words..(other + 1) * self.words];
            row.iter_mut()
                .zip(&own)
                .for_each(|(word, own)| *word |= own);
            self.unset(other, other);
            self.unset(other, unknown);
            if self.degrees[other].is_some() {
                self.degrees[other] = Some(self.degree(other));
            }
        }
        met
    }
}

/// The places of the bits that are set, ascending.
fn bits(words: &[u64]) -> impl Iterator<Item = u32> {
    words.iter().enumerate().flat_map(|(at, word)| {
        let rest = std::iter::successors(Some(*word), |word| Some(word & word.wrapping_sub(1)));
        let rest = rest.take_while(|word| *word != 0);
        rest.map(move |word| (at * WORD) as u32 + word.trailing_zeros())
    })
}
