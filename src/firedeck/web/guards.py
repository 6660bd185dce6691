"""Who may look, and what a page may load."""

import os
import secrets
from collections.abc import Awaitable, Callable
from urllib.parse import urlencode

from starlette.middleware import Middleware
from starlette.middleware.base import BaseHTTPMiddleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response

Call = Callable[[Request], Awaitable[Response]]
Failed = Callable[[Request, Exception], Awaitable[Response]]

DEBUG = "FIREDECK_DEBUG"
"""Set in the environment, it lets a fault of ours through with its traceback."""

THIS_MACHINE = ["127.0.0.1", "localhost"]
OWN_FILES_ONLY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
ONE_FILE = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none'"
"""For a sheet, which stands alone."""

HEADERS = {
    "Content-Security-Policy": OWN_FILES_ONLY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-store",
}


def guards(token: str, failed: Failed) -> list[Middleware]:
    """Return the guards: names of this machine only, or, with a token, only those who have its link."""
    door = Middleware(BaseHTTPMiddleware, dispatch=_door(token, failed))
    return [door] if token else [door, Middleware(TrustedHostMiddleware, allowed_hosts=THIS_MACHINE)]


def _door(token: str, failed: Failed) -> Callable[[Request, Call], Awaitable[Response]]:
    async def dispatch(request: Request, call: Call) -> Response:
        response = _turned_away(request, token) if token else None
        if response is None:
            try:
                response = await call(request)
            except Exception as fault:
                if os.environ.get(DEBUG):
                    raise
                response = await failed(request, fault)
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        return response

    return dispatch


def _turned_away(request: Request, token: str) -> Response | None:
    """Send away who lacks the token; keep it in a cookie and out of the address for who has it."""
    asked = dict(request.query_params)
    given = asked.pop("token", None)
    held = request.cookies.get("token", "") if given is None else given
    if not secrets.compare_digest(held.encode(), token.encode()):
        return PlainTextResponse("Open the link firedeck printed.", status_code=403)
    if given is None:
        return None
    answer = RedirectResponse(request.url.path + (f"?{urlencode(asked)}" if asked else ""), status_code=303)
    answer.set_cookie("token", token, httponly=True, samesite="strict")
    return answer
