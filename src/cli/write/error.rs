//! Why a file could not be put in place, and what to tell the user.

use crate::diagnostic::Problem;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why a file could not be put in place.
#[derive(Debug)]
pub(in crate::cli) struct WriteError {
    path: PathBuf,
    cause: Cause,
}

/// One cause, one message.
#[derive(Debug)]
pub(super) enum Cause {
    /// A folder stands where the file should go.
    FolderInTheWay,
    /// A pipe, a socket or a device stands where the file should go.
    NotAFile,
    /// The folder to write in is a file.
    NoFolder(PathBuf),
    /// A link, of the file or of its folder, leads to a place that is not there.
    DanglingLink {
        /// The link.
        link: PathBuf,
        /// Where it leads.
        to: PathBuf,
    },
    /// A link that leads to itself.
    LinkInACircle,
    /// Something has come to stand under the name of a new file.
    ThereAlready,
    /// The file system takes no name of that length.
    NameTooLong,
    /// The file there is write-protected.
    Protected,
    /// The folder does not let us write.
    Forbidden,
    /// The disk, or the folder's file system, takes no writing at all.
    ReadOnly,
    /// No room left.
    Full,
    /// Larger than this user or file system may write.
    TooLarge,
    /// Another program holds the file.
    Busy,
    /// Whatever else the system says.
    Other(io::Error),
}

/// How the command at work can be told to write elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cli) enum Elsewhere {
    /// With `--out FOLDER`.
    Out,
    /// With `--in FOLDER`.
    In,
    /// Not at all: the file is the one to be changed.
    Nowhere,
}

impl Elsewhere {
    /// `rename the folder, or write elsewhere with --out FOLDER`
    fn or(self, first: &str) -> String {
        match self {
            Elsewhere::Out => format!("{first}, or write elsewhere with --out FOLDER"),
            Elsewhere::In => format!("{first}, or write elsewhere with --in FOLDER"),
            Elsewhere::Nowhere => first.to_owned(),
        }
    }

    /// `give a folder to --out`
    fn give_a_folder(self) -> &'static str {
        match self {
            Elsewhere::Out => "give a folder to --out",
            Elsewhere::In => "give a folder to --in",
            Elsewhere::Nowhere => "check the name",
        }
    }
}

impl WriteError {
    pub(super) fn new(path: &Path, cause: Cause) -> WriteError {
        WriteError { path: path.to_path_buf(), cause }
    }

    pub(super) fn from_io(path: &Path, error: io::Error) -> WriteError {
        let cause = match error.kind() {
            ErrorKind::PermissionDenied if cfg!(windows) => Cause::Busy,
            ErrorKind::PermissionDenied => Cause::Forbidden,
            ErrorKind::ReadOnlyFilesystem => Cause::ReadOnly,
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Cause::Full,
            ErrorKind::FileTooLarge => Cause::TooLarge,
            ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy => Cause::Busy,
            ErrorKind::IsADirectory => Cause::FolderInTheWay,
            ErrorKind::NotADirectory => Cause::NoFolder(path.parent().unwrap_or(path).to_path_buf()),
            ErrorKind::AlreadyExists => Cause::ThereAlready,
            ErrorKind::InvalidFilename => Cause::NameTooLong,
            _ => Cause::Other(error),
        };
        WriteError::new(path, cause)
    }

    /// Whether all that is wrong is that something stands there already.
    pub(super) fn is_there_already(&self) -> bool {
        matches!(self.cause, Cause::ThereAlready)
    }

    /// What to tell the user.
    pub(in crate::cli) fn problem(&self, elsewhere: Elsewhere) -> Problem {
        let (why, hint) = match &self.cause {
            Cause::FolderInTheWay => {
                ("a folder of that name is in the way".to_owned(), elsewhere.or("rename the folder"))
            }
            Cause::NotAFile => (
                "what stands there is no file, but a pipe, a socket or a device".to_owned(),
                elsewhere.or("remove or rename it"),
            ),
            Cause::NoFolder(folder) => (
                format!("{} is a file, not a folder", folder.display()),
                elsewhere.give_a_folder().to_owned(),
            ),
            Cause::DanglingLink { link, to } => (
                format!("{} is a link to {}, which is not there", link.display(), to.display()),
                elsewhere.or("bring back what it leads to, or remove the link"),
            ),
            Cause::LinkInACircle => ("it is a link to itself".to_owned(), elsewhere.or("remove the link")),
            Cause::ThereAlready => {
                ("something of that name is there already".to_owned(), elsewhere.or("rename it"))
            }
            Cause::NameTooLong => (
                "the name is longer than the system takes".to_owned(),
                "give the design's file a shorter name, or fewer words to what is added to it".to_owned(),
            ),
            Cause::Protected => {
                ("the file there is write-protected".to_owned(), elsewhere.or("take its protection off"))
            }
            Cause::Forbidden => (
                "the folder does not let you write in it".to_owned(),
                elsewhere.or("change the folder's permissions"),
            ),
            Cause::ReadOnly => ("the disk is read-only".to_owned(), elsewhere.or("make it writable")),
            Cause::Full => (
                "the disk is full".to_owned(),
                "make room and run the same command again; what stood there before is untouched".to_owned(),
            ),
            Cause::TooLarge => (
                "the file would be larger than the system lets you write".to_owned(),
                "raise the limit and run the same command again; what stood there before is untouched"
                    .to_owned(),
            ),
            Cause::Busy => (
                "another program holds the file open".to_owned(),
                "close it there and run the same command again".to_owned(),
            ),
            Cause::Other(error) => (error.to_string(), String::new()),
        };
        Problem::error(format!("cannot write {}: {why}", self.path.display())).hint(hint)
    }
}
