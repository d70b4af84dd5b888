//! A browser of our own with its driver, which both end with the test.

use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::thread;
use std::time::{Duration, Instant};

/// How a browser is started.
#[derive(Clone)]
pub struct Setup {
    /// Width and height of the page's area, in CSS pixels, exactly.
    pub viewport: (u32, u32),
    /// Device pixels to a CSS pixel.
    pub scale: f64,
    /// A touch screen, and `pointer: coarse` in CSS.
    pub touch: bool,
    /// How many times slower than this machine; 1 is as it is.
    pub slower: f64,
    /// A folder with the browser's memory, kept afterwards; `None` is a fresh one that is removed.
    pub profile: Option<PathBuf>,
    /// The path to open below the site's address.
    pub path: String,
    /// More arguments for the browser, such as `--lang=de`.
    pub args: Vec<String>,
    /// Preferences of the browser, by their names.
    pub prefs: Value,
}

impl Default for Setup {
    fn default() -> Setup {
        Setup {
            viewport: (1280, 800),
            scale: 1.0,
            touch: false,
            slower: 1.0,
            profile: None,
            path: String::new(),
            args: Vec::new(),
            prefs: json!({}),
        }
    }
}

impl Setup {
    /// A telephone held upright.
    pub fn phone() -> Setup {
        Setup { viewport: (360, 740), scale: 2.0, touch: true, ..Setup::default() }
    }
}

/// A driver, its browser and the session between them.
pub struct Chrome {
    /// The session, for whatever has no helper.
    pub client: Client,
    driver: Child,
    profile: PathBuf,
    keep_profile: bool,
}

impl Chrome {
    /// Starts both, with the viewport and the speed of `setup`.
    pub async fn start(setup: &Setup) -> Chrome {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let fresh = || std::env::temp_dir().join(format!("backmark-browser-{}-{count}", std::process::id()));
        let keep_profile = setup.profile.is_some();
        let profile = setup.profile.clone().unwrap_or_else(fresh);
        fs::create_dir_all(&profile).unwrap();
        let (driver, port) = start_driver(&profile);
        let capabilities = capabilities(&profile, setup);
        let session = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities.as_object().unwrap().clone())
            .connect(&format!("http://127.0.0.1:{port}"))
            .await;
        let client = session.expect("the browser does not start");
        let chrome = Chrome { client, driver, profile, keep_profile };
        chrome.viewport(setup.viewport, setup.scale, setup.touch).await;
        chrome.slower(setup.slower).await;
        chrome
    }

    /// A command of the DevTools protocol.
    pub async fn cdp(&self, command: &str, params: Value) -> Value {
        let body = json!({ "cmd": command, "params": params });
        self.vendor("goog/cdp/execute", body).await
    }

    /// Sets the page's area exactly.
    pub async fn viewport(&self, (width, height): (u32, u32), scale: f64, touch: bool) {
        let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": scale, "mobile": touch });
        self.cdp("Emulation.setDeviceMetricsOverride", metrics).await;
        let points = json!({ "enabled": touch, "maxTouchPoints": if touch { 5 } else { 1 } });
        self.cdp("Emulation.setTouchEmulationEnabled", points).await;
    }

    /// Slows the page down that many times; 1 ends it.
    pub async fn slower(&self, rate: f64) {
        self.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": rate })).await;
    }

    /// New entries of the console since the last call, as level and message.
    pub async fn console(&self) -> Vec<(String, String)> {
        let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        let entries = self.log("browser").await;
        entries.iter().map(|entry| (text(&entry["level"]), text(&entry["message"]))).collect()
    }

    /// The addresses requested since the last call.
    pub async fn requests(&self) -> Vec<String> {
        let entries = self.log("performance").await;
        let messages = entries.iter().filter_map(|entry| {
            let message: Value = serde_json::from_str(entry["message"].as_str()?).ok()?;
            let message = &message["message"];
            (message["method"] == "Network.requestWillBeSent")
                .then(|| message["params"]["request"]["url"].as_str().unwrap_or_default().to_owned())
        });
        messages.collect()
    }

    /// Ends the browser as a crash or a power cut would: at once, with nothing saved in passing.
    pub fn kill_browser(&self) {
        let begun = Instant::now();
        loop {
            let left = processes_of(&self.profile);
            if left.is_empty() {
                return;
            }
            assert!(begun.elapsed() < Duration::from_secs(20), "the browser does not end: {left:?}");
            for id in left {
                kill(id);
            }
            thread::sleep(Duration::from_millis(20));
        }
    }

    /// Kills the browser and starts one that remembers what this one had saved.
    pub async fn restart(mut self, setup: &Setup) -> Chrome {
        self.kill_browser();
        let keep = std::mem::replace(&mut self.keep_profile, true);
        let again = Setup { profile: Some(self.profile.clone()), ..setup.clone() };
        drop(self);
        let mut chrome = Chrome::start(&again).await;
        chrome.keep_profile = keep;
        chrome
    }

    async fn log(&self, kind: &str) -> Vec<Value> {
        let entries = self.vendor("se/log", json!({ "type": kind })).await;
        entries.as_array().cloned().unwrap_or_default()
    }

    async fn vendor(&self, path: &'static str, body: Value) -> Value {
        self.client.issue_cmd(Vendor { path, body }).await.unwrap()
    }
}

impl Drop for Chrome {
    fn drop(&mut self) {
        let _ = self.driver.kill();
        let _ = self.driver.wait();
        if thread::panicking() {
            // A second panic would hide the first.
            processes_of(&self.profile).into_iter().for_each(kill);
        } else {
            self.kill_browser();
        }
        if !self.keep_profile {
            // Its helpers may still be writing while they end.
            for _ in 0..20 {
                if fs::remove_dir_all(&self.profile).is_ok() || !self.profile.exists() {
                    break;
                }
                thread::sleep(Duration::from_millis(50));
            }
        }
    }
}

/// A command beside the standard ones.
#[derive(Debug)]
struct Vendor {
    path: &'static str,
    body: Value,
}

impl WebDriverCompatibleCommand for Vendor {
    fn endpoint(&self, base: &url::Url, session: Option<&str>) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.body.to_string()))
    }
}

/// How often a driver is started that ends at once: it takes a free port for one protocol of the internet and then wants the
/// same one for the other, which somebody else may hold.
const STARTS: usize = 5;

fn start_driver(profile: &Path) -> (Child, u16) {
    (0..STARTS).find_map(|_| try_driver(profile)).expect("chromedriver ended at once, every time")
}

fn try_driver(profile: &Path) -> Option<(Child, u16)> {
    let program = xtask::system::chromedriver().expect(xtask::system::BROWSER_BY_HAND);
    let mut driver = Command::new(program)
        .arg("--port=0")
        // What a killed browser leaves behind goes with the profile.
        .env("TMPDIR", profile)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(driver.stdout.take().unwrap());
    let port = loop {
        let mut line = String::new();
        if lines.read_line(&mut line).unwrap() == 0 {
            let _ = driver.wait();
            return None;
        }
        // "ChromeDriver was started successfully on port 12345."
        let port = line.split("on port ").nth(1).and_then(|rest| rest.trim().trim_end_matches('.').parse().ok());
        if let Some(port) = port.filter(|port| *port != 0) {
            break port;
        }
    };
    // A full pipe would stop it.
    thread::spawn(move || lines.read_to_end(&mut Vec::new()));
    Some((driver, port))
}

fn capabilities(profile: &Path, setup: &Setup) -> Value {
    let mut args: Vec<String> = [
        "--headless",
        // Chromium refuses to run as root with its sandbox; the only page it sees is ours.
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ]
    .map(str::to_owned)
    .to_vec();
    args.push(profile_argument(profile));
    args.push(format!("--window-size={},{}", setup.viewport.0, setup.viewport.1));
    args.extend(setup.args.iter().cloned());
    let browser = xtask::system::chromium().expect(xtask::system::BROWSER_BY_HAND);
    json!({
        "goog:chromeOptions": { "binary": browser, "args": args, "prefs": setup.prefs },
        "goog:loggingPrefs": { "browser": "ALL", "performance": "ALL" },
    })
}

fn profile_argument(profile: &Path) -> String {
    format!("--user-data-dir={}", profile.display())
}

/// The processes that were started with exactly this profile.
fn processes_of(profile: &Path) -> Vec<u32> {
    let argument = profile_argument(profile);
    // Some of its processes part their arguments with spaces.
    let ours = |line: &str| line.split(['\0', ' ']).any(|word| word == argument);
    if let Ok(entries) = fs::read_dir("/proc") {
        let ids = entries.flatten().filter_map(|entry| entry.file_name().to_str()?.parse().ok());
        let line = |id: &u32| fs::read(format!("/proc/{id}/cmdline")).unwrap_or_default();
        return ids.filter(|id| ours(&String::from_utf8_lossy(&line(id)))).collect();
    }
    let list = Command::new("ps").args(["-axo", "pid=,command="]).output();
    let list = list.map(|output| output.stdout).unwrap_or_default();
    let list = String::from_utf8_lossy(&list);
    let lines = list.lines().filter_map(|line| line.trim().split_once(' '));
    lines.filter(|(_, line)| ours(line)).filter_map(|(id, _)| id.parse().ok()).collect()
}

fn kill(id: u32) {
    // Every shell has it built in; as a program of its own it may be missing.
    let line = format!("kill -KILL {id}");
    let _ = Command::new("sh").args(["-c", &line]).stderr(Stdio::null()).status();
}
