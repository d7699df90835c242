//! From an address to a running server.

use crate::account::{Account, Gate, Peer, secret};
use crate::error::ServeError;
use crate::routes::{Room, router};
use crate::shelf::Shelf;
use crate::tls::{Encrypted, encryption};
use axum::extract::connect_info::Connected;
use axum::serve::IncomingStream;
use std::net::{SocketAddr, TcpListener};
use std::sync::Arc;
use tokio_rustls::TlsAcceptor;

/// Stack of a thread, bytes: an assessment is written for that of a main thread,
/// typesetting for more.
const STACK: usize = 32 * 1024 * 1024;

/// What an address needs that other machines can reach.
#[derive(Debug, Clone)]
pub struct Protection {
    /// Who may sign in.
    pub accounts: Vec<Account>,
    /// Certificate and those above it, PEM text.
    pub certificate: Vec<u8>,
    /// Its key, PEM text.
    pub key: Vec<u8>,
}

/// A server that holds its address and does not answer yet.
pub struct Bound {
    listener: TcpListener,
    address: SocketAddr,
    guarded: Option<(TlsAcceptor, Gate)>,
}

impl Bound {
    /// Take an address of this machine. One that other machines can reach needs
    /// protection; with it, this machine too signs in.
    ///
    /// # Errors
    /// [`ServeError::NotLoopback`] for an address that others can reach without
    /// protection, before it is taken; [`ServeError::NoAccounts`] and
    /// [`ServeError::Encryption`] for protection that protects nothing;
    /// [`ServeError::Listen`] when the address is taken already.
    pub fn take(address: SocketAddr, protection: Option<Protection>) -> Result<Self, ServeError> {
        let guarded = match protection {
            None if address.ip().is_loopback() => None,
            None => return Err(ServeError::NotLoopback { address }),
            Some(with) if with.accounts.is_empty() => return Err(ServeError::NoAccounts),
            Some(with) => {
                Some((encryption(&with.certificate, &with.key)?, Gate::new(with.accounts)))
            }
        };
        let refused = |cause| ServeError::Listen { address, cause };
        let listener = TcpListener::bind(address).map_err(refused)?;
        listener.set_nonblocking(true).map_err(refused)?;
        let address = listener.local_addr().map_err(refused)?;
        Ok(Self { listener, address, guarded })
    }

    /// Where the start page stands.
    #[must_use]
    pub fn url(&self) -> String {
        let scheme = if self.guarded.is_some() { "https" } else { "http" };
        format!("{scheme}://{}/", self.address)
    }

    /// Answer until the process ends.
    ///
    /// # Errors
    /// [`ServeError::System`] when the system gives no threads or no sockets.
    pub fn run(self, shelf: Arc<dyn Shelf>) -> Result<(), ServeError> {
        let system = |cause| ServeError::System { cause };
        let token = secret().map_err(system)?;
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .enable_all()
            .thread_stack_size(STACK)
            .build()
            .map_err(system)?;
        runtime.block_on(async move {
            let listener = tokio::net::TcpListener::from_std(self.listener).map_err(system)?;
            let (acceptor, gate) = self.guarded.unzip();
            let room = Arc::new(Room::new(shelf, token, gate));
            let service = router(room).into_make_service_with_connect_info::<Peer>();
            match acceptor {
                None => axum::serve(listener, service).await,
                Some(acceptor) => {
                    let listener = Encrypted::begin(listener, acceptor).map_err(system)?;
                    axum::serve(listener, service).await
                }
            }
            .map_err(system)
        })
    }
}

impl Connected<IncomingStream<'_, tokio::net::TcpListener>> for Peer {
    fn connect_info(stream: IncomingStream<'_, tokio::net::TcpListener>) -> Self {
        Self(*stream.remote_addr())
    }
}

impl Connected<IncomingStream<'_, Encrypted>> for Peer {
    fn connect_info(stream: IncomingStream<'_, Encrypted>) -> Self {
        Self(*stream.remote_addr())
    }
}
