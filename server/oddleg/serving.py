"""The server that the office runs: cheroot, kept and pure Python, with TLS, on Windows too."""

from __future__ import annotations

import errno
import os
import socket
import ssl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server
from flask import Flask

THREADS = 8


class PortTaken(Exception):
    """Somebody else listens there. The port is part of the address that phones keep unsent entries under."""


def try_port(host: str, port: int) -> None:
    """Raises PortTaken where nothing can listen there. cheroot's own text for that is long, and it leaks the socket."""
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
        with socket.socket(family, kind, protocol) as trial:
            if os.name == "posix":  # elsewhere this would share a port that is in use
                trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            trial.bind(address)
            trial.listen()
    except OSError as error:
        cure = "Give an address of this computer, or 0.0.0.0 for all of them."
        if error.errno in (errno.EADDRINUSE, errno.EACCES):
            cure = "End what runs there, or set ODDLEG_PORT; paired phones keep unsent entries under the old address."
        raise PortTaken(f"Cannot listen on {host} port {port}: {error.strerror or error}. {cure}") from None


@contextmanager
def serving(app: Flask, host: str, port: int, certificate: Path | None, key: Path | None) -> Iterator[Server]:
    """A server that listens already; `serve()` serves until interrupted. Raises PortTaken; OSError for TLS files."""
    try_port(host, port)
    server = Server((host, port), app, numthreads=THREADS, server_name="oddleg", timeout=30, shutdown_timeout=10)
    if certificate and key:
        try:
            server.ssl_adapter = BuiltinSSLAdapter(str(certificate), str(key))
        except ssl.SSLError as error:
            raise OSError(
                errno.EINVAL,
                "no TLS certificate with this key" + (f" ({error.reason})" if error.reason else ""),
                str(certificate),
            ) from None
    server.prepare()
    try:
        yield server
    finally:
        server.stop()
