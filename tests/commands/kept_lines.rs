//! A line to keep gets a pod through a seed parent and one through a pollen parent wherever any pods could give it both: a slow
//! twin goes through all sets of pods of small seasons.

use crate::bench_top::BenchTop;
use crate::plan::report;

const SPECIES: [&str; 3] = ["veitchii", "lowii", "hamata"];

/// Numbers that look drawn and are the same in each run.
struct Draws(u64);

impl Draws {
    fn below(&mut self, end: usize) -> usize {
        self.0 = (self.0)
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % end
    }
}

/// A plant in flower, and the two species its parents are of; a founder has one species twice.
struct InFlower {
    code: String,
    of: [usize; 2],
    sex: &'static str,
}

impl InFlower {
    fn is_wholly(&self, species: usize) -> bool {
        self.of == [species; 2]
    }
}

fn drawn(draws: &mut Draws, sex: &'static str) -> Vec<InFlower> {
    let count = 2 + draws.below(3);
    let plants = (0..count).map(|number| {
        let of = [draws.below(3), draws.below(3)];
        let (code, of) = match draws.below(4) {
            0 => (format!("X19-{sex}{number}-1"), of),
            _ => (format!("{sex}{number}"), [of[0]; 2]),
        };
        InFlower { code, of, sex }
    });
    plants.collect()
}

/// The registry of some plants in flower today, with goals.
fn season(plants: &[InFlower], goals: &str, draws: &mut Draws) -> BenchTop {
    let (mut clones, mut rows) = (String::new(), String::new());
    let mut top = BenchTop::empty();
    for plant in plants {
        let InFlower { code, of, sex } = plant;
        let flowers = format!("flowerings: [(opened: \"2024-06-01\", sex: {sex})]");
        rows += &format!("[\"{code}\", \"{}\"],", 1 + draws.below(9));
        match code.strip_suffix("-1") {
            Some(cross) => {
                let page = format!(
                    "(code: \"{cross}\", parents: known(seed: \"P{}\", pollen: \"Q{}\"), confidence: witnessed, seedlings: [(number: \"1\", {flowers})])",
                    of[0], of[1]
                );
                top = top.file(&format!("crosses/{cross}.ron"), &page);
            }
            None => {
                let name = SPECIES[of[0]];
                clones += &format!(
                    "(code: \"{code}\", received: \"N. {name}\", confidence: tag, {flowers}),"
                );
            }
        }
    }
    for (at, name) in SPECIES.iter().enumerate() {
        for sort in ["P", "Q"] {
            clones += &format!("(code: \"{sort}{at}\", received: \"N. {name}\", confidence: tag),");
        }
    }
    let [a, b, c] = SPECIES;
    top.file("registry.ron", r#"(genus: "Nepenthes", hemisphere: north, traits: [(code: "banding", name: "banding", reads: number)])"#)
        .file("species.ron", &format!("(species: [(epithet: \"{a}\"), (epithet: \"{b}\"), (epithet: \"{c}\")])"))
        .file("clones.ron", &format!("(clones: [{clones}], sittings: [(on: \"2024-03-01\", columns: [\"banding\"], rows: [{rows}])])"))
        .file("goals.ron", goals)
}

type Pair<'p> = (&'p InFlower, &'p InFlower);

/// Whether so many pods, each of any pair, keep all lines.
fn could_keep<'p>(
    pairs: &[Pair<'p>],
    kept: &[usize],
    pods: usize,
    made: &mut Vec<Pair<'p>>,
) -> bool {
    if are_kept(made, kept) {
        return true;
    }
    let mut with = pairs.iter().filter(|_| pods > 0);
    with.any(|pair| {
        made.push(*pair);
        let keeps = could_keep(pairs, kept, pods - 1, made);
        made.pop();
        keeps
    })
}

fn are_kept(made: &[Pair], kept: &[usize]) -> bool {
    kept.iter().all(|&species| {
        made.iter().any(|(seed, _)| seed.is_wholly(species))
            && made.iter().any(|(_, pollen)| pollen.is_wholly(species))
    })
}

#[test]
fn lines_are_kept_wherever_any_pods_could_keep_them() {
    let mut draws = Draws(19);
    let (mut kept_in, mut not_in) = (0, 0);
    for round in 0..80 {
        let females = drawn(&mut draws, "female");
        let males = drawn(&mut draws, "male");
        let first = draws.below(3);
        let kept = (0..3).filter(|species| *species == first || draws.below(3) == 0);
        let kept: Vec<usize> = kept.collect();
        let pods = 1 + draws.below(3);
        let names: Vec<String> = kept
            .iter()
            .map(|of| format!("\"{}\"", SPECIES[*of]))
            .collect();
        let goals = format!(
            "(traits: [(of: \"banding\")], pots: {}, seedlings_per_pod: 10, keep_lines: [{}])",
            10 * pods,
            names.join(", ")
        );
        let plants: Vec<InFlower> = females.into_iter().chain(males).collect();
        let of_sex = |sex: &'static str| plants.iter().filter(move |of| of.sex == sex);
        let pairs = of_sex("female").flat_map(|seed| of_sex("male").map(move |of| (seed, of)));
        let pairs: Vec<Pair> = pairs.collect();
        let could = could_keep(&pairs, &kept, pods, &mut Vec::new());
        let found = report(&season(&plants, &goals, &mut draws), &[]);
        let plant = |code: &serde_json::Value| {
            let code = code.as_str().expect("a code");
            plants.iter().find(|of| of.code == code).expect("a plant")
        };
        let rows = found["plan"].as_array().expect("a plan");
        let made = rows
            .iter()
            .map(|row| (plant(&row["seed"]), plant(&row["pollen"])));
        let made: Vec<Pair> = made.collect();
        let keeps = are_kept(&made, &kept);
        assert_eq!(keeps, could, "{round}: {goals} {found}");
        *if keeps { &mut kept_in } else { &mut not_in } += 1;
    }
    assert!(kept_in > 8 && not_in > 8, "{kept_in} and {not_in}");
}
