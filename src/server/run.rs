//! The server from start to end: listens, counts who connects, answers, stops.

use super::connections::{Connections, Counted};
use super::guard::Line;
use super::house::{House, Options, Stop};
use super::routes::routes;
use super::said::Said;
use super::{desk, shelf};
use crate::text::{system_words, takes_files};
use axum::{Extension, Router};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use qrcode::QrCode;
use qrcode::render::unicode::Dense1x2;
use std::io;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::sync::Arc;
use std::sync::mpsc::{Sender, channel, sync_channel};
use std::thread;
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::time::{sleep, timeout};

/// How long the head of a request may take.
const HEAD: Duration = Duration::from_secs(3);
/// How long a connection lives; whoever asks again makes a new one.
const LIVES: Duration = Duration::from_secs(90);
/// How long pictures on their way are waited for at the end.
const ENDS: Duration = Duration::from_secs(2);
/// How long entries that have arrived are waited for at the end.
const RECORDS: Duration = Duration::from_secs(10);
/// Requests that wait for one of the two threads.
const WAITING: usize = 256;

/// Serves until it is stopped; the entries that have arrived are recorded before it ends.
///
/// # Errors
/// If the port cannot be had, or the system refuses, in words.
pub fn run(options: Options, stop: &Stop) -> Result<(), String> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_io()
        .enable_time()
        .max_blocking_threads(4)
        .build()
        .map_err(|why| system_words(&why))?;
    let tell = options.tell.clone();
    let (records, recorded) = channel();
    let served = runtime.block_on(serve(options, stop, records));
    runtime.shutdown_timeout(ENDS);
    // Nothing is ever sent: the channel closes when the thread that records has ended.
    let _ = recorded.recv_timeout(RECORDS);
    served?;
    tell("Stopped.\n");
    Ok(())
}

async fn serve(options: Options, stop: &Stop, records: Sender<()>) -> Result<(), String> {
    let on = match options.lan {
        true => Ipv4Addr::UNSPECIFIED,
        false => Ipv4Addr::LOCALHOST,
    };
    let asked = options.port;
    let refused = |why: io::Error| match why.kind() {
        io::ErrorKind::AddrInUse => {
            format!("port {asked} is in use\nname another with --port, or 0 for any that is free")
        }
        _ => format!("port {asked} cannot be listened on: {}", system_words(&why)),
    };
    let listener = TcpListener::bind((on, asked)).await.map_err(refused)?;
    let port = listener.local_addr().map_err(refused)?.port();
    let house = Arc::new(house(options, port, records));
    say_open(&house);
    say_link(&house);
    let connections = Connections::default();
    let routes = routes(house.clone());
    loop {
        tokio::select! {
            () = stop.ends.notified() => break,
            () = stop.asks_link.notified() => say_link(&house),
            accepted = listener.accept() => match accepted {
                Ok((stream, from)) => greet(stream, from, &connections, &routes),
                // Too many files are open: those that are will be closed.
                Err(_) => sleep(Duration::from_millis(50)).await,
            },
        }
    }
    Ok(())
}

/// Starts the two threads; the one that records holds `records` until it ends.
fn house(options: Options, port: u16, records: Sender<()>) -> House {
    let (to_shelf, asks) = sync_channel(WAITING);
    let (to_desk, tasks) = sync_channel(WAITING);
    let (today, fixed) = (options.today, options.fixed_day);
    let day = move || fixed.unwrap_or_else(today);
    let said = Arc::new(Said::new(options.tell.clone()));
    let (folder, of_shelf) = (options.folder.clone(), said.clone());
    thread::spawn(move || shelf::keep(folder, day, &of_shelf, &asks));
    let folder = options.folder.clone();
    thread::spawn(move || {
        let _records = records;
        desk::work(folder, day, said, &tasks);
    });
    House::new(options, port, (to_shelf, to_desk))
}

fn greet(stream: TcpStream, from: SocketAddr, connections: &Connections, routes: &Router) {
    let (Ok(local), Some(counted)) = (stream.local_addr(), connections.count(from.ip())) else {
        return;
    };
    // Answers are small: they need not wait for more.
    let _ = stream.set_nodelay(true);
    let line = Line {
        local,
        is_known: counted.is_known.clone(),
    };
    let routes = routes.clone().layer(Extension(line));
    tokio::spawn(answer(stream, counted, routes));
}

/// Answers what comes over one connection, for a while.
async fn answer(stream: TcpStream, counted: Counted, routes: Router) {
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD)
        .auto_date_header(false)
        .max_buf_size(64 << 10)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(routes));
    tokio::select! {
        _ = timeout(LIVES, connection) => {}
        () = counted.cut.notified() => {}
    }
}

/// What is open to whom.
fn say_open(house: &House) {
    let (options, port) = (&house.options, house.port);
    let may = if options.writes {
        "see and record"
    } else {
        "see"
    };
    (options.tell)(&match options.lan {
        false => format!(
            "Listening on http://127.0.0.1:{port}/ for this computer only. Devices you pair may {may}; all others see only the page to pair.\n"
        ),
        true => format!(
            "Listening on port {port} for this computer and its network. Devices you pair may {may}; all others see only the page to pair. \
             This is plain HTTP: someone who listens in the network can read all of it and copy the key of a paired device. Use it at home only.\n"
        ),
    });
}

/// A link to pair one device with; where the registry's folder takes no list of devices, that none can be paired.
fn say_link(house: &House) {
    if let Err(words) = takes_files(&house.options.folder) {
        return (house.options.tell)(&format!(
            "No device can be paired now: the list of devices cannot be written into the registry's folder ({words}). \
             Devices paired before may see the registry.\nPress Enter to try again, Ctrl-C to stop.\n"
        ));
    }
    let named = house.options.names.first().cloned();
    let in_network = || address().filter(|_| house.options.lan);
    let reached = named.or_else(|| in_network().map(|address| address.to_string()));
    let is_alone = house.options.lan && reached.is_none();
    let host = reached.unwrap_or_else(|| Ipv4Addr::LOCALHOST.to_string());
    let secret = match house.devices().new_secret() {
        Ok(secret) => secret,
        Err(why) => return (house.options.tell)(&format!("No link can be made: {why}\n")),
    };
    let link = format!("http://{host}:{}/pair?secret={secret}", house.port);
    if is_alone {
        return (house.options.tell)(&format!(
            "No network was found, so no other device can connect: connect this computer to one, then press Enter; Ctrl-C to stop.\n\
             To pair this computer alone, open this link on it within 10 minutes; it works once: {link}\n"
        ));
    }
    let picture = match house.options.lan {
        true => drawn(&link),
        false => String::new(),
    };
    (house.options.tell)(&format!(
        "{picture}To pair a device, open this link on it within 10 minutes; it works once: {link}\n\
         Press Enter for a new link, Ctrl-C to stop.\n"
    ));
}

/// A QR code of blocks, light on a dark terminal as well.
fn drawn(link: &str) -> String {
    let Ok(code) = QrCode::new(link) else {
        return String::new();
    };
    let blocks = code
        .render::<Dense1x2>()
        .dark_color(Dense1x2::Light)
        .light_color(Dense1x2::Dark)
        .build();
    blocks + "\n"
}

/// The address of this computer in its network: the one it would send from. Nothing is sent.
fn address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    // An address for documentation (RFC 5737), which no one has.
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    Some(socket.local_addr().ok()?.ip()).filter(|of| !of.is_unspecified())
}
