//! A server whose connection is sealed: whom the store trusts, and whom not, is held beside what PostgreSQL's own client
//! `psql` says of the same server, the same root and the same mode. Certificates are made by `openssl`.

use crate::store_common::cluster::Cluster;
use record::store::Store;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

fn openssl(dir: &Path, args: &[&str]) {
    let ran = Command::new("openssl").current_dir(dir).args(args).output().expect("openssl is on this machine");
    assert!(ran.status.success(), "{args:?}: {}", String::from_utf8_lossy(&ran.stderr));
}

/// An authority of its own in a folder.
fn authority(dir: &Path, name: &str) -> PathBuf {
    let (cert, key, subject) = (format!("{name}.pem"), format!("{name}.key"), format!("/CN={name}"));
    openssl(
        dir,
        &[
            "req",
            "-x509",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:P-256",
            "-nodes",
            "-days",
            "1",
            "-subj",
            &subject,
            "-keyout",
            &key,
            "-out",
            &cert,
        ],
    );
    dir.join(cert)
}

/// A certificate of the authority `by` for these names.
fn vouched(dir: &Path, by: &str, names: &str) -> [PathBuf; 2] {
    std::fs::write(dir.join("names"), format!("subjectAltName={names}\nbasicConstraints=CA:FALSE\n")).unwrap();
    let ec = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes"];
    openssl(
        dir,
        &[&["req"], &ec[..], &["-subj", "/CN=server", "-keyout", "server.key", "-out", "server.csr"]].concat(),
    );
    let (ca, key) = (format!("{by}.pem"), format!("{by}.key"));
    openssl(
        dir,
        &[
            "x509",
            "-req",
            "-in",
            "server.csr",
            "-CA",
            &ca,
            "-CAkey",
            &key,
            "-CAcreateserial",
            "-days",
            "1",
            "-extfile",
            "names",
            "-out",
            "server.pem",
        ],
    );
    [dir.join("server.pem"), dir.join("server.key")]
}

/// Whether PostgreSQL's own client comes in so.
fn psql(address: &str) -> bool {
    let plain = address.split("&schema=").next().unwrap();
    let ran = Command::new("psql").args([plain, "-Atc", "SELECT 1"]).env("HOME", "/nonexistent").output();
    ran.expect("psql is on this machine").status.success()
}

#[test]
fn who_is_trusted_is_whom_psql_trusts() {
    let dir = tempfile::tempdir().unwrap();
    let (own, other) = (authority(dir.path(), "own"), authority(dir.path(), "other"));
    let cluster = Cluster::start();
    let address = |host: &str, mode: &str, root: &Path, schema: &str| {
        let root = root.display();
        format!("postgres://limpid@{host}:{}/postgres?sslmode={mode}&sslrootcert={root}&schema={schema}", cluster.port)
    };
    // It speaks no TLS yet.
    let at = address("127.0.0.1", "verify-full", &own, "none");
    let told = Store::create(&at).map(|_| ()).unwrap_err().to_string();
    assert!(!psql(&at) && told.contains("speaks no TLS") && told.contains("sslmode=disable"), "{told}");

    let [cert, key] = vouched(dir.path(), "own", "IP:127.0.0.1");
    cluster.seal(&cert, &key);
    for (n, (host, root, trusted)) in
        [("127.0.0.1", &own, true), ("localhost", &own, false), ("127.0.0.1", &other, false)].into_iter().enumerate()
    {
        let at = address(host, "verify-full", root, &format!("s{n}"));
        let begun = Instant::now();
        let made = Store::create(&at);
        assert_eq!(made.is_ok(), trusted, "{host}, {}: {:?}", root.display(), made.err().map(|e| e.to_string()));
        assert_eq!(psql(&at), trusted, "as psql has it: {host}, {}", root.display());
        if let Err(e) = made {
            assert!(e.to_string().contains("does not prove"), "{e}");
            assert!(begun.elapsed() < Duration::from_secs(10), "waiting helps nothing: {:?}", begun.elapsed());
        }
    }
    // Less than that is not given: psql would come in.
    let less = address("localhost", "require", &other, "less");
    assert!(Store::create(&less).is_err());
    // What is sealed is sealed: as the server itself sees it.
    let at = address("127.0.0.1", "verify-full", &own, "sealed");
    let store = Store::create(&at).unwrap();
    let seen = cluster
        .raw("")
        .query_one(
            "SELECT s.version, s.cipher FROM pg_stat_ssl s JOIN pg_stat_activity a USING (pid)
             WHERE s.ssl AND a.application_name = 'limpid' ORDER BY a.backend_start DESC LIMIT 1",
            &[],
        )
        .unwrap();
    let (version, cipher): (String, String) = (seen.get(0), seen.get(1));
    assert!(version == "TLSv1.3" && cipher.starts_with("TLS_"), "{version} {cipher}");
    drop(store);
    let unread = address("127.0.0.1", "verify-full", &dir.path().join("absent.pem"), "x");
    let told = Store::create(&unread).map(|_| ()).unwrap_err().to_string();
    assert!(told.contains("absent.pem"), "{told}");
}
