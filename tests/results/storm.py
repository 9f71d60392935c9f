"""Requests that no careful program would send, made of what the schema says and of junk."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from tests.results.interface import published_schema

TEXTS = (
    *("", " ", "x", "125", "1", "0", "-1", "t1", "125-1", "open", "spring", "owner", "fall"),
    *("1.5", "NaN", "Infinity", "1e400", "9" * 40, "٣", "é", "\U0001f93c", "a" * 5000, "true"),
    *("2026-03-19", "2026-02-30", "0000-00-00", "1:05", "99:99", "America/Chicago", "../../etc"),
    *("125.R1-1", "125.R1-0", "R1-1", "a.b.c", "college-2025", "team_points.byes", "%", "' or 1"),
    *("bracket.places", "weights.sets", "results", "team_points.placement.4", "top", "\u202e"),
)
NUMBERS = (0, 1, 2, -1, 3.5, 2**31, 2**63, 2**64, -(2**63), 1e308, 999)
FILES = (
    b"",
    b"Given name,Family name,Weight,Team\nAda,Alder,125,Ash\n",
    b"a,b\n\x00,\xff\n",
    b"PK\x03\x04junk",
    b"Weight\n125\n125\n",
    b"Date,Weight,Winner,Winner team,Loser,Loser team,Result\n2026-13-41,1,A,B,C,D,Fall\n",
    "\ufeffGiven name;Family name;Weight;Team\nÉ;Ö;125;Ash\n".encode("utf-16"),
)


@dataclass
class Storm:
    """A source of requests; the same seed makes the same ones.

    `known` holds, by the name of a parameter or field, what a tournament really has; `document`
    is a tournament file.
    """

    chance: Random
    known: Mapping[str, list[str]]
    document: Mapping[str, Any]
    send: Callable[[str, str, Any, str], Any]
    statuses: dict[int, int] = field(default_factory=dict)

    def blow(self, count: int) -> None:
        """Send so many requests; `send` judges the answers."""
        every = [
            (path, method, operation)
            for path, methods in published_schema()["paths"].items()
            for method, operation in methods.items()
        ]
        for _ in range(count):
            path, method, operation = self.chance.choice(every)
            answer = self.send(
                method, self._path(path, operation), self._sent(method, operation), self._match()
            )
            self.statuses[answer.status_code] = self.statuses.get(answer.status_code, 0) + 1

    def _path(self, path: str, operation: Mapping[str, Any]) -> str:
        query = []
        for one in operation.get("parameters", ()):
            if one["in"] == "path":
                path = path.replace(f"{{{one['name']}}}", self._part(one["name"]))
            elif one["in"] == "query" and self.chance.random() < 0.3:
                query.append(f"{one['name']}={self._quoted(self._text())}")
        if self.chance.random() < 0.05:
            query.append(f"{self._quoted(self._text())}=1")
        return f"{path}?{'&'.join(query)}" if query else path

    def _part(self, name: str) -> str:
        if self.chance.random() < 0.9:
            return self.chance.choice(self.known.get(name) or ["x"])
        return self._quoted(self._text()) or "x"

    def _quoted(self, text: str) -> str:
        return "".join(f"%{byte:02X}" for byte in text[:200].encode()).replace("%2F", "-")

    def _match(self) -> str:
        return self.chance.choice([*[""] * 30, '"1"', "*", 'W/"seq1.a"', '"x"', "9" * 30])

    def _sent(self, method: str, operation: Mapping[str, Any]) -> Any:
        content = operation.get("requestBody", {}).get("content", {})
        if not content:
            bare = method == "get" or self.chance.random() < 0.9
            return None if bare else self._junk(2)
        shape = next(iter(content.values()))["schema"]
        made = self._like(shape, 6)
        if "multipart/form-data" in content:
            data = self.chance.choice(FILES)
            name = self.chance.choice(["a.csv", "a.xlsx", "a", "a.exe", "ä.CSV"])
            return {"file": SimpleUploadedFile(name, data), "strict": self._text()[:9]}
        return made

    def _like(self, shape: Mapping[str, Any], depth: int) -> Any:
        """Something of the shape, in places not."""
        if depth == 0 or self.chance.random() < 0.02:
            return self._junk(2)
        if "$ref" in shape:
            name = shape["$ref"].rpartition("/")[2]
            return self._like(published_schema()["components"]["schemas"][name], depth)
        for word in ("allOf", "oneOf", "anyOf"):
            if word in shape:
                return self._like(self.chance.choice(shape[word]), depth)
        if "enum" in shape:
            return self.chance.choice(shape["enum"])
        return self._of_type(shape, depth)

    def _field(self, name: str, shape: Mapping[str, Any], depth: int) -> Any:
        if name == "document":
            return self._bent(self.document, self.chance.choice([0.0, 0.001, 0.02]))
        if name in self.known and shape.get("type") == "string" and self.chance.random() < 0.8:
            return self.chance.choice(self.known[name])
        return self._like(shape, depth)

    def _bent(self, value: Any, often: float) -> Any:
        """The document with some of its parts replaced, doubled or left out."""
        if self.chance.random() < often:
            return self._junk(2)
        if isinstance(value, Mapping):
            kept = [name for name in value if self.chance.random() >= often]
            return {name: self._bent(value[name], often) for name in kept}
        if isinstance(value, list):
            found = [self._bent(item, often) for item in value]
            twice = found and self.chance.random() < often
            return [*found, found[0]] if twice else found
        return value

    def _of_type(self, shape: Mapping[str, Any], depth: int) -> Any:
        kinds = shape.get("type", "object")
        kind = self.chance.choice(kinds) if isinstance(kinds, list) else kinds
        if kind == "object" and "properties" in shape:
            needed = shape.get("required", ())
            return {
                name: self._field(name, inner, depth - 1)
                for name, inner in shape["properties"].items()
                if self.chance.random() < (0.97 if name in needed else 0.5)
            }
        if kind == "object":
            return {self._text(): self._junk(2) for _ in range(self.chance.randint(0, 2))}
        if kind == "array":
            most = self.chance.randint(0, 3)
            return [self._like(shape["items"], depth - 1) for _ in range(most)]
        if kind == "boolean":
            return self.chance.random() < 0.5
        if kind in ("integer", "number"):
            return self.chance.choice(NUMBERS)
        return None if kind == "null" else self._text()

    def _text(self) -> str:
        if self.chance.random() < 0.4:
            names = [name for listed in self.known.values() for name in listed]
            return self.chance.choice(names)
        return self.chance.choice(TEXTS)

    def _junk(self, depth: int) -> Any:
        if depth and self.chance.random() < 0.3:
            return [self._junk(depth - 1) for _ in range(self.chance.randint(0, 3))]
        if depth and self.chance.random() < 0.3:
            return {self._text(): self._junk(depth - 1) for _ in range(self.chance.randint(0, 3))}
        return self.chance.choice([None, True, False, *NUMBERS, *TEXTS])
