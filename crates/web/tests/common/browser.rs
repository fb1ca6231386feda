//! A real browser, told what to do over its DevTools protocol: a page goes where a link leads, keys and clicks come as a
//! person's do. Chromium is started without a window; where it is missing the test fails and says what to install.
//! A WebSocket client is all that this needs, so nothing heavier is built.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tungstenite::WebSocket;
use tungstenite::stream::MaybeTlsStream;

/// Longest that anything may take.
const PATIENCE: Duration = Duration::from_secs(40);

/// The browser.
pub struct Browser {
    child: Child,
    socket: WebSocket<MaybeTlsStream<TcpStream>>,
    next: u64,
    /// What came without being asked for.
    events: Vec<Value>,
    _profile: tempfile::TempDir,
}

pub fn program() -> PathBuf {
    let names = ["chromium", "chromium-browser", "google-chrome"];
    let path = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&path).flat_map(|d| names.map(|n| d.join(n))).find(|p| p.is_file());
    found.expect("no Chromium on this machine: the browser tests need it (Debian: apt-get install chromium)")
}

impl Browser {
    /// Starts it.
    pub fn start() -> Self {
        let profile = tempfile::tempdir().unwrap();
        let child = Command::new(program())
            .args(["--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu", "--no-first-run"])
            .args(["--disable-background-networking", "--disable-component-update", "--disable-sync"])
            .args(["--hide-scrollbars", "--remote-debugging-port=0", "about:blank"])
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("Chromium starts");
        let file = profile.path().join("DevToolsActivePort");
        let begun = Instant::now();
        let (port, path) = loop {
            let text = std::fs::read_to_string(&file).unwrap_or_default();
            if let Some((port, path)) = text.split_once('\n') {
                break (port.trim().to_string(), path.trim().to_string());
            }
            assert!(begun.elapsed() < PATIENCE, "Chromium does not answer");
            std::thread::sleep(Duration::from_millis(30));
        };
        let (socket, _) = tungstenite::connect(format!("ws://127.0.0.1:{port}{path}")).expect("Chromium listens");
        if let MaybeTlsStream::Plain(s) = socket.get_ref() {
            s.set_read_timeout(Some(PATIENCE)).unwrap();
        }
        Self { child, socket, next: 0, events: vec![], _profile: profile }
    }

    fn ask(&mut self, session: Option<&str>, method: &str, params: &Value) -> Value {
        let answer = self.exchange(session, method, params);
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].clone()
    }

    /// Sends a message and waits for its answer, which may be an error.
    fn exchange(&mut self, session: Option<&str>, method: &str, params: &Value) -> Value {
        self.next += 1;
        let id = self.next;
        let mut message = json!({ "id": id, "method": method, "params": params });
        if let Some(s) = session {
            message["sessionId"] = json!(s);
        }
        self.socket.send(tungstenite::Message::text(message.to_string())).unwrap();
        loop {
            let text = self.socket.read().expect("Chromium answers").into_text().unwrap();
            let answer: Value = serde_json::from_str(&text).unwrap();
            if answer["id"] == json!(id) {
                return answer;
            }
            if answer.get("method").is_some() {
                self.events.push(answer);
            }
        }
    }

    /// A page of a person of their own: its cookies are nobody else's.
    pub fn page(&mut self, base: &str) -> Page {
        let context = self.ask(None, "Target.createBrowserContext", &json!({}))["browserContextId"].clone();
        let target =
            self.ask(None, "Target.createTarget", &json!({ "url": "about:blank", "browserContextId": context }));
        let attach = json!({ "targetId": target["targetId"], "flatten": true });
        let session = self.ask(None, "Target.attachToTarget", &attach)["sessionId"].as_str().unwrap().to_string();
        for domain in ["Page.enable", "Network.enable", "Runtime.enable", "DOM.enable", "Log.enable"] {
            self.ask(Some(&session), domain, &json!({}));
        }
        Page { session, base: base.to_string() }
    }

    /// Addresses that pages asked for and that are not of this web interface.
    pub fn strange_requests(&mut self, base: &str) -> Vec<String> {
        self.ask(None, "Target.getTargets", &json!({}));
        let urls = self.events.iter().filter(|e| e["method"] == "Network.requestWillBeSent");
        let urls = urls.filter_map(|e| e["params"]["request"]["url"].as_str().map(str::to_string));
        urls.filter(|u| !u.starts_with(base) && !u.starts_with("data:") && !u.starts_with("blob:")).collect()
    }

    /// What pages complained of: broken scripts, what the content policy stopped.
    pub fn complaints(&self) -> Vec<String> {
        let told = self.events.iter().filter_map(|e| match e["method"].as_str()? {
            "Runtime.exceptionThrown" => Some(e["params"]["exceptionDetails"].to_string()),
            "Log.entryAdded" if e["params"]["entry"]["source"] == "security" => Some(e["params"]["entry"].to_string()),
            _ => None,
        });
        told.collect()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What is heard of a node of a page.
#[derive(Debug, Clone)]
pub struct Heard {
    pub id: String,
    pub parent: String,
    /// Left out: it stands for nothing by itself.
    pub ignored: bool,
    pub role: String,
    pub name: String,
    /// Of a heading.
    pub level: Option<u64>,
}

/// One page.
#[derive(Clone)]
pub struct Page {
    session: String,
    base: String,
}

impl Page {
    fn ask(&self, b: &mut Browser, method: &str, params: &Value) -> Value {
        b.ask(Some(&self.session), method, params)
    }

    /// Goes to an address of the web interface.
    pub fn go(&self, b: &mut Browser, path: &str) {
        self.ask(b, "Page.navigate", &json!({ "url": format!("{}{path}", self.base) }));
        self.wait(b, "document.readyState === 'complete' && location.href !== 'about:blank'");
    }

    /// The value of an expression.
    pub fn eval(&self, b: &mut Browser, expression: &str) -> Value {
        let params = json!({ "expression": expression, "awaitPromise": true, "returnByValue": true });
        let answer = self.ask(b, "Runtime.evaluate", &params);
        assert!(answer.get("exceptionDetails").is_none(), "{expression}: {answer}");
        answer["result"]["value"].clone()
    }

    /// Waits until an expression is true.
    pub fn wait(&self, b: &mut Browser, expression: &str) {
        let begun = Instant::now();
        loop {
            // While a page is replaced there is nothing to ask: an error then means "not yet".
            let params = json!({ "expression": format!("!!({expression})"), "returnByValue": true });
            let answer = b.exchange(Some(&self.session), "Runtime.evaluate", &params);
            if answer["result"]["result"]["value"] == json!(true) {
                return;
            }
            assert!(begun.elapsed() < PATIENCE, "waited in vain for {expression} at {}", self.text(b));
            std::thread::sleep(Duration::from_millis(25));
        }
    }

    /// All words of the page.
    pub fn text(&self, b: &mut Browser) -> String {
        self.eval(b, "document.body.innerText").as_str().unwrap_or_default().to_string()
    }

    pub fn path(&self, b: &mut Browser) -> String {
        self.eval(b, "location.pathname + location.search").as_str().unwrap().to_string()
    }

    /// The middle of what a selector or the words of a link or button name, after scrolling there.
    fn place(&self, b: &mut Browser, what: &str) -> (f64, f64) {
        let find = format!(
            "(() => {{ const w = {}; let e; try {{ e = document.querySelector(w); }} catch {{}}
              e ??= [...document.querySelectorAll('a,button,summary,label')].find((x) => x.textContent.trim() === w && x.checkVisibility());
              if (!e) return null; e.scrollIntoView({{ block: 'center', behavior: 'instant' }});
              const r = e.getClientRects()[0]; return [r.left + r.width / 2, r.top + r.height / 2]; }})()",
            json!(what)
        );
        let at = self.eval(b, &find);
        assert!(at.is_array(), "there is no {what:?} on {}:\n{}", self.path(b), self.text(b));
        (at[0].as_f64().unwrap(), at[1].as_f64().unwrap())
    }

    /// Clicks.
    pub fn click(&self, b: &mut Browser, what: &str) {
        let (x, y) = self.place(b, what);
        for kind in ["mousePressed", "mouseReleased"] {
            let event = json!({ "type": kind, "x": x, "y": y, "button": "left", "clickCount": 1 });
            self.ask(b, "Input.dispatchMouseEvent", &event);
        }
    }

    /// Moves the pointer over something, and draws from there with the button held where `across` says how many px.
    pub fn point(&self, b: &mut Browser, what: &str, across: Option<f64>) {
        let (x, y) = self.place(b, what);
        let mut event = |kind: &str, x: f64, button: &str| {
            let event = json!({ "type": kind, "x": x, "y": y, "button": button, "buttons": u8::from(button == "left"), "clickCount": 1 });
            self.ask(b, "Input.dispatchMouseEvent", &event);
        };
        event("mouseMoved", x, "none");
        if let Some(across) = across {
            event("mousePressed", x, "left");
            event("mouseMoved", x + 0.5 * across, "left");
            event("mouseMoved", x + across, "left");
            event("mouseReleased", x + across, "left");
        }
    }

    /// Clicks on what leads to another page, and waits for it.
    pub fn follow(&self, b: &mut Browser, what: &str) {
        self.eval(b, "window.before = true");
        self.click(b, what);
        self.wait(b, "!window.before && document.readyState === 'complete'");
    }

    /// Waits until long work is done, and goes on from its page.
    pub fn settle(&self, b: &mut Browser) {
        self.wait(b, "!location.pathname.startsWith('/jobs/') || document.querySelector('a.go')");
        if self.path(b).starts_with("/jobs/") {
            self.follow(b, "Go on");
        }
    }

    /// Presses a key, and waits for the page that it leads to.
    pub fn follow_key(&self, b: &mut Browser, key: &str) {
        self.eval(b, "window.before = true");
        self.key(b, key);
        self.wait(b, "!window.before && document.readyState === 'complete'");
    }

    /// Types into a field, in place of what stands there.
    pub fn fill(&self, b: &mut Browser, field: &str, text: &str) {
        self.click(b, field);
        self.eval(b, "document.activeElement.select?.()");
        self.type_text(b, text);
        let value = self.eval(b, "document.activeElement.value");
        assert_eq!(value, json!(text), "{field}");
    }

    /// Types where the focus is.
    pub fn type_text(&self, b: &mut Browser, text: &str) {
        self.ask(b, "Input.insertText", &json!({ "text": text }));
    }

    /// Chooses from a list.
    pub fn choose(&self, b: &mut Browser, field: &str, value: &str) {
        let set = format!(
            "(() => {{ const s = document.querySelector({}); s.value = {}; return s.value; }})()",
            json!(field),
            json!(value)
        );
        assert_eq!(self.eval(b, &set), json!(value));
    }

    /// Presses a key.
    pub fn key(&self, b: &mut Browser, key: &str) {
        let (code, text) = match key {
            "Tab" => (9, ""),
            "Enter" => (13, "\r"),
            " " => (32, " "),
            "ArrowRight" => (39, ""),
            "ArrowDown" => (40, ""),
            "End" => (35, ""),
            "+" => (187, "+"),
            "0" => (48, "0"),
            other => panic!("the test knows no key {other}"),
        };
        let mut event = json!({ "type": "keyDown", "key": key, "code": key, "windowsVirtualKeyCode": code });
        if !text.is_empty() {
            event["text"] = json!(text);
        }
        self.ask(b, "Input.dispatchKeyEvent", &event);
        event["type"] = json!("keyUp");
        self.ask(b, "Input.dispatchKeyEvent", &event);
    }

    /// Presses Tab until an expression on the focused element `e` is true.
    pub fn tab_to(&self, b: &mut Browser, expression: &str) {
        for _ in 0..400 {
            self.key(b, "Tab");
            let there =
                self.eval(b, &format!("(() => {{ const e = document.activeElement; return !!({expression}); }})()"));
            if there == json!(true) {
                return;
            }
        }
        panic!("no Tab leads to {expression} on {}", self.path(b));
    }

    /// Gives files to a field.
    pub fn upload(&self, b: &mut Browser, field: &str, files: &[PathBuf]) {
        let found = json!({ "expression": format!("document.querySelector({})", json!(field)) });
        let object = self.ask(b, "Runtime.evaluate", &found)["result"]["objectId"].clone();
        self.ask(b, "DOM.setFileInputFiles", &json!({ "files": files, "objectId": object }));
    }

    /// The size of the window.
    pub fn size(&self, b: &mut Browser, width: u32, height: u32) {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500 });
        self.ask(b, "Emulation.setDeviceMetricsOverride", &size);
    }

    /// As a system whose person set something: `forced-colors` to `active`; an empty value takes it back.
    pub fn media(&self, b: &mut Browser, feature: &str, value: &str) {
        let features = json!({ "features": [{ "name": feature, "value": value }] });
        self.ask(b, "Emulation.setEmulatedMedia", &features);
    }

    /// The size of letters that a person set in the browser, px; 16 is usual.
    pub fn letters(&self, b: &mut Browser, px: u32) {
        self.ask(b, "Page.setFontSizes", &json!({ "fontSizes": { "standard": px, "fixed": px } }));
    }

    /// As a telephone of the middle class on a slow mobile network: processor four times slower, 1.6 Mbit/s, 150 ms there and
    /// back, nothing kept from before.
    // The profile of common practice for such measurements (from memory).
    pub fn as_slow_telephone(&self, b: &mut Browser) {
        self.size(b, 360, 800);
        self.ask(b, "Emulation.setCPUThrottlingRate", &json!({ "rate": 4 }));
        self.ask(b, "Network.setCacheDisabled", &json!({ "cacheDisabled": true }));
        let network = json!({ "offline": false, "latency": 150, "downloadThroughput": 1.6e6 / 8.0, "uploadThroughput": 7.5e5 / 8.0 });
        self.ask(b, "Network.emulateNetworkConditions", &network);
    }

    /// Milliseconds until the first of a page's own words is painted.
    pub fn first_paint_ms(&self, b: &mut Browser, path: &str) -> f64 {
        self.go(b, path);
        let first = "performance.getEntriesByName('first-contentful-paint')";
        self.wait(b, &format!("{first}.length"));
        self.eval(b, &format!("{first}[0].startTime")).as_f64().unwrap()
    }

    /// What a program that reads the page aloud is told of it: the nodes of the accessibility tree that are not left out,
    /// in the order of the page.
    pub fn heard(&self, b: &mut Browser) -> Vec<Heard> {
        let tree = self.ask(b, "Accessibility.getFullAXTree", &json!({}));
        let nodes = tree["nodes"].as_array().expect("a tree");
        let text = |v: &Value| v["value"].as_str().unwrap_or_default().to_string();
        let of = |n: &Value| {
            let level = n["properties"].as_array().and_then(|all| all.iter().find(|p| p["name"] == "level"));
            Heard {
                id: n["nodeId"].as_str().unwrap_or_default().into(),
                parent: n["parentId"].as_str().unwrap_or_default().into(),
                ignored: n["ignored"] == json!(true),
                role: text(&n["role"]),
                name: text(&n["name"]),
                level: level.and_then(|l| l["value"]["value"].as_u64()),
            }
        };
        nodes.iter().map(of).collect()
    }

    /// A picture of the whole page.
    pub fn picture(&self, b: &mut Browser, to: &Path) {
        let shot = self.ask(b, "Page.captureScreenshot", &json!({ "format": "png", "captureBeyondViewport": true }));
        std::fs::write(to, STANDARD.decode(shot["data"].as_str().unwrap()).unwrap()).unwrap();
    }
}
