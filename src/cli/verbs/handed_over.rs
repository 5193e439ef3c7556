//! A folder with a lineage that somebody handed over, as it is on disk.

use crate::cli::request::{Refusal, shown};
use crate::diagnostic::Severity;
use crate::record::Hemisphere;
use crate::recording::handover::{
    Form, Lineage, LineageSheet, Lines, SHEET, differences, fingerprint, read, say_which_piece,
    with_piece,
};
use crate::recording::says::seasons::as_months;
use crate::recording::slip::Slip;
use crate::registry::{PlantOrRamet, Registry, build};
use crate::text::{Sources, read_plain};
use std::path::Path;

/// The folder.
pub(super) struct HandedOver {
    /// What its page says.
    pub sheet: LineageSheet,
    sources: Sources,
}

impl HandedOver {
    /// Whether a folder is one that was handed over, or one that was packed.
    pub fn is_in(folder: &Path) -> bool {
        folder.join(SHEET).exists() || folder.is_file()
    }

    /// Reads it.
    ///
    /// # Errors
    /// If there is no page of a lineage.
    pub fn read(folder: &Path) -> Result<HandedOver, Refusal> {
        let packed = folder
            .extension()
            .is_some_and(|of| of.eq_ignore_ascii_case("zip"));
        if packed && folder.is_file() {
            return Err(Refusal::arguments(format!(
                "{} is packed\nunpack it first, then name the folder that comes out of it",
                shown(folder)
            )));
        }
        let path = folder.join(SHEET);
        let text = read_plain(&path).map_err(|why| {
            Refusal::files(format!(
                "{} could not be read: {why}\nname the folder that was handed over",
                shown(&path)
            ))
        })?;
        let sheet = read(&text).ok_or_else(|| {
            Refusal::files(format!(
                "{} is not the page of a lineage that podbook handed over",
                shown(&path)
            ))
        })?;
        Ok(HandedOver {
            sheet,
            sources: Sources::read(folder),
        })
    }

    /// The small registry in it.
    pub fn registry(&self) -> Registry<'_> {
        build(&self.sources).0
    }

    /// The same folder with dates of the other half of the world in the months they are there, and how many those are.
    ///
    /// # Errors
    /// If a page has faults of shape.
    pub fn in_months_of(&self, here: Hemisphere) -> Result<(HandedOver, usize), Slip> {
        let there = self.registry().settings.hemisphere;
        let (mut sources, mut dates) = (Sources::new(), 0);
        for (file, source) in self.sources.iter() {
            let (text, written) = as_months(self.sources.text(file), (there, here))?;
            sources.add(source.path.as_str(), text);
            dates += written;
        }
        let sheet = self.sheet.clone();
        Ok((HandedOver { sheet, sources }, dates))
    }

    /// Faults of its pages, such as words behind the end of one: what is read is not all that is there.
    pub fn faults(&self) -> usize {
        build(&self.sources).1.count(Severity::Fault)
    }

    /// The plant that was handed over, and its piece where the records say so: the head of the page alone could be changed.
    pub fn plant(&self, registry: &Registry) -> Option<PlantOrRamet> {
        let PlantOrRamet { plant, ramet } = self.named(registry)?;
        let ramet = ramet.filter(|_| say_which_piece(&self.sheet.lines));
        Some(PlantOrRamet { plant, ramet })
    }

    fn named(&self, registry: &Registry) -> Option<PlantOrRamet> {
        registry.target(&self.sheet.plant)?.plant_or_ramet()
    }

    /// The piece that only the head of the page names: lineages of pieces that were handed over first have no record of it.
    pub fn piece_not_covered(&self, registry: &Registry) -> Option<String> {
        let named = self.named(registry).filter(|of| of.ramet.is_some())?;
        (!say_which_piece(&self.sheet.lines)).then(|| registry.code_of(named))
    }

    /// Whether the page is as it was written: its records are those of its fingerprint, and its words are podbook's. Those of
    /// the first form were others.
    pub fn sheet_is_whole(&self) -> bool {
        let is_ours = self.sheet.head_is_ours || self.form() == Form::First;
        is_ours && fingerprint(&self.sheet.lines) == self.sheet.printed
    }

    /// What the fingerprint of the folder was taken of.
    pub fn form(&self) -> Form {
        Form::of(&self.sheet.lines)
    }

    /// The lineage as the pages have it, in the form of the folder; none when the plant is not on them.
    pub fn lines(&self, registry: &Registry) -> Option<Lines> {
        let came = self.plant(registry)?;
        let lineage = Lineage::of(registry, came.plant);
        let lines = self.form().lines(registry, &lineage);
        let mut lines = with_piece(lines, registry.ramet(came).map(|piece| piece.code));
        // Without the page seasons would be read as if nothing was missing.
        let settings = "registry.ron";
        if self.sources.find(settings).is_none() {
            lines.insert(settings.to_owned(), "missing".to_owned());
        }
        Some(lines)
    }

    /// What does not belong together, in words.
    pub fn broken(&self, registry: &Registry) -> Option<String> {
        if !self.sheet_is_whole() {
            return Some(format!("{SHEET} was changed"));
        }
        let found = self.lines(registry)?;
        let differ = differences(&self.sheet.lines, &found);
        (!differ.is_empty()).then(|| format!("the record of {} was changed", differ.join(", ")))
    }
}
