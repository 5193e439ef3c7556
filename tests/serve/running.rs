//! A server that runs on a copy of the demo, and a client of a few lines. The browser's tests use part of it.

#![allow(dead_code)]

use serde_json::Value;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{IpAddr, SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, ExitStatus, Stdio};
use std::time::Duration;

/// A server; it ends with this value.
pub struct Server {
    child: Child,
    stdin: ChildStdin,
    stdout: BufReader<ChildStdout>,
    pub folder: PathBuf,
    pub port: u16,
    first: String,
    _kept: Option<tempfile::TempDir>,
}

/// A device that is paired.
#[derive(Clone)]
pub struct Device {
    pub at: SocketAddr,
    pub cookie: String,
    pub cookie_name: String,
    pub token: String,
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub headers: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    pub fn json(&self) -> Value {
        assert_eq!(self.status, 200, "{}", self.text());
        serde_json::from_slice(&self.body).expect("JSON")
    }
}

/// Copies a folder with what is in it.
pub fn copied(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder can be made");
    for entry in fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let (from, to) = (entry.path(), to.join(entry.file_name()));
        match from.is_dir() {
            true => copied(&from, &to),
            false => drop(fs::copy(from, to).expect("a file can be copied")),
        }
    }
}

impl Server {
    /// One on a copy of the demo.
    pub fn of_demo(words: &[&str]) -> Server {
        let kept = tempfile::tempdir().expect("a temporary folder can be made");
        let folder = kept.path().join("registry");
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
        copied(&demo, &folder);
        let mut server = Server::on(&folder, words);
        server._kept = Some(kept);
        server
    }

    /// One on a registry that stays.
    pub fn on(folder: &Path, words: &[&str]) -> Server {
        let mut child = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .args([
                "serve",
                "--port",
                "0",
                "--today",
                "2025-06-01",
                "--registry",
            ])
            .arg(folder)
            .args(words)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the binary can be run");
        let stdin = child.stdin.take().expect("a pipe");
        let mut stdout = BufReader::new(child.stdout.take().expect("a pipe"));
        let mut line = String::new();
        stdout.read_line(&mut line).expect("a line");
        let digits = |of: &str| -> String { of.chars().take_while(char::is_ascii_digit).collect() };
        let place = line.split_once("127.0.0.1:").or(line.split_once("port "));
        let port = digits(place.expect("a port is named").1).parse();
        Server {
            child,
            stdin,
            stdout,
            folder: folder.to_owned(),
            port: port.expect("a port"),
            first: line,
            _kept: None,
        }
    }

    pub fn at(&self) -> SocketAddr {
        SocketAddr::from(([127, 0, 0, 1], self.port))
    }

    /// The first lines it printed.
    pub fn said(&mut self, lines: usize) -> String {
        let mut said = self.first.clone();
        for _ in 1..lines {
            self.stdout.read_line(&mut said).expect("a line");
        }
        said
    }

    /// What it printed up to a line with some words.
    pub fn said_until(&mut self, words: &str) -> String {
        let mut said = self.first.clone();
        while !said.contains(words) {
            let read = self.stdout.read_line(&mut said).expect("a line");
            assert!(read > 0, "the server is gone: {said}");
        }
        said
    }

    /// The secret of the next link that is printed.
    pub fn secret(&mut self) -> String {
        loop {
            let mut line = String::new();
            let read = self.stdout.read_line(&mut line).expect("a line");
            assert!(read > 0, "the server is gone");
            if let Some((_, secret)) = line.split_once("secret=") {
                return secret.trim().to_owned();
            }
        }
    }

    /// Asks for a new link as one does by pressing Enter.
    pub fn press_enter(&mut self) {
        self.stdin.write_all(b"\n").expect("the server listens");
    }

    /// Pairs a device.
    pub fn paired(&mut self) -> Device {
        self.paired_from(self.at().ip())
    }

    /// Pairs a device that asks under another address of this computer.
    pub fn paired_from(&mut self, address: IpAddr) -> Device {
        let at = SocketAddr::new(address, self.port);
        let secret = self.secret();
        let answer = form(at, "/pair", &format!("secret={secret}&name=phone"));
        assert_eq!(answer.status, 303, "{}", answer.text());
        // For the next device; a new link voids the one before.
        self.press_enter();
        let cookie = answer.headers.split("podbook-").nth(1).expect("a cookie");
        let cookie = cookie.split(';').next().expect("a value");
        let (mark, cookie) = cookie.split_once('=').expect("a name and a value");
        let mut device = Device {
            at,
            cookie: cookie.to_owned(),
            cookie_name: format!("podbook-{mark}"),
            token: String::new(),
        };
        let page = device.get("/record").text();
        let token = page.split("podbook-token\" content=\"").nth(1);
        let token = token.map(|of| of.split('"').next().expect("a token").to_owned());
        device.token = token.unwrap_or_default();
        device
    }

    /// Memory it holds, kB; nothing where the system does not say.
    pub fn memory(&self) -> Option<u64> {
        let status = fs::read_to_string(format!("/proc/{}/status", self.child.id())).ok()?;
        let line = status.lines().find(|line| line.starts_with("VmRSS"))?;
        line.split_whitespace().nth(1)?.parse().ok()
    }

    /// Kills it at once, as a power cut would.
    pub fn kill(mut self) -> Option<tempfile::TempDir> {
        let _ = self.child.kill();
        let _ = self.child.wait();
        self._kept.take()
    }

    /// Interrupts it as Ctrl-C does.
    #[cfg(unix)]
    pub fn interrupt(&self) {
        let number = self.child.id().to_string();
        let sent = Command::new("kill").args(["-INT", &number]).status();
        assert!(sent.expect("a signal can be sent").success());
    }

    /// Waits until it has ended by itself: its exit code, what it printed since, and its folder.
    pub fn ended(mut self) -> (ExitStatus, String, Option<tempfile::TempDir>) {
        let mut exit = None;
        for _ in 0..3000 {
            exit = self.child.try_wait().expect("it can be waited for");
            if exit.is_some() {
                break;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        let mut said = String::new();
        let exit = exit.expect("it does not end");
        self.stdout.read_to_string(&mut said).expect("words");
        (exit, said, self._kept.take())
    }

    /// What the journal knows of ids, sorted.
    pub fn events(&self) -> Vec<String> {
        events(&self.folder)
    }
}

/// The ids in the journal of a registry, sorted.
pub fn events(folder: &Path) -> Vec<String> {
    let journal = fs::read_dir(folder.join("journal")).into_iter().flatten();
    let texts = journal.map(|of| fs::read_to_string(of.expect("a file").path()).expect("text"));
    let mut ids: Vec<String> = texts
        .filter_map(|text| {
            let rest = text.split("event: \"").nth(1)?;
            Some(rest.split('"').next()?.to_owned())
        })
        .collect();
    ids.sort();
    ids
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Device {
    pub fn get(&self, path: &str) -> Answer {
        ask(self.at, "GET", path, &[("Cookie", &self.sends())], b"")
    }

    pub fn sends(&self) -> String {
        format!("{}={}", self.cookie_name, self.cookie)
    }

    /// Sends something as the program of a page does.
    pub fn post(&self, path: &str, body: &[u8]) -> Answer {
        self.try_post(path, body).expect("an answer")
    }

    pub fn try_post(&self, path: &str, body: &[u8]) -> Option<Answer> {
        let origin = format!("http://{}", self.at);
        let headers = [
            ("Cookie", self.sends()),
            ("Origin", origin),
            ("X-Podbook-Token", self.token.clone()),
        ];
        let headers: Vec<(&str, &str)> = headers.iter().map(|(a, b)| (*a, b.as_str())).collect();
        try_ask(self.at, "POST", path, &headers, body)
    }

    /// Sends entries, and gives their answers.
    pub fn enter(&self, entries: &Value) -> Value {
        self.post("/entries", entries.to_string().as_bytes()).json()
    }
}

/// A form of one of our own pages, sent by a device that is not paired.
pub fn form(at: SocketAddr, path: &str, body: &str) -> Answer {
    ask(
        at,
        "POST",
        path,
        &[("Origin", &format!("http://{at}"))],
        body.as_bytes(),
    )
}

pub fn ask(
    at: SocketAddr,
    method: &str,
    path: &str,
    headers: &[(&str, &str)],
    body: &[u8],
) -> Answer {
    try_ask(at, method, path, headers, body).expect("an answer")
}

/// One request; `None` where the connection breaks.
pub fn try_ask(
    at: SocketAddr,
    method: &str,
    path: &str,
    headers: &[(&str, &str)],
    body: &[u8],
) -> Option<Answer> {
    let mut head = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
    if !headers.iter().any(|(name, _)| *name == "Host") {
        head += &format!("Host: {at}\r\n");
    }
    for (name, value) in headers.iter().filter(|(_, value)| !value.is_empty()) {
        head += &format!("{name}: {value}\r\n");
    }
    let chunked = headers.iter().any(|(name, _)| *name == "Transfer-Encoding");
    if !chunked && (method == "POST" || !body.is_empty()) {
        head += &format!("Content-Length: {}\r\n", body.len());
    }
    let mut stream = TcpStream::connect(at).ok()?;
    stream
        .set_read_timeout(Some(Duration::from_secs(60)))
        .ok()?;
    stream.write_all(format!("{head}\r\n").as_bytes()).ok()?;
    // A server that has heard enough answers before all is sent.
    let _ = stream.write_all(body);
    answer(&mut stream)
}

/// Reads an answer to the end of the connection.
pub fn answer(stream: &mut TcpStream) -> Option<Answer> {
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
    let end = bytes.windows(4).position(|of| of == b"\r\n\r\n")?;
    let headers = String::from_utf8_lossy(&bytes[..end]).into_owned();
    let status = headers.split(' ').nth(1)?.parse().ok()?;
    Some(Answer {
        status,
        headers,
        body: bytes[end + 4..].to_vec(),
    })
}

impl Server {
    /// Pairs a device with a new link, whatever became of the one before.
    pub fn paired_after_enter(&mut self) -> Device {
        self.press_enter();
        self.paired()
    }
}
