//! What one file says: the typed form of each record, with its text still borrowed from the file.
