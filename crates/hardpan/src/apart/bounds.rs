//! The bounds that a process sets itself, before it reads a byte of what was brought.

use super::Limits;

/// From now on this process gets no more than this of memory and of the processor,
/// writes no file, and leaves no image of its memory when it ends.
#[cfg(unix)]
pub(super) fn set(limits: Limits) -> Result<(), String> {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
    let set = |resource, most: u64, last: u64| {
        // What the system allows already may be less, and cannot be raised.
        let allowed = getrlimit(resource).maximum.unwrap_or(u64::MAX);
        let limit = Rlimit { current: Some(most.min(allowed)), maximum: Some(last.min(allowed)) };
        setrlimit(resource, limit).map_err(|error| format!("a bound cannot be set: {error}"))
    };
    let seconds = u64::from(limits.seconds);
    set(Resource::Core, 0, 0)?;
    set(Resource::Fsize, 0, 0)?;
    set(Resource::Cpu, seconds, seconds + 1)?;
    // Other systems have the name and do not heed it.
    if cfg!(target_os = "linux") {
        set(Resource::As, limits.bytes(), limits.bytes())?;
    }
    Ok(())
}

#[cfg(not(unix))]
#[allow(clippy::unnecessary_wraps)]
pub(super) fn set(_: Limits) -> Result<(), String> {
    Ok(())
}
