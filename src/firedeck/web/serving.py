"""Start the server."""

import secrets
import socket
from collections.abc import Sequence
from pathlib import Path

from firedeck.errors import JobError


def serve(files: Sequence[Path] = (), port: int = 8577, open_network: bool = False) -> None:
    """Serve the page until it is stopped; on this machine only, unless the network is opened."""
    import uvicorn

    from firedeck.web.app import make_app
    from firedeck.web.jobs import Jobs

    host = "0.0.0.0" if open_network else "127.0.0.1"
    _port_is_free(host, port)
    token = secrets.token_urlsafe(12) if open_network else ""
    app = make_app(Jobs.found(files), token)
    name = socket.gethostname() if open_network else "127.0.0.1"
    link = f"http://{name}:{port}/" + (f"?token={token}" if token else "")
    print(f"The page is at {link}\nStop it with Ctrl-C.", flush=True)
    uvicorn.run(app, host=host, port=port, log_level="warning")


def _port_is_free(host: str, port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError:
            raise JobError(
                "--port", f"{port}, which something else uses", "another port, such as 8600"
            ) from None
