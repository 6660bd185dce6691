"""Where everything lies: the addresses the pages link to, safe for every file name."""

from urllib.parse import quote, urlencode


def of_job(job: str, units: str = "") -> str:
    """Return the address of a job, in one family of units when given."""
    return _with(f"/job/{quote(job, safe='')}", units=units)


def of_answer(job: str, place: int, units: str, revision: str) -> str:
    """Return the address of one answer, as it was when the page was made."""
    return _with(f"{of_job(job)}/answer/{place}", units=units, revision=revision)


def of_work(job: str, end: str = "") -> str:
    """Return the address of what takes long for a job, or of its end."""
    return f"{of_job(job)}/rings" + (f"/{end}" if end else "")


def of_sheet(job: str, sheet: str, form: str, units: str) -> str:
    """Return the address of a sheet to print."""
    return _with(f"{of_job(job)}/sheet/{sheet}.{form}", units=units)


def on_page(place: int) -> str:
    """Return the name of an answer's place on the page of its job."""
    return f"answer-{place}"


def _with(address: str, **asked: str) -> str:
    said = urlencode({key: value for key, value in asked.items() if value})
    return f"{address}?{said}" if said else address
