//! What a first visit loads, and the limit it is held to.
//!
//! A file counts if its name stands in a text file that counts, from index.html on. So a data file which only the
//! running program asks for is not counted here; the browser test compares this list with what was really asked for.
//! What is left over is listed below the sum: the later parts of the program, and the worker's.

use crate::Outcome;
use std::fs;
use std::io::Write;
use std::path::Path;

/// 200 KB after brotli, for everything a first visit loads.
pub const LIMIT: usize = 204_800;

/// A file of the page with its sizes in bytes.
pub struct Loaded {
    /// The path below dist/, with slashes.
    pub name: String,
    /// As it is.
    pub raw: usize,
    /// With gzip at its best.
    pub gzip: usize,
    /// With brotli at its best.
    pub brotli: usize,
}

/// Prints every file and the sum, then what is fetched later; fails over the limit.
pub fn report(dist: &Path) -> Outcome {
    let files = first_visit(dist)?;
    print!("{}", table(&files));
    println!("fetched later, when it is needed:");
    for file in later(dist, &files)? {
        print!("{}", row(file.raw, file.gzip, file.brotli, &file.name));
    }
    held(&files)
}

/// Fails if the files are over the limit together.
pub fn held(files: &[Loaded]) -> Outcome {
    let total: usize = files.iter().map(|file| file.brotli).sum();
    if total <= LIMIT {
        Ok(())
    } else {
        Err(format!("A first visit loads {total} bytes, which is over the limit of {LIMIT}."))
    }
}

/// The files as a table with their sum.
pub fn table(files: &[Loaded]) -> String {
    let mut text = format!("{:>9} {:>9} {:>9}\n", "raw", "gzip", "brotli");
    for file in files {
        text += &row(file.raw, file.gzip, file.brotli, &file.name);
    }
    let sum = |size: fn(&Loaded) -> usize| files.iter().map(size).sum::<usize>();
    let total = sum(|file| file.brotli);
    text += &row(
        sum(|file| file.raw),
        sum(|file| file.gzip),
        total,
        &format!("in all; {} bytes are left of {LIMIT}", LIMIT as i64 - total as i64),
    );
    text
}

fn row(raw: usize, gzip: usize, brotli: usize, name: &str) -> String {
    format!("{raw:>9} {gzip:>9} {brotli:>9}  {name}\n")
}

/// Programs and scripts that a first visit doesn't load, measured.
pub fn later(dist: &Path, first: &[Loaded]) -> Outcome<Vec<Loaded>> {
    let mut files = Vec::new();
    for name in every_file(dist, "")? {
        let counted = first.iter().any(|file| file.name == name);
        if !counted && [".wasm", ".js"].iter().any(|ending| name.ends_with(ending)) {
            let path = dist.join(&name);
            let bytes = fs::read(&path).map_err(|error| format!("{}: {error}.", path.display()))?;
            files.push(measure(name, &bytes)?);
        }
    }
    Ok(files)
}

/// The files of a first visit, measured.
pub fn first_visit(dist: &Path) -> Outcome<Vec<Loaded>> {
    let mut waiting = every_file(dist, "")?;
    if !waiting.iter().any(|name| name == START) {
        return Err(format!("{} holds no page yet: `cargo xtask build` makes it.", dist.display()));
    }
    let mut names = vec![START.to_owned()];
    waiting.retain(|name| name != START);
    let mut files = Vec::new();
    while let Some(name) = names.pop() {
        let path = dist.join(&name);
        let bytes = fs::read(&path).map_err(|error| format!("{}: {error}.", path.display()))?;
        if [".html", ".js", ".css"].iter().any(|ending| name.ends_with(ending)) {
            let text = String::from_utf8_lossy(&bytes);
            let (found, rest) = waiting.into_iter().partition(|name| text.contains(base(name)));
            waiting = rest;
            names.extend::<Vec<String>>(found);
        }
        files.push(measure(name, &bytes)?);
    }
    files.sort_by(|a, b| b.brotli.cmp(&a.brotli).then_with(|| a.name.cmp(&b.name)));
    Ok(files)
}

const START: &str = "index.html";

fn base(name: &str) -> &str {
    name.rsplit('/').next().unwrap_or(name)
}

fn every_file(folder: &Path, prefix: &str) -> Outcome<Vec<String>> {
    let told = |error: std::io::Error| format!("{}: {error}. `cargo xtask build` makes the page.", folder.display());
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(told)? {
        let entry = entry.map_err(told)?;
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            names.extend(every_file(&entry.path(), &format!("{name}/"))?);
        } else {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}

/// One file's sizes.
pub fn measure(name: String, bytes: &[u8]) -> Outcome<Loaded> {
    let told = |error: std::io::Error| format!("{name} could not be compressed: {error}.");
    let mut gzip = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    gzip.write_all(bytes).map_err(told)?;
    let gzip = gzip.finish().map_err(told)?.len();
    let mut brotli = Vec::new();
    let best =
        brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 22, size_hint: bytes.len(), ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut brotli, &best).map_err(told)?;
    Ok(Loaded { raw: bytes.len(), gzip, brotli: brotli.len(), name })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_the_page_names_is_counted() {
        let folder = std::env::temp_dir().join(format!("backmark-size-{}", std::process::id()));
        fs::create_dir_all(folder.join("type")).unwrap();
        let put = |name: &str, text: &str| fs::write(folder.join(name), text).unwrap();
        put("index.html", "<link href=\"./look.css\">");
        put("look.css", "@font-face { src: url('type/serif.woff2') }");
        put("type/serif.woff2", "letters");
        put("later.json", "{}");
        put("later.wasm", "program");
        let files = first_visit(&folder).unwrap();
        let later: Vec<String> = later(&folder, &files).unwrap().into_iter().map(|file| file.name).collect();
        fs::remove_dir_all(&folder).unwrap();
        let mut names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
        names.sort_unstable();
        assert_eq!(names, ["index.html", "look.css", "type/serif.woff2"]);
        assert_eq!(later, ["later.wasm"]);
        assert!(held(&files).is_ok());
    }

    #[test]
    fn a_folder_without_a_page_says_what_to_do() {
        let message = first_visit(Path::new("/no such folder")).err().unwrap();
        assert!(message.contains("cargo xtask build"), "{message}");
    }
}
