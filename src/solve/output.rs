//! The file that answers go to: none that is there already is lost unless that is meant, two runs never write to
//! one, and where it is asked for the file has its name only once it is whole.

use std::ffi::OsString;
use std::fmt::Display;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use same_file::Handle;

use super::resume;

/// File for answers.
#[derive(Debug, Clone)]
pub struct Output {
    /// Its name.
    pub path: PathBuf,
    /// What becomes of it where it exists already.
    pub existing: Existing,
    /// When it gets its name.
    pub named: Named,
}

/// What becomes of a file of answers that exists already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Existing {
    /// It stays as it is, and nothing is done.
    Stays,
    /// It is written over.
    WrittenOver,
    /// It is gone on with after its last whole line.
    GoneOnWith,
}

/// When a file of answers gets its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// From its first byte on.
    AtOnce,
    /// When every line is answered; until then it is called by that name and [`BEGUN`].
    WhenWhole,
}

/// End of the name of a file that is not whole yet.
pub const BEGUN: &str = ".begun";

/// A file that is ready for answers, or needs none.
pub enum Opened {
    /// It has its name, so that it is whole, and was to be gone on with.
    Whole,
    /// It is to be written.
    Begun(Begun),
}

/// A file that is being written. No other run writes to it as long as this is held.
pub struct Begun {
    /// The file, at its end.
    pub file: File,
    /// First line that has no answer in it yet.
    pub from: u64,
    /// Its name now.
    under: PathBuf,
}

impl Output {
    /// Opens it. The file that jobs are read from is refused in any case; what is no file, a pipe say, holds
    /// nothing to lose.
    ///
    /// # Errors
    /// When it exists and is to stay, is the file of the jobs, is being written by another run, or cannot be
    /// opened.
    pub fn open(&self, jobs: &Path) -> Result<Opened, String> {
        if self.named == Named::AtOnce {
            return create(&self.path, self.existing, jobs).map(Opened::Begun);
        }
        if let Some(known) = known(&self.path)? {
            if !known.is_file() {
                return Err(cannot_write(&self.path, &"only a file can be named when it is whole"));
            }
            match self.existing {
                Existing::Stays => return Err(cannot_write(&self.path, &EXISTS)),
                Existing::GoneOnWith => return Ok(Opened::Whole),
                Existing::WrittenOver => not_the_source(&self.path, jobs)?,
            }
        }
        let mut under = OsString::from(&self.path);
        under.push(BEGUN);
        create(Path::new(&under), self.existing, jobs).map(Opened::Begun)
    }

    /// Gives a file with all answers its name. What it says is on the disk before.
    ///
    /// # Errors
    /// When it cannot be written to the disk or be renamed.
    pub fn finish(&self, begun: &Begun) -> Result<(), String> {
        if self.named == Named::AtOnce {
            return Ok(());
        }
        let named = begun.file.sync_all().and_then(|()| fs::rename(&begun.under, &self.path));
        named.map_err(|error| cannot_write(&self.path, &error))
    }
}

/// What is said of a file that is to stay.
const EXISTS: &str = "it exists; --resume goes on with it, --force writes over it";

fn cannot_write(path: &Path, what: &dyn Display) -> String {
    format!("cannot write {}: {what}", path.display())
}

/// What is known of a path; nothing where nothing is there.
fn known(path: &Path) -> Result<Option<fs::Metadata>, String> {
    match path.metadata() {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        known => known.map(Some).map_err(|error| cannot_write(path, &error)),
    }
}

fn create(path: &Path, existing: Existing, jobs: &Path) -> Result<Begun, String> {
    let said = |error: io::Error| cannot_write(path, &error);
    let begun = |(file, from)| Begun { file, from, under: path.to_owned() };
    let Some(known) = known(path)? else {
        // Whoever made it since the look above keeps it.
        let file = File::create_new(path).and_then(|file| held(file, path));
        return file.map(|file| begun((file, 1))).map_err(said);
    };
    if !known.is_file() {
        return File::create(path).map(|file| begun((file, 1))).map_err(said);
    }
    not_the_source(path, jobs)?;
    match existing {
        Existing::Stays => Err(cannot_write(path, &EXISTS)),
        Existing::GoneOnWith => {
            let file = OpenOptions::new().read(true).write(true).open(path);
            let file = file.and_then(|file| held(file, path));
            file.and_then(resume::after_the_last).map(begun).map_err(said)
        }
        Existing::WrittenOver => {
            let file = OpenOptions::new().write(true).open(path);
            let file = file.and_then(|file| held(file, path));
            // Emptied only now that it is known to be nobody else's.
            let emptied = file.and_then(|file| file.set_len(0).map(|()| file));
            emptied.map(|file| begun((file, 1))).map_err(said)
        }
    }
}

/// A file that no other run writes to as long as this one holds it. Where the file system has no locks, nothing
/// is held.
fn held(file: File, path: &Path) -> io::Result<File> {
    let taken = || io::Error::other("another run is writing it");
    if let Err(TryLockError::WouldBlock) = file.try_lock() {
        return Err(taken());
    }
    // The run that held it until now may have given it its name, or have removed it.
    let same =
        Handle::from_path(path).and_then(|now| Ok(now == Handle::from_file(file.try_clone()?)?));
    if same.unwrap_or(false) { Ok(file) } else { Err(taken()) }
}

/// Refuses the file that jobs are read from, by whatever name.
fn not_the_source(path: &Path, jobs: &Path) -> Result<(), String> {
    let source = if jobs == Path::new("-") { Handle::stdin() } else { Handle::from_path(jobs) };
    let is_source = source.and_then(|source| Ok(Handle::from_path(path)? == source));
    match is_source {
        Ok(false) => Ok(()),
        Ok(true) => Err(cannot_write(path, &"the jobs are read from it")),
        Err(error) => Err(cannot_write(path, &error)),
    }
}
