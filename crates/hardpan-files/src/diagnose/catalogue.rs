//! The form in which `mistake.rs` states code, severity, wording and remedy
//! of one mistake side by side.

/// One row of the list of codes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Code {
    /// Permanent code, such as `E301`.
    pub code: &'static str,
    /// Error or warning.
    pub severity: crate::Severity,
    /// What it is about, in a sentence.
    pub about: &'static str,
}

/// Makes the enum of mistakes, its `Display` and its look-up functions.
macro_rules! mistakes {
    ($(
        #[doc = $about:literal]
        $name:ident { $($field:ident: $type:ty),* } = $code:literal $severity:ident,
            says $says:literal,
            wants $wants:literal,
            fix $fix:literal;
    )+) => {
        /// Everything that can be wrong in a file. Texts in the fields are
        /// already in the words of the user's file.
        #[derive(Debug, Clone, PartialEq, thiserror::Error)]
        pub(crate) enum Mistake {
            $(#[doc = $about] #[error($says)] $name { $($field: $type),* },)+
        }

        #[allow(unused_variables)]
        impl Mistake {
            pub(crate) fn code(&self) -> &'static str {
                match self { $(Self::$name { .. } => $code,)+ }
            }

            pub(crate) fn severity(&self) -> $crate::Severity {
                match self { $(Self::$name { .. } => $crate::Severity::$severity,)+ }
            }

            /// What was expected at that place.
            pub(crate) fn expected(&self) -> String {
                match self { $(Self::$name { $($field),* } => format!($wants),)+ }
            }

            /// How to put it right.
            pub(crate) fn hint(&self) -> String {
                match self { $(Self::$name { $($field),* } => format!($fix),)+ }
            }
        }

        /// Every code, in order.
        pub static CODES: &[$crate::Code] = &[$($crate::Code {
            code: $code,
            severity: $crate::Severity::$severity,
            about: $about.trim_ascii(),
        },)+];
    };
}

pub(crate) use mistakes;
