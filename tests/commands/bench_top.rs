//! A bench top to try commands on: a registry in a folder of its own, and the binary run inside it.
//!
//! Today, the width and the colour are frozen, and the folder's own path never shows, so that what a command prints is
//! the same on every machine.

use std::fmt;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

/// The day that counts as today in every run.
pub const TODAY: &str = "2024-06-01";

/// A folder, usually with a registry in it.
pub struct BenchTop {
    folder: TempDir,
}

impl BenchTop {
    /// An empty folder.
    pub fn empty() -> BenchTop {
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        BenchTop { folder }
    }

    /// A folder with these files, given as path and text.
    pub fn with<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> BenchTop {
        files
            .into_iter()
            .fold(BenchTop::empty(), |top, (path, text)| top.file(path, text))
    }

    /// A small sound registry: three clones, two crosses of two generations, pollen, readings.
    pub fn sound() -> BenchTop {
        BenchTop::with([
            ("registry.ron", include_str!("sound/registry.ron")),
            ("species.ron", include_str!("sound/species.ron")),
            ("clones.ron", include_str!("sound/clones.ron")),
            ("pollen.ron", include_str!("sound/pollen.ron")),
            (
                "crosses/X18-01.ron",
                include_str!("sound/crosses/X18-01.ron"),
            ),
            (
                "crosses/X22-02.ron",
                include_str!("sound/crosses/X22-02.ron"),
            ),
        ])
    }

    /// Writes a file, in the place of one that may be there.
    pub fn file(self, path: &str, text: &str) -> BenchTop {
        self.bytes(path, text.as_bytes())
    }

    /// Writes a file that need not be text.
    pub fn bytes(self, path: &str, bytes: &[u8]) -> BenchTop {
        let path = self.folder.path().join(path);
        std::fs::create_dir_all(path.parent().expect("a file lies in a folder"))
            .expect("a folder can be made");
        std::fs::write(path, bytes).expect("a file can be written");
        self
    }

    /// Replaces a piece of a file.
    ///
    /// # Panics
    /// If the piece is not there: the test would try nothing.
    pub fn change(self, path: &str, from: &str, to: &str) -> BenchTop {
        let text = self.text(path);
        assert!(text.contains(from), "{path} does not hold `{from}`");
        self.file(path, &text.replacen(from, to, 1))
    }

    /// The text of a file as it lies there now.
    pub fn text(&self, path: &str) -> String {
        std::fs::read_to_string(self.folder.path().join(path)).expect("a file can be read")
    }

    /// Where the folder is.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Runs `podbook` in the folder, 100 columns wide.
    pub fn run(&self, arguments: &[&str]) -> Run {
        self.run_without_width(&[arguments, &["--width", "100"]].concat())
    }

    /// As [`BenchTop::run`], in a width the arguments name.
    pub fn run_without_width(&self, arguments: &[&str]) -> Run {
        self.run_by(Command::new(env!("CARGO_BIN_EXE_podbook")), arguments)
    }

    /// Runs `podbook` in the folder from a shell that first does something, such as `ulimit -v 500000`; what comes
    /// after the command, such as a redirection, stands in `behind`.
    #[cfg(unix)]
    pub fn run_after(&self, first: &str, behind: &str, arguments: &[&str]) -> Run {
        let mut shell = Command::new("sh");
        let script = format!("{first} && exec \"$0\" \"$@\" {behind}");
        shell.args(["-c", &script, env!("CARGO_BIN_EXE_podbook")]);
        // Each thread takes room for itself, whatever the input.
        shell.env("RAYON_NUM_THREADS", "1");
        self.run_by(shell, arguments)
    }

    /// As [`BenchTop::run`], with lines on standard input.
    pub fn run_with(&self, input: &str, arguments: &[&str]) -> Run {
        let file = self.folder.path().with_extension("input");
        std::fs::write(&file, input).expect("a file can be written");
        let mut command = Command::new(env!("CARGO_BIN_EXE_podbook"));
        command.stdin(std::fs::File::open(&file).expect("a file can be opened"));
        let run = self.run_by(command, &[arguments, &["--width", "100"]].concat());
        std::fs::remove_file(file).expect("a file can be removed");
        run
    }

    fn run_by(&self, mut command: Command, arguments: &[&str]) -> Run {
        let output = command
            .current_dir(self.folder.path())
            .env_remove("NO_COLOR")
            .env_remove("COLUMNS")
            .args(arguments)
            .arg("--full")
            .args(
                arguments
                    .iter()
                    .all(|word| *word != "--today")
                    .then_some(["--today", TODAY])
                    .into_iter()
                    .flatten(),
            )
            .output()
            .expect("the binary can be run");
        let folder = self.folder.path().to_string_lossy().into_owned();
        let words = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).replace(&folder, "[folder]");
        Run {
            exit: output.status.code(),
            stdout: words(output.stdout),
            stderr: words(output.stderr),
        }
    }
}

/// What a run printed and how it ended.
pub struct Run {
    /// The exit code; `None` when the program was ended from outside.
    pub exit: Option<i32>,
    /// What came on standard output.
    pub stdout: String,
    /// What came on standard error.
    pub stderr: String,
}

impl fmt::Display for Run {
    /// The whole of it, for a snapshot.
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self.exit {
            Some(code) => writeln!(f, "exit {code}")?,
            None => writeln!(f, "ended from outside")?,
        }
        for (name, text) in [("out", &self.stdout), ("err", &self.stderr)] {
            if !text.is_empty() {
                writeln!(f, "--- {name}\n{}", text.trim_end_matches('\n'))?;
            }
        }
        Ok(())
    }
}
