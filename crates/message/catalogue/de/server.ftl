### Ein Programm auf einem Server: wie die Verbindung versiegelt ist, und was nicht passt.

server-untrusted = { $address }: Der Server weist sich nicht als der aus, der gemeint war: { $why }. Nennen Sie, wer für ihn bürgt (sslrootcert=DATEI), oder fragen Sie nach ihm unter dem Namen seines Zertifikats; mit sslmode=disable geht alles offen über das Netz, für ein Netz, das Ihr eigenes ist.

server-speaks-no-tls = er spricht kein TLS

server-certificates-unfit = Zertifikate in { $file }: { $why }; erwartet PEM

server-nobody-trusted = dieses System nennt niemanden, dem es vertraut; nennen Sie eine Datei mit Zertifikaten (sslrootcert=DATEI)
server-no-certificate = kein Zertifikat darin lässt sich lesen
