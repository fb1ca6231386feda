### A programme on a server: how the connection is sealed, and what does not fit.

# $address (name): the address, without its password
# $why (name): what about the certificate
server-untrusted = { $address }: the server does not prove to be the one that was asked for: { $why }. Name who vouches for it (sslrootcert=FILE), or ask for it by the name that its certificate has; sslmode=disable sends all in the clear, for a network that is your own.

server-speaks-no-tls = it speaks no TLS

# $file (name): the file
# $why (name): what the reader said
server-certificates-unfit = certificates in { $file }: { $why }; expected PEM

server-nobody-trusted = this system names nobody whom it trusts; name a file of certificates (sslrootcert=FILE)
server-no-certificate = no certificate in it can be read
