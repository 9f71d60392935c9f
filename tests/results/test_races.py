"""Several tables at once on a real server: one result a bout, nothing lost, no number twice."""

import base64
import json
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest

from tests.conftest import Site
from tests.results.championship import document


@pytest.fixture
def spring(site: Site, tmp_path: Path) -> str:
    """The address of a tournament of one weight of 16 on a server of its own."""
    path = tmp_path / "spring.json"
    path.write_text(json.dumps(document(entries=16)))
    site.manage("load_tournament", str(path))
    return f"{site.address}/api/v1/tournaments/spring"


def ask(site: Site, url: str, body: Any = None, key: str = "") -> tuple[int, Any]:
    """Status and JSON of a request with the login of this run."""
    token = base64.b64encode(f"{site.user}:{site.password}".encode()).decode()
    told = {"Authorization": f"Basic {token}", "Content-Type": "application/json"}
    sent = None if body is None else json.dumps(body).encode()
    request = Request(url, sent, told | ({"Idempotency-Key": key} if key else {}))
    try:
        with urlopen(request, timeout=60) as answer:
            return answer.status, json.load(answer)
    except HTTPError as refusal:
        return refusal.code, json.load(refusal)


def test_many_tables_enter_results_at_once(site: Site, spring: str) -> None:
    """Bouts 1 to 8 from eight tables, each sent four times under four keys: 32 posts at once."""

    def send(number: int, attempt: int) -> int:
        body = {"kind": "decision", "score": [5, 3], "winner": ("top", "bottom")[attempt % 2]}
        return ask(site, f"{spring}/bouts/{number}/result/", body, f"{number}/{attempt}")[0]

    with ThreadPoolExecutor(8) as tables:
        sent = [
            (number, tables.submit(send, number, attempt))
            for attempt in range(4)
            for number in range(1, 9)
        ]
    answers: dict[int, list[int]] = {}
    for number, done in sent:
        answers.setdefault(number, []).append(done.result())
    assert all(sorted(found) == [201, 409, 409, 409] for found in answers.values()), answers
    _, log = ask(site, f"{spring}/acts/?after=0")
    assert [act["seq"] for act in log["items"]] == list(range(1, 10))
    standing = json.loads(site.manage("dump_tournament", "spring"))
    assert len(standing["results"]) == 8
    second = [bout for bout in standing["bouts"] if bout["round"] == "QF"]
    assert all(None not in bout["sides"] for bout in second)
