//! Where the page listens.

use std::net::{Ipv4Addr, SocketAddr};

/// An address and a port. Of names only `localhost` is taken: any other may lead to
/// several addresses, and nobody would know which is served.
pub(super) fn address(text: &str) -> Result<SocketAddr, String> {
    let of_this_machine = || {
        let (name, port) = text.rsplit_once(':')?;
        let port = port.parse().ok().filter(|_| name.eq_ignore_ascii_case("localhost"))?;
        Some(SocketAddr::from((Ipv4Addr::LOCALHOST, port)))
    };
    text.parse().ok().or_else(of_this_machine).ok_or_else(|| {
        "an address in numbers and a port are expected, such as 127.0.0.1:8642 or [::1]:8642; \
         localhost:8642 is this machine, 0.0.0.0:8642 every address of it, which needs accounts"
            .to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::address;

    #[test]
    fn this_machine_may_be_named() {
        for (text, read) in [
            ("localhost:9199", "127.0.0.1:9199"),
            ("LOCALHOST:0", "127.0.0.1:0"),
            ("127.0.0.1:8642", "127.0.0.1:8642"),
            ("[::1]:8642", "[::1]:8642"),
            ("0.0.0.0:8642", "0.0.0.0:8642"),
        ] {
            assert_eq!(address(text).map(|one| one.to_string()).as_deref(), Ok(read));
        }
        for text in ["", "localhost", "localhost:", "localhost:99999", "8642", "strip.example:8642"]
        {
            let said = address(text).expect_err("it is no address");
            assert!(said.contains("127.0.0.1:8642") && said.contains("localhost"), "{said}");
        }
    }
}
