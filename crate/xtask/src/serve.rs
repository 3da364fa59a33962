//! Serves a folder to this computer alone.

use anyhow::{Context, Result, anyhow};
use std::fs;
use std::io::ErrorKind;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread;
use tiny_http::{Header, Method, Request, Response, Server};

/// A port, taken before the page is built, so that a person hears at once if it is not free.
pub(crate) struct Door {
    listener: TcpListener,
    address: SocketAddr,
}

impl Door {
    /// Takes a port of the loopback address; nothing outside this computer can reach it.
    pub(crate) fn at(port: u16) -> Result<Self> {
        let listener =
            TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| match error.kind() {
                ErrorKind::AddrInUse => anyhow!(
                    "Port {port} is taken, perhaps by a lab that is already open. Close that one, \
                     or choose another port: `cargo lab --port {}`.",
                    port.checked_add(1).unwrap_or(port - 1)
                ),
                ErrorKind::PermissionDenied => anyhow!(
                    "This computer keeps port {port} for its administrator. Choose one above \
                     1023: `cargo lab --port 8080`."
                ),
                _ => anyhow!("Port {port} cannot be used: {error}."),
            })?;
        let address = listener.local_addr()?;
        Ok(Self { listener, address })
    }

    /// What to type into a browser.
    pub(crate) fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Answers until the process ends.
    pub(crate) fn serve(self, folder: &Path) -> Result<()> {
        let folder = folder
            .canonicalize()
            .with_context(|| format!("{} is not there", folder.display()))?;
        let server = Server::from_listener(self.listener, None)
            .map_err(|error| anyhow!("the page cannot be served: {error}"))?;
        let server = Arc::new(server);
        // Browsers ask for several files at once.
        let hands: Vec<_> = (0..4)
            .map(|_| {
                let (server, folder) = (Arc::clone(&server), folder.clone());
                thread::spawn(move || {
                    while let Ok(request) = server.recv() {
                        answer(request, &folder);
                    }
                })
            })
            .collect();
        for hand in hands {
            hand.join()
                .map_err(|_| anyhow!("the server stopped by a fault of its own"))?;
        }
        Ok(())
    }
}

fn answer(request: Request, folder: &Path) {
    let reading = matches!(request.method(), Method::Get | Method::Head);
    let found = find(folder, request.url())
        .and_then(|path| Some((content_type(&path), fs::read(path).ok()?)));
    let (status, kind, body) = match found {
        _ if !reading => (405, "text/plain; charset=utf-8", b"Reading only".to_vec()),
        Some((kind, body)) => (200, kind, body),
        None => (404, "text/plain; charset=utf-8", b"Not here".to_vec()),
    };
    let mut response = Response::from_data(body).with_status_code(status);
    for (name, value) in [
        ("Content-Type", kind),
        // A rebuilt page must show at the next reload.
        ("Cache-Control", "no-cache"),
        ("X-Content-Type-Options", "nosniff"),
    ] {
        if let Ok(header) = Header::from_bytes(name, value) {
            response.add_header(header);
        }
    }
    // A browser that went away meanwhile is no fault.
    let _ = request.respond(response);
}

/// The file that an address names, if it lies in the folder.
fn find(folder: &Path, url: &str) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    let path = PathBuf::from(decoded(path)?);
    // `..`, a drive's letter or a second root would lead out of the folder.
    if !path
        .components()
        .all(|part| matches!(part, Component::Normal(_)))
    {
        return None;
    }
    let mut file = folder.join(path).canonicalize().ok()?;
    if file.is_dir() {
        file.push("index.html");
    }
    // So would a link inside it.
    (file.starts_with(folder) && file.is_file()).then_some(file)
}

/// Percent signs made bytes again, or nothing if they make no text.
fn decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'%' => hex(rest.next()?)? * 16 + hex(rest.next()?)?,
            other => other,
        });
    }
    String::from_utf8(bytes)
        .ok()
        .filter(|text| !text.contains(['\0', '\\']))
}

fn hex(digit: u8) -> Option<u8> {
    char::from(digit)
        .to_digit(16)
        .and_then(|value| u8::try_from(value).ok())
}

fn content_type(file: &Path) -> &'static str {
    match file.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("json" | "map") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("ttf") => "font/ttf",
        Some("otf") => "font/otf",
        Some("woff") => "font/woff",
        Some("woff2") => "font/woff2",
        Some("txt" | "md") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    fn folder(name: &str) -> PathBuf {
        let outer = crate::place::target().join(name);
        let _ = fs::remove_dir_all(&outer);
        let folder = outer.join("served");
        fs::create_dir_all(folder.join("inner")).unwrap();
        fs::write(outer.join("secret.txt"), "secret").unwrap();
        fs::write(folder.join("index.html"), "start").unwrap();
        fs::write(folder.join("inner").join("a b.wasm"), "module").unwrap();
        folder.canonicalize().unwrap()
    }

    #[test]
    fn addresses_name_files_of_the_folder_alone() {
        let folder = folder("serve-test-find");
        assert_eq!(find(&folder, "/"), Some(folder.join("index.html")));
        assert_eq!(
            find(&folder, "/inner/a%20b.wasm?v=1"),
            Some(folder.join("inner").join("a b.wasm"))
        );
        for outside in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/inner/../../secret.txt",
            "/..%2fsecret.txt",
            "/..%5csecret.txt",
            "//etc/passwd",
            "/%2fetc/passwd",
            "/%",
            "/%zz",
            "/%+1",
            "/%ff",
            "/a%00b",
            "no-slash",
            "/inner",
            "/missing",
        ] {
            assert_eq!(find(&folder, outside), None, "{outside}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_does_not_lead_out() {
        let folder = folder("serve-test-link");
        std::os::unix::fs::symlink(folder.join("../secret.txt"), folder.join("link")).unwrap();
        assert_eq!(find(&folder, "/link"), None);
    }

    #[test]
    fn answers_carry_type_and_cache_rule() {
        let folder = folder("serve-test-answers");
        let door = Door::at(0).unwrap();
        let address = door.address;
        thread::spawn(move || door.serve(&folder));
        let ask = |line: &str| {
            let mut stream = TcpStream::connect(address).unwrap();
            let request = format!("{line} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
            stream.write_all(request.as_bytes()).unwrap();
            let mut text = String::new();
            stream.read_to_string(&mut text).unwrap();
            text
        };
        let module = ask("GET /inner/a%20b.wasm");
        assert!(module.starts_with("HTTP/1.1 200"), "{module}");
        assert!(
            module.contains("Content-Type: application/wasm"),
            "{module}"
        );
        assert!(module.contains("Cache-Control: no-cache"), "{module}");
        assert!(module.ends_with("module"), "{module}");
        assert!(ask("GET /missing").starts_with("HTTP/1.1 404"));
        assert!(ask("POST /").starts_with("HTTP/1.1 405"));
        let head = ask("HEAD /");
        assert!(
            head.starts_with("HTTP/1.1 200") && !head.ends_with("start"),
            "{head}"
        );
    }

    #[test]
    fn a_taken_port_is_told_in_a_sentence() {
        let first = Door::at(0).unwrap();
        let port = first.address.port();
        let said = Door::at(port).err().unwrap().to_string();
        assert!(said.contains(&format!("Port {port} is taken")), "{said}");
        assert!(said.contains("cargo lab --port"), "{said}");
    }
}
