// SPDX-License-Identifier: MIT
//! The macro that states the words of which a field takes one as a type of their own.

/// States the words that a field takes as a type, its first word standing for one that could not be read.
///
/// ```ignore
/// words! {
///     /// The form of a pocket's upper edge.
///     pub enum Mouth { Slanted = "slanted", Straight = "straight" }
/// }
/// const MOUTH: Key<Mouth> = Key::choice("mouth", Mouth::Slanted.usual(), "the form of its upper edge");
/// ```
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $(#[$first_meta:meta])* $first:ident = $first_word:literal
        $(, $(#[$each_meta:meta])* $each:ident = $word:literal)* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        $vis enum $name { $(#[$first_meta])* $first, $($(#[$each_meta])* $each,)* }

        impl $name {
            /// All of them.
            #[allow(dead_code, reason = "most are only read")]
            $vis const ALL: [Self; 1 + [$($word),*].len()] = [Self::$first, $(Self::$each),*];

            /// As it stands in files.
            #[allow(dead_code, reason = "most are only read")]
            #[must_use]
            $vis const fn word(self) -> &'static str {
                match self {
                    Self::$first => $first_word,
                    $(Self::$each => $word,)*
                }
            }

            /// It holds where the field is left out.
            #[allow(dead_code, reason = "some fields have a rule instead")]
            pub(crate) const fn usual(self) -> $crate::fields::Otherwise<Self> {
                $crate::fields::Otherwise::word(self.word())
            }
        }

        impl $crate::fields::Choices for $name {
            const WORDS: &'static [&'static str] = &[$first_word $(, $word)*];
        }

        impl $crate::fields::Held for $name {
            type Read<'v> = Self;

            fn read(value: &$crate::fields::Value) -> Option<Self::Read<'_>> {
                match value {
                    $crate::fields::Value::Choice($first_word) => Some(Self::$first),
                    $($crate::fields::Value::Choice($word) => Some(Self::$each),)*
                    _ => None,
                }
            }

            fn unread<'v>() -> Self::Read<'v> {
                Self::$first
            }
        }
    };
}
pub(crate) use words;
