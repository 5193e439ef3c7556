//! `docs/measuring.md`, `docs/handing-over.md` and `docs/export.md`: every command they show runs on the demo.

use std::path::Path;
use std::process::{Command, Stdio};

const PAGES: [&str; 3] = [
    include_str!("../../docs/measuring.md"),
    include_str!("../../docs/handing-over.md"),
    include_str!("../../docs/export.md"),
];

#[test]
fn every_command_runs_on_the_demo() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let scratch = tempfile::tempdir().expect("a scratch folder");
    let fences = PAGES.iter().flat_map(|page| page.split("```sh\n").skip(1));
    let lines = fences.flat_map(|fence| fence.split("```").next().unwrap_or("").lines());
    let commands: Vec<&str> = lines.filter(|line| line.starts_with("podbook ")).collect();
    assert!(commands.len() >= 8, "{commands:?}");
    for command in commands {
        let demo = root.join("registry-demo");
        let script = command
            .replace("registry-demo", &demo.to_string_lossy())
            .replacen("podbook", env!("CARGO_BIN_EXE_podbook"), 1);
        let ran = Command::new("sh")
            .current_dir(scratch.path())
            .args(["-c", &format!("{script} --today 2025-06-01")])
            .stdin(Stdio::null())
            .output()
            .expect("a shell runs");
        assert!(
            ran.status.success(),
            "{command}\n{}",
            String::from_utf8_lossy(&ran.stderr)
        );
    }
}
