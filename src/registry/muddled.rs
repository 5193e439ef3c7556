//! Seedlings of muddled trays, whose pods lie in more than one cross, or in another cross than their page.

use super::cross::Cross;
use super::lookup::Lookup;
use super::parents::Codes;
use crate::diagnostic::Findings;

/// A seedling that may come from pods of more than one cross.
pub(super) struct Muddled {
    pub cross: u32,
    pub local: u32,
    /// Crosses its pods belong to, in order; none when its parents count as unknown.
    pub crosses: Vec<u32>,
}

/// Seedlings whose pods lie in more than one cross, or in another cross than their page.
pub(super) fn muddled<'t>(
    codes: &Codes<'t>,
    parts: &[Cross<'t>],
    findings: &mut Findings,
) -> Vec<Muddled> {
    let mut muddled = Vec::new();
    for (cross, page) in parts.iter().enumerate() {
        if page.rests.iter().all(|rest| rest.one_of.is_empty()) {
            continue;
        }
        for local in 0..page.locals.len() as u32 {
            let Some(rest) = page.whole_record(local) else {
                continue;
            };
            let mut crosses: Vec<u32> = rest
                .one_of
                .iter()
                .filter_map(|pod| pod_cross(codes, parts, cross as u32, pod, findings))
                .collect();
            crosses.sort_unstable();
            crosses.dedup();
            if !crosses.is_empty() && crosses != [cross as u32] {
                muddled.push(Muddled {
                    cross: cross as u32,
                    local,
                    crosses,
                });
            }
        }
    }
    muddled
}

/// The cross a pod belongs to: `P1` is a pod of this page, `X21-03.P1` of another.
fn pod_cross<'t>(
    codes: &Codes<'t>,
    parts: &[Cross<'t>],
    cross: u32,
    pod: &'t str,
    findings: &mut Findings,
) -> Option<u32> {
    let (of, local) = match pod.split_once('.') {
        Some((other, local)) => (codes.cross(other), local),
        None => (Some(cross), pod),
    };
    let known = |of: u32| parts[of as usize].page.pods.iter().any(|p| p.code == local);
    if let Some(of) = of.filter(|&of| known(of)) {
        return Some(of);
    }
    let page = &parts[cross as usize];
    let lookup = Lookup {
        sources: codes.sources,
        file: page.file,
    };
    if let Some(note) = codes.left_out(parts, "pod", pod, lookup) {
        findings.push(note);
        return None;
    }
    // Pods of this page and of the cross that was named; when none was, pods of that code in every cross.
    let told = |of: &Cross<'t>, pod: &str| format!("{}.{pod}", of.page.code);
    let mut near: Vec<String> = page.page.pods.iter().map(|p| p.code.to_owned()).collect();
    match of.filter(|&of| of != cross) {
        Some(of) => {
            let of = &parts[of as usize];
            near.extend(of.page.pods.iter().map(|p| told(of, p.code)));
        }
        None if codes.may_suggest() => {
            let there = |of: &&Cross<'t>| of.page.pods.iter().any(|p| p.code == local);
            near.extend(parts.iter().filter(there).map(|of| told(of, local)));
        }
        None => {}
    }
    findings.push(lookup.unknown("pod", pod, near.iter().map(String::as_str)));
    None
}
