//! The devices that are paired.

use super::super::frame::Live;
use super::super::whole::{Around, put};
use super::super::words::say;
use crate::report::album::Album;
use maud::html;

/// A device that is paired.
#[derive(Clone, Debug)]
pub struct DeviceLine {
    /// By which it is revoked.
    pub mark: String,
    /// As it was called.
    pub name: String,
    /// The day it was paired.
    pub since: String,
    /// Whether it is the one that asks.
    pub is_this: bool,
}

/// The page on which devices are revoked.
pub fn devices(album: &Album, live: Live, devices: &[DeviceLine]) -> String {
    let main = html! {
        h1 { "Paired devices" }
        p { "Each of them sees everything" @if live.writes { " and can record" } ". Press Enter where podbook runs to pair another." }
        ul.list {
            @for of in devices {
                li {
                    p { strong { (say(&of.name)) } ", paired on " (say(&of.since)) @if of.is_this { ", this device" } }
                    form method="post" action="forget" {
                        input type="hidden" name="token" value=(live.token);
                        input type="hidden" name="device" value=(of.mark);
                        button { "Revoke " (say(&of.name)) }
                    }
                }
            }
        }
    };
    put(
        album,
        Around {
            is_part: false,
            ..Around::part("Record", Some(live))
        },
        "Paired devices",
        main,
    )
}
