//! Typed reasons and cautions of `analysis` go into JSON as the text a person reads.

/// Serialises types as they are displayed.
macro_rules! serialize_as_text {
    ($($told:ty),+ $(,)?) => {$(
        impl serde::Serialize for $told {
            fn serialize<S: serde::Serializer>(&self, to: S) -> std::result::Result<S::Ok, S::Error> {
                to.collect_str(self)
            }
        }
    )+};
}

pub(crate) use serialize_as_text;

/// The words for each case of a type, wherever it is displayed.
macro_rules! in_words {
    ($of:ty { $($case:pat => $words:expr),+ $(,)? }) => {
        impl std::fmt::Display for $of {
            fn fmt(&self, out: &mut std::fmt::Formatter) -> std::fmt::Result {
                out.write_str(match self {
                    $($case => $words),+
                })
            }
        }
    };
}

pub(crate) use in_words;

serialize_as_text!(crate::statistics::StatisticsError);

/// What things say, a line each.
pub(crate) fn lines<T: ToString>(things: &[T]) -> Vec<String> {
    things.iter().map(ToString::to_string).collect()
}
