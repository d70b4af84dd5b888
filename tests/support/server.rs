//! The built page behind an address of its own, with a record of what was asked for.

use std::path::PathBuf;
use std::sync::{Arc, Mutex};
use xtask::serve::Server;

/// One server: its own port, and so its own origin and storage.
pub struct Site {
    server: Server,
    asked: Arc<Mutex<Vec<String>>>,
}

impl Site {
    /// Serves dist/, which has to be there.
    pub fn start() -> Site {
        let dist = xtask::dist();
        assert!(
            dist.join("index.html").is_file(),
            "There is no page in dist/: `cargo xtask build` makes one, `cargo xtask test` does that and all tests."
        );
        Site::of(dist)
    }

    /// Serves another folder.
    pub fn of(folder: PathBuf) -> Site {
        let asked = Arc::new(Mutex::new(Vec::new()));
        let record = Arc::clone(&asked);
        let server = Server::on_port(0, folder, move |path| record.lock().unwrap().push(path.to_owned()));
        Site { server: server.unwrap(), asked }
    }

    /// `http://127.0.0.1:PORT/`
    pub fn address(&self) -> String {
        self.server.address()
    }

    /// The paths asked for so far, in order, repeated ones included.
    pub fn asked(&self) -> Vec<String> {
        self.asked.lock().unwrap().clone()
    }

    /// Begins the record anew.
    pub fn forget(&self) {
        self.asked.lock().unwrap().clear();
    }
}
