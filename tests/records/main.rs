//! What one file says: dates, lengths, and the files a new registry begins with.

mod starter_species;
