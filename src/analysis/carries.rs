//! Why one answer fails may be that another did.

/// Lets `?` carry what failed into the error of the answer that asked for it.
macro_rules! carries {
    ($error:ident: $($from:ty => $case:ident),+ $(,)?) => {$(
        impl From<$from> for $error {
            fn from(error: $from) -> $error {
                $error::$case(error)
            }
        }
    )+};
}

pub(in crate::analysis) use carries;
