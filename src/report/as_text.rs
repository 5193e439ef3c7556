//! Typed parts of an answer that `--json` shows as the words a person reads.

/// Serialises types as what their `Display` writes.
macro_rules! shown_as_text {
    ($($of:ty),+) => {
        $(impl serde::Serialize for $of {
            fn serialize<S: serde::Serializer>(&self, to: S) -> std::result::Result<S::Ok, S::Error> {
                to.collect_str(self)
            }
        })+
    };
}

/// What things say, a line each.
pub(crate) fn lines<T: ToString>(things: &[T]) -> Vec<String> {
    things.iter().map(ToString::to_string).collect()
}

pub(crate) use shown_as_text;
