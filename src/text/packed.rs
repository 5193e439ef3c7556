//! Files packed into one, as ZIP (PKWARE APPNOTE 6.3): the same files give the same bytes.

use std::io::{Cursor, Write};
use zip::write::{SimpleFileOptions, ZipWriter};
use zip::{CompressionMethod, DateTime};

/// Packs files under a folder of a name, or under none where it is empty, in their order; every one is dated 1980-01-01,
/// the first day the format knows.
///
/// # Errors
/// In the library's words, when there is more than the format holds.
pub fn packed(folder: &str, files: &[(&str, &[u8])]) -> Result<Vec<u8>, String> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (path, bytes) in files {
        let name = match folder {
            "" => (*path).to_owned(),
            folder => format!("{folder}/{path}"),
        };
        let put = zip.start_file(name, options);
        put.map_err(|why| why.to_string())?;
        zip.write_all(bytes).map_err(|why| why.to_string())?;
    }
    let done = zip.finish().map_err(|why| why.to_string())?;
    Ok(done.into_inner())
}
