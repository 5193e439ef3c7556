//! Crosses, their pods, seed, sowings and community pots, and sittings.

use super::plants::{mix_up, of_fate, text, written};
use super::searched::{Field, RecordKind, Searched};
use crate::naming::recorded::{Names, TopOf};
use crate::record::{CrossPage, Parents, Sitting};
use crate::registry::Registry;

impl Searched {
    /// Every cross with what its page holds.
    pub fn crosses(&mut self, registry: &Registry, names: &Names) {
        for (at, cross) in registry.all_crosses() {
            let page = &cross.page;
            let name = written(names, TopOf::Cross(at));
            let label = match &page.parents {
                Parents::LabelOnly(label) => Some(&**label),
                _ => None,
            };
            let fields = [
                (Field::Name, name.as_deref()),
                (Field::Received, text(&page.received)),
                (Field::Received, label),
                (Field::Goal, text(&page.goal)),
                (Field::From, text(&page.from)),
                (Field::Note, text(&page.note)),
            ];
            self.record(RecordKind::Cross, page.code, &fields);
            self.seed(page);
            self.seedlings_in_pots(page);
        }
    }

    fn seed(&mut self, page: &CrossPage) {
        let part = |code: &str| format!("{}.{code}", page.code);
        for of in &page.pollinations {
            let fields = [(Field::Note, text(&of.note)), (Field::From, of.pollen)];
            self.record(RecordKind::Zone, &part(of.zone), &fields);
        }
        for of in &page.pods {
            self.record(
                RecordKind::Pod,
                &part(of.code),
                &[(Field::Note, text(&of.note))],
            );
        }
        for of in &page.seed_lots {
            let mut fields = vec![
                (Field::Place, text(&of.stored)),
                (Field::Note, text(&of.note)),
            ];
            let parts = of.gone.iter().map(|part| &part.fate);
            fields.extend(parts.chain(&of.fate).flat_map(of_fate));
            self.record(RecordKind::SeedLot, &part(of.code), &fields);
        }
    }

    fn seedlings_in_pots(&mut self, page: &CrossPage) {
        let part = |code: &str| format!("{}.{code}", page.code);
        for of in &page.sowings {
            let mut fields = vec![
                (Field::Place, text(&of.place)),
                (Field::Place, text(&of.container)),
                (Field::Note, text(&of.medium)),
                (Field::Note, text(&of.note)),
            ];
            let moved = of.pricked_out.iter();
            fields.extend(moved.map(|moved| (Field::Place, text(&moved.to))));
            fields.extend(of.fate.iter().flat_map(of_fate));
            self.record(RecordKind::Sowing, &part(of.code), &fields);
        }
        for of in &page.community_pots {
            let mut fields = vec![
                (Field::Place, text(&of.place)),
                (Field::Place, text(&of.pot)),
                (Field::Note, text(&of.note)),
            ];
            let parts = of.gone.iter().map(|part| &part.fate);
            fields.extend(parts.chain(&of.fate).flat_map(of_fate));
            fields.extend(of.muddled.iter().map(mix_up));
            self.record(RecordKind::CommunityPot, &part(of.code), &fields);
        }
    }

    /// Every sitting, under the day it was taken.
    pub fn sittings(&mut self, registry: &Registry) {
        for head in registry.readings.sittings() {
            let of: &Sitting = &head.sitting;
            let fields = [
                (Field::Place, text(&of.place)),
                (Field::Note, text(&of.method)),
                (Field::Note, text(&of.by)),
                (Field::Note, text(&of.light)),
                (Field::Note, text(&of.note)),
            ];
            let page = &registry.sources.get(head.file).path;
            let page = page.rsplit('/').next().unwrap_or(page);
            let page = page.strip_suffix(".ron").unwrap_or(page);
            self.record(RecordKind::Sitting, &format!("{page} {}", of.on), &fields);
        }
    }
}
