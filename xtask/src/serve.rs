//! A small server for the built page, on this machine only.

use crate::Outcome;
use std::fs;
use std::io::{self, BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// Where `cargo xtask open` is found if nobody else is there.
pub const USUAL_PORT: u16 = 8137;

/// A running server. It serves until the process ends.
pub struct Server {
    port: u16,
    thread: JoinHandle<()>,
}

impl Server {
    /// Serves `folder` on that port; 0 is any free one. `asked` hears the path of every request.
    pub fn on_port(port: u16, folder: PathBuf, asked: impl Fn(&str) + Send + Sync + 'static) -> Outcome<Server> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .map_err(|error| format!("Port {port} of this machine is not to be had: {error}."))?;
        Server::on(listener, folder, asked)
    }

    /// The same on that port or, if it is taken, on a free one.
    pub fn near_port(port: u16, folder: PathBuf, asked: impl Fn(&str) + Send + Sync + 'static) -> Outcome<Server> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .or_else(|_| TcpListener::bind((Ipv4Addr::LOCALHOST, 0)))
            .map_err(|error| format!("No port of this machine is to be had: {error}."))?;
        Server::on(listener, folder, asked)
    }

    fn on(listener: TcpListener, folder: PathBuf, asked: impl Fn(&str) + Send + Sync + 'static) -> Outcome<Server> {
        let port = listener.local_addr().map_err(|error| format!("The server has no address: {error}."))?.port();
        let asked = Arc::new(asked);
        let thread = thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (folder, asked) = (folder.clone(), Arc::clone(&asked));
                // A browser that goes away in the middle is no concern of anybody's.
                thread::spawn(move || drop(answer(stream, &folder, &*asked)));
            }
        });
        Ok(Server { port, thread })
    }

    /// The address to give a browser.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    /// Serves until the process is ended from outside.
    pub fn wait(self) -> Outcome {
        self.thread.join().map_err(|_| "The server stopped.".to_owned())
    }
}

fn answer(mut stream: TcpStream, folder: &Path, asked: &(impl Fn(&str) + ?Sized)) -> io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(30)))?;
    let mut lines = BufReader::new(stream.try_clone()?);
    let mut first = String::new();
    lines.read_line(&mut first)?;
    loop {
        let mut header = String::new();
        if lines.read_line(&mut header)? <= 2 {
            break;
        }
    }
    let mut words = first.split(' ');
    let (method, target) = (words.next().unwrap_or_default(), words.next().unwrap_or("/"));
    let path = target.split(['?', '#']).next().unwrap_or("/");
    asked(path);
    let (status, kind, body) = match (method, inside(folder, path)) {
        ("GET" | "HEAD", Some(file)) => match fs::read(&file) {
            Ok(bytes) => ("200 OK", content_type(&file), bytes),
            Err(_) => ("404 Not Found", TEXT, b"There is no such file here.\n".to_vec()),
        },
        ("GET" | "HEAD", None) => ("403 Forbidden", TEXT, b"Only the page's own folder is served.\n".to_vec()),
        _ => ("405 Method Not Allowed", TEXT, b"The page is only read.\n".to_vec()),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-store\r\n\
         X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    if method != "HEAD" {
        stream.write_all(&body)?;
    }
    stream.flush()
}

/// The file a path of a request means, or `None` if it leads out of the folder.
fn inside(folder: &Path, path: &str) -> Option<PathBuf> {
    let path = decoded(path)?;
    let path = Path::new(path.trim_start_matches('/'));
    let plain = path.components().all(|part| matches!(part, Component::Normal(_)));
    let file = folder.join(path);
    plain.then(|| if file.is_dir() { file.join("index.html") } else { file })
}

fn decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next()?, rest.next()?];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok().filter(|path| !path.contains(['\0', '\\']))
}

const TEXT: &str = "text/plain; charset=utf-8";

fn content_type(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "woff" => "font/woff",
        "ttf" => "font/ttf",
        "otf" => "font/otf",
        "txt" | "md" => TEXT,
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_stays_inside_the_folder() {
        let folder = Path::new("/srv/page");
        assert_eq!(inside(folder, "/look.css"), Some(folder.join("look.css")));
        assert_eq!(inside(folder, "/a%20b.js"), Some(folder.join("a b.js")));
        for outside in
            ["/../secret", "/%2e%2e/secret", "/a/../../secret", "//etc/../../x", "/..%5csecret", "/%00", "/%zz"]
        {
            assert_eq!(inside(folder, outside), None, "{outside}");
        }
    }
}
