"""The routes of the page and their guards."""

import secrets
from collections.abc import Awaitable, Callable
from importlib.resources import files

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.base import BaseHTTPMiddleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from firedeck.errors import FiredeckError
from firedeck.report import SHEETS, render
from firedeck.report.figures import Units
from firedeck.web.jobs import Jobs
from firedeck.web.pages import answer_part, fault_page, job_page, jobs_page

TYPES = {"pdf": "application/pdf", "html": "text/html; charset=utf-8", "text": "text/plain; charset=utf-8"}
OWN_FILES_ONLY = "default-src 'self'; img-src 'self' data:; style-src 'self'; frame-ancestors 'none'"
ONE_FILE = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
Call = Callable[[Request], Awaitable[Response]]


def make_app(jobs: Jobs, token: str = "") -> Starlette:
    """Make the page over some documents; with a token only those who have its link see it."""
    static = str(files("firedeck.web").joinpath("static"))
    guards = [Middleware(BaseHTTPMiddleware, dispatch=_guard(token))]
    if not token:
        guards.insert(
            0, Middleware(TrustedHostMiddleware, allowed_hosts=["127.0.0.1", "localhost", "testserver"])
        )
    app = Starlette(
        routes=[
            Route("/", _jobs),
            Route("/job/{name}", _job),
            Route("/job/{name}/answer/{place:int}", _answer),
            Route("/job/{name}/sheet/{sheet}.{format}", _sheet),
            Mount("/static", StaticFiles(directory=static)),
        ],
        middleware=guards,
        exception_handlers={FiredeckError: _fault, 404: _not_found},
    )
    app.state.jobs = jobs
    return app


def _guard(token: str) -> Callable[[Request, Call], Awaitable[Response]]:
    async def dispatch(request: Request, call: Call) -> Response:
        if token:
            given = request.query_params.get("token", request.cookies.get("token", ""))
            if not secrets.compare_digest(given.encode(), token.encode()):
                return PlainTextResponse("Open the link firedeck printed.", status_code=403)
            if "token" in request.query_params:
                answer: Response = RedirectResponse(request.url.path, status_code=303)
                answer.set_cookie("token", token, httponly=True, samesite="strict")
                return answer
        response = await call(request)
        response.headers.setdefault("Content-Security-Policy", OWN_FILES_ONLY)
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Referrer-Policy"] = "no-referrer"
        return response

    return dispatch


def _units(request: Request) -> Units:
    match request.query_params.get("units"):
        case "mm":
            return "mm"
        case "inch":
            return "inch"
    return "as-typed"


async def _jobs(request: Request) -> Response:
    names = list(request.app.state.jobs.files)
    if len(names) == 1:
        return RedirectResponse(f"/job/{names[0]}", status_code=303)
    return HTMLResponse(str(jobs_page(names)))


async def _job(request: Request) -> Response:
    name = request.path_params["name"]
    if name not in request.app.state.jobs.files:
        return await _not_found(request, None)
    whole = await run_in_threadpool(request.app.state.jobs.plain, name)
    return HTMLResponse(str(job_page(name, whole, _units(request))))


async def _answer(request: Request) -> Response:
    name, place = request.path_params["name"], request.path_params["place"]
    if name not in request.app.state.jobs.files:
        return await _not_found(request, None)
    whole = await run_in_threadpool(request.app.state.jobs.plain, name)
    if not 0 <= place < len(whole["answers"]):
        return await _not_found(request, None)
    return HTMLResponse(str(answer_part(whole["answers"][place], _units(request))))


async def _sheet(request: Request) -> Response:
    given = request.path_params
    if (
        given["name"] not in request.app.state.jobs.files
        or given["sheet"] not in SHEETS
        or given["format"] not in TYPES
    ):
        return await _not_found(request, None)
    whole = await run_in_threadpool(request.app.state.jobs.plain, given["name"])
    paper = "letter" if request.query_params.get("paper") == "letter" else "a4"
    content = await run_in_threadpool(render, whole, given["sheet"], given["format"], paper, _units(request))
    return Response(content, media_type=TYPES[given["format"]], headers={"Content-Security-Policy": ONE_FILE})


async def _fault(_request: Request, fault: Exception) -> Response:
    return HTMLResponse(
        str(fault_page("This job cannot be read yet", str(fault).splitlines())), status_code=422
    )


async def _not_found(_request: Request, _fault: Exception | None) -> Response:
    return HTMLResponse(
        str(fault_page("There is no such page", ["Go back to the list of jobs."])), status_code=404
    )
