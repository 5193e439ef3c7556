//! `podbook serve`: the registry in a browser, on this computer or on a phone in its network.

use crate::cli::request::{Outcome, Refusal, Request};
use clap::Args;

/// Show the registry in a browser, and record from a phone
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook serve --registry my-plants\n         \
    podbook serve --lan --registry my-plants\n\
    Open the link that is printed, on the device you want to use.\n\
    Without --lan only this computer can connect. With it the pages go over your network \
    as plain HTTP: use it at home only.")]
pub struct Serve {
    /// Port to listen on; 0 for any that is free
    #[arg(long, value_name = "N", default_value_t = 7240)]
    port: u16,
    /// Let other devices of your network connect
    #[arg(long)]
    lan: bool,
    /// Show the pages and record nothing
    #[arg(long)]
    read_only: bool,
    /// A name of this computer in your network, to be used in the link
    #[arg(long, value_name = "HOST")]
    name: Vec<String>,
}

#[cfg(feature = "serve")]
impl Serve {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        use crate::server::{Options, Stop, run};

        let folder = request.registry_folder()?;
        if let Some(name) = self.name.iter().find(|name| !is_host(name)) {
            return Err(Refusal::arguments(format!(
                "--name needs the name of a computer, such as greenhouse.home; found `{}`",
                crate::text::one_line(name)
            )));
        }
        let fixed_day = request.fixed_day()?;
        let stop = Stop::default();
        let ends = stop.clone();
        // Where no handler can be set, Ctrl-C ends the program all the same.
        let _ = ctrlc::set_handler(move || ends.end());
        links_on_enter(stop.clone());
        let options = Options {
            folder,
            port: self.port,
            lan: self.lan,
            names: self.name,
            writes: !self.read_only,
            today: crate::cli::request::local_day,
            now: crate::cli::request::local_now,
            fixed_day,
            tell: std::sync::Arc::new(say),
        };
        run(options, &stop).map_err(Refusal::files)?;
        Ok(Outcome::default())
    }
}

#[cfg(not(feature = "serve"))]
impl Serve {
    /// Refuses: what it needs was left out.
    pub fn run(self, _: &Request) -> Result<Outcome, Refusal> {
        let Serve {
            port,
            lan,
            read_only,
            name,
        } = self;
        let _ = (port, lan, read_only, name);
        Err(Refusal::arguments(
            "this podbook was built without `serve`\nbuild it with the feature `serve`, which is on by default",
        ))
    }
}

/// Asks for a new link for each line that comes in.
#[cfg(feature = "serve")]
fn links_on_enter(stop: crate::server::Stop) {
    std::thread::spawn(move || {
        for _ in std::io::stdin().lines().map_while(Result::ok) {
            stop.new_link();
        }
    });
}

/// Says something at once.
#[cfg(feature = "serve")]
fn say(words: &str) {
    use std::io::Write;

    let words = crate::text::Terminal::lines(words).to_string();
    let mut out = std::io::stdout().lock();
    // Who closed standard output does not want the words.
    let _ = out.write_all(words.as_bytes()).and_then(|()| out.flush());
}

/// Whether a word can be the name of a computer.
#[cfg(feature = "serve")]
fn is_host(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '.';
    !name.is_empty() && name.len() < 254 && name.chars().all(plain)
}
