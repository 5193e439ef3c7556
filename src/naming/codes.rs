//! Lists of codes, each with what it means.

/// Declares an enum whose members carry a code and what it means.
macro_rules! codes {
    ($(#[$about:meta])* $name:ident { $($member:ident $code:literal $meaning:literal,)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $(#[doc = $meaning] $member,)* }

        impl $name {
            /// Every code.
            pub const ALL: &[Self] = &[$(Self::$member,)*];

            /// The code as written in output; it stays the same from version to version.
            pub fn code(self) -> &'static str {
                match self { $(Self::$member => $code,)* }
            }

            /// What the code means, in one line.
            pub fn meaning(self) -> &'static str {
                match self { $(Self::$member => $meaning,)* }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                out.write_str(self.code())
            }
        }
    };
}

pub(super) use codes;
