//! A browser told what to do over two pipes: its DevTools protocol, one JSON text a message, each ended by a zero byte.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::Duration;

/// Names under which systems have the browser.
const NAMES: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// A running browser with one page.
pub struct Browser {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    session: Option<String>,
    sent: u64,
    /// Where the last tap was.
    spot: Value,
    _profile: tempfile::TempDir,
}

impl Browser {
    /// Starts one; `None` where there is none.
    pub fn start() -> Option<Browser> {
        Browser::start_with(&[])
    }

    /// Starts one with further arguments; `None` where there is none.
    pub fn start_with(further: &[&str]) -> Option<Browser> {
        let there = |name: &&str| {
            Command::new(name)
                .arg("--version")
                .output()
                .is_ok_and(|ran| ran.status.success())
        };
        let name = NAMES.iter().find(|name| there(name))?;
        let profile = tempfile::tempdir().expect("a temporary folder can be made");
        let mut shell = Command::new("sh");
        // The protocol runs over descriptors 3 and 4.
        shell.args(["-c", "exec \"$0\" \"$@\" 3<&0 4>&1", name]);
        shell.args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--hide-scrollbars",
            "--remote-debugging-pipe",
            "--no-first-run",
        ]);
        shell.arg(format!("--user-data-dir={}", profile.path().display()));
        shell.args(further);
        let mut child = shell
            .arg("about:blank")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .ok()?;
        let to = child.stdin.take().expect("a pipe");
        let from = BufReader::new(child.stdout.take().expect("a pipe"));
        let mut browser = Browser {
            child,
            to,
            from,
            session: None,
            sent: 0,
            spot: Value::Null,
            _profile: profile,
        };
        let targets = browser.ask("Target.getTargets", json!({}));
        let page = targets["targetInfos"]
            .as_array()
            .expect("targets")
            .iter()
            .find(|of| of["type"] == "page")
            .expect("a page");
        let id = page["targetId"].clone();
        let attached = browser.ask(
            "Target.attachToTarget",
            json!({"targetId": id, "flatten": true}),
        );
        browser.session = attached["sessionId"].as_str().map(str::to_owned);
        browser.ask("Page.enable", json!({}));
        Some(browser)
    }

    /// One command and its answer.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        let answer = self.answered(method, params);
        answer.unwrap_or_else(|why| panic!("{method}: {why}"))
    }

    /// One command and its answer, or why it failed.
    fn answered(&mut self, method: &str, params: Value) -> Result<Value, Value> {
        self.sent += 1;
        let mut message = json!({"id": self.sent, "method": method, "params": params});
        if let Some(session) = &self.session {
            message["sessionId"] = json!(session);
        }
        self.to
            .write_all(format!("{message}\0").as_bytes())
            .expect("the browser listens");
        loop {
            let answer = self.next();
            if answer["id"] == json!(self.sent) {
                return match answer["error"].is_null() {
                    true => Ok(answer["result"].clone()),
                    false => Err(answer),
                };
            }
        }
    }

    fn next(&mut self) -> Value {
        let mut bytes = Vec::new();
        let read = self
            .from
            .read_until(0, &mut bytes)
            .expect("the browser answers");
        assert!(read > 0, "the browser is gone");
        bytes.pop();
        serde_json::from_slice(&bytes).expect("JSON")
    }

    /// A screen of some size, as of a phone where it is narrow.
    pub fn screen(&mut self, width: u32, height: u32) {
        let phone = width < 700;
        self.ask(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": phone}),
        );
    }

    /// Whether programs of pages run.
    pub fn programs(&mut self, run: bool) {
        self.ask(
            "Emulation.setScriptExecutionDisabled",
            json!({"value": !run}),
        );
    }

    /// Opens a file and waits until it is whole.
    pub fn open(&mut self, file: &Path) {
        self.open_address(&format!("file://{}", file.display()));
    }

    /// Opens an address and waits until its page is whole.
    pub fn open_address(&mut self, address: &str) {
        self.ask("Page.navigate", json!({"url": address}));
        let whole =
            format!("[location.href, document.readyState].join(' ') === '{address} complete'");
        self.wait(&whole);
    }

    /// Loads the page anew; what is asked next is asked of the new one.
    pub fn reload(&mut self) {
        self.value("window.isOld = true");
        self.ask("Page.reload", json!({}));
        self.wait("window.isOld === undefined && document.readyState === 'complete'");
    }

    /// Does what leads to another page, which may come before there is an answer.
    pub fn leave(&mut self, expression: &str) {
        self.tried(expression);
    }

    /// Waits until an expression is true on the page, also while one page gives way to another.
    pub fn wait(&mut self, expression: &str) {
        for _ in 0..1500 {
            if self.tried(expression) == Some(json!(true)) {
                return;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        let seen = self.tried("location.href + ' ' + document.body.innerText");
        panic!("never true: {expression}\n{seen:?}");
    }

    /// Taps an element as a finger does, in its middle: a second after the tap before by the page's reckoning.
    pub fn tap(&mut self, selector: &str) {
        let middle = format!(
            "{{ const of = document.querySelector({selector:?}); of.scrollIntoView({{ block: 'center' }});
                const at = of.getBoundingClientRect(); [at.x + at.width / 2, at.y + at.height / 2]; }}"
        );
        self.spot = self.value(&middle);
        self.tap_again(1000);
    }

    /// Taps where the last tap was, whatever is there now, so many milliseconds later by the page's reckoning.
    pub fn tap_again(&mut self, later: u32) {
        self.later(later);
        for (kind, points) in [
            (
                "touchStart",
                json!([{"x": self.spot[0], "y": self.spot[1]}]),
            ),
            ("touchEnd", json!([])),
        ] {
            self.ask(
                "Input.dispatchTouchEvent",
                json!({"type": kind, "touchPoints": points}),
            );
        }
    }

    /// Lets milliseconds pass by the page's reckoning between what is done with it.
    fn later(&mut self, milliseconds: u32) {
        self.value(&format!(
            "window.later = (window.later || performance.now()) + {milliseconds};
             Object.defineProperty(Event.prototype, 'timeStamp', {{ configurable: true, get: () => window.later }}); null"
        ));
    }

    /// Presses a key a second after what was done before.
    pub fn press(&mut self, key: &str) {
        self.later(1000);
        let (code, text) = match key {
            "Enter" => (13, "\r"),
            "Backspace" => (8, ""),
            key => (key.bytes().next().unwrap_or_default(), key),
        };
        for kind in ["keyDown", "keyUp"] {
            let key = json!({"type": kind, "key": key, "code": key, "text": text, "windowsVirtualKeyCode": code});
            self.ask("Input.dispatchKeyEvent", key);
        }
    }

    /// Chooses a file as the camera of a phone gives one.
    pub fn photographs(&mut self, selector: &str, file: &Path) {
        let root = self.ask("DOM.getDocument", json!({}))["root"]["nodeId"].clone();
        let found = self.ask(
            "DOM.querySelector",
            json!({"nodeId": root, "selector": selector}),
        );
        self.ask(
            "DOM.setFileInputFiles",
            json!({"nodeId": found["nodeId"], "files": [file]}),
        );
    }

    /// Cuts the network off, or restores it.
    pub fn network(&mut self, is_there: bool) {
        self.ask(
            "Network.emulateNetworkConditions",
            json!({"offline": !is_there, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}),
        );
    }

    /// What the screen shows, as PNG.
    pub fn screenshot(&mut self) -> Vec<u8> {
        let answer = self.ask("Page.captureScreenshot", json!({"format": "png"}));
        let text = answer["data"].as_str().expect("a picture");
        base64::Engine::decode(&base64::prelude::BASE64_STANDARD, text).expect("base64")
    }

    /// What an expression is worth, unless the page fails on it or is just giving way.
    fn tried(&mut self, expression: &str) -> Option<Value> {
        let params = json!({"expression": expression, "returnByValue": true});
        let answer = self.answered("Runtime.evaluate", params).ok()?;
        let failed = !answer["exceptionDetails"].is_null();
        (!failed).then(|| answer["result"]["value"].clone())
    }

    /// What an expression is worth on the page.
    pub fn value(&mut self, expression: &str) -> Value {
        let answer = self.ask(
            "Runtime.evaluate",
            json!({"expression": expression, "returnByValue": true}),
        );
        assert!(
            answer["exceptionDetails"].is_null(),
            "{expression}: {answer}"
        );
        answer["result"]["value"].clone()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // The shell became the browser: this ends nothing else.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
