//! Enumerations whose published schema says what each of their values means.

/// Declares an enumeration of the wire. Derived schemas keep the names of the values and drop what is said
/// of them; here each meaning is a line of the description of the whole, in the order of the values. The
/// published description sets the name of its value before each.
macro_rules! enumeration {
    (
        $(#[doc = $about:literal])+
        #[derive($($derive:tt)*)]
        $(#[$attribute:meta])*
        pub enum $name:ident {
            $(
                $(#[doc = $meaning:literal])*
                $(#[serde($($serde:tt)*)])?
                $(#[default $($default:tt)?])?
                $value:ident,
            )+
        }
    ) => {
        $(#[doc = $about])+
        #[derive($($derive)*)]
        $(#[$attribute])*
        #[schema(description = concat!($($about, "\n",)+ $("\n-", $($meaning,)*)+))]
        pub enum $name {
            $(
                $(#[doc = $meaning])*
                $(#[serde($($serde)*)])?
                $(#[default $($default)?])?
                $value,
            )+
        }
    };
}

pub(crate) use enumeration;
