//! A recording in the making: the pages it changes, as they were and as they are to be.

use super::dates::{Dated, dated};
use super::page::{FieldChange, PageFault, PageText};
use super::parts::Part;
use super::slip::Slip;
use super::written::RonRecord;
use crate::diagnostic::Finding;
use crate::record::{
    Day, Page as RecordPage, RegistryPage, SpeciesPage, disputed, page_faults, read_page,
};
use crate::registry::{CrossRow, PlantRow, Registry};
use crate::text::edit::EditFault;
use crate::text::{FileId, Outline, Sources};
use std::collections::BTreeMap;
use std::ops::Range;

/// The pages of a registry with the changes made so far.
pub struct Draft<'r, 't> {
    /// The registry as it is.
    pub registry: &'r Registry<'t>,
    /// The day that counts as today.
    pub today: Day,
    pages: BTreeMap<String, Page>,
}

#[derive(Debug)]
struct Page {
    file: Option<FileId>,
    text: PageText,
}

/// A page as it was and as it is to be.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PageChange {
    /// The path relative to the registry's folder, with `/`.
    pub path: String,
    /// The text it has; none when the page is new.
    pub was: Option<String>,
    /// The text it is to have; none when the page is to go.
    pub now: Option<String>,
}

impl PageChange {
    /// The texts it has and is to have; empty where there is no page.
    pub fn texts(&self) -> (&str, &str) {
        let [was, now] = [&self.was, &self.now].map(|of| of.as_deref().unwrap_or(""));
        (was, now)
    }
}

impl<'r, 't> Draft<'r, 't> {
    /// Nothing changed yet.
    pub fn new(registry: &'r Registry<'t>, today: Day) -> Self {
        Self {
            registry,
            today,
            pages: BTreeMap::new(),
        }
    }

    /// The day of an event: as typed with `--on`, or today.
    ///
    /// # Errors
    /// As [`dated`].
    pub fn day(&self, typed: &Option<String>) -> Result<Dated, Slip> {
        dated(self.registry, "--on", typed.as_deref(), self.today)
    }

    /// The page of a cross, by its index.
    pub fn cross(&mut self, cross: CrossRow) -> &mut PageText {
        self.page_in(self.registry[cross].file)
    }

    /// The page of a cross, or that of the founders.
    ///
    /// # Errors
    /// If there is a page that could not be read.
    pub fn plants_of(&mut self, cross: Option<CrossRow>) -> Result<&mut PageText, Slip> {
        match cross {
            Some(cross) => Ok(self.cross(cross)),
            None => self.clones(),
        }
    }

    /// Changes the record of a part of a cross.
    ///
    /// # Errors
    /// If it is not found or cannot be changed.
    pub fn change_part(&mut self, part: impl Part, changes: &[FieldChange]) -> Result<(), Slip> {
        let (cross, at) = part.stands();
        Ok(self.cross(cross).change_at(part.kind().list, at, changes)?)
    }

    /// The page of the founders, begun when there is none.
    ///
    /// # Errors
    /// If there is a page that could not be read.
    pub fn clones(&mut self) -> Result<&mut PageText, Slip> {
        self.page_or_new("clones.ron", self.registry.clones_file, "clones")
    }

    /// The page of the pollen, begun when there is none.
    ///
    /// # Errors
    /// If there is a page that could not be read.
    pub fn pollen(&mut self) -> Result<&mut PageText, Slip> {
        self.page_or_new("pollen.ron", self.registry.pollen_file, "lots")
    }

    /// The page of species, begun when there is none.
    ///
    /// # Errors
    /// If there is a page that could not be read.
    pub fn species(&mut self) -> Result<&mut PageText, Slip> {
        let file = self.registry.sources.find("species.ron");
        let file = file.filter(|file| self.is_read::<SpeciesPage>(*file));
        self.page_or_new("species.ron", file, "species")
    }

    /// The page of the registry itself.
    ///
    /// # Errors
    /// If it could not be read.
    pub fn settings(&mut self) -> Result<&mut PageText, Slip> {
        let file = self.registry.sources.find("registry.ron");
        let file = file.filter(|file| self.is_read::<RegistryPage>(*file));
        let file = file.ok_or_else(|| Slip::page_unread("registry.ron"))?;
        Ok(self.page_in(file))
    }

    /// Says in `registry.ron` that the files hold what only the second form has.
    ///
    /// # Errors
    /// If that page cannot be read or changed.
    pub fn second_form(&mut self) -> Result<(), Slip> {
        if self.registry.settings.form() < 2 {
            self.settings()?.set("format", "2")?;
        }
        Ok(())
    }

    /// Begins a page of a new cross.
    ///
    /// # Errors
    /// If a file of that name is there already.
    pub fn new_cross(&mut self, code: &str, page: &RonRecord) -> Result<(), Slip> {
        let path = format!("crosses/{code}.ron");
        let taken = self.registry.sources.find(&path).is_some() || self.pages.contains_key(&path);
        let unread = self.registry.sources.unread();
        if taken || unread.iter().any(|unread| unread.path == path) {
            return Err(Slip::page_taken(&path));
        }
        let text = PageText::new(page.page());
        self.pages.insert(path, Page { file: None, text });
        Ok(())
    }

    /// Changes the records of plants, each page once; a plant may be named again for a further change.
    ///
    /// # Errors
    /// If a record is not found or cannot be changed.
    pub fn change_plants(
        &mut self,
        changes: Vec<(PlantRow, Vec<FieldChange>)>,
    ) -> Result<(), Slip> {
        let registry = self.registry;
        let mut founders = Vec::new();
        let mut seedlings: BTreeMap<CrossRow, Vec<(String, Vec<FieldChange>)>> = BTreeMap::new();
        for (plant, changes) in changes {
            match (registry.cross_of(plant), registry.number(plant)) {
                (Some(cross), Some(number)) => {
                    let of_cross = seedlings.entry(cross).or_default();
                    of_cross.push((number.to_owned(), changes));
                }
                _ => founders.push((registry.code(plant), changes)),
            }
        }
        if !founders.is_empty() {
            self.clones()?.change("clones", "code", &founders)?;
        }
        for (cross, changes) in seedlings {
            self.cross(cross).change("seedlings", "number", &changes)?;
        }
        Ok(())
    }

    /// Whether anything of a page was read; a registry answers also without its settings or its species.
    fn is_read<P: RecordPage<'t>>(&self, file: FileId) -> bool {
        read_page::<P>(self.registry.sources, file).0.is_some()
    }

    fn page_in(&mut self, file: FileId) -> &mut PageText {
        let source = self.registry.sources.get(file);
        let page = || Page {
            file: Some(file),
            text: PageText::of(source),
        };
        &mut self
            .pages
            .entry(source.path.clone())
            .or_insert_with(page)
            .text
    }

    fn page_or_new(
        &mut self,
        path: &str,
        read: Option<FileId>,
        list: &'static str,
    ) -> Result<&mut PageText, Slip> {
        if let Some(file) = read {
            return Ok(self.page_in(file));
        }
        let unread = self.registry.sources.unread();
        let unread = unread
            .iter()
            .any(|unread| unread.path.eq_ignore_ascii_case(path));
        if unread || self.registry.sources.find(path).is_some() {
            return Err(Slip::page_unread(path));
        }
        let page = || Page {
            file: None,
            text: PageText::new(format!("(\n    {list}: [],\n)\n")),
        };
        Ok(&mut self.pages.entry(path.to_owned()).or_insert_with(page).text)
    }

    /// A refusal with the place of the fault, where one of a page of this draft stands in the way.
    pub fn placed(&self, slip: Slip) -> Slip {
        let faulty = match &slip {
            Slip::Page(PageFault::Edit(EditFault::FaultyText(_))) => self.faulty_shape(),
            Slip::Page(PageFault::NotRead { path, place }) => self.not_read(path, place),
            _ => None,
        };
        faulty.unwrap_or(slip)
    }

    fn files(&self) -> impl Iterator<Item = FileId> + '_ {
        self.pages.values().filter_map(|page| page.file)
    }

    fn faulty_shape(&self) -> Option<Slip> {
        let sources = self.registry.sources;
        self.files().find_map(|file| {
            let source = sources.get(file);
            let of_shape = || {
                let outline = Outline::of(&source.text);
                let fault = outline.faults().first()?;
                Some(Finding::of_shape(fault, file, &source.text))
            };
            let finding = disputed(source, file)
                .into_iter()
                .next()
                .or_else(of_shape)?;
            Some(Slip::faulty_page(source, finding))
        })
    }

    /// The refusal that names what is wrong with a part of a page; with the page, where nothing in the part is.
    pub fn not_read(&self, path: &str, place: &Range<u32>) -> Option<Slip> {
        let sources = self.registry.sources;
        let file = sources.find(path)?;
        let mut faults = page_faults(sources, file);
        let is_there = |fault: &Finding| fault.place.is_some_and(|of| place.contains(&of.start));
        let at = faults.iter().position(is_there).unwrap_or(0);
        let fault = (at < faults.len()).then(|| faults.swap_remove(at))?;
        Some(Slip::faulty_page(sources.get(file), fault))
    }

    /// Refuses pages that have faults and would not be read as they were, with all that was recorded.
    ///
    /// # Errors
    /// With a fault of the first such page.
    pub fn is_read_back(&self) -> Result<(), Slip> {
        let mut pages = self.pages.iter();
        pages.try_for_each(|(path, page)| self.page_is_read_back(path, page))
    }

    fn page_is_read_back(&self, path: &str, page: &Page) -> Result<(), Slip> {
        if !page.text.is_faulty() {
            return Ok(());
        }
        let mut sources = Sources::new();
        let file = sources.add(path, page.text.text());
        page_faults(&sources, file);
        match page.text.is_read_by(sources.get(file).kept()) {
            true => Ok(()),
            false => Err(self
                .not_read(path, &(0..u32::MAX))
                .unwrap_or_else(|| Slip::page_unread(path))),
        }
    }

    /// The pages that differ from what they were, in the order of their paths.
    pub fn changes(&self) -> Vec<PageChange> {
        let changes = self.pages.iter().map(|(path, page)| PageChange {
            path: path.clone(),
            was: page
                .file
                .map(|file| self.registry.sources.text(file).to_owned()),
            now: Some(page.text.text().to_owned()),
        });
        changes.filter(|change| change.was != change.now).collect()
    }
}
