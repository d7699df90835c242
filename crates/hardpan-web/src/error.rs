//! Why the server does not start or cannot go on.

use std::net::SocketAddr;

/// Why the server does not start or cannot go on.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The address would be reached from other machines.
    #[error(
        "{address} can be reached from other machines, and that needs accounts and encryption: \
         name all three of --accounts, --certificate and --key, or use 127.0.0.1 or [::1]; \
         `hardpan account` keeps the accounts"
    )]
    NotLoopback {
        /// As asked.
        address: SocketAddr,
    },
    /// Nobody could sign in.
    #[error("the accounts file holds nobody; `hardpan account add FILE NAME --role ROLE` adds one")]
    NoAccounts,
    /// Certificate or key cannot be used.
    #[error("{what}: {cause}")]
    Encryption {
        /// Which.
        what: String,
        /// Why.
        cause: String,
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
