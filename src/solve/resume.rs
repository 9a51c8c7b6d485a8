//! Going on where an earlier run was interrupted: what it wrote last, less what is not whole.

use std::fs::File;
use std::io::{Error, ErrorKind, Read, Result, Seek, SeekFrom};

use memchr::memrchr;
use serde::Deserialize;

/// Bytes read at once, from the end.
const PIECE: u64 = 64 * 1024;

/// What of an answer is needed to go on after it.
#[derive(Deserialize)]
struct Answered {
    line: u64,
}

/// The answers of an earlier run, ready for more, and the first line that has none yet. Half a line
/// at the end is cut off.
///
/// # Errors
/// When the file cannot be read or changed, or what it ends with is no answer.
pub fn after_the_last(mut file: File) -> Result<(File, u64)> {
    let length = file.metadata()?.len();
    let whole = line_feed_before(&mut file, length)?.map_or(0, |at| at + 1);
    file.set_len(whole)?;
    file.seek(SeekFrom::Start(whole))?;
    if whole == 0 {
        return Ok((file, 1));
    }
    let begin = line_feed_before(&mut file, whole - 1)?.map_or(0, |at| at + 1);
    file.seek(SeekFrom::Start(begin))?;
    let last: Answered = serde_json::from_reader((&mut file).take(whole - begin))
        .map_err(|_| Error::new(ErrorKind::InvalidData, "it does not end with an answer"))?;
    file.seek(SeekFrom::Start(whole))?;
    Ok((file, last.line.saturating_add(1)))
}

/// Where the last line feed before a place stands.
fn line_feed_before(file: &mut File, mut end: u64) -> Result<Option<u64>> {
    let mut piece = Vec::new();
    while end > 0 {
        let begin = end.saturating_sub(PIECE);
        file.seek(SeekFrom::Start(begin))?;
        piece.clear();
        file.take(end - begin).read_to_end(&mut piece)?;
        if let Some(at) = memrchr(b'\n', &piece) {
            return Ok(Some(begin + at as u64));
        }
        end = begin;
    }
    Ok(None)
}
