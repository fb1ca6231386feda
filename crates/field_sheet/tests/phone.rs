//! A phone for the tests: a browser of its own, the sheet opened from a file, the network off.

use document::paper::Paper;
use headless_chrome::protocol::cdp::{Browser as Down, Emulation, Network, Page};
use headless_chrome::{Browser, LaunchOptions, Tab};
use intake::entry::{TypedRow, enter};
use jiff::{SignedDuration, Timestamp};
use programme::start::start;
use record::by::By;
use record::store::Store;
use serde_json::{Value, json};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A small programme whose trip is today: the browser's clock is the machine's.
pub struct Programme {
    pub store: Store,
    pub trip: String,
    /// When the sheet is taken in.
    pub tomorrow: String,
    _folder: TempDir,
}

pub fn row(table: &str, cells: &[(&str, &str)]) -> TypedRow {
    cells.iter().fold(TypedRow::of(table), |r, (c, v)| r.with(c, *v))
}

pub fn programme() -> Programme {
    let folder = tempfile::tempdir().unwrap();
    let mut store =
        start(folder.path().join("levels.sqlite").to_str().unwrap(), "Marit Osk", "2026-01-01T00:00:00Z").unwrap();
    let today = Timestamp::now();
    let day = today.strftime("%Y-%m-%d").to_string();
    let rows = [
        row("site", &[("name", "Sallow Levels"), ("invented", "1")]),
        row("person", &[("name", "Marit Osk")]),
        row("person", &[("name", "Tobin Rell")]),
        row(
            "well",
            &[("name", "SL-2"), ("site", "Sallow Levels"), ("description", "Steel sampling well with a cabinet")],
        ),
        row("well", &[("name", "SL-3"), ("site", "Sallow Levels"), ("flow_note", "flows always")]),
        row(
            "well_section",
            &[
                ("well", "SL-2"),
                ("from_m", "0"),
                ("to_m", "56"),
                ("radius_m", "0.0525"),
                ("kind", "casing"),
                ("material", "stainless steel"),
            ],
        ),
        row(
            "well_section",
            &[
                ("well", "SL-2"),
                ("from_m", "56"),
                ("to_m", "62"),
                ("radius_m", "0.04"),
                ("kind", "screen"),
                ("material", "plastic"),
            ],
        ),
        row("lot", &[("name", "14"), ("volume_mL", "250")]),
        row("acid", &[("name", "HN-88"), ("kind", "nitric acid")]),
        row("filter", &[("name", "F-3"), ("pore_um", "0.45")]),
        row("trip", &[("name", "SL-today"), ("starts", &day), ("question", "Is lead at SL-2 still near 1 ng/L?")]),
        row("bottle", &[("label", "TB-1"), ("kind", "trip-blank"), ("trip", "SL-today"), ("lot", "14")]),
        row("bottle", &[("label", "A-1"), ("kind", "sample"), ("trip", "SL-today"), ("well", "SL-2"), ("lot", "14")]),
        row(
            "bottle",
            &[
                ("label", "A-2"),
                ("kind", "duplicate"),
                ("trip", "SL-today"),
                ("well", "SL-2"),
                ("lot", "14"),
                ("parent", "A-1"),
            ],
        ),
        row(
            "bottle",
            &[
                ("label", "SL3-filtered-26-07"),
                ("kind", "sample"),
                ("trip", "SL-today"),
                ("well", "SL-3"),
                ("lot", "14"),
                ("fraction", "0.45 um"),
                ("filter", "F-3"),
            ],
        ),
    ];
    enter(&mut store, By { person: "Marit Osk", at: "2026-01-01T00:00:00Z" }, "", &rows).unwrap();
    let tomorrow = (today + SignedDuration::from_hours(24)).to_string();
    Programme { store, trip: "SL-today".into(), tomorrow, _folder: folder }
}

/// The sheet of the small programme.
pub fn sheet(p: &Programme) -> String {
    field_sheet::html(&field_sheet::gather(&p.store, &p.trip, "levels").unwrap())
}

/// Script that sets the page's clock so many days off.
pub fn clock_of(days: i64) -> String {
    format!("globalThis.ahead = {days} * 86400000; {CLOCK}")
}

/// A clock that the test can move: `globalThis.ahead`, in ms.
const CLOCK: &str = "{ const Real = Date; globalThis.Date = class extends Real {
    constructor(...a) { if (a.length) super(...a); else super(Real.now() + (globalThis.ahead || 0)); }
    static now() { return Real.now() + (globalThis.ahead || 0); } }; }";

/// Of the browser: it shows the camera a moving picture of its own, and asks nobody whether it may.
const FLAGS: [&str; 4] = [
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--use-fake-device-for-media-stream",
    "--use-fake-ui-for-media-stream",
];

/// How long a page may take to come to what is expected.
const PATIENCE: Duration = Duration::from_secs(20);

pub struct Phone {
    tab: Arc<Tab>,
    _browser: Browser,
    folder: TempDir,
    pictures: PathBuf,
    name: String,
}

impl Phone {
    pub fn open(page: &str, name: &str) -> Self {
        Self::open_with(page, name, Some(CLOCK))
    }

    pub fn open_with(page: &str, name: &str, before: Option<&str>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("field-sheet.html");
        std::fs::write(&file, page).unwrap();
        // Two hours ahead of UTC: offsets must come home right.
        let zone =
            [("TZ".to_string(), "Etc/GMT-2".to_string()), ("HOME".to_string(), folder.path().display().to_string())];
        let options = LaunchOptions::default_builder()
            .path(Some(PathBuf::from("chromium")).map(|p| on_path(&p)))
            .sandbox(false)
            .user_data_dir(Some(folder.path().join("profile")))
            .window_size(Some((412, 915)))
            .process_envs(Some(zone.into_iter().collect()))
            .args(FLAGS.map(OsStr::new).to_vec())
            .idle_browser_timeout(Duration::from_mins(2))
            .build()
            .unwrap();
        let browser = Browser::new(options).unwrap();
        let tab = browser.new_tab().unwrap();
        tab.set_default_timeout(PATIENCE);
        let off = Network::EmulateNetworkConditions {
            offline: true,
            latency: 0.0,
            download_throughput: 0.0,
            upload_throughput: 0.0,
            connection_Type: None,
            packet_loss: None,
            packet_queue_length: None,
            packet_reordering: None,
        };
        tab.call_method(off).unwrap();
        if let Some(source) = before {
            let script = Page::AddScriptToEvaluateOnNewDocument {
                source: source.into(),
                world_name: None,
                include_command_line_api: None,
                run_immediately: None,
            };
            tab.call_method(script).unwrap();
        }
        let pictures = Path::new(env!("CARGO_TARGET_TMPDIR")).join("field-sheet");
        std::fs::create_dir_all(&pictures).unwrap();
        tab.navigate_to(&format!("file://{}", file.display())).unwrap().wait_until_navigated().unwrap();
        let phone = Self { tab, _browser: browser, folder, pictures, name: name.into() };
        phone.width(412);
        phone.wait("!!document.getElementById('main')");
        phone
    }

    pub fn width(&self, px: u32) {
        self.size(px, 800);
    }

    /// As a phone whose system sets the colours (`forced-colors`) or asks for something else.
    pub fn media(&self, feature: &str, value: &str) {
        let features = vec![Emulation::MediaFeature { name: feature.into(), value: value.into() }];
        self.tab.call_method(Emulation::SetEmulatedMedia { media: None, features: Some(features) }).unwrap();
    }

    /// Runs a script that answers later.
    pub fn later(&self, expression: &str) -> Value {
        let text = self.tab.evaluate(&format!("({expression}).then((x) => JSON.stringify(x))"), true).unwrap().value;
        text.and_then(|t| serde_json::from_str(t.as_str()?).ok()).unwrap_or(Value::Null)
    }

    /// Opens a place of the sheet with everything on it unfolded.
    pub fn place(&self, hash: &str) {
        self.json(&format!("(location.hash = {}, true)", json!(hash)));
        self.settle();
        self.json("(document.querySelectorAll('details').forEach((d) => { d.open = true; }), true)");
        self.settle();
    }

    /// Whether the middle of a target is in view, between what stands at the foot and the top.
    pub fn in_view(&self, selector: &str) -> bool {
        let there = self.json(&format!(
            "(() => {{ const r = document.querySelector({}).getBoundingClientRect(), y = r.y + r.height / 2;
               return y > 0 && y < document.querySelector('footer').getBoundingClientRect().top; }})()",
            json!(selector)
        ));
        there == Value::Bool(true)
    }

    fn size(&self, px: u32, height: u32) {
        self.tab
            .call_method(Emulation::SetDeviceMetricsOverride {
                width: px,
                height,
                device_scale_factor: 1.0,
                mobile: true,
                scale: None,
                screen_width: None,
                screen_height: None,
                position_x: None,
                position_y: None,
                dont_set_visible_size: None,
                screen_orientation: None,
                viewport: None,
                display_feature: None,
                device_posture: None,
            })
            .unwrap();
    }

    /// The value of an expression.
    pub fn json(&self, expression: &str) -> Value {
        let text = self.tab.evaluate(&format!("JSON.stringify({expression})"), false).unwrap().value;
        match text {
            Some(Value::String(t)) => serde_json::from_str(&t).unwrap(),
            _ => Value::Null,
        }
    }

    pub fn wait(&self, condition: &str) {
        let start = Instant::now();
        while self.json(condition) != Value::Bool(true) {
            assert!(start.elapsed() < PATIENCE, "never came: {condition}");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Lets the page draw what a change of its address brings.
    pub fn settle(&self) {
        self.tab.evaluate("new Promise((done) => setTimeout(() => requestAnimationFrame(done), 60))", true).unwrap();
    }

    pub fn count(&self, selector: &str) -> u64 {
        self.json(&format!("document.querySelectorAll({}).length", json!(selector))).as_u64().unwrap()
    }

    pub fn text(&self, selector: &str) -> String {
        self.json(&format!("document.querySelector({})?.innerText ?? ''", json!(selector)))
            .as_str()
            .unwrap()
            .to_string()
    }

    pub fn entries(&self) -> usize {
        self.json("keep.state.entries.length").as_u64().unwrap() as usize
    }

    /// A tap in the middle of what is really on top there.
    pub fn tap(&self, selector: &str) {
        self.wait(&format!("!!document.querySelector({})", json!(selector)));
        let at = self.json(&format!(
            "(() => {{ const e = document.querySelector({}); e.scrollIntoView({{block: 'center'}}); const r = e.getBoundingClientRect();
               const x = r.x + r.width / 2, y = r.y + r.height / 2; return [x, y, e.contains(document.elementFromPoint(x, y))]; }})()",
            json!(selector)
        ));
        assert_eq!(at[2], true, "{selector} is covered at {at}");
        let point =
            headless_chrome::browser::tab::point::Point { x: at[0].as_f64().unwrap(), y: at[1].as_f64().unwrap() };
        self.tab.click_point(point).unwrap();
        self.settle();
    }

    /// Types over what stands in an input.
    pub fn write(&self, selector: &str, text: &str) {
        self.tap(selector);
        self.json(&format!("(document.querySelector({}).select(), true)", json!(selector)));
        self.tab.type_str(text).unwrap();
    }

    pub fn open_details(&self, words: &str) {
        self.json(&format!(
            "([...document.querySelectorAll('details')].find((d) => d.innerText.includes({})).open = true)",
            json!(words)
        ));
    }

    /// The page's clock so many minutes ahead.
    pub fn ahead(&self, minutes: u32) {
        self.json(&format!("(globalThis.ahead = {minutes} * 60000)"));
    }

    pub fn reload(&self) {
        self.tab.reload(false, None).unwrap();
        self.tab.wait_until_navigated().unwrap();
        self.wait("!!document.getElementById('main')");
    }

    pub fn choose(&self, selector: &str, file: &Path) {
        self.tab.find_element(selector).unwrap().set_input_files(&[file.to_str().unwrap()]).unwrap();
    }

    /// Taps a button that saves a file, and waits for the file.
    pub fn save(&self, selector: &str) -> PathBuf {
        let to = self.folder.path().join("saved");
        std::fs::create_dir_all(&to).unwrap();
        self.tab
            .call_method(Down::SetDownloadBehavior {
                behavior: Down::SetDownloadBehaviorBehaviorOption::Allow,
                browser_context_id: None,
                download_path: Some(to.display().to_string()),
                events_enabled: None,
            })
            .unwrap();
        self.tap(selector);
        let start = Instant::now();
        loop {
            let found = std::fs::read_dir(&to).unwrap().filter_map(Result::ok).map(|e| e.path());
            if let Some(path) = found.into_iter().find(|p| p.extension().is_some_and(|e| e == "json")) {
                return path;
            }
            assert!(start.elapsed() < PATIENCE, "no file was saved");
            std::thread::sleep(Duration::from_millis(30));
        }
    }

    /// What the page asked for beside itself.
    pub fn requests(&self) -> Vec<String> {
        let names = "performance.getEntriesByType('resource').map((r) => r.name).filter((n) => !n.startsWith('data:') && !n.startsWith('blob:'))";
        serde_json::from_value(self.json(names)).unwrap()
    }

    /// A picture of the whole place, for a look.
    pub fn shoot(&self, place: &str) {
        let size = |of: &str| self.json(of).as_u64().unwrap() as u32;
        let (width, height) = (size("innerWidth"), size("document.documentElement.scrollHeight").min(6000));
        self.size(width, height);
        self.settle();
        let png = self.tab.capture_screenshot(Page::CaptureScreenshotFormatOption::Png, None, None, true).unwrap();
        self.width(width);
        std::fs::write(self.pictures.join(format!("{}-{place}.png", self.name)), png).unwrap();
    }
}

fn on_path(program: &Path) -> PathBuf {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).map(|d| d.join(program)).find(|p| p.is_file()).unwrap_or_else(|| program.to_path_buf())
}

/// Sets a paper as PDF and its pages as pictures `page-N.png`; answers the folder and their number.
pub fn print(paper: Paper, name: &str, dots_per_inch: u32) -> (TempDir, usize) {
    let folder = tempfile::tempdir().unwrap();
    let pdf = folder.path().join("out.pdf");
    std::fs::write(&pdf, paper.pdf().unwrap()).unwrap();
    let pages = folder.path().join("page");
    let dots = dots_per_inch.to_string();
    let done =
        std::process::Command::new("pdftoppm").args(["-png", "-r", &dots]).arg(&pdf).arg(&pages).status().unwrap();
    assert!(done.success());
    let pictures = Path::new(env!("CARGO_TARGET_TMPDIR")).join("field-sheet");
    std::fs::create_dir_all(&pictures).unwrap();
    let mut count = 0;
    for page in std::fs::read_dir(folder.path()).unwrap().filter_map(Result::ok).map(|e| e.path()) {
        if page.extension().is_some_and(|e| e == "png") {
            count += 1;
            let to = format!("{name}-{}", page.file_name().unwrap().to_string_lossy());
            std::fs::copy(&page, pictures.join(to)).unwrap();
        }
    }
    (folder, count)
}
