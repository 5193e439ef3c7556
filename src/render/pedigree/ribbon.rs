//! The ribbon of species shares: each species as long as its share, its name below it as far as it fits.

use super::fraction::written;
use super::letters::{look_of, without_genus};
use super::words::words;
use crate::render::scene::{
    Face, INK, PAPER, Path, SOFT, Scene, Setting, SpeciesLook, Stroke, Word, line_width, set,
};
use crate::report::pedigree::DrawnShare;
use crate::wording::Name;

/// Where a ribbon lies, and the size of the letters below it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ribbon {
    /// Its upper left corner.
    pub corner: (f64, f64),
    /// Its width and height.
    pub size: (f64, f64),
    /// Size of the letters of its labels.
    pub letters: f64,
}

/// Longer lists of species are not written out below a ribbon, letters.
const ONE_OF_FEW: usize = 28;
/// Shares below this are nothing but rounding.
const DUST: f64 = 1e-9;

/// Whether there is an unknown share worth a word.
pub fn is_share(fraction: f64) -> bool {
    fraction > DUST
}

impl Ribbon {
    /// One stretch for each species, an empty one with dots for what is unknown, a thin frame around all.
    pub fn paint(&self, scene: &mut Scene, species: &[Name], shares: &[DrawnShare]) {
        let ((left, y), (room, height)) = (self.corner, self.size);
        let mut x = left;
        scene.fill(Path::rect(left, y, room, height), PAPER);
        for share in shares {
            let long = room * share.fraction.clamp(0.0, 1.0);
            let look = look_of(species.get(share.species));
            stretch(scene, (x, y), (long, height), look);
            x += long;
            // Two species may have one colour.
            let border = Path::line((x, y), (x, y + height));
            scene.stroke(border, Stroke::solid(INK, 0.6));
        }
        if x < left + room - 0.01 {
            let middle = y + height / 2.0;
            let dots = Stroke::dashed(SOFT, 1.0, &[0.1, 3.0]);
            scene.stroke(
                Path::line((x + 2.0, middle), (left + room - 1.0, middle)),
                dots,
            );
        }
        scene.stroke(Path::rect(left, y, room, height), Stroke::solid(INK, 0.6));
    }

    /// The shares in words, each below its stretch; after the known ones those of one of several and those not known. Gives
    /// the shares whose name has no room there, each with its name, in their order.
    pub fn label(
        &self,
        scene: &mut Scene,
        species: &[Name],
        shares: (&[DrawnShare], &[(f64, &str)]),
    ) -> Vec<Vec<Word>> {
        let mut unnamed = Vec::new();
        let shorts = Shorts::of(species, shares.0);
        let base = self.corner.1 + self.size.1 + self.letters * 0.95;
        let mut x = self.corner.0;
        let mut say = |fraction: f64, name: Vec<Word>, colour| {
            let long = self.size.0 * fraction.clamp(0.0, 1.0);
            let full = share_words(written(fraction), name);
            let (text, is_named) = share_text(&full, &shorts, (self.letters, long));
            if !is_named {
                unnamed.push(full);
            }
            set(
                scene,
                &text,
                (x, base),
                Setting {
                    size: self.letters,
                    colour,
                },
            );
            x += long;
        };
        for share in shares.0 {
            let name = species
                .get(share.species)
                .map(|name| words(name, false))
                .unwrap_or_default();
            say(
                share.fraction,
                name,
                look_of(species.get(share.species)).colour.readable(),
            );
        }
        for &(fraction, of) in shares.1 {
            let words = if of.len() > ONE_OF_FEW {
                "one of several"
            } else {
                of
            };
            say(fraction, vec![Word::roman(words)], SOFT);
        }
        unnamed
    }
}

/// One stretch in the colour of its species, under slanted strokes where that has a hatching.
fn stretch(scene: &mut Scene, corner: (f64, f64), size: (f64, f64), look: SpeciesLook) {
    scene.fill(Path::rect(corner.0, corner.1, size.0, size.1), look.colour);
    if look.hatching == 0 {
        return;
    }
    let step = (5.5 / look.hatching as f64).max(1.5);
    let mut x = corner.0 + step / 2.0;
    while x + 1.5 < corner.0 + size.0 {
        let slant = Path::line((x, corner.1 + size.1), (x + 1.5, corner.1));
        scene.stroke(slant, Stroke::solid(PAPER, 0.8));
        x += step;
    }
}

/// "½ ventricosa"; the genus, the same for all, is left out.
fn share_words(share: String, mut name: Vec<Word>) -> Vec<Word> {
    if let Some(first) = name.first_mut() {
        first.text = without_genus(&first.text).to_string();
    }
    let share = Word::roman(format!("{share} "));
    std::iter::once(share).chain(name).collect()
}

/// The first three letters of each species of a ribbon.
struct Shorts(Vec<String>);

impl Shorts {
    fn of(species: &[Name], shares: &[DrawnShare]) -> Shorts {
        let names = shares.iter().filter_map(|share| species.get(share.species));
        let first = |name: &Name| {
            let words = share_words(String::new(), words(name, false));
            first_letters(&words[1..])
        };
        Shorts(names.map(first).collect())
    }

    /// The letters that say a name and no other of the ribbon; `aff.` and its like say none.
    fn say(&self, name: &[Word]) -> Option<String> {
        let letters = first_letters(name);
        let is_shared = self.0.iter().filter(|of| **of == letters).count() > 1;
        let mut first = name.iter().flat_map(|word| word.text.split_whitespace());
        let is_name = !first.next().is_some_and(|word| word.ends_with('.'));
        (is_name && !is_shared).then(|| format!("{}.", letters.trim_end_matches(['.', ' '])))
    }
}

fn first_letters(name: &[Word]) -> String {
    let letters = name.iter().flat_map(|word| word.text.chars());
    letters.take(3).collect()
}

/// The fullest of "½ ventricosa", "½ ven.", "½" and nothing that fits, and whether the name is in it.
fn share_text(full: &[Word], shorts: &Shorts, (size, room): (f64, f64)) -> (Vec<Word>, bool) {
    let (share, name) = (&full[0], &full[1..]);
    let face = name.first().map_or(Face::Roman, |word| word.face);
    let short = shorts.say(name);
    let short = short.map(|text| (vec![share.clone(), Word { text, face }], true));
    let bare = vec![Word::roman(share.text.trim_end())];
    let fits = |(line, _): &(Vec<Word>, bool)| line_width(line, size) <= room - 2.0;
    let fullest = std::iter::once((full.to_vec(), true));
    let mut tries = fullest.chain(short).chain([(bare, false)]);
    tries.find(fits).unwrap_or_default()
}
