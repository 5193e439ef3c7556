//! What one file says: dates, lengths, and the files a new registry begins with.

mod dates;
mod dates_nasty;
mod escapes;
mod lengths;
mod starter_files;
mod starter_species;
