"""The server that the office runs: cheroot, kept and pure Python, with TLS, on Windows too."""

from __future__ import annotations

import errno
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


@contextmanager
def serving(app: Flask, host: str, port: int, certificate: Path | None, key: Path | None) -> Iterator[Server]:
    """A server that listens already; `serve()` serves until interrupted. Raises PortTaken; OSError for TLS files."""
    server = Server((host, port), app, numthreads=THREADS, server_name="oddleg", timeout=30, shutdown_timeout=10)
    if certificate and key:
        try:
            server.ssl_adapter = BuiltinSSLAdapter(str(certificate), str(key))
        except ssl.SSLError as error:
            raise OSError(
                errno.EINVAL, f"no TLS certificate with this key ({error.reason})", str(certificate)
            ) from None
    try:
        server.prepare()
    except OSError as error:
        server.stop()
        raise PortTaken(
            f"Cannot listen on {host} port {port}: {error.strerror or error}. End what runs there, or set ODDLEG_PORT; "
            "phones that are paired keep unsent entries under the old address."
        ) from None
    try:
        yield server
    finally:
        server.stop()
