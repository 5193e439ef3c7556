//! How values are taken: as they were typed.

use clap::Command;
use clap::builder::ValueParser;
use std::any::TypeId;

/// A command whose values are taken as typed, those of its own commands too as far as they are made ready.
pub fn as_typed(command: Command) -> Command {
    with_words_in_one_line(with_negative_numbers(command))
}

/// Lets `-3` be a value of every option. The message then says what is wrong with the value, not that `-3` is no option.
fn with_negative_numbers(command: Command) -> Command {
    let command = command.mut_args(|arg| {
        let takes_values = arg.get_action().takes_values();
        arg.allow_negative_numbers(takes_values)
    });
    command.mut_subcommands(with_negative_numbers)
}

/// Lets no word of an option be empty, as that of a variable of the shell that is not set, and no word carry a line break into
/// a message, where it would pass for a line of ours. Labels and epithets are read
/// letter by letter, and paths are made safe where they are printed.
fn with_words_in_one_line(command: Command) -> Command {
    let command = command.mut_args(|arg| {
        let is_words = arg.get_value_parser().type_id() == TypeId::of::<String>();
        let names = arg.get_value_names().unwrap_or_default();
        if !is_words || names.iter().any(|name| name == "LABEL" || name == "NAME") {
            return arg;
        }
        let is_option = !arg.is_positional();
        let in_one_line = move |words: &str| match is_option && words.trim().is_empty() {
            true => Err("it is empty"),
            false => Ok(words.replace('\n', "␊")),
        };
        arg.value_parser(ValueParser::from(in_one_line))
    });
    command.mut_subcommands(with_words_in_one_line)
}
