//! A display without a screen, the program on it, and hands to work it.
//!
//! Knows no farm: windows, keys, places on the screen, and what to keep when something is off.

use std::fs::{self, File};
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::Instant;

use super::{Duration, PATIENCE};

/// The program on a display of its own; both end with it.
pub(crate) struct Session {
    name: String,
    display: String,
    server: Child,
    program: Child,
    window: String,
    /// Settings, and what the program says.
    folder: tempfile::TempDir,
}

impl Session {
    /// Opens the window on a farm and waits until it shows it.
    pub(crate) fn open(name: &str, farm: &Path, environment: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (server, display) = display_without_screen();
        let said = File::create(folder.path().join("said")).unwrap();
        let program = Command::new(env!("CARGO_BIN_EXE_foldcourse"))
            .args(["--today", "2027-05-14"])
            .arg(farm)
            .env("DISPLAY", &display)
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("WAYLAND_SOCKET")
            .env("XDG_CONFIG_HOME", folder.path())
            .env("XDG_RUNTIME_DIR", folder.path())
            .envs(environment.iter().copied())
            .stdout(Stdio::null())
            .stderr(said)
            .spawn()
            .unwrap();
        let mut session = Self {
            name: name.to_owned(),
            display,
            server,
            program,
            window: String::new(),
            folder,
        };
        session.window = session.waited("no window came up", |session| {
            let found = session.tool(&["search", "--onlyvisible", "--name", "Foldcourse"]);
            found.lines().next().map(str::to_owned)
        });
        session.tool(&["windowfocus", "--sync", &session.window]);
        // The first frame fits the map; a click before it would fall on another scale.
        std::thread::sleep(Duration::from_secs(2));
        session
    }

    /// Presses a key.
    pub(crate) fn key(&self, key: &str) {
        self.tool(&["key", key]);
        std::thread::sleep(Duration::from_millis(300));
    }

    /// Moves the pointer.
    pub(crate) fn point_at(&self, (x, y): (i32, i32)) {
        self.tool(&["mousemove", &x.to_string(), &y.to_string()]);
        std::thread::sleep(Duration::from_millis(300));
    }

    /// Clicks a place on the screen.
    pub(crate) fn click(&self, place: (i32, i32)) {
        self.point_at(place);
        self.tool(&["click", "1"]);
        std::thread::sleep(Duration::from_millis(300));
    }

    /// Waits until the window's title begins so.
    pub(crate) fn wait_for_title(&mut self, beginning: &str, what: &str) {
        self.waited(&format!("not seen: {what}"), |session| {
            let title = session.tool(&["getwindowname", &session.window]);
            title.starts_with(beginning).then_some(())
        });
    }

    /// Waits until the program has ended, and well.
    pub(crate) fn wait_for_end(&mut self) {
        let began = Instant::now();
        let status: ExitStatus = loop {
            if let Some(status) = self.program.try_wait().unwrap() {
                break status;
            }
            if began.elapsed() > PATIENCE {
                self.fail("the window does not close");
            }
            std::thread::sleep(Duration::from_millis(100));
        };
        self.check(
            status.success(),
            &format!("the program ended with {status}"),
        );
    }

    /// Fails, with the screen kept, unless something holds.
    #[track_caller]
    pub(crate) fn check(&self, holds: bool, what: &str) {
        if !holds {
            self.fail(what);
        }
    }

    #[track_caller]
    fn fail(&self, what: &str) -> ! {
        let said = fs::read_to_string(self.folder.path().join("said")).unwrap_or_default();
        let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("smoke-{}.png", self.name));
        let screen = match self.keep_screen(&kept) {
            Ok(()) => format!("the screen is kept as {}", kept.display()),
            Err(error) => format!("the screen could not be kept: {error}"),
        };
        panic!("{what}; {screen}; the program said: {said:?}");
    }

    fn keep_screen(&self, path: &PathBuf) -> Result<(), String> {
        let done = Command::new("import")
            .args(["-display", &self.display, "-window", "root"])
            .arg(path)
            .status()
            .map_err(|error| format!("import (imagemagick): {error}"))?;
        done.success()
            .then_some(())
            .ok_or(format!("import: {done}"))
    }

    #[track_caller]
    fn waited<T>(&mut self, trouble: &str, mut look: impl FnMut(&Self) -> Option<T>) -> T {
        let began = Instant::now();
        loop {
            if let Some(found) = look(self) {
                return found;
            }
            if let Some(status) = self.program.try_wait().unwrap() {
                self.fail(&format!("{trouble}: the program ended with {status}"));
            }
            if began.elapsed() > PATIENCE {
                self.fail(trouble);
            }
            std::thread::sleep(Duration::from_millis(200));
        }
    }

    /// Lets `xdotool` do something; what it says.
    fn tool(&self, words: &[&str]) -> String {
        let output = Command::new("xdotool")
            .args(words)
            .env("DISPLAY", &self.display)
            .output()
            .unwrap_or_else(|error| panic!("missing tool: xdotool ({error})"));
        String::from_utf8_lossy(&output.stdout).trim().to_owned()
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        for child in [&mut self.program, &mut self.server] {
            // One that has ended already needs no ending.
            drop(child.kill());
            drop(child.wait());
        }
    }
}

/// Starts a display and gives its name.
fn display_without_screen() -> (Child, String) {
    assert!(
        Command::new("import").arg("-version").output().is_ok(),
        "missing tool: import (imagemagick)"
    );
    let mut server = Command::new("Xvfb")
        .args([
            "-displayfd",
            "1",
            "-screen",
            "0",
            "1440x900x24",
            "-nolisten",
            "tcp",
        ])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|error| panic!("missing tool: Xvfb ({error})"));
    let mut number = String::new();
    BufReader::new(server.stdout.take().unwrap())
        .read_line(&mut number)
        .unwrap();
    assert!(!number.trim().is_empty(), "Xvfb did not come up");
    let display = format!(":{}", number.trim());
    (server, display)
}
