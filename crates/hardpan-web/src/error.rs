//! Why the server does not start or cannot go on.

use std::net::SocketAddr;

/// Why the server does not start or cannot go on.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The address would be reached from other machines.
    #[error(
        "{address} can be reached from other machines, and these pages have neither accounts nor \
         encryption: anyone there could read every flight and change what its sheet shows; use \
         127.0.0.1 or [::1], or reach this machine through a tunnel of your own"
    )]
    NotLoopback {
        /// As asked.
        address: SocketAddr,
    },
    /// The address is taken or may not be used.
    #[error("{address} cannot be listened on: {cause}; choose another port, or 0 for any free one")]
    Listen {
        /// As asked.
        address: SocketAddr,
        /// The system's reason.
        cause: std::io::Error,
    },
    /// The system gives no threads or no sockets.
    #[error("the server cannot go on: {cause}")]
    System {
        /// The system's reason.
        cause: std::io::Error,
    },
}
