//! A command that is one event of the bench, and the words of the files that its options hold.

/// Declares such a command: its options, which bear the names of the event's fields, and the `run` that fills the event
/// with them; several options that are one field are a struct of their own. Fields in braces behind the event are no
/// options; those in brackets are taken from one list of words.
macro_rules! command {
    (
        $(#[$of:meta])*
        $command:ident => $event:ident $({ $($known:ident: $value:expr),* })?;
        $(($($part:ident),+) = $apart:ident($(#[$how_list:meta])* $list:ident);)?
        $($(#[$how:meta])* $field:ident: $type:ident $(<$within:ty>)?,)*
    ) => {
        /// What is typed with the command.
        #[derive(clap::Args, Debug)]
        $(#[$of])*
        pub struct $command {
            $($(#[$how_list])* $list: Vec<String>,)?
            $($(#[$how])* $field: $type $(<$within>)?,)*
            #[command(flatten)]
            recording: crate::cli::recording::Recording,
        }

        impl $command {
            /// Records the event.
            ///
            /// # Errors
            /// As [`crate::cli::request::Request::record`].
            pub fn run(
                self,
                request: &crate::cli::request::Request,
            ) -> Result<crate::cli::request::Outcome, crate::cli::request::Refusal> {
                $(let ($($part),+) = $apart(self.$list);)?
                let event = $event {
                    $($($part,)+)?
                    $($field: self.$field.into(),)*
                    $($($known: $value,)*)?
                    on: self.recording.on,
                };
                request.record(self.recording.dry_run, |draft| event.record(draft))
            }
        }
    };
}

/// Declares the words an option can hold, each with its help and the word of the files it stands for, which `parser()`
/// gives.
macro_rules! file_words {
    ($(#[$of:meta])* $name:ident { $($(#[$help:meta])* $word:ident = $in_file:literal,)* }) => {
        $(#[$of])*
        #[derive(clap::ValueEnum, Clone, Copy, Debug)]
        pub(super) enum $name {
            $($(#[$help])* $word,)*
        }

        impl $name {
            pub(super) fn parser() -> impl clap::builder::TypedValueParser<Value = &'static str> {
                use clap::builder::{EnumValueParser, TypedValueParser};
                let in_file = |word| match word { $($name::$word => $in_file,)* };
                EnumValueParser::<$name>::new().map(in_file)
            }
        }
    };
}

/// The last word of a list apart from those before it.
pub(super) fn with_last(mut words: Vec<String>) -> (Vec<String>, String) {
    let last = words.pop().unwrap_or_default();
    (words, last)
}

pub(super) use {command, file_words};
