//! Reading and checking generated registries against `ron`'s own typed parse of the same bytes, in the same run.
//!
//! Ours: from a folder on disk to the checked registry, on all cores, and its dropping. The yardstick: `ron` parsing
//! the same texts, already in memory, into the pages' types on one thread, each page dropped at once. Medians of
//! alternating runs; the ratio is what counts. Memory is the greatest a process of its own held at any time. Naming is
//! every founder's label read, the formula of every cross written out and the exact shares of every pod, looked up once
//! for each plant, against our reading; not for the line of 30,000 generations, whose formulas together would be longer
//! than anybody can store.
//!
//! `cargo bench --bench reading [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
mod yardstick;

use nursery::{Grown, Nursery};
use podbook::check;
use podbook::context::Context;
use podbook::diagnostic::Severity;
use podbook::naming::recorded::TopOf;
use podbook::naming::{Writing, breeder};
use podbook::record::Day;
use podbook::registry::Registry;
use podbook::registry::build;
use podbook::text::Sources;
use ron::extensions::Extensions;
use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if let [flag, folder] = &arguments[..]
        && flag == "--peak-of"
    {
        read_and_check(Path::new(folder));
        return println!("{}", peak_bytes());
    }
    let sizes: Vec<usize> = arguments.iter().filter_map(|a| a.parse().ok()).collect();
    let sizes = if sizes.is_empty() {
        vec![10_000, 100_000, 1_000_000]
    } else {
        sizes
    };
    println!(
        "reading and checking ÷ ron's typed parse on one thread, aim 0.70; names and shares of all ÷ reading, aim 0.10; memory ÷ files, aim 3.0"
    );
    for seedlings in sizes {
        let runs = (2_000_000 / seedlings).clamp(5, 31);
        measure(
            &format!("{seedlings} seedlings"),
            &Nursery::of(seedlings).grow(),
            runs,
        );
    }
    measure(
        "100,000 seedlings, a million readings",
        &Nursery::well_read(100_000).grow(),
        9,
    );
    measure("30,000 small pages", &nursery::line(30_000), 9);
}

fn measure(title: &str, grown: &Grown, runs: usize) {
    let folder = tempfile::tempdir().expect("a folder for the registry");
    grown.write(folder.path());
    let texts = Sources::read(folder.path());
    let (registry, _) = build(&texts);
    let (mut plain, mut ours, mut naming) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..runs {
        plain.push(seconds(|| parse_plainly(&texts)));
        ours.push(seconds(|| read_and_check(folder.path())));
        if grown.crosses < 10_000 {
            naming.push(seconds(|| name_and_share(&registry)));
        }
    }
    let (plain, ours, naming) = (median(plain), median(ours), median(naming));
    let megabytes = grown.bytes() as f64 / 1e6;
    println!(
        "{title:<40} {megabytes:7.1} MB  ron {:8.1} ms  ours {:8.1} ms  ratio {:.2}  naming {:.3}  memory {:.2}",
        plain * 1e3,
        ours * 1e3,
        ours / plain,
        naming / ours,
        peak_of(folder.path()) / grown.bytes() as f64,
    );
}

fn today() -> Day {
    Day::new(2030, 1, 1).expect("a day")
}

fn read_and_check(folder: &Path) {
    let sources = Sources::read(folder);
    let (registry, mut findings) = build(&sources);
    findings.append(check::all(&registry, today()));
    assert_eq!(
        findings.count(Severity::Fault),
        0,
        "a made-up nursery has no fault"
    );
    black_box(&registry);
}

fn name_and_share(registry: &Registry) {
    let context = Context::of(registry, today());
    let names = context.names();
    let writing = Writing::plain(names.vocabulary());
    for cross in registry.cross_rows() {
        let formula = names.formula(TopOf::Cross(cross), false);
        // A formula too long to write out is told so; that too is an answer.
        black_box(breeder(&formula, &writing)).ok();
    }
    let descent = context.descent();
    let origins = context.lineage().pedigree.origin_rows();
    let shares: Vec<_> = origins
        .map(|origin| descent.shares_of_origin(origin))
        .collect();
    for plant in registry.plants() {
        let origin = registry.origin_of(plant);
        black_box(origin.map(|origin| &shares[origin.index()]));
    }
}

fn parse_plainly(texts: &Sources) {
    let dialect = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    for (_, source) in texts.iter() {
        if source.path == "clones.ron" {
            black_box(dialect.from_str::<yardstick::ClonesPage>(&source.text))
                .expect("a sound page");
        } else if source.path.starts_with("crosses/") {
            black_box(dialect.from_str::<yardstick::CrossPage>(&source.text))
                .expect("a sound page");
        }
    }
}

fn seconds(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}

fn median(mut of: Vec<f64>) -> f64 {
    if of.is_empty() {
        return f64::NAN;
    }
    of.sort_by(f64::total_cmp);
    of[of.len() / 2]
}

/// The greatest memory a process held that read and checked the folder, bytes.
fn peak_of(folder: &Path) -> f64 {
    let this = std::env::current_exe().expect("this program's path");
    let answer = Command::new(this).arg("--peak-of").arg(folder).output();
    let text = String::from_utf8(answer.expect("it runs").stdout).expect("a number");
    text.trim().parse().unwrap_or(f64::NAN)
}

/// Peak resident memory of this process, bytes; not a number where the system does not tell.
fn peak_bytes() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.split_whitespace().next()?.parse::<f64>().ok());
    kilobytes.map_or(f64::NAN, |kilobytes| kilobytes * 1024.0)
}
