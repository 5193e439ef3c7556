//! The parts of a registry that answers share, each worked out when it is first asked for.

use super::descent::Descent;
use super::founding::founding;
use crate::evidence::Evidence;
use crate::kinship::Kinship;
use crate::lineage::{Founding, Lineage, PedigreeTooComplex};
use crate::naming::recorded::Names;
use crate::record::Day;
use crate::registry::Registry;
use std::fmt;
use std::sync::{Arc, OnceLock};

/// A registry on a day, with what is worked out of it.
pub struct Context<'r, 't> {
    /// The registry.
    pub registry: &'r Registry<'t>,
    /// The day that counts as today.
    pub today: Day,
    lineage: OnceLock<Arc<Lineage>>,
    names: OnceLock<Arc<Names<'r, 't>>>,
    evidence: OnceLock<Evidence<'r, 't>>,
    descent: OnceLock<Descent>,
    founding: OnceLock<Founding>,
}

impl<'r, 't> Context<'r, 't> {
    /// A registry of which nothing is worked out yet.
    pub fn of(registry: &'r Registry<'t>, today: Day) -> Self {
        Context {
            registry,
            today,
            lineage: OnceLock::new(),
            names: OnceLock::new(),
            evidence: OnceLock::new(),
            descent: OnceLock::new(),
            founding: OnceLock::new(),
        }
    }

    /// Who came of whom.
    pub fn lineage(&self) -> &Lineage {
        self.shared_lineage()
    }

    fn shared_lineage(&self) -> &Arc<Lineage> {
        let lineage = || Arc::new(Lineage::of(self.registry));
        self.lineage.get_or_init(lineage)
    }

    /// What everything is called.
    pub fn names(&self) -> &Names<'r, 't> {
        self.shared_names()
    }

    fn shared_names(&self) -> &Arc<Names<'r, 't>> {
        let names = || Arc::new(Names::of(self.registry, self.shared_lineage().clone()));
        self.names.get_or_init(names)
    }

    /// How surely descent is known.
    pub fn evidence(&self) -> &Evidence<'r, 't> {
        let evidence = || Evidence::of(self.registry, self.shared_names().clone());
        self.evidence.get_or_init(evidence)
    }

    /// The species behind every plant.
    pub fn descent(&self) -> &Descent {
        let descent = || Descent::of(self.registry, self.lineage(), self.names());
        self.descent.get_or_init(descent)
    }

    /// What is assumed of the founders where kinship is computed.
    pub fn founding(&self) -> &Founding {
        let founding = || founding(self.registry, self.lineage(), self.descent());
        self.founding.get_or_init(founding)
    }

    /// Kinship of all plants, solved anew each time it is asked for.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] for very many generations with very many parents in use at once.
    pub fn kinship(&self) -> Result<Kinship<'_>, PedigreeTooComplex> {
        Kinship::of(&self.lineage().pedigree, self.founding())
    }
}

/// The day, and which parts are made ready so far.
impl fmt::Debug for Context<'_, '_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts = [
            ("lineage", self.lineage.get().is_some()),
            ("names", self.names.get().is_some()),
            ("evidence", self.evidence.get().is_some()),
            ("descent", self.descent.get().is_some()),
            ("founding", self.founding.get().is_some()),
        ];
        let ready = parts.iter().filter(|(_, ready)| *ready);
        let ready: Vec<&str> = ready.map(|(part, _)| *part).collect();
        let mut context = out.debug_struct("Context");
        context.field("today", &self.today);
        context.field("ready", &ready).finish()
    }
}
