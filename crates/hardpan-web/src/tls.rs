//! Connections that other machines may make: encrypted, so many at a time, and
//! none that waits for ever.

use crate::error::ServeError;
use std::io;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore, mpsc};
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::ServerConfig;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::pem::PemObject as _;
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer};
use tokio_rustls::server::TlsStream;

/// Connections at the same time.
const MOST: usize = 256;
/// Longest time for the two ends to agree on a key.
const AGREED_WITHIN: Duration = Duration::from_secs(10);
/// Pause after the system refused a connection.
const PAUSE: Duration = Duration::from_millis(100);

/// What encrypts: a certificate with those above it, and its key.
pub(crate) fn encryption(certificate: &[u8], key: &[u8]) -> Result<TlsAcceptor, ServeError> {
    let refused =
        |what: &str, cause: String| ServeError::Encryption { what: what.to_owned(), cause };
    let chain: Vec<CertificateDer<'static>> = CertificateDer::pem_slice_iter(certificate)
        .collect::<Result<_, _>>()
        .map_err(|error| refused("the certificate cannot be read", error.to_string()))?;
    if chain.is_empty() {
        return Err(refused("the certificate file holds none", "PEM text is expected".to_owned()));
    }
    let key = PrivateKeyDer::from_pem_slice(key)
        .map_err(|error| refused("the key cannot be read", error.to_string()))?;
    let config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .and_then(|builder| builder.with_no_client_auth().with_single_cert(chain, key))
        .map_err(|error| refused("certificate and key cannot be used", error.to_string()))?;
    Ok(TlsAcceptor::from(Arc::new(config)))
}

/// Where encrypted connections come in.
pub(crate) struct Encrypted {
    address: SocketAddr,
    ready: mpsc::Receiver<(Held, SocketAddr)>,
}

impl Encrypted {
    /// Begin to take connections. Agreeing on a key goes on beside others, so
    /// that a slow machine holds nobody up.
    pub(crate) fn begin(listener: TcpListener, acceptor: TlsAcceptor) -> io::Result<Self> {
        let address = listener.local_addr()?;
        let (made, ready) = mpsc::channel(MOST);
        let slots = Arc::new(Semaphore::new(MOST));
        tokio::spawn(async move {
            while let Ok(permit) = Arc::clone(&slots).acquire_owned().await {
                match listener.accept().await {
                    Ok((stream, peer)) => {
                        let (acceptor, made) = (acceptor.clone(), made.clone());
                        tokio::spawn(async move {
                            let agreed =
                                tokio::time::timeout(AGREED_WITHIN, acceptor.accept(stream));
                            if let Ok(Ok(stream)) = agreed.await {
                                // The server is gone when nobody takes it.
                                let _ = made.send((Held { stream, _permit: permit }, peer)).await;
                            }
                        });
                    }
                    Err(_) => tokio::time::sleep(PAUSE).await,
                }
            }
        });
        Ok(Self { address, ready })
    }
}

impl axum::serve::Listener for Encrypted {
    type Io = Held;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Held, SocketAddr) {
        match self.ready.recv().await {
            Some(connection) => connection,
            // The task that takes connections never ends before this.
            None => std::future::pending().await,
        }
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        Ok(self.address)
    }
}

/// A connection with its place among the others.
pub(crate) struct Held {
    stream: TlsStream<TcpStream>,
    _permit: OwnedSemaphorePermit,
}

impl AsyncRead for Held {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, into)
    }
}

impl AsyncWrite for Held {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write(context, bytes)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}
