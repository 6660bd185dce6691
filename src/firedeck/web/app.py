"""The routes of the page; errors become status codes here and nowhere else."""

import sys
from importlib.resources import files
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from firedeck.errors import DidNotConverge, FiredeckError, shorten
from firedeck.report import FORMATS, SHEETS, render
from firedeck.report.figures import Units
from firedeck.web.addresses import of_job
from firedeck.web.guards import ONE_FILE, guards
from firedeck.web.jobs import Jobs
from firedeck.web.pages import answer_page, answer_part, fault_page, job_page, jobs_page, stale_part
from firedeck.web.waiting import waiting_part, working_part

TYPES = {"pdf": "application/pdf", "html": "text/html; charset=utf-8", "text": "text/plain; charset=utf-8"}
OURS = "Our own fault, not of what was typed; please report this line and the job that caused it."


def make_app(jobs: Jobs, token: str = "") -> Starlette:
    """Make the page over some documents; with a token only those who have its link see it."""
    static = str(files("firedeck.web").joinpath("static"))
    app = Starlette(
        routes=[
            Route("/", _jobs),
            Route("/job/{name}", _job),
            Route("/job/{name}/answer/{place:int}", _answer),
            Route("/job/{name}/rings", _work, methods=["GET", "POST"]),
            Route("/job/{name}/rings/stop", _stop_work, methods=["POST"]),
            Route("/job/{name}/sheet/{sheet}.{format}", _sheet),
            Mount("/static", StaticFiles(directory=static)),
        ],
        middleware=guards(token, our_fault),
        exception_handlers={FiredeckError: _fault, DidNotConverge: our_fault, 404: _not_found},
    )
    app.state.jobs = jobs
    return app


async def _jobs(request: Request) -> Response:
    names = list(request.app.state.jobs.files)
    if len(names) == 1:
        return RedirectResponse(of_job(names[0]), status_code=303)
    return HTMLResponse(str(jobs_page(names)))


async def _job(request: Request) -> Response:
    whole = await _answered(request)
    name = request.path_params["name"]
    work = request.app.state.jobs.works.of(name)
    return HTMLResponse(str(job_page(name, whole, _units(request), work)))


async def _answer(request: Request) -> Response:
    """Give one answer in full: as a piece to the page that asks for it, else as a page of its own."""
    whole = await _answered(request)
    name, place, units = request.path_params["name"], request.path_params["place"], _units(request)
    if place >= len(whole["answers"]):
        raise HTTPException(404)
    answer = whole["answers"][place]
    if "HX-Request" not in request.headers:
        return HTMLResponse(str(answer_page(name, place, answer, units)))
    if request.query_params.get("revision", whole["revision"]) != whole["revision"]:
        return HTMLResponse(str(stale_part(name, units)))
    return HTMLResponse(str(answer_part(answer, units)))


async def _work(request: Request) -> Response:
    """Begin what takes long, or say how far it is; when it is done, the page is asked to show itself again."""
    _from_the_page(request)
    jobs, name = request.app.state.jobs, request.path_params["name"]
    if name not in jobs.files:
        raise HTTPException(404)
    work = await run_in_threadpool(jobs.work, name) if request.method == "POST" else jobs.works.of(name)
    if work is None or not (work.running or work.fault):
        return HTMLResponse("", headers={"HX-Refresh": "true"})
    if work.running:
        return HTMLResponse(str(working_part(name, work)))
    return HTMLResponse(str(waiting_part(name, await _answered(request), work)))


async def _stop_work(request: Request) -> Response:
    _from_the_page(request)
    whole = await _answered(request)
    name = request.path_params["name"]
    request.app.state.jobs.works.end(name)
    return HTMLResponse(str(waiting_part(name, whole)))


def _from_the_page(request: Request) -> None:
    """Let no page from elsewhere start or stop anything: it cannot send this header."""
    if "HX-Request" not in request.headers:
        raise HTTPException(404)


async def _sheet(request: Request) -> Response:
    sheet, form = request.path_params["sheet"], request.path_params["format"]
    if sheet not in SHEETS or form not in FORMATS:
        raise HTTPException(404)
    whole = await _answered(request)
    paper = "letter" if request.query_params.get("paper") == "letter" else "a4"
    content = await run_in_threadpool(render, whole, sheet, form, paper, _units(request))
    return Response(content, media_type=TYPES[form], headers={"Content-Security-Policy": ONE_FILE})


async def _answered(request: Request) -> dict[str, Any]:
    """Return the answers of the job in the address, or say that there is no such job."""
    jobs: Jobs = request.app.state.jobs
    name = request.path_params["name"]
    if name not in jobs.files:
        raise HTTPException(404)
    return await run_in_threadpool(jobs.plain, name)


def _units(request: Request) -> Units:
    match request.query_params.get("units"):
        case "mm":
            return "mm"
        case "inch":
            return "inch"
    return "as-typed"


async def _fault(_request: Request, fault: Exception) -> Response:
    return _said("This job cannot be read yet", str(fault), 422)


async def our_fault(_request: Request, fault: Exception) -> Response:
    """Say on the page and on the terminal that firedeck failed, in one line and without a traceback."""
    line = shorten(f"{type(fault).__name__}: {fault}", 200)
    print(f"firedeck: {line}", file=sys.stderr, flush=True)
    return _said("This job could not be worked out", f"{line}\n{OURS}", 500)


async def _not_found(_request: Request, _fault: Exception) -> Response:
    return _said("There is no such page", "Go back to the list of jobs.", 404)


def _said(title: str, lines: str, status: int) -> Response:
    return HTMLResponse(str(fault_page(title, lines.splitlines())), status_code=status)
