"""Every published check prints where its figures come from."""

import pytest


@pytest.fixture(autouse=True)
def prints_its_source(request: pytest.FixtureRequest) -> None:
    callspec = getattr(request.node, "callspec", None)
    row = callspec.params.get("row") if callspec else None
    if row is not None:
        assert row["source"], f"{row['id']} names no source"
        print(f"{row['id']}: {row['source']}")
