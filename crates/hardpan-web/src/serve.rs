//! From an address to a running server.

use crate::error::ServeError;
use crate::routes::{Room, router};
use crate::shelf::Shelf;
use std::net::{SocketAddr, TcpListener};
use std::sync::Arc;

/// Stack of a thread, bytes: an assessment is written for that of a main thread,
/// typesetting for more.
const STACK: usize = 32 * 1024 * 1024;

/// A server that holds its address and does not answer yet.
#[derive(Debug)]
pub struct Bound {
    listener: TcpListener,
    address: SocketAddr,
}

impl Bound {
    /// Take an address of this machine that no other machine can reach.
    ///
    /// # Errors
    /// [`ServeError::NotLoopback`] for any other address, before it is taken;
    /// [`ServeError::Listen`] when it is taken already.
    pub fn take(address: SocketAddr) -> Result<Self, ServeError> {
        if !address.ip().is_loopback() {
            return Err(ServeError::NotLoopback { address });
        }
        let refused = |cause| ServeError::Listen { address, cause };
        let listener = TcpListener::bind(address).map_err(refused)?;
        listener.set_nonblocking(true).map_err(refused)?;
        let address = listener.local_addr().map_err(refused)?;
        Ok(Self { listener, address })
    }

    /// Where the start page stands.
    #[must_use]
    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Answer until the process ends.
    ///
    /// # Errors
    /// [`ServeError::System`] when the system gives no threads or no sockets.
    pub fn run(self, shelf: Arc<dyn Shelf>) -> Result<(), ServeError> {
        let system = |cause| ServeError::System { cause };
        let token = token().map_err(system)?;
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .enable_all()
            .thread_stack_size(STACK)
            .build()
            .map_err(system)?;
        runtime.block_on(async move {
            let listener = tokio::net::TcpListener::from_std(self.listener).map_err(system)?;
            axum::serve(listener, router(Arc::new(Room::new(shelf, token)))).await.map_err(system)
        })
    }
}

/// A text that nobody can guess.
fn token() -> Result<String, std::io::Error> {
    let mut bytes = [0_u8; 24];
    getrandom::fill(&mut bytes).map_err(|cause| std::io::Error::other(cause.to_string()))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}
