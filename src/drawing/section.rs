//! Section through one hook.
